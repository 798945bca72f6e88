"""The SQLite file: opened at first use, one connection for each thread, and every failure as one sentence."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import threading
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

from core.errors import LibraryUnavailable
from core.library import migrations

T = TypeVar("T")

WAIT_MS = 200  # how long one access waits for somebody else's lock
WRITERS_WAIT = 0.4  # seconds a writer waits for the other writers of this process
CREATION_WAIT = 1.5  # seconds more, while another of them makes the file
CLOSING_WAIT = 2.0  # seconds a connection in use is waited for when the library is closed
# After a lock nobody waits again for so long: a long lock must not make a queue of slow answers.
RESTING = 1.0
# What was read is kept only where nobody had written for so long: within a tick of the file system's clock two writes
# look like one.
SETTLED_NS = 1_000_000_000
MOST_KEPT = 4_000  # readings


@dataclass(slots=True, eq=False)
class _Held:
    """A connection of one thread, of the round (between two closings) it was opened in, and how long it waits."""

    round: int
    connection: sqlite3.Connection
    patience: int = -1
    lock: threading.RLock = field(default_factory=threading.RLock)


class Store:
    """The file and its connections. Reading never creates the file; the first writing does."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self._local = threading.local()
        self._open: list[_Held] = []
        self._registry = threading.Lock()
        self._writers = threading.Lock()
        self._opening = threading.Lock()
        self._round = 0
        # How long ago the file was found locked. No answer depends on it.
        self._locked_at = float("-inf")
        self._files = (str(path), f"{path}-wal")
        self._kept: tuple[object, dict[Any, Any]] = (None, {})

    def __del__(self) -> None:
        # Newer Pythons warn of connections that nobody closed.
        self.close()

    def read(self, work: Callable[[sqlite3.Connection], T], nothing: T) -> T:
        """What `work` reads; `nothing` where there is no file yet. Raises LibraryUnavailable. Every answer reads, and
        this takes half as long as the context below."""
        try:
            if not os.path.exists(self.path):
                self._may_be_created()
                return nothing
            held = self._held(create=False)
            try:
                self._wait_as_now(held)
                return work(held.connection)
            finally:
                held.lock.release()
        except (sqlite3.Error, OSError) as error:
            raise self._unavailable(error) from error

    def unchanged(self) -> dict[Any, Any]:
        """Where readings may be kept, by a key: they are gone as soon as anybody writes to the file. Looking at the
        file's dates takes a tenth of what a reading takes."""
        dates: list[tuple[int, int, int]] = []
        for name in self._files:
            try:
                found = os.stat(name)
            except OSError:
                continue
            if not found.st_size:
                continue  # an empty log is as good as none
            if time.time_ns() - found.st_mtime_ns < SETTLED_NS:
                return {}
            dates.append((found.st_ino, found.st_size, found.st_mtime_ns))
        if not dates:
            return {}
        seen, kept = self._kept
        if seen != dates or len(kept) >= MOST_KEPT:
            kept = {}
            self._kept = (dates, kept)
        return kept

    @contextlib.contextmanager
    def reading(self) -> Iterator[sqlite3.Connection | None]:
        """A connection to read with; None where there is no file yet. Raises LibraryUnavailable."""
        try:
            if not os.path.exists(self.path):
                self._may_be_created()
                yield None
                return
            with self._connection(create=False) as connection:
                yield connection
        except (sqlite3.Error, OSError) as error:
            raise self._unavailable(error) from error

    @contextlib.contextmanager
    def writing(self) -> Iterator[sqlite3.Connection]:
        """A connection in a transaction, kept whole or not at all. Raises LibraryUnavailable."""
        if not self._writers.acquire(timeout=WRITERS_WAIT) and not self._after_creation():
            raise LibraryUnavailable(SENTENCES["locked"], "locked by this process")
        try:
            with self._connection(create=True) as connection:
                connection.execute("BEGIN IMMEDIATE")
                try:
                    yield connection
                except BaseException:
                    connection.execute("ROLLBACK")
                    raise
                connection.execute("COMMIT")
        except (sqlite3.Error, OSError) as error:
            raise self._unavailable(error) from error
        finally:
            self._writers.release()

    def _after_creation(self) -> bool:
        """Wait for the writer who is making the file, which happens once in its life and takes longer than writing."""
        return self._opening.locked() and self._writers.acquire(timeout=CREATION_WAIT)

    def wipe_log(self) -> None:
        """Write the log back into the file and empty it, so that nothing taken away lingers there. Where somebody is
        reading just now it is left to a later time."""
        with contextlib.suppress(sqlite3.Error), self._connection(create=False) as connection:
            connection.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()

    def close(self) -> None:
        """Close every connection; the next use opens the file anew. One in use by another thread is waited for."""
        with self._registry:
            held, self._open = self._open, []
            self._round += 1
        for each in held:
            # Closing it under a running statement would take the whole process down. Who is still at it after that
            # long lets go of it when done: it is of an earlier round.
            if each.lock.acquire(timeout=CLOSING_WAIT):
                with contextlib.suppress(sqlite3.Error):
                    each.connection.close()
                each.lock.release()

    @contextlib.contextmanager
    def _connection(self, *, create: bool) -> Iterator[sqlite3.Connection]:
        """This thread's connection, opened and brought to the newest schema where that is needed; nobody closes it
        meanwhile."""
        held = self._held(create)
        try:
            self._wait_as_now(held)
            yield held.connection
        finally:
            held.lock.release()

    def _wait_as_now(self, held: _Held) -> None:
        if (patience := self._patience()) != held.patience:
            held.connection.execute(f"PRAGMA busy_timeout = {patience}")
            held.patience = patience

    def _held(self, create: bool) -> _Held:
        """This thread's connection with its lock taken."""
        while True:
            held: _Held | None = getattr(self._local, "held", None)
            if held is None or held.round != self._round:
                held = self._local.held = self._new(create)
            held.lock.acquire()
            if held.round == self._round:
                return held
            held.lock.release()  # closed just now

    def _new(self, create: bool) -> _Held:
        if create:
            self.path.parent.mkdir(parents=True, exist_ok=True)
        number = self._round
        with self._opening:  # two threads that both find a new file would lock each other out
            held = _Held(number, self._opened(create))
        with self._registry:
            self._open.append(held)
        return held

    def _opened(self, create: bool) -> sqlite3.Connection:
        try:
            return _ready(connect(self.path, self._patience()))
        except sqlite3.OperationalError as error:
            if create or reason_of(error) not in ("read_only", "closed") or self._log_left():
                raise
            # SQLite can't keep its log beside a write-protected file. Nobody else writes it either.
            return _ready(connect(self.path, self._patience(), still=True))

    def _patience(self) -> int:
        return 0 if time.monotonic() - self._locked_at < RESTING else WAIT_MS

    def _log_left(self) -> bool:
        """Whether something stands in the log only, so that the file alone is not all."""
        log = self.path.with_name(self.path.name + "-wal")
        return log.exists() and log.stat().st_size > 0

    def _may_be_created(self) -> None:
        """Raise where the file does not exist and could not be made either."""
        nearest = next((folder for folder in self.path.parents if folder.exists()), None)
        if nearest is None or not nearest.is_dir() or not os.access(nearest, os.W_OK | os.X_OK):
            raise LibraryUnavailable(SENTENCES["folder"], f"no such folder, and it can't be made: {self.path.parent}")

    def _unavailable(self, error: sqlite3.Error | OSError) -> LibraryUnavailable:
        reason = reason_of(error)
        if reason == "locked":
            self._locked_at = time.monotonic()
        return LibraryUnavailable(SENTENCES[reason], f"{reason}: {error}")


