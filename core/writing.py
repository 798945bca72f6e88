"""How one quantity is written: the asker's unit first, rounded to the asker's scale step, and only here."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal
from functools import cache

from core.units import (
    Density,
    Length,
    Mass,
    Money,
    Number,
    Percent,
    Quantity,
    Temperature,
    TemperatureDifference,
    Volume,
    factor,
)

# What is printed after the number. Reading knows every one of these.
SYMBOLS = {
    "fl_oz": "US fl oz",
    "us_fl_oz": "US fl oz",
    "imp_fl_oz": "imperial fl oz",
    "label_fl_oz": "label fl oz",
    "cup": "US cups",
    "us_cup": "US cups",
    "imp_cup": "imperial cups",
    "metric_cup": "metric cups",
    "label_cup": "label cups",
    "pint": "US pints",
    "us_pint": "US pints",
    "imp_pint": "imperial pints",
    "quart": "US quarts",
    "us_quart": "US quarts",
    "imp_quart": "imperial quarts",
    "gallon": "US gallons",
    "us_gallon": "US gallons",
    "imp_gallon": "imperial gallons",
    "tbsp": "US tbsp",
    "us_tbsp": "US tbsp",
    "imp_tbsp": "imperial tbsp",
    "metric_tbsp": "metric tbsp",
    "tsp": "US tsp",
    "us_tsp": "US tsp",
    "imp_tsp": "imperial tsp",
    "metric_tsp": "metric tsp",
    "oz_t": "troy oz",
    "grain": "grains",
    "degC": "°C",
    "degF": "°F",
    "kelvin": "K",
    "delta_degC": "°C",
    "delta_degF": "°F",
    "kg/m3": "kg/m³",
    "g/cm3": "g/cm³",
    "lb/us_gallon": "lb per US gallon",
    "lb/imp_gallon": "lb per imperial gallon",
    "oz/us_fl_oz": "oz per US fl oz",
    "oz/imp_fl_oz": "oz per imperial fl oz",
    "l": "L",
    "t": "tonnes",
}
MONEY = {"usd": "$", "eur": "€", "gbp": "£"}


def _same(text: str) -> str:
    return text


@dataclass(frozen=True, slots=True)
class Style:
    """How the asker wants numbers: `first` is "g" or "oz"; `step` the scale's step in grams (None: by size);
    `comma` for a decimal comma; `escape` makes somebody's words harmless where they are shown."""

    first: str = "g"
    step: Decimal | None = None
    comma: bool = False
    escape: Callable[[str], str] = _same


PLAIN = Style()
_TENTH = Decimal("0.1")


@cache
def _quantum(places: int) -> Decimal:
    return Decimal(1).scaleb(-places)


def rounded(number: Decimal, places: int) -> Decimal:
    """Half up, to `places` decimals."""
    return number.quantize(_quantum(places), ROUND_HALF_UP)


def to_step(number: Decimal, step: Decimal) -> Decimal:
    """The multiple of `step` nearest to `number`, half up: what a scale of that step can be filled to."""
    return (number / step).quantize(Decimal(1), ROUND_HALF_UP) * step


def gram_places(grams: Decimal) -> int:
    """The decimals grams are shown with when the asker named no step: to 0.01 g under 1 g, 0.1 g under 100 g."""
    size = abs(grams)
    return 2 if size < 1 else 1 if size < 100 else 0


def figure(number: Decimal, style: Style = PLAIN, *, trim: bool = False) -> str:
    """The number in plain digits with thousands marked from 10,000 on; `trim` drops zeros after the point."""
    text = format(number, "f")
    if trim and "." in text:
        text = text.rstrip("0").rstrip(".")
    if text == "-0":
        return "0"
    if len(text) > 4 and abs(number) >= _MANY:
        whole, point, part = text.partition(".")
        text = f"{int(whole):,}{point}{part}"
        return text.translate(_COMMA_FOR_POINT) if style.comma else text
    return text.replace(".", ",") if style.comma else text


