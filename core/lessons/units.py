"""Example amounts and how they are written, in the units of whoever reads the lesson."""

from __future__ import annotations

from dataclasses import dataclass

from core.answer import Given, Line, Origin, line
from core.book import Book
from core.reference import densities
from core.reference.table import Status
from core.units import Density, Mass, Quantity, Temperature, Volume

# Unit keys that show that somebody thinks in ounces.
OUNCE_UNITS = ("oz", "lb", "lb_oz", "fl_oz", "us_fl_oz", "cup", "us_cup", "degF")
GRAM_UNITS = ("g", "kg", "mg", "ml", "l", "degC")
ROOM_TEMPERATURE = Temperature(densities.ROOM)


@dataclass(frozen=True, slots=True)
class Units:
    """Ounces first, or grams first."""

    ounces: bool

    @classmethod
    def wanted(cls, unit: str, book: Book) -> Units:
        """As the unit asked for says, else as the asker's settings say, else grams."""
        return cls(unit in OUNCE_UNITS or (unit not in GRAM_UNITS and book.preferences.first == "oz"))

    def mass(self, grams: str, ounces: str) -> Mass:
        """An example weight, round in either unit."""
        return Mass.of(ounces, "oz") if self.ounces else Mass.of(grams, "g")

    def room(self, millilitres: str, fluid_ounces: str) -> Volume:
        """An example volume, round in either unit."""
        return Volume.of(fluid_ounces, "us_fl_oz") if self.ounces else Volume.of(millilitres, "ml")

    def said(self, mass: Mass) -> Line:
        """An example weight as somebody would say it."""
        return line("{0:typed}", mass)

    def one(self, mass: Mass) -> Line:
        """In the reader's own unit alone, for sums."""
        return line("{0:oz}" if self.ounces else "{0:g}", mass)

    def both(self, mass: Mass) -> Line:
        """In both units, the reader's own first."""
        return line("{0:oz} ({0:g})" if self.ounces else "{0:g} ({0:oz})", mass)

    def degrees(self, at: Temperature) -> Line:
        """A temperature in both scales, the reader's own first."""
        return line("{0:degF} ({0:degC})" if self.ounces else "{0:degC} ({0:degF})", at)


def published(what: str, value: Quantity, source: str, status: Status = Status.READ) -> Given:
    """A figure from the reference tables, to stand with its source under the lesson."""
    memory = ", from memory" if status is Status.MEMORY and "memory" not in source else ""
    return Given(what, value, Origin.PUBLISHED, line("{}", source + memory))


def density_of(
    name: str, state: densities.State = densities.State.LIQUID, at: Temperature = ROOM_TEMPERATURE
) -> tuple[Density, Given]:
    """A published density and where it comes from. KeyError where there is no single figure."""
    material = densities.find(name)
    figure = material.figure(state, at.base) if material is not None else None
    if figure is None or figure.point is None:
        raise KeyError(name)
    density = Density(figure.point)
    where = {densities.State.LOOSE: " in a heap", densities.State.MOLTEN: ", molten"}.get(state, "")
    warm = "" if at is ROOM_TEMPERATURE else f" at {at.base.normalize():f} °C"
    return density, published(f"density of {name}{where}{warm}", density, figure.source, figure.status)
