"""What is left of something after some was used, and the part of it that is meant: one weight instead of several."""

from __future__ import annotations

from decimal import Decimal
from itertools import pairwise

from core.answer import line
from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import after_sum, mass_of
from core.reading.wordset import wordset
from core.reading.workings import Working, difference, part
from core.units import Mass

_POURED_FROM, _POURED_TO = wordset("before from was went full had started"), wordset("after afterwards now to")
_BEFORE, _AFTER = wordset("before without"), wordset("after afterwards with then")
_KEPT_BACK = wordset("keep kept hold set put leave save saved")
_LOST = wordset("lost spilled spilt knocked dropped scooped took removed")
_USED = wordset(
    "used spilled spilt gone sold gave given promised wasted burned took taken ate lost lent reserved stuck"
)
_MINUS = wordset("minus less")
_REST = wordset("rest remaining remainder whatever")
_IS = wordset("is are whats what's thats that's was s all")
_BE = wordset("are is were")
_ONLY = wordset("only just")
_TAKING = wordset("use using take taking need needed want melt melting melted pour pouring pours fill filling")
_USING_UP = wordset("used use took")
_OF_IT = (["of", "it"], ["of", "that"], ["of", "this"], ["of", "them"])
_HOLDERS = {"bottle": "fragrance", "pack": "wax", "box": "wax"}


def take_remainder(scan: Scan) -> None:
    """ "Opened 5 kg, used 1.4 kg and 900 g, the rest gets 7 %": the rest is the weight that is meant."""
    if len(scan.masses()) < 2:
        return
    if not asks_for_rest(scan):
        _only_some(scan)
        _what_was_used(scan)
        _lost(scan)
        return
    used = _used(scan)
    others = [m for m in scan.masses() if m not in used and m.amount.high is None and not m["each"]]
    wholes = [m for m in others if _holds(m, used)]
    if not used or len(wholes) != 1:
        return
    whole = wholes[0]
    rest, working = difference("what is left", mass_of(whole), *(mass_of(m) for m in used))
    _put(scan, whole, rest, working)
    for m in used:
        scan.blank(m.at, m.at + 1)
    _silence(scan)


def take_portion(scan: Scan) -> None:
    """ "A 1 kg bag, but only using 3/4 of it", "I only want to use half": that part of the weight before it."""
    for i, mark in enumerate(scan.marks):
        fraction = _fraction(mark) or _percent_of_the_pack(scan, i)
        gone = fraction is not None and _is_gone(scan, i)
        if (
            fraction is None
            or (i and scan.marks[i - 1].text == "other")
            or not (gone or _percent_of_the_pack(scan, i) or _is_taken(scan, i))
        ):
            continue
        before = [m for m in scan.found if m.at < i and m.kind == "mass" and m.amount.high is None]
        if not before or before[-1].flags & {"each", "holds"}:
            continue
        m = before[-1]
        if gone:
            some, working = part("what is left", mass_of(m), 1 - fraction, line("(1 − {})", fraction))
        else:
            part_of = mark.text if mark.measured is None else mark.measured.amount.text
            some, working = part("the part used", mass_of(m), fraction, line("{}", part_of))
        _put(scan, m, some, working)
        scan.blank(i, i + 1)
        _forget_who_shares(scan)
        if gone:
            _silence(scan)
        return


def _fraction(mark: Mark) -> Decimal | None:
    m = mark.measured
    if m is not None and m.kind == "number" and 0 < m.amount.value < 1 and not m.amount.unit:
        return m.amount.value
    return Decimal("0.5") if mark.kind == "word" and mark.text == "half" else None


def _percent_of_the_pack(scan: Scan, i: int) -> Decimal | None:
    """ "I take 60 percent of the bag": a part of it, no load."""
    m = scan.marks[i].measured
    if m is None or m.kind != "percent" or not 0 < m.amount.value < 100 or m.amount.high is not None:
        return None
    behind = scan.marks[i + 1 : i + 4]
    pack = [mark.text for mark in behind[:2]] in (["of", "the"], ["of", "that"], ["of", "my"]) and len(behind) == 3
    ahead = {mark.text for mark in scan.marks[max(0, i - 3) : i]}
    if pack and behind[2].noun in ("pack", "box", "bottle") and not ahead.isdisjoint(_TAKING):
        return m.amount.value / 100
    return None


def _forget_who_shares(scan: Scan) -> None:
    """ "Two of us share a bag": they are counted no more once somebody's part is told."""
    for m in scan.kind("number"):
        if [mark.text for mark in scan.marks[m.at + 1 : m.at + 3]] == ["of", "us"]:
            scan.blank(m.at, m.at + 1)


