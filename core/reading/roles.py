"""What each amount of a text is an amount of: by the noun nearest to it, and the words that stand by it."""

from __future__ import annotations

import dataclasses
import itertools
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from core.reading.amounts import Amount
from core.reading.marks import Mark, Measured, Scan
from core.reading.runs import Run, runs_of
from core.reading.words import JOINING
from core.reading.wordset import wordset
from core.units import Mass

# How far a noun may stand from its amount, in the costs below.
FARTHEST = 4.6
_PARTING_SIGNS = {
    ",": 2.5,
    ".": 5.0,
    "+": 3.0,
    "/": 3.0,
    "&": 3.0,
    "-": 0.8,
    "–": 0.8,
    ">": 3.5,
    "→": 3.5,
    "*": 3.0,
    "~": 0.2,
}
_DESTINATION = wordset("for in into onto to on over per")
BARRED = 9.0
_PARTING_WORDS = wordset(
    "in into for per from with on by onto over to and plus or than vs versus against but so then if"
)
# "wax at 8 %" is no wax of 8 %; but "wax at 500 g" is.
_LABEL_SIGNS = wordset(": = @ ( )")

# Words that lean on the amount before them, and those that lean on the one after.
_POSTPOSED = wordset("each left empty spare without full by_weight finished together flakes carrier")
_FIRMLY_POSTPOSED = wordset("each left without by_weight together")
_FLAGS = wordset(
    "makes each empty full left spare limit meant strength molten step want have already fill holds by_weight finished"
    " together",
    "smallest error net wide high long add price without hot carrier of_wax of_total buy label us uk compare "
    "wrong split",
)
_FIRMLY_PREPOSED = wordset("meant")
FLAG_REACH = 6


def assign(scan: Scan) -> None:
    """Fill in `of`, `name`, `subject` and `flags` of every amount of the scan."""
    runs = runs_of(scan.marks)
    scan.heads = [(run.first, run.head) for run in runs]
    _attach_nouns(scan, runs)
    _attach_flags(scan)
    _deduce(scan)


SURE = 0.5
# What it costs to leave an amount without a noun: for a weight dearer than any noun in reach.
NO_NOUN = 3.6
_NO_NOUN_OF = {
    "percent": 1.2,
    "number": 0.6,
    "temperature": 0.3,
    "money": 0.3,
    "density": 0.5,
    "rate": 0.5,
    "ratio": 0.5,
}
_OF = 0.5  # "2.2 kg of wax" can hardly be anything else
_COUNTED = 1.0  # "2 blocks, each 1.25 kg": what is counted belongs to its count
_RIGHT_FIRST = 0.05  # "500 g wax" is more usual than "wax 500 g"
_NEAREST_LEFT = {"number": 0.7, "drop": 0.7, "percent": 1.5}
_NEAREST_RIGHT = {"percent": 2.3, "mass": 1.6, "volume": 1.6}
_NEVER_OF = {"mass": wordset("load density divisor"), "volume": wordset("load density divisor scale")}


@dataclass(slots=True)
class Offer:
    """A run that an amount may be of: its place among the runs, what that costs, on which side it stands."""

    run: int
    cost: float
    side: str


Chain = tuple[Any, Offer | None] | None  # the choices before, and the last one


def _attach_nouns(scan: Scan, runs: list[Run]) -> None:
    """Nouns to amounts so that all of them together stand as near as can be; no run serves two amounts."""
    starts = {run.first: k for k, run in enumerate(runs)}
    ends = {run.last: k for k, run in enumerate(runs)}
    # best[k]: the cheapest choices up to here that end with run k taken by the right side (-1: with none), linked
    # backwards from the last amount
    best: dict[int, tuple[float, Chain]] = {-1: (0.0, None)}
    for measured in scan.found:
        offers = _offers(scan.marks, measured, runs, starts, ends)
        fresh: dict[int, tuple[float, Chain]] = {}
        for last, (cost, chain) in best.items():
            for offer in offers:
                if offer is not None and offer.side == "left" and offer.run == last:
                    continue
                end = offer.run if offer is not None and offer.side == "right" else -1
                total = cost + (_NO_NOUN_OF.get(measured.kind, NO_NOUN) if offer is None else offer.cost)
                if end not in fresh or total < fresh[end][0]:
                    fresh[end] = (total, (chain, offer))
        best = fresh
    _, chain = min(best.values(), key=lambda found: found[0])
    for measured in reversed(scan.found):
        assert chain is not None
        chain, offer = chain
        if offer is not None:
            measured.of, measured.name, measured.side = runs[offer.run].head, runs[offer.run].text, offer.side
            measured.sure = offer.cost < SURE