def _ready(connection: sqlite3.Connection) -> sqlite3.Connection:
    """The connection with its file at the newest schema; closed where that fails."""
    try:
        migrations.bring_up_to_date(connection)
    except BaseException:
        connection.close()
        raise
    return connection


def connect(path: Path, wait_ms: int = WAIT_MS, *, still: bool = False) -> sqlite3.Connection:
    """A new connection, in autocommit, that any one thread at a time may use. `still` for a file nobody changes."""
    where = f"{path.absolute().as_uri()}?immutable=1" if still else str(path)
    connection = sqlite3.connect(
        where, timeout=wait_ms / 1000, isolation_level=None, check_same_thread=False, uri=still
    )
    try:
        connection.execute("PRAGMA foreign_keys = ON")
        connection.execute("PRAGMA cache_size = -1024")  # KiB, for each thread
        connection.execute("PRAGMA secure_delete = ON")  # what is taken away is overwritten
        connection.execute("PRAGMA synchronous = NORMAL")  # with a log: never a broken file
    except sqlite3.Error:
        connection.close()
        raise
    return connection


SENTENCES = {
    "locked": "The library is in use by another program just now. Try again in a moment.",
    "read_only": "The library can be read but not written here: its file or its folder is write-protected.",
    "damaged": "The library's file is damaged. A backup can be put in its place with `python -m bot restore`.",
    "foreign": "The library's file is no database. Name another file, or put a backup in its place with "
    "`python -m bot restore`.",
    "folder": "The library's folder does not exist and can't be made. Check the `database` setting.",
    "full": "The disk is full, so nothing can be recorded.",
    "closed": "The library can't be opened. Check that its file and folder may be read.",
}


def reason_of(error: sqlite3.Error | OSError) -> str:
    """Which of the usual troubles it is; a key of SENTENCES."""
    text = str(error)
    if isinstance(error, FileNotFoundError | NotADirectoryError | FileExistsError):
        return "folder"
    if isinstance(error, PermissionError):
        return "read_only"
    if "locked" in text or "busy" in text:
        return "locked"
    if "readonly" in text or "read-only" in text or "Read-only" in text:
        return "read_only"
    if "not a database" in text or "encrypted" in text:
        return "foreign"
    if "malformed" in text or "corrupt" in text or "no such" in text or "I/O" in text:
        return "damaged"
    return "full" if "full" in text or "No space" in text else "closed"
