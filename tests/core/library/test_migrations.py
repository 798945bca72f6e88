"""The file brought from shape to shape: an older one stays readable, a newer one is refused, a step is whole or not."""

from __future__ import annotations

import contextlib
import sqlite3
from pathlib import Path

import pytest
from sqlite_utils import Database

from core.errors import LibraryUnavailable
from core.library import Library, migrations
from core.library.connection import connect
from tests.core.library.shelves import GROUP, filled, names_in, older_file

FURTHER = migrations.NEWEST + 1


def shape(db: sqlite3.Connection) -> list[tuple[str, ...]]:
    """Every table and index with how it was made, but for what sqlite-utils keeps for itself."""
    return db.execute(
        "SELECT type, name, sql FROM sqlite_master WHERE name NOT LIKE '%migrations%' ORDER BY 2"
    ).fetchall()


def test_the_first_step_is_as_it_was_released(tmp_path: Path) -> None:
    """Who changes a released step leaves every older file in a shape that no step knows."""
    with contextlib.closing(connect(older_file(tmp_path / "old.db"))) as old:
        expected = shape(old)
        assert old.execute("PRAGMA user_version").fetchone() == (1,)
    with contextlib.closing(connect(tmp_path / "new.db")) as new:
        migrations.bring_up_to_date(new, 1)
        assert shape(new) == expected


def test_a_file_of_the_first_shape_is_read_and_brought_up(tmp_path: Path) -> None:
    library = Library(older_file(tmp_path / "l.db"))
    book = library.book((GROUP,), "8")
    oil = book.material("rose oil")
    assert oil is not None
    assert oil.density is not None
    assert float(oil.density.base) == pytest.approx(0.9325)  # by hand: (0.93 + 0.935) ÷ 2; the third was taken out
    vessel = book.vessel("amber tin")
    assert vessel is not None
    assert vessel.room is not None
    assert vessel.room.base == 250
    formula = book.formula("winter pine")
    assert formula is not None
    assert (formula.version, formula.load.base) == (2, 9)
    assert [test.verdict for test in book.tests("winter pine")] == ["works"]
    assert library.own_settings(GROUP) == {"basis": "total"}
    assert library.check() == []
    library.close()
    with contextlib.closing(connect(tmp_path / "l.db")) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (migrations.NEWEST,)
        assert db.execute("SELECT count(*) FROM measurement WHERE deleted_at IS NOT NULL").fetchone() == (1,)
        now = shape(db)
    with contextlib.closing(connect(tmp_path / "new.db")) as new:
        migrations.bring_up_to_date(new)
        assert shape(new) == now, "a file that grew up is as one that was made today"


def test_what_is_purged_is_found_by_an_index(tmp_path: Path) -> None:
    with contextlib.closing(connect(older_file(tmp_path / "l.db"))) as db:
        migrations.bring_up_to_date(db)
        for table, column in (("measurement", "deleted_at"), ("trial", "deleted_at"), ("asked", "until")):
            plan = str(db.execute(f"EXPLAIN QUERY PLAN DELETE FROM {table} WHERE {column} < '2026'").fetchall())
            assert f"{table}_{'until' if table == 'asked' else 'deleted'}" in plan


def test_a_backup_of_the_first_shape_is_restored(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 4)
    library.restore(older_file(tmp_path / "old-backup.db"))
    assert names_in(tmp_path / "l.db") == ["rose oil"]


def test_a_file_of_a_newer_bot_is_refused_and_left_alone(tmp_path: Path) -> None:
    filled(Library(tmp_path / "l.db"), 4)
    with contextlib.closing(sqlite3.connect(tmp_path / "l.db")) as db:
        db.execute(f"PRAGMA user_version = {FURTHER}")
        db.commit()
    library = Library(tmp_path / "l.db")
    for use in (lambda: library.own_settings(GROUP), lambda: filled(library, 1, start=9)):
        with pytest.raises(LibraryUnavailable, match="newer Steelyard"):
            use()
    assert "newer Steelyard" in library.book((GROUP,), "7").trouble
    with contextlib.closing(sqlite3.connect(tmp_path / "l.db")) as db:
        assert db.execute("PRAGMA user_version").fetchone() == (FURTHER,)
        assert db.execute("SELECT count(*) FROM record").fetchone() == (4,)


def _with_a_further_step(monkeypatch: pytest.MonkeyPatch, *statements: str) -> None:
    def step(database: Database) -> None:
        for statement in statements:
            database.conn.execute(statement)

    monkeypatch.setattr(migrations, "STEPS", (*migrations.STEPS, ("99 trying out", step)))


def test_a_further_step_keeps_what_is_there(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    filled(Library(tmp_path / "l.db"), 4)
    _with_a_further_step(monkeypatch, "ALTER TABLE record ADD COLUMN colour TEXT")
    with contextlib.closing(connect(tmp_path / "l.db")) as db:
        migrations.bring_up_to_date(db, FURTHER)
        assert db.execute("SELECT count(*), count(colour) FROM record").fetchone() == (4, 0)
        assert db.execute("PRAGMA user_version").fetchone() == (FURTHER,)
        done = db.execute("SELECT name FROM _sqlite_migrations ORDER BY id").fetchall()
    assert done == [(name,) for name, _ in migrations.STEPS]


def test_a_step_that_fails_leaves_the_file_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    filled(Library(tmp_path / "l.db"), 4)
    _with_a_further_step(monkeypatch, "ALTER TABLE record ADD COLUMN colour TEXT", "DROP TABLE nowhere")
    with contextlib.closing(connect(tmp_path / "l.db")) as db:
        with pytest.raises(sqlite3.OperationalError, match="nowhere"):
            migrations.bring_up_to_date(db, FURTHER)
        assert db.execute("PRAGMA user_version").fetchone() == (migrations.NEWEST,)
        assert "colour" not in [row[1] for row in db.execute("PRAGMA table_info(record)")]
    assert len(names_in(tmp_path / "l.db")) == 2
