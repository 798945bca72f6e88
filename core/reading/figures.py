"""One number written in figures ("1,000.50", "2,5", ".5", "1e3") to its Decimal."""

from __future__ import annotations

from decimal import Decimal

# Longer exponents are noise, and would let a product of two readings overflow.
MOST_EXPONENT_DIGITS = 4

SEPARATORS = ".,'"


def figure(raw: str) -> Decimal | None:
    """The value of `raw`: digits in groups joined by single `.`, `,` or `'`, and perhaps an exponent `e3`.

    A single point is the decimal point; a single comma is one too, unless three digits follow one to three
    (1,000 but 2,5 and 0,500). Of two kinds of separators the last one is decimal.
    None where the groups form no number: a version, a dotted date, a list "1,2,3".
    """
    if raw.isdecimal():
        return Decimal(raw)
    mantissa, has_exponent, exponent = raw.lower().partition("e")
    if len(exponent.lstrip("+-")) > MOST_EXPONENT_DIGITS:
        return None
    separators = [c for c in mantissa if c in SEPARATORS]
    groups = mantissa.replace(",", ".").replace("'", ".").split(".")
    whole = "".join(groups)
    decimals = _decimals(separators, groups) if separators else 0
    if decimals is None:
        return None
    power = int(exponent) if has_exponent else 0
    return Decimal(f"{whole}E{power - decimals}")


def _decimals(separators: list[str], groups: list[str]) -> int | None:
    """How many digits stand after the decimal mark; None where the groups form no number."""
    last, before = separators[-1], separators[:-1]
    if not before:
        if last == "." or (last == "," and not _thousands(groups, ",")):
            return len(groups[-1])
        return 0 if _thousands(groups, last) else None
    if any(mark != before[0] for mark in before):
        return None
    if last == before[0]:
        return 0 if _thousands(groups, last) else None
    return len(groups[-1]) if last != "'" and _thousands(groups[:-1], before[0]) else None


def _thousands(groups: list[str], mark: str) -> bool:
    """Whether the groups are thousands groups: 1,000,000; with commas also the Indian 1,00,000."""
    first, *middle, end = groups
    if not 1 <= len(first) <= 3 or first.startswith("0") or len(end) != 3:
        return False
    return all(len(g) == 3 for g in middle) or (mark == "," and all(len(g) == 2 for g in middle))
