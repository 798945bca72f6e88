"""Nouns that stand together in a text, and what they are of together."""

from __future__ import annotations

from dataclasses import dataclass

from core.reading.marks import Mark
from core.reading.words import JOINING
from core.reading.wordset import wordset


@dataclass(slots=True)
class Run:
    """Nouns next to one another; `head` is what they are together."""

    first: int
    last: int
    head: str
    text: str


def runs_of(marks: list[Mark]) -> list[Run]:
    runs: list[Run] = []
    i = 0
    while i < len(marks):
        if not (marks[i].kind == "word" and marks[i].noun) or _is_verb(marks, i):
            i += 1
            continue
        j = i
        while (
            j + 1 < len(marks) and marks[j + 1].kind == "word" and marks[j + 1].noun and not _begins_anew(marks, j + 1)
        ):
            j += 1
        j = _before_load(marks, i, j)
        heads = [marks[k].noun if marks[k].text not in _MIXED else "mixed" for k in range(i, j + 1)]
        text = " ".join(marks[k].text for k in range(i, j + 1))
        runs.append(Run(i, j, _head(heads, text), text))
        i = j + 1
    return _merged(marks, runs)


def _of_next(marks: list[Mark], before: Run, run: Run) -> bool:
    """ "A batch of wax"."""
    return run.first == before.last + 2 and marks[before.last + 1].text == "of"


def _before_load(marks: list[Mark], i: int, j: int) -> int:
    """ "800 g wax total load 9 %": the load and the word before it begin a run of their own."""
    before = marks[i - 1].measured if i else None
    weighed = before is not None and before.kind != "percent"
    for k in range(i + 1, j + 1):
        if marks[k].noun == "load" and weighed and k == i + 1:
            return i  # "1 part fragrance, load?"
        if marks[k].noun == "load":
            first = k - 1 if marks[k - 1].noun in ("total", "fragrance") else k
            return first - 1 if first > i else j
    return j


def _begins_anew(marks: list[Mark], k: int) -> bool:
    """ "Wax everything" and "beeswax total 1000 g" are two things."""
    if marks[k].text in _APART:
        return True
    if marks[k].text == "total" and marks[k - 1].text == "wax":
        return False  # "wax total 1400 g"
    return marks[k].text == "total" and k + 1 < len(marks) and marks[k + 1].kind == "amount"


_VERBS = wordset("mix scent perfume smell colour color dye label box pack fill sample base blend")


_BEFORE_VERB = wordset("to will can must should we they i you dont don't not would")


def _is_verb(marks: list[Mark], i: int) -> bool:
    """ "I melt 3 lb" is no candle, "to scent 2 kg of wax" no fragrance; "a melt of 30 g" is a candle."""
    before = marks[i - 1] if i else None
    if marks[i].text in _MIXED:
        return i + 1 >= len(marks) or not marks[i + 1].noun
    if marks[i].text in _VERBS:
        return before is not None and before.text in _BEFORE_VERB
    if marks[i].text != "melt":
        return False
    return before is None or not (
        before.kind == "amount" or before.text in ("a", "per", "each", "one", "every", "wax", "scented")
    )


# They say "all of it" after a noun, and are no part of its name.
_MIXED = wordset("scented fragranced")  # "scented wax" is wax with its fragrance


_TOTAL_OF_WAX = ("wax total", "waxes total", "wax altogether")
_APART = wordset("everything whole altogether")


def _head(heads: list[str], text: str) -> str:
    """The last noun; but a "fragrance load" is a load, "dye chips" are dye, "scented wax" is the mix."""
    if "load" in heads[1:]:
        return "load"
    if heads == ["wax", "total"] and text in _TOTAL_OF_WAX:
        return "wax"
    if heads[-1] == "wax" and heads[0] in ("dye", "additive"):
        return heads[0]
    if heads[0] == "mixed":
        return "total" if heads[-1] in ("wax", "mixed") else heads[-1]
    return heads[-1]


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
        if before is not None and before.text == "batch" and run.head == "wax" and _of_next(marks, before, run):
            out[-1] = Run(before.first, run.last, run.head, run.text)
            continue
        if before is not None and _includes(marks, before, run):
            out[-1] = Run(before.first, run.last, "total", f"{before.text} and {run.text}")
            continue
        pair = before is not None and {before.head, run.head} <= _CONTENTS
        summed = before is not None and before.text.startswith("total ")  # "230 g total wax + fo"
        alone = summed or (before is not None and (not _right_after_amount(marks, before) or _holds_both(marks, run)))
        if before and joined and pair and before.head != run.head and alone:
            out[-1] = Run(before.first, run.last, "total", f"{before.text} and {run.text}")
        else:
            out.append(run)
    return out


def _includes(marks: list[Mark], before: Run, run: Run) -> bool:
    """ "Batch total incl oil": one thing."""
    between = [mark.text for mark in marks[before.last + 1 : run.first]]
    said = bool(between) and between[0] in ("incl", "including", "included", "inclusive") and len(between) <= 3
    return said and before.head in ("wax", "total", "candle") and run.head == "fragrance"


_CONTENTS = wordset("wax fragrance dye total additive")


def _holds_both(marks: list[Mark], run: Run) -> bool:
    """ "500 g of wax and oil" is of both, where no amount of the oil's own follows."""
    after = marks[run.last + 1 : run.last + 4]
    return not any(mark.kind == "amount" for mark in after[:3])


def _right_after_amount(marks: list[Mark], run: Run) -> bool:
    i = run.first - 1
    while i >= 0 and marks[i].kind == "word" and marks[i].text in JOINING:
        i -= 1
    return i >= 0 and marks[i].kind == "amount"
