"""Look-ups of weight labels: factors, type heights, tolerable errors. No legal advice."""

from __future__ import annotations

import functools
from bisect import bisect_left
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from typing import TypeVar

from core.reference import table
from core.reference.table import Status, TableError
from core.units import factor

_T = TypeVar("_T")
_Steps = tuple[tuple[Decimal | None, _T], ...]  # what holds up to and including a limit; no limit: for all above

TNE_STEP = Decimal("0.1")  # percent results are rounded up to it
TNE_FROM = Decimal(5)  # g; the average system starts here


@dataclass(frozen=True, slots=True)
class LegalFactor:
    """One `unit` counts as `factor` of `to` on a US label."""

    unit: str
    to: str
    factor: Decimal
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Rule:
    """A single figure of the rules; `says` tells what it is and its unit."""

    key: str
    value: Decimal
    says: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class TypeHeight:
    """Least height of the figures: `inch` as the rule writes it ("1/8"), `inches` and `mm` as numbers."""

    inch: str
    inches: Decimal
    mm: Decimal
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Tne:
    """Tolerable negative error of a nominal weight, all in grams; `where` it holds ("EU and UK" or "UK").

    The lot's mean must reach `nominal`, few packages may lie below `t1`, none below `t2`.
    """

    nominal: Decimal
    grams: Decimal
    where: str
    source: str
    status: Status

    @property
    def t1(self) -> Decimal:
        """Nominal less one error, g."""
        return self.nominal - self.grams

    @property
    def t2(self) -> Decimal:
        """Nominal less two errors, g."""
        return self.nominal - 2 * self.grams


@dataclass(frozen=True, slots=True)
class FigureHeight:
    """Least height in mm of the weight's figures."""

    mm: Decimal
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class Mav:
    """Maximum allowable shortfall of one package, as printed in each unit."""

    lb: Decimal
    g: Decimal
    oz: Decimal
    source: str
    status: Status


def legal_factor(unit: str, to: str) -> LegalFactor | None:
    """The factor a US label must use from one unit key to another (as printed, not the exact one), None if none is."""
    return _factors().get((unit, to))


def rule(key: str) -> Rule:
    """A single figure of the rules by its key in the data file. KeyError for an unknown key."""
    return _rules()[key]


def type_height(area_in2: Decimal) -> TypeHeight | None:
    """Least height of printed figures on a US label by the display panel's area in square inches. None unless the area
    is above 0."""
    return _step(_type_heights(), area_in2)


def tne(nominal_g: Decimal) -> Tne | None:
    """The tolerable negative error of a nominal weight of 5 g to 25 kg (above 10 kg: UK only), None outside."""
    step = _step(_tne_steps(), nominal_g)
    if step is None or nominal_g < TNE_FROM:
        return None
    grams = (step.share * nominal_g).quantize(TNE_STEP, ROUND_CEILING) if step.grams is None else step.grams
    return Tne(nominal_g, grams, step.where, step.source, step.status)


def eu_figure_height(nominal_g: Decimal) -> FigureHeight | None:
    """Least height of the weight's figures on an EU or UK label. None unless the weight is above 0."""
    return _step(_figure_heights(), nominal_g)


def mav(label_lb: Decimal) -> Mav | None:
    """The shortfall allowed to one package by its label weight in pounds, None above 3.20 lb (no row held here)."""
    found = _mav()
    if not label_lb.is_finite() or not 0 < label_lb <= found.largest:
        return None
    if label_lb <= found.over[0]:
        pounds = label_lb * found.smallest_share
        grams, ounces = pounds * factor("lb", "g"), pounds * factor("lb", "oz")
        return Mav(pounds, grams, ounces, found.source, found.status)
    return found.rows[bisect_left(found.over, label_lb) - 1]


def inches_of(text: str) -> Decimal:
    """A printed fraction ("3/16", "1 1/8") as an exact number."""
    total = Decimal(0)
    for part in text.split():
        over, _, under = part.partition("/")
        total += Decimal(over) / Decimal(under or 1)
    return total


@dataclass(frozen=True, slots=True)
class _TneStep:
    grams: Decimal | None
    share: Decimal
    where: str
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class _MavTable:
    over: tuple[Decimal, ...]
    rows: tuple[Mav, ...]
    smallest_share: Decimal
    largest: Decimal
    source: str
    status: Status


def _step(steps: _Steps[_T], x: Decimal) -> _T | None:
    """What holds at `x`; None unless `x` is above 0, or past the last limit."""
    if not x.is_finite() or x <= 0:
        return None
    return next((what for limit, what in steps if limit is None or x <= limit), None)


@functools.cache
def _table() -> table.Table:
    return table.read("labelling", "factor", "rule", "type_height", "tne", "figure_height", "mav")


@functools.cache
def _factors() -> dict[tuple[str, str], LegalFactor]:
    found = {}
    for row in _table().rows("factor"):
        each = LegalFactor(row.text("unit"), row.text("to"), row.number("factor"), row.source(), row.status())
        row.end()
        found[each.unit, each.to] = each
    return found


@functools.cache
def _rules() -> dict[str, Rule]:
    found = {}
    for row in _table().rows("rule"):
        each = Rule(row.text("key"), row.number("value"), row.text("says"), row.source(), row.status())
        row.end()
        found[each.key] = each
    return found


@functools.cache
def _type_heights() -> _Steps[TypeHeight]:
    found = []
    for row in _table().rows("type_height"):
        to, inch = row.optional_number("to"), row.text("inch")
        found.append((to, TypeHeight(inch, inches_of(inch), row.number("mm"), row.source(), row.status())))
        row.end()
    return tuple(found)


@functools.cache
def _tne_steps() -> _Steps[_TneStep]:
    found = []
    for row in _table().rows("tne"):
        limit, grams = row.number("to"), row.optional_number("grams")
        share = row.number("share") if grams is None else Decimal(0)
        found.append((limit, _TneStep(grams, share, row.text("where"), row.source(), row.status())))
        row.end()
    return tuple(found)


@functools.cache
def _figure_heights() -> _Steps[FigureHeight]:
    found = []
    for row in _table().rows("figure_height"):
        found.append((row.optional_number("to"), FigureHeight(row.number("mm"), row.source(), row.status())))
        row.end()
    return tuple(found)


@functools.cache
def _mav() -> _MavTable:
    (row,) = _table().rows("mav")
    source, status = row.source(), row.status()
    over, pounds, grams, ounces = row.numbers("over"), row.numbers("lb"), row.numbers("g"), row.texts("oz")
    if not len(over) == len(pounds) == len(grams) == len(ounces):
        raise TableError(row.place, "needs a figure in lb, g and oz for each row")
    rows = tuple(Mav(lb, g, inches_of(oz), source, status) for lb, g, oz in zip(pounds, grams, ounces, strict=True))
    found = _MavTable(over, rows, row.number("smallest_share"), row.number("largest"), source, status)
    row.end()
    return found
