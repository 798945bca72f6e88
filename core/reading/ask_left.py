"""Texts about what stays in the pot once so many were poured: of a mix, and the oil that is in the rest."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer
from core.compounds import Masses
from core.question import Question
from core.questions.fills import FillIs
from core.questions.load import LoadQuestion
from core.questions.stock import StockQuestion
from core.reading import asking
from core.reading.counts import counted
from core.reading.givens import Givens
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.reading.workings import Working, added, difference, product

Outcome = Question | Answer | None

_STAYED = wordset("stayed stays remained remains left leftover over")
_ASKED = wordset("whats what's what")


def left_of_mix(g: Givens) -> Outcome:
    """ "1.15 kg of wax and 100 g of oil gave ten tins of 118 g: how much stayed in the pot?"""
    pairs, _, _ = counted(g)
    pairs = [(n, m) for n, m in pairs if m.kind == "mass" and m.of not in ("fragrance", "bottle", "pack")]
    if len(pairs) != 1 or not _asks_rest(g) or g.asks_packs or g.scan.kind("money") or g.scan.workings:
        return None
    count, each = pairs[0]
    rest = [m for m in g.scan.masses() if m is not each]
    kinds = sorted(m.of for m in rest)
    loads = g.shares.loads
    workings: list[Working] = []
    if kinds == ["fragrance", "wax"] and not loads:
        whole, working = added("wax and oil", *(mass_of(m) for m in rest))
        workings.append(working)
    elif kinds in (["total"], ["wax"], [""]) and (loads or kinds == ["total"]) and len(loads) < 2:
        if kinds != ["total"]:
            return None  # the wax alone, or with its oil?
        whole = mass_of(rest[0])
    else:
        return None
    used, working = product(f"the {count} poured", Decimal(count), mass_of(each))
    if used.base > whole.base:
        return asking.which_weight([*rest, each])
    g.used.update(m.at for m in g.scan.found)
    if not loads:
        g.scan.workings.extend(workings)
        return StockQuestion(wax=Masses.one(whole), each=mass_of(each), fill_is=FillIs.FINISHED, count=count)
    left, gone = difference("what is left", whole, used)
    made = LoadQuestion(total=left, load=loads[0], unit=g.wanted_mass())
    if loads[0].basis is None:
        return asking.basis(made)
    g.scan.workings.extend((*workings, working, gone))
    return made


def _asks_rest(g: Givens) -> bool:
    """ "What's left over", "how much stayed in the pot"; not "I have 2 kg left"."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if mark.text in _ASKED or mark.text == "how much":
            for after in marks[i + 1 : i + 5]:
                if after.kind in ("stop", "amount"):
                    break
                if after.text in _STAYED or "left_over" in after.tags:
                    return True
            if "left_over" in mark.tags:
                return True
    return False
