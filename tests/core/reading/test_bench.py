"""Labels, tares, scales, parcels and money in plain words: sums that the story leaves to be done first."""

from __future__ import annotations

import pytest

from tests.core.reading.asked import cases, outcome
from tests.core.reading.test_read import holds


@pytest.mark.parametrize(("text", "expected"), cases("bench_cases.txt"), ids=lambda text: text[:60])
def test_bench_texts(text: str, expected: str) -> None:
    got = outcome(text)
    assert got.answerable == (expected != "ask"), got
    if expected != "ask":
        assert [wanted for wanted in expected.split(", ") if not holds(got.numbers, wanted)] == []