def _is_gone(scan: Scan, i: int) -> bool:
    """ "Three quarters of it is gone", where the rest is asked for."""
    said = [mark.text for mark in scan.marks[i + 1 : i + 6]]
    return said[:2] in _OF_IT and not _USED.isdisjoint(said[2:]) and (asks_for_rest(scan) or scan.has("left"))


def _is_taken(scan: Scan, i: int) -> bool:
    """Whether so much of something is taken: "only using half", "pour it three quarters"."""
    ahead = [mark.text for mark in scan.marks[max(0, i - 4) : i]]
    if any(mark.kind in ("amount", "stop") for mark in scan.marks[max(0, i - 2) : i]):
        return False
    behind = scan.marks[i + 1 : i + 3]
    texts = [mark.text for mark in behind]
    ends = not behind or behind[0].kind in ("stop", "sign") or texts in _OF_IT or texts[:1] in (["full"], ["way"])
    if texts in _OF_IT and not _USING_UP.isdisjoint(ahead[-1:]):
        return not asks_for_rest(scan)  # "used half of it on 800 g of wax"
    return ends and not _TAKING.isdisjoint(ahead) and (not _ONLY.isdisjoint(ahead) or texts in _OF_IT)


def asks_for_rest(scan: Scan) -> bool:
    """ "The rest", "what is left", as long as it has not been worked out; "20 g left" says how much there is."""
    if scan.says(_REST) or scan.has("left_over"):
        return True
    marks = scan.marks
    return scan.says(("left",)) and any(
        mark.text == "left" and i > 0 and marks[i - 1].text in _IS for i, mark in enumerate(marks)
    )


def some_is_gone(scan: Scan) -> bool:
    """ "I took some, the rest gets 6 %": a rest of what nobody can say."""
    return asks_for_rest(scan) and scan.says(_USED) and scan.says(("some", "part", "few", "bit"))


def _used(scan: Scan) -> list[Measured]:
    """The weights that are gone: "used 1.4 kg", "2 oz are promised", and those told on in the same breath."""
    out: list[Measured] = []
    for m in scan.masses():
        ahead, behind = scan.around(m, 3, 5)
        near = any(mark.text in _USED for mark in ahead[-2:]) or any(mark.text in _MINUS for mark in ahead[-1:])
        after = any(mark.text in _USED for mark in behind) and any(mark.text in _BE for mark in behind)
        after = after or [mark.text for mark in behind[:2]] == ["i", "used"] or _kept_back(ahead, behind)
        joined = bool(out) and bool(ahead) and ahead[-1].text in ("and", "&", "then")
        told_on = joined and _just_before(scan, out[-1], m)
        if near or after or told_on:
            out.append(m)
    return out


def _kept_back(ahead: list[Mark], behind: list[Mark]) -> bool:
    """ "I keep 18 g back", "poured out 640 g", "took 200 g out"."""
    said, then = [mark.text for mark in ahead[-2:]], [mark.text for mark in behind[:3]]
    aside = "back" in then or "aside" in then or "away" in then or "away" in said or "aside" in said
    out = "out" in said and any(word in ("poured", "pour", "took", "take", "scooped") for word in said)
    return (aside and not _KEPT_BACK.isdisjoint(said)) or out


def _just_before(scan: Scan, one: Measured, other: Measured) -> bool:
    between = scan.marks[one.at + 1 : other.at]
    return len(between) <= 4 and not any(mark.kind in ("amount", "stop") or mark.noun for mark in between)


def _holds(whole: Measured, used: list[Measured]) -> bool:
    """Whether what was used may have come out of it."""
    gone = sum((mass_of(m).base for m in used), Decimal(0))
    kinds = {_HOLDERS.get(m.of, m.of) for m in used} - {"", "pot", "scale", "measure", "candle", "jar", "total"}
    own = _HOLDERS.get(whole.of, whole.of)
    return mass_of(whole).base > gone and (not kinds or own in kinds or own in ("", "total"))


def _only_some(scan: Scan) -> None:
    """ "Melted 900 g but only using 600 g of it": the 600 g are meant."""
    for m in scan.masses():
        ahead, behind = scan.around(m, 4, 3)
        said = {mark.text for mark in ahead}
        if said.isdisjoint(_ONLY) or said.isdisjoint(_TAKING) or m.of not in ("", "wax"):
            continue
        if [mark.text for mark in behind[:2]] not in _OF_IT and not any(mark.text == "but" for mark in ahead):
            continue
        before = [x for x in scan.masses() if x.at < m.at]
        if (
            len(before) == 1
            and mass_of(before[0]).base > mass_of(m).base
            and before[0].of in ("", "wax", "pack", "pot")
        ):
            m.of = m.of or "wax"
            scan.blank(before[0].at, before[0].at + 1)
            return


