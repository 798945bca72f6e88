"""Texts about drops: weighed before, or no measure at all."""

from __future__ import annotations

from core.answer import Answer
from core.question import Question
from core.questions.drops import DropsQuestion
from core.questions.volume import VolumeQuestion
from core.reading.ask_volume import volume_of
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.units import Number

Outcome = Question | Answer | None


def drops(g: Givens) -> Outcome:
    """Drops, weighed before or not."""
    found = g.scan.kind("drop")
    if g.scan.volumes():
        return _drops_of_a_volume(g, found)
    masses = g.scan.masses()
    weighed = next(((d, m) for d in found for m in masses if _weighed_together(g, d, m)), None)
    wax = g.wax()
    if weighed is not None:
        counted, mass = weighed
        others = [d for d in found if d is not counted]
        rest = [m for m in masses if m is not mass and m.of in ("wax", "")]
        return DropsQuestion(
            drops=_count(others[0]) if others else None,
            counted=_count(counted),
            weighed=mass_of(mass),
            wax=wax if any(m.of == "wax" for m in rest) else None,
            load=g.shares.load,
            unit=g.wanted_mass(),
        )
    return DropsQuestion(
        drops=_count(found[0]) if found else None, wax=wax, load=g.shares.load if wax is not None else None
    )


def _drops_of_a_volume(g: Givens, found: list[Measured]) -> Outcome:
    """ "28 drops a ml": so many drops are a volume; what they weigh takes a density."""
    dense, volumes = g.density(), g.scan.volumes()
    if dense is not None and len(volumes) == 1 and len(found) == 2 and not g.scan.masses():
        counted, others = sorted(found, key=lambda d: abs(d.at - volumes[0].at))
        if counted.amount.value and "drop" not in g.wanted():
            volume = volume_of(volumes[0]) * (others.amount.value / counted.amount.value)
            return VolumeQuestion(volume=volume, density=dense, stuff=g.stuff(), unit=g.wanted_mass())
    last = found[-1] if found else None
    return DropsQuestion(drops=_count(last) if last is not None else None)


def _weighed_together(g: Givens, drop: Measured, m: Measured) -> bool:
    """ "40 drops weighed 1.1 g", "100 drops = 2.4 g"; not "50 drops in 200 g"."""
    if not 0 < m.at - drop.at <= 7 or m.of in ("wax", "total"):
        return False
    between = g.scan.marks[drop.at + 1 : m.at]
    if any(mark.kind in ("amount", "stop") or mark.text in ("in", "into", "to", "for") for mark in between):
        return False
    return any(
        mark.tags & {"weight", "by_weight"} or mark.text in ("=", ":", "is", "are", "was", "were", "at", "make")
        for mark in between
    )


def _count(m: Measured) -> Number:
    return Number(m.amount.value)
