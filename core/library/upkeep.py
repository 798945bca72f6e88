"""Looking the file over, copying it while it is used, and putting a copy in its place."""

from __future__ import annotations

import contextlib
import os
import shutil
import sqlite3
from pathlib import Path

from core.errors import LibraryUnavailable
from core.library import migrations
from core.library.connection import SENTENCES, Store, connect, reason_of

PAGES = 256  # copied at a time: a megabyte, some milliseconds
BESIDE = ("-wal", "-shm", "-journal")  # what SQLite keeps beside a file

# What is said of the copy rather than of the library.
OF_A_BACKUP = {
    "foreign": "That file is no library, so nothing was changed.",
    "damaged": "That backup is damaged, so nothing was changed.",
}


def check(store: Store) -> list[str]:
    """One line for each thing that is wrong with the file."""
    try:
        with store.reading() as db:
            if db is None:
                return []
            found = problems(db)
    except LibraryUnavailable as error:
        return [error.sentence]
    if not os.access(store.path, os.W_OK) or not os.access(store.path.parent, os.W_OK):
        found.append(SENTENCES["read_only"])
    return found


def problems(db: sqlite3.Connection) -> list[str]:
    """What SQLite's own checks and ours find, at most 20 lines."""
    lines = [str(row[0]) for row in db.execute("PRAGMA integrity_check(10)")]
    found = [f"The library's file is damaged: {line}" for line in lines if line != "ok"]
    broken = len(db.execute("PRAGMA foreign_key_check").fetchmany(1000))
    if broken:
        found.append(f"{broken} rows of the library belong to nothing.")
    return found


def backup(store: Store, target: Path) -> None:
    """Copy the file through SQLite's own backup, from one moment's state; writers go on meanwhile.

    Raises LibraryUnavailable where there is nothing to copy or the target can't be written.
    """
    if not store.path.exists():
        raise LibraryUnavailable("There is no library yet: nothing was recorded so far.", "missing")
    if target.exists() and target.samefile(store.path):
        raise LibraryUnavailable("The backup needs a place of its own: that is the library's own file.", "same file")
    part = target.with_name(target.name + ".part")
    try:
        target.parent.mkdir(parents=True, exist_ok=True)
        part.unlink(missing_ok=True)
        with contextlib.closing(connect(store.path)) as source, contextlib.closing(sqlite3.connect(part)) as copy:
            migrations.bring_up_to_date(source)
            # One reading transaction holds one state: writers add to the log, and the copy never starts over.
            source.execute("BEGIN")
            source.execute("SELECT count(*) FROM sqlite_master").fetchone()
            source.backup(copy, pages=PAGES, sleep=0)
            source.execute("COMMIT")
            copy.execute("PRAGMA journal_mode = DELETE")
        shutil.copymode(store.path, part)
        part.replace(target)
    except (sqlite3.Error, OSError) as error:
        with contextlib.suppress(OSError):
            part.unlink(missing_ok=True)
        raise LibraryUnavailable(f"The backup could not be made: {error}.", reason_of(error)) from error


def restore(store: Store, source: Path) -> Path | None:
    """Check the copy, move the old file aside, put the copy in its place. Raises LibraryUnavailable."""
    if not source.is_file():
        raise LibraryUnavailable(f"There is no file {source}.", "missing")
    if store.path.exists() and source.samefile(store.path):
        raise LibraryUnavailable("That is the library's own file. Name a backup.", "same file")
    if not source.stat().st_size:
        raise LibraryUnavailable("That file is empty, so nothing was changed.", "empty")
    new = store.path.with_name(store.path.name + ".new")
    try:
        store.path.parent.mkdir(parents=True, exist_ok=True)
        shutil.copyfile(source, new)
        log = source.with_name(source.name + "-wal")
        if log.exists():
            shutil.copyfile(log, new.with_name(new.name + "-wal"))
        with contextlib.closing(connect(new)) as db:
            migrations.bring_up_to_date(db)
            db.execute("PRAGMA journal_mode = DELETE")
            found = problems(db)
        if found:
            raise LibraryUnavailable(f"That backup is damaged, so nothing was changed. {found[0]}", "damaged")
        store.close()
        _refuse_in_use(store.path)
        _hand_over(new, store.path)
        kept = _moved_aside(store.path)
        new.replace(store.path)
        return kept
    except (sqlite3.Error, OSError) as error:
        reason = reason_of(error)
        sentence = OF_A_BACKUP.get(reason, SENTENCES[reason])
        raise LibraryUnavailable(sentence, f"{reason}: {error}") from error
    finally:
        for ending in ("", *BESIDE):
            new.with_name(new.name + ending).unlink(missing_ok=True)


def _refuse_in_use(path: Path) -> None:
    """Raise LibraryUnavailable where another program has the file open: it would go on with the old one unseen."""
    if not path.exists():
        return
    try:
        with contextlib.closing(connect(path)) as db:
            db.execute("PRAGMA locking_mode = EXCLUSIVE")
            db.execute("BEGIN EXCLUSIVE")
            db.execute("ROLLBACK")
    except sqlite3.Error as error:
        if reason_of(error) == "locked":
            raise LibraryUnavailable("The library is in use. Stop the bot first, then restore.", "locked") from error


def _hand_over(new: Path, old: Path) -> None:
    """Give the new file to whom the old one belongs, or the folder: restored as root, a service must still write it.
    Nobody may read it who could not read the old one."""
    if old.exists():
        shutil.copymode(old, new)
    owner = (old if old.exists() else old.parent).stat()
    if (owner.st_uid, owner.st_gid) != (os.geteuid(), os.getegid()):
        with contextlib.suppress(PermissionError):
            os.chown(new, owner.st_uid, owner.st_gid)


def _moved_aside(path: Path) -> Path | None:
    """Move the file and what belongs to it to the first free name beside it."""
    if not path.exists():
        return None
    number = 1
    while (kept := path.with_name(f"{path.name}.old{number}")).exists():
        number += 1
    path.replace(kept)
    for ending in BESIDE:
        beside = path.with_name(path.name + ending)
        if beside.exists():
            beside.replace(kept.with_name(kept.name + ending))
    return kept
