"""Two amounts of a kind beside each other, and a reading moved by some degrees."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from core.answer import Given, Line, Result, Step, Worked, line
from core.questions.convert_answer import HOT, HOT_CAUTION, WAYS, refuse_below_zero, shown, usual_unit
from core.questions.household import country_assumed
from core.units import Length, Mass, Temperature, TemperatureDifference, Volume
from core.writing import SYMBOLS, rounded

if TYPE_CHECKING:
    from core.questions.convert import ConvertQuestion

Measure = TypeVar("Measure", Mass, Volume, Length)


def readings_compared(ask: ConvertQuestion, one: Temperature, other: Temperature, to: str) -> Worked:
    """Two readings on one scale, and how far apart they are."""
    for reading in (one, other):
        refuse_below_zero(reading)
    scale = to or one.unit
    change = TemperatureDifference(other.base - one.base, f"delta_{scale}" if scale != "kelvin" else "delta_degC")
    apart = TemperatureDifference(abs(change.base), change.unit)
    by = line(f"{{0:{apart.unit}}}", apart)
    if one.unit == other.unit:
        own = TemperatureDifference(apart.base, "delta_degF" if one.unit == "degF" else "delta_degC")
        in_own = line(f"{{0:{own.unit}}}", own)
        words = "From {0} to {1} is a change of {2}" + (", or {3}." if own.unit != apart.unit else ".")
        headline = line(words, _typed(one), _typed(other), in_own, by)
        steps = [Step("change = one reading − the other", line("{0} − {1}", *_sorted(one, other)), in_own)]
        if own.unit != apart.unit:
            steps.append(Step(*_scaled(own)))
    else:
        side = "the same" if not change else "hotter" if one.base > other.base else "cooler"
        words = "{0} is {1}, so {2} is " + ("the same." if not change else f"{{3}} {side}.")
        headline = line(words, _typed(other), line(f"{{0:{scale}}}", other), line(f"{{0:{scale}}}", one), by)
        steps = [_reading_step(each, scale) for each in (one, other) if each.unit != scale]
    hot = max(one.base, other.base) >= HOT
    return Worked(
        intent=ask.intent,
        headline=headline,
        read_as=line("Read as: {0} beside {1}, in {2}.", _typed(one), _typed(other), SYMBOLS[scale]),
        given=(Given("temperature", one), Given("temperature", other)),
        steps=tuple(steps),
        results=(
            Result("temperature", one, scale),
            Result("temperature", other, scale),
            *(Result("temperature", each, beside.unit) for each, beside in ((one, other), (other, one))),
            Result("difference", apart, apart.unit),
        ),
        cautions=(HOT_CAUTION,) if hot else (),
        question=ask,
    )


def moved(ask: ConvertQuestion, start: Temperature, change: TemperatureDifference, to: str) -> Worked:
    """A reading so many degrees above or below another one."""
    end = Temperature(start.base + change.base, start.unit)
    for reading in (start, end):
        refuse_below_zero(reading)
    size = TemperatureDifference(abs(change.base), change.unit)
    side = "below" if change.base < 0 else "above"
    scale = to or usual_unit(start)
    own = "delta_degF" if start.unit == "degF" else "delta_degC"
    sign = "−" if change.base < 0 else "+"
    steps = [Step(*_scaled(size))] if own != change.unit else []
    result = line(f"{{0:{start.unit}}}", end)
    steps.append(Step(f"reading {sign} change", line(f"{{0}} {sign} {{1}}", _typed(start), _in(size, own)), result))
    if scale != start.unit:
        steps.append(_reading_step(end, scale))
    also = f" That is {{3:{scale}}}." if scale != start.unit else ""
    return Worked(
        intent=ask.intent,
        headline=line(
            f"{{0:{change.unit}}} {side} {{1}} is {{2}}.{also}", size, _typed(start), result, end.in_unit(scale)
        ),
        read_as=line(
            f"Read as: {{0:{change.unit}}} {side} {{1}}, wanted in {{2}}.", size, _typed(start), SYMBOLS[scale]
        ),
        given=(Given("temperature", start), Given("change", change)),
        steps=tuple(steps),
        results=(Result("temperature", end, scale), Result("temperature", end, start.unit)),
        cautions=(HOT_CAUTION,) if end.base >= HOT else (),
        question=ask,
    )


def amounts_compared(ask: ConvertQuestion, one: Measure, other: Measure, to: str) -> Worked:
    """Two weights, volumes or lengths in one unit, and by how much they differ."""
    unit = to or ("ml" if isinstance(one, Volume) else one.unit)
    unit = "lb" if unit == "lb_oz" else unit
    apart = type(one)(abs(one.base - other.base))
    each = [line("{0:typed} is {1}", item, shown(item.to(unit), unit)) for item in (one, other)]
    if not apart:
        difference = line("they are the same")
    else:
        more = "more" if one.base > other.base else "less"
        difference = line(f"the first is {{0}} {more}", shown(apart.to(unit), unit))
    results = [Result("one", one, unit), Result("other", other, unit), Result("difference", apart, unit)]
    if other.unit != unit:
        results.append(Result("one", one, other.unit))
    return Worked(
        intent=ask.intent,
        headline=line("{0}, {1}: {2}.", *each, difference),
        read_as=line("Read as: {0:typed} beside {1:typed}.", one, other),
        given=(Given("one", one), Given("other", other)),
        steps=(
            Step("difference = the larger − the smaller", _subtraction(one, other, unit), shown(apart.to(unit), unit)),
        ),
        results=tuple(results),
        assumed=tuple(dict.fromkeys((*_country(one), *_country(other)))),
        question=ask,
    )


def _country(amount: Mass | Volume | Length) -> tuple[Line, ...]:
    return country_assumed(amount) if isinstance(amount, Volume) else ()


def _subtraction(one: Measure, other: Measure, unit: str) -> Line:
    large, small = (one, other) if one.base >= other.base else (other, one)
    return line("{0} − {1}", shown(large.to(unit), unit), shown(small.to(unit), unit))


def _typed(reading: Temperature) -> Line:
    return line(f"{{0:{reading.unit}}}", reading)


def _in(change: TemperatureDifference, unit: str) -> Line:
    return line(f"{{0:{unit}}}", change)


def _sorted(one: Temperature, other: Temperature) -> tuple[Line, Line]:
    high, low = (one, other) if one.base >= other.base else (other, one)
    return _typed(high), _typed(low)


def _scaled(change: TemperatureDifference) -> tuple[str, Line, Line]:
    """The step that turns degrees of a change into those of the other scale."""
    if change.unit == "delta_degF":
        number = line("{0} × 5 ÷ 9", rounded(change.to("delta_degF"), 6))
        return "a change in °C = change in °F × 5 ÷ 9", number, _in(change, "delta_degC")
    return (
        "a change in °F = change in °C × 9 ÷ 5",
        line("{0} × 9 ÷ 5", rounded(change.base, 6)),
        _in(change, "delta_degF"),
    )


def _reading_step(reading: Temperature, scale: str) -> Step:
    way, numbers = WAYS.get((reading.unit, scale), ("", "{0}"))
    return Step(way, line(numbers, rounded(reading.to(reading.unit), 6)), line(f"{{0:{scale}}}", reading))
