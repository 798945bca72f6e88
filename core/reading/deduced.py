"""What follows from how two amounts of a text stand to each other."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.reading.amounts import Amount
from core.reading.marks import Mark, Measured, Scan
from core.reading.told_of import becomes_a_share, behind_brackets
from core.reading.words import JOINING
from core.reading.wordset import wordset
from core.units import Mass


def _share_unit(scan: Scan) -> None:
    """ "300 wax 24 oil grams", "soy 450, paraffin 150 (grams)": the one unit named goes with all the numbers."""
    bare = [m for m in scan.kind("number") if m.of in ("wax", "fragrance", "total") and not m.amount.unit]
    if len(bare) < 2:
        return
    units = {mark.unit for mark in scan.marks if mark.kind == "unit" and mark.unit in ("g", "kg", "oz", "lb")}
    if len(units) != 1 or scan.masses() or scan.has("asks") or any(mark.unit == "part" for mark in scan.marks):
        return
    unit = units.pop()
    for m in bare:
        m.kind, m.value = "mass", Mass.of(m.amount.value, unit)
        m.amount = dataclasses.replace(m.amount, unit=unit)


def _parts_before_names(scan: Scan) -> None:
    """ "3 parts lemon 2 parts rosemary 1 part mint": each has its name right after it, a scent's name too."""
    found = scan.kind("part")
    names: list[list[Mark]] = []
    for m in found:
        i = m.at + 1
        i += i < len(scan.marks) and scan.marks[i].text == "of"
        names.append(list(itertools.takewhile(_names_a_part, scan.marks[i : i + 4])))
    if len(found) < 2 or not all(names):
        return
    for m, name in zip(found, names, strict=True):
        m.of, m.name, m.side = name[-1].noun or "fragrance", " ".join(mark.text for mark in name), "right"


_AGAIN = wordset("at to those that these be is =")


def _names_a_part(mark: Mark) -> bool:
    return mark.noun not in ("", "load") or "scent_name" in mark.tags


def _wax_of_a_whole(scan: Scan) -> None:
    """ "The batch weighs 1296 g with the oil, wax was 1200": the bare number is in the unit of the whole."""
    masses, bare = scan.masses(), [m for m in scan.kind("number") if m.of == "wax" and not m.amount.unit]
    if len(masses) != 1 or len(bare) != 1 or masses[0].of not in ("total", "scale", "", "candle", "fragrance"):
        return
    whole, wax = masses[0], bare[0]
    near = wax.amount.value < whole.amount.value <= wax.amount.value * Decimal("1.34")
    if not near or scan.kind("percent") or not scan.has("load", "percent_word"):
        return
    wax.amount = dataclasses.replace(wax.amount, unit=whole.amount.unit)
    wax.kind, wax.value = "mass", Mass.of(wax.amount.value, wax.amount.unit)
    whole.of, whole.name = "total", ""


def _list_of_one_unit(scan: Scan) -> None:
    """ "400 600 and 900 g of wax": three or more in a row, of which the last has the unit of all."""
    for last in scan.masses():
        row: list[Measured] = []
        i = last.at - 1
        while i >= 0 and (scan.marks[i].text in (",", "and", "&") or scan.marks[i].measured is not None):
            m = scan.marks[i].measured
            if m is not None:
                if m.kind != "number" or m.amount.unit or m.of not in ("", "wax") or m.amount.value < 10:
                    break
                row.append(m)
            i -= 1
        values = [m.amount.value for m in (*row, last)]
        if len(row) < 2 or max(values) > 20 * min(values):
            continue
        for m in row:
            m.amount = dataclasses.replace(m.amount, unit=last.amount.unit)
            m.kind, m.value, m.of, m.name = "mass", Mass.of(m.amount.value, m.amount.unit), "", ""


def _told_again(scan: Scan) -> None:
    """ "A 40 g tealight batch (40 g wax)": one weight said twice; the brackets say what it is of."""
    for one, two in itertools.pairwise(scan.masses()):
        same = one.value is not None and two.value is not None and one.value.base == two.value.base
        closed = two.at + 2 < len(scan.marks) and any(x.text == ")" for x in scan.marks[two.at + 1 : two.at + 4])
        pointed = two.of == "" and scan.marks[two.at - 1].text in _AGAIN and one.of in ("total", "wax", "candle")
        if same and pointed and not one["each"] and one.amount.high is None:
            scan.blank(two.at, two.at + 1)
            return
        if same and closed and scan.marks[two.at - 1].text == "(" and two.of and one.of != "fragrance":
            scan.blank(one.at, one.at + 1)
            return


