"""Texts about the label of several things sold as one: "a clamshell of 6 cubes, 12 g each"."""

from __future__ import annotations

from core.answer import Answer
from core.question import Question
from core.questions.label import LabelQuestion
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.reading.workings import product

Outcome = Question | Answer | None

_SOLD_AS_ONE = wordset("clamshell clamshells bar snapbar tray blister sleeve pouch bag box pack packet set sachet")
_HOLDING = wordset("of with has holds contains containing")
_WRAPPING = wordset("plastic shell clamshell tray blister sleeve pouch bag foil film wrapper packaging box empty")
_REACH = 4  # how many words may part the count from the weight of each


def set_label(g: Givens) -> Outcome:
    """So many times one of them is the net weight; what they are wrapped in is none of it."""
    if not g.asks_net or g.shares.loads or g.scan.kind("volume"):
        return None
    each = [m for m in g.scan.masses() if m["each"] and m.of in ("candle", "wax", "")]
    counts = [m for m in g.scan.kind("number") if m.amount.value > 1]
    others = [m for m in g.scan.masses() if m not in each]
    if len(each) != 1 or len(counts) != 1 or not 0 < each[0].at - counts[0].at <= _REACH:
        return None
    count, one = counts[0], each[0]
    sold = [mark.text for mark in g.scan.marks[max(0, count.at - 2) : count.at]]
    if len(sold) < 2 or sold[0] not in _SOLD_AS_ONE or sold[1] not in _HOLDING:
        return None
    if count.amount.value != int(count.amount.value) or not all(_wraps(g, m) for m in others):
        return None
    net, working = product("net of all", count.amount.value, mass_of(one))
    g.scan.workings.append(working)
    g.used.update(m.at for m in (count, one, *others))
    return LabelQuestion(net=net)


def _wraps(g: Givens, m: Measured) -> bool:
    """ "Plastic 9 g", "the empty tray weighs 9 g"."""
    before = [mark.text for mark in g.scan.around(m, 4, 0)[0]]
    return m.of in ("box", "label", "lid") or any(word in _WRAPPING for word in before)
