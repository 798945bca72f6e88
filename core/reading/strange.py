"""Bare numbers that nothing tells the meaning of: they may count, be a percent, or a weight without its unit."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from core.answer import Answer, Worked
from core.question import Question
from core.questions.load import LoadQuestion
from core.reading.accounted import ASIDE, field_names
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.wordset import wordset
from core.units import Quantity


def strange_numbers(g: Givens, made: Question | Answer) -> list[Measured]:
    """Bare numbers that nothing tells the meaning of: they may count, be a percent or a weight without its unit."""
    numbers = g.scan.kind("number")
    if not numbers:
        return []
    held = set(_numbers(made))
    if not held and not isinstance(made, Question | Worked):
        return []
    marks, out = g.scan.marks, []
    for m in numbers:
        if m.of or m.amount.unit or m.amount.value in held or m.amount.value in (0, 1) or m.flags & ASIDE:
            continue
        if m.at in g.used or any(m.amount.value == x.amount.value for x in g.scan.kind("percent")):
            continue
        if _worked_out(m, g, held) or _aside(g, m, made):
            continue
        before = [mark.text for mark in marks[max(0, m.at - 3) : m.at]]
        after = [mark.text for mark in marks[m.at + 1 : m.at + 3]]
        if _HARMLESS.isdisjoint((*before[-1:], *after[:1])) and _TOLD_BEFORE.isdisjoint(before) and not _listed(after):
            out.append(m)
    return out


def _aside(g: Givens, m: Measured, made: Question | Answer) -> bool:
    """ "Wick ZV 12" names a wick; "I say 6, who is right" is told beside a load that is worked out."""
    before = g.scan.marks[max(0, m.at - 3) : m.at]
    if any(mark.noun == "wick" for mark in before):
        return True
    weighed = isinstance(made, LoadQuestion) and made.fragrance is not None and (made.wax or made.total) is not None
    return weighed and any(mark.text in _SAID for mark in before[-2:])


_SAID = wordset("say says said think thinks reckon reckons guess believe")


def _worked_out(m: Measured, g: Givens, held: set[Decimal]) -> bool:
    """It went in as a product ("12 sets of 3") or a difference ("2035 with the pot of 385 g"), or counts a list."""
    value = m.amount.value
    others = [x.amount.value for x in g.scan.found if x is not m]
    if any(value * other in held or abs(value - other) in held for other in others):
        return True
    if value < 1 and value * 100 in held:
        return True  # "three quarters full"
    lists = (g.scan.masses(), g.scan.volumes(), g.scan.masses("fragrance"), g.scan.masses("wax"))
    before = g.scan.marks[m.at - 1].text if m.at else ""
    return value in [len(each) for each in lists] or (before == "all" and value <= _MOST_TOLD)


_MOST_TOLD = 6  # "all three, please": so many figures are wanted


def _listed(after: list[str]) -> bool:
    """ "Give me all 3", "three weights", "the two of them"."""
    return (
        not after or after[0] in ("weights", "amounts", "numbers", "figures", "values") or after[:2] == ["of", "them"]
    )


def _numbers(made: Any) -> Iterator[Decimal]:
    """Every bare number inside a question: counts, ratios, parts; lengths and weights by their figure too."""
    if isinstance(made, bool):
        return
    if isinstance(made, int):
        yield Decimal(made)
    elif isinstance(made, Decimal):
        yield made
    elif isinstance(made, Quantity):
        yield made.base
        yield made.to(made.unit)
    elif isinstance(made, Answer):
        for each in (made, *made.then):
            yield from _numbers(getattr(each, "question", None))
    elif isinstance(made, tuple):
        for each in made:
            yield from _numbers(each)
    else:
        for name in field_names(type(made)):
            if (value := getattr(made, name)) is not None:
                yield from _numbers(value)


_HARMLESS = wordset(
    "january february march april may june july august september october november december",
    "jan feb mar apr jun jul aug sep sept oct nov dec wick size number no step day days week weeks month months",
    "year years page like people kids persons friends guests minutes hours old stars nr room shelf version part",
)


_TOLD_BEFORE = wordset("cost costs price paid pay sell or instead meant")
