"""The cheapest way to cover a need from packs of given sizes: exact, whatever units the sizes come in.

An unbounded covering knapsack, worked by dynamic programming over whole multiples of the sizes' common measure. Sizes
without a useful common measure (pounds beside kilograms) are worked in groups, and the groups' plans combined.
Better means: cheaper, then less left over, then fewer packs.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from core.errors import OutOfRange

MOST_UNITS = 20_000  # steps of one group's table
MOST_MIXES = 20_000  # plans of several groups that are compared


@dataclass(frozen=True, slots=True)
class Cover:
    """How many of each offer, in the order given; what they cost and hold together."""

    counts: tuple[int, ...]
    cost: Decimal
    covered: Decimal

    @property
    def packs(self) -> int:
        """How many packs in all."""
        return sum(self.counts)


@dataclass(frozen=True, slots=True)
class _Offer:
    """`place` in the list given; size and cost in whole units."""

    place: int
    size: int
    cost: int


@dataclass(frozen=True, slots=True)
class _Plan:
    """Packs chosen so far; `key` orders plans: (cost, covered, packs). `picks` are places in tables, counted when asked
    for; `sure` the (place, count) chosen outright."""

    key: tuple[int, int, int] = (0, 0, 0)
    picks: tuple[tuple[_Table, int], ...] = ()
    sure: tuple[tuple[int, int], ...] = ()

    def plus(self, other: _Plan) -> _Plan:
        """Both together."""
        a, b = self.key, other.key
        return _Plan((a[0] + b[0], a[1] + b[1], a[2] + b[2]), self.picks + other.picks, self.sure + other.sure)

    def counts(self, offers: int) -> tuple[int, ...]:
        """How many of each of the offers, by their place."""
        out = [0] * offers
        for place, count in (*self.sure, *(pair for table, at in self.picks for pair in table.packs(at))):
            out[place] += count
        return tuple(out)


def cheapest_cover(need: Decimal, offers: Sequence[tuple[Decimal, Decimal]]) -> Cover:
    """The best way to reach at least `need` with offers of (size, cost), sizes and need above zero, costs not below it.

    Raises OutOfRange where there are too many mixes to compare.
    """
    sizes, goal = _whole([*(size for size, _ in offers), need])
    costs, _ = _whole([*(cost for _, cost in offers), Decimal(0)])
    kept = _worth_it([_Offer(i, size, cost) for i, (size, cost) in enumerate(zip(sizes, costs, strict=True))])
    counts = _best(goal, kept).counts(len(offers))
    chosen = list(zip(counts, offers, strict=True))
    return Cover(
        counts,
        sum((count * cost for count, (_, cost) in chosen), Decimal(0)),
        sum((count * size for count, (size, _) in chosen), Decimal(0)),
    )


def _whole(values: Sequence[Decimal]) -> tuple[list[int], int]:
    """All values as whole multiples of one unit; the last one apart."""
    exact = [Fraction(value) for value in values]
    below = math.lcm(*(value.denominator for value in exact))
    whole = [int(value * below) for value in exact]
    unit = math.gcd(*whole) or 1  # small numbers add faster
    return [value // unit for value in whole[:-1]], whole[-1] // unit


def _worth_it(offers: Iterable[_Offer]) -> list[_Offer]:
    """Without those that cost more than one of at least their size, and without doubles: they are never needed."""
    kept: list[_Offer] = []
    for each in sorted(offers, key=lambda offer: (-offer.size, offer.cost)):
        if all(each.cost <= other.cost and (each.size, each.cost) != (other.size, other.cost) for other in kept):
            kept.append(each)
    return kept


def _best(goal: int, offers: list[_Offer]) -> _Plan:
    unit = math.gcd(*(offer.size for offer in offers))
    surely = _surely(goal, offers, unit)
    if -(-(goal - surely.key[1]) // unit) <= MOST_UNITS:
        return surely.plus(_Table(offers, unit, goal - surely.key[1], exact=False).plan(goal - surely.key[1]))
    return _combined(goal, _groups(goal, offers))


def _surely(goal: int, offers: list[_Offer], unit: int) -> _Plan:
    """Packs of the best value that some best plan is sure to hold, for a need that is very large.

    Of any n packs some have sizes adding up to a multiple of n units; where n is the size of the best value, packs of
    that one replace them at no more cost. So fewer than n others are needed.
    """
    best = min(offers, key=lambda offer: (Fraction(offer.cost, offer.size), -offer.size))
    others = (best.size // unit - 1) * max(offer.size for offer in offers)
    count = max(0, (goal - others) // best.size)
    return _Plan((count * best.cost, count * best.size, count), (), ((best.place, count),))


class _Table:
    """The best plans of one group for every multiple of its unit up to `most`: to hold at least so much, or exactly."""

    def __init__(self, offers: list[_Offer], unit: int, most: int, *, exact: bool) -> None:
        self.offers, self.unit = offers, unit
        steps = max(0, -(-most // unit))
        sizes = [offer.size // unit for offer in offers]
        self.margin = max(sizes)
        if exact:
            steps += self.margin
        # One whole number orders plans as (cost, size, packs) does, and adds up as they do.
        self.per_size = per_size = steps + self.margin + 2
        self.per_cost = per_cost = (steps + self.margin + 1) * per_size
        self.parts = [
            (size, offer.cost * per_cost + size * per_size + 1) for size, offer in zip(sizes, offers, strict=True)
        ]
        self.unreachable = per_cost * (1 + (steps + 1) * max(offer.cost + 1 for offer in offers))
        below = self.unreachable if exact else 0
        table = [below] * self.margin + [0]
        parts = self.parts
        for at in range(self.margin + 1, self.margin + steps + 1):
            table.append(min([table[at - size] + key for size, key in parts]))
        self.table = table

    def plan(self, amount: int) -> _Plan:
        """The best plan for at least that amount."""
        return self._plan(self.margin + max(0, -(-amount // self.unit)))

    def exact_plans(self) -> Iterable[_Plan]:
        """The best plan for every amount that can be met exactly."""
        return [self._plan(at) for at in range(self.margin, len(self.table)) if self.table[at] < self.unreachable]

    def _plan(self, at: int) -> _Plan:
        cost, rest = divmod(self.table[at], self.per_cost)
        size, packs = divmod(rest, self.per_size)
        return _Plan((cost, size * self.unit, packs), ((self, at),))

    def packs(self, at: int) -> Iterable[tuple[int, int]]:
        """The packs of the plan at that place of the table, as (place, count)."""
        counts: dict[int, int] = {}
        while at > self.margin:
            for (size, key), offer in zip(self.parts, self.offers, strict=True):
                if self.table[at - size] + key == self.table[at]:
                    counts[offer.place] = counts.get(offer.place, 0) + 1
                    at = max(self.margin, at - size)
                    break
        return counts.items()


def _groups(goal: int, offers: list[_Offer]) -> list[list[_Offer]]:
    """Offers put together where their common measure stays large enough; the group with most steps last."""
    groups: list[list[_Offer]] = []
    for offer in offers:
        for group in groups:
            unit = math.gcd(offer.size, *(each.size for each in group))
            if goal // unit <= MOST_UNITS:
                group.append(offer)
                break
        else:
            groups.append([offer])
    return sorted(groups, key=lambda group: -math.gcd(*(each.size for each in group)))


def _combined(goal: int, groups: list[list[_Offer]]) -> _Plan:
    """The best plan over all groups: every exact plan of all but the last, filled up from the last."""
    units = [math.gcd(*(each.size for each in group)) for group in groups]
    if goal // units[-1] > MOST_UNITS:
        raise _too_many()
    plans = [_Plan()]
    for group, unit in zip(groups[:-1], units[:-1], strict=True):
        own = list(_Table(group, unit, goal, exact=True).exact_plans())
        if len(own) * len(plans) > MOST_MIXES:
            raise _too_many()
        plans = _frontier(goal, [plan.plus(more) for plan in plans for more in own])
    last = _Table(groups[-1], units[-1], goal, exact=False)
    best: _Plan | None = None
    for plan in plans:
        if best is None or plan.key[0] <= best.key[0]:
            whole = plan.plus(last.plan(goal - plan.key[1]))
            best = whole if best is None or whole.key < best.key else best
    assert best is not None
    return best


def _frontier(goal: int, plans: list[_Plan]) -> list[_Plan]:
    """Without plans that cost more than one that holds at least as much; of those that reach the goal, the best."""
    reaching = [plan for plan in plans if plan.key[1] >= goal]
    short = sorted((plan for plan in plans if plan.key[1] < goal), key=lambda plan: (-plan.key[1], plan.key))
    kept = [min(reaching, key=lambda plan: plan.key)] if reaching else []
    cheapest = kept[0].key[0] if kept else None
    held = None
    for plan in short:
        if plan.key[1] == held or (cheapest is not None and plan.key[0] > cheapest):
            continue
        kept.append(plan)
        held = plan.key[1]
        cheapest = plan.key[0] if cheapest is None else min(cheapest, plan.key[0])
    return kept


def _too_many() -> OutOfRange:
    return OutOfRange(
        "packs",
        "Those sizes can be mixed in too many ways to be sure of the cheapest. Leave some sizes out, or give all of "
        "them in one unit.",
    )
