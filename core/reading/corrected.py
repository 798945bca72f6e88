"""What somebody takes back: "2 lb, no wait, 3 lb", "3 kilos.. sorry, meant pounds", "forget the dye"."""

from __future__ import annotations

import dataclasses

from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import give_unit
from core.reading.wordset import wordset

_TAKES_BACK = wordset("no nope sorry wait oops actually correction rather scratch typo")
_MEANS = wordset("mean meant")
_SMALL = wordset(
    "i that make it its it's is was to say said the a oh ugh hmm haha lol oops dear me hang on hold just second sec",
    "like , . - ! ? : of course should be have i'm im not",
)
# "No more than 10 %", "no dye": these are about what comes next, not about what was said.
_GOES_ON = wordset("more less need idea matter dye problem longer other way")
_FORGET = wordset("forget scrap ignore skip drop")
_FILLERS = wordset("the that about my a")
MOST_BETWEEN = 9


def take_back(scan: Scan) -> None:
    """Put what was said last in the place of what it corrects. Before anything is told of the amounts."""
    i = 0
    while i < len(scan.marks):
        mark = scan.marks[i]
        if mark.kind == "word" and mark.text in _TAKES_BACK | _MEANS:
            end = _end_of_run(scan, i)
            if _is_correction(scan, i, end) and (_amount_again(scan, i, end) or _unit_again(scan, i, end)):
                i = end
        i += 1


def take_forgotten(scan: Scan) -> None:
    """ "With a 5 g dye chip? No, forget the dye": the dye is left out."""
    for i, mark in enumerate(scan.marks):
        if mark.text not in _FORGET:
            continue
        j = i + 1
        while j < len(scan.marks) and scan.marks[j].text in _FILLERS:
            j += 1
        noun = scan.marks[j].noun if j < len(scan.marks) and j > i + 1 else ""
        if noun in ("dye", "additive", "lid", "box", "wick"):
            for m in [m for m in scan.found if m.of == noun]:
                scan.blank(m.at, m.at + 1)
            scan.blank(i, j + 1)


def take_instead(scan: Scan) -> None:
    """ "Put 60 g of oil instead of 40 g": what was meant is not in the pot."""
    for i, mark in enumerate(scan.marks):
        if mark.text != "instead" or i + 1 >= len(scan.marks) or scan.marks[i + 1].text != "of":
            continue
        before, j = [m for m in scan.found if m.at < i], i + 2
        while j < len(scan.marks) and scan.marks[j].text in _FILLERS:
            j += 1
        meant = scan.marks[j].measured if j < len(scan.marks) else None
        said = before[-1] if before else None
        if meant is None or said is None or not meant.kind == said.kind == "mass" or i - said.at > MOST_BETWEEN:
            continue
        put = any(x.tags & {"already", "wrong"} for x in scan.marks[:i])
        if put and said.of == "fragrance" and meant.of in ("fragrance", ""):
            scan.blank(j, j + 1)
            return


def _end_of_run(scan: Scan, i: int) -> int:
    """The first mark after the words of the correction."""
    while i < len(scan.marks) and (
        scan.marks[i].text in _TAKES_BACK | _MEANS | _SMALL
        or (scan.marks[i].kind == "stop" and scan.marks[i].text != "\n")
    ):
        i += 1
    return i


def _is_correction(scan: Scan, first: int, end: int) -> bool:
    """ "I meant 40 g but poured 60" tells two things that are both so: only "sorry", "no" and the like take back."""
    said = [mark.text for mark in scan.marks[first:end]]
    if end - first > MOST_BETWEEN or (end < len(scan.marks) and scan.marks[end].text in _GOES_ON):
        return False
    strong = any(word in _TAKES_BACK for word in said)
    if "meant" in said and scan.has("already"):
        return False
    before = scan.marks[first - 1].text if first else ""
    i_mean = "mean" in said and (before == "i" or "i" in said)
    return strong or i_mean


def _amount_again(scan: Scan, first: int, end: int) -> bool:
    """The amount after the words stands for the last one of its kind before them."""
    fresh = scan.marks[end].measured if end < len(scan.marks) else None
    if fresh is None:
        return False
    before = [m for m in scan.found if m.at < first]
    bare = fresh.kind == "number" and not fresh.amount.unit
    last = before[-1] if before else None
    if last is not None and bare and last.kind in ("mass", "volume", "percent", "number") and last.amount.unit:
        if _noun_after(scan, fresh) in ("jar", "candle", "pack"):
            return False
        give_unit(fresh, last.amount.unit)
        old: Measured | None = last
    else:
        old = next((m for m in reversed(before) if m.kind == fresh.kind), None)
    if old is None or first - old.at > MOST_BETWEEN or _another_thing(scan, old, fresh):
        return False
    start = first - 1 if first and scan.marks[first - 1].text in ("i", ",", ".") else first
    new = dataclasses.replace(fresh, at=old.at, flags=set(fresh.flags))
    scan.put(old, new)
    scan.blank(max(start, old.at + 1), end + 1)
    return True


def _another_thing(scan: Scan, old: Measured, fresh: Measured) -> bool:
    """ "500 g wax, no 5 g dye": the two are of different things."""
    one, other = _noun_after(scan, old), _noun_after(scan, fresh)
    return bool(one and other and one != other)


def _noun_after(scan: Scan, m: Measured) -> str:
    _, behind = scan.around(m, 0, 3)
    return next((mark.noun for mark in behind if mark.noun), "")


def _unit_again(scan: Scan, first: int, end: int) -> bool:
    """ "Sorry, meant pounds not kilos", "kg i mean": the last weight is in that unit."""
    after = scan.marks[end] if end < len(scan.marks) else None
    before = first - 1
    if before >= 0 and scan.marks[before].text == "i":
        before -= 1
    if after is not None and after.kind == "unit":
        unit, blank_from, blank_to = after.unit, first, end + 1
        if end + 2 < len(scan.marks) and scan.marks[end + 1].text == "not" and scan.marks[end + 2].kind == "unit":
            blank_to = end + 3
    elif before > 0 and scan.marks[before].kind == "unit" and _stands_alone(scan.marks, before):
        unit, blank_from, blank_to = scan.marks[before].unit, before, end
    else:
        return False
    masses = [m for m in scan.found if m.at < blank_from and m.kind == "mass"]
    if not masses or unit not in ("g", "kg", "oz", "lb"):
        return False
    give_unit(masses[-1], unit)
    scan.blank(blank_from, min(blank_to, len(scan.marks)))
    return True


def _stands_alone(marks: list[Mark], i: int) -> bool:
    return marks[i - 1].kind == "stop" or marks[i - 1].text in (",", ".", "-")
