"""Settings are kept from one answer to the next until somebody writes to the file, whoever it is."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from core.library import Library

WHO = ("user:7",)


def log_of(path: Path) -> Path:
    return path.with_name(f"{path.name}-wal")


def settle(path: Path, seconds: float = 3600) -> None:
    """As if nobody had written for so long."""
    then = time.time() - seconds
    for file in (path, log_of(path)):
        if file.exists():
            os.utime(file, (then, then))


@contextlib.contextmanager
def locked(path: Path) -> Iterator[None]:
    """Another program holds the file, so that nothing can be read of it."""
    with contextlib.closing(sqlite3.connect(path, isolation_level=None, timeout=5)) as other:
        other.execute("PRAGMA locking_mode = EXCLUSIVE")
        other.execute("BEGIN IMMEDIATE")
        other.execute("DELETE FROM seen")
        yield
        other.execute("ROLLBACK")


def written(path: Path) -> Library:
    """A library with a setting and no connection left open; its dates are an hour old."""
    library = Library(path)
    library.set_settings("user:7", {"first": "oz"})
    library.close()
    settle(path)
    return library


def test_what_was_read_once_is_not_read_again(tmp_path: Path) -> None:
    library = written(tmp_path / "l.db")
    assert library.book(WHO, "7").preferences.first == "oz"
    assert library.book(WHO, "8").preferences.first == ""
    library.close()
    with locked(tmp_path / "l.db"):
        book = library.book(WHO, "7")
        assert (book.preferences.first, book.trouble) == ("oz", "")
        stranger = library.book(WHO, "9")
        assert (stranger.preferences.first, "in use" in stranger.trouble) == ("", True)


def test_what_this_or_another_program_writes_holds_at_once(tmp_path: Path) -> None:
    path = tmp_path / "l.db"
    library = written(path)
    assert library.book(WHO, "7").preferences.first == "oz"
    library.set_settings("user:7", {"first": "g"})
    assert library.book(WHO, "7").preferences.first == "g"
    settle(path)
    assert library.book(WHO, "7").preferences.first == "g"
    Library(path).set_settings("user:7", {"first": "oz"})
    assert library.book(WHO, "7").preferences.first == "oz"


def test_writes_within_a_tick_of_the_clock_are_told_apart(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "l.db"
    library = written(path)
    tick = time.time_ns()
    monkeypatch.setattr("core.library.connection.time.time_ns", lambda: tick + 10**8)
    for first in ("g", "oz", "g"):
        library.set_settings("user:7", {"first": first})
        library.close()  # the log goes into the file, whose size stays
        os.utime(path, ns=(tick, tick))
        assert library.book(WHO, "7").preferences.first == first


def test_what_could_not_be_read_is_not_kept(tmp_path: Path) -> None:
    library = written(tmp_path / "l.db")
    with locked(tmp_path / "l.db"):
        settle(tmp_path / "l.db")
        book = library.book(WHO, "7")
        assert (book.preferences.first, "in use" in book.trouble) == ("", True)
    assert library.book(WHO, "7").preferences.first == "oz"


def test_a_file_put_in_its_place_is_read_anew(tmp_path: Path) -> None:
    library = written(tmp_path / "l.db")
    assert library.book(WHO, "7").preferences.first == "oz"
    library.close()
    other = Library(tmp_path / "other.db")
    other.set_settings("user:7", {"comma": "yes"})
    other.close()
    settle(tmp_path / "other.db")
    os.replace(tmp_path / "other.db", tmp_path / "l.db")
    assert library.book(WHO, "7").preferences.comma
