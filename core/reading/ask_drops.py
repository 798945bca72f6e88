"""Texts about drops: weighed before, or no measure at all."""

from __future__ import annotations

from core.answer import Answer
from core.compounds import Masses
from core.question import Question
from core.questions.drops import DropsQuestion
from core.questions.volume import VolumeQuestion
from core.reading.ask_volume import volume_of
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Number, Volume, kind_of

Outcome = Question | Answer | None


def drops(g: Givens) -> Outcome:
    """Drops, weighed before or not."""
    found = g.scan.kind("drop")
    if g.scan.volumes() or g.density() is not None:
        return _drops_of_a_volume(g, found)
    masses = g.scan.masses()
    weighed = next(((d, m) for d in found for m in masses if _weighed_together(g, d, m)), None)
    wax = g.wax()
    if weighed is None:
        return DropsQuestion(
            drops=_count(found[0]) if found else None, wax=wax, load=g.shares.load if wax is not None else None
        )
    counted, mass = weighed
    others = [d for d in found if d is not counted] or _bare_drops(g, mass)
    rest = [m for m in masses if m is not mass]
    into = [m for m in rest if m.of == "wax" or _goes_into(g, m)]
    if not others and g.shares.load is None and len(rest) == 1 and rest[0].of != "wax":
        into = []  # "how many for 6 g"
    needs = [m for m in rest if m not in into]
    if len(needs) > 1 or len(others) > 1 or (needs and others):
        return None
    return DropsQuestion(
        drops=_count(others[0]) if others else None,
        counted=_count(counted),
        weighed=mass_of(mass),
        need=mass_of(needs[0]) if needs else None,
        wax=Masses(tuple(("", mass_of(m)) for m in into)) if into else None,
        load=g.shares.load,
        unit=g.wanted_mass(),
    )


def _bare_drops(g: Givens, weighed: Measured) -> list[Measured]:
    """ "Then dropped 250 in 120 g of wax": a bare number after the drops were weighed."""
    marks = g.scan.marks
    bare = [m for m in g.scan.kind("number") if m.at > weighed.at and not m.amount.unit]
    dropped = [m for m in bare if any(mark.text in _DROPPING for mark in marks[max(0, m.at - 3) : m.at])]
    return dropped if len(dropped) == len(bare) else []


_DROPPING = wordset("dropped drop drops put used added counted")


def _goes_into(g: Givens, m: Measured) -> bool:
    """ "50 drops in a 40 g melt", "for 200 g"."""
    return any(mark.text in ("in", "into", "for") for mark in g.scan.marks[max(0, m.at - 2) : m.at])


def _drops_of_a_volume(g: Givens, found: list[Measured]) -> Outcome:
    """ "28 drops a ml": so many drops are a volume; what they weigh takes a density."""
    dense, volumes = g.density(), g.scan.volumes()
    per = [m for m in g.scan.kind("rate") if m.amount.unit == "drop" and m.amount.per is not None and m.amount.value]
    if dense is not None and len(per) == len(found) == 1 and not volumes and not g.scan.masses():
        assert per[0].amount.per is not None
        size, unit = per[0].amount.per
        if kind_of(unit) is Volume:
            volume = Volume.of(size, unit) * (found[0].amount.value / per[0].amount.value)
            return VolumeQuestion(volume=volume, density=dense, stuff=g.stuff(), unit=g.wanted_mass())
    if dense is not None and len(volumes) == 1 and len(found) == 2 and not g.scan.masses():
        counted, others = sorted(found, key=lambda d: abs(d.at - volumes[0].at))
        if counted.amount.value and "drop" not in g.wanted():
            volume = volume_of(volumes[0]) * (others.amount.value / counted.amount.value)
            return VolumeQuestion(volume=volume, density=dense, stuff=g.stuff(), unit=g.wanted_mass())
    if (filled := _filled(g, found)) is not None:
        return filled
    last = found[-1] if found else None
    return DropsQuestion(drops=_count(last) if last is not None else None)


def _filled(g: Givens, found: list[Measured]) -> Outcome:
    """ "25 drops make 1 ml, a 5 ml vial gives how many drops", "... density 0.96, I need 4.8 g"."""
    volumes, masses, dense = g.scan.volumes(), g.scan.masses(), g.density()
    if len(found) != 1 or "drop" not in g.wanted() or g.shares.loads or not volumes or not found[0].amount.value:
        return None
    one = volumes[0]
    between = g.scan.marks[min(one.at, found[0].at) + 1 : max(one.at, found[0].at)]
    if len(between) > 3 or any(mark.kind in ("amount", "stop") or mark.text == "in" for mark in between):
        return None
    if len(volumes) == 2 and not masses:
        return DropsQuestion(counted=_count(found[0]), filled=volume_of(one), room=volume_of(volumes[1]))
    if len(volumes) == len(masses) == 1 and dense is not None:
        return DropsQuestion(counted=_count(found[0]), filled=volume_of(one), density=dense, need=mass_of(masses[0]))
    return None


def _weighed_together(g: Givens, drop: Measured, m: Measured) -> bool:
    """ "40 drops weighed 1.1 g", "100 drops = 2.4 g"; not "50 drops in 200 g"."""
    if not 0 < m.at - drop.at <= 10:
        return False
    between = g.scan.marks[drop.at + 1 : m.at]
    if any(mark.kind in ("amount", "stop") or mark.text in ("in", "into", "for") for mark in between):
        return False
    told = any(mark.tags & {"weight", "by_weight", "makes"} or mark.text in _TOLD for mark in between)
    return told or (not between and m.of != "wax")


_TOLD = wordset("= : is are was were at make makes said says read reads show shows showed came")


def _count(m: Measured) -> Number:
    return Number(m.amount.value)
