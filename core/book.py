"""What an answer may look up: a read-only protocol, so that answers need no database to be tested."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Protocol

from core.compounds import Basis
from core.units import Density, Mass, Percent, Temperature, Volume


@dataclass(frozen=True, slots=True)
class Preferences:
    """How the asker (or the group) wants answers. `first` is "g", "oz" or "" (follow the question's own units);
    `step` is the scale's step in grams, None when not said."""

    first: str = ""
    step: Decimal | None = None
    comma: bool = False
    basis: Basis = Basis.WAX
    currency: str = "money"


@dataclass(frozen=True, slots=True)
class MaterialRecord:
    """A material the group recorded. `spread` is the standard uncertainty of the density in g/ml; `how` says who
    measured it, when and with what, in words to be shown."""

    name: str
    kind: str = ""
    density: Density | None = None
    spread: Decimal | None = None
    at: Temperature | None = None
    max_load: Percent | None = None
    how: str = ""


@dataclass(frozen=True, slots=True)
class VesselRecord:
    """A vessel the group recorded: its room to the fill line, or the weight of wax mix it takes, and its own weight."""

    name: str
    room: Volume | None = None
    fill: Mass | None = None
    weight: Mass | None = None
    how: str = ""


@dataclass(frozen=True, slots=True)
class FormulaRecord:
    """One version of a recorded formula: waxes and fragrances by parts, additives in percent of the wax."""

    name: str
    version: int
    load: Percent
    basis: Basis
    waxes: tuple[tuple[str, Decimal], ...] = ()
    fragrances: tuple[tuple[str, Decimal], ...] = ()
    additives: tuple[tuple[str, Percent], ...] = ()
    vessel: str = ""
    notes: str = ""
    reason: str = ""
    how: str = ""


class Book(Protocol):
    """Looks things up by name, ignoring case and outer blanks. Nothing found is None, never an error; a library that
    cannot be read answers as an empty one and says so through `trouble`."""

    @property
    def preferences(self) -> Preferences:
        """How answers are wanted."""

    @property
    def trouble(self) -> str:
        """A sentence to show when the library could not be read, else empty."""

    def material(self, name: str) -> MaterialRecord | None:
        """The recorded material of that name."""

    def vessel(self, name: str) -> VesselRecord | None:
        """The recorded vessel of that name."""

    def formula(self, name: str, version: int | None = None) -> FormulaRecord | None:
        """The recorded formula of that name, the newest version unless one is named."""

    def names(self, kind: str, start: str, limit: int = 25) -> Sequence[str]:
        """Recorded names of a `kind` (material, vessel, formula) that begin with or come near `start`."""


@dataclass(frozen=True, slots=True)
class EmptyBook:
    """Nothing recorded: what answers are worked with when there is no library."""

    preferences: Preferences = field(default_factory=Preferences)
    trouble: str = ""

    def material(self, name: str) -> MaterialRecord | None:
        """Nothing is recorded."""
        return None

    def vessel(self, name: str) -> VesselRecord | None:
        """Nothing is recorded."""
        return None

    def formula(self, name: str, version: int | None = None) -> FormulaRecord | None:
        """Nothing is recorded."""
        return None

    def names(self, kind: str, start: str, limit: int = 25) -> Sequence[str]:
        """Nothing is recorded."""
        return ()
