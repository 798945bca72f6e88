"""How many of what, and how much goes into each."""

from __future__ import annotations

import pytest

from core.book import EmptyBook
from core.reading.counts import pairs_of
from core.reading.each import asks_for_each, gives_each
from core.reading.givens import Givens
from core.reading.roles import assign
from core.reading.scan import scan
from core.reading.shares import shares


def of(text: str) -> Givens:
    scanned = scan(text)
    assign(scanned)
    return Givens(scanned, shares(scanned), EmptyBook())


@pytest.mark.parametrize(
    ("text", "pairs"),
    [
        ("8 small @ 90g wax and 4 big @ 310g wax, 8%", [(8, "90g"), (4, "310g")]),
        ("15 tins, 120 g wax in each, 8% oil", [(15, "120 g")]),
        ("each jar takes 220 g wax. 8%. 15 jars", [(15, "220 g")]),
        ("my mold takes 340 g of wax, i make 4, ten percent", [(4, "340 g")]),
        ("3 trays of 6 melts, 12 g each", [(18, "12 g")]),
        ("she used 3 jars. My wax weighs 1350 grams", []),
        ("30 candles from 6 kg wax", []),
        ("I want 12 candles, total 2.4kg finished", []),
    ],
)
def test_pairs(text: str, pairs: list[tuple[int, str]]) -> None:
    assert [(count, m.amount.text) for count, m in pairs_of(of(text))] == pairs


def test_each_given_and_each_asked() -> None:
    assert gives_each(of("55 g wax each"))
    assert not gives_each(of("800 g wax at 8 %, grams each?"))
    assert asks_for_each(of("500 g at 8 % of the wax, how much of each"))
