"""Columns of weights: rows rounded so that they add up, each with as many decimals as the row that needs most."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from decimal import ROUND_FLOOR, Decimal
from itertools import accumulate

from core.answer import Line, line
from core.units import Mass
from core.writing import rounded, to_step

# Finer than these no scale in a workshop shows.
MOST = {"g": 2, "oz": 3, "kg": 3, "lb": 3}
MOST_AT_ALL = 6


def adds_up(
    parts: Sequence[Decimal], step: Decimal, groups: Sequence[int] = (), total: Decimal | None = None
) -> list[Decimal]:
    """Each part on a multiple of `step`, less than one step off, the sum on the multiple nearest the exact total (or on
    `total`, which lies less than a step off it): the largest remainders are rounded up first. `groups` are the sizes of
    parts that belong together, such as the waxes: each group gets its sum first, so that 450 g of wax stay 450 g
    whatever else is weighed."""
    if len(groups) > 1:
        ends = list(accumulate(groups))
        together = [parts[end - size : end] for size, end in zip(groups, ends, strict=True)]
        sums = adds_up([sum(group, Decimal(0)) for group in together], step)
        return [part for group, whole in zip(together, sums, strict=True) for part in adds_up(group, step, total=whole)]
    total = (to_step(sum(parts, Decimal(0)), step) if total is None else total) / step
    floors = [(part / step).quantize(Decimal(1), ROUND_FLOOR) for part in parts]
    spare = int(total - sum(floors))
    by_remainder = sorted(range(len(parts)), key=lambda i: (floors[i] - parts[i] / step, i))
    for i in by_remainder[:spare]:
        floors[i] += 1
    return [floor * step for floor in floors]


def column(masses: Sequence[Mass], unit: str, most: int = 0) -> tuple[Line, ...]:
    """The weights of a column, in the order given, all in `unit`, with at most so many decimals (0: as usual)."""
    places = places_of((mass.to(unit) for mass in masses), most or MOST.get(unit, MOST_AT_ALL))
    return tuple(line(f"{{0:{unit}.{places}}}", mass) for mass in masses)


def column_as_asked(masses: Sequence[Mass]) -> tuple[Line, ...]:
    """The same in the reader's unit, grams or ounces."""
    grams = places_of((mass.base for mass in masses), MOST["g"])
    ounces = places_of((mass.oz for mass in masses), MOST["oz"])
    return tuple(line(f"{{0:first.{grams}.{ounces}}}", mass) for mass in masses)


def places_of(numbers: Iterable[Decimal], most: int) -> int:
    """How many decimals show each of the numbers as it is, at most so many."""
    return max((_places(rounded(number, most)) for number in numbers), default=0)


def _places(number: Decimal) -> int:
    exponent = number.normalize().as_tuple().exponent
    return max(0, -exponent) if isinstance(exponent, int) else 0
