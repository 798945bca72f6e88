"""Backup while in use, restore with the old file kept, the file brought to a newer shape: all or nothing."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import threading
import time
from pathlib import Path

import pytest

from core.errors import LibraryUnavailable
from core.library import Library, migrations, upkeep
from tests.core.library.shelves import GROUP, filled, names_in


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


def test_restored_as_root_it_belongs_to_whom_the_old_one_did(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 2)
    library.backup(tmp_path / "b.db")
    (tmp_path / "l.db").chmod(0o600)
    owner = (tmp_path / "l.db").stat()
    given: list[tuple[int, int]] = []
    monkeypatch.setattr(os, "geteuid", lambda: owner.st_uid + 1)  # as if somebody else did it
    monkeypatch.setattr(os, "chown", lambda path, user, group: given.append((user, group)))
    library.restore(tmp_path / "b.db")
    assert given == [(owner.st_uid, owner.st_gid)]
    assert (tmp_path / "l.db").stat().st_mode & 0o777 == 0o600


def test_a_backup_is_read_by_nobody_who_may_not_read_the_library(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 2)
    (tmp_path / "l.db").chmod(0o600)
    library.backup(tmp_path / "b.db")
    assert (tmp_path / "b.db").stat().st_mode & 0o777 == 0o600


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


def test_rows_that_belong_to_nothing_are_noticed(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 4)
    with contextlib.closing(sqlite3.connect(tmp_path / "l.db")) as db:
        db.execute("DELETE FROM record WHERE id = 1")  # foreign keys are off here
        db.commit()
    assert any("belong to nothing" in line for line in library.check())
