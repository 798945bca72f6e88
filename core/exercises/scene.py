"""What an exercise is made from: repeatable draws, sensible amounts, and the names that play in it."""

from __future__ import annotations

import random
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

from core.answer import Line, line
from core.book import Book
from core.compounds import Basis, Load, Material, Stuff
from core.exercises.kinds import Family, Level
from core.questions.known_density import stuff_of
from core.units import Density, Mass, Percent

T = TypeVar("T")

WAXES = ("soy wax", "coconut wax", "rapeseed wax", "paraffin", "beeswax", "palm wax")
OILS = ("pine", "fig", "vanilla", "lavender", "sea breeze", "cedar", "orange blossom", "honey", "mint", "apple")
MOST_RECORDED = 25


class Draw:
    """Numbers that only depend on what they are drawn from; nothing global, no clock."""

    def __init__(self, *origin: object) -> None:
        self._random = random.Random("|".join(map(str, origin)))

    def pick(self, items: Sequence[T]) -> T:
        """One of them."""
        return items[int(self._random.random() * len(items))]

    def number(self, low: int | str, high: int | str, step: int | str = 1) -> Decimal:
        """A multiple of `step` above `low`, up to `high`."""
        first, each = Decimal(low), Decimal(step)
        return first + each * self.pick(range(int((Decimal(high) - first) / each) + 1))


@dataclass(frozen=True, slots=True)
class Scene:
    """One exercise in the making. `wax` and `oil` are names; `density` is a recorded one of the oil, None otherwise."""

    draw: Draw
    level: Level
    ounces: bool
    wax: str
    oil: Material
    density: Density | None

    @classmethod
    def of(
        cls, family: Family, level: Level, ounces: bool, seed: str, book: Book, material: Material | None = None
    ) -> Scene:
        """The group's own materials where there are any, else invented ones."""
        draw = Draw(family.name, level.name, "oz" if ounces else "g", seed)
        names = [Material(name) for name in book.names("material", "", MOST_RECORDED)]
        waxes = [name for name in names if stuff_of(None, name, book) is Stuff.WAX]
        oils = [name for name in names if stuff_of(None, name, book) is Stuff.FRAGRANCE]
        if material is not None:
            of_wax = stuff_of(None, material, book) is Stuff.WAX or "wax" in material.casefold()
            waxes, oils = ([material], oils) if of_wax else (waxes, [material])
        wax = draw.pick(waxes or WAXES)
        oil = draw.pick(oils or tuple(map(Material, OILS)))
        record = book.material(oil)
        return cls(draw, level, ounces, wax, oil, record.density if record is not None else None)

    @property
    def unit(self) -> str:
        """The unit it is told in."""
        return "oz" if self.ounces else "g"

    def mass(
        self, grams: tuple[int | str, int | str, int | str], ounces: tuple[int | str, int | str, int | str]
    ) -> Mass:
        """A round weight between the first and the second, in steps of the third."""
        return Mass.of(self.draw.number(*(ounces if self.ounces else grams)), self.unit)

    def mixed(self, mass: Mass) -> Mass:
        """The same weight in the larger units: kg, or lb and oz."""
        return mass.in_unit("lb_oz" if self.ounces else "kg")

    def wax_weight(self) -> Mass:
        """The wax of a pot: rounder where it should be easy."""
        if self.level is Level.EASY:
            return self.mass((300, 1500, 100), (8, 48, 4))
        return self.mass((350, 1850, 50), (10, 60, 2))

    def load(self) -> Percent:
        """A usual load, of 5 to 10 percent; with halves where it may be harder."""
        easy = self.level is Level.EASY
        return Percent(self.draw.pick([Decimal(5), Decimal(6), Decimal(8), Decimal(10)]) if easy else self._halves())

    def _halves(self) -> Decimal:
        return self.draw.number("4.5", "9.5", "0.5")

    def spoken(self) -> Line:
        """The oil's name in a sentence."""
        return line("“{}” fragrance oil", self.oil)


def of_wax(percent: Percent) -> Load:
    """That load of the wax."""
    return Load(percent, Basis.WAX)


def of_total(percent: Percent) -> Load:
    """That load of the total."""
    return Load(percent, Basis.TOTAL)
