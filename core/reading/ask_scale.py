"""Texts about scales: the question scale."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Masses
from core.question import Question
from core.questions.scale import ScaleQuestion
from core.reading.chain import chained
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass, Percent

Outcome = Question | Answer | None
SMALL_STEP = Decimal(10)  # grams: no scale for a bench has coarser steps


def scale(g: Givens) -> Outcome:
    """How far off a weighing may be on a scale of given steps."""
    masses = g.scan.masses()
    steps = [m for m in masses if _names_step(g, m)] or [m for m in masses if _is_step(g, m)]
    others = [m for m in masses if m not in steps]
    error = g.shares.error or _error(g)
    if not steps and len(others) == 1 and _whole_grams(g):
        return ScaleQuestion(step=Mass.of(1, "g"), weighing=Masses.one(mass_of(others[0])))
    if len(steps) == len(others) == 2:
        pairs = zip(steps, others, strict=True)
        return chained(g.book, *(ScaleQuestion(step=mass_of(a), weighing=Masses.one(mass_of(b))) for a, b in pairs))
    if len(steps) == 2 and len(others) == 1:
        weighing = Masses.one(mass_of(others[0]), others[0].name)
        return chained(g.book, *(ScaleQuestion(step=mass_of(m), weighing=weighing) for m in steps))
    if (not steps and not g.has("error", "smallest")) or len(steps) > 1:
        return None
    if g.shares.loads and (
        g.has("wax_itself") or error is None or any(m.of == "fragrance" for m in g.scan.kind("percent"))
    ):
        return None  # a load that is to be weighed, with the scale's step as a side remark
    weighings = [(m.name if m.of != "scale" else "", mass) for m in others for mass in _ends(m)]
    if not steps and len(weighings) < 1 and not g.has("scale"):
        return None
    return ScaleQuestion(
        step=mass_of(steps[0]) if steps else None, weighing=Masses(tuple(weighings)) if weighings else None, error=error
    )


def _whole_grams(g: Givens) -> bool:
    """ "It shows whole grams": steps of one gram."""
    marks = g.scan.marks
    apart = any(a.text in ("whole", "full") and b.text in ("grams", "gram", "g") for a, b in itertools.pairwise(marks))
    return apart or any(mark.text == "whole" and mark.unit == "g" for mark in marks)


_NO_KIND_OF_SCALE = wordset("on by with and the my a same from of no without own")
_STEP_OF = wordset(
    "that which just can",
    "( of is : = has with only does goes up by jumps counts count reads to in accurate shows weighs measures",
)


def _names_step(g: Givens, m: Measured) -> bool:
    """ "A 0.1 g scale", "steps of 2 g"."""
    after = g.scan.marks[m.at + 1] if m.at + 1 < len(g.scan.marks) else None
    return m["step"] or (after is not None and (after.noun == "scale" or _scale_follows(g, m)))


def _is_step(g: Givens, m: Measured) -> bool:
    """ "My scale is 1 g", "the scale goes up in 5 g"; not "my scale when I weigh 5 g"."""
    i = m.at - 1
    while i >= 0 and g.scan.marks[i].text in _STEP_OF:
        i -= 1
    return i >= 0 and g.scan.marks[i].noun == "scale"


def _scale_follows(g: Givens, m: Measured) -> bool:
    """ "A 1 g kitchen scale"."""
    near = g.scan.marks[m.at + 1 : m.at + 3]
    return (
        len(near) == 2 and near[1].noun == "scale" and near[0].kind == "word" and near[0].text not in _NO_KIND_OF_SCALE
    )


def _error(g: Givens) -> Percent | None:
    percents = g.scan.kind("percent")
    return Percent(percents[0].amount.value) if len(percents) == 1 else None


def _ends(m: Measured) -> list[Mass]:
    """Both ends of "2 g or 20 g"."""
    low = mass_of(m)
    return [low] if m.amount.high is None else [low, Mass.of(m.amount.high, m.amount.unit)]
