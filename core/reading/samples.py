"""So many of a thing that was weighed: "a scoop is always 42 g, I did 15 scoops" is one weight."""

from __future__ import annotations

from core.reading.counts import TAKERS
from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import after_sum, mass_of
from core.reading.wordset import wordset
from core.reading.workings import Counted, product
from core.units import Mass, Volume

ALL_OF_THEM = "all of them"  # never in the asker's own words: a step's name is shown as it is
_ONE = wordset("a an one each every my per single the this")
# Things with their own counting: so much goes into each of them.
_COUNTED = wordset("jar candle pack bottle box lid")
_SHOT = wordset("shot")
_NOT_THINGS = wordset("percents grams ounces pounds kilos days times hours minutes weeks years degrees dollars euros")


def take_samples(scan: Scan) -> None:
    """Each such number becomes the weight it stands for; the weight of one is used up."""
    numbers = [m for m in scan.kind("number") if m.amount.value > 1 and not m.amount.unit]
    for m in numbers:
        things = _thing_after(scan.marks, m)
        if things and _counted_along(scan, m):
            continue
        if not things or (one := _weight_of_one(scan, things, m)) is None:
            continue
        mass, working = product(ALL_OF_THEM, m.amount.value, mass_of(one))
        of = _what_of(scan, m, one)
        scan.put(m, after_sum(m, mass, of=of, name=of, sure=True))
        scan.workings.append(working)
        scan.blank(one.at, one.at + 1)
        scan.blank(m.at + 1, m.at + 2 + (scan.marks[m.at + 1].text != things))
        _forget_the_one(scan, things)


def take_counting(scan: Scan) -> None:
    """ "One pump is 1.75 g, how many pumps?": the answer is counted in pumps as well."""
    marks = scan.marks
    for i in range(2, len(marks)):
        things = marks[i].text
        asked = marks[i - 1].text == "how many" or (marks[i - 1].text == "many" and marks[i - 2].text == "how")
        if not asked or marks[i].noun in _COUNTED or not things.endswith("s") or things in _NOT_THINGS | TAKERS:
            continue
        one = _weight_of_one(scan, things, None)
        of = _what_of(scan, one, one) if one is not None else ""
        if one is None or of not in ("wax", "fragrance"):
            continue
        scan.counted = Counted(things, mass_of(one), of)
        scan.blank(one.at, one.at + 1)
        scan.blank(i, i + 1)
        _forget_the_one(scan, things)
        return


def take_such(scan: Scan) -> None:
    """ "Came out 28.2 g of oil. Ten such bottles": so many times the weight before it."""
    for m in [x for x in scan.kind("number") if x.amount.value > 1 and not x.amount.unit]:
        after = scan.marks[m.at + 1 : m.at + 3]
        before = [x for x in scan.masses() if x.at < m.at]
        if len(after) < 2 or after[0].text not in ("such", "like") or not before or before[-1].amount.high is not None:
            continue
        one = before[-1]
        whole, working = product(ALL_OF_THEM, m.amount.value, mass_of(one))
        scan.put(one, after_sum(one, whole))
        scan.workings.append(working)
        scan.blank(m.at, m.at + 3)
        return


def _forget_the_one(scan: Scan, things: str) -> None:
    """The scoop or glass itself tells nothing any more."""
    for i, mark in enumerate(scan.marks):
        if mark.text in (things[:-1], things[:-2], *_SHOT) and mark.kind == "word":
            scan.blank(i, i + 1)


def _counted_along(scan: Scan, count: Measured) -> bool:
    """ "12 squirts of 2 ml each": so many times the amount right after."""
    after = scan.marks[count.at + 2 : count.at + 4]
    if len(after) < 2 or after[0].text != "of":
        return False
    one = after[1].measured
    if one is None or not isinstance(one.value, Mass | Volume) or one.amount.high is not None or one.kind == "rate":
        return False
    whole, working = product(ALL_OF_THEM, count.amount.value, one.value)
    scan.put(one, after_sum(one, whole, flags=one.flags - {"each"}))
    scan.workings.append(working)
    scan.blank(count.at, one.at)
    for i in range(one.at + 1, min(one.at + 3, len(scan.marks))):
        if "each" in scan.marks[i].tags:
            scan.blank(i, i + 1)
    return True


def _thing_after(marks: list[Mark], m: Measured) -> str:
    """The plural right after the number, where nothing else counts it."""
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    if after is not None and after.text in _SHOT and m.at + 2 < len(marks) and marks[m.at + 2].text == "glasses":
        return marks[m.at + 2].text
    if after is None or after.kind != "word" or after.noun in _COUNTED or after.text in _NOT_THINGS | TAKERS:
        return ""
    plural = after.text.endswith("s") and not after.text.endswith("ss") and len(after.text) > 3
    return after.text if plural and after.noun in ("", "measure") else ""


def _weight_of_one(scan: Scan, things: str, count: Measured | None) -> Measured | None:
    """The weight that was said of one: "one pump of my bottle weighs 1.6 g", "each spoon is 12 g"."""
    singulars = {things[:-1], things[:-2]} if things.endswith("es") else {things[:-1]}
    for i, mark in enumerate(scan.marks):
        if mark.text not in singulars or i == 0 or not _is_one(scan.marks[i - 1]):
            continue
        for other in scan.marks[i + 1 : i + 8]:
            if other.kind == "stop" or (count is not None and other.measured is count):
                break
            if other.measured is not None:
                return other.measured if other.measured.kind == "mass" and other.measured in scan.found else None
    return None


def _is_one(mark: Mark) -> bool:
    return mark.text in _ONE | _SHOT or (mark.measured is not None and mark.measured.amount.value == 1)


def _what_of(scan: Scan, count: Measured, one: Measured) -> str:
    """What the thing holds: as said of the one, or beside the number."""
    for m in (one, count):
        if m.of in ("wax", "fragrance", "dye"):
            return m.of
    near = [mark.noun for m in (one, count) for mark in scan.marks[max(0, m.at - 7) : m.at + 5]]
    oil = "fragrance" in near or "bottle" in near
    return "fragrance" if oil else "wax" if "wax" in near else ""
