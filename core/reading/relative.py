"""Percents told by another one: half of that, twice the dose, two percent under the limit."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.reading.marks import Mark, Measured, Scan
from core.reading.quantities import quantity
from core.reading.wordset import wordset

_FACTORS = {
    "half": Decimal("0.5"),
    "twice": Decimal(2),
    "double": Decimal(2),
    "triple": Decimal(3),
}
_BACK = wordset("that it this those")
_DOSE = wordset("strength dose rate load limit max maximum dosage usage percentage recommended")
_UNDER, _OVER = wordset("under below less lower beneath short"), wordset("above over more higher beyond")
_LIMIT = wordset("max maximum limit that it this sheet recommended recommendation most supplier")
_SMALL = wordset("of the than my his her their")


def take_relations(scan: Scan) -> None:
    """Put the figure meant where a percent is told by another one."""
    percents = scan.kind("percent")
    if not percents:
        return
    for one, other in itertools.pairwise(percents):
        _from_the_limit(scan, one, other)
        _than_the_other(scan, one, other)
    for i, mark in enumerate(scan.marks):
        factor = _factor(mark)
        if factor is not None and (given := _back(scan, i)) is not None:
            _change(given, given.amount.value * factor)
            given.flags -= {"limit"}
            if mark.measured is not None:
                mark.measured.of = "part"
            else:
                scan.words -= {mark.text}  # it multiplies no weight any more
                mark.text = ""


def _factor(mark: Mark) -> Decimal | None:
    m = mark.measured
    if m is not None and m.kind == "number" and 0 < m.amount.value < 1 and not m.amount.unit:
        return m.amount.value if m.amount.text.startswith(("half", "a ", "one ")) else None
    return _FACTORS.get(mark.text) if mark.kind == "word" else None


def _back(scan: Scan, i: int) -> Measured | None:
    """The percent that "half of that" or "half the dose" at mark `i` speaks of: the last amount before it."""
    j = i + 1
    while j < len(scan.marks) and scan.marks[j].text in _SMALL:
        j += 1
    said = scan.marks[j].text if j < len(scan.marks) else ""
    before = [m for m in scan.found if m.at < i]
    percents = [m for m in before if m.kind == "percent"]
    if said in _DOSE and len(percents) == 1:
        return percents[0]
    following = [mark for mark in scan.marks[j + 1 : j + 3] if mark.kind == "word"]
    named = any(mark.noun and mark.text not in _DOSE for mark in following)
    if said in _BACK and not named and before and before[-1].kind == "percent" and before[-1].amount.high is None:
        return before[-1]
    return None


def _from_the_limit(scan: Scan, limit: Measured, m: Measured) -> None:
    """ "The maximum is 10 %, stay 2 % under it": 8 %."""
    near = [mark.text for mark in scan.marks[m.at + 1 : m.at + 6]]
    if not near or near[0] not in _UNDER | _OVER:
        return
    rest = [word for word in near[1:] if word not in _SMALL]
    told = limit["limit"] or "limit" in m.flags
    if (rest[:1] and rest[0] not in _LIMIT) or not (told and m.amount.value < limit.amount.value):
        return
    way = -1 if near[0] in _UNDER else 1
    _change(m, limit.amount.value + way * m.amount.value)
    m.flags -= {"limit"}
    limit.flags.add("limit")


def _than_the_other(scan: Scan, m: Measured, other: Measured) -> None:
    """ "1 % stronger than the 7 % they say": 8 %."""
    words = [mark.text for mark in scan.marks[m.at + 1 : other.at] if mark.text not in ("points", "point")]
    if len(words) < 2 or words[1] != "than" or len(words) > 6 or not m.amount.value < other.amount.value:
        return
    if words[0] in ("stronger", "more", "higher", "over", "above"):
        way = 1
    elif words[0] in ("weaker", "less", "lower", "under", "below", "lighter"):
        way = -1
    else:
        return
    _change(m, other.amount.value + way * m.amount.value)
    other.kind, other.of, other.value = "told", "told", None


def _change(m: Measured, value: Decimal) -> None:
    m.amount = dataclasses.replace(m.amount, value=value)
    m.value = quantity(m.amount)
