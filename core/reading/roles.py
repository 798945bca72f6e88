"What each amount of a text is an amount of: by the noun nearest to it, and the words that stand by it."

from __future__ import annotations

import itertools
from dataclasses import dataclass

from core.compounds import Basis
from core.reading.scan import Mark, Measured, Scan
from core.reading.words import JOINING
from core.reading.wordset import wordset

# How far a noun may stand from its amount, in the costs below.
FARTHEST = 4.6
_PARTING_SIGNS = {
    ",": 2.5,
    ".": 2.5,
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
_PARTING_WORDS = wordset(
    "in into for per from with on by onto over to and plus or than vs versus against but so then if"
)
# "wax at 8 %" is no wax of 8 %; but "wax at 500 g" is.
_LABEL_SIGNS = wordset(": = @ ( )")

# Words that lean on the amount before them, and those that lean on the one after.
_POSTPOSED = wordset("each left empty spare without full by_weight finished together flakes carrier")
_FLAGS = wordset(
    "each empty full left spare limit meant strength molten step want have already fill holds by_weight finished"
    " together",
    "smallest error net wide high long add price without hot carrier of_wax of_total buy label us uk compare "
    "wrong split",
)
FLAG_REACH = 6


@dataclass(slots=True)
class Run:
    "Nouns next to one another; `head` is what they are together."

    first: int
    last: int
    head: str
    text: str


def assign(scan: Scan) -> None:
    "Fill in `of`, `name`, `subject` and `flags` of every amount of the scan."
    runs = _runs(scan.marks)
    _attach_nouns(scan, runs)
    _attach_flags(scan)
    _deduce(scan)


def _runs(marks: list[Mark]) -> list[Run]:
    runs: list[Run] = []
    i = 0
    while i < len(marks):
        if not (marks[i].kind == "word" and marks[i].noun):
            i += 1
            continue
        j = i
        while j + 1 < len(marks) and marks[j + 1].kind == "word" and marks[j + 1].noun:
            j += 1
        heads = [marks[k].noun for k in range(i, j + 1)]
        runs.append(Run(i, j, _head(heads), " ".join(marks[k].text for k in range(i, j + 1))))
        i = j + 1
    return _merged(marks, runs)


def _head(heads: list[str]) -> str:
    """The last noun; but "total load" and "fragrance load" are loads whatever follows."""
    return "load" if "load" in heads[1:] else heads[-1]


def _merged(marks: list[Mark], runs: list[Run]) -> list[Run]:
    """ "wax and oil", "wax + fragrance + dye": one thing, unless an amount of the first stands right before it."""
    out: list[Run] = []
    for run in runs:
        before = out[-1] if out else None
        joined = (
            before is not None
            and run.first == before.last + 2
            and marks[before.last + 1].text in ("and", "+", "&", "plus")
        )
        pair = before is not None and {before.head, run.head} <= _CONTENTS
        if before and joined and pair and before.head != run.head and not _right_after_amount(marks, before):
            out[-1] = Run(before.first, run.last, "total", f"{before.text} and {run.text}")
        else:
            out.append(run)
    return out


_CONTENTS = wordset("wax fragrance dye total additive")
_VESSELS = wordset("pot jar bottle measure candle")


def _right_after_amount(marks: list[Mark], run: Run) -> bool:
    i = run.first - 1
    while i >= 0 and marks[i].kind == "word" and marks[i].text in JOINING:
        i -= 1
    return i >= 0 and marks[i].kind == "amount"


def _attach_nouns(scan: Scan, runs: list[Run]) -> None:
    "Each noun to the amount it stands nearest to; the cheapest pairs first."
    starts = {run.first: k for k, run in enumerate(runs)}
    ends = {run.last: k for k, run in enumerate(runs)}
    pairs: list[tuple[float, int, int, Measured]] = []
    for order, measured in enumerate(scan.found):
        right = _walk(scan.marks, measured, 1, starts)
        left = _walk(scan.marks, measured, -1, ends)
        if right is not None:
            labels_next = runs[right[1]].last + 1 < len(scan.marks) and scan.marks[runs[right[1]].last + 1].text in "=:"
            if measured.kind != "percent" or right[0] < 2.3:
                pairs.append((right[0] + (3.0 if labels_next else -0.05), right[1], order, measured))
        if left is not None:
            measured.subject = runs[left[1]].head
            if measured.kind not in ("number", "drop", "percent") or left[0] < (
                1.5 if measured.kind == "percent" else 0.7
            ):
                pairs.append((left[0], left[1], order, measured))
    taken: set[int] = set()
    for _, k, _, measured in sorted(pairs, key=lambda pair: pair[:3]):
        if measured.of or k in taken:
            continue
        measured.of, measured.name = runs[k].head, runs[k].text
        taken.add(k)


def _walk(marks: list[Mark], measured: Measured, way: int, edges: dict[int, int]) -> tuple[float, int] | None:
    "The nearest run on one side and what it costs to get there; None where something parts them."
    cost, i = 0.0, measured.at + way
    share = measured.kind == "percent"
    while 0 <= i < len(marks) and cost < FARTHEST:
        mark = marks[i]
        if mark.kind in ("amount", "stop"):
            return None
        if i in edges:
            return cost, edges[i]
        if share and way > 0 and not mark.tags.isdisjoint(("of_wax", "of_total")):
            return None
        cost += _cost(mark, share)
        i += way
    return None


def _cost(mark: Mark, share: bool) -> float:
    if mark.kind == "sign":
        if mark.text in _LABEL_SIGNS:
            return 3.0 if share and mark.text == "@" else 0.1
        return _PARTING_SIGNS.get(mark.text, 0.5)
    if mark.kind == "unit":
        return 2.5
    if mark.text == "at" or mark.text == "to":
        return 2.0 if share else 0.4 if mark.text == "at" else 2.5
    if mark.text in _PARTING_WORDS and "by_weight" not in mark.tags:
        return 3.5 if mark.text not in ("and", "plus", "or") else 3.0
    if mark.text in JOINING or not mark.tags.isdisjoint(("by_weight", "each", "molten", "flakes")):
        return 0.2
    return 1.3


def _attach_flags(scan: Scan) -> None:
    "Each telling word to the amount nearest to it in the same sentence."
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
        distance += 2 if mark.text in (",", "+", "and", "but") else 1
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
            if flag in _POSTPOSED and near_before and distance <= steps + 1:
                to_before = True
            if to_before and before is not None:
                before.flags.add(flag)
            elif near_after and after is not None:
                after.flags.add(flag)


def _amounts_ahead(marks: list[Mark]) -> list[tuple[Measured | None, int]]:
    "For each mark the next amount of the same sentence and how many steps it is away."
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


def _deduce(scan: Scan) -> None:
    """What follows from how two amounts stand to each other: "30 g in 470 g of wax" is 30 g of fragrance."""
    masses = [m for m in scan.found if m.kind in ("mass", "volume", "drop")]
    for one, other in itertools.pairwise(masses):
        between = scan.marks[one.at + 1 : other.at]
        if any(mark.kind == "stop" for mark in between) or len(between) > 5:
            continue
        poured = any(mark.text in ("in", "into", "to", "for", "per", "over", "on") for mark in between)
        if poured and not one.of and other.of in ("wax", "") and not scan.has("net"):
            bare = all(mark.text in JOINING or mark.text in ("in", "into", "for", "over", "(", ")") for mark in between)
            if bare or other.of == "wax":
                one.of = "fragrance"
                other.of = other.of or "wax"
        elif poured and one.of == "fragrance" and not other.of:
            other.of = "wax"


def basis_near(scan: Scan, measured: Measured) -> Basis | None:
    "What a percent is said to be a percent of, by the words right beside it."
    if "of_total" in measured.flags and "of_wax" not in measured.flags:
        return Basis.TOTAL
    if "of_wax" in measured.flags and "of_total" not in measured.flags:
        return Basis.WAX
    return None
