"""How a cost sheet is added up and explained: each part for the batch and for one candle."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Origin, Result, Step, Table, Worked, line, listed
from core.questions.columns import adds_up
from core.questions.known_density import Known
from core.units import Mass, Money, Number

if TYPE_CHECKING:
    from core.questions.cost import CostQuestion

EACH = ("vessel", "wick", "lid", "label", "packing")


@dataclass(frozen=True, slots=True)
class Part:
    """One line of the sheet: its cost for the batch, and the sum behind it (None where it was given outright)."""

    name: str
    cost: Money
    step: Step | None


def material_part(name: str, used: Mass, pack: Mass, price: Money, currency: str) -> Part:
    """What is used of a pack, at the pack's price."""
    cost = Money(price.base * used.base / pack.base, currency)
    numbers = line("{0:work} × {1} ÷ {2:work}", used, Money(price.base, currency), pack)
    return Part(name, cost, Step(f"{name} = weight × price ÷ pack", numbers, line("{0}", cost)))


def piece_part(name: str, price: Money, count: int, currency: str) -> Part:
    """One for each candle."""
    one = Money(price.base, currency)
    cost = one * count
    return Part(
        name,
        cost,
        Step(f"{name}s" if name != "packing" else name, line("{0} × {1}", Decimal(count), one), line("{0}", cost)),
    )


def costed(
    ask: CostQuestion, parts: Sequence[Part], oil: Mass | None, known: Known | None, notes: Sequence[Line]
) -> Worked:
    """The whole sheet."""
    total = parts[0].cost
    for part in parts[1:]:
        total = total + part.cost
    count = ask.count
    each = _over(total, count) if count is not None else None
    dearest = max(parts, key=lambda part: part.cost)
    results = [Result("cost_total", total)]
    if each is not None:
        results.append(Result("cost_per_candle", each))
    results += [Result(f"cost_{part.name}", part.cost) for part in parts]
    if ask.fragrance is None and oil is not None:
        results.append(Result("fragrance", oil))
    steps = [part.step for part in parts if part.step is not None]
    if len(parts) > 1:
        plus = listed(_in_cents([part.cost for part in parts]), " + ")
        steps.append(Step("in all", plus, line("{0}", total)))
    if each is not None and count is not None and count != 1:
        steps.append(Step("per candle = in all ÷ candles", line("{0} ÷ {1}", total, Decimal(count)), line("{0}", each)))
    body = [
        line("Counted is what goes into the batch, not what stays in the packs; your time and power are not in it.")
    ]
    if len(parts) > 1 and total:
        share = Number((dearest.cost.base / total.base * 100).quantize(Decimal(1)))
        body.insert(0, line("The largest part is the {0}: {1}, {2} % of it.", Line(dearest.name), dearest.cost, share))
    if ask.fragrance is None and oil is not None:
        body.append(line("The fragrance comes to {0}.", oil))
    return Worked(
        intent=ask.intent,
        headline=line("{0} in all, {1} per candle.", total, each)
        if each is not None and count != 1
        else line("{0} for one candle." if count == 1 else "{0} in all.", total),
        read_as=_read_as(ask),
        given=_givens(ask, known),
        steps=tuple(steps),
        results=tuple(results),
        body=(*_not_counted(ask, oil), *body),
        assumed=tuple(notes),
        table=_table(parts, total, count),
        question=ask,
    )


def _read_as(ask: CostQuestion) -> Line | None:
    """So many candles, with so much wax in each where that was given."""
    if ask.count is None or ask.count == 1:
        return None
    if ask.candle is not None and ask.wax is None:
        return line("Read as: {0} candles, {1:typed} of wax in each.", Decimal(ask.count), ask.candle)
    return line("Read as: a batch of {0} candles.", Decimal(ask.count))


def _not_counted(ask: CostQuestion, oil: Mass | None) -> tuple[Line, ...]:
    """What goes in but has no price."""
    free = [
        name
        for name, there, price in (
            ("wax", ask.wax or ask.candle, ask.wax_price),
            ("fragrance", oil, ask.fragrance_price),
        )
        if there is not None and price is None
    ]
    return (line("Not counted, as I have no price: the " + " and the ".join(free) + "."),) if free else ()


def _givens(ask: CostQuestion, known: Known | None) -> tuple[Given, ...]:
    names = ("wax", "candle", "wax_price", "wax_pack", "fragrance", "fragrance_price", "fragrance_pack", *EACH, "other")
    out = [Given(what, value) for what in names if (value := getattr(ask, what)) is not None]
    if ask.load is not None:
        out.append(Given("load", ask.load.percent, Origin.ASKED))
    if known is not None:
        out.append(Given("density", known.density, known.origin, known.source))
    return tuple(out)


def _table(parts: Sequence[Part], total: Money, count: int | None) -> Table | None:
    """Each part for the batch and per candle; none for a single part."""
    if len(parts) < 2:
        return None
    names = [*(part.name for part in parts), "in all"]
    columns = [[*_in_cents([part.cost for part in parts]), total]]
    if count is not None:
        columns.append([*_in_cents([_over(part.cost, count) for part in parts]), _over(total, count)])
    headings = ("Part", "Batch", "Per candle")[: 1 + len(columns)]
    note = line("Rounded so that each column adds up.")
    return Table("Cost of the batch", headings, tuple(zip(names, *columns, strict=True)), note)


def _over(cost: Money, count: int) -> Money:
    return Money(cost.base / count, cost.unit)


def _in_cents(costs: Sequence[Money]) -> list[Money]:
    """Rounded so that they add up to their rounded total."""
    cents = adds_up([cost.base for cost in costs], Decimal("0.01"))
    return [Money(amount, cost.unit) for amount, cost in zip(cents, costs, strict=True)]