_MANY = 10_000
_COMMA_FOR_POINT = str.maketrans(",.", ".,")


def significant(number: Decimal, digits: int) -> Decimal:
    """Rounded half up to `digits` significant digits, never coarser than a unit."""
    if not number:
        return number
    return rounded(number, min(12, max(0, digits - 1 - number.adjusted())))


def grams(mass: Mass, style: Style = PLAIN) -> str:
    """In grams at the asker's step."""
    base = mass.base
    shown = to_step(base, style.step) if style.step else rounded(base, gram_places(base))
    if not shown and base:
        shown = significant(base, 2)
    return f"{figure(shown, style, trim=True)} g"


def ounces(mass: Mass, style: Style = PLAIN) -> str:
    """In ounces to 2 decimals, or two digits of a very small weight."""
    oz = mass.oz
    shown = rounded(oz, 2) if abs(oz) >= _TENTH or not oz else significant(oz, 2)
    return f"{figure(shown, style)} oz"


def pounds_ounces(mass: Mass, style: Style = PLAIN) -> str:
    """As whole pounds and ounces to 2 decimals: `1 lb 4.00 oz` is written `1 lb 4 oz`."""
    hundredths = rounded(mass.oz, 2)
    lb, oz = divmod(abs(hundredths), 16)
    sign = "-" if hundredths < 0 else ""
    rest = f" {figure(oz, style, trim=True)} oz" if oz else ""
    return f"{sign}{figure(lb, style)} lb{rest}" if lb else f"{sign}{figure(oz, style, trim=True)} oz"


def _fixed(mass: Mass, unit: str, places: Sequence[str], style: Style) -> str:
    """With so many decimals, zeros and all; in the reader's unit with those for grams or those for ounces."""
    many = places[style.first == "oz"] if unit == "first" else places[0]
    unit = style.first if unit == "first" else unit
    return f"{figure(rounded(mass.to(unit), int(many)), style)} {SYMBOLS.get(unit, unit)}"


def _mass(mass: Mass, spec: str, style: Style) -> str:
    if not spec:
        first, second = (ounces, grams) if style.first == "oz" else (grams, ounces)
        return f"{first(mass, style)} ({second(mass, style)})"
    if "." in spec:
        unit, *places = spec.split(".")
        return _fixed(mass, unit, places, style)
    if spec == "g":
        return grams(mass, style)
    if spec == "oz":
        return ounces(mass, style)
    if spec == "lb_oz":
        return pounds_ounces(mass, style)
    if spec == "typed":
        return _typed(mass, style)
    if spec == "work":
        return work(mass, style)
    if spec == "by":
        return _by_factor(mass, style)
    if spec in ("kg", "lb", "mg", "grain", "oz_t", "t"):
        return _with_symbol(significant(mass.to(spec), 4), spec, style)
    return ounces(mass, style) if style.first == "oz" else grams(mass, style)


def work(mass: Mass, style: Style = PLAIN) -> str:
    """As put into a sum: finer than the scale shows, so that the asker's own calculator agrees."""
    if style.first == "oz":
        return f"{figure(_fine(mass.oz, 3), style, trim=True)} oz"
    return f"{figure(_fine(mass.base, 2), style, trim=True)} g"


def _by_factor(mass: Mass, style: Style) -> str:
    """A weight as the sum that brings it to the unit worked in: `1.5 × 453.59 g`."""
    typed = mass.unit
    if typed == "lb_oz" or (style.first == "oz" and typed == "oz"):
        return _typed(mass, style)
    one = Mass(factor(typed, "g"), typed)
    unit = (
        f"{figure(one.oz.normalize(), style)} oz"
        if style.first == "oz"
        else f"{figure(rounded(one.base, 4), style, trim=True)} g"
    )
    return f"{figure(rounded(mass.to(typed), 6), style, trim=True)} × {unit}"


