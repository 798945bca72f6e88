"""A typed value to text that reads back to the same value, to the last digit: the inverse of `core.reading.values`."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from decimal import Decimal
from enum import StrEnum
from typing import TypeVar

from core.compounds import Additives, Fill, Fills, Load, Masses, Pack, Packs, Parts, ScaleStep
from core.reading import lists
from core.units import (
    UNSAID,
    Density,
    Mass,
    Money,
    Number,
    Percent,
    Quantity,
    Temperature,
    TemperatureDifference,
)
from core.writing import SYMBOLS

Item = TypeVar("Item")
Whole = TypeVar("Whole")


def exact(value: object, *, quote: bool = False) -> str:
    """The value as text. Every type a slot of a Question may have is taken. `quote` sets every name in a list in
    quotes, which spares finding out whether it needs them: for text that nobody looks at."""
    if isinstance(value, Quantity):
        return _quantity(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, Load):
        basis = f" {value.basis.value}" if value.basis is not None and not value.typed else ""
        return value.typed or f"{_quantity(value.percent)}{basis}"
    if isinstance(value, Masses):
        return _list(value, value.items, _amount, lists.masses, quote)
    if isinstance(value, Parts):
        return _list(value, value.items, _part, lists.parts, quote)
    if isinstance(value, Additives):
        return _list(value, value.items, _amount, lists.additives, quote)
    if isinstance(value, Fills):
        return _list(value, value.items, _fill, lists.fills, quote)
    if isinstance(value, Packs):
        return _list(value, value.items, _pack, lists.packs, quote)
    if isinstance(value, StrEnum):
        return value.value
    if isinstance(value, ScaleStep):
        return _quantity(value.mass) if value.mass is not None else "none"
    return str(value)


def _plain(number: Decimal) -> str:
    """All its digits, without exponent or needless zeros."""
    text = format(number, "f")
    text = text.rstrip("0").rstrip(".") if "." in text else text
    # a lone comma-free figure with a point is always decimal; 1000 stays undivided
    return text or "0"


def _quantity(value: Quantity) -> str:
    """In the unit it was given in where that loses no digit, else in the base unit."""
    if isinstance(value, Number):
        return f"{_plain(value.base)} drops" if value.unit == "drop" else _plain(value.base)
    if isinstance(value, Percent):
        return f"{_plain(value.base)} %"
    if isinstance(value, Money):
        return _plain(value.base) if value.unit == "money" else f"{_plain(value.base)} {value.unit}"
    if isinstance(value, Mass) and value.unit == "lb_oz":
        return _pounds_ounces(value)
    for unit in (value.unit, value.BASE):
        number = value.to(unit)
        if type(value).of(number, unit).base == value.base:
            return f"{_plain(number)} {_symbol(unit, value)}"
    return f"{_plain(value.base)} {_symbol(value.BASE, value)}"


def _symbol(unit: str, value: Quantity) -> str:
    if isinstance(value, TemperatureDifference):
        return f"{SYMBOLS[unit]} difference"
    if isinstance(value, Temperature | Density):
        return SYMBOLS.get(unit, unit)
    return unit.replace("_", " ") if unit in UNSAID else SYMBOLS.get(unit, unit)


def _pounds_ounces(mass: Mass) -> str:
    lb, oz = divmod(mass.oz, 16)
    typed = Mass.of(lb * 16 + oz, "oz")
    return f"{_plain(lb)} lb {_plain(oz)} oz" if lb and oz and typed.base == mass.base else f"{_plain(mass.base)} g"


def _amount(item: tuple[str, Quantity], name: Callable[[str], str]) -> str:
    return f"{_quantity(item[1])}{name(item[0])}"


def _part(item: tuple[str, Decimal], name: Callable[[str], str]) -> str:
    return f"{_plain(item[1])}{name(item[0])}"


def _fill(fill: Fill, name: Callable[[str], str]) -> str:
    each = fill.weight or fill.volume
    return f"{fill.count} x{' ' + _quantity(each) if each is not None else ''}{name(fill.vessel)}"


def _pack(pack: Pack, name: Callable[[str], str]) -> str:
    price = f" = {_quantity(pack.price)}" if pack.price is not None else ""
    pieces = " pieces" if isinstance(pack.size, Number) else ""
    return f"{_quantity(pack.size)}{pieces}{price}{name(pack.name)}"


def _list(
    value: Whole,
    items: Iterable[Item],
    write: Callable[[Item, Callable[[str], str]], str],
    read: Callable[[str], Whole],
    quote: bool,
) -> str:
    """The items joined by "+"; names are quoted only where they would not read back without, or all of them."""
    items = tuple(items)
    quoted = " + ".join([write(item, _quoted) for item in items])
    if quote:
        return quoted
    bare = " + ".join([write(item, lambda name: f" {name}" if name else "") for item in items])
    try:
        if quoted == bare or read(bare) == value:
            return bare
    except ValueError:
        pass
    return quoted


def _quoted(name: str) -> str:
    escaped = name.replace("\\", "\\\\").replace('"', '\\"')
    return f' "{escaped}"' if name else ""
