"""How a conversion is explained: the one factor, the sum, the way back."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Caution, Given, Line, Result, Step, Worked, line
from core.errors import OutOfRange
from core.questions.household import WORDS, country_assumed
from core.units import UNSAID, Length, Mass, Temperature, TemperatureDifference, Volume, factor, kind_of
from core.writing import SYMBOLS, rounded, significant

if TYPE_CHECKING:
    from core.questions.convert import ConvertQuestion

Measured = Mass | Volume | Length
# Where no unit is asked for: the units shown, for what was given.
USUAL = {
    **dict.fromkeys(("g", "mg", "kg", "t"), "oz"),
    **dict.fromkeys(("ml", "cl", "dl", "l"), "us_fl_oz"),
    **dict.fromkeys(("mm", "cm"), "in"),
    "m": "ft",
    "ft": "m",
    "in": "cm",
    "degC": "degF",
    "delta_degC": "delta_degF",
}
METRIC = {"ml", "cl", "dl", "l", "metric_cup", "metric_tbsp", "metric_tsp"}
# Hot enough for wax to be molten (paraffin melts at 46 to 68 °C, occupational database).
HOT = Decimal(60)
ABSOLUTE_ZERO = Decimal("-273.15")


def usual_unit(amount: Measured | Temperature | TemperatureDifference) -> str:
    """The unit to show an amount in when none was asked for."""
    fallback = {Mass: "g", Volume: "ml", Length: "cm", Temperature: "degC", TemperatureDifference: "delta_degC"}
    return USUAL.get(amount.unit, fallback[type(amount)])


def shown(number: Decimal, unit: str) -> Line:
    """A number in a unit, to two decimals, or three digits of a small one."""
    figure = rounded(number, 2) if abs(number) >= 1 or not number else significant(number, 3)
    symbol = SYMBOLS.get(unit, unit)
    if figure == 1 and symbol.endswith("s") and len(symbol) > 2:
        symbol = symbol[:-1]
    return line(f"{{}} {symbol}", figure)


def measured_worked(ask: ConvertQuestion, amount: Measured, to: str) -> Worked:
    """A weight, volume or length in another unit of its kind."""
    source = "lb" if amount.unit == "lb_oz" else amount.unit
    number = amount.to(source)
    target = "lb" if to == "lb_oz" else to
    result = shown(amount.to(target), target) if to != "lb_oz" else line("{0:lb_oz}", amount)
    what = {Mass: "mass", Volume: "volume", Length: "length"}[type(amount)]
    body: tuple[Line, ...] = ()
    if isinstance(amount, Mass):
        body = _pounds(amount, to)
        if amount.unit == "lb_oz":
            body = (line("{0:typed} is {1}.", amount, shown(number, "lb")), *body)
    return Worked(
        intent=ask.intent,
        headline=line("{0:typed} is {1}.", amount, result),
        read_as=line("Read as: {0:typed}, wanted in {1}.", amount, Line(_plural(to))),
        given=(Given(what, amount),),
        steps=_factor_step(amount, number, source, target),
        results=(Result(what, amount, target),),
        body=body,
        other=_other_countries(amount, to) if isinstance(amount, Volume) else (),
        assumed=_countries_assumed(amount, to) if isinstance(amount, Volume) else (),
        check=_check(amount, source, target),
        see=("ounces",) if {source, target} & {"oz", "fl_oz", "us_fl_oz", "imp_fl_oz"} else (),
        question=ask,
    )


def _plural(unit: str) -> str:
    return "pounds and ounces" if unit == "lb_oz" else SYMBOLS.get(unit, unit)


def _one(source: str, target: str) -> tuple[Decimal, bool]:
    """The factor between two units as a number above one, and whether it multiplies."""
    kind = kind_of(source)
    assert kind is not None
    ratio = factor(source, kind.BASE) / factor(target, kind.BASE)
    return (ratio, True) if ratio >= 1 else (1 / ratio, False)


def _factor_step(amount: Measured, number: Decimal, source: str, target: str) -> tuple[Step, ...]:
    if UNSAID.get(source, source) == UNSAID.get(target, target):
        return ()
    by, times = _one(source, target)
    one = significant(by, 7)
    big, small = (source, target) if times else (target, source)
    typed = rounded(number, 6) if abs(number) >= Decimal("0.001") or not number else significant(number, 4)
    return (
        Step(
            f"1 {_single(big)} = {format(one.normalize(), 'f')} {_plural(small)}",
            line("{0} × {1}" if times else "{0} ÷ {1}", typed, one),
            shown(amount.to(target), target),
        ),
    )


def _single(unit: str) -> str:
    symbol = SYMBOLS.get(unit, unit)
    return symbol[:-1] if symbol.endswith("s") and len(symbol) > 2 else symbol


def _check(amount: Measured, source: str, target: str) -> Line | None:
    if UNSAID.get(source, source) == UNSAID.get(target, target) or not amount:
        return None
    by, times = _one(source, target)
    back = "÷" if times else "×"
    number = amount.to(target)
    return line(
        f"Check: {{0}} {back} {{1}} = {{2}}.", significant(number, 7), significant(by, 7), line("{0:typed}", amount)
    )


def _pounds(mass: Mass, to: str) -> tuple[Line, ...]:
    """Pounds and ounces, where a weight has come out in one of them and is large."""
    if to not in ("oz", "lb") or abs(mass.oz) < 16:
        return ()
    return (line("On a scale with pounds and ounces: {0:lb_oz}.", mass),)


def _other_countries(volume: Volume, to: str) -> tuple[Line, ...]:
    """The same with imperial (and metric) measures, wherever it was not said whose are meant."""
    unsaid = volume.unit in UNSAID
    if not unsaid and to not in UNSAID:
        return ()
    out: list[Line] = []
    for country in ("imp", "metric"):
        source = f"{country}_{volume.unit}" if unsaid else volume.unit
        target = f"{country}_{to}" if to in UNSAID else to
        if country == "metric" and not {source, target} <= METRIC:
            continue
        other = Volume.of(volume.to(volume.unit), source)
        out.append(line("{0:typed} is {1}.", other, shown(other.to(target), target)))
    return tuple(out)


def _countries_assumed(volume: Volume, to: str) -> tuple[Line, ...]:
    """One sentence for what was given, or else for the unit wanted."""
    given = country_assumed(volume)
    return given or country_assumed(Volume.of(1, to) if to in WORDS else None)


# How a reading goes from one scale to another: the formula, and the sum of one number.
WAYS: dict[tuple[str, str], tuple[str, str]] = {
    ("degF", "degC"): ("°C = (°F − 32) × 5 ÷ 9", "({0} − 32) × 5 ÷ 9"),
    ("degC", "degF"): ("°F = °C × 9 ÷ 5 + 32", "{0} × 9 ÷ 5 + 32"),
    ("degC", "kelvin"): ("K = °C + 273.15", "{0} + 273.15"),
    ("kelvin", "degC"): ("°C = K − 273.15", "{0} − 273.15"),
    ("kelvin", "degF"): ("°F = (K − 273.15) × 9 ÷ 5 + 32", "({0} − 273.15) × 9 ÷ 5 + 32"),
    ("degF", "kelvin"): ("K = (°F − 32) × 5 ÷ 9 + 273.15", "({0} − 32) × 5 ÷ 9 + 273.15"),
}


def refuse_below_zero(reading: Temperature) -> None:
    """Raise OutOfRange for what is colder than anything can be."""
    if reading.base < ABSOLUTE_ZERO:
        raise OutOfRange(str(reading.base)[:40], "Nothing gets colder than −273.15 °C (−459.67 °F). Check the number.")


def temperature_worked(ask: ConvertQuestion, reading: Temperature, to: str) -> Worked:
    """A reading on another scale."""
    refuse_below_zero(reading)
    return _heat(ask, reading, to, WAYS.get((reading.unit, to)), reading.to(reading.unit))


def difference_worked(ask: ConvertQuestion, change: TemperatureDifference, to: str) -> Worked:
    """A rise or drop in other degrees: no 32 to add or take."""
    to = {"degC": "delta_degC", "degF": "delta_degF", "kelvin": "delta_degC"}.get(to, to)
    ways = {
        ("delta_degF", "delta_degC"): ("a change in °C = change in °F × 5 ÷ 9", "{0} × 5 ÷ 9"),
        ("delta_degC", "delta_degF"): ("a change in °F = change in °C × 9 ÷ 5", "{0} × 9 ÷ 5"),
    }
    return _heat(ask, change, to, ways.get((change.unit, to)), change.to(change.unit))


def _heat(
    ask: ConvertQuestion,
    value: Temperature | TemperatureDifference,
    to: str,
    way: tuple[str, str] | None,
    number: Decimal,
) -> Worked:
    change = isinstance(value, TemperatureDifference)
    words = "A change of {0} is a change of {1}." if change else "{0} is {1}."
    what = line(f"{{0:{value.unit}}}", value), line(f"{{0:{to}}}", value)
    hot = isinstance(value, Temperature) and value.base >= HOT
    reading_of = "a change of {0}" if change else "a reading of {0}"
    return Worked(
        intent=ask.intent,
        headline=line(words, *what),
        read_as=line(f"Read as: {reading_of}, wanted in {SYMBOLS[to]}.", what[0]),
        given=(Given("temperature", value),),
        steps=(Step(way[0], line(way[1], rounded(number, 6)), what[1]),) if way is not None else (),
        results=(Result("change" if change else "temperature", value, to),),
        body=(line("A change, not a reading on a thermometer: so no 32 is added or taken."),) if change else (),
        cautions=(HOT_CAUTION,) if hot else (),
        question=ask,
    )


HOT_CAUTION = Caution(
    "hot_wax",
    line("If that is hot wax: keep to the temperatures on its own sheet, and never leave it on the heat alone."),
)


def bounded(amount: Measured) -> None:
    """Raise OutOfRange for less than nothing."""
    if amount.base < 0:
        raise OutOfRange(str(amount.base)[:40], "An amount can't be less than nothing. Check the minus sign.")
