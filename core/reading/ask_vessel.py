"""Texts about what a vessel takes: the question vessel."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.answer import Answer
from core.question import Question
from core.questions.vessel import Shape, VesselQuestion
from core.questions.volume import VolumeQuestion
from core.reading import asking
from core.reading.chain import chained
from core.reading.counts import MOST_COUNT, counts_vessels
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import in_figures, mass_of
from core.reading.tares import weighed_along
from core.reading.wordset import wordset
from core.units import Density, Length, Percent, Volume

Outcome = Question | Answer | None


def vessel(g: Givens) -> Outcome:
    """How much a vessel takes: by water, by its print, by its measures, by what it took full."""
    scan = g.scan
    if g.asks_density:
        return None
    water = scan.masses("water") or (_only_weight(g) if g.has("water") else [])
    if any(m.of == "" and m["fill"] and m.amount.value > 1 and not counts_vessels(g, m) for m in scan.kind("number")):
        return asking.which_weight([m for m in scan.kind("number") if m["fill"]])
    dense = g.density()
    common = {
        "density": dense,
        "level": _level(g),
        "load": g.shares.load,
        "state": g.state() if dense is not None and not g.has("fill") else None,
        "material": g.material() if dense is None and not g.has("water") else None,
        "count": _count(g),
        "unit": g.wanted_volume() if dense is None and not g.wanted_mass() and "wax" not in g.asked() else "",
    }
    tare = weighed_along(g.scan)
    if tare is not None and g.has("water"):
        full, empty = tare
        return VesselQuestion(full=mass_of(full), empty=mass_of(empty), **common)  # type: ignore[arg-type]
    if (line := _to_the_line(g, water)) is not None:
        return VesselQuestion(water=mass_of(line), **common)  # type: ignore[arg-type]
    if len(water) == 1 and len(scan.masses()) == 1:
        return VesselQuestion(water=mass_of(water[0]), **common)  # type: ignore[arg-type]
    if (sizes := _sides(g)) is not None:
        return VesselQuestion(**sizes, **common)  # type: ignore[arg-type]
    volumes = [v for v in scan.volumes() if v.of in ("jar", "candle", "water", "pot", "bottle", "", "wax", "total")]
    free = _left_free(g, volumes)
    volumes = [v for v in volumes if v is not free]
    if volumes and scan.volumes("fragrance", "dye"):
        return asking.which_weight(volumes)  # "300 ml jar, 20 ml of oil": how much oil is not its room
    if free is None and common["level"] is None and scan.says(_LEAVE) and scan.says(_STAYS_FREE):
        return asking.not_understood("How much stays empty? Say it in percent, such as “leave 10 % empty”.")
    if len(volumes) == 1 and not scan.masses("fragrance", "wax"):
        value, air = volumes[0].value, free.value if free is not None else None
        assert isinstance(value, Volume)
        left = Volume(abs(air.base), air.unit) if isinstance(air, Volume) else None
        return VesselQuestion(room=value, free=left, **common)  # type: ignore[arg-type]
    ounces = [m for m in scan.masses() if m.amount.unit == "oz" and m.of in ("jar", "candle", "pot", "")]
    weighed = g.by_weight or any(m["by_weight"] for m in ounces)
    if ounces and not weighed and not volumes:
        return VesselQuestion(ounces=mass_of(ounces[0]), **common)  # type: ignore[arg-type]
    return None


_LINES = wordset("there line mark neck shoulder level")


def _to_the_line(g: Givens, water: list[Measured]) -> Measured | None:
    """ "Brim full it takes 345 g water, 300 g to the line": the water up to where the wax will stand."""
    if len(water) != 2 or len(g.scan.masses()) != 2:
        return None
    low, high = sorted(water, key=lambda m: mass_of(m).base)
    ahead, behind = g.scan.around(high, 6, 4)
    brim = any(mark.text in ("brim", "rim", "top", "brimful") for mark in (*ahead, *behind))
    texts = [mark.text for mark in g.scan.around(low, 6, 5)[1]]
    to_line = any(word in _LINES and "to" in texts[max(0, i - 2) : i] for i, word in enumerate(texts))
    if not brim or not to_line or mass_of(low).base == mass_of(high).base:
        return None
    g.used.add(high.at)
    return low


def took_full(g: Givens) -> Outcome:
    """ "It takes 240 g of wax to the rim, I pour three quarters", "took 198 g of wax of 0.9, the new is 0.88"."""
    masses, level = g.scan.masses(), _level(g)
    if len(masses) != 1 or masses[0].of not in ("wax", "jar", "candle", "") or g.scan.kind("percent"):
        return None
    takes = mass_of(masses[0])
    densities = _densities(g)
    if len(densities) == 2 and level is None and masses[0].of == "wax" and g.scan.says(_OTHER_WAX):
        old, new = densities
        room = Volume(takes.base / old.base)
        first = VolumeQuestion(mass=takes, density=old, unit="ml")
        return chained(g.book, first, VesselQuestion(room=room, density=new, count=_count(g)))
    if level is None or densities or not (g.has("holds") or g.scan.says(_TOOK)) or not g.scan.says(_TO_THE_TOP):
        return None
    return VesselQuestion(takes=takes, level=level, count=_count(g))


_OTHER_WAX = wordset("new other another different switching switched now instead")
_TOOK = wordset("took fits fitted filled")
_TO_THE_TOP = wordset("rim brim full top edge")


def _densities(g: Givens) -> list[Density]:
    """All the densities told, in order."""
    told = [m.value for m in g.scan.kind("density") if isinstance(m.value, Density)]
    if told:
        return told
    bare = [m.amount.value for m in g.scan.kind("number") if in_figures(m)]
    return [Density(value) for value in bare if LEAST_BARE <= value <= MOST_BARE and value != 1]


LEAST_BARE, MOST_BARE = Decimal("0.7"), Decimal("1.1")  # a wax of less or more is none
_FRACTION_NEAR = wordset("full filled fill pour poured pouring rim brim of top way up")


def _level(g: Givens) -> Percent | None:
    """How full, as a percent or a fraction: "85 % full", "filled four fifths"."""
    if g.shares.level is not None:
        return g.shares.level
    marks = g.scan.marks
    for m in g.scan.kind("number"):
        if not 0 < m.amount.value < 1 or in_figures(m) or m.amount.high is not None:
            continue
        near = (*marks[max(0, m.at - 4) : m.at], *marks[m.at + 1 : m.at + 3])
        if any(mark.text in _STAYS_FREE for mark in marks[m.at + 1 : m.at + 3]):
            return Percent(100 - m.amount.value * 100)  # "a tenth stays empty"
        if any(mark.text in _FRACTION_NEAR for mark in near):
            return Percent(m.amount.value * 100)
    return None


_LEAVE = wordset("leave leaving keep")
_STAYS_FREE = wordset("empty free unfilled air headspace headroom")
_TAKEN_OFF = wordset("minus less without")
_FREE_ROOM = wordset("free air headspace gap empty space leave leaving below")


def _left_free(g: Givens, volumes: list[Measured]) -> Measured | None:
    """ "Holds 300 ml, minus 20 ml for the lid", "leave 15 ml free"."""
    if len(volumes) != 2:
        return None
    room, other = sorted(volumes, key=lambda v: -v.amount.value if v.value is None else -v.value.base)
    marks = g.scan.marks
    before = [mark.text for mark in marks[max(0, other.at - 2) : other.at]]
    after = [mark.text for mark in marks[other.at + 1 : other.at + 4]]
    said = not _FREE_ROOM.isdisjoint((*before, *after)) or not _TAKEN_OFF.isdisjoint(before[-1:])
    return other if (said or other.amount.value < 0) and room.amount.value > 0 else None


def _only_weight(g: Givens) -> list[Measured]:
    """ "Water to the mark weighs 265 g": the one weight there is, where it is of nothing else."""
    masses = g.scan.masses()
    if len(masses) != 1 or masses[0]["empty"]:
        return []
    before = g.scan.marks[masses[0].at - 1].text if masses[0].at else ""
    labelled = masses[0].of == "wax" and before == ":" and g.has("fill") and not g.scan.says(("bath",))
    return masses if masses[0].of in ("", "jar") or labelled else []  # "water to where I want the wax: 184 g"


def _count(g: Givens) -> int | None:
    counts = [
        m for m in g.scan.kind("number") if m.amount.value >= 2 and (m.of in ("jar", "candle") or counts_vessels(g, m))
    ]
    if box_sides(g) is not None:
        counts = [m for m in counts if m.at + 1 < len(g.scan.marks) and g.scan.marks[m.at + 1].noun]
    return int(counts[0].amount.value) if len(counts) == 1 and counts[0].amount.value <= MOST_COUNT else None


def _sides(g: Givens) -> dict[str, object] | None:
    """The measures of a vessel: two lengths for a round one, three for a box."""
    lengths = [m for m in g.scan.found if isinstance(m.value, Length)]
    if len(lengths) == 3 and (free := _headspace(g, lengths)) is not None:
        rest = _sides(
            dataclasses.replace(g, scan=dataclasses.replace(g.scan, found=[m for m in g.scan.found if m is not free]))
        )
        return {**rest, "headspace": free.value} if rest is not None else None
    sides = box_sides(g)
    if sides is not None:
        return {"shape": Shape.BOX, "length": sides[0], "width": sides[1], "height": sides[2]}
    if len(lengths) == 1 and _is_cube(g):
        side = lengths[0].value
        return {"shape": Shape.BOX, "length": side, "width": side, "height": side}
    if len(lengths) != 2:
        return None
    wide, high = _wide_and_high(g, lengths)
    if wide is None and high is not None:
        wide = next(m for m in lengths if m is not high)
    if high is None and wide is not None:
        high = next(m for m in lengths if m is not wide)
    if wide is None or high is None:
        return None
    assert isinstance(wide.value, Length)
    diameter = wide.value * 2 if g.scan.says(("radius",)) else wide.value
    return {"shape": Shape.CYLINDER, "diameter": diameter, "height": high.value}


def _is_cube(g: Givens) -> bool:
    """ "A cube mould, 5 cm on all sides": one measure for three."""
    marks = [mark.text for mark in g.scan.marks]
    sides = any(a in ("all", "each", "every") and b in ("side", "sides") for a, b in itertools.pairwise(marks))
    return sides or any(a in _CUBES for a in marks)


_CUBES = wordset("cube cubic cubical cubed cubes")
_FREE = wordset("leave leaving headspace free gap below headroom")


def _headspace(g: Givens, lengths: list[Measured]) -> Measured | None:
    """ "Leave 1 cm at the top"."""
    for m in lengths:
        near = (*g.scan.marks[max(0, m.at - 3) : m.at], *g.scan.marks[m.at + 1 : m.at + 4])
        if any(mark.text in _FREE for mark in near):
            return m
    return None


def _wide_and_high(g: Givens, lengths: list[Measured]) -> tuple[Measured | None, Measured | None]:
    """Which length is which: the word stands before each length, or after each."""
    words = [(i, tag) for i, mark in enumerate(g.scan.marks) for tag in ("wide", "high") if tag in mark.tags]
    if not words:
        return None, None
    before = words[0][0] < lengths[0].at
    found: dict[str, Measured] = {}
    for i, tag in words:
        near = [m for m in lengths if (m.at > i) == before]
        if near:
            found.setdefault(tag, min(near, key=lambda m: abs(m.at - i)))
    wide, high = found.get("wide"), found.get("high")
    return (wide, None) if wide is high else (wide, high)


def box_sides(g: Givens) -> tuple[Length, Length, Length] | None:
    """ "30 x 20 x 15 cm", "30 cm by 20 cm by 15 cm": three sides, the last one's unit for all that have none."""
    run: list[Measured] = []
    for m in g.scan.found:
        if isinstance(m.value, Length) or (m.kind == "number" and not m.amount.unit):
            if run and m.at - run[-1].at > 2:
                run = []
            run.append(m)
            if len(run) == 3:
                break
        else:
            run = []
    if len(run) != 3:
        return None
    unit = next((m.amount.unit for m in reversed(run) if isinstance(m.value, Length)), "")
    if not unit:
        return None
    first, second, third = (m.value if isinstance(m.value, Length) else Length.of(m.amount.value, unit) for m in run)
    return first, second, third
