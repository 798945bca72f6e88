"""A recipe told by its weights, brought to another weight of wax or of everything."""

from __future__ import annotations

from core.answer import Answer
from core.compounds import Load, Masses, Parts
from core.question import Question
from core.questions.blend import BlendQuestion
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.ask_mix import doubtful_ounces
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None

_RESIZING = wordset("scale rescale resize shrink stretch enlarge reduce bring upscale downscale convert adapt adjust")
_KINDS = ("wax", "fragrance", "dye", "additive")


def to_weight(g: Givens) -> Outcome:
    """ "Scale 500 g wax and 40 g oil to 2 kg of wax", "recipe for 1 kg: 920 g wax, 80 g oil, make 3.5 kg"."""
    masses = g.scan.masses()
    if len(masses) < 3 or g.shares.loads or g.scan.kind("percent") or doubtful_ounces(g) is not None:
        return None
    target = masses[-1]
    parts = [m for m in masses[:-1] if m.of in _KINDS]
    told = [m for m in masses[:-1] if m not in parts]
    if len({m.of for m in parts}) != len(parts) or not {"wax", "fragrance"} <= {m.of for m in parts}:
        return None
    whole = mass_of(parts[0])
    for m in parts[1:]:
        whole = whole + mass_of(m)
    stated = len(told) == 1 and abs(mass_of(told[0]).base - whole.base) <= whole.base / 1000
    resizes = any(mark.text in _RESIZING and mark.noun != "scale" for mark in g.scan.marks)
    opens = g.scan.marks[0].text == "scale" and g.scan.marks[target.at - 1].text == "to"
    if (told and not stated) or not (resizes or opens or stated) or target["each"]:
        return None
    wax = next(m for m in parts if m.of == "wax")
    if target.of == "wax" and target.name:
        total = Mass(whole.base * mass_of(target).base / mass_of(wax).base, target.amount.unit)
    elif target.of == "total" or (stated and not target.name):
        total = mass_of(target)
    else:
        return asking.which_weight([target])
    g.used.update(m.at for m in g.scan.found)
    return _resized(parts, wax, total, target)


def _resized(parts: list[Measured], wax: Measured, total: Mass, target: Measured) -> Question:
    if len(parts) > 2:
        return BlendQuestion(parts=Parts(tuple((m.name, mass_of(m).base) for m in parts)), total=total)
    oil = next(m for m in parts if m.of == "fragrance")
    rate = Load.rate(mass_of(oil), mass_of(wax), f"{oil.amount.text} to {wax.amount.text}")
    if target.of == "wax" and target.name:
        return LoadQuestion(wax=Masses.one(mass_of(target)), load=rate)
    return LoadQuestion(total=total, load=rate)
