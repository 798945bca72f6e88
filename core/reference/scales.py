"""Accuracy classes of weighing instruments: smallest sensible load and limits of error. Kitchen scales rarely carry a
class at all, so every answer built on these is a best case."""

from __future__ import annotations

import functools
from bisect import bisect_left
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from core.reference import table
from core.reference.table import Row, Status, TableError


class Accuracy(StrEnum):
    """Accuracy class, as printed in an oval on the scale."""

    I = "I"  # noqa: E741 - the class's name
    II = "II"
    III = "III"
    IIII = "IIII"


@dataclass(frozen=True, slots=True)
class ScaleClass:
    """What a class demands from a step `from_step` grams on: the largest number of divisions (`n_max`, None for
    no end) and the smallest load in divisions."""

    accuracy: Accuracy
    from_step: Decimal
    n_max: Decimal | None
    least_load: Decimal
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class ScaleTolerance:
    """The limit of error in divisions, either way."""

    divisions: Decimal
    source: str
    status: Status


@dataclass(frozen=True, slots=True)
class _Limits:
    to: tuple[Decimal, ...]
    errors: tuple[Decimal, ...]
    source: str
    status: Status


def scale_class(accuracy: Accuracy, step_g: Decimal) -> ScaleClass | None:
    """What that class demands of a scale with step `step_g` grams, None when the class has no such small step."""
    if not step_g.is_finite():
        return None
    rows = [row for row in _classes() if row.accuracy is accuracy and row.from_step <= step_g]
    return rows[-1] if rows else None


def minimum_load(accuracy: Accuracy, step_g: Decimal) -> Decimal | None:
    """The smallest load in grams for which the class was made, None when the class has no such step."""
    row = scale_class(accuracy, step_g)
    return None if row is None else row.least_load * step_g


def tolerance(accuracy: Accuracy, load_in_divisions: Decimal) -> ScaleTolerance | None:
    """The limit of error of a scale in use, at a load given in divisions (load ÷ step). None below 0, above the class's
    largest number of divisions, or where no table is held."""
    limits = _limits().get(accuracy)
    most = max((row.n_max for row in _classes() if row.accuracy is accuracy and row.n_max is not None), default=None)
    if limits is None or not load_in_divisions.is_finite() or load_in_divisions < 0:
        return None
    if most is not None and load_in_divisions > most:
        return None
    error = limits.errors[bisect_left(limits.to, load_in_divisions)]
    return ScaleTolerance(error, limits.source, limits.status)


@functools.cache
def _table() -> table.Table:
    return table.read("scales", "class", "tolerance")


@functools.cache
def _classes() -> tuple[ScaleClass, ...]:
    return tuple(_class(row) for row in _table().rows("class"))


def _class(row: Row) -> ScaleClass:
    found = ScaleClass(
        accuracy=Accuracy(row.text("key")),
        from_step=row.number("from"),
        n_max=row.optional_number("n_max"),
        least_load=row.number("least_load"),
        source=row.source(),
        status=row.status(),
    )
    row.end()
    return found


@functools.cache
def _limits() -> dict[Accuracy, _Limits]:
    found = {}
    for row in _table().rows("tolerance"):
        accuracy = Accuracy(row.text("class"))
        limits = _Limits(row.numbers("to"), row.numbers("error"), row.source(), row.status())
        row.end()
        if len(limits.errors) != len(limits.to) + 1:
            raise TableError(row.place, "needs one more error than limits")
        found[accuracy] = limits
    return found
