"""Texts about a volume and its weight, and the density between them: the questions volume and density."""

from __future__ import annotations

import dataclasses

from core.answer import Answer
from core.compounds import Stuff
from core.question import Question
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
from core.reading.wordset import wordset
from core.units import Density, Number, Volume

Outcome = Question | Answer | None


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
        _take_guess(g, volume)
        if g.shares.level is not None:
            return VesselQuestion(room=volume_of(volume), level=g.shares.level, density=dense, load=load)
        stuff = g.stuff(volume)
        if volume.of == "bottle" and load is not None and stuff in (None, Stuff.WAX) and "wax" in g.asked():
            stuff = Stuff.FRAGRANCE  # "bottle 30 ml, 6 %, how much wax will it do"
        elif volume.of == "" and load is not None and "wax" in g.asked() and not g.has("fragrance"):
            return asking.which_volume(volume)
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


_WHETHER = wordset("does do is are will would should can did")
_WEIGH = wordset("weigh weighs weighing be equal equals mean means")


def _take_guess(g: Givens, volume: Measured) -> None:
    """ "Does 50 ml weigh 50 g if its density is 0.98?": the weight is a guess, and the answer tells the right one."""
    marks, masses = g.scan.marks, g.scan.masses()
    if len(masses) != 1 or g.shares.loads or masses[0].of not in ("", volume.of) or marks[0].text not in _WHETHER:
        return
    between = marks[volume.at + 1 : masses[0].at]
    if 0 < len(between) <= 4 and between[-1].text in _WEIGH:
        g.used.add(masses[0].at)


def _replace(question: LoadQuestion, density: Density, unit: str) -> LoadQuestion:
    return dataclasses.replace(question, density=density, unit=unit)


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
    if (
        chosen.of in ("jar", "measure", "pot", "pack", "")
        and wax is not None
        and not g.has("fragrance")
        and load is None
    ):
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
