"""A mix told by its percents and "the rest wax": every percent is of the whole, and so is the weight."""

from __future__ import annotations

import dataclasses

from core.reading.marks import Scan
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.reading.workings import difference

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


def take_rest_of_waxes(scan: Scan) -> None:
    """ "150 g of soy, the rest coconut to make it 1 kg wax": the 150 g are in the kilo, and so is the rest."""
    waxes = scan.masses("wax")
    if len(waxes) != 2 or len(scan.masses()) != 2 or any(m.amount.high is not None for m in waxes):
        return
    some, whole = waxes
    marks = scan.marks
    for i, mark in enumerate(marks[:-1]):
        j = i + 2 if marks[i + 1].text in ("is", "will", "=") else i + 1
        if mark.text not in _REST or not some.at < i < j < whole.at or marks[j].noun != "wax":
            continue
        if marks[j].text in ("wax", some.name) or mass_of(whole).base <= mass_of(some).base:
            continue
        if not (whole.flags & {"makes", "together"} or any(x.text in _MAKE for x in marks[j + 1 : whole.at])):
            continue
        scan.workings.append(difference(marks[j].text, mass_of(whole), mass_of(some))[1])
        scan.blank(some.at, j + 1)
        return


_MAKE = wordset("make makes making to until till for up")


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
