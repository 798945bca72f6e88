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
from itertools import islice
from operator import add
from typing import NamedTuple

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


class _Plan(NamedTuple):
    """Packs chosen so far; plans are ordered by their first three. `picks` are places in tables, counted when asked
    for; `sure` the (place, count) chosen outright."""

    cost: int = 0
    held: int = 0
    packs: int = 0
    picks: tuple[tuple[_Table, int], ...] = ()
    sure: tuple[tuple[int, int], ...] = ()

    @property
    def key(self) -> tuple[int, int, int]:
        """What plans are ordered by."""
        return self[:3]

    def plus(self, other: _Plan) -> _Plan:
        """Both together."""
        return _Plan(
            self.cost + other.cost,
            self.held + other.held,
            self.packs + other.packs,
            self.picks + other.picks,
            self.sure + other.sure,
        )

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
    """A pack that is enough by itself stands alone: with another one beside it costs no less and leaves more over."""
    enough = [_Plan(one.cost, one.size, 1, (), ((one.place, 1),)) for one in offers if one.size >= goal]
    smaller = [offer for offer in offers if offer.size < goal]
    return min([*enough, *([_mixed(goal, smaller)] if smaller else [])], key=lambda plan: plan.key)


def _mixed(goal: int, offers: list[_Offer]) -> _Plan:
    """The best mix of packs that are each smaller than the goal."""
    unit = math.gcd(*(offer.size for offer in offers))
    surely = _surely(goal, offers, unit)
    left = goal - surely.held
    if -(-left // unit) <= MOST_UNITS:
        return surely.plus(_Table(offers, unit, left, exact=False).plan(left))
    return _combined(goal, _groups(goal, offers))


def _surely(goal: int, offers: list[_Offer], unit: int) -> _Plan:
    """Packs of the best value that some best plan is sure to hold, for a need that is very large.

    Of any n packs some have sizes adding up to a multiple of n units; where n is the size of the best value, packs of
    that one replace them at no more cost. So fewer than n others are needed.
    """
    best = min(offers, key=lambda offer: (Fraction(offer.cost, offer.size), -offer.size))
    others = (best.size // unit - 1) * max(offer.size for offer in offers)
    count = max(0, (goal - others) // best.size)
    return _Plan(count * best.cost, count * best.size, count, (), ((best.place, count),))


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
        table = [self.unreachable if exact else 0] * self.margin + [0]
        keys = [key for _, key in self.parts]
        # One reader of the growing table for each size, each that far behind its end.
        behind = [islice(table, self.margin + 1 - size, None) for size in sizes]
        for _, before in zip(range(steps), zip(*behind, strict=False), strict=False):
            table.append(min(map(add, before, keys)))
        self.table = table

    def plan(self, amount: int) -> _Plan:
        """The best plan for at least that amount."""
        return self._plan(self.margin + max(0, -(-amount // self.unit)))

    def key(self, amount: int) -> tuple[int, int, int]:
        """Cost, size and packs of the best plan for at least that amount; quicker than the plan itself."""
        return self._key(self.margin + max(0, -(-amount // self.unit)))

    def _key(self, at: int) -> tuple[int, int, int]:
        cost, rest = divmod(self.table[at], self.per_cost)
        size, packs = divmod(rest, self.per_size)
        return cost, size * self.unit, packs

    def exact_plans(self, goal: int) -> list[_Plan]:
        """The best plan for every amount that can be met exactly (`exact` up to the goal), without those that another
        one makes needless: of those that reach the goal all but the best, below it those that cost more than one that
        holds at least as much."""
        table = self.table
        reach = self.margin - (-goal // self.unit)
        best = min(range(reach, len(table)), key=table.__getitem__)
        kept = [best] if table[best] < self.unreachable else []
        cheapest = table[best] // self.per_cost
        for at in range(reach - 1, self.margin - 1, -1):
            cost = table[at] // self.per_cost
            if cost <= cheapest and table[at] < self.unreachable:
                kept.append(at)
                cheapest = cost
        return [self._plan(at) for at in kept]

    def _plan(self, at: int) -> _Plan:
        return _Plan(*self._key(at), ((self, at),))

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
        own = _Table(group, unit, goal, exact=True).exact_plans(goal)
        if len(own) * len(plans) > MOST_MIXES:
            raise _too_many()
        plans = _frontier(goal, [plan.plus(more) for plan in plans for more in own]) if len(plans) > 1 else own
    last = _Table(groups[-1], units[-1], goal, exact=False)
    return _filled_up(goal, plans, last)


def _filled_up(goal: int, plans: Iterable[_Plan], last: _Table) -> _Plan:
    """The best of the plans once each is filled up to the goal from the last table."""
    best: tuple[int, int, int] | None = None
    chosen = _Plan()
    for plan in plans:
        if best is None or plan.cost <= best[0]:
            cost, held, packs = last.key(goal - plan.held)
            whole = (plan.cost + cost, plan.held + held, plan.packs + packs)
            if best is None or whole < best:
                best, chosen = whole, plan
    return chosen.plus(last.plan(goal - chosen.held))


def _frontier(goal: int, plans: list[_Plan]) -> list[_Plan]:
    """Without plans that cost more than one that holds at least as much; of those that reach the goal, the best."""
    reaching = [plan for plan in plans if plan.held >= goal]
    short = sorted((plan for plan in plans if plan.held < goal), key=lambda plan: (-plan.held, plan.key))
    kept = [min(reaching, key=lambda plan: plan.key)] if reaching else []
    cheapest = kept[0].cost if kept else None
    held = None
    for plan in short:
        if plan.held == held or (cheapest is not None and plan.cost > cheapest):
            continue
        kept.append(plan)
        held = plan.held
        cheapest = plan.cost if cheapest is None else min(cheapest, plan.cost)
    return kept


def _too_many() -> OutOfRange:
    return OutOfRange(
        "packs",
        "Those sizes can be mixed in too many ways to be sure of the cheapest. Leave some sizes out, or give all of "
        "them in one unit.",
    )
