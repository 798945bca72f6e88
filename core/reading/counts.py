"""How many of what: numbers of vessels and packs, and the weight or volume that goes into each."""

from __future__ import annotations

import dataclasses
import itertools

from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.wordset import wordset

MOST_COUNT = 1_000_000


_LINK = 5  # how many words may part "15 tins" from "120 g wax in each"


_SETS = wordset("sets set batches times rounds gifts boxes packs")


def multiplier(g: Givens, pairs: list[tuple[int, Measured]]) -> int | None:
    """ "Sets of 3 candles, I make 12 sets": how often all of it; None where a number may or may not multiply."""
    counts = {count for count, _ in pairs}
    others = [m for m in g.scan.kind("number") if m.amount.value > 1 and int(m.amount.value) not in counts]
    sets = [m for m in others if m.at + 1 < len(g.scan.marks) and g.scan.marks[m.at + 1].text in _SETS]
    if len(sets) == 1 and sets[0].amount.value == int(sets[0].amount.value):
        return int(sets[0].amount.value)
    return None if sets or any(_made_so_many(g, m) for m in others) else 1


def plural(word: str) -> bool:
    return word.endswith("s") and not word.endswith("ss")


def pairs_of(g: Givens) -> list[tuple[int, Measured]]:
    """Counts with what each of them takes, where every weight has one: "8 small @ 90 g and 4 big @ 310 g"."""
    if not g.scan.kind("number"):
        return []
    pairs, lonely, counts = counted(g)
    if pairs and not lonely:
        return pairs
    if len(counts) == 1 and len(lonely) == 1 and not pairs and (_each(g) or _times(g, lonely[0], counts[0])):
        return [(int(counts[0].amount.value), lonely[0])]
    return []


def paired(g: Givens) -> list[tuple[int, Measured]]:
    """The same where some weights have no count."""
    return pairs_of(g) or (counted(g)[0] if g.scan.kind("number") else [])


def counted(g: Givens) -> tuple[list[tuple[int, Measured]], list[Measured], list[Measured]]:
    """The counts with what each takes; the weights without a count; all the counts."""
    several = any(m.amount.value > 1 and counts_vessels(g, m) for m in g.scan.kind("number"))
    counts: list[Measured] = []
    pairs: list[tuple[int, Measured]] = []
    waiting: Measured | None = None
    lonely: list[Measured] = []
    for m in g.scan.found:
        if m.kind == "number" and m.amount.value == 1 and several:
            continue  # "in one jar"
        if m.kind == "number" and counts_vessels(g, m):
            if waiting is not None and _multiplied(g, waiting, m):
                m = dataclasses.replace(
                    m, amount=dataclasses.replace(m.amount, value=m.amount.value * waiting.amount.value)
                )
            waiting = m
            counts.append(m)
        elif m.kind in ("mass", "volume") and not _whole(m) and _fills(m, waiting):
            if waiting is not None and _linked(g, waiting, m):
                pairs.append((int(waiting.amount.value), m))
                waiting = None
            else:
                lonely.append(m)
    return pairs, lonely, counts


def _multiplied(g: Givens, one: Measured, other: Measured) -> bool:
    """ "3 trays of 6 melts": three times six."""
    between = [mark.text for mark in g.scan.marks[one.at + 1 : other.at]]
    return 0 < len(between) <= 3 and between[-1] in ("of", "x", "×", "*", "with")


def _fills(m: Measured, counted: Measured | None) -> bool:
    """Whether the amount may be what one of the counted takes."""
    if m.of == "pack":
        return counted is not None
    if m.of == "bottle":
        return counted is not None and counted.of == m.of
    if m.of == "fragrance":
        return counted is not None and counted.of not in ("jar", "candle")
    return m.of not in ("dye", "water", "box", "lid", "scale")


def _whole(m: Measured) -> bool:
    """Whether the amount is said to be the total, not what goes into each."""
    said = m.of == "total" and any(word in m.name for word in ("total", "altogether", "batch", "everything", "whole"))
    return (said or m["together"]) and not m["each"]


_SIZED = wordset("@ with x big small large of at medium tall short mini tiny little huge wide")


