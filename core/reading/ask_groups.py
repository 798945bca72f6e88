"""Vessels in groups of their own load, and a batch beside what is at hand."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from core.answer import Answer
from core.compounds import Basis, Load, Masses
from core.question import Question
from core.questions.batch import BatchQuestion, FillIs
from core.questions.load import LoadQuestion
from core.questions.stock import StockQuestion
from core.reading.ask_mix import doubtful_ounces
from core.reading.chain import chained
from core.reading.counts import counts_vessels
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.reading.workings import difference
from core.units import Mass

Outcome = Question | Answer | None

MOST_GROUPS = 4
_SAME = wordset("same each all every both")
_REST = wordset("rest other others remaining")


class Group(NamedTuple):
    """So many vessels with so much wax in each, at a load of their own."""

    number: Decimal
    each: Mass
    load: Load


def groups(g: Givens) -> Outcome:
    """ "4 jars of 180 g of wax at 6 % and 4 the same size at 10 %", "half of the 8 get 6 %, half 10 %": the oil of all,
    then that of each group."""
    percents, masses, loads = g.scan.kind("percent"), g.scan.masses(), g.shares.loads
    if not 2 <= len(percents) <= MOST_GROUPS or len(percents) != len(loads) or not masses or g.shares.unclear:
        return None
    waxes = all(m.of in ("wax", "", "jar") and m.amount.high is None for m in masses)
    if not waxes or not any(m.of == "wax" for m in masses) or any(load.basis is Basis.TOTAL for load in loads):
        return None
    if not g.has("jar", "candle") and not all(m["each"] for m in masses):
        return None  # "800 g in two pots"
    counts = _counts(g, percents)
    if counts is None:
        return None
    if len(masses) == len(percents) > 1:
        each = [mass_of(m) for m in masses]
    elif len(masses) == 1 and g.scan.says(_SAME):
        each = [mass_of(masses[0])] * len(percents)
    else:
        return None
    made = [Group(*group) for group in zip(counts, each, loads, strict=True)]
    g.used.update(m.at for m in g.scan.found)
    alone = [LoadQuestion(wax=_waxes([group]), load=group.load, unit=g.wanted_mass()) for group in made]
    return chained(g.book, _together(g, made), *alone)


def _counts(g: Givens, percents: list[Measured]) -> list[Decimal] | None:
    """How many vessels get each of the percents; None where the text does not say it for sure."""
    numbers = [m for m in g.scan.kind("number") if m.amount.value > 1 and not m.amount.unit]
    values = [m.amount.value for m in numbers]
    if any(value != value.to_integral_value() for value in values):
        return None
    if len(numbers) == 1 and values[0] == len(percents) and _one_by_one(g, percents):
        return [Decimal(1)] * len(percents)
    marks = g.scan.marks
    if len(numbers) == 1 and len(percents) == 2 and counts_vessels(g, numbers[0]):
        halves = sum(mark.text == "half" for mark in marks)
        even = values[0] % 2 == 0 and (halves == 2 or (halves == 1 and g.scan.says(_REST)))
        return [values[0] / 2] * 2 if even else None
    if len(numbers) == len(percents) + 1 and values[0] == sum(values[1:], Decimal(0)):
        numbers = numbers[1:]  # "8 jars: 3 get 6 %, the other 5 get 10 %"
    elif not all(counts_vessels(g, m) for m in numbers):
        return None
    order = [m.kind for m in sorted((*numbers, *percents), key=lambda m: m.at)]
    paired = order in (["number", "percent"] * len(percents), ["percent", "number"] * len(percents))
    return [m.amount.value for m in numbers] if paired and len(numbers) == len(percents) else None


def _one_by_one(g: Givens, percents: list[Measured]) -> bool:
    """ "3 jars, one at 6 %, one at 8 %, the third at 10 %": each of them has its own."""
    return all(any(mark.text in _ONE for mark in g.scan.marks[max(0, m.at - 3) : m.at]) for m in percents)


_ONE = wordset("one 1 first second third fourth other another last")


def _waxes(made: list[Group]) -> Masses:
    return Masses(tuple(("", group.each * group.number) for group in made))


def _together(g: Givens, made: list[Group]) -> LoadQuestion:
    """All the wax with all the oil that the groups take one by one."""
    waxes = _waxes(made)
    oils = [group.each * group.number * group.load.percent.fraction for group in made]
    oil = oils[0]
    for more in oils[1:]:
        oil = oil + more
    percents = [m.amount.text for m in g.scan.kind("percent")]
    typed = " + ".join(f"{percent} in {group.number}" for percent, group in zip(percents, made, strict=True))
    return LoadQuestion(wax=waxes, load=Load.rate(oil, waxes.total, typed), unit=g.wanted_mass())


def beside_stock(g: Givens, batch: BatchQuestion, others: list[Measured]) -> Outcome:
    """ "90 g of oil in the bottle, 14 tins of 85 g wax at 7 %, is it enough?", "but there are 800 g of wax": the batch,
    then how far the oil goes, or how much wax is lacking. None where it is not sure what the other weight is."""
    assert batch.fills is not None
    if len(others) != 1 or len(batch.fills.items) != 1 or others[0].amount.high is not None:
        return None
    m, fill = others[0], batch.fills.items[0]
    if fill.weight is None or batch.load is None:
        return None
    if m.of == "fragrance" and doubtful_ounces(g) is None and (g.checks or g.scan.says(_FAR)):
        stock = StockQuestion(fragrance=mass_of(m), load=batch.load, each=fill.weight, fill_is=batch.fill_is)
        return chained(g.book, batch, stock)
    there = m.flags & {"have", "left"} or any(
        a.text in ("there", "theres") for a in g.scan.marks[max(0, m.at - 3) : m.at]
    )
    if m.of in ("wax", "") and there and batch.fill_is is FillIs.WAX:
        need = fill.weight * fill.count
        if mass_of(m).base < need.base:
            g.scan.workings.append(difference("wax still to get", need, mass_of(m))[1])
            g.used.add(m.at)
            return batch
    return None


_FAR = wordset("far enough reach reaches suffice")