def _offers(
    marks: list[Mark], measured: Measured, runs: list[Run], starts: dict[int, int], ends: dict[int, int]
) -> list[Offer | None]:
    """The nearest run on either side, where it is near enough, and none at all."""
    out: list[Offer | None] = [None]
    never = _NEVER_OF.get(measured.kind, frozenset())
    right = _walk(marks, measured, 1, starts)
    left = _walk(marks, measured, -1, ends)
    if measured.kind in ("length", "money", "temperature", "difference"):
        return out
    if left is not None:
        measured.subject = runs[left[1]].head
        if left[0] < _NEAREST_LEFT.get(measured.kind, FARTHEST) and measured.subject not in never:
            out.append(Offer(left[1], left[0], "left"))
    if right is not None:
        run = runs[right[1]]
        labelled = measured.at > 0 and marks[measured.at - 1].text in ("=", ":")
        labels_next = labelled and run.last + 1 < len(marks) and marks[run.last + 1].text in ("=", ":")
        if right[0] < _NEAREST_RIGHT.get(measured.kind, FARTHEST) and run.head not in never:
            of = marks[measured.at + 1].text == "of"
            bonus = _COUNTED if measured.kind == "number" and right[0] < 0.5 else _OF if of else _RIGHT_FIRST
            out.append(Offer(right[1], right[0] + (3.0 if labels_next else -bonus), "right"))
    return out


def _walk(marks: list[Mark], measured: Measured, way: int, edges: dict[int, int]) -> tuple[float, int] | None:
    """The nearest run on one side and what it costs to get there; None where something parts them."""
    cost, i = 0.0, measured.at + way
    share = measured.kind == "percent"
    while 0 <= i < len(marks) and cost < FARTHEST:
        mark = marks[i]
        if mark.kind in ("amount", "stop"):
            return None
        if i in edges:
            contained = way > 0 and mark.noun in ("pot", "jar") and _says_in(marks, measured.at, i)
            return None if contained else (cost, edges[i])
        if share and way > 0 and not mark.tags.isdisjoint(("of_wax", "of_total")):
            return None
        in_each = mark.text == "in" and "each" in marks[i - way].tags
        cost += 0.2 if in_each else _cost(mark, share)
        i += way
    return None


def _says_in(marks: list[Mark], at: int, i: int) -> bool:
    """ "900 g in the pot": the pot is where it is, not what it is of."""
    return any(mark.text in ("in", "into", "inside") for mark in marks[at + 1 : i])


def _cost(mark: Mark, share: bool) -> float:
    if mark.kind == "sign":
        if mark.text in _LABEL_SIGNS:
            return 3.0 if share and mark.text == "@" else 0.1
        return _PARTING_SIGNS.get(mark.text, 0.5)
    if mark.kind == "unit":
        return 2.5
    if "asks" in mark.tags:
        return BARRED
    if mark.text == "at":
        return 2.0 if share else 0.4
    if mark.text in _DESTINATION and "by_weight" not in mark.tags:
        return 3.5 if share else BARRED  # "oil for 300 g", "20 g into the wax": these are of another thing
    if mark.text in _PARTING_WORDS and "by_weight" not in mark.tags:
        return 3.5 if mark.text not in ("and", "plus", "or") else 3.0
    if mark.text in JOINING or not mark.tags.isdisjoint(("by_weight", "each", "molten", "flakes", "together")):
        return 0.2
    return 1.3


