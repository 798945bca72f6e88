"""Texts about a pot that has too much or too little in it, or gets more wax: the question rescue."""

from __future__ import annotations

import itertools

from core.answer import Answer
from core.compounds import Basis, Load, Masses
from core.mixing import Mix, Recipe
from core.question import Question
from core.questions.cautions import too_much
from core.questions.load import LoadQuestion
from core.questions.rescue import RescueQuestion
from core.reading import asking
from core.reading.ask_mix import doubtful_ounces, which_ounces
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.weights import weights
from core.reading.wordset import wordset

Outcome = Question | Answer | None


def rescue(g: Givens) -> Outcome:
    """Too much or too little is in the pot already."""
    if _two_recipes(g) or _only_checks(g) or _pots_of_their_own(g):
        return None
    if (asked_leave := _asks_leave(g)) is not None:
        return asked_leave
    if (kept := _more_wax(g)) is not None:
        return kept
    if len(g.shares.loads) > 2 and _asks_more(g):
        return asking.which_percent(g.scan.kind("percent"))
    found = weights(g)
    given = g.shares.load
    if given is None and not g.shares.loads and g.shares.limit is not None:
        given = Load(g.shares.limit)  # "the most is 8 %": what is wanted is the limit
    if len(g.shares.loads) == 2 and found.fragrance is None and not found.unclear:
        if any(g.scan.marks[m.at - 1].text in _MORE for m in g.scan.kind("percent") if m.at):
            return asking.which_percent(g.scan.kind("percent"))  # "add 2 %": to it, or of what is there?
        g.used.update(m.at for m in g.scan.kind("percent"))
        now, given = _now_and_wanted(g)  # "10 % by accident, I want 7 %"
        if found.total is not None and found.wax is None:
            mix = Recipe(now.percent, now.basis or Basis.WAX).of_total(found.total)
            g.used.update(m.at for m in g.scan.masses())
            found.wax, found.fragrance = Masses.one(mix.wax), mix.fragrance
        elif found.wax is not None and _is_mix(g):
            mix = Recipe(now.percent, now.basis or Basis.WAX).of_total(found.wax.total)
            g.used.update(m.at for m in g.scan.masses())
            found.wax, found.fragrance = Masses.one(mix.wax), mix.fragrance
        elif found.wax is not None:
            found.fragrance = found.wax.total * now.percent.fraction
    if (
        found.wax is not None
        and found.fragrance is None
        and len(g.shares.loads) == 1
        and not found.unclear
        and (most := _weaker(g)) is not None
    ):
        g.used.update(m.at for m in g.scan.kind("percent"))
        found.fragrance, given = found.wax.total * g.shares.loads[0].percent.fraction, most
    if found.unclear or found.wax is None or found.fragrance is None or given is None:
        return None
    if (doubtful := doubtful_ounces(g)) is not None:
        return which_ounces(g, doubtful, LoadQuestion(wax=found.wax, fragrance=found.fragrance, load=given))
    if found.fragrance.base >= found.wax.total.base:
        return None
    return RescueQuestion(
        wax=found.wax, fragrance=found.fragrance, load=given, strength=g.shares.strength, limit=g.shares.limit
    )


def _asks_leave(g: Givens) -> LoadQuestion | None:
    """ "They say put 130 g in 400 g, should I": nothing is in the pot yet, and that is more than wax ever takes."""
    words = [mark.text for mark in g.scan.marks]
    asks = any(pair in _LEAVE for pair in itertools.pairwise(words))
    found = weights(g)
    if not asks or found.unclear or found.wax is None or found.fragrance is None or found.total is not None:
        return None
    load = Mix(found.wax.total, found.fragrance).load_of_wax
    if not too_much(load):
        return None
    g.used.update(m.at for m in g.scan.kind("percent"))  # "at 10 % it smells of nothing": as it was
    return LoadQuestion(wax=found.wax, fragrance=found.fragrance)


_LEAVE = frozenset((one, "i") for one in ("should", "can", "may", "could", "shall"))


def _weaker(g: Givens) -> Load | None:
    """ "I put 10 % in 600 g of wax, the most is 8 %: how much plain wax to bring it down?": the limit is wanted."""
    given, limit = g.shares.loads[0], g.shares.limit
    if limit is None or limit.base >= given.percent.base or given.basis is Basis.TOTAL:
        return None
    return Load(limit) if _asks_wax_on_top(g) else None


