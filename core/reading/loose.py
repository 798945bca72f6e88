"""Weights nobody said what of: which part of a mix each of them is, by what is lacking."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.compounds import Basis, Load, Masses
from core.reading.each import asks_for_each
from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.measuring import mass_of
from core.reading.tares import weighed_along
from core.reading.wordset import wordset
from core.units import Mass

# How far a stated result may be from load x wax and still be the stated result of it.
SAME = Decimal("0.02")


@dataclass(slots=True)
class Weights:
    """What goes into the pot. `unclear` are amounts that may matter and could not be placed."""

    wax: Masses | None
    fragrance: Mass | None
    total: Mass | None
    unclear: list[Measured]


def place_loose(g: Givens, found: Weights) -> None:
    """Weights nobody said what of, by what is lacking."""
    loose = g.loose()
    pair = weighed_along(g.scan)
    if pair is not None:
        loose = [m for m in loose if all(m.amount is not other.amount for other in pair)]
    if not loose:
        return
    if len(loose) == 1 and found.wax is None and found.total is None:
        mass = mass_of(loose[0])
        finished = (
            bool(loose[0].flags & {"finished", "together", "split", "makes"}) or _asks_two(g) or g.shares.of_whole
        )
        finished = (
            finished
            or _of_the_mix(g, loose[0])
            or (_of_total(g) and not loose[0].flags & {"molten", "have", "already"})
        )
        if g.shares.waxes is not None and _of_that_wax(g, loose[0]):
            found.wax = Masses.one(mass)
        elif "wax" in g.asked() and found.fragrance is None and _is_stock_of_oil(g, loose[0]):
            found.fragrance = mass
        elif finished or ("wax" in g.asked() and found.fragrance is None) or _stands_bare(g, loose[0]):
            found.total = mass
        else:
            found.wax = Masses.one(mass)
        return
    given = g.shares.load
    if len(loose) == 1 and found.wax is not None and _goes_on(g, loose[0]):
        found.wax = Masses((*found.wax.items, ("", mass_of(loose[0]))))
        return
    if len(loose) == 1 and found.wax is not None and found.fragrance is None:
        mass = mass_of(loose[0])
        asked = (g.asks_percent and not g.shares.loads) or g.checks or loose[0]["already"]
        if asked or (given is not None and is_product(given, found.wax.total, mass)):
            found.fragrance = mass
            return
        if loose[0]["together"] or found.wax.total.base == mass.base:
            return
    if len(loose) == 1 and found.total is not None and mass_of(loose[0]).base == found.total.base:
        return
    if len(loose) == 2 and found.wax is None and given is not None:
        first, second = mass_of(loose[0]), mass_of(loose[1])
        for big, small in ((first, second), (second, first)):
            if is_product(given, big, small) or (
                (g.checks or g.has("add", "top_up", "meant") or g.scan.says(_REALLY)) and small.base * 3 < big.base
            ):
                found.wax, found.fragrance = Masses.one(big), small
                return
    found.unclear += loose


_REALLY = wordset("really actually")
_OPENERS = wordset("so ok okay and hi hey hello yo pls please quick got with a an & then")


def _of_that_wax(g: Givens, m: Measured) -> bool:
    """ "My wax is 80 % soy 20 % coconut, I took 2 kg of it"."""
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    return after in (["of", "it"], ["of", "that"], ["of", "this"]) and not m["makes"]


def _stands_bare(g: Givens, m: Measured) -> bool:
    """ "2 kg 6 % oil?": no word for wax anywhere, and nothing ties the weight to the percent: it may be either."""
    given = g.shares.load
    if given is None or given.typed or given.basis is not None or g.has("wax") or m.flags & _TIES:
        return False
    marks = g.scan.marks
    if any(_of_that(marks, percent) for percent in g.scan.kind("percent") if percent.at > m.at):
        return False
    before = marks[m.at - 1] if m.at else None
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    opens = before is None or before.kind in ("stop", "sign", "amount", "unit") or before.text in _OPENERS
    before_percent = before is not None and before.noun in ("fragrance", "load")
    closes = after is None or after.kind in ("stop", "sign", "amount") or after.text in (*_OPENERS, "how much", "oil")
    return (opens or before_percent) and closes and not (after is not None and after.text == "@")


def _of_that(marks: list[Mark], percent: Measured) -> bool:
    """ "1.8 kg, what is five percent of that?" """
    after = [mark.text for mark in marks[percent.at + 1 : percent.at + 3]]
    return after in (["of", "that"], ["of", "it"], ["of", "this"])


_TIES = frozenset({"molten", "already", "have", "left", "makes"})


def _is_stock_of_oil(g: Givens, m: Measured) -> bool:
    """ "17 g left, 10 %, how much wax to finish it": what is left of the bottle."""
    if "fragrance" in g.asked():
        return False
    told = m["left"] or g.has("bottle") or g.scan.says(_FINISHING)
    return told and g.shares.load is not None and not m["finished"] and not m["together"] and not m["makes"]


_FINISHING = wordset("finish empty oil fragrance scent use")


def _goes_on(g: Givens, m: Measured) -> bool:
    """ "2 lbs + 6 oz of wax": ounces after pounds, grams after kilograms."""
    marks = g.scan.marks
    before = marks[m.at - 2].measured if m.at >= 2 and marks[m.at - 1].text in ("+", "plus", "&") else None
    return before is not None and (before.amount.unit, m.amount.unit) in (("lb", "oz"), ("kg", "g"))


def _of_the_mix(g: Givens, m: Measured) -> bool:
    """ "16:1 wax to oil and I need 850 g of it": so much of what the ratio makes."""
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    return _ratio_given(g) and len(after) == 2 and after[0] == "of" and after[1] in ("it", "that", "this")


def _ratio_given(g: Givens) -> bool:
    return g.shares.load is not None and bool(g.shares.load.typed) and bool(g.scan.kind("ratio") or g.scan.kind("part"))


def _of_total(g: Givens) -> bool:
    return g.shares.load is not None and g.shares.load.basis is Basis.TOTAL and not g.shares.load.typed


def _asks_two(g: Givens) -> bool:
    """ "How much of each?", "both amounts": then the weight given is of the whole."""
    both = {"wax", "fragrance"} <= g.asked()
    return (both or g.has("split") or asks_for_each(g)) and len(g.shares.loads) == 1 and not g.shares.additives


def is_product(given: Load, wax: Mass, fragrance: Mass) -> bool:
    """Whether the fragrance is what the load asks of that wax, as people round it."""
    wanted = wax.base * given.percent.fraction
    return wanted > 0 and abs(fragrance.base - wanted) <= wanted * SAME
