"""Percents that are no load by the words beside them: a wax swapped for another, more of nobody knows what."""

from __future__ import annotations

from core.compounds import Parts
from core.reading.marks import Measured, Scan
from core.reading.share import HUNDRED
from core.reading.wordset import wordset
from core.units import Percent

_SWAP = wordset("replace replaced replacing swap swapped swapping substitute substituted exchange exchanged")


def swapped(scan: Scan, m: Measured) -> bool:
    """ "Replace 15 % of the soy with coconut", "10 % of it swapped for beeswax": a share of the wax, no load."""
    near = (*scan.marks[max(0, m.at - 2) : m.at], *scan.marks[m.at + 1 : m.at + 5])
    of = [mark.text for mark in scan.marks[m.at + 1 : m.at + 2]] == ["of"]
    return of and len(_wax_kinds(scan)) > 0 and any(mark.text in _SWAP for mark in near) and m.amount.value < HUNDRED


def part_of_wax(scan: Scan, m: Measured) -> Parts | None:
    """ "15 % of my wax is beeswax, the rest soy": shares of the wax."""
    after = scan.marks[m.at + 1 : m.at + 9]
    is_at = next((i for i, mark in enumerate(after) if mark.text in ("is", "are")), None)
    if after[:1] == [] or after[0].text != "of" or is_at is None or not any(x.noun == "wax" for x in after[:is_at]):
        return None
    named = after[is_at + 1 : is_at + 2]
    names = _wax_kinds(scan)
    if not named or named[0].text not in names or len(names) != 2 or not scan.says(("rest", "remaining", "other")):
        return None
    other = next(name for name in names if name != named[0].text)
    return Parts(((named[0].text, m.amount.value), (other, HUNDRED - m.amount.value)))


def _wax_kinds(scan: Scan) -> list[str]:
    """The kinds of wax named, each once, in order."""
    return list(dict.fromkeys(mark.text for mark in scan.marks if mark.noun == "wax" and mark.text not in _ANY_WAX))


_ANY_WAX = wordset("wax waxes wx wachs cire cera base blend")


def swap(scan: Scan, percent: Percent) -> Parts:
    names = _wax_kinds(scan)
    old, new = names if len(names) == 2 else ("the first wax", "the other wax")
    return Parts(((old, HUNDRED - percent.base), (new, percent.base)))


def more_of_what(scan: Scan, m: Measured) -> bool:
    """ "I want 10 % more. 500 g of wax at 6 %": so much more of the oil, of the batch, or points of load?"""
    before = [mark.text for mark in scan.marks[max(0, m.at - 4) : m.at]]
    if before[-1:] == ["by"] and scan.says(_CHANGED):
        return True  # "cut it by 20 %": of the oil, or points of the load?
    after = scan.marks[m.at + 1 : m.at + 3]
    closed = len(after) == 1 or (len(after) == 2 and (after[1].kind == "stop" or after[1].text in _CLOSING))
    others = [x for x in scan.kind("percent") if x is not m] or scan.masses("fragrance", "")
    return bool(after) and after[0].text in ("more", "less") and closed and bool(others)


_CLOSING = wordset(", . this now next and than please pls after")
_CHANGED = wordset(
    "cut reduce reduced reducing lower lowered drop dropped down raise raised increase increased up boost upped"
)
