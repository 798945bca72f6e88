"""A short text that changes the last question: "and at 10 %?", "in ounces", "of the total I meant", "make it 6"."""

from __future__ import annotations

import dataclasses
from decimal import Decimal
from typing import Any

from core.answer import Answer, Missing, results_by_name
from core.ask import answer
from core.compounds import Basis, Fills, Load, Stuff, UnitName
from core.question import Question, slots_of
from core.questions.batch import BatchQuestion
from core.questions.convert import ConvertQuestion
from core.questions.drops import DropsQuestion
from core.questions.load import LoadQuestion
from core.questions.volume import VolumeQuestion
from core.reading import asking
from core.reading.changes import change_of, times
from core.reading.givens import Givens
from core.reading.intent import question_of
from core.reading.leaning import asks_of_its_own, leans
from core.reading.wordset import wordset
from core.units import Mass, Volume, kind_of

_OPENING = wordset("and what or at with for make no sorry i ok now but then if how actually not it's its density")
_FACTORS = {
    **dict.fromkeys(("twice", "double", "doubled"), Decimal(2)),
    **dict.fromkeys(("triple", "tripled", "thrice"), Decimal(3)),
    **dict.fromkeys(("half", "halve", "halved"), Decimal("0.5")),
}
_OF_THAT = wordset("that it of the a an much as make just only and what about for amount batch please")


def follow(g: Givens, last: Question) -> Question | Answer | None:
    """The last question with what the text changes in it; None where the text stands by itself."""
    if (weighed := _drops_weighed(g, last)) is not None:
        return weighed
    if (scaled := _scaled(g, last)) is not None:
        return scaled
    if len(g.scan.found) > 1 or not leans(g):
        return None
    slots = {slot.name for slot in slots_of(type(last))}
    changes: dict[str, Any] = {}
    if len(g.scan.found) == 1:
        if not (_leans_on_last(g) or _asks_for_other_wax(g, last)):
            return None
        made = change_of(g, last, slots)
        if not isinstance(made, dict):
            return made
        changes = made
        if not changes:
            return None
    elif isinstance(last, LoadQuestion) and g.scan.says(("batch",)) and not g.has("wax"):
        return asking.vessels_missing(BatchQuestion(load=last.load, basis=last.basis))
    basis = _basis(g)
    if not g.scan.found and (g.has("density", "jar", "candle") or g.scan.says(("how", "do", "make"))):
        basis = None  # "density of soy wax": the wax is no basis there
    if basis is not None and "basis" in slots and (changes or not g.scan.found):
        changes["basis"] = basis
        load = changes.get("load", getattr(last, "load", None))
        if isinstance(load, Load):
            changes["load"] = dataclasses.replace(load, basis=basis)
    if not changes and not g.scan.found:
        if isinstance(last, BatchQuestion) and g.wanted_volume():
            return _room_of_oil(g, last)
        changes = _unit_wanted(g, last, slots)
    if not changes:
        return None
    changed = dataclasses.replace(last, **changes)
    return None if g.scan.found and _asks_the_same(g, last, changed) else changed


def _asks_the_same(g: Givens, last: Question, changed: Question) -> bool:
    """Whether the answer would only ask back once more, in the same words: then the amount was no change."""
    before, after = answer(last, g.book), answer(changed, g.book)
    if not isinstance(before, Missing) or not isinstance(after, Missing):
        return False
    alike = (before.needs, before.results, before.steps) == (after.needs, after.results, after.steps)
    return alike and before.headline.show() == after.headline.show()


def _unit_wanted(g: Givens, last: Question, slots: set[str]) -> dict[str, Any]:
    """ "In ounces", "how many fl oz is that"; a whole question of its own names what it asks of."""
    units = g.wanted()
    if len(units) != 1 or asks_of_its_own(g):
        return {}
    unit = units[0]
    if kind_of(unit) is None:
        return {}
    if "to" in slots:
        amount = getattr(last, "amount", None)
        same = amount is not None and amount.unit == unit
        return {} if same else {"to": UnitName(unit)}
    room = kind_of(unit) is Volume and "density" not in slots
    return {} if room else {"unit": unit}


def _room_of_oil(g: Givens, last: BatchQuestion) -> VolumeQuestion | None:
    """ "How many fl oz is the oil" of a batch."""
    oil = results_by_name(answer(last, g.book)).get("fragrance")
    if not isinstance(oil, Mass) or not g.has("fragrance"):
        return None
    return VolumeQuestion(mass=oil, stuff=Stuff.FRAGRANCE, unit=g.wanted_volume())


def _leans_on_last(g: Givens) -> bool:
    """Whether the amount is meant to change the last question: nothing names another thing asked."""
    marks = g.scan.marks
    first = next((mark.text for mark in marks if mark.kind in ("word", "amount")), "")
    if marks and "fill" in marks[0].tags:
        return True
    plain = all(mark.kind != "word" or not mark.noun for mark in marks)
    return (first in _OPENING or plain or marks[0].kind == "amount") and not g.wanted()


def _asks_for_other_wax(g: Givens, last: Question) -> bool:
    """ "How much oil for 5 lb": only the load is lacking, and the last question had one."""
    loaded = isinstance(last, LoadQuestion) and last.load is not None and last.wax is not None
    asks = "asks" in g.scan.marks[0].tags and g.asked() == {"fragrance"} and not g.wanted()
    return loaded and asks and len(g.scan.masses("wax", "")) == 1


def _scaled(g: Givens, last: Question) -> Question | None:
    """ "Twice that", "half of it": the weights of the last question so many times."""
    texts = [mark.text for mark in g.scan.marks if mark.kind in ("word", "amount")]
    if not texts or any(mark.kind == "unit" or mark.noun for mark in g.scan.marks):
        return None
    factor = next((_FACTORS[text] for text in texts if text in _FACTORS), None)
    if factor is None or any(text not in _FACTORS and text not in _OF_THAT for text in texts):
        return None
    if isinstance(last, LoadQuestion | ConvertQuestion):
        return times(last, factor)
    fills = getattr(last, "fills", None)
    if isinstance(fills, Fills) and len(fills.items) == 1:
        count = fills.items[0].count * factor
        if count == int(count):
            changes: dict[str, Any] = {"fills": Fills((dataclasses.replace(fills.items[0], count=int(count)),))}
            return dataclasses.replace(last, **changes)
    return None


def _drops_weighed(g: Givens, last: Question) -> Question | None:
    """ "100 drops weigh 2.5 g" after a question of drops: their size was what it lacked."""
    if not isinstance(last, DropsQuestion) or last.weighed is not None or not g.scan.kind("drop"):
        return None
    made = question_of(g)
    if not isinstance(made, DropsQuestion) or made.weighed is None or made.drops is not None:
        return None
    return dataclasses.replace(last, counted=made.counted, weighed=made.weighed)


def _basis(g: Givens) -> Basis | None:
    total, wax = g.has("of_total"), g.has("of_wax")
    return None if total == wax else Basis.TOTAL if total else Basis.WAX
