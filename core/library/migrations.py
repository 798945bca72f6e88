"""The shape of the file, step by step. A step that has been released is never changed; a new one is added.

All steps that are due run in one transaction, each in a savepoint with its own record (sqlite-utils keeps them in
`_sqlite_migrations`), so that a file is always at a step as a whole.
"""

from __future__ import annotations

import sqlite3
from collections.abc import Callable
from typing import TYPE_CHECKING

from core.errors import LibraryUnavailable

if TYPE_CHECKING:
    from sqlite_utils import Database

APPLICATION = 0x53746C79  # in the file's header: tells our file from any other SQLite file

NEWER = "The library was written by a newer Steelyard. Update this one, or name another file."
FOREIGN = "The library's file is a database of something else. Name another file in the `database` setting."

# A record is a material, a vessel or a formula. `reader` is "" for everybody of the space, else the one who sees it.
# What a record holds stands in its versions, as JSON with exact decimals in text; the highest version counts.
# `gram` holds three-letter pieces of the names of a `shelf` (space and kind), to find near misses.
_FIRST = """
CREATE TABLE shelf (id INTEGER PRIMARY KEY, space TEXT NOT NULL, kind TEXT NOT NULL, UNIQUE (space, kind));
CREATE TABLE record (
    id INTEGER PRIMARY KEY,
    shelf INTEGER NOT NULL REFERENCES shelf (id) ON DELETE CASCADE,
    reader TEXT NOT NULL DEFAULT '',
    folded TEXT NOT NULL,
    name TEXT NOT NULL,
    version INTEGER NOT NULL DEFAULT 0,
    made_by TEXT NOT NULL,
    deleted_at TEXT,
    deleted_by TEXT
);
CREATE UNIQUE INDEX record_by_name ON record (shelf, reader, folded) WHERE deleted_at IS NULL;
CREATE INDEX record_deleted ON record (deleted_at) WHERE deleted_at IS NOT NULL;
CREATE INDEX record_by_maker ON record (made_by);
CREATE TABLE version (
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    at TEXT NOT NULL,
    user TEXT NOT NULL,
    by_name TEXT NOT NULL,
    reason TEXT NOT NULL DEFAULT '',
    data TEXT NOT NULL,
    PRIMARY KEY (record, number)
) WITHOUT ROWID;
CREATE INDEX version_by_user ON version (user);
CREATE TABLE measurement (
    id INTEGER PRIMARY KEY,
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    density TEXT NOT NULL,
    spread TEXT,
    mass TEXT,
    volume TEXT,
    warmth TEXT,
    method TEXT NOT NULL DEFAULT '',
    source TEXT NOT NULL DEFAULT '',
    at TEXT NOT NULL,
    user TEXT NOT NULL,
    by_name TEXT NOT NULL,
    deleted_at TEXT,
    deleted_by TEXT,
    UNIQUE (record, number)
);
CREATE INDEX measurement_by_user ON measurement (user);
CREATE TABLE trial (
    id INTEGER PRIMARY KEY,
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    number INTEGER NOT NULL,
    version INTEGER NOT NULL,
    cure_days INTEGER,
    observed TEXT NOT NULL DEFAULT '',
    verdict TEXT NOT NULL DEFAULT '',
    at TEXT NOT NULL,
    user TEXT NOT NULL,
    by_name TEXT NOT NULL,
    deleted_at TEXT,
    deleted_by TEXT,
    UNIQUE (record, number)
);
CREATE INDEX trial_by_user ON trial (user);
CREATE TABLE gram (
    shelf INTEGER NOT NULL,
    gram TEXT NOT NULL,
    record INTEGER NOT NULL REFERENCES record (id) ON DELETE CASCADE,
    PRIMARY KEY (shelf, gram, record)
) WITHOUT ROWID;
CREATE INDEX gram_of ON gram (record);
CREATE TABLE setting (scope TEXT NOT NULL, key TEXT NOT NULL, value TEXT NOT NULL, PRIMARY KEY (scope, key))
    WITHOUT ROWID;
CREATE TABLE asked (id TEXT PRIMARY KEY, text TEXT NOT NULL, until TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE seen (once TEXT PRIMARY KEY, at TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE leaving (space TEXT PRIMARY KEY, after TEXT NOT NULL) WITHOUT ROWID;
"""

# What is to go for good is looked for every day: without these that looked through every row.
_PURGED = """
CREATE INDEX measurement_deleted ON measurement (deleted_at) WHERE deleted_at IS NOT NULL;
CREATE INDEX trial_deleted ON trial (deleted_at) WHERE deleted_at IS NOT NULL;
CREATE INDEX asked_until ON asked (until);
"""


def _script(text: str) -> Callable[[Database], None]:
    """A step of plain SQL. Statement by statement: executescript would end the transaction."""

    def step(database: Database) -> None:
        for statement in text.split(";\n"):
            if statement.strip():
                database.conn.execute(statement)

    return step


STEPS: tuple[tuple[str, Callable[[Database], None]], ...] = (
    ("1 records, versions, names, settings", _script(_FIRST)),
    ("2 what is purged is found by its date", _script(_PURGED)),
)
NEWEST = len(STEPS)


def bring_up_to_date(connection: sqlite3.Connection, newest: int = NEWEST) -> None:
    """Check whose file it is and run the steps it lacks. Raises LibraryUnavailable, or sqlite3.Error as it comes."""
    (at,) = connection.execute("PRAGMA user_version").fetchone()
    if at == newest:
        return
    if at > newest:
        raise LibraryUnavailable(NEWER, f"schema {at}, newest known {newest}")
    if at == 0 and not _is_ours(connection):
        raise LibraryUnavailable(FOREIGN, "tables of something else")
    connection.execute("PRAGMA journal_mode = WAL")
    connection.execute("BEGIN IMMEDIATE")
    try:
        (at,) = connection.execute("PRAGMA user_version").fetchone()
        if at < newest:  # else another process was quicker
            _run(connection, newest)
    except BaseException:
        connection.execute("ROLLBACK")
        raise
    connection.execute("COMMIT")


def _is_ours(connection: sqlite3.Connection) -> bool:
    (application,) = connection.execute("PRAGMA application_id").fetchone()
    (tables,) = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()
    return bool(application == APPLICATION or not tables)


def _run(connection: sqlite3.Connection, newest: int) -> None:
    # Only here, once in the life of a file: importing sqlite-utils takes tens of megabytes and 0.1 s or more
    # (it brings pandas along where that is installed), and a bot that only answers needs none of it.
    from sqlite_utils import Database
    from sqlite_utils.migrations import Migrations

    migrations = Migrations("steelyard")
    for name, step in STEPS[:newest]:
        migrations(name=name)(step)
    migrations.apply(Database(connection, recursive_triggers=False))
    connection.execute(f"PRAGMA application_id = {APPLICATION}")
    connection.execute(f"PRAGMA user_version = {newest}")