def _attach_flags(scan: Scan) -> None:
    """Each telling word to the amount nearest to it in the same sentence."""
    before: Measured | None = None
    ahead = _amounts_ahead(scan.marks)
    distance = 0
    for i, mark in enumerate(scan.marks):
        if mark.kind == "amount":
            before, distance = mark.measured, 0
            continue
        if mark.kind == "stop":
            before = None
            continue
        distance += 3 if mark.text == "," else 2 if mark.text in ("+", "and", "but") else 1
        flags = mark.tags & _FLAGS if mark.tags else ()
        if not flags:
            continue
        after, steps = ahead[i]
        near_before = before is not None and distance <= FLAG_REACH
        near_after = after is not None and steps <= FLAG_REACH
        for flag in flags:
            to_before = near_before and (
                not near_after or distance < steps or (distance == steps and flag in _POSTPOSED)
            )
            if flag in _FIRMLY_PREPOSED and near_after:
                to_before = False
            if flag in _FIRMLY_POSTPOSED and near_before and distance <= steps + 1:
                to_before = True
            if to_before and before is not None:
                before.flags.add(flag)
            elif near_after and after is not None:
                after.flags.add(flag)


def _amounts_ahead(marks: list[Mark]) -> list[tuple[Measured | None, int]]:
    """For each mark the next amount of the same sentence and how many steps it is away."""
    out: list[tuple[Measured | None, int]] = [(None, 0)] * len(marks)
    after: Measured | None = None
    steps = 0
    for i in range(len(marks) - 1, -1, -1):
        mark = marks[i]
        if mark.kind == "stop":
            after = None
        elif mark.kind == "amount":
            after, steps = mark.measured, 0
        else:
            steps += 2 if mark.text in (",", "+", "and", "but") else 1
        out[i] = (after, steps)
    return out


def _share_unit(scan: Scan) -> None:
    """ "300 wax 24 oil grams", "soy 450, paraffin 150 (grams)": the one unit named goes with all the numbers."""
    bare = [m for m in scan.kind("number") if m.of in ("wax", "fragrance", "total") and not m.amount.unit]
    units = {mark.unit for mark in scan.marks if mark.kind == "unit" and mark.unit in ("g", "kg", "oz", "lb")}
    if (
        len(bare) < 2
        or len(units) != 1
        or scan.masses()
        or scan.has("asks")
        or any(mark.unit == "part" for mark in scan.marks)
    ):
        return
    unit = units.pop()
    for m in bare:
        m.kind, m.value = "mass", Mass.of(m.amount.value, unit)
        m.amount = dataclasses.replace(m.amount, unit=unit)


def _deduce(scan: Scan) -> None:
    """What follows from how two amounts stand to each other: "30 g in 470 g of wax" is 30 g of fragrance."""
    _share_unit(scan)
    _unit_of_oil(scan)
    for m in scan.found:
        if m.kind == "percent" and m.amount.text.startswith(("a ", "as ")) and m.at and _before(scan, m) in _PUT_AS:
            m.kind, m.value = "asked", None  # "1 oz per lb as a percent"
        if m.of in ("wax", "total") and m.kind == "mass" and (thousands := _thousands(m.amount)) is not None:
            m.amount, m.value = thousands, Mass.of(thousands.value, "g")
    for m in scan.found:
        if m.kind == "mass" and m.of == "wax" and [x.text for x in scan.marks[m.at + 1 : m.at + 4]][::2] == ["=", "+"]:
            m.of = "total"  # "2 kg = wax + oil"
    masses = [m for m in scan.found if m.kind in ("mass", "volume", "drop")]
    for one, other in itertools.pairwise(masses):
        between = scan.marks[one.at + 1 : other.at]
        if any(mark.kind == "stop" for mark in between) or len(between) > 5:
            continue
        if one.at and scan.marks[one.at - 1].text == "from":
            continue
        poured = any(mark.text in ("in", "into", "to", "for", "per", "over", "on") for mark in between)
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
        elif poured and one.of == "fragrance" and not other.of:
            other.of = "wax"
    _with_the_next(scan, masses)


_PUT_AS = wordset("as in what like")


def _before(scan: Scan, m: Measured) -> str:
    return scan.marks[m.at - 1].text


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
