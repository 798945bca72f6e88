"""Vessels weighed along: which weight is full, which is empty, and the words that tell."""

from __future__ import annotations

import dataclasses

from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass

_VESSELS = wordset("pot jar bottle measure candle box pack")
_CONTENTS = wordset("wax fragrance water total")
_WITH = wordset("with plus and n incl including full filled & + in")


def weighed_along(scan: Scan) -> tuple[Measured, Measured] | None:
    """The weighing with the vessel full and the one of it empty, if both are there."""
    masses = [m for m in scan.found if m.kind == "mass"]
    if len(masses) < 2:
        masses += [m for m in scan.kind("number") if _may_be_weight(m)]
        unit = next((m.amount.unit for m in masses if m.kind == "mass"), "")
        if not unit or len(masses) != 2:
            return None
        masses = [m if m.kind == "mass" else _in_unit(m, unit) for m in masses]
    told_empty = _told(scan, masses, "empty")
    empties = [
        m
        for m in masses
        if (m.of in ("pot", "jar", "bottle", "measure") and m not in _told(scan, masses, "full")) or m in told_empty
        if m in told_empty or not _is_size(m)
        if m in told_empty or not gross(scan, m)
    ]
    fulls = [m for m in masses if m not in empties and (gross(scan, m) or m in _told(scan, masses, "full"))]
    told = [m for m in empties if m in told_empty]
    if len(masses) == 2 and len(told) == 1 and not fulls and scan.has("jar", "pot"):
        rest = next(m for m in masses if m is not told[0])
        if rest.of in ("jar", "pot", "lid") and scan.has("net"):
            empties, fulls = told, [rest]  # "empty jar 310 g, poured jar without lid 525 g"
    if not empties and not fulls and len(masses) == 2 and _went_up(scan, masses[0], masses[1]):
        return masses[1], masses[0]
    if len(empties) != 1 or len(fulls) != 1 or mass_of(fulls[0]).base <= mass_of(empties[0]).base:
        return None
    return fulls[0], empties[0]


def _is_size(m: Measured) -> bool:
    """ "The whole 100 g bottle": what it holds, not what it weighs."""
    return m.of == "bottle" and m.side == "right" and not m["full"]


_AT_ZERO = wordset("tared zeroed")
_NOT_DONE = wordset("forgot forget not never didnt didn't wasnt wasn't without no havent haven't hasnt hasn't before")


def zeroed_first(scan: Scan) -> bool:
    """ "I tared the pot", "zeroed the jug first": the scale shows what is in it alone; not "forgot to tare"."""
    marks = scan.marks
    for i, mark in enumerate(marks):
        if mark.text in _AT_ZERO and not any(x.text in _NOT_DONE for x in marks[max(0, i - 4) : i]):
            return True
    return False


def _told(scan: Scan, masses: list[Measured], tag: str) -> list[Measured]:
    """The weights told to be empty or full: by a word before them in their part of the sentence, else after, else by
    the nearest."""
    if said := [m for m in masses if any(tag in mark.tags for mark in _own_words_before(scan, m))]:
        return said
    if said := [m for m in masses if any(tag in mark.tags for mark in _words_after(scan, m))]:
        return said
    return [m for m in masses if m[tag]]


def _own_words_before(scan: Scan, m: Measured) -> list[Mark]:
    """The words before the amount, without one that trails the amount before: "75 g empty, 121 g", "75 g empty 121 g";
    but in "full 421 g empty 240 g" each word leads."""
    words = words_before(scan, m)
    at = m.at - len(words) - 1
    last = scan.marks[at].measured if words and at >= 0 else None
    trails = last is not None and last.kind == "mass"
    if trails and last is not None and not any(mark.tags & {"empty", "full"} for mark in words_before(scan, last)):
        return words[1:]
    return words


def _went_up(scan: Scan, first: Measured, second: Measured) -> bool:
    """ "It went from 102.3 g to 126.0 g"."""
    marks = scan.marks
    rises = mass_of(second).base > mass_of(first).base and second.at - first.at <= 3
    return rises and first.at > 0 and marks[first.at - 1].text == "from" and marks[second.at - 1].text != "and"


def gross(scan: Scan, m: Measured) -> bool:
    """Whether the amount is of a vessel with something in it: "pot and wax", "with wax in", "full"."""
    after = scan.marks[m.at + 1] if m.at + 1 < len(scan.marks) else None
    if (m["full"] and not m["empty"]) or (after is not None and after.text == "with" and m.of == ""):
        return True
    near = words_around(scan, m)
    nouns = {mark.noun for mark in near if mark.noun}
    words = {mark.text for mark in near}
    if words.isdisjoint(_WITH):
        return False
    if "candle" in nouns and nouns & {"jar", "pot"}:
        return True
    if "with" in words and nouns & {"pot", "jar", "bottle"}:
        return True
    return bool(nouns & _CONTENTS) and (m.of in _VESSELS or bool(nouns & _VESSELS) or "with" in words)


