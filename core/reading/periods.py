"""Amounts used up over time: "340 g every day for 3 weeks"."""

from __future__ import annotations

from decimal import Decimal

from core.reading.marks import Measured, Scan
from core.reading.numerals import read_numeral
from core.reading.tokens import Kind, tokenize

# How many days each is; a month only goes with months.
_DAYS = {"day": 1, "daily": 1, "days": 1, "week": 7, "weekly": 7, "weeks": 7, "wk": 7, "wks": 7}
_MONTHS = {"month": 1, "monthly": 1, "months": 1}
_EACH = frozenset({"a", "per", "every", "each", "/", "one"})
_REACH = 4
MOST_TIMES = 1000


def per_period(scan: Scan, m: Measured) -> str:
    """The period an amount is used up in ("week" of "2 kg of wax a week"), "" where it is none."""
    near = scan.marks[m.at + 1 : m.at + 1 + _REACH]
    for i, mark in enumerate(near):
        if mark.kind in ("amount", "stop"):
            return ""
        led = i > 0 and near[i - 1].text in _EACH
        if (led and (mark.text in _DAYS or mark.text in _MONTHS)) or mark.text in ("daily", "weekly", "monthly"):
            return mark.text
    return ""


def times(scan: Scan, period: str) -> int | None:
    """How often that period goes into the time told ("3 weeks" holds 21 days); None where that isn't told or whole."""
    tokens = tokenize(scan.text)
    i, found = 0, list[tuple[Decimal, str]]()
    while tokens[i].kind is not Kind.END:
        number = read_numeral(tokens, i) if tokens[i].kind in (Kind.FIGURE, Kind.WORD) else None
        if number is None:
            i += 1
            continue
        word = tokens[number.next].text
        if number.form != "article" and (word in _DAYS or word in _MONTHS):
            found.append((number.value, word))
        i = max(number.next, i + 1)
    if len(found) != 1:
        return None
    value, word = found[0]
    lengths = _DAYS if period in _DAYS and word in _DAYS else _MONTHS
    if word not in lengths or period not in lengths:
        return None
    often = value * lengths[word] / lengths[period]
    return int(often) if 1 <= often <= MOST_TIMES and often == int(often) else None
