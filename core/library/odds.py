"""Small things kept for a while: questions behind buttons, acts that were done, servers that were left."""

from __future__ import annotations

import base64
import hashlib
import sqlite3
from datetime import datetime, timedelta

KEPT_ASKED_DAYS = 30
NEVER = "9999-12-31"


def asked_id(text: str) -> str:
    """22 letters and digits that stand for the text: the same text, the same id."""
    return base64.urlsafe_b64encode(hashlib.sha256(text.encode()).digest()[:16]).decode().rstrip("=")


def keep_asked(db: sqlite3.Connection, text: str, until: str) -> str:
    """Keep the text, or keep it longer; its id."""
    key = asked_id(text)
    db.execute(
        "INSERT INTO asked VALUES (?, ?, ?) ON CONFLICT (id) DO UPDATE SET until = max(until, excluded.until)",
        (key, text, until),
    )
    return key


def asked(db: sqlite3.Connection, key: str) -> str | None:
    """The text kept under that id; None where it is gone."""
    row = db.execute("SELECT text FROM asked WHERE id = ?", (key,)).fetchone()
    return str(row[0]) if row is not None else None


def seen(db: sqlite3.Connection, once: str) -> bool:
    """Whether the act of that id was done."""
    return db.execute("SELECT 1 FROM seen WHERE once = ?", (once,)).fetchone() is not None


def mark_seen(db: sqlite3.Connection, once: str, now: str) -> bool:
    """Mark the act as done; False where it was already."""
    return db.execute("INSERT OR IGNORE INTO seen VALUES (?, ?)", (once, now)).rowcount == 1


def later(now: str, days: int) -> str:
    """`now` and so many days, in ISO 8601; far in the future where no time is given."""
    return (datetime.fromisoformat(now) + timedelta(days=days)).isoformat(timespec="seconds") if now else NEVER


def kept_long_enough(db: sqlite3.Connection, text: str, now: str) -> bool:
    """Whether the text is kept for most of its time still, so that a question asked often is not written each time."""
    row = db.execute("SELECT until FROM asked WHERE id = ?", (asked_id(text),)).fetchone()
    return row is not None and str(row[0]) >= later(now, KEPT_ASKED_DAYS // 2)
