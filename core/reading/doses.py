"""Scoops, capfuls, shot glasses: measures of no fixed size, which weigh something only once one has been weighed."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.answer import Answer
from core.compounds import Load, Masses, Stuff
from core.question import Question
from core.questions.load import LoadQuestion
from core.questions.volume import VolumeQuestion
from core.reading import asking
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None

_DOSES = wordset(
    "scoop scoops scoopful scoopfuls capful capfuls squirt squirts splash splashes pump pumps dropperful dropperfuls",
    "ladle ladles ladleful handful handfuls pinch glug glugs shot shots shotglass shotglasses thimble thimbles dash",
)
_VESSELS = wordset("glass glasses mug mugs cap caps lid lids")
_SCENTS = wordset("fragrance dye")
_TOLD = 8


@dataclass(frozen=True, slots=True)
class Dose:
    """So many of a measure of no fixed size, and what they hold."""

    count: Decimal
    of: str
    at: int
    measured: Measured | None


def doses(g: Givens) -> Outcome:
    """So many scoops of wax or shots of scent; None where the text speaks of no such measure."""
    found = _doses(g)
    if not found:
        return None
    one, mass = _weighed(g, found)
    others = [dose for dose in found if dose is not one]
    used = [dose for dose in others if dose.measured is not None]
    if one is None or mass is None:
        return _unknown(g, found[0])
    if len(used) != 1 or one.of not in ("wax", ""):
        return None
    whole = mass * (used[0].count / one.count)
    rest = [m for m in g.scan.masses() if m.value is not None and mass_of(m).base != mass.base]
    load = g.shares.load
    if rest or load is None:
        return None
    for dose in found:
        if dose.measured is not None:
            g.used.add(dose.measured.at)
    g.used.update(m.at for m in g.scan.masses())
    return LoadQuestion(wax=Masses.one(whole), load=Load(load.percent, load.basis), unit=g.wanted_mass())


def _doses(g: Givens) -> list[Dose]:
    """The measures in order. A glass or a cap counts as one only where scent or dye is in it."""
    marks = g.scan.marks
    out: list[Dose] = []
    for i, mark in enumerate(marks):
        plain = mark.text in _DOSES
        if not plain and mark.text not in _VESSELS:
            continue
        if plain and out and marks[i - 1].text in _DOSES:
            continue  # "shot glasses"
        behind = [x for x in marks[i + 1 : i + 5] if x.text not in ("glass", "glasses")]
        of = next((x.noun for x in behind[1:3] if x.noun), "") if behind and behind[0].text == "of" else ""
        if not plain and of not in _SCENTS:
            continue
        before = [x for x in marks[max(0, i - 3) : i] if x.text not in ("full", "big", "small", "shot", "of")]
        measured = before[-1].measured if before and before[-1].kind == "amount" else None
        if measured is not None and (measured.kind != "number" or measured.amount.unit):
            continue
        count = measured.amount.value if measured is not None else Decimal(1)
        out.append(Dose(count, of, i, measured))
    return out


def _weighed(g: Givens, found: list[Dose]) -> tuple[Dose | None, Mass | None]:
    """The measure whose weight is told: "a scoop of flakes is 85 g"."""
    marks = g.scan.marks
    for dose in found:
        for mark in marks[dose.at + 1 : dose.at + _TOLD]:
            if mark.text in ("in", "into", "for") or mark.kind == "stop":
                break
            if mark.measured is not None:
                if mark.measured.kind == "mass" and mark.measured.value and dose.count:
                    return dose, mass_of(mark.measured)
                if mark.measured.kind != "number" or mark.measured.amount.value != 1:
                    break
    return None, None


def _unknown(g: Givens, dose: Dose) -> Outcome:
    """Nobody knows what one weighs: ask, and say what the wax needs if that is clear."""
    if dose.of not in ("fragrance", "dye", "wax", "total") and not g.has("fragrance"):
        return None
    if dose.of == "wax" and g.scan.masses():
        return None
    stuff = Stuff.WAX if dose.of == "wax" else Stuff.FRAGRANCE
    return asking.room_only(VolumeQuestion(stuff=stuff), stuff)
