"""A volume whose weight a text tells: what was weighed and measured."""

from __future__ import annotations

from dataclasses import dataclass

from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Density, Volume

# What stands between a volume and the weight of that very volume; the first ones only where a scale did tell it.
_READ = wordset("weighed weighs weighing weigh read reads reading showed shows came measured registered")
_IS = wordset("is was = : holds are makes gives has said says")
_NOT_OF_IT = wordset("in into for per to with and or")
_FARTHEST = 9
_FILLS = wordset("stands stand stood filled fills reaches reached came comes reads")


@dataclass(frozen=True, slots=True)
class Sample:
    """A volume and what it weighs, as told; `read` where a scale is said to have told it."""

    volume: Measured
    mass: Measured
    read: bool

    @property
    def density(self) -> Density:
        return Density.from_ratio(mass_of(self.mass), volume_in(self.volume))


def volume_in(m: Measured) -> Volume:
    assert isinstance(m.value, Volume)
    return m.value


def sample_told(g: Givens) -> Sample | None:
    """The first volume whose weight is told: "3 tsp of it read 13.9 g", "a cup was 92 g when I weighed it"."""
    marks = g.scan.marks
    for volume in g.scan.volumes():
        mass = next((m for m in g.scan.found if m.at > volume.at and m.kind in ("mass", "volume")), None)
        if mass is None or mass.kind != "mass" or mass.at - volume.at > _FARTHEST or not mass_of(mass):
            continue
        if not volume_in(volume) or {volume.of, mass.of} == {"wax", "fragrance"}:
            continue
        between = marks[volume.at + 1 : mass.at]
        if any(mark.kind in ("amount", "stop", "unit") for mark in between) or _of_another(between):
            continue
        after = marks[mass.at + 1 : mass.at + 5]
        told = {mark.text for mark in between}
        read = bool(told & _READ) or any(mark.tags & {"by_weight"} or mark.text in _READ for mark in (*between, *after))
        read = read or (bool(told & {"=", ":"}) and g.scan.says(_READ | {"scale"}))
        if not read and _counts_ounces(volume, mass):
            continue
        if read or told & _IS or any(mark.tags & {"weight"} for mark in between):
            return Sample(volume, mass, read)
    return _filled(g)


def _counts_ounces(volume: Measured, mass: Measured) -> bool:
    """ "A pint is 16 oz": how many fluid ounces it has, and nothing was weighed."""
    fluid = Volume.of(mass.amount.value, "us_fl_oz")
    return mass.amount.unit == "oz" and fluid.base == volume_in(volume).base


def _filled(g: Givens) -> Sample | None:
    """The weight first: "25 g in the cylinder stand at 26 ml", "a 500 g slab in bits filled 4 cups"."""
    first = [m for m in g.scan.found if m.kind in ("mass", "volume")][:2]
    if [m.kind for m in first] != ["mass", "volume"]:
        return None
    mass, volume = first
    between = g.scan.marks[mass.at + 1 : volume.at]
    stands = any(mark.text in _FILLS for mark in between) and not any(mark.kind == "stop" for mark in between)
    if not stands or volume.of in ("jar", "bottle", "pot") or mass.of in ("jar", "bottle", "pot"):
        return None
    return Sample(volume, mass, True) if volume_in(volume) and mass_of(mass) else None


def _of_another(between: list[Mark]) -> bool:
    """ "30 ml oil in 500 g": the weight is of something else; "a cup of it in my jug was 92 g" is not met here."""
    last = between[-1].text if between else ""
    return last in _NOT_OF_IT and not (last == "to" and any(mark.text == "came" for mark in between))
