"""The words of a list go to their own amounts, whichever side they stand on."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.compounds import Parts
from core.reading.list_items import items
from core.reading.lists import parts

NAMES = st.sampled_from(["A", "B", "a", "lemon", "cedar", "soy wax A", "soy wax B", "rose musk", "base"])


@given(st.lists(st.tuples(NAMES, st.integers(1, 99)), min_size=2, max_size=6), st.booleans(), st.sampled_from(",;+"))
def test_each_share_keeps_its_name(shares: list[tuple[str, int]], name_first: bool, sign: str) -> None:
    typed = f"{sign} ".join(f"{name} {n}%" if name_first else f"{n}% {name}" for name, n in shares)
    assert parts(typed) == Parts(tuple((name, n) for name, n in shares))


@pytest.mark.parametrize(
    ("typed", "names"),
    [
        ("A 30%, B 70%", ["A", "B"]),
        ("30% A, 70% B", ["A", "B"]),
        ("of lemon 30 g and of cedar 70 g", ["lemon", "cedar"]),
        ("2 parts soy 1 part coconut", ["soy", "coconut"]),
        ("12 x 200 g jars, 6 x 90 g tins", ["", "jars", "", "tins"]),
        ('"a, b" 30 g, c 70 g', ["a, b", "c"]),
        ("30 g, 70 g", ["", ""]),
    ],
)
def test_names(typed: str, names: list[str]) -> None:
    assert [item.name for item in items(typed)] == names
