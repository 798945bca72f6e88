"""What one asker may look up: the shelves of their spaces, read from the library."""

from __future__ import annotations

import sqlite3
from collections.abc import Callable, Sequence
from typing import TypeVar

from core.book import Change, FormulaRecord, MaterialRecord, Measured, Preferences, Tested, VesselRecord
from core.errors import LibraryUnavailable
from core.library import formulas, materials, names, records, settings, vessels
from core.library.connection import Store
from core.library.settings import Settings
from core.library.space import Space

T = TypeVar("T")
FEW = 100  # names that are kept in memory


class LibraryBook:
    """A `core.book.Book`. What can't be read is as if nothing were recorded, and `trouble` says why; after that this
    book asks the file no more."""

    __slots__ = ("_settings", "_store", "_trouble", "_user", "spaces")

    def __init__(self, store: Store, spaces: tuple[Space, ...], user: str) -> None:
        self._store, self.spaces, self._user = store, spaces, user
        self._settings: Settings | None = None
        self._trouble: str | None = None

    @property
    def settings(self) -> Settings:
        """All settings that hold for the asker; read once, and not at all where nobody wrote since they were read."""
        if self._settings is None:
            self._settings = self._read_once(
                "settings", lambda db: settings.resolved(db, self.spaces, self._user), Settings()
            )
        return self._settings

    @property
    def preferences(self) -> Preferences:
        """How answers are wanted."""
        return self.settings.preferences

    @property
    def trouble(self) -> str:
        """A sentence to show when the library could not be read, else empty."""
        if self._trouble is None:
            self._read(lambda db: None, None)
        return self._trouble or ""

    def material(self, name: str) -> MaterialRecord | None:
        """The recorded material of that name."""
        return self._read(lambda db: materials.read(db, self.spaces, self._user, name), None)

    def vessel(self, name: str) -> VesselRecord | None:
        """The recorded vessel of that name."""
        return self._read(lambda db: vessels.read(db, self.spaces, self._user, name), None)

    def formula(self, name: str, version: int | None = None) -> FormulaRecord | None:
        """The recorded formula of that name, the newest version unless one is named."""
        return self._read(lambda db: formulas.read(db, self.spaces, self._user, name, version), None)

    def names(self, kind: str, start: str, limit: int = 25) -> Sequence[str]:
        """Recorded names that begin with `start`, then those that come near it. Every text in plain words asks for
        the first names of all, so these are not read again where nobody wrote since."""
        read = lambda db: names.suggest(db, self.spaces, self._user, kind, start, limit)  # noqa: E731
        return self._read(read, []) if start or limit > FEW else self._read_once(f"{limit} {kind}", read, [])

    def measurements(self, material: str) -> Sequence[Measured]:
        """Every measurement of that material, the oldest first."""
        return self._read(lambda db: materials.measured(db, self.spaces, self._user, material), [])

    def tests(self, formula: str) -> Sequence[Tested]:
        """Every test of that formula, the newest first."""
        return self._read(lambda db: formulas.tested(db, self.spaces, self._user, formula), [])

    def changes(self, kind: str, name: str) -> Sequence[Change]:
        """The versions of that record, the newest first."""
        return self._read(lambda db: records.changes(db, self.spaces, self._user, kind, name), [])

    def _read_once(self, what: str, read: Callable[[sqlite3.Connection], T], nothing: T) -> T:
        """The same, read only where somebody wrote since it was read last."""
        kept, key = self._store.unchanged(), (what, self.spaces, self._user)
        found: T | None = kept.get(key)
        if found is None:
            found = self._read(read, nothing)
            if not self._trouble:
                kept[key] = found
        elif self._trouble is None:
            self._trouble = ""
        return found

    def _read(self, read: Callable[[sqlite3.Connection], T], nothing: T) -> T:
        if self._trouble:
            return nothing
        try:
            found = self._store.read(read, nothing)
        except LibraryUnavailable as error:
            self._trouble = error.sentence
            return nothing
        self._trouble = ""
        return found
