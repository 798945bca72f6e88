"""What is said of each one: given ("60 g each"), or asked for ("how much in each?")."""

from __future__ import annotations

import itertools

from core.reading.givens import Givens
from core.reading.marks import Mark
from core.reading.wordset import wordset


def plural(word: str) -> bool:
    return word.endswith("s") and not word.endswith("ss")


def asks_for_one(g: Givens) -> bool:
    """ "How much oil in one?", "per candle?": the sum for a single one is asked for."""
    marks = g.scan.marks
    if _one_at_the_end(marks) or _asked_per_one(marks):
        return True
    for i, mark in enumerate(marks):
        if "asks" in mark.tags:
            rest = marks[i + 1 :]
            if any(
                after.kind == "amount" and after.measured is not None and after.measured.amount.value != 1
                for after in rest
            ):
                continue
            words = [after.text for after in rest]
            return any(
                one in ("in", "for", "per", "of") and two in ("one", "each", "candle", "jar")
                for one, two in itertools.pairwise(words)
            )
    return False


def _one_at_the_end(marks: list[Mark]) -> bool:
    """ "Oil per jar?", as the last words."""
    last = [mark for mark in marks if mark.kind not in ("stop", "sign")][-4:]
    asked = len(last) == 4 and last[2].text == "per" and last[3].noun in ("jar", "candle")
    asked = asked or (len(last) == 4 and last[2].text in ("for", "in") and last[3].text == "one")
    return (
        asked and (last[0].measured is None or last[0].measured.kind != "mass") and last[1].noun in ("fragrance", "wax")
    )


def _asked_per_one(marks: list[Mark]) -> bool:
    """ "... : wax per candle and for all"; "200 g of wax per candle" tells it."""
    for i in range(1, len(marks) - 2):
        thing, per, one = marks[i : i + 3]
        if thing.noun not in ("wax", "fragrance") or per.text != "per" or one.noun not in ("jar", "candle"):
            continue
        after = marks[i + 3] if i + 3 < len(marks) else None
        parted = marks[i - 1].text in (":", ",", ".", "?", ";", "how much") or marks[i - 1].kind == "stop"
        if parted and (after is None or after.kind == "stop" or after.text in ("and", "?", ",")):
            return True
    return False


def asks_for_each(g: Givens) -> bool:
    """ "How much of each?", "both?" at the end: two figures are asked for."""
    marks = g.scan.marks
    if any("each" in mark.tags and _asked_each(marks, i) for i, mark in enumerate(marks)):
        return True
    last = next((mark for mark in reversed(marks) if mark.kind == "word"), None)
    return (
        last is not None
        and last.text in ("each", "both", "respectively")
        and not any(m["each"] for m in g.scan.masses())
    )


def _asked_each(marks: list[Mark], i: int) -> bool:
    """ "How much wax in each?", "grams each": it is asked for, not given."""
    for mark in reversed(marks[max(0, i - 6) : i]):
        if mark.kind in ("amount", "stop"):
            return False
        if "asks" in mark.tags:
            return True
        if mark.kind == "unit" and _asks_before(marks, i, mark):
            return True  # "how many g in each jar"
        if mark.kind == "unit" or mark.text in (",", "weights", "amounts", "both"):
            return not any(after.kind in ("word", "amount") for after in marks[i + 1 :])
    return False


def _asks_before(marks: list[Mark], i: int, unit: Mark) -> bool:
    """Whether "how many" stands right before the unit, near mark `i`."""
    near = marks[max(0, i - 7) : i]
    return any(one.tags & {"asks"} and two is unit for one, two in itertools.pairwise(near))


TAKING = wordset("takes take holds hold gets get weighs weigh needs eats")


def gives_each(g: Givens) -> bool:
    """Whether "each" or "apiece" is said of what is given, not of what is asked."""
    marks = g.scan.marks
    return any("each" in mark.tags and not _asked_each(marks, i) for i, mark in enumerate(marks))


def says_each(g: Givens) -> bool:
    """ "Each", "per jar", "one takes", "a candle": so much goes into every one."""
    marks = g.scan.marks
    if gives_each(g):
        return True
    if any(one.text in ("fill", "pour", "filling") and two.text == "weight" for one, two in itertools.pairwise(marks)):
        return True
    for i, mark in enumerate(marks[:-1]):
        if mark.noun in ("jar", "candle") and marks[i + 1].text in TAKING:
            return True
        if _each_of_a_kind(marks, i):
            return True
        if mark.kind == "amount" and mark.text == "one" and marks[i + 1].noun in ("jar", "candle"):
            return True
        if mark.text in ("per", "one", "a", "every", "in") and mark.kind == "word":
            after = marks[i + 1]
            if (
                after.tags & {"holds"}
                or after.text in ("takes", "gets", "needs", "eats", "weighs")
                or (mark.text in ("per", "a", "every") and after.noun in ("jar", "candle") and not plural(after.text))
            ):
                return True
    return False


def _each_of_a_kind(marks: list[Mark], i: int) -> bool:
    """ "Tealights are 14 g when done": of a kind that nobody counted there."""
    uncounted = i == 0 or marks[i - 1].kind != "amount"
    said = (
        marks[i].noun in ("jar", "candle") and plural(marks[i].text) and marks[i + 1].text in ("are", "come", "=", ":")
    )
    return uncounted and said and i + 2 < len(marks) and marks[i + 2].kind == "amount"
