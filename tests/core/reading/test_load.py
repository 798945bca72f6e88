"""Questions of the load family in plain words: the figures in load_cases.txt, worked by hand beside them."""

from __future__ import annotations

import pytest

from tests.core.reading.asked import cases, outcome
from tests.core.reading.test_read import holds


@pytest.mark.parametrize(("text", "expected"), cases("load_cases.txt"))
def test_figures(text: str, expected: str) -> None:
    got = outcome(text)
    if expected == "ask":
        assert not got.answerable, got
    else:
        assert got.answerable, got
        assert [wanted for wanted in expected.split(", ") if not holds(got.numbers, wanted)] == [], got