def _parts_of_a_weight(scan: Scan) -> None:
    """ "460 wax 40 oil, 500 g in all": bare numbers that make up the one weight are in its unit."""
    masses = scan.masses()
    bare = [m for m in scan.kind("number") if m.of in ("wax", "fragrance") and not m.amount.unit]
    if len(masses) != 1 or {m.of for m in bare} != {"wax", "fragrance"} or scan.kind("part"):
        return
    if sum((m.amount.value for m in bare), Decimal(0)) != masses[0].amount.value:
        return
    for m in bare:
        m.amount = dataclasses.replace(m.amount, unit=masses[0].amount.unit)
        m.kind, m.value = "mass", Mass.of(m.amount.value, m.amount.unit)
    masses[0].of = "total"


def deduce(scan: Scan) -> None:
    """What follows from how two amounts stand to each other: "30 g in 470 g of wax" is 30 g of fragrance."""
    _share_unit(scan)
    _wax_of_a_whole(scan)
    _list_of_one_unit(scan)
    _told_again(scan)
    _parts_before_names(scan)
    _parts_of_a_weight(scan)
    _labelled_pair(scan)
    _after_ratio(scan)
    _unit_of_oil(scan)
    for m in scan.found:
        if m.kind == "percent" and m.amount.text.startswith(("a ", "as ")) and m.at and _before(scan, m) in _PUT_AS:
            m.kind, m.value = "asked", None  # "1 oz per lb as a percent"
        if m.kind == "mass" and m.of == "fragrance" and m["finished"] and _bracket(scan, m):
            m.of, m.name = "total", ""  # "52 g (scent already in)"
        if m.kind == "mass" and (of := behind_brackets(scan, m)):
            m.of, m.name, m.side = of, of, "right"
        if m.kind == "mass" and m.of == "" and becomes_a_share(scan, m):
            m.of = "fragrance"
        if m.kind == "mass" and m.side == "right" and _of_it_apart(scan, m):
            m.of, m.name = "", ""
        if m.kind == "mass" and m.of == "wax" and _all_in_brackets(scan, m):
            m.of = "total"
        if m.kind == "mass" and m.of in ("", "candle") and _is_of_this(scan, m):
            m.of = "fragrance"
        if m.of in ("wax", "total") and m.kind == "mass" and (thousands := _thousands(m.amount)) is not None:
            m.amount, m.value = thousands, Mass.of(thousands.value, "g")
    for m in scan.found:
        if m.kind == "mass" and m.of == "wax" and m.side == "left" and not m.sure and _after_together(scan, m):
            m.of = "total"  # "wax, oil 8 % of the wax, together 1 kg"
        if m.kind == "mass" and m.of == "wax" and [x.text for x in scan.marks[m.at + 1 : m.at + 4]][::2] == ["=", "+"]:
            m.of = "total"  # "2 kg = wax + oil"
    masses = [m for m in scan.found if m.kind in ("mass", "volume", "drop")]
    for one, other in itertools.pairwise(masses):
        between = scan.marks[one.at + 1 : other.at]
        if any(mark.kind == "stop" for mark in between) or len(between) > 5:
            continue
        if one.at and scan.marks[one.at - 1].text == "from":
            continue
        poured = any(
            mark.text in _POURED and (after is None or after.text != ",")
            for mark, after in itertools.zip_longest(between, between[1:])
        )
        if poured and not one.of and other.of in ("wax", "") and not scan.has("net"):
            bare = all(
                mark.text in JOINING
                or mark.text
                in ("in", "into", "for", "over", "(", ")", "weight", "weighed", "go", "went", "put", "mixed", "added")
                for mark in between
            )
            if bare or other.of == "wax":
                one.of = "fragrance"
                other.of = other.of or "wax"
        elif poured and not one.of and other.of in ("candle", "total") and _asks_share(scan) and not scan.has("net"):
            one.of = "fragrance"
        elif poured and one.of == "fragrance" and not other.of:
            other.of = "wax"
    _with_the_next(scan, masses)


_POURED = wordset("in into to for per over on")


def _asks_share(scan: Scan) -> bool:
    """Whether a percent is asked for or to be checked."""
    percents = scan.kind("percent")
    return scan.has("percent_word", "load") or (len(percents) == 1 and scan.marks[0].text in ("is", "are", "was"))


def _after_together(scan: Scan, m: Measured) -> bool:
    i = m.at - 1
    while i > 0 and scan.marks[i].text in _POINTING:
        i -= 1
    return i >= 0 and "together" in scan.marks[i].tags


_POINTING = wordset("those these that the is it's its are be = : weigh weighs")


