"""The library: everything recorded, in one file. It gives books to read in and a transaction to write in."""

from __future__ import annotations

import contextlib
import sqlite3
from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

from core.library import odds, privacy, settings, upkeep
from core.library.book import LibraryBook
from core.library.connection import Store
from core.library.settings import Settings
from core.library.space import Space


class AlreadyDone(Exception):
    """The same act was delivered before; what it wrote then stands."""


class Library:
    """The file at `path`, opened at first use and made at the first recording. Safe to use from several threads.

    Reading through a book never raises; every method here raises LibraryUnavailable with its sentence where the file
    can't be read or written.
    """

    def __init__(self, path: Path) -> None:
        self.path = Path(path)
        self._store = Store(self.path)

    def book(self, spaces: tuple[str, ...], user: str) -> LibraryBook:
        """What `user` may look up: the shelves of `spaces`, the first one first. BadInput for what is no space."""
        return LibraryBook(self._store, tuple(Space.checked(space) for space in spaces), user)

    @contextlib.contextmanager
    def writing(self, once: str = "", now: str = "") -> Iterator[sqlite3.Connection]:
        """One transaction to write in. With `once`, AlreadyDone where that act was done before."""
        with self._store.writing() as db:
            if once and not odds.mark_seen(db, once, now):
                raise AlreadyDone(once)
            yield db

    @contextlib.contextmanager
    def reading(self) -> Iterator[sqlite3.Connection | None]:
        """A connection to read with; None where nothing was ever recorded."""
        with self._store.reading() as db:
            yield db

    # ---- settings

    def settings(self, spaces: tuple[str, ...], user: str) -> Settings:
        """All settings that hold for `user` in `spaces`; ours where the library can't be read."""
        return self.book(spaces, user).settings

    def own_settings(self, scope: str) -> dict[str, str]:
        """What is set for that scope alone (`user:<id>` or `guild:<id>`), as text."""
        with self.reading() as db:
            return {} if db is None else settings.raw(db, Space.checked(scope))

    def set_settings(self, scope: str, values: Mapping[str, str]) -> None:
        """Set several, all or none."""
        where = Space.checked(scope)
        for key, value in values.items():
            if value.strip():
                settings.checked(where, key, value)
        if values:
            with self.writing() as db:
                for key, value in values.items():
                    settings.write(db, where, key, value)

    # ---- odds and ends of the adapters

    def seen(self, once: str) -> bool:
        """Whether the act of that id (an interaction's) was already done. Acts mark it themselves in `writing`."""
        with self.reading() as db:
            return db is not None and odds.seen(db, once)

    def keep_asked(self, text: str, now: str = "") -> str:
        """Keep a long question behind a button for 30 days from `now`; its id of 22 letters, figures, - and _."""
        with self.reading() as db:
            if db is not None and odds.kept_long_enough(db, text, now):
                return odds.asked_id(text)
        with self.writing() as db:
            return odds.keep_asked(db, text, odds.later(now, odds.KEPT_ASKED_DAYS))

    def asked(self, key: str) -> str | None:
        """The question kept under that id; None where it is gone."""
        with self.reading() as db:
            return None if db is None else odds.asked(db, key)

    # ---- privacy

    def export_person(self, user: str) -> dict[str, Any]:
        """Everything kept that bears this person's id, as plain JSON."""
        with self.reading() as db:
            return {"user": user} if db is None else privacy.export_person(db, user)

    def forget_person(self, user: str) -> None:
        """Take away at once what is this person's alone; what they gave to a group stays without their name."""
        with self.writing() as db:
            privacy.forget_person(db, user)
        self._store.wipe_log()

    def forget_space_after(self, space: str, days: int, now: str) -> None:
        """A server removed the bot at `now`: its data goes `days` later, with the first `purge` after that."""
        with self.writing() as db:
            privacy.leave(db, Space.checked(space), odds.later(now, days))

    def servers(self) -> list[str]:
        """The ids of the servers anything is kept of."""
        with self.reading() as db:
            return [] if db is None else privacy.servers(db)

    def keep_space(self, space: str) -> None:
        """The bot is back in the server: nothing is to be forgotten. Writes only where something was to be."""
        with self.reading() as db:
            if db is None or not privacy.leaves(db, Space.checked(space)):
                return
        with self.writing() as db:
            privacy.stay(db, Space.checked(space))

    def purge(self, now: str) -> int:
        """Take away what has had its time by `now`: deleted things and left servers after their days, questions kept
        behind buttons. How many things went; call it once a day."""
        with self.writing() as db:
            gone = privacy.purge(db, now)
        if gone:
            self._store.wipe_log()
        return gone

    def may_record(self, space: str, roles: tuple[str, ...], manages: bool) -> bool:
        """Whether somebody with those role ids may change that shelf: on their own always, on a server's the one who
        manages it and those with a role named in its settings. False where the library can't be read."""
        where = Space.checked(space)
        if not where.shared or manages:
            return True
        return bool(set(self.settings((where,), "").recorders).intersection(roles))

    # ---- upkeep

    def check(self) -> list[str]:
        """One line for each thing that is wrong; none where all is well or nothing was recorded yet."""
        return upkeep.check(self._store)

    def backup(self, target: Path) -> None:
        """A copy of the library as it is now, made while it is used; `target` is put in place only when complete."""
        upkeep.backup(self._store, Path(target))

    def restore(self, source: Path) -> Path | None:
        """Put a checked backup in the library's place; where the old file was moved to, None where there was none."""
        return upkeep.restore(self._store, Path(source))

    def close(self) -> None:
        """Close the file; a later use opens it again."""
        self._store.close()
