"""Records with their versions: every change is a new version, nothing is overwritten, a deletion can be undone."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from core.book import Change
from core.errors import NotFound
from core.library import names
from core.library.space import Space


@dataclass(frozen=True, slots=True)
class Stamp:
    """Who changes something and when (ISO 8601 UTC)."""

    user: str
    name: str
    at: str


@dataclass(frozen=True, slots=True)
class Version:
    """One version of a record: `number` from 1 on, `data` what it holds."""

    record: int
    name: str
    number: int
    at: str
    by: str
    reason: str
    data: dict[str, Any]


def need(db: sqlite3.Connection, spaces: Sequence[Space], user: str, kind: str, name: str) -> tuple[int, str]:
    """Id and name of the record, or NotFound with near names."""
    found = names.find(db, spaces, user, kind, name)
    if found is None:
        raise NotFound(kind, name, names.suggest(db, spaces, user, kind, name, 3))
    return found


def current(
    db: sqlite3.Connection, spaces: Sequence[Space], user: str, kind: str, name: str, number: int | None = None
) -> Version | None:
    """The newest version of the record, or the one of that number; None where there is none."""
    found = names.find(db, spaces, user, kind, name)
    return version(db, found[0], number) if found is not None else None


def exactly(db: sqlite3.Connection, space: Space, kind: str, name: str, reader: str) -> Version | None:
    """The newest version of the record of that name which that reader alone (or, for "", everybody) sees."""
    for shelf in names.shelves(db, (space,), kind):
        row = db.execute(
            "SELECT id FROM record WHERE shelf = ? AND reader = ? AND folded = ? AND deleted_at IS NULL",
            (shelf, reader, names.folded(name)),
        ).fetchone()
        if row is not None:
            return version(db, int(row[0]))
    return None


_VERSION = (
    "SELECT record.id, record.name, version.number, version.at, version.by_name, version.reason, version.data "
    "FROM record JOIN version ON version.record = record.id "
)


def version(db: sqlite3.Connection, record: int, number: int | None = None) -> Version | None:
    """The newest version of that record, or the one of that number."""
    which = "version.number = record.version" if number is None else "version.number = ?"
    values = (record,) if number is None else (record, number)
    row = db.execute(f"{_VERSION} WHERE record.id = ? AND {which}", values).fetchone()
    return _version(row) if row is not None else None


def history(db: sqlite3.Connection, record: int, limit: int = 50) -> list[Version]:
    """The versions of that record, the newest first."""
    rows = db.execute(f"{_VERSION} WHERE record.id = ? ORDER BY version.number DESC LIMIT ?", (record, limit))
    return [_version(row) for row in rows]


def changes(db: sqlite3.Connection, spaces: Sequence[Space], user: str, kind: str, name: str) -> list[Change]:
    """Who changed the record of that name, when and why, the newest first."""
    found = names.find(db, spaces, user, kind, name)
    kept = history(db, found[0]) if found is not None else []
    return [Change(one.number, one.by, one.at[:10], one.reason) for one in kept]


def _version(row: tuple[Any, ...]) -> Version:
    return Version(row[0], row[1], row[2], row[3], row[4], row[5], json.loads(row[6]))


def write(
    db: sqlite3.Connection,
    space: Space,
    kind: str,
    name: str,
    data: dict[str, Any],
    stamp: Stamp,
    *,
    reason: str = "",
    reader: str = "",
) -> Version:
    """A new version of the record of that name and reader, made where there is none. `name` is cleaned here."""
    name = names.cleaned(name)
    there = exactly(db, space, kind, name, reader)
    record = _new(db, _shelf(db, space, kind), reader, name, stamp) if there is None else there.record
    return add_version(db, record, data, stamp, reason)


def add_version(db: sqlite3.Connection, record: int, data: dict[str, Any], stamp: Stamp, reason: str = "") -> Version:
    """The next version of a record that is there."""
    db.execute("UPDATE record SET version = version + 1 WHERE id = ?", (record,))
    db.execute(
        "INSERT INTO version SELECT id, version, ?, ?, ?, ?, ? FROM record WHERE id = ?",
        (stamp.at, stamp.user, stamp.name, reason, json.dumps(data, ensure_ascii=False, sort_keys=True), record),
    )
    written = version(db, record)
    assert written is not None
    return written


def _shelf(db: sqlite3.Connection, space: Space, kind: str) -> int:
    db.execute("INSERT OR IGNORE INTO shelf (space, kind) VALUES (?, ?)", (space, kind))
    return names.shelves(db, (space,), kind)[0]


def _new(db: sqlite3.Connection, shelf: int, reader: str, name: str, stamp: Stamp) -> int:
    key = names.folded(name)
    cursor = db.execute(
        "INSERT INTO record (shelf, reader, folded, name, made_by) VALUES (?, ?, ?, ?, ?)",
        (shelf, reader, key, name, stamp.user),
    )
    record = cursor.lastrowid
    assert record is not None
    db.executemany("INSERT INTO gram VALUES (?, ?, ?)", [(shelf, piece, record) for piece in names.pieces(key)])
    return record


def reader(db: sqlite3.Connection, record: int) -> str:
    """Who alone sees the record; "" for everybody of its space."""
    return str(db.execute("SELECT reader FROM record WHERE id = ?", (record,)).fetchone()[0])


def delete(db: sqlite3.Connection, record: int, stamp: Stamp) -> None:
    """Out of sight; kept until `purge` takes it."""
    db.execute(
        "UPDATE record SET deleted_at = ?, deleted_by = ? WHERE id = ? AND deleted_at IS NULL",
        (stamp.at, stamp.user, record),
    )


def last_deleted(db: sqlite3.Connection, space: Space, user: str, kind: str, name: str) -> tuple[int, str] | None:
    """Id and name of the one of that name that was deleted last and is still kept."""
    row = db.execute(
        "SELECT record.id, record.name FROM record JOIN shelf ON shelf.id = record.shelf "
        "WHERE shelf.space = ? AND shelf.kind = ? AND reader IN ('', ?) AND folded = ? AND deleted_at IS NOT NULL "
        "ORDER BY deleted_at DESC, record.id DESC LIMIT 1",
        (space, kind, user, names.folded(name)),
    ).fetchone()
    return (int(row[0]), str(row[1])) if row is not None else None


def undelete(db: sqlite3.Connection, record: int) -> None:
    """Back into sight. sqlite3.IntegrityError where another one has taken the name since."""
    db.execute("UPDATE record SET deleted_at = NULL, deleted_by = NULL WHERE id = ?", (record,))
