"""Another amount of the same: "30 g in, then another 15", "plus a 10 gram one", "plus half a pound of new"."""

from __future__ import annotations

from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import after_sum, give_unit, mass_of
from core.reading.wordset import wordset
from core.reading.workings import added

_JOINS = wordset("plus + and & then also")
_DID = wordset("put added poured dumped then so another")
_TOO_WEAK = wordset("weak faint light")
_SAME_AGAIN = wordset("one new old more again other")


def take_joined(scan: Scan) -> None:
    """The later amount is of what the earlier one is of; where nobody says of what, the two become one."""
    for m in [x for x in scan.found if x.kind in ("mass", "number") and x.at]:
        before = [x for x in scan.masses() if x.at < m.at and x.amount.high is None]
        if not before:
            continue
        first = before[-1]
        if m.kind == "number":
            _another(scan, first, m)
        elif (poured := _poured_before(scan, before, m)) is not None:
            _add(scan, poured, m, "fragrance")
        elif m.of in ("", first.of) and m.side != "right" and _again(scan, first, m) and first.of:
            if first.of == "bottle":
                _add(scan, first, m, "fragrance")
            else:
                m.of = first.of
        elif _both_bare(scan, first, m):
            _add(scan, first, m, first.of)
        elif of := _of_the_same(scan, first, m):
            _add(scan, first, m, of)


def _poured_before(scan: Scan, before: list[Measured], m: Measured) -> Measured | None:
    """ "Put 20 g in 400 g wax, smelled weak, so 8 g more": what was poured in first."""
    _, after = _beside(scan.marks, m)
    told = scan.has("already") or scan.says(_TOO_WEAK)
    if after is None or after.text != "more" or m.of not in ("", "fragrance") or not told:
        return None
    if not any(mark.text in _DID for mark in scan.marks[max(0, m.at - 6) : m.at]):
        return None  # "is 8 g more enough?" asks, it doesn't tell
    oils = [x for x in before if x.of == "fragrance" or (x.of == "" and not x["step"])]
    return oils[0] if len(oils) == 1 and len(before) <= 2 else None


def _another(scan: Scan, first: Measured, m: Measured) -> None:
    """ "So another 15": a number in the unit of the weight before it."""
    before, after = _beside(scan.marks, m)
    if m.amount.unit or before != "another" or first.of not in ("", "fragrance", "wax"):
        return
    if after is not None and (after.noun or (after.kind == "word" and after.text.endswith("s"))):
        return
    give_unit(m, first.amount.unit)
    _add(scan, first, m, first.of or "fragrance" if scan.has("already") else first.of)


def _again(scan: Scan, first: Measured, m: Measured) -> bool:
    """Joined by "plus", and told to be another one: "half a pound of new", "a 10 gram one"."""
    before, after = _beside(scan.marks, m)
    joined = any(mark.text in _JOINS for mark in scan.marks[first.at + 1 : m.at])
    beyond = scan.marks[m.at + 2].text if m.at + 2 < len(scan.marks) else ""
    word = beyond if after is not None and after.text in ("of", "the") else after.text if after is not None else ""
    return (joined and word in _SAME_AGAIN) or before == "another"


def _both_bare(scan: Scan, first: Measured, m: Measured) -> bool:
    """ "600 g plus 300 g": nothing stands between but the plus."""
    return (
        m.at - first.at == 2
        and scan.marks[first.at + 1].text in ("plus", "+")
        and first.of == ""
        and m.of in ("", "wax")
    )


def _of_the_same(scan: Scan, first: Measured, m: Measured) -> str:
    """ "38 g and 55 g of the same scent": what both are of; "" where they are not of the same."""
    joined = m.at - first.at == 2 and scan.marks[first.at + 1].text in ("and", "&", "+", "n")
    _, behind = scan.around(m, 0, 4)
    same = [mark.text for mark in behind[:3]] == ["of", "the", "same"]
    noun = behind[3].noun if joined and same and len(behind) == 4 else ""
    return noun if noun in ("wax", "fragrance") and first.of in ("", noun, "bottle", "pack") else ""


def _beside(marks: list[Mark], m: Measured) -> tuple[str, Mark | None]:
    i = m.at - 1
    while i > 0 and marks[i].text in ("a", "the"):
        i -= 1
    return marks[i].text, marks[m.at + 1] if m.at + 1 < len(marks) else None


def _add(scan: Scan, first: Measured, m: Measured, of: str) -> None:
    total, working = added("both together", mass_of(first), mass_of(m))
    of = of or m.of
    scan.put(first, after_sum(first, total, of=of, name=first.name or of))
    scan.workings.append(working)
    scan.blank(m.at, m.at + 1)
    for two in [x for x in scan.kind("number") if x.amount.value == 2 and x.at < first.at]:
        if two.of in ("", "bottle", "pack", "pot"):
            scan.blank(two.at, two.at + 1)  # "two bottles, 38 g and 55 g": both have been told
