"""The file used by several at once: programs and threads wait a little, once, and nothing is written twice."""

from __future__ import annotations

import contextlib
import sqlite3
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.book import Preferences
from core.errors import LibraryUnavailable
from core.library import Library, connection, materials
from core.library.connection import WAIT_MS, connect
from core.library.library import AlreadyDone
from tests.core.library.shelves import ADA, GROUP, NOW, record_another, recorded


@contextlib.contextmanager
def holding(path: Path, *statements: str) -> Iterator[None]:
    """Another program that has the file in use."""
    with contextlib.closing(sqlite3.connect(path, isolation_level=None)) as other:
        for statement in statements:
            other.execute(statement).fetchall()
        yield


def test_while_another_program_writes_reading_goes_on_and_writing_gives_up_soon(tmp_path: Path) -> None:
    library = recorded(tmp_path / "l.db")
    with holding(tmp_path / "l.db", "BEGIN EXCLUSIVE"):
        book = library.book((GROUP,), "7")
        assert book.material("soy wax A") is not None
        assert book.trouble == ""
        with library.reading() as db:
            assert db is not None
        statements: list[str] = []
        db.set_trace_callback(statements.append)
        for _ in range(5):
            with pytest.raises(LibraryUnavailable, match="in use") as refused:
                record_another(library)
            assert refused.value.reason.startswith("locked")
        # Waits 200 ms once; who comes right after does not wait again.
        assert statements == ["BEGIN IMMEDIATE", "PRAGMA busy_timeout = 0", *["BEGIN IMMEDIATE"] * 4]
        db.set_trace_callback(None)
    time.sleep(0.01)
    record_another(library)
    assert library.book((GROUP,), "7").material("coconut wax") is not None


def test_a_file_locked_for_readers_too_answers_as_empty_and_says_so(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    waits: list[int] = []

    def counted(path: Path, wait_ms: int, *, still: bool = False) -> sqlite3.Connection:
        waits.append(wait_ms)
        return connect(path, wait_ms, still=still)

    recorded(tmp_path / "l.db").close()
    monkeypatch.setattr(connection, "connect", counted)
    library = Library(tmp_path / "l.db")
    with holding(tmp_path / "l.db", "PRAGMA locking_mode = EXCLUSIVE", "BEGIN IMMEDIATE", "DELETE FROM seen"):
        for _ in range(5):
            book = library.book((GROUP,), "7")
            assert book.material("soy wax A") is None
            assert book.preferences == Preferences()
            assert "in use" in book.trouble
        assert waits[0] == WAIT_MS
        assert set(waits[1:]) == {0}
    assert library.book((GROUP,), "7").material("soy wax A") is not None


def test_an_act_is_written_once(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    with library.writing("interaction 1", NOW) as db:
        materials.describe(db, GROUP, "a wax", {}, ADA, "")
    assert library.seen("interaction 1")
    with pytest.raises(AlreadyDone), library.writing("interaction 1", NOW):
        pytest.fail("it was let in twice")
    with contextlib.suppress(ZeroDivisionError), library.writing("interaction 2", NOW) as db:
        materials.describe(db, GROUP, "another wax", {}, ADA, "")
        raise ZeroDivisionError
    assert not library.seen("interaction 2")
    assert library.book((GROUP,), "7").material("another wax") is None


def test_many_threads_read_and_write(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    failed: list[BaseException] = []

    def work(number: int) -> None:
        try:
            for i in range(10):
                with library.writing(f"{number} {i}", NOW) as db:
                    materials.describe(db, GROUP, f"wax {number} {i}", {}, ADA, "")
                assert library.book((GROUP,), "7").material(f"wax {number} {i}") is not None
        except BaseException as error:
            failed.append(error)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failed == []
    assert library.check() == []
    assert len(library.book((GROUP,), "7").names("material", "wax", 100)) == 60


def test_two_programs_make_the_file_at_once(tmp_path: Path) -> None:
    libraries = [Library(tmp_path / "l.db") for _ in range(4)]
    failed: list[BaseException] = []

    def first_use(library: Library, name: str) -> None:
        for _ in range(20):
            try:
                with library.writing() as db:
                    materials.describe(db, GROUP, name, {}, ADA, "")
                return
            except LibraryUnavailable:
                time.sleep(0.1)
        failed.append(LibraryUnavailable("never", name))

    threads = [threading.Thread(target=first_use, args=(one, f"wax {i}")) for i, one in enumerate(libraries)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert failed == []
    assert len(libraries[0].book((GROUP,), "7").names("material", "wax", 100)) == 4