def _fine(number: Decimal, places: int) -> Decimal:
    return rounded(number, places) if abs(number) >= _TENTH or not number else significant(number, 3)


def _typed(quantity: Quantity, style: Style) -> str:
    """In the unit it was given in, with no digit dropped that the asker typed (up to 6 decimals)."""
    unit = quantity.unit
    if unit == "lb_oz" and isinstance(quantity, Mass):
        return pounds_ounces(quantity, style)
    number = quantity.to(unit)
    shown = rounded(number, 6) if abs(number) >= Decimal("0.001") else significant(number, 4)
    return _with_symbol(shown, unit, style)


def _with_symbol(shown: Decimal, unit: str, style: Style) -> str:
    """The number and its unit's symbol; one of a unit that is a word stands in the singular."""
    symbol = SYMBOLS.get(unit, unit)
    if shown == 1 and symbol.endswith("s") and len(symbol) > 2:
        symbol = symbol[:-1]
    return f"{figure(shown, style, trim=True)} {symbol}"


def _volume(volume: Volume, spec: str, style: Style) -> str:
    if spec == "typed":
        return _typed(volume, style)
    unit = "ml" if spec in ("", "work", "ml") else volume.unit if spec == "unit" else spec
    number = volume.to(unit)
    shown = rounded(number, 2) if abs(number) >= 1 else significant(number, 3)
    if spec == "work":
        shown = significant(number, 6)
    elif unit == "ml" and abs(number) >= 100:
        shown = rounded(number, 1)
    return _with_symbol(shown, unit, style)


def _percent(percent: Percent, spec: str, style: Style) -> str:
    shown = rounded(percent.base, 6) if spec == "typed" else _percent_shown(percent.base)
    number = figure(shown, style, trim=True)
    return number if spec == "bare" else f"{number} %"


def _percent_shown(number: Decimal) -> Decimal:
    return rounded(number, 2) if abs(number) >= _TENTH or not number else significant(number, 2)


def _money(money: Money, style: Style) -> str:
    cents = rounded(money.base, 2)
    # A gram of wax costs less than a cent: show two digits of it instead of nothing.
    shown = cents if abs(money.base) >= _TENTH or cents == money.base else significant(money.base, 2)
    number = figure(shown, style)
    return f"{MONEY[money.unit]}{number}" if money.unit in MONEY else number


def write(value: object, style: Style = PLAIN, spec: str = "") -> str:
    """One value as words. `spec` picks a view: mass "" (both units) g oz lb_oz typed work first or a unit key,
    `oz.2` with so many decimals, `first.1.2` with so many in grams and in ounces;
    others typed or a unit key, a density or volume also work (finer, for sums). Plain text is escaped
    for where it will be shown."""
    if isinstance(value, Mass):
        return _mass(value, spec, style)
    if isinstance(value, Percent):
        return _percent(value, spec, style)
    if isinstance(value, Volume):
        return _volume(value, spec, style)
    if isinstance(value, Density):
        unit = value.unit if spec == "typed" else "g/ml"
        shown = significant(value.to(unit), 6 if spec == "work" else 4)
        return f"{figure(shown, style, trim=True)} {SYMBOLS.get(unit, unit)}"
    if isinstance(value, Temperature | TemperatureDifference):
        unit = spec if spec and spec != "typed" else value.unit
        return f"{figure(rounded(value.to(unit), 2), style, trim=True)} {SYMBOLS[unit]}"
    if isinstance(value, Money):
        return _money(value, style)
    if isinstance(value, Number):
        return figure(significant(value.base, 5), style, trim=True)
    if isinstance(value, Length):
        unit = value.unit if spec in ("", "typed") else spec
        return f"{figure(rounded(value.to(unit), 3), style, trim=True)} {unit}"
    if isinstance(value, Decimal):
        return figure(value, style, trim=True)
    if isinstance(value, str):
        return style.escape(value)
    return str(value)
