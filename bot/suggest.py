"""What an option's text could become while it is typed: recorded names, published materials, units after a number."""

from __future__ import annotations

from typing import Any

from core.book import Book
from core.compounds import FormulaName, Load, Masses, Material, UnitName, VesselName
from core.reference import densities
from core.units import MASS_UNITS, VOLUME_UNITS, Density, Length, Mass, Percent, Temperature, Volume

MOST = 25
LONGEST = 100

UNITS: dict[Any, tuple[str, ...]] = {
    Mass: ("g", "oz", "lb", "kg"),
    Masses: ("g", "oz", "lb", "kg"),
    Volume: ("ml", "US fl oz", "imperial fl oz", "l", "US cups"),
    Density: ("g/ml", "kg/l", "lb per US gallon"),
    Percent: ("%",),
    Load: ("%", "% of the wax", "% of the total"),
    Temperature: ("°C", "°F"),
    Length: ("cm", "mm", "in"),
}
RECORDED = {Material: "material", VesselName: "vessel", FormulaName: "formula"}


def suggestions(kind: Any, typed: str, book: Book) -> list[str]:
    """At most 25 completions of at most 100 characters for a slot of that type; none where there is nothing to add."""
    text = " ".join(typed.split())
    if kind in RECORDED:
        found = list(book.names(RECORDED[kind], text, MOST))
        if kind is Material:
            found += [name for name in densities.near(text, MOST) if name not in found]
    elif kind is UnitName:
        found = [unit for unit in (*MASS_UNITS, *VOLUME_UNITS) if unit.startswith(text.casefold())]
    else:
        found = _with_units(kind, text)
    return [name for name in found if name and len(name) <= LONGEST][:MOST]


def _with_units(kind: Any, text: str) -> list[str]:
    """A bare number with each unit that makes sense after it."""
    number = text.replace(" ", "")
    if not number or len(number) > 12 or not all(sign in "0123456789.,/½¼¾" for sign in number):
        return []
    return [f"{text} {unit}" for unit in UNITS.get(kind, ())]
