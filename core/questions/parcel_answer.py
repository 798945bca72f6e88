"""How a parcel is explained: one candle, all of them with box and packing, the size beside the weight."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Result, Step, Table, Worked, line, listed
from core.compounds import Packs
from core.questions.parcel_limit import fitting, within
from core.questions.parcel_sums import Box, DivisorUnit, Sides, rounded_up, volumetric
from core.questions.steps import to_grams
from core.reference.parcels import common_divisors
from core.units import Mass, Number

if TYPE_CHECKING:
    from core.questions.parcel import ParcelQuestion

ONE_CANDLE = ("vessel", "fill", "lid")
WHOLE_PARCEL = ("packing", "box", "extra")
UNITS = {("cm3", "kg"): DivisorUnit.CM3_KG, ("in3", "lb"): DivisorUnit.IN3_LB, ("in3", "kg"): DivisorUnit.IN3_KG}
ASK_CARRIER = line("Every carrier sets its own divisor and rounding: look in its price list.")


def weighed(ask: ParcelQuestion, box: Box | None) -> Worked:
    """A parcel whose candles' weight is known, with its size where that is given."""
    candle, steps = _one_candle(ask)
    if ask.count is None and ask.limit is not None:
        return fitting(ask, candle, steps, packing_of(ask))
    count = ask.count or 1
    parcel, more = _whole_parcel(ask, candle, count)
    steps += more
    results = [Result("candle", candle), Result("parcel", parcel, ask.unit or "lb")]
    body = [*within(ask.limit, parcel), line("In other units: {0:oz}, {0:lb}, {0:lb_oz}, {0:kg}.", parcel)]
    assumed: list[Line] = []
    table = None
    head = line(f"The parcel weighs {{0:{_shown(ask, parcel)}}} ({{0:g}}).", parcel)
    if box is not None and ask.divisor is not None:
        by_size, step, told = _by_size(ask, box, ask.divisor)
        steps.append(step)
        assumed += told
        results.append(Result("volumetric", by_size, by_size.unit))
        head = _charged(ask, parcel, by_size, results, steps)
        body.append(ASK_CARRIER)
    elif box is not None:
        table = common_table(box, ask.sides or Sides.EXACT)
        body.append(line("The larger of weight and size is charged; give your carrier's divisor to see which it is."))
    elif ask.rounding is not None:
        up = rounded_up(parcel, ask.rounding)
        steps.append(_up_step(parcel, ask.rounding, up))
        results.append(Result("charged", up, up.unit))
        head = line("The parcel weighs {0}; charged as {1:typed}.", parcel, up)
    if ask.prices is not None:
        body.insert(0, _bracket(ask.prices, parcel, results))
    if ask.count is None:
        assumed.append(line("You didn't say how many candles; I took one."))
    return Worked(
        intent=ask.intent,
        headline=head,
        read_as=_read_as(ask, count),
        given=_givens(ask),
        steps=tuple(steps),
        results=tuple(results),
        body=tuple(body),
        assumed=tuple(assumed),
        check=_check(candle, count, parcel),
        table=table,
        question=ask,
    )


def _bracket(prices: Packs, parcel: Mass, results: list[Result]) -> Line:
    """The cheapest of the carrier's steps that takes the parcel."""
    fitting = [p for p in prices.items if isinstance(p.size, Mass) and p.size.base >= parcel.base and p.price]
    if not fitting:
        return line("That is more than any of the weights you named a price for.")
    least = min(fitting, key=lambda p: p.size.base)
    assert least.price is not None
    results.append(Result("price", least.price))
    return line("It goes for {0}, up to {1:typed}.", least.price, least.size)


def sized(ask: ParcelQuestion, box: Box, divisor: Number) -> Worked:
    """The size alone."""
    by_size, step, told = _by_size(ask, box, divisor)
    steps, results = [step], [Result("volumetric", by_size, by_size.unit)]
    head = line(f"By its size the parcel counts as {{0:{by_size.unit}}} ({{0:g}}).", by_size)
    if ask.rounding is not None:
        up = rounded_up(by_size, ask.rounding)
        steps.append(_up_step(by_size, ask.rounding, up))
        results.append(Result("charged_by_size", up, up.unit))
        head = line(
            f"By its size the parcel counts as {{0:typed}} ({{1:{by_size.unit}}} before rounding up).", up, by_size
        )
    return Worked(
        intent=ask.intent,
        headline=head,
        given=_givens(ask),
        steps=tuple(steps),
        results=tuple(results),
        body=(line("If the parcel weighs more than that, its weight is charged instead."), ASK_CARRIER),
        assumed=told,
        question=ask,
    )


def common_table(box: Box, sides: Sides) -> Table:
    """What the size counts as with divisors in common use."""
    rows = []
    for each in common_divisors():
        unit = UNITS[(each.volume, each.weight)]
        by_size = volumetric(box, Number(each.value), unit, sides)
        rows.append((each.key, line("{0} {1}", each.value, Line(unit.value)), line(f"{{0:{unit.weight}}}", by_size)))
    return Table(
        "What the size counts as with divisors in common use",
        ("Used for", "Divisor", "Counts as"),
        tuple(rows),
        line("Every carrier sets its own; ask yours before you rely on one of these."),
    )


