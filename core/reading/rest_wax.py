"""A mix told by its percents and "the rest wax": every percent is of the whole, and so is the weight."""

from __future__ import annotations

import dataclasses

from core.reading.marks import Scan
from core.reading.wordset import wordset

_REST = wordset("rest remainder balance")
_BE = wordset("is = : being be as will of it that")
_IN_A_MIX = ("fragrance", "load", "dye", "additive")
_OF_ALL = frozenset({"of_total"})


def take_rest(scan: Scan) -> None:
    """ "9 % fragrance, the rest wax, 400 g": the 400 g are of all of it, unless the words name them otherwise."""
    percents = scan.kind("percent")
    if not percents:
        return
    at = _rest_is_wax(scan)
    if at is None or not any(m.of in ("fragrance", "load") for m in percents):
        return
    if any(m.of not in _IN_A_MIX for m in percents) or len(scan.masses()) > 1:
        return  # "15 % of the wax is beeswax, the rest soy, 8 % oil" tells of the wax
    if not scan.has("of_wax"):
        scan.marks[at] = dataclasses.replace(scan.marks[at], tags=scan.marks[at].tags | _OF_ALL)
        scan.tags |= _OF_ALL
    for m in scan.masses("wax", ""):
        if m.of == "" or (m.side == "left" and at < m.at):
            m.of, m.name = "total", ""


def _rest_is_wax(scan: Scan) -> int | None:
    """The place of "rest" in "the rest is wax", "rest wax"; None for "the rest of the wax" and where there is none."""
    for i, mark in enumerate(scan.marks):
        if mark.text not in _REST:
            continue
        j = i + 1
        while j < len(scan.marks) and (scan.marks[j].text in _BE or scan.marks[j].kind == "sign"):
            j += 1
        of_it = [x.text for x in scan.marks[i + 1 : j]]
        if j < len(scan.marks) and "wax_itself" in scan.marks[j].tags and of_it[-1:] != ["of"]:
            return i
    return None
