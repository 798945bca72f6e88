"""Typed values made of several amounts: weights to add up, a load, parts of a blend, additives, vessels, packs."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from core.units import Density, Mass, Money, Number, Percent, Volume


class Basis(StrEnum):
    """What a load is a percent of. The value is what a person sees."""

    WAX = "of the wax"
    TOTAL = "of the total"

    @property
    def other(self) -> Basis:
        """The other of the two."""
        return Basis.TOTAL if self is Basis.WAX else Basis.WAX

    @property
    def words(self) -> str:
        """As it stands in a sentence."""
        return "of the wax's weight" if self is Basis.WAX else "of the total weight (wax and fragrance together)"


@dataclass(frozen=True, slots=True)
class Masses:
    """Weights of the same thing, to be added up; each may have a name ("soy")."""

    items: tuple[tuple[str, Mass], ...]

    @classmethod
    def one(cls, mass: Mass, name: str = "") -> Masses:
        """A single weight."""
        return cls(((name, mass),))

    @property
    def total(self) -> Mass:
        """All added up, shown in the first one's unit."""
        total = self.items[0][1]
        for _, mass in self.items[1:]:
            total = total + mass
        return total


@dataclass(frozen=True, slots=True)
class Load:
    """A fragrance load. `basis` is set where the words said it; `typed` keeps a rate such as "1 oz per lb"."""

    percent: Percent
    basis: Basis | None = None
    typed: str = ""

    @classmethod
    def rate(cls, fragrance: Mass, wax: Mass, typed: str) -> Load:
        """So much fragrance to so much wax: always a percent of the wax. The wax must not be zero."""
        return cls(Percent(fragrance.base / wax.base * 100), Basis.WAX, typed)


@dataclass(frozen=True, slots=True)
class Parts:
    """Shares of a blend as parts, percents or weights: only their proportion counts. All are above zero."""

    items: tuple[tuple[str, Decimal], ...]

    @property
    def total(self) -> Decimal:
        """The sum of the parts."""
        return sum((part for _, part in self.items), Decimal(0))


# What figures of an answer are called: an additive of such a name, with a number behind or not, would be taken for it.
TAKEN = {"wax", "fragrance", "fragrance_oil", "oil", "total", "all_together", "mix", "load", "load_of_total", "count"}
TAKEN |= {"fragrance_total", "density"}


@dataclass(frozen=True, slots=True)
class Additives:
    """Dye, UV inhibitor, hardener: each a percent of the wax's weight."""

    items: tuple[tuple[str, Percent], ...] = ()

    @property
    def named(self) -> tuple[tuple[str, Percent], ...]:
        """The items under names that can't be mistaken, for each other or for the wax and what else an answer names."""
        out: dict[str, tuple[str, Percent]] = {}
        times: dict[str, int] = {}
        for name, percent in self.items:
            plain = name.strip() or "additive"
            if plain.casefold().replace(" ", "_").rstrip("0123456789").rstrip("_") in TAKEN:
                plain = f"{plain} (additive)"
            own = plain
            while own.casefold() in out:
                times[plain] = times.get(plain, 1) + 1
                own = f"{plain} {times[plain]}"
            out[own.casefold()] = (own, percent)
        return tuple(out.values())

    @property
    def fraction(self) -> Decimal:
        """All together as a fraction of the wax."""
        return sum((percent.fraction for _, percent in self.items), Decimal(0))


@dataclass(frozen=True, slots=True)
class Fill:
    """`count` vessels of one kind: by the weight each takes, by a volume, or by the name of a recorded vessel."""

    count: int
    weight: Mass | None = None
    volume: Volume | None = None
    vessel: str = ""


@dataclass(frozen=True, slots=True)
class Fills:
    """All the vessels of a batch."""

    items: tuple[Fill, ...]

    @property
    def count(self) -> int:
        """How many vessels in all."""
        return sum(fill.count for fill in self.items)


@dataclass(frozen=True, slots=True)
class Pack:
    """A pack on sale: its size (a number for one counted in pieces) and, if known, its price. A volume needs the
    density to become a weight."""

    size: Mass | Volume | Number
    price: Money | None = None
    name: str = ""


@dataclass(frozen=True, slots=True)
class Packs:
    """The packs on offer."""

    items: tuple[Pack, ...]


class Material(str):
    """The name of a material, as the asker wrote it; looked up in the group's records, then in published tables."""

    __slots__ = ()


class VesselName(str):
    """The name of a recorded vessel."""

    __slots__ = ()


class FormulaName(str):
    """The name of a recorded formula."""

    __slots__ = ()


class Words(str):
    """Free words to be kept: notes, what was observed, why something changed."""

    __slots__ = ()


class UnitName(str):
    """A unit key the answer is wanted in."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class ScaleStep:
    """The smallest change a scale shows; None takes back what was said of it."""

    mass: Mass | None


class Stuff(StrEnum):
    """What a volume or weight is of."""

    WAX = "wax"
    FRAGRANCE = "fragrance oil"
    DYE = "dye"
    OTHER = "something else"


class State(StrEnum):
    """How the wax lies in the measure: the same weight takes a different room in each."""

    SOLID = "solid"
    MOLTEN = "molten"
    FLAKES = "flakes or pellets"


class SeenBy(StrEnum):
    """Who may see a formula that is recorded in a server."""

    GROUP = "the whole group"
    ME = "only me"


class Verdict(StrEnum):
    """What a test of a formula came to."""

    WORKS = "works"
    CHANGE = "needs a change"
    FAILS = "does not work"


class Measure(StrEnum):
    """What a volume was measured with."""

    CYLINDER_A = "graduated cylinder, class A"
    CYLINDER_B = "graduated cylinder, class B"
    BEAKER = "beaker"
    KITCHEN = "kitchen measure"
    UNKNOWN = "something else"


class OunceKind(StrEnum):
    """An ounce of weight, or a fluid ounce of room."""

    WEIGHT = "ounces by weight"
    FLUID = "fluid ounces"


class HouseholdMeasure(StrEnum):
    """Measures that differ from country to country."""

    FL_OZ = "fluid ounce"
    CUP = "cup"
    PINT = "pint"
    QUART = "quart"
    GALLON = "gallon"
    TBSP = "tablespoon"
    TSP = "teaspoon"


Amount = Mass | Volume | Percent | Density
