"""Weights told without their unit, beside one that has it: "the jar is 310", "402, 398, 403 g"."""

from __future__ import annotations

from decimal import Decimal

from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import give_unit
from core.reading.wordset import wordset

# Things that are weighed one at a time; in the plural a number beside them counts.
_WEIGHED_ALONE = wordset(
    "jar tin glass vessel tumbler container bowl mug ramekin lid cap box carton wick pot pan pitcher jug kettle",
    "beaker bottle spoon packing packaging label tray bag",
)
_LEADING = wordset("is weighs was weighed : = itself alone empty about and the a too dry")
_COUNTING = wordset("x × * @ of times each pieces pcs per more")
_UNITS = ("g", "oz", "lb", "kg")
_LIKE = 2  # how far apart, as a factor, the weights of a row of the same things lie at most
_LEAST = Decimal(2)


def take_bare_weights(scan: Scan) -> None:
    """Give such numbers the one unit that the weights of the text are told in."""
    if not scan.kind("number"):
        return
    units = {m.amount.unit for m in scan.masses() if not m.amount.parts}
    grams = units == {"g", "kg"}
    if (len(units) != 1 and not grams) or not units <= set(_UNITS) or len(scan.found) < 2 or scan.kind("money"):
        return
    unit = "g" if grams else units.pop()
    bare = scan.kind("number")
    if not bare:
        return
    labelled = [m for m in bare if _beside_label(scan, m.at)]
    for i, mark in enumerate(scan.marks):
        m = mark.measured
        if m is None or m.kind != "number" or m.amount.unit or m.amount.high is not None:
            continue
        if grams and m.amount.value < _LEAST_SHOWN:
            continue
        if _of_one_thing(scan.marks, i, m) or _in_a_row(scan.marks, i, m) or _shown(scan, i, m) or m in labelled:
            give_unit(m, unit)


def _of_one_thing(marks: list[Mark], i: int, m: Measured) -> bool:
    """ "Jar is 310", "lid 20": a single thing before the number, and nothing counted after it."""
    after = marks[i + 1] if i + 1 < len(marks) else None
    if m.amount.value <= 0 or (after is not None and (after.kind in ("amount", "unit") or after.text in _COUNTING)):
        return False
    word = after is not None and after.kind == "word" and after.text not in _WEIGHED_ALONE
    if word and after is not None and (after.noun or after.text.endswith("s")):
        return False  # "jar 12 candles"
    k = i - 1
    said = False
    while k >= 0 and marks[k].text in _LEADING:
        said = said or marks[k].text in ("is", "weighs", "was", "weighed", ":", "=")
        k -= 1
    if k > 1 and marks[k].noun == "wax" and marks[k - 1].text in ("and", "+", "with", "plus", "&"):
        k -= 2  # "pot and wax 1540"
    figure = m.amount.value >= _LEAST or "." in m.amount.text or said
    return k >= 0 and marks[k].text in _WEIGHED_ALONE and figure and (said or k in (i - 1, i - 3))


_SHOWS = wordset("says said shows showed reads read displays displayed")


def _shown(scan: Scan, i: int, m: Measured) -> bool:
    """ "The scale says 2012", "now it reads 1062": what a scale shows is a weight."""
    marks = scan.marks
    after = marks[i + 1] if i + 1 < len(marks) else None
    ends = after is None or after.kind in ("stop", "sign") or after.text in ("now", "with", "so", "and", "total")
    before = marks[i - 1].text if i else ""
    shown = before in _SHOWS and (scan.has("scale") or scan.has("pot", "jar", "measure", "bottle"))
    return shown and ends and m.amount.value >= _LEAST_SHOWN and not scan.has("label", "net")


_LEAST_SHOWN = Decimal(20)


def _beside_label(scan: Scan, at: int) -> bool:
    """ "Label 200 g: 196, 199, 203": a row of numbers like the one weight that is printed."""
    printed = scan.masses()
    if len(printed) != 1 or not scan.has("label", "net") or scan.kind("percent"):
        return False
    size = printed[0].amount.value
    numbers = scan.kind("number")
    alike = all(not m.amount.unit and size / 2 < m.amount.value < size * 2 and not m.amount.high for m in numbers)
    first, last = numbers[0].at, numbers[-1].at
    row = all(mark.kind == "amount" or mark.text in (",", "and", "/") for mark in scan.marks[first : last + 1])
    return len(numbers) >= LEAST_IN_A_ROW and alike and row and first <= at <= last


LEAST_IN_A_ROW = 3


def _in_a_row(marks: list[Mark], i: int, m: Measured) -> bool:
    """ "402, 398, 403 g", "231 229 226 g": numbers much alike, up to the one that has the unit."""
    k, alike, steps = i + 1, m.amount.value, 0
    while k < len(marks):
        other = marks[k].measured
        if other is None:
            if marks[k].text not in (",", "and", "&", "/", "then"):
                return False
        else:
            if not alike / _LIKE <= other.amount.value <= alike * _LIKE or other.amount.high is not None:
                return False
            steps += 1
            if other.kind == "mass":
                return steps > 1 or marks[i - 1].measured is not None or _listed_before(marks, i)
            if other.kind != "number" or other.amount.unit:
                return False
        k += 1
    return False


def _listed_before(marks: list[Mark], i: int) -> bool:
    """Whether another weight or number stands before this one in the same row."""
    return i > 1 and marks[i - 1].text in (",", "and") and marks[i - 2].measured is not None
