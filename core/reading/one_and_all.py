"""A single one beside all of them: "oil per candle?", "for one, and for fifteen", "I do it 4 times"."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Masses
from core.question import Question
from core.questions.load import LoadQuestion
from core.reading.chain import chained
from core.reading.counts import so_often
from core.reading.each import asks_for_one
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None

MOST_COUNTS = 4

_INTO = wordset("in into between among across over to onto")
_EVENLY = wordset("even evenly equal equally split divide divided share shared spread")


def _shared_out(g: Givens, between: list[str], count: Measured, m: Measured) -> bool:
    """ "2 kg of wax goes evenly in 15 jars": the weight is of all of them."""
    if between[-1:] and between[-1] in _YIELDS and not m["each"]:
        return True  # "1 kg of wax makes 5 candles"
    if between[-1:] and between[-1] in _SHARING and mass_of(m).base >= 40 * count.amount.value:
        return not m["each"]  # "1.6 kg of wax into 8 jars"
    return any(word in _INTO for word in between) and g.scan.says(_EVENLY) and not m["each"]


_YIELDS = wordset("makes make made gives gave yields fills filled")
_SHARING = wordset("into between among across")


def _both_there(between: list[str], count: Measured, m: Measured) -> bool:
    """ "I have 8 jars and 1.6 kg of wax": the wax is for all of them."""
    enough = mass_of(m).base >= 40 * count.amount.value and mass_of(m).base >= 500
    return between[-1:] == ["and"] and len(between) <= 3 and enough and not m["each"]


def also_for(g: Givens, made: LoadQuestion) -> list[LoadQuestion]:
    """ "... for one, and for fifteen": the same so many times."""
    masses, marks = g.scan.masses(), g.scan.marks
    one = any(
        a.text in ("for", "per") and b.text in ("one", "1", "each", "single") for a, b in itertools.pairwise(marks)
    )
    times = [m for m in g.scan.kind("number") if m.amount.value > 1 and so_often(g.scan.marks, m)]
    counts = [m for m in g.scan.kind("number") if m.amount.value > 1 and _for_so_many(g, m)] if one else times
    whole = all(m.amount.value == m.amount.value.to_integral_value() for m in counts)
    if not counts or not whole or len(masses) != 1 or len(counts) > MOST_COUNTS:
        return []
    g.used.update(m.at for m in counts)
    return [_so_often(made, m.amount.value) for m in counts]


def _for_so_many(g: Givens, m: Measured) -> bool:
    return m.of in ("", "jar", "candle") and not m.amount.unit and m.at > 0 and g.scan.marks[m.at - 1].text == "for"


def _so_often(made: LoadQuestion, count: Decimal) -> LoadQuestion:
    wax = Masses(tuple((name, mass * count) for name, mass in made.wax.items)) if made.wax is not None else None
    return dataclasses.replace(made, wax=wax, total=made.total * count if made.total is not None else None)


def one_of_all(g: Givens) -> Outcome:
    """ "12 melts from 360 g of wax with 9 %, oil per melt?": one of them first, then all."""
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar") and m.amount.value > 1]
    masses = g.scan.masses()
    if len(counts) != 1 or len(masses) != 1 or len(g.shares.loads) != 1 or masses[0].of not in ("wax", ""):
        return None
    one, other = sorted((counts[0], masses[0]), key=lambda m: m.at)
    between = [mark.text for mark in g.scan.marks[one.at + 1 : other.at]]
    shared = (
        "from" in between or _both_there(between, one, other)
        if one is counts[0]
        else _shared_out(g, between, counts[0], masses[0])
    )
    if not shared or not (asks_for_one(g) or g.has("each") or g.scan.says(("per",))):
        return None
    g.used.update(m.at for m in g.scan.found)
    each = Mass(mass_of(masses[0]).base / counts[0].amount.value, masses[0].amount.unit)
    return chained(
        g.book,
        *(
            LoadQuestion(wax=Masses.one(mass), load=g.shares.loads[0], unit=g.wanted_mass())
            for mass in (each, mass_of(masses[0]))
        ),
    )