def counts_vessels(g: Givens, m: Measured) -> bool:
    value = m.amount.value
    if m.amount.unit or value != value.to_integral_value() or not 1 <= value <= MOST_COUNT:
        return False
    if m.of in ("jar", "candle", "pack", "bottle", "measure"):
        return True
    if _made_so_many(g, m) or _makers(g, m):
        return True
    after = g.scan.marks[m.at + 1] if m.at + 1 < len(g.scan.marks) else None
    before = g.scan.marks[m.at - 1] if m.at else None
    if after is not None and after.measured is not None and after.measured.kind == "mass" and after.gap == " ":
        beyond = g.scan.marks[m.at + 2 : m.at + 10]
        if value > 1 and any(mark.noun in ("candle", "jar") for mark in beyond if mark.kind == "word"):
            return True
    shots = g.scan.marks[m.at + 1 : m.at + 4]
    if (
        value > 1
        and len(shots) == 3
        and shots[0].kind == "word"
        and shots[1].text == "of"
        and shots[2].kind == "amount"
    ):
        return True
    signs = ("x", "@", "*", "×")
    if m.of == "" and value > 1 and after is not None and after.noun in ("jar", "candle") and after.gap == " ":
        return True  # "two candles 3 oz each": the noun went to the weight
    second = g.scan.marks[m.at + 2] if m.at + 2 < len(g.scan.marks) else None
    if m.of == "pot" and value > 1 and second is not None and second.text in ("@", "at", "x", "of", "with"):
        return True
    if (after is not None and after.text in signs) or (before is not None and before.text in signs):
        return True
    nearby = g.scan.marks[m.at + 1 : m.at + 4]
    return value > 1 and any(mark.text in _SIZED for mark in nearby) and m.of in ("", "wax")


_NOT_EACH = wordset("from altogether total using")


_PEOPLE = wordset(
    "kids children people persons friends guests pupils students learners ladies women men girls boys participants "
    "attendees members adults teens customers workers"
)


def _makers(g: Givens, m: Measured) -> bool:
    """ "26 kids, each makes a 45 g candle": as many candles as people."""
    after = g.scan.marks[m.at + 1 : m.at + 2]
    return m.amount.value > 1 and bool(after) and after[0].text in _PEOPLE and gives_each(g)


_MAKING = wordset("make making makes pour pouring need want do")


def _made_so_many(g: Givens, m: Measured) -> bool:
    """ "I make 4", "I want 15 of them"."""
    marks = g.scan.marks
    before = marks[m.at - 1] if m.at else None
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    ends = after is None or after.kind in ("stop", "sign") or after.text in ("of", "pieces", "pcs")
    return before is not None and before.text in _MAKING and ends and m.of == "" and m.amount.value > 1


def _linked(g: Givens, count: Measured, m: Measured) -> bool:
    """Whether the amount is what each of the counted takes."""
    between = g.scan.marks[count.at + 1 : m.at]
    if len(between) > _LINK + 4 or any(mark.kind == "amount" or mark.text in _NOT_EACH for mark in between):
        return False
    stops = [mark for mark in between if mark.kind == "stop" or mark.text == "."]
    if stops:
        return _each(g) and (m["each"] or m.of in ("wax", "total", ""))
    if any(mark.text in ("and", "but") for mark in between):
        return _each(g)
    return len(between) <= _LINK or _each(g)


def asks_for_one(g: Givens) -> bool:
    """ "How much oil in one?", "per candle?": the sum for a single one is asked for."""
    marks = g.scan.marks
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
                one in ("in", "for", "per") and two in ("one", "each", "candle", "jar")
                for one, two in itertools.pairwise(words)
            )
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
        if mark.kind == "unit" or mark.text in (",", "weights", "amounts", "both"):
            return not any(after.kind in ("word", "amount") for after in marks[i + 1 :])
    return False


TAKING = wordset("takes take holds hold gets get weighs weigh needs eats")


def gives_each(g: Givens) -> bool:
    """Whether "each" or "apiece" is said of what is given, not of what is asked."""
    marks = g.scan.marks
    return any("each" in mark.tags and not _asked_each(marks, i) for i, mark in enumerate(marks))


def _each(g: Givens) -> bool:
    """ "Each", "per jar", "one takes", "a candle": so much goes into every one."""
    marks = g.scan.marks
    if gives_each(g):
        return True
    for i, mark in enumerate(marks[:-1]):
        if mark.noun in ("jar", "candle") and marks[i + 1].text in TAKING:
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


def _times(g: Givens, m: Measured, count: Measured) -> bool:
    between = g.scan.marks[min(m.at, count.at) + 1 : max(m.at, count.at)]
    return any(mark.text in ("x", "@", "×", "*") for mark in between)
