"""What is kept about one person, shown and taken away; and what goes when its time is over."""

from __future__ import annotations

import json
import sqlite3
from typing import Any

from core.library import odds
from core.library.space import Space

KEPT_DELETED_DAYS = 30
KEPT_SEEN_DAYS = 2  # a repeated delivery comes within minutes
FORMER = "a former member"
MOST_ROWS = 100_000


def export_person(db: sqlite3.Connection, user: str) -> dict[str, Any]:
    """Everything that bears this person's id, as plain JSON: settings, records, versions, measurements, tests."""
    where = "JOIN record ON record.id = {0}.record JOIN shelf ON shelf.id = record.shelf WHERE {0}.user = ?"
    versions = _rows(
        db,
        "SELECT shelf.space, shelf.kind, record.name, version.number, version.at, version.by_name, version.reason, "
        "version.data, record.deleted_at FROM version " + where.format("version"),
        user,
    )
    for row in versions:
        row["data"] = json.loads(row["data"])
    return {
        "user": user,
        "settings": dict(db.execute("SELECT key, value FROM setting WHERE scope = ?", (Space.own(user),)).fetchall()),
        "versions": versions,
        "measurements": _rows(
            db,
            "SELECT shelf.space, record.name, measurement.number, density, spread, mass, volume, warmth, method, "
            "source, measurement.at, measurement.by_name, measurement.deleted_at FROM measurement "
            + where.format("measurement"),
            user,
        ),
        "tests": _rows(
            db,
            "SELECT shelf.space, record.name, trial.number, trial.version, cure_days, observed, verdict, trial.at, "
            "trial.by_name, trial.deleted_at FROM trial " + where.format("trial"),
            user,
        ),
    }


def _rows(db: sqlite3.Connection, query: str, user: str) -> list[dict[str, Any]]:
    cursor = db.execute(f"{query} LIMIT {MOST_ROWS}", (user,))
    columns = [column[0] for column in cursor.description]
    return [dict(zip(columns, row, strict=True)) for row in cursor]


def forget_person(db: sqlite3.Connection, user: str) -> None:
    """Take away at once what is this person's alone; what they gave to a group stays, without their name."""
    own = Space.own(user)
    db.execute("DELETE FROM record WHERE reader = ?", (user,))
    _forget_space(db, own)
    for table in ("version", "measurement", "trial"):
        db.execute(f"UPDATE {table} SET user = '', by_name = ? WHERE user = ?", (FORMER, user))
    db.execute("UPDATE record SET made_by = '' WHERE made_by = ?", (user,))
    for table in ("record", "measurement", "trial"):
        db.execute(f"UPDATE {table} SET deleted_by = '' WHERE deleted_by = ?", (user,))


def _forget_space(db: sqlite3.Connection, space: str) -> None:
    # The pieces of names hang on the records; versions, measurements and tests go with them too.
    db.execute("DELETE FROM shelf WHERE space = ?", (space,))
    db.execute("DELETE FROM setting WHERE scope = ?", (space,))


def leave(db: sqlite3.Connection, space: Space, after: str) -> None:
    """The space is to be forgotten after that time; a time already set stays."""
    db.execute("INSERT OR IGNORE INTO leaving VALUES (?, ?)", (space, after))


def servers(db: sqlite3.Connection) -> list[str]:
    """The ids of the servers anything is kept of."""
    found = db.execute("SELECT space FROM shelf UNION SELECT scope FROM setting UNION SELECT space FROM leaving")
    return [space.removeprefix("guild:") for (space,) in found if Space(space).shared]


def leaves(db: sqlite3.Connection, space: Space) -> bool:
    """Whether the space is to be forgotten some day."""
    return db.execute("SELECT 1 FROM leaving WHERE space = ?", (space,)).fetchone() is not None


def stay(db: sqlite3.Connection, space: Space) -> None:
    """The space is not to be forgotten after all."""
    db.execute("DELETE FROM leaving WHERE space = ?", (space,))


def purge(db: sqlite3.Connection, now: str) -> int:
    """Take away what has had its time by `now` (ISO 8601 UTC); how many things went."""
    gone = 0
    for (space,) in db.execute("SELECT space FROM leaving WHERE after <= ?", (now,)).fetchall():
        _forget_space(db, space)
        gone += db.execute("DELETE FROM leaving WHERE space = ?", (space,)).rowcount
    deleted_before = odds.later(now, -KEPT_DELETED_DAYS)
    for table in ("record", "measurement", "trial"):
        gone += db.execute(f"DELETE FROM {table} WHERE deleted_at < ?", (deleted_before,)).rowcount
    gone += db.execute("DELETE FROM asked WHERE until < ?", (now,)).rowcount
    return gone + db.execute("DELETE FROM seen WHERE at < ?", (odds.later(now, -KEPT_SEEN_DAYS),)).rowcount
