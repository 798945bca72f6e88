"""Texts about a volume and its weight, and the density between them: the questions volume and density."""

from __future__ import annotations

import dataclasses

from core.answer import Answer
from core.compounds import Measure, Stuff
from core.question import Question
from core.questions.density import DensityQuestion
from core.questions.drops import DropsQuestion
from core.questions.load import LoadQuestion
from core.questions.vessel import VesselQuestion
from core.questions.volume import VolumeQuestion
from core.reading import asking
from core.reading.ask_load import load as ask_load
from core.reading.chain import chained
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.tares import weighed_along
from core.reading.wordset import wordset
from core.units import Density, Mass, Number, Volume, kind_of

Outcome = Question | Answer | None

_WEIGHS = wordset("is was = came weighed weighs holds are makes gives")
_MEASURES = {"cylinder": Measure.CYLINDER_B, "beaker": Measure.BEAKER, "cup": Measure.KITCHEN, "spoon": Measure.KITCHEN}


def volume_of(m: Measured) -> Volume:
    assert isinstance(m.value, Volume)
    return m.value


def parts_by_volume(g: Givens) -> Outcome:
    """ "1 part oil, 12 parts wax, measured by cups": parts of volume are no load until they are weighed."""
    measured = g.wanted_volume() or (g.has("volume_word") and g.scan.says(("by",)))
    if not measured or g.scan.masses() or g.density() is not None:
        return None
    return VolumeQuestion(stuff=Stuff.FRAGRANCE)


def with_density(g: Givens) -> Outcome:
    """A density is given: it turns a volume into a weight or a weight into a volume."""
    dense = g.density()
    if dense is None:
        return None
    volumes, wax, fragrance = g.scan.volumes(), g.wax(), g.fragrance()
    load = g.shares.load
    if strange := [
        m for m in g.scan.kind("number") if m.of == "" and 0 < m.amount.value < 1 and m.value != Number(dense.base)
    ]:
        return asking.which_weight(strange)
    if len(volumes) > 1 and len({v.of for v in volumes} - {"jar", ""}) < 2 and g.has("together"):
        whole = volume_of(volumes[0])
        for other in volumes[1:]:
            whole = whole + volume_of(other)
        return VolumeQuestion(volume=whole, density=dense, stuff=g.stuff(volumes[0]), wax=wax, load=load)
    if len(volumes) == 1:
        volume = volumes[0]
        if g.shares.level is not None:
            return VesselQuestion(room=volume_of(volume), level=g.shares.level, density=dense, load=load)
        stuff = g.stuff(volume)
        if volume.of == "jar" and wax is not None and not any(head == "fragrance" for _, head in g.scan.heads):
            return VolumeQuestion(mass=wax.total, density=dense, stuff=Stuff.WAX, unit="ml")
        if wax is not None and stuff is Stuff.WAX:
            stuff = Stuff.FRAGRANCE
        return VolumeQuestion(
            volume=volume_of(volume),
            density=dense,
            stuff=stuff,
            state=g.state() if stuff is Stuff.WAX else None,
            wax=wax,
            load=load,
            unit=g.wanted_mass(),
        )
    if volumes:
        return chained(
            g.book,
            *(
                VolumeQuestion(volume=volume_of(v), density=dense, stuff=g.stuff(v), unit=g.wanted_mass())
                for v in volumes[:4]
            ),
        )
    unit = g.wanted_volume() or "ml"
    loose = g.loose()
    if load is not None and (wax is not None or len(loose) == 1):
        built = ask_load(g)
        if isinstance(built, LoadQuestion):
            return _replace(built, density=dense, unit=unit)
        return built
    masses = g.scan.masses()
    if len(masses) == 1:
        stuff = g.stuff(masses[0])
        return VolumeQuestion(mass=mass_of(masses[0]), density=dense, stuff=stuff, unit=unit)
    if wax is not None and fragrance is not None:
        return LoadQuestion(wax=wax, fragrance=fragrance, load=load, density=dense, unit=unit)
    return VolumeQuestion(density=dense, stuff=g.stuff()) if not masses else None


