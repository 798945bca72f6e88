"""Cups, pints and fluid ounces whose country was not said: which one was taken, and what the others would be."""

from __future__ import annotations

from collections.abc import Callable

from core.answer import Line, line
from core.units import Quantity, Volume
from core.writing import SYMBOLS

METRIC = ("cup", "tbsp", "tsp")
WORDS = {
    "fl_oz": "fluid ounces",
    "cup": "cups",
    "pint": "pints",
    "quart": "quarts",
    "gallon": "gallons",
    "tbsp": "tablespoons",
    "tsp": "teaspoons",
}


def other_countries(volume: Volume) -> tuple[Volume, ...]:
    """The same number of the other countries' measures of that name; none where the country was said."""
    if not volume.assumed_country:
        return ()
    number = volume.to(volume.unit)
    imperial = Volume.of(number, f"imp_{volume.unit}")
    return (imperial, Volume.of(number, f"metric_{volume.unit}")) if volume.unit in METRIC else (imperial,)


def country_assumed(volume: Volume | None) -> tuple[Line, ...]:
    """The sentence that says the US measure was taken."""
    if volume is None or not volume.assumed_country:
        return ()
    one = Volume.of(1, volume.unit)
    return (line(f"You didn't say whose {WORDS[volume.unit]}; I took the US ones, {{0:ml}} each.", one),)


def country_lines(volume: Volume, answer: Callable[[Volume], Quantity]) -> tuple[Line, ...]:
    """What the answer would be with the other countries' measures."""
    return tuple(
        line(f"With {SYMBOLS[each.unit]} ({{0:ml}} each): {{1}}.", Volume.of(1, each.unit), answer(each))
        for each in other_countries(volume)
    )
