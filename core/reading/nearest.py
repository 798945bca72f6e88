"""Nouns to amounts, so that all of them together stand as near as can be."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from core.reading.marks import Mark, Measured, Scan
from core.reading.runs import Run
from core.reading.words import JOINING
from core.reading.wordset import wordset

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


def attach_nouns(scan: Scan, runs: list[Run]) -> None:
    """Nouns to amounts so that all of them together stand as near as can be; no run serves two amounts."""
    there = [(k, run) for k, run in enumerate(runs) if not _is_denied(scan.marks, run)]
    starts = {run.first: k for k, run in there}
    ends = {run.last: k for k, run in there}
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


def _is_denied(marks: list[Mark], run: Run) -> bool:
    """ "200 g each, no fragrance": nothing can be of what is not there."""
    return run.head == "fragrance" and run.first > 0 and marks[run.first - 1].text in ("no", "without")


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
            j = i + (3 if marks[i + 2 : i + 3] and marks[i + 2].text in _EQUALS else 1)
            return (cost, edges[j]) if j in edges and _oil_of_total(marks, i) else None
        in_each = mark.text == "in" and "each" in marks[i - way].tags
        cost += 0.2 if in_each else _cost(mark, share)
        i += way
    return None


def _oil_of_total(marks: list[Mark], i: int) -> bool:
    """ "5 % of total oil, 1 % of total dye": so much of the whole is oil, and so much is dye."""
    after = marks[i + 1 : i + 4]
    if len(after) > 2 and after[1].text in _EQUALS:
        return "of_total" in marks[i].tags and after[2].noun in _IN_A_MIX
    named = len(after) > 1 and after[0].text == "total" and after[1].noun in _IN_A_MIX
    return named and "of_total" in marks[i].tags and not (len(after) > 2 and after[2].noun)


_EQUALS = wordset("is are : =")
_IN_A_MIX = ("fragrance", "dye", "additive")


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
    if "asks" in mark.tags or mark.text == "content":
        return BARRED  # "the oil content of a 250 g bar"
    if mark.text == "at":
        return 2.0 if share else 0.4
    if mark.text in _DESTINATION and "by_weight" not in mark.tags:
        return 3.5 if share else BARRED  # "oil for 300 g", "20 g into the wax": these are of another thing
    if mark.text in _PARTING_WORDS and "by_weight" not in mark.tags:
        return 3.5 if mark.text not in ("and", "plus", "or") else 3.0
    if mark.text in JOINING or not mark.tags.isdisjoint(("by_weight", "each", "molten", "flakes", "together")):
        return 0.2
    return 1.3
