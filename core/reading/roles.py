"""What each amount of a text is an amount of: by the noun nearest to it, and the words that stand by it."""

from __future__ import annotations

from core.reading.deduced import deduce
from core.reading.marks import Mark, Measured, Scan
from core.reading.nearest import attach_nouns
from core.reading.runs import runs_of
from core.reading.wordset import wordset

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
    attach_nouns(scan, runs)
    _attach_flags(scan)
    deduce(scan)


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
        distance += 3 if mark.text in (",", ".") else 2 if mark.text in ("+", "and", "but") else 1
        flags = mark.tags & _FLAGS if mark.tags else ()
        if flags and mark.text == "in all" and i + 1 < len(scan.marks) and scan.marks[i + 1].text == "of":
            flags = flags - {"together"}  # "8 % in all of them"
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
            if flag in _ADJECTIVES and near_after and steps <= 2 and _leads_noun(scan.marks, i):
                to_before = False
            if flag in _FIRMLY_POSTPOSED and near_before and distance <= steps + 1:
                to_before = True
            if to_before and before is not None:
                before.flags.add(flag)
            elif near_after and after is not None:
                after.flags.add(flag)


_ADJECTIVES = ("full", "empty")


def _leads_noun(marks: list[Mark], i: int) -> bool:
    """ "Empty bottle 48 g, full bottle 148 g": the word stands before the noun of the next amount."""
    return i + 1 < len(marks) and marks[i + 1].noun in ("pot", "jar", "bottle", "measure", "candle")


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
            steps += 2 if mark.text in (",", ".", "+", "and", "but") else 1
        out[i] = (after, steps)
    return out
