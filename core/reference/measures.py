"""How far a measure's marks may be off, and the factors that turn a weighing of water into a volume."""

from __future__ import annotations

import functools
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from core.reference import table
from core.reference.table import Row, Status, TableError


class MeasureKind(StrEnum):
    """What a volume was measured with."""

    CYLINDER = "cylinder"
    BEAKER = "beaker"
    KITCHEN = "kitchen measure"


class CylinderClass(StrEnum):
    """Accuracy class of a graduated cylinder, printed on it. Class B when nothing is printed."""

    A = "A"
    B = "B"


class CylinderStandard(StrEnum):
    """The standard a cylinder was made to; the two differ at 25, 50, 500 and 1000 ml."""

    ASTM = "astm"
    ISO = "iso"


@dataclass(frozen=True, slots=True)
class Tolerance:
    """`plus_minus` is the limit in ml either way.

    For a cylinder it holds at any mark, `capacity` being that of the cylinder in ml. Where the limit is a share of the
    mark (`share`, a fraction), `plus_minus` is for the mark asked about and `widest` what some are sold with, in ml.
    """

    plus_minus: Decimal
    capacity: Decimal
    share: Decimal | None
    widest: Decimal | None
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class ZFactor:
    """`factor` ml of room for each gram of water the balance reads (buoyancy included), at normal air pressure."""

    factor: Decimal
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class _Limit:
    capacity: Decimal
    by_class: dict[CylinderClass, Decimal]
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class _Share:
    share: Decimal
    widest: Decimal | None
    source: str
    status: Status


def tolerance(
    kind: MeasureKind,
    capacity_ml: Decimal,
    cls: CylinderClass = CylinderClass.B,
    standard: CylinderStandard = CylinderStandard.ASTM,
) -> Tolerance | None:
    """The published limit of error of a measure of `capacity_ml`.

    A cylinder's capacity, or a volume read in the smallest cylinder that takes it: the smallest one listed at or above
    it counts. For the other kinds it is the mark itself. None when no limit is published (nothing above 0, or larger
    than the largest cylinder).
    """
    if not capacity_ml.is_finite() or capacity_ml <= 0:
        return None
    if kind is MeasureKind.CYLINDER:
        for limit in _cylinders()[standard]:
            if limit.capacity >= capacity_ml:
                return Tolerance(limit.by_class[cls], limit.capacity, None, None, limit.source, limit.status)
        return None
    rule = _shares()[kind]
    widest = None if rule.widest is None else rule.widest * capacity_ml
    return Tolerance(rule.share * capacity_ml, capacity_ml, rule.share, widest, rule.source, rule.status)


def z_factor(degrees: Decimal) -> ZFactor:
    """The Z factor for water at 15 to 30 °C, on straight lines between whole degrees. Raises OutOfRange outside."""
    points, source, status = _z_factors()
    return ZFactor(table.interpolate(points, degrees, "table for water weighings", "°C"), source, status)


@functools.cache
def _table() -> table.Table:
    return table.read("measures", "cylinder", "share", "z_factor")


@functools.cache
def _cylinders() -> dict[CylinderStandard, tuple[_Limit, ...]]:
    found = {}
    for row in _table().rows("cylinder"):
        standard, source = CylinderStandard(row.text("key")), row.source()
        found[standard] = tuple(_limit(each, source) for each in row.rows("limits"))
        row.end()
    return found


def _limit(row: Row, source: str) -> _Limit:
    by_class = {CylinderClass.A: row.number("a"), CylinderClass.B: row.number("b")}
    limit = _Limit(row.number("capacity"), by_class, source, row.status())
    row.end()
    return limit


@functools.cache
def _shares() -> dict[MeasureKind, _Share]:
    found = {}
    for row in _table().rows("share"):
        kind = MeasureKind(row.text("key"))
        found[kind] = _Share(row.number("share"), row.optional_number("widest"), row.source(), row.status())
        row.end()
    return found


@functools.cache
def _z_factors() -> tuple[tuple[tuple[Decimal, Decimal], ...], str, Status]:
    (row,) = _table().rows("z_factor")
    degrees, factors, source, status = row.numbers("at"), row.numbers("factor"), row.source(), row.status()
    row.end()
    if len(degrees) != len(factors):
        raise TableError(row.place, "needs one factor for each temperature")
    return tuple(zip(degrees, factors, strict=True)), source, status
