"""Flash points of waxes and oils, and the cautions that go with them, each with its source."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from decimal import Decimal

from core.reference import densities, table
from core.reference.table import Row, Status


@dataclass(frozen=True, slots=True)
class FlashPoint:
    """In °C from `low` to `high`; `high` None means only that it is not below `low`."""

    key: str
    low: Decimal
    high: Decimal | None
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class PublishedCaution:
    """A sentence to show beside an answer."""

    key: str
    says: str
    source: str
    status: Status


def flash_point(name: str) -> FlashPoint | None:
    """The published flash point of a material under any of its spellings, None when none is held."""
    material = densities.find(name)
    return None if material is None else _flash_points().get(material.key)


def caution(key: str) -> PublishedCaution:
    """The caution of that key in the data file. KeyError for an unknown key."""
    return _cautions()[key]


@functools.cache
def _table() -> table.Table:
    return table.read("hazards", "flash_point", "caution")


@functools.cache
def _flash_points() -> dict[str, FlashPoint]:
    return {each.key: each for each in map(_flash_point, _table().rows("flash_point"))}


def _flash_point(row: Row) -> FlashPoint:
    key, floor = row.text("key"), row.optional_number("at_least")
    low, high = (row.number("low"), row.number("high")) if floor is None else (floor, None)
    found = FlashPoint(key, low, high, row.source(), row.status())
    row.end()
    return found


@functools.cache
def _cautions() -> dict[str, PublishedCaution]:
    found = {}
    for row in _table().rows("caution"):
        each = PublishedCaution(row.text("key"), row.text("says"), row.source(), row.status())
        row.end()
        found[each.key] = each
    return found
