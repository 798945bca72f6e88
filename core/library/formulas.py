"""Formulas on the shelf: every change a version, with its date and reason."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any

from core.book import FormulaRecord, Tested
from core.compounds import Basis
from core.errors import NotFound, OutOfRange
from core.library import names, records
from core.library.packing import pack, unpack
from core.library.records import Stamp
from core.library.space import Space
from core.units import Percent

KIND = "formula"
MOST_TESTS = 50  # of one formula that are read
MOST_PARTS = 50
MOST_LOAD = 25  # percent; the limit of `core.questions.cautions`, from which on nothing is worked out
LARGEST_PART = Decimal(1_000_000)
LONGEST_CURE = 3650  # days
CURE_RANGE = f"Days of cure are counted from 0 to {LONGEST_CURE:,}."


def read(
    db: sqlite3.Connection, spaces: Sequence[Space], user: str, name: str, number: int | None = None
) -> FormulaRecord | None:
    """The formula of that name: its newest version, or the one of that number."""
    kept = records.current(db, spaces, user, KIND, name, number)
    return from_data(kept) if kept is not None else None


def from_data(kept: records.Version) -> FormulaRecord:
    """The record as the answers want it."""
    data = kept.data
    load = unpack(Percent, data["load"])
    additives = ((name, unpack(Percent, packed)) for name, packed in data["additives"])
    assert load is not None
    return FormulaRecord(
        name=kept.name,
        version=kept.number,
        load=load,
        basis=Basis.TOTAL if data["basis"] == "total" else Basis.WAX,
        waxes=_parts(data["waxes"]),
        fragrances=_parts(data["fragrances"]),
        additives=tuple((name, percent) for name, percent in additives if percent is not None),
        vessel=data.get("vessel", ""),
        notes=data.get("notes", ""),
        reason=kept.reason,
        how=f"recorded by {kept.by}, {kept.at[:10]}",
    )


def _parts(packed: list[list[str]]) -> tuple[tuple[str, Decimal], ...]:
    return tuple((name, Decimal(part)) for name, part in packed)


def to_data(formula: FormulaRecord) -> dict[str, Any]:
    """What is kept of a version."""
    return {
        "load": pack(formula.load),
        "basis": formula.basis.name.casefold(),
        "waxes": [[name, format(part, "f")] for name, part in formula.waxes],
        "fragrances": [[name, format(part, "f")] for name, part in formula.fragrances],
        "additives": [[name, pack(percent)] for name, percent in formula.additives],
        "vessel": formula.vessel,
        "notes": formula.notes,
    }


def tested(db: sqlite3.Connection, spaces: Sequence[Space], user: str, name: str) -> list[Tested]:
    """The tests of the formula of that name, the newest first."""
    kept = records.current(db, spaces, user, KIND, name)
    if kept is None:
        return []
    rows = db.execute(
        "SELECT number, version, cure_days, observed, verdict, by_name, at FROM trial "
        "WHERE record = ? AND deleted_at IS NULL ORDER BY number DESC LIMIT ?",
        (kept.record, MOST_TESTS),
    )
    return [
        Tested(number, version, days, observed, verdict, f"tested by {by}, {when[:10]}")
        for number, version, days, observed, verdict, by, when in rows
    ]


def log_test(
    db: sqlite3.Connection, version: records.Version, cure_days: int | None, observed: str, verdict: str, stamp: Stamp
) -> int:
    """Add a test of that version; its number, counted from 1 on for each formula."""
    row = db.execute(
        "INSERT INTO trial (record, number, version, cure_days, observed, verdict, at, user, by_name) VALUES "
        "(?1, (SELECT coalesce(max(number), 0) + 1 FROM trial WHERE record = ?1), ?, ?, ?, ?, ?, ?, ?) "
        "RETURNING number",
        (version.record, version.number, cure_days, observed, verdict, stamp.at, stamp.user, stamp.name),
    ).fetchone()
    return int(row[0])


def take_out_test(db: sqlite3.Connection, record: int, place: int, stamp: Stamp) -> None:
    """Take one test out of the log; kept until `purge` takes it. NotFound where there is none of it."""
    done = db.execute(
        "UPDATE trial SET deleted_at = ?, deleted_by = ? WHERE record = ? AND number = ? AND deleted_at IS NULL",
        (stamp.at, stamp.user, record, place),
    )
    if not done.rowcount:
        raise NotFound("test", str(place), way_out="/shelf with its name lists them with their numbers.")


def put_back_test(db: sqlite3.Connection, record: int, since: str) -> int | None:
    """Put the test back that was taken out last, at `since` or later; its number, None where there is none."""
    row = db.execute(
        "UPDATE trial SET deleted_at = NULL, deleted_by = NULL WHERE id = (SELECT id FROM trial "
        "WHERE record = ? AND deleted_at >= ? ORDER BY deleted_at DESC, id DESC LIMIT 1) RETURNING number",
        (record, since),
    ).fetchone()
    return None if row is None else int(row[0])


def checked(formula: FormulaRecord) -> FormulaRecord:
    """The formula with its words cleaned. OutOfRange or BadInput for figures and lists no formula has."""
    for parts, what in ((formula.waxes, "waxes"), (formula.fragrances, "fragrance oils"), (formula.additives, "")):
        if len(parts) > MOST_PARTS:
            raise OutOfRange(formula.name, f"I keep up to {MOST_PARTS} {what or 'additives'} in one formula.")
    if not 0 <= formula.load.base < MOST_LOAD:
        raise OutOfRange(str(formula.load.base)[:40], "A load lies from 0 % to under 25 %. Check the percent.")
    if any(not 0 < part <= LARGEST_PART for _, part in (*formula.waxes, *formula.fragrances)):
        raise OutOfRange("parts", "Every part must be more than nothing. Leave out what is not in the blend.")
    if any(not 0 <= percent.base <= 100 for _, percent in formula.additives):
        raise OutOfRange("additives", "An additive lies between 0 and 100 % of the wax.")
    return replace(
        formula,
        name=names.cleaned(formula.name),
        waxes=tuple((_part_name(name, "wax"), part) for name, part in formula.waxes),
        fragrances=tuple((_part_name(name, "fragrance"), part) for name, part in formula.fragrances),
        additives=tuple((_part_name(name, "additive"), percent) for name, percent in formula.additives if percent),
        vessel=names.cleaned(formula.vessel) if formula.vessel else "",
        notes=names.prose(formula.notes),
        reason=names.prose(formula.reason),
    )


def _part_name(name: str, nameless: str) -> str:
    return names.cleaned(name) if name.strip() else nameless


def write(
    db: sqlite3.Connection, space: Space, formula: FormulaRecord, stamp: Stamp, *, reader: str = ""
) -> tuple[FormulaRecord, bool]:
    """A new version of a `checked` formula; the record as kept, and False where nothing had changed."""
    there = records.exactly(db, space, KIND, formula.name, reader)
    data = to_data(formula)
    if there is not None and there.data == data:
        return from_data(there), False
    name = formula.name if there is None else there.name
    kept = records.write(db, space, KIND, name, data, stamp, reason=formula.reason, reader=reader)
    return from_data(kept), True
