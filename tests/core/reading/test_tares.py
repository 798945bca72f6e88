"""Vessels weighed along: which weight is full, which empty."""

from __future__ import annotations

import pytest

from core.reading.roles import assign
from core.reading.scan import scan
from core.reading.tares import weighed_along


@pytest.mark.parametrize(
    ("text", "full", "empty"),
    [
        ("pot weighs 640g and with wax it says 2140", "2140", "640"),
        ("kettle empty 1.1 kg, kettle and wax 4.3 kg", "4.3", "1.1"),
        ("wax incl pot shows 1850g, pot alone 350g", "1850", "350"),
        ("candle with jar 520 g, jar alone 310g", "520", "310"),
        ("empty beaker 85.0 g, with 100 ml oil 177.0 g", "177.0", "85.0"),
        ("it went from 102.3 g to 126.0 g", "126.0", "102.3"),
    ],
)
def test_full_and_empty(text: str, full: str, empty: str) -> None:
    scanned = scan(text)
    assign(scanned)
    pair = weighed_along(scanned)
    assert pair is not None
    assert [str(m.amount.value) for m in pair] == [full, empty]


@pytest.mark.parametrize("text", ["500 g wax and 40 g oil", "jar 310 g", "2 jars of 200 g", "500 g at 8 %"])
def test_nothing_weighed_along(text: str) -> None:
    scanned = scan(text)
    assign(scanned)
    assert weighed_along(scanned) is None