def _replace(question: LoadQuestion, density: Density, unit: str) -> LoadQuestion:
    return dataclasses.replace(question, density=density, unit=unit)


def measured_density(g: Givens) -> Outcome:
    """A weight and a volume of the same thing: its density, or what another volume of it weighs."""
    volumes = g.scan.volumes()
    if not g.has("dense", "density") and len(volumes) == 2:
        return _second_volume(g, volumes)
    if not g.has("dense", "density") and len(volumes) == 1 and (drawn := _second_weight(g, volumes[0])) is not None:
        return drawn
    if not g.asks_density and not _asks_ratio(g):
        return None
    masses = [m for m in g.scan.masses() if not m["step"]]
    volume = volume_of(volumes[0]) if volumes else None
    stuff = g.stuff(volumes[0] if volumes else masses[0] if masses else None)
    measure = next((kind for word, kind in _MEASURES.items() if g.scan.says((word, word + "s"))), None)
    tare = weighed_along(g.scan)
    if tare is not None:
        full, empty = tare
        return DensityQuestion(full=mass_of(full), empty=mass_of(empty), volume=volume, stuff=stuff, measure=measure)
    if len(masses) > 1 or len(volumes) > 1:
        return None
    if (masses and masses[0].of in ("bottle", "pot", "jar", "measure")) or (masses and _in_a_vessel(g, masses[0])):
        return DensityQuestion(full=mass_of(masses[0]), volume=volume, stuff=stuff, measure=measure)
    if not masses and not volumes:
        return None
    return DensityQuestion(mass=mass_of(masses[0]) if masses else None, volume=volume, stuff=stuff, measure=measure)


def _in_a_vessel(g: Givens, m: Measured) -> bool:
    """ "Bottle with 100 ml oil in it weighs 165 g": the bottle is in that weight."""
    marks = g.scan.marks
    if [mark.text for mark in marks[max(0, m.at - 2) : m.at]] == ["up", "by"]:
        return False  # "the scale went up by 1.9 oz"
    nouns = [i for i, mark in enumerate(marks[: m.at]) if mark.noun in ("bottle", "jar", "pot")]
    return bool(nouns) and any(mark.text in ("with", "plus", "and") for mark in marks[nouns[0] : m.at])


def _asks_ratio(g: Givens) -> bool:
    """ "g per ml?" without a number."""
    marks = g.scan.marks
    for one, per, other in zip(marks, marks[1:], marks[2:], strict=False):
        units = per.text in ("per", "/", "a") and one.kind == other.kind == "unit"
        if units and kind_of(one.unit) is Mass and kind_of(other.unit) is Volume:
            return True
    return False


def _second_volume(g: Givens, volumes: list[Measured]) -> Outcome:
    """ "A fluid ounce of it weighs 1.5 oz, so 5 fl oz is what?" """
    masses = g.scan.masses()
    if len(masses) != 1:
        return None
    first, second = volumes
    mass = masses[0]
    if not first.at < mass.at < second.at or not volume_of(first) or (first.of and second.of and first.of != second.of):
        return None
    between = g.scan.marks[first.at + 1 : mass.at]
    if not any(
        mark.tags & {"weight", "by_weight"} or mark.text in ("is", "was", "=", "came", "weighed") for mark in between
    ):
        return None
    return VolumeQuestion(
        volume=volume_of(second),
        density=Density.from_ratio(mass_of(mass), volume_of(first)),
        stuff=g.stuff(second),
        unit=g.wanted_mass() or mass.amount.unit,
    )