def _one_candle(ask: ParcelQuestion) -> tuple[Mass, list[Step]]:
    if ask.candle is not None:
        return ask.candle, list(to_grams("one candle", ask.candle))
    parts = [mass for what in ONE_CANDLE if (mass := getattr(ask, what)) is not None]
    total = parts[0]
    for mass in parts[1:]:
        total = total + mass
    names = " + ".join(what for what in ONE_CANDLE if getattr(ask, what))
    return total, [Step(f"one candle = {names}", _plus(parts), _typed(total))]


def _whole_parcel(ask: ParcelQuestion, candle: Mass, count: int) -> tuple[Mass, list[Step]]:
    rest = [(what, mass) for what in WHOLE_PARCEL if (mass := getattr(ask, what)) is not None]
    parcel = candle * count
    for _, mass in rest:
        parcel = parcel + mass
    names = "".join(f" + {what}" for what, _ in rest)
    first = line("{0} × {1}", Decimal(count), _typed(candle))
    numbers = line("{}" + " + {}" * len(rest), first, *(_typed(mass) for _, mass in rest))
    return parcel, [Step(f"parcel = candles × one candle{names}", numbers, _typed(parcel))]


def packing_of(ask: ParcelQuestion) -> Mass | None:
    """Everything in the parcel that is no candle; None where nothing of it was weighed."""
    rest: list[Mass] = [mass for what in WHOLE_PARCEL if (mass := getattr(ask, what)) is not None]
    if not rest:
        return None
    total = rest[0]
    for mass in rest[1:]:
        total = total + mass
    return total


def _by_size(ask: ParcelQuestion, box: Box, divisor: Number) -> tuple[Mass, Step, tuple[Line, ...]]:
    unit = ask.divisor_unit or (DivisorUnit.IN3_LB if box.inches else DivisorUnit.CM3_KG)
    sides = ask.sides or Sides.EXACT
    by_size = volumetric(box, divisor, unit, sides)
    a, b, c = (Number(side) for side in box.in_unit(unit.length, sides))
    step = Step(
        "by size = length × width × height ÷ divisor",
        line("{0} × {1} × {2} ÷ {3} (" + unit.value + ")", a, b, c, divisor),
        line(f"{{0:{unit.weight}}}", by_size),
    )
    if ask.divisor_unit is not None:
        return by_size, step, ()
    return by_size, step, (line("You didn't say what the divisor is in; I took {0}.", Line(unit.value)),)


def _charged(ask: ParcelQuestion, parcel: Mass, by_size: Mass, results: list[Result], steps: list[Step]) -> Line:
    """The larger of weight and size, rounded up where the carrier does; the headline."""
    larger = max(parcel, by_size)
    charged = larger.in_unit(by_size.unit)
    if ask.rounding is not None:
        charged = rounded_up(larger, ask.rounding)
        steps.append(_up_step(larger, ask.rounding, charged))
    results.append(Result("charged", charged, charged.unit))
    weight, size = line(f"{{0:{by_size.unit}}}", parcel), line(f"{{0:{by_size.unit}}}", by_size)
    paid = _typed(charged)
    if by_size > parcel:
        return line("Charged by size: {0}. The parcel weighs {1}, its size counts as {2}.", paid, weight, size)
    return line("Charged by weight: {0}. The parcel weighs {1}, its size counts as {2}.", paid, weight, size)


def _up_step(mass: Mass, rounding: Mass, charged: Mass) -> Step:
    unit = rounding.unit if rounding.unit in ("kg", "lb") else "g"
    return Step(
        "rounded up by the carrier", line(f"{{0:{unit}}} in steps of {{1:typed}}", mass, rounding), _typed(charged)
    )


def _shown(ask: ParcelQuestion, parcel: Mass) -> str:
    """The unit the parcel's weight is named in first."""
    if ask.unit in ("kg", "lb", "lb_oz"):
        return ask.unit
    return "lb_oz" if parcel.unit in ("oz", "lb", "lb_oz") else "kg"


def _typed(mass: Mass) -> Line:
    return line("{0:kg}" if mass.unit == "kg" else "{0:lb}" if mass.unit == "lb" else "{0:typed}", mass)


def _plus(parts: list[Mass]) -> Line:
    return listed([_typed(mass) for mass in parts], " + ")


def _read_as(ask: ParcelQuestion, count: int) -> Line:
    each = _plus([mass for what in ("candle", *ONE_CANDLE) if (mass := getattr(ask, what)) is not None])
    parts = [line("{0} × {1}", Decimal(count), each if each.template == "{}" else line("({})", each))]
    parts += [line(what + " {0:typed}", mass) for what in WHOLE_PARCEL if (mass := getattr(ask, what)) is not None]
    return line("Read as: {}.", listed(parts))


def _givens(ask: ParcelQuestion) -> tuple[Given, ...]:
    names = ("candle", *ONE_CANDLE, *WHOLE_PARCEL, "length", "width", "height", "divisor", "rounding", "limit")
    out = [Given(what, value) for what in names if (value := getattr(ask, what)) is not None]
    return tuple(out) if ask.count is None else (*out, Given("count", Number(Decimal(ask.count))))


def _check(candle: Mass, count: int, parcel: Mass) -> Line | None:
    packed = parcel - candle * count
    if not packed:
        return None
    return line(
        "Check: {0:g} − {1:g} of packing = {2:g}, that is {3} × {4:g}.",
        parcel,
        packed,
        candle * count,
        Decimal(count),
        candle,
    )
