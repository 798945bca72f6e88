"""What an answer may look up: a read-only protocol, so that answers need no database to be tested."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal
from typing import Protocol, runtime_checkable

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
    """A material the group recorded. `spread` is the standard uncertainty of the density in g/ml, `coverage`
    how many of it make 19 times in 20; `how` says who measured it, when and with what, in words to be shown."""

    name: str
    kind: str = ""
    density: Density | None = None
    spread: Decimal | None = None
    at: Temperature | None = None
    max_load: Percent | None = None
    how: str = ""
    flash_point: Temperature | None = None
    notes: str = ""
    coverage: Decimal = Decimal(2)


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


@dataclass(frozen=True, slots=True)
class Measured:
    """One measurement of a material: `number` to name it by, `counted` whether it is part of the material's figure,
    `stands_out` whether it lies far from the others and is therefore not."""

    number: int
    density: Density
    spread: Decimal | None
    at: Temperature | None
    how: str
    stands_out: bool = False
    counted: bool = True


@dataclass(frozen=True, slots=True)
class Tested:
    """One test of a version of a formula: days of cure (None when not said), what was observed, the verdict."""

    number: int
    version: int
    cure_days: int | None
    observed: str
    verdict: str
    how: str


@dataclass(frozen=True, slots=True)
class Change:
    """One version of a record: who made it, on which day, and why."""

    version: int
    by: str
    day: str
    reason: str


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


@runtime_checkable
class Annals(Protocol):
    """What a book with a library behind it can tell besides; a book without one has nothing to tell."""

    def measurements(self, material: str) -> Sequence[Measured]:
        """Every measurement of that material, the oldest first."""

    def tests(self, formula: str) -> Sequence[Tested]:
        """Every test of that formula, the newest first."""

    def changes(self, kind: str, name: str) -> Sequence[Change]:
        """The versions of that record, the newest first."""


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