def _asks_wax_on_top(g: Givens) -> bool:
    """ "How much plain wax", "how much more wax", "what wax must I add"."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        ahead = marks[i + 1 : i + 4] if "asks" in mark.tags else []
        if ahead and ahead[0].text in _MORE_WAX and any(x.noun == "wax" for x in ahead[1:]):
            return True
    return False


_MORE = wordset("add adding another extra")
_MORE_WAX = wordset("more another extra fresh plain unscented new additional add adding added plus")


def _more_wax(g: Givens) -> RescueQuestion | None:
    """ "500 g of wax at 6 %, now 250 g more: how much more oil so that it stays 6 %?": the first has its oil."""
    waxes, loads = g.scan.masses("wax", ""), g.shares.loads
    if len(waxes) != 2 or len(g.scan.masses()) != 2 or len(loads) not in (1, 2):
        return None
    first, second = waxes
    near = (*g.scan.marks[max(0, second.at - 2) : second.at], *g.scan.marks[second.at + 1 : second.at + 3])
    percents = [m for m in g.scan.kind("percent") if m.amount.value == loads[0].percent.base]
    told = any(first.at < m.at < second.at or m.at < first.at for m in percents)
    if first.of != "wax" or not told or not any(mark.text in _MORE_WAX for mark in near) or not _asks_more(g):
        return None
    if not (g.scan.says(_KEEPS) or len(loads) == 2 or len(g.scan.kind("percent")) == 2):
        return None
    pot = Recipe(loads[0].percent, loads[0].basis or Basis.WAX).of_wax(mass_of(first))
    g.used.update(m.at for m in g.scan.found)
    waxes_now = Masses((("", pot.wax), ("added", mass_of(second))))
    return RescueQuestion(wax=waxes_now, fragrance=pot.fragrance, load=loads[-1], limit=g.shares.limit)


def _asks_more(g: Givens) -> bool:
    """ "How much more oil", "how much oil to add", "how much extra": only what is lacking is asked for."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if "asks" in mark.tags:
            for after in marks[i + 1 : i + 6]:
                if after.kind in ("amount", "stop"):
                    break
                if after.text in ("more", "extra", "add", "another"):
                    return True
    return False


_KEEPS = wordset("stay stays keep keeps kept same still again remain remains staying keeping")
_MIXED = wordset("premixed premix prescented remelt remelted")


def _is_mix(g: Givens) -> bool:
    """ "Premixed wax with 3 % in, I have 1030 g of it": the weight has the oil in it."""
    if g.scan.says(_MIXED) or g.scan.says(("pre",)):
        return True
    plain = any(m.of == "wax" and m.sure and m.side == "right" for m in g.scan.masses())  # "1.5 kg wax a batch"
    return not plain and any(head == "total" for _, head in g.scan.heads)


def _now_and_wanted(g: Givens) -> tuple[Load, Load]:
    """The load that is in the pot and the one that is wanted: the first and the second, unless the words turn them."""
    first, second = g.shares.loads
    percents = {m.amount.value: m for m in g.scan.kind("percent")}
    one, other = percents.get(first.percent.base), percents.get(second.percent.base)
    if one is None or other is None or _was(g, one) or _said_now(g, other):
        return first, second
    turned = (one["want"] and not other["want"]) or _was(g, other)
    return (second, first) if turned else (first, second)


def _was(g: Givens, m: Measured) -> bool:
    """ "Was 6 %", "from 6 %": what it had before."""
    return bool(m.at) and g.scan.marks[m.at - 1].text in ("was", "from", "had")


def _said_now(g: Givens, m: Measured) -> bool:
    return bool(m.at) and g.scan.marks[m.at - 1].text in ("now", "to")


def _only_checks(g: Givens) -> bool:
    """ "Is 50 g too much for 900 g of wax when I want 5 %?": nothing is in a pot yet that could be mended."""
    first = next((mark.text for mark in g.scan.marks if mark.text not in _OPENERS), "")
    return first in _CHECKS and not g.has("already", "top_up", "add") and len(g.scan.kind("percent")) == 1


def _pots_of_their_own(g: Givens) -> bool:
    """ "Bottom 150 g of wax with 6 %, top 100 g with 10 %": two pots, each with its own load, unless more is asked."""
    percents = [m for m in g.scan.kind("percent") if not m["limit"]]
    waxes = g.scan.masses("wax", "")
    if len(percents) != 2 or len(waxes) != 2 or len(g.scan.masses()) != 2 or _asks_more(g):
        return False
    order = [m.kind for m in sorted((*percents, *waxes), key=lambda m: m.at)]
    return order in (["mass", "percent"] * 2, ["percent", "mass"] * 2)


_OPENERS = wordset("so hi hey hello and pls please ok um well")
_CHECKS = wordset("is are will would isnt isn't would wouldnt")


def _two_recipes(g: Givens) -> bool:
    """ "I put 80 g to 920 g of wax, my friend 80 g to 1000 g": two pots, of which neither is to be changed."""
    order = [m.of for m in g.scan.masses("wax", "fragrance")]
    return order in (["fragrance", "wax"] * 2, ["wax", "fragrance"] * 2)
