"""Oils weighed for another pot: "the blend was 30 g rose + 20 g musk, keep it the same" tells their proportion."""

from __future__ import annotations

import itertools

from core.reading.marks import Measured, Scan
from core.reading.wordset import wordset

_SAME = wordset("same that this the keep")
_BLEND = wordset("blend mix ratio proportion proportions mixture balance")
_JOINS = wordset("+ and & plus , to with")


def take_blend(scan: Scan) -> None:
    """The weights of the oils become parts of a blend, where the words say that it is kept for another weight."""
    oils = [m for m in scan.masses("fragrance") if m.amount.high is None]
    others = [m for m in scan.masses() if m not in oils]
    if len(oils) < 2 or not others or not _kept(scan) or len({m.name for m in oils}) != len(oils):
        return
    units = {m.amount.unit for m in oils}
    if len(units) != 1 or not all(_joined(scan, one, two) for one, two in itertools.pairwise(oils)):
        return
    for m in oils:
        m.kind, m.value = "part", None


def _kept(scan: Scan) -> bool:
    """ "The same blend", "keep the mix", "in that proportion"."""
    for i, mark in enumerate(scan.marks):
        if mark.text in _BLEND:
            before = [x.text for x in scan.marks[max(0, i - 4) : i]]
            if (
                "same" in before
                or ("keep" in before and "the" in before)
                or before[-2:] in (["in", "that"], ["in", "this"])
            ):
                return True
    return False


def _joined(scan: Scan, one: Measured, two: Measured) -> bool:
    between = [mark for mark in scan.marks[one.at + 1 : two.at] if not mark.noun]
    return len(between) <= 3 and all(mark.text in _JOINS for mark in between)
