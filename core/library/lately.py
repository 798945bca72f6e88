"""Taking the last change back: a deletion, a measurement, a test, or a new version."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass
from enum import StrEnum

from core.errors import NotFound, SteelyardError, clipped
from core.library import formulas, materials, names, odds, records
from core.library.records import Stamp
from core.library.space import Space

UNDO_DAYS = 30


class Undone(StrEnum):
    """What was taken back."""

    DELETION = "deletion"
    MEASUREMENT_OUT = "measurement put back"
    TEST_OUT = "test put back"
    MEASUREMENT = "measurement"
    TEST = "test"
    RECORDING = "recording"
    CHANGE = "change"


@dataclass(frozen=True, slots=True)
class Back:
    """What was taken back, of which record; `number` the measurement, test or version it is about, 0 for none."""

    what: Undone
    name: str
    number: int = 0


class NothingToUndo(SteelyardError):
    """No change of the record is recent enough to be taken back."""

    key = "not_found"

    def __init__(self, name: str) -> None:
        super().__init__(
            f"Nothing of “{clipped(name)}” can be taken back: a deletion can for {UNDO_DAYS} days. Record it again."
        )


def to_undo(db: sqlite3.Connection, space: Space, user: str, kind: str, name: str) -> tuple[int, bool]:
    """The record of that name and whether it is deleted; NotFound where there is neither."""
    found = names.find(db, (space,), user, kind, name)
    if found is not None:
        return found[0], False
    deleted = records.last_deleted(db, space, user, kind, name)
    if deleted is None:
        raise NotFound(kind, name, names.suggest(db, (space,), user, kind, name, 3))
    return deleted[0], True


def undo(db: sqlite3.Connection, record: int, deleted: bool, stamp: Stamp) -> Back:
    """Take the last change of the record back. A version is taken back by a new one, so that nothing is lost."""
    since = odds.later(stamp.at, -UNDO_DAYS) if stamp.at else ""
    name = str(db.execute("SELECT name FROM record WHERE id = ?", (record,)).fetchone()[0])
    if deleted:
        _still_kept(db, record, since, name)
        records.undelete(db, record)
        return Back(Undone.DELETION, name)
    events = sorted(_events(db, record, since))
    if not events:
        raise NothingToUndo(name)
    _, _, what, number = events[-1]
    if what == "measurement out":
        return Back(Undone.MEASUREMENT_OUT, name, materials.put_back(db, record, since) or 0)
    if what == "trial out":
        return Back(Undone.TEST_OUT, name, formulas.put_back_test(db, record, since) or 0)
    if what == "measurement":
        materials.take_out(db, record, number, stamp)
        return Back(Undone.MEASUREMENT, name, number)
    if what == "trial":
        formulas.take_out_test(db, record, number, stamp)
        return Back(Undone.TEST, name, number)
    return _version_back(db, record, number, name, stamp)


def _version_back(db: sqlite3.Connection, record: int, number: int, name: str, stamp: Stamp) -> Back:
    before = records.version(db, record, number - 1) if number > 1 else None
    if before is None:
        records.delete(db, record, stamp)
        return Back(Undone.RECORDING, name)
    records.add_version(db, record, before.data, stamp, f"as in version {before.number}")
    return Back(Undone.CHANGE, name, before.number)


def _still_kept(db: sqlite3.Connection, record: int, since: str, name: str) -> None:
    (when,) = db.execute("SELECT deleted_at FROM record WHERE id = ?", (record,)).fetchone()
    if str(when) < since:
        raise NothingToUndo(name)


def _events(db: sqlite3.Connection, record: int, since: str) -> list[tuple[str, int, str, int]]:
    """When, in which order within one moment, what, and its number: the newest of each sort."""
    out: list[tuple[str, int, str, int]] = []
    for order, table in ((1, "measurement"), (2, "trial")):
        row = db.execute(
            f"SELECT at, number FROM {table} WHERE record = ? AND deleted_at IS NULL ORDER BY number DESC LIMIT 1",
            (record,),
        ).fetchone()
        if row is not None:
            out.append((str(row[0]), order, table, int(row[1])))
        row = db.execute(
            f"SELECT deleted_at, number FROM {table} WHERE record = ? AND deleted_at >= ? AND deleted_by IS NOT NULL "
            "ORDER BY deleted_at DESC, id DESC LIMIT 1",
            (record, since),
        ).fetchone()
        if row is not None:
            out.append((str(row[0]), 3, f"{table} out", int(row[1])))
    newest = records.version(db, record)
    if newest is not None:
        out.append((newest.at, 0, "version", newest.number))
    return out
