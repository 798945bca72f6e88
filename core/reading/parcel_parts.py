"""Parcels of several things: different candles, candles told by their parts, boxes in a box, several parcels."""

from __future__ import annotations

import itertools
from dataclasses import replace

from core.answer import Answer
from core.compounds import Pack, Packs, UnitName
from core.question import Question
from core.questions.convert import ConvertQuestion
from core.questions.parcel import ParcelQuestion
from core.reading import asking
from core.reading.chain import chained
from core.reading.counts import counted
from core.reading.givens import Givens
from core.reading.market import priced_packs
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.reading.workings import Working, added, product
from core.units import Mass

Outcome = Question | Answer | None

_PARCELS = wordset("orders order parcels packages shipments customers mailers")
_INNER = wordset("inner inside small each every per gift little")
_PARTS = ("wax", "fragrance", "dye", "wick", "total")


def assorted(g: Givens, masses: list[Measured]) -> Outcome:
    """The parcel where its things must be added up first; None where the plain reading will do."""
    if (all_boxes := _each_weighed(g, masses)) is not None:
        return all_boxes
    if (orders := _several_parcels(g, masses)) is not None:
        return orders
    if (boxed := _boxes_in_a_box(g, masses)) is not None:
        return boxed
    if (kinds := _kinds(g, masses)) is not None:
        return kinds
    return _by_parts(g, masses)


def _each_weighed(g: Givens, masses: list[Measured]) -> Outcome:
    """ "My 3 boxes weigh 2.1 kg, 3.4 kg and 1.9 kg": all together."""
    numbers = [m for m in g.scan.kind("number") if m.amount.value > 1]
    if len(masses) < 2 or len(numbers) != 1 or numbers[0].amount.value != len(masses):
        return None
    marks = g.scan.marks
    after = marks[numbers[0].at + 1 : numbers[0].at + 2]
    boxes = bool(after) and (after[0].noun == "box" or after[0].text in _PARCELS)
    listed = all(_listed(g, one, other) for one, other in itertools.pairwise(masses))
    if not boxes or not listed or any(m["each"] for m in masses):
        return None
    whole, working = added("all of them", *(mass_of(m) for m in masses))
    g.used.update((numbers[0].at, *(m.at for m in masses)))
    g.scan.workings.append(working)
    return ConvertQuestion(amount=whole, to=UnitName(g.wanted_mass()) if g.wanted_mass() else None)


def _listed(g: Givens, one: Measured, other: Measured) -> bool:
    return all(mark.text in (",", "and", "&", "+") for mark in g.scan.marks[one.at + 1 : other.at])


def _kinds(g: Givens, masses: list[Measured]) -> Outcome:
    """ "8 tins at 6.2 oz each, 3 jars at 17 oz each, box 11 oz"."""
    pairs = [(n, m) for n, m in counted(g)[0] if m in masses and m.of in ("jar", "candle", "total", "")]
    packing = [m for m in masses if m.of == "box"]
    if len(pairs) < 2 or len(pairs) + len(packing) != len(masses):
        return None
    if any(m.of in ("wax", "lid") for _, m in pairs) or _box_counts(g):
        return None
    (count, first), *others = pairs
    workings: list[Working] = []
    sums: list[Mass] = []
    for n, m in others:
        some, working = product(f"the {n} others" if len(others) == 1 else f"{n} more", n, mass_of(m))  # type: ignore[arg-type]
        sums.append(some)
        workings.append(working)
    rest = sums[0] if len(sums) == 1 else None
    if rest is None:
        rest, working = added("all the others", *sums)
        workings.append(working)
    g.used.update(m.at for _, m in pairs)
    question = ParcelQuestion(candle=mass_of(first), count=count, extra=rest, packing=_sum(packing))
    if not packing:
        return asking.packing_missing(question)
    g.scan.workings.extend(workings)
    return question


def _by_parts(g: Givens, masses: list[Measured]) -> Outcome:
    """ "Wax 200 g, oil 20 g, jar 250 g, five of those and 300 g of packing": one candle by its parts."""
    inside = [m for m in masses if m.of in _PARTS]
    vessels = [m for m in masses if m.of == "jar"]
    lids = [m for m in masses if m.of in ("lid", "label")]
    packing = [m for m in masses if m.of == "box"]
    if len(inside) < 2 or len(vessels) != 1 or len({m.of for m in inside}) != len(inside):
        return None
    if len(inside) + 1 + len(lids) + len(packing) != len(masses):
        return None
    counts = [m for m in g.scan.kind("number") if m.amount.value > 1 and m.amount.value == int(m.amount.value)]
    if len(counts) > 1:
        return asking.which_number(counts)
    fill, working = added("wax and oil in one", *(mass_of(m) for m in inside))
    g.used.update(m.at for m in (*inside, *counts))
    question = ParcelQuestion(
        vessel=mass_of(vessels[0]),
        fill=fill,
        lid=_sum(lids),
        count=int(counts[0].amount.value) if counts else None,
        packing=_sum(packing),
    )
    if not packing:
        return asking.packing_missing(question)
    g.scan.workings.append(working)
    return question


def _box_counts(g: Givens) -> list[Measured]:
    """ "Two boxes": how many boxes there are."""
    marks = g.scan.marks
    out = []
    for m in g.scan.kind("number"):
        after = marks[m.at + 1 : m.at + 3]
        boxes = any((mark.noun == "box" and mark.text.endswith("es")) or mark.text in _BOXES for mark in after)
        if m.amount.value > 1 and m.amount.value == int(m.amount.value) and boxes:
            out.append(m)
    return out


_BOXES = wordset("boxes cartons crates mailers")


