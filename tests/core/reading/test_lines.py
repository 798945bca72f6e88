"""Amounts in recipe lines and everyday text: ranges, brackets, cans, sizes, times, dates, money, telephone numbers."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from core.reading.amounts import pairs

LINES = [
    line.rpartition(" |")
    for line in (Path(__file__).parent / "line_cases.txt").read_text("utf-8").splitlines()
    if line and not line.startswith("#")
]
CLOSE = Decimal("0.005")
LEAST_F1 = 0.98


def wanted(written: str) -> list[tuple[Decimal, str]]:
    return [(Decimal(each.split()[0]), each.split()[1]) for each in written.split(",") if each.strip()]


def unmatched(text: str, expected: list[tuple[Decimal, str]]) -> tuple[int, int]:
    """How many amounts were found though not there, and how many not found."""
    left, missed = list(pairs(text)), 0
    for value, unit in expected:
        same = next((p for p in left if p[1] == unit and abs(p[0] - value) <= CLOSE * abs(value)), None)
        if same is None:
            missed += 1
        else:
            left.remove(same)
    return len(left), missed


def test_amounts_of_everyday_lines() -> None:
    extra = missed = found = 0
    for text, _, written in LINES:
        ways = [(unmatched(text, wanted(way)), len(wanted(way))) for way in written.split("~")]
        (more, less), there = min(ways, key=lambda way: sum(way[0]))
        extra, missed, found = extra + more, missed + less, found + there - less
    assert len(LINES) > 100
    assert 2 * found / (2 * found + extra + missed) >= LEAST_F1
