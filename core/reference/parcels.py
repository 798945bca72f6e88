"""Volumetric divisors in common use, offered for comparison and naming no carrier."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal, get_args

from core.reference import table
from core.reference.table import Row, Status, TableError

_Volume = Literal["cm3", "in3"]
_Weight = Literal["kg", "lb"]


@dataclass(frozen=True, slots=True)
class Divisor:
    """`value` cubic centimetres or inches (`volume`) are charged as one kilogram or pound (`weight`)."""

    key: str
    value: Decimal
    volume: _Volume
    weight: _Weight
    source: str
    status: Status


@functools.cache
def common_divisors() -> tuple[Divisor, ...]:
    """The divisors in common use, metric and inch ones."""
    return tuple(_divisor(row) for row in table.read("parcels", "divisor").rows("divisor"))


def _divisor(row: Row) -> Divisor:
    volume, weight = row.text("volume"), row.text("weight")
    if volume not in get_args(_Volume) or weight not in get_args(_Weight):
        raise TableError(row.place, f"no divisor in {volume} per {weight} is known")
    found = Divisor(
        row.text("key"),
        row.number("value"),
        "in3" if volume == "in3" else "cm3",
        "lb" if weight == "lb" else "kg",
        row.source(),
        row.status(),
    )
    row.end()
    return found