def _second_weight(g: Givens, volume: Measured) -> Outcome:
    """ "10 ml of it weighed 9.2 g; I need 46 g, how many ml?" """
    masses = g.scan.masses()
    if len(masses) != 2 or not volume.at < masses[0].at < masses[1].at or not volume_of(volume) or g.has("wax"):
        return None
    between = g.scan.marks[volume.at + 1 : masses[0].at]
    weighed = any(mark.tags & {"weight", "by_weight"} or mark.text in _WEIGHS for mark in between)
    if not weighed or not mass_of(masses[0]) or any(mark.text in ("in", "into") for mark in between):
        return None
    density = Density.from_ratio(mass_of(masses[0]), volume_of(volume))
    return VolumeQuestion(
        mass=mass_of(masses[1]), density=density, stuff=g.stuff(volume), unit=g.wanted_volume() or "ml"
    )


def volume_to_weight(g: Givens) -> Outcome:
    """A volume whose weight, or whose load, is asked: only a density can tell."""
    volumes = g.scan.volumes()
    if not volumes:
        return None
    wax, load = g.wax(), g.shares.load
    waxes = [v for v in volumes if v.of == "wax"]
    chosen = waxes[0] if waxes and wax is None else next((v for v in volumes if v.of == "fragrance"), volumes[0])
    stuff = g.stuff(chosen)
    if wax is not None and load is None and chosen.of in ("", "wax") and g.has("compare", "convert"):
        return VolumeQuestion(volume=volume_of(chosen), stuff=Stuff.WAX, state=g.state(), unit=g.wanted_mass())
    if chosen.of == "jar" and wax is not None and not any(mark.noun == "fragrance" for mark in g.scan.marks):
        return VolumeQuestion(mass=wax.total, stuff=Stuff.WAX, state=g.state(), unit="ml")
    if chosen.of in ("bottle", "measure", "jar", "pot", "", "total") and wax is not None:
        stuff = Stuff.FRAGRANCE
    if chosen.of in ("pot",) and wax is None:
        stuff = Stuff.WAX
    if chosen.of == "bottle":
        stuff = Stuff.FRAGRANCE
    volume = volume_of(chosen)
    count = next((m for m in g.scan.kind("number") if m.of == "measure" and 1 < m.amount.value <= 100), None)
    if count is not None:
        volume = volume * count.amount.value
    material = g.material(chosen)
    return VolumeQuestion(
        volume=volume,
        stuff=None if material == "water" else stuff,
        state=g.state() if stuff is Stuff.WAX else None,
        material=material,
        wax=wax if stuff is not Stuff.WAX else None,
        load=load,
        unit=g.wanted_mass(),
    )


def weight_to_volume(g: Givens) -> Outcome:
    """A weight that is to be measured by volume."""
    masses = g.scan.masses()
    if not masses:
        return None
    if "drop" in g.wanted():
        return DropsQuestion(wax=g.wax(), load=g.shares.load)
    unit = g.wanted_volume() or ("" if not g.scan.volumes() else "ml")
    if (
        not unit
        and not g.has("measure")
        and not g.scan.says(("bucket", "spoons", "spoon", "fit", "fits", "line", "syringe"))
    ):
        return None
    load = g.shares.load
    if load is not None:
        built = ask_load(g)
        return _with_unit(built, unit or "ml")
    if len(masses) > 1 and g.scan.volumes():
        return None
    m = masses[0]
    if m.amount.unit == "oz" and g.stuff(m) is not Stuff.WAX and not g.by_weight and not g.said_weight(m):
        return unsure_of(g, m, unit or "ml")
    stuff = g.stuff(m)
    return VolumeQuestion(
        mass=mass_of(m),
        stuff=stuff,
        state=g.state() if stuff is Stuff.WAX else None,
        material=g.material(m),
        unit=unit or "ml",
    )


def _with_unit(built: Outcome, unit: str) -> Outcome:
    return dataclasses.replace(built, unit=unit) if isinstance(built, LoadQuestion) else built


def unsure_of(g: Givens, m: Measured, to: str) -> Question:
    return asking.unsure_ounces(mass_of(m), to, g.stuff(m))
