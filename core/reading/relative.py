"""Percents told by another one: half of that, twice the dose, two percent under the limit."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.answer import line
from core.reading.marks import Mark, Measured, Scan
from core.reading.quantities import quantity
from core.reading.wordset import wordset
from core.reading.workings import part
from core.units import Mass

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
    if not scan.kind("percent"):
        return
    _points(scan)
    _of_the_weight(scan)
    percents = scan.kind("percent")
    for one, other in itertools.pairwise(percents):
        _from_the_limit(scan, one, other)
        _than_the_other(scan, one, other)
    for i, mark in enumerate(scan.marks):
        factor = _factor(mark)
        given = _back(scan, i) or _ahead(scan, i) if factor is not None else None
        if factor is not None and given is not None:
            _change(given, given.amount.value * factor)
            given.flags -= {"limit"}
            if mark.measured is not None:
                mark.measured.of = "part"
            else:
                scan.words -= {mark.text}  # it multiplies no weight any more
                mark.text = ""
        elif mark.text in _PARTS:
            _part_off(scan, i, mark)


_PARTS = {
    "tenth": Decimal("0.1"),
    "eighth": Decimal("0.125"),
    "fifth": Decimal("0.2"),
    "quarter": Decimal("0.25"),
    "third": Decimal(1) / 3,
    "half": Decimal("0.5"),
}
_LESS, _MORE = wordset("less lower under below weaker off"), wordset("more higher over above stronger again")


def _part_off(scan: Scan, i: int, mark: Mark) -> None:
    """ "A tenth less than 8 %", "a quarter more than the 6 %": that part of the percent off it, or on top."""
    if i > 1 and (scan.marks[i - 1].text == "by" or (scan.marks[i - 1].text, scan.marks[i - 2].text) == ("a", "by")):
        _by_a_part(scan, mark)
        return
    after = [
        x for x in scan.marks[i + 1 : i + 6] if x.text not in ("oil", "scent", "fragrance", "the", "of", "my", "than")
    ]
    if len(after) < 2 or after[0].text not in _LESS | _MORE:
        return
    m = after[1].measured
    if m is None or m.kind != "percent" or m.amount.high is not None:
        return
    way = -1 if after[0].text in _LESS else 1
    _change(m, (m.amount.value * (1 + way * _PARTS[mark.text])).normalize())
    if mark.measured is not None:
        mark.measured.of = "part"
    for x in (mark, after[0]):
        x.text, x.tags = "", frozenset()
    scan.tell()


_CUT = wordset("cut reduce reduced reducing lower lowered drop dropped lessen down")
_RAISED = wordset("raise raised increase increased up boost upped")


def _by_a_part(scan: Scan, mark: Mark) -> None:
    """ "Cut the oil by a quarter from 8 %": three quarters of the only percent."""
    percents = scan.kind("percent")
    cut, raised = scan.says(_CUT), scan.says(_RAISED)
    if len(percents) != 1 or cut == raised:
        return
    m = percents[0]
    _change(m, (m.amount.value * (1 + (-1 if cut else 1) * _PARTS[mark.text])).normalize())
    if mark.measured is not None:
        mark.measured.of = "part"
    mark.text, mark.tags = "", frozenset()
    scan.tell()


def _points(scan: Scan) -> None:
    """ "Two points under that": so many percent."""
    for m in scan.kind("number"):
        after = scan.marks[m.at + 1] if m.at + 1 < len(scan.marks) else None
        if after is not None and after.text in ("point", "points") and not m.amount.unit:
            m.kind, m.amount = "percent", dataclasses.replace(m.amount, unit="percent")
            m.of, m.value = "", quantity(m.amount)
            after.text = ""


def _of_the_weight(scan: Scan) -> None:
    """ "10 % more oil than 40 g", "5 % less than 80 g": the weight so much larger or smaller."""
    for one, two in itertools.pairwise(scan.found):
        words = [mark.text for mark in scan.marks[one.at + 1 : two.at]]
        if one.kind != "percent" or two.kind != "mass" or not 2 <= len(words) <= 5 or "than" not in words:
            continue
        if words[0] not in _LESS | _MORE or one.amount.high is not None or two.amount.high is not None:
            continue
        assert isinstance(two.value, Mass)
        way = -1 if words[0] in _LESS else 1
        factor = 1 + way * one.amount.value / 100
        mass, working = part("so much of it", two.value, factor, line("{0}", factor))
        two.value = mass
        two.amount = dataclasses.replace(two.amount, value=two.amount.value * factor, parts=())
        scan.workings.append(working)
        scan.blank(one.at, two.at)
        return


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


_USUAL = _SMALL | wordset("usual normal regular old recommended standard this that")


def _ahead(scan: Scan, i: int) -> Measured | None:
    """ "Double my 8 %", "half the usual 8 percent"."""
    j = i + 1
    while j < len(scan.marks) and scan.marks[j].text in _USUAL:
        j += 1
    m = scan.marks[j].measured if j < len(scan.marks) and j > i + 1 else None
    return m if m is not None and m.kind == "percent" and m.amount.high is None else None


def _from_the_limit(scan: Scan, limit: Measured, m: Measured) -> None:
    """ "The maximum is 10 %, stay 2 % under it": 8 %."""
    near = [mark.text for mark in scan.marks[m.at + 1 : m.at + 6] if mark.text]
    if not near or near[0] not in _UNDER | _OVER:
        return
    rest = [word for word in near[1:] if word not in _SMALL]
    most = any(mark.text == "most" for mark in scan.marks[limit.at + 1 : limit.at + 4])
    told = limit["limit"] or "limit" in m.flags or most
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