def _lost(scan: Scan) -> None:
    """ "Weighed 500 g of wax, knocked the jug and lost 20 g of it": so much less is there."""
    masses = scan.masses()
    for whole, m in pairwise(masses):
        ahead, behind = scan.around(m, 2, 2)
        gone = any(mark.text in _LOST for mark in ahead) and [mark.text for mark in behind[:2]] in _OF_IT
        if gone and whole.of in ("wax", "pack", "pot", "") and mass_of(whole).base > mass_of(m).base:
            rest, working = difference("what is left", mass_of(whole), mass_of(m))
            _put(scan, whole, rest, working, "wax" if whole.of in ("", "pot") else "")
            scan.blank(m.at, m.at + 1)
            return


def _what_was_used(scan: Scan) -> None:
    """ "I began with 500 g of oil and have 320 g left": the difference was used, where that is asked for."""
    found = scan.masses()
    if len(found) != 2 or not scan.says(("did", "used")):
        return
    whole, left = found
    stock = whole.of in ("bottle", "fragrance") and left.of in ("bottle", "fragrance", "", "scale")
    if stock and left["left"] and mass_of(whole).base > mass_of(left).base:
        used, working = difference("fragrance used", mass_of(whole), mass_of(left))
        _put(scan, whole, used, working, "fragrance")
        scan.blank(left.at, left.at + 1)


def _put(scan: Scan, m: Measured, mass: Mass, working: Working, of: str = "") -> None:
    of = of or _HOLDERS.get(m.of, m.of)
    flags = m.flags - {"left", "already", "full", "holds"}
    scan.put(m, after_sum(m, mass, of=of, name=m.name or of, flags=flags))
    scan.workings.append(working)


def _silence(scan: Scan) -> None:
    """The words of the sum that was done tell nothing of the question."""
    for i, mark in enumerate(scan.marks):
        if mark.text in _USED | _REST:
            scan.marks[i] = Mark("word", "", gap=mark.gap)
    scan.tell()
    scan.tags -= {"left_over", "already"}


def take_poured(scan: Scan) -> None:
    """ "The bottle was 210 g before and 158 g after": what was poured is the difference."""
    heads = {head for _, head in scan.heads}
    if not (scan.says(_POURED_FROM) and scan.says(_POURED_TO)) or heads.isdisjoint(("bottle", "pot")):
        return
    found = [m for m in scan.masses() if m.of not in ("wax", "total")]
    if len(found) != 2 or mass_of(found[0]).base <= mass_of(found[1]).base:
        return
    if "bottle" in heads:
        poured, working = difference("fragrance poured", mass_of(found[0]), mass_of(found[1]))
        _put(scan, found[0], poured, working, "fragrance")
    elif scan.has("pouring") and scan.says(("before",)) and scan.says(("after", "afterwards")):
        if len(scan.found) == 2:  # how much that was is the question itself
            found[0].flags.add("full")
            found[1].flags.add("empty")
            return
        poured, working = difference("poured out", mass_of(found[0]), mass_of(found[1]))
        _put(scan, found[0], poured, working, "total")
    else:
        return
    scan.blank(found[1].at, found[1].at + 1)


def take_addition(scan: Scan) -> None:
    """ "Before the scent 1200 g, after it 1296 g", "with oil 1.62 kg, without 1.5": the oil is the difference."""
    found = scan.masses()
    if len(found) != 2 or scan.kind("percent") or scan.kind("rate") or not scan.has("percent_word", "load"):
        return
    light, heavy = sorted(found, key=lambda m: mass_of(m).base)
    first, second = found
    words = {
        first.at: {mark.text for mark in scan.marks[max(0, first.at - 7) : first.at]},
        second.at: {mark.text for mark in scan.marks[first.at + 1 : second.at]},
    }
    told = not _BEFORE.isdisjoint(words[light.at]) and not _AFTER.isdisjoint(words[heavy.at])
    named = any(head == "fragrance" for _, head in scan.heads) and not any(head == "bottle" for _, head in scan.heads)
    if not told or not named or mass_of(heavy).base >= 2 * mass_of(light).base:
        return
    oil, working = difference("fragrance added", mass_of(heavy), mass_of(light))
    light.of = light.name = "wax"
    _put(scan, heavy, oil, working, "fragrance")