def words_before(scan: Scan, m: Measured) -> list[Mark]:
    """The words before the amount that belong to it, up to another amount or a comma."""
    marks, out = scan.marks, []
    i = m.at - 1
    while i >= 0 and marks[i].kind not in ("amount", "stop") and marks[i].text not in (",", "."):
        out.append(marks[i])
        i -= 1
        while i >= 0 and (measured := marks[i].measured) is not None and measured.kind != "mass":
            i -= 1
    out.reverse()
    return out


def words_around(scan: Scan, m: Measured) -> list[Mark]:
    """The words that belong to the amount: those before it up to another amount or a comma, and right after it."""
    return [*words_before(scan, m), *_words_after(scan, m)]


def _words_after(scan: Scan, m: Measured) -> list[Mark]:
    marks, out = scan.marks, list[Mark]()
    i = m.at + 1 if m.side != "left" else len(marks)
    own = m.name.split()[-1:] if m.side == "right" else []
    while i < len(marks) and marks[i].kind not in ("amount", "stop") and marks[i].text not in (",", "and", "."):
        out.append(marks[i])
        i = len(marks) if [marks[i].text] == own else i + 1
    return out


def _in_unit(m: Measured, unit: str) -> Measured:
    return dataclasses.replace(m, kind="mass", value=Mass.of(m.amount.value, unit), flags=set(m.flags))


def _may_be_weight(m: Measured) -> bool:
    """A bare number that may share the unit of the weight beside it; but "7 jars" counts them."""
    counts = m.side == "right" and m.name.endswith("s") and not m.name.endswith("ss")
    return (m.of in ("pot", "jar", "bottle") and not counts) or (m.of in ("wax", "") and m.amount.value > 20)


def taken_out(scan: Scan) -> tuple[Measured, Measured] | None:
    """ "Tared with the spoon in, the spoon is 30 g, took it out, filled till it says 400 g": the reading and the thing
    that stood on the scale at zero and is off it now; what is there is heavier than the reading by it."""
    marks = scan.marks
    zeroed = next((i for i, mark in enumerate(marks) if mark.text in _ZEROED), -1)
    masses = [m for m in scan.found if m.kind == "mass"]
    if zeroed < 0 or len(masses) != 2 or any(mark.text in _FAILED for mark in marks[max(0, zeroed - 2) : zeroed]):
        return None
    on_it = {mark.text for mark in marks[zeroed + 1 : zeroed + 8] if mark.kind == "word"} - _NO_THINGS
    thing = next((m for m in masses if on_it & {mark.text for mark in words_before(scan, m)[-3:]}), None)
    if thing is None or not _is_off(scan, zeroed, thing):
        return None
    reading = next(m for m in masses if m is not thing)
    return (reading, thing) if any(mark.text in _READS for mark in marks[max(0, reading.at - 3) : reading.at]) else None


def _is_off(scan: Scan, zeroed: int, thing: Measured) -> bool:
    """Whether the thing was taken away after the scale was zeroed."""
    marks = scan.marks
    for i in range(zeroed + 1, len(marks)):
        if marks[i].text in _REMOVED:
            return True
        ahead = [mark.text for mark in marks[i + 1 : i + 5]]
        away = next((k for k, text in enumerate(ahead) if text in _AWAY), -1)
        if marks[i].text in _TAKING and away >= 0:
            between = set(ahead[:away]) - {"the", "my", "again"}
            return between <= {"it", "that", *thing.name.split(), *thing.subject.split()}
    return False


_NO_THINGS = wordset("the a my it with in on was is and still scale then i when by at of weighs took take its it's")
_ZEROED = wordset("tared zeroed tare zero")
_FAILED = wordset("forgot forgotten not without didnt didn't never")
_REMOVED = wordset("removed")
_TAKING = wordset("took take taken lifted pulled fished")
_AWAY = wordset("out off away")
_READS = wordset("says said shows showed show reads read display displays till until to")


def is_wanted(scan: Scan, m: Measured) -> bool:
    """ "I wanted 80 g", "it should be 80 g"."""
    before = [mark.text for mark in scan.marks[max(0, m.at - 4) : m.at] if mark.kind != "amount"]
    return bool(m.flags & {"want", "meant"}) or any(word in _WISHED for word in before)


_WISHED = wordset("wanted need needed want should supposed aim aimed")
