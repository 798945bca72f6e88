"""Backup while in use, restore with the old file kept, the file brought to a newer shape: all or nothing."""

from __future__ import annotations

import contextlib
import sqlite3
import threading
import time
from pathlib import Path

import pytest
from sqlite_utils import Database

from core.errors import LibraryUnavailable
from core.library import Library, migrations, upkeep
from core.library.connection import connect
from tests.core.library.shelves import GROUP, filled


def names_in(path: Path) -> list[str]:
    library = Library(path)
    found = list(library.book((GROUP,), "7").names("material", "", 10_000))
    library.close()
    return found


def test_a_backup_made_while_others_write_is_whole(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Page by page, so that the writer surely comes in between: it is not kept waiting, and the copy is of one
    moment."""
    monkeypatch.setattr(upkeep, "PAGES", 1)
    library = Library(tmp_path / "l.db")
    filled(library, 2000)
    stop = threading.Event()
    written = [2000]

    def keep_writing() -> None:
        while not stop.is_set():
            filled(library, 2, start=written[-1])
            written.append(written[-1] + 2)

    writer = threading.Thread(target=keep_writing)
    writer.start()
    try:
        while len(written) < 2:
            time.sleep(0.001)
        before = written[-1]
        library.backup(tmp_path / "copies" / "b.db")
        after = written[-1]
    finally:
        stop.set()
        writer.join()
    assert after > before, "nobody could write meanwhile"
    assert before // 2 <= len(names_in(tmp_path / "copies" / "b.db")) <= after // 2 + 1
    copy = Library(tmp_path / "copies" / "b.db")
    assert copy.check() == []
    copy.close()
    assert [one.name for one in (tmp_path / "copies").iterdir()] == ["b.db"]


def test_a_backup_needs_something_to_copy_and_a_place(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    with pytest.raises(LibraryUnavailable, match="no library yet"):
        library.backup(tmp_path / "b.db")
    filled(library, 2)
    with pytest.raises(LibraryUnavailable, match="own file"):
        library.backup(tmp_path / "l.db")
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(LibraryUnavailable, match="could not be made"):
        library.backup(tmp_path / "file" / "b.db")
    assert len(names_in(tmp_path / "l.db")) == 1


def test_restored_and_the_old_one_kept(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 10)
    library.backup(tmp_path / "b.db")
    filled(library, 10, start=10)
    kept = library.restore(tmp_path / "b.db")
    assert kept == tmp_path / "l.db.old1"
    assert len(library.book((GROUP,), "7").names("material", "", 100)) == 5
    assert len(names_in(kept)) == 10
    assert library.restore(tmp_path / "b.db") == tmp_path / "l.db.old2"
    assert (tmp_path / "b.db").exists()
    elsewhere = Library(tmp_path / "new" / "l.db")
    assert elsewhere.restore(tmp_path / "b.db") is None
    assert len(elsewhere.book((GROUP,), "7").names("material", "", 100)) == 5


def test_a_bad_backup_changes_nothing(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 400)
    library.backup(tmp_path / "b.db")
    library.close()
    before = names_in(tmp_path / "l.db")
    content = bytearray((tmp_path / "b.db").read_bytes())
    content[4096 * 5 : 4096 * 5 + 3000] = b"\x77" * 3000
    (tmp_path / "damaged.db").write_bytes(bytes(content))
    (tmp_path / "words.db").write_text("words " * 1000)
    with contextlib.closing(sqlite3.connect(tmp_path / "other.db")) as other:
        other.execute("CREATE TABLE bills (id)")
        other.commit()
    with contextlib.closing(sqlite3.connect(tmp_path / "newer.db")) as newer:
        newer.execute(f"PRAGMA user_version = {migrations.NEWEST + 1}")
    (tmp_path / "empty.db").write_bytes(b"")
    (tmp_path / "orphans.db").write_bytes((tmp_path / "b.db").read_bytes())
    with contextlib.closing(sqlite3.connect(tmp_path / "orphans.db")) as orphans:
        orphans.execute("DELETE FROM record WHERE id = 1")  # foreign keys are off here
        orphans.commit()
    for name, says in {
        "damaged.db": "backup is damaged",
        "orphans.db": "belong to nothing",
        "words.db": "no library",
        "other.db": "something else",
        "newer.db": "newer",
        "empty.db": "empty",
        "missing.db": "no file",
        "l.db": "own file",
    }.items():
        with pytest.raises(LibraryUnavailable, match=says):
            library.restore(tmp_path / name)
    library.close()
    assert names_in(tmp_path / "l.db") == before
    assert sorted(one.name for one in tmp_path.glob("l.db*")) == ["l.db"]


def test_a_library_in_use_is_not_replaced(tmp_path: Path) -> None:
    running, library = Library(tmp_path / "l.db"), Library(tmp_path / "l.db")
    filled(running, 4)
    running.backup(tmp_path / "b.db")
    with pytest.raises(LibraryUnavailable, match="Stop the bot"):
        library.restore(tmp_path / "b.db")
    filled(running, 4, start=4)
    running.close()
    kept = library.restore(tmp_path / "b.db")
    assert kept is not None
    assert len(names_in(kept)) == 4


def test_what_stands_in_the_log_of_a_copied_library_is_restored_too(tmp_path: Path) -> None:
    running = Library(tmp_path / "l.db")
    filled(running, 4)
    for ending in ("", "-wal"):
        (tmp_path / f"copy.db{ending}").write_bytes((tmp_path / f"l.db{ending}").read_bytes())
    library = Library(tmp_path / "new.db")
    library.restore(tmp_path / "copy.db")
    assert len(library.book((GROUP,), "7").names("material", "", 10)) == 2


def _with_step_two(monkeypatch: pytest.MonkeyPatch, *statements: str) -> None:
    def step(database: Database) -> None:
        for statement in statements:
            database.conn.execute(statement)

    monkeypatch.setattr(migrations, "STEPS", (*migrations.STEPS, ("2 trying out", step)))


def test_an_older_file_is_brought_to_the_newest_shape(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    filled(Library(tmp_path / "l.db"), 4)
    _with_step_two(monkeypatch, "ALTER TABLE record ADD COLUMN colour TEXT")
    with contextlib.closing(connect(tmp_path / "l.db")) as db:
        migrations.bring_up_to_date(db, 2)
        assert db.execute("SELECT count(*), count(colour) FROM record").fetchone() == (4, 0)
        assert db.execute("PRAGMA user_version").fetchone() == (2,)
        done = db.execute("SELECT name FROM _sqlite_migrations ORDER BY id").fetchall()
    assert done == [("1 records, versions, names, settings",), ("2 trying out",)]


def test_a_step_that_fails_leaves_the_file_as_it_was(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    filled(Library(tmp_path / "l.db"), 4)
    _with_step_two(monkeypatch, "ALTER TABLE record ADD COLUMN colour TEXT", "DROP TABLE nowhere")
    with contextlib.closing(connect(tmp_path / "l.db")) as db:
        with pytest.raises(sqlite3.OperationalError, match="nowhere"):
            migrations.bring_up_to_date(db, 2)
        assert db.execute("PRAGMA user_version").fetchone() == (1,)
        assert "colour" not in [row[1] for row in db.execute("PRAGMA table_info(record)")]
    assert len(names_in(tmp_path / "l.db")) == 2


def test_rows_that_belong_to_nothing_are_noticed(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 4)
    with contextlib.closing(sqlite3.connect(tmp_path / "l.db")) as db:
        db.execute("DELETE FROM record WHERE id = 1")  # foreign keys are off here
        db.commit()
    assert any("belong to nothing" in line for line in library.check())