def _boxes_in_a_box(g: Givens, masses: list[Measured]) -> Outcome:
    """ "2 boxes of 6, a candle 10.4 oz, an inner box 2 oz, the outer carton 13 oz", "every box 95 g"."""
    counts = _box_counts(g)
    boxes = [m for m in masses if m.of == "box"]
    candles = [m for m in masses if m.of in ("candle", "jar", "")]
    if len(counts) != 1 or len(candles) != 1 or not boxes or len(masses) != 1 + len(boxes) or len(boxes) > 2:
        return None
    n = int(counts[0].amount.value)
    others = [m for m in g.scan.kind("number") if m is not counts[0] and m.amount.value > 1]
    held = [m for m in others if _held(g, counts[0], m)]
    alls = [m for m in others if m not in held]
    if len(held) > 1 or len(alls) > 1 or not (held or alls):
        return asking.which_number([counts[0], *others]) if others or candles[0].of else None
    count = int(held[0].amount.value) * n if held else int(alls[0].amount.value)
    if held and alls and alls[0].amount.value != count:
        return asking.which_number([*alls, *held])
    inner = [m for m in boxes if m["each"] or _said(g, m, _INNER)]
    outer = [m for m in boxes if m not in inner]
    if len(inner) != 1 or (len(boxes) == 2 and len(outer) != 1):
        return asking.which_weight(boxes)
    packing, working = product("the boxes", counts[0].amount.value, mass_of(inner[0]))
    workings = [working]
    if outer:
        packing, working = added("all the packing", packing, mass_of(outer[0]))
        workings.append(working)
    g.used.update(m.at for m in (counts[0], *others, *boxes))
    g.scan.workings.extend(workings)
    return ParcelQuestion(candle=mass_of(candles[0]), count=count, packing=packing)


def _held(g: Givens, boxes: Measured, m: Measured) -> bool:
    """ "2 boxes with 6 in", "boxes of six", "6 in each box"."""
    marks = g.scan.marks
    between = [mark.text for mark in marks[boxes.at + 1 : m.at]]
    after = [mark.text for mark in marks[m.at + 1 : m.at + 5]]
    leads = 0 < len(between) <= 3 and between[-1] in ("of", "with", "for", "x", "×", "à", "a")
    return leads or after[:1] in (["in"], ["per"]) or after[1:2] in (["in"], ["per"])


def _said(g: Givens, m: Measured, words: frozenset[str]) -> bool:
    before = g.scan.marks[max(0, m.at - 4) : m.at]
    return any(mark.text in words for mark in before) or any(
        mark.text in ("each", "apiece") for mark in g.scan.marks[m.at + 1 : m.at + 3]
    )


def _several_parcels(g: Givens, masses: list[Measured]) -> Outcome:
    """ "2 orders, one of 3 candles, one of 5; a candle is 365 g, a carton 210 g": a parcel each."""
    marks = g.scan.marks
    numbers = [m for m in g.scan.kind("number") if m.amount.value == int(m.amount.value)]
    orders = [m for m in numbers if m.at + 1 < len(marks) and marks[m.at + 1].text in _PARCELS]
    candles = [m for m in masses if m.of in ("candle", "jar")]
    boxes = [m for m in masses if m.of == "box"]
    if len(orders) != 1 or len(candles) != 1 or len(boxes) != 1 or len(masses) != 2:
        return None
    held = [m for m in numbers if m is not orders[0] and m.amount.text != "one"]
    if orders[0].amount.value != len(held) or len(held) < 2:
        return None
    g.used.update(m.at for m in numbers)
    one = ParcelQuestion(candle=mass_of(candles[0]), packing=mass_of(boxes[0]))
    return chained(g.book, *(replace(one, count=int(m.amount.value)) for m in held))


def _sum(found: list[Measured]) -> Mass | None:
    total: Mass | None = None
    for m in found:
        total = mass_of(m) if total is None else total + mass_of(m)
    return total


def brackets(g: Givens, limits: list[Measured]) -> Packs | None:
    """ "5.49 up to 2 kg and 9.99 up to 5 kg": what the post charges up to each weight."""
    told = [m for m in g.scan.found if m.kind == "money" or m in limits]
    rest = replace(g, scan=replace(g.scan, found=told))
    priced = [(m, price) for m, price in priced_packs(rest, []) if price is not None]
    if len(limits) < 1 or {id(m) for m, _ in priced} != {id(m) for m in limits}:
        return None
    ordered = sorted(priced, key=lambda pair: mass_of(pair[0]).base)
    return Packs(tuple(Pack(mass_of(m), price) for m, price in ordered))


def packing_asked(g: Givens) -> ParcelQuestion | None:
    """ "3.4 kg on the post's scale, 6 candles of 480 g in it, how much was the packing": the rest of the whole."""
    marks, masses = g.scan.marks, g.scan.masses()
    asked = [i for i, mark in enumerate(marks) if mark.text in ("how much", "how heavy", "what")]
    packs = any(mark.text in _PACKING for i in asked for mark in marks[i : i + 6])
    if not packs or len(masses) != 2 or g.scan.kind("money") or g.shares.loads:
        return None
    each, whole = sorted(masses, key=lambda m: mass_of(m).base)
    counts = [m for m in g.scan.kind("number") if m.amount.value > 1]
    if len(counts) != 1 or not 0 < each.at - counts[0].at <= 4 or "box" in (each.of, whole.of) or each.of == "lid":
        return None
    count = int(counts[0].amount.value)
    if count != counts[0].amount.value or mass_of(each).base * count >= mass_of(whole).base:
        return None
    g.used.update(m.at for m in (*masses, *counts))
    return ParcelQuestion(whole=mass_of(whole), candle=mass_of(each), count=count)


_PACKING = wordset("packing packaging filler padding wrapping box carton")