def _all_in_brackets(scan: Scan, m: Measured) -> bool:
    """ "1080 g all in (8 % of the wax)": all there is; the brackets tell of something else."""
    after = scan.marks[m.at + 1 : m.at + 3]
    return len(after) == 2 and "together" in after[0].tags and after[1].text in ("(", ",")


def _bracket(scan: Scan, m: Measured) -> bool:
    after = scan.marks[m.at + 1] if m.at + 1 < len(scan.marks) else None
    return after is not None and after.text in ("(", ",") and m.side == "right"


def _of_it_apart(scan: Scan, m: Measured) -> bool:
    """ "300 g of it, oil left?": what stands after the comma is another thing."""
    after = [mark.text for mark in scan.marks[m.at + 1 : m.at + 4]]
    return (
        len(after) == 3 and after[0] == "of" and after[1] in ("it", "that", "this", "them") and after[2] in (",", ".")
    )


def _is_of_this(scan: Scan, m: Measured) -> bool:
    """ "4 g from this is scent"."""
    after = scan.marks[m.at + 1 : m.at + 5]
    words = [mark.text for mark in after]
    return len(after) == 4 and words[0] in ("from", "of") and words[1] in _THIS and after[3].noun == "fragrance"


_THIS = wordset("this that it which these those")
_PUT_AS = wordset("as in what like")


def _before(scan: Scan, m: Measured) -> str:
    return scan.marks[m.at - 1].text


def _labelled_pair(scan: Scan) -> None:
    """ "oil:wax 75 g:1.25 kg": the weights stand in the order of the names."""
    for one, other in itertools.pairwise(scan.masses()):
        between = [mark.text for mark in scan.marks[one.at + 1 : other.at]]
        if between not in ([":"], ["/"], ["to"]):
            continue
        named = [mark.noun for mark in scan.marks[max(0, one.at - 4) : one.at] if mark.noun in ("wax", "fragrance")]
        if len(named) == 2 and set(named) == {"wax", "fragrance"}:
            one.of, other.of = named
            one.sure = other.sure = True


def _after_ratio(scan: Scan) -> None:
    """ "92/8 wax/oil 500 g": the names are the ratio's, the weight is of what it makes."""
    for m in scan.masses("fragrance", "wax"):
        if m.side != "left" or m.at < 4 or scan.marks[m.at - 4].measured is None:
            continue
        ratio, one, sign, two = scan.marks[m.at - 4 : m.at]
        named = {one.noun, two.noun} == {"wax", "fragrance"} and sign.text in ("/", ":", "to", "and", "-")
        if named and ratio.measured is not None and ratio.measured.kind == "ratio":
            m.of, m.name = "total", ""


def _unit_of_oil(scan: Scan) -> None:
    """ "900 grams of wax, 54 of oil": the oil's bare number is of the same unit."""
    masses = [m for m in scan.found if m.kind == "mass"]
    bare = [m for m in scan.kind("number") if m.of == "fragrance" and not m.amount.unit and m.side == "right"]
    if len(masses) != 1 or len(bare) != 1 or masses[0].of != "wax" or masses[0].amount.unit != "g":
        return
    oil = bare[0]
    others = [m for m in scan.found if m.kind in ("percent", "rate", "ratio", "volume", "part")]
    said = scan.marks[oil.at + 1].text if oil.at + 1 < len(scan.marks) else ""
    if others or said != "of" or oil.amount.value < 2:
        return
    oil.kind, oil.value = "mass", Mass.of(oil.amount.value, "g")
    oil.amount = dataclasses.replace(oil.amount, unit="g")


def _with_the_next(scan: Scan, masses: list[Measured]) -> None:
    """ "8 g lime + 5 g mint + 7 g basil in 250 g of wax": what is added to an oil is oil."""
    for one, other in reversed(list(itertools.pairwise(masses))):
        between = scan.marks[one.at + 1 : other.at]
        if other.of == "fragrance" and not one.of and len(between) <= 3 and between[-1:] and between[-1].text in "+&":
            one.of = "fragrance"


def _thousands(amount: Amount) -> Amount | None:
    """ "1.200 g" of wax is 1200 g: nobody weighs wax to the milligram."""
    whole, point, decimals = amount.text.split(" ")[0].removesuffix("g").partition(".")
    digits = whole.isdecimal() and decimals.isdecimal() and len(decimals) == 3
    if amount.unit == "g" and point and digits and 0 < len(whole) <= 3 and not whole.startswith("0"):
        return dataclasses.replace(amount, value=Decimal(whole + decimals))
    return None
