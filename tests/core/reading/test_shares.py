"""Percents, rates, ratios and parts: which is the load, and what the others are."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.compounds import Basis
from core.reading.roles import assign
from core.reading.scan import scan
from core.reading.share import Shares
from core.reading.shares import shares
from tests.core.reading.asked import answered


def of(text: str) -> Shares:
    scanned = scan(text)
    assign(scanned)
    return shares(scanned)


@pytest.mark.parametrize(
    ("text", "load", "basis"),
    [
        ("500 g wax 8%", "8", None),
        ("8 % of the total in 460 g wax", "8", Basis.TOTAL),
        ("load is 7% of wax weight", "7", Basis.WAX),
        ("total 500 g of which 8 percent is oil", "8", Basis.TOTAL),
        ("want to end up with 900 grams, 10% of that is fragrance", "10", Basis.TOTAL),
        ("2 lb of the wax at 8 %", "8", None),
        ("load 0.08, wax 1 kg", "8.00", None),
        ("1 oz per lb, i have 5 lb", "6.25", Basis.WAX),
        ("ratio 10:1 wax to oil", "10", Basis.WAX),
        ("19 parts wax and 1 part oil", None, Basis.WAX),
        ("600g wax, maximum load 10%, i use 8", "8", None),
    ],
)
def test_the_load(text: str, load: str | None, basis: Basis | None) -> None:
    found = of(text).load
    assert found is not None
    assert load is None or found.percent.base == Decimal(load)
    assert found.basis is basis


def test_percents_that_are_no_load() -> None:
    assert of("fill my 250 ml jar to 90 percent").level is not None
    assert of("jar three quarters full, 300 ml").level.base == 75  # type: ignore[union-attr]
    assert of("300 ml jar, leave 15% free").level.base == 85  # type: ignore[union-attr]
    assert of("add 5% extra wax for spillage").spare is not None
    assert of("dye 0.1% of wax, fragrance 8 %").additives[0][1].base == Decimal("0.1")
    assert of("sheet says max 10% but i want 6%").limit is not None
    assert of("only 25% fragrance and 75% carrier oil, want 6 %").strength.base == 25  # type: ignore[union-attr]
    assert of("oil 25% of which is carrier, load 8%").strength.base == 75  # type: ignore[union-attr]
    assert of("100% soy wax").loads == []


def test_blends_of_oils_and_of_waxes() -> None:
    assert of("10% load, 60/40 split of two oils").blend is not None
    assert of("load 10%: 70% rose 30% oud").blend is not None
    assert of("600 g of 70/30 soy paraffin blend at 7%").waxes is not None
    assert of("1 kg made of 70% soy and 30% paraffin, 7% fragrance").waxes is not None
    assert [value for _, _, value in of("94% wax 6% fragrance").parts] == [94, 6]


def test_a_percent_that_is_neither_is_left_unclear() -> None:
    assert of("500 g wax 8% fragrance 3% wax").unclear


def test_between_two_percents() -> None:
    assert [load.percent.base for load in of("between 6 and 8 percent of 550g wax").loads] == [6, 8]


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("50/50 soy and coconut 900 g total", {"soy": 450, "coconut": 450}),
        ("soy and coconut 60/40 900 g total", {"soy": 540, "coconut": 360}),
        ("60/40 soy coconut, 900 g", {"soy": 540, "coconut": 360}),
        ("70/30 soy wax / paraffin wax, 1 kg", {"soy wax": 700, "paraffin wax": 300}),
        ("60/40 rose and vanilla, 50 g of oil in all", {"rose": 30, "vanilla": 20}),
    ],
)
def test_the_parts_of_a_ratio_keep_their_names(text: str, parts: dict[str, int]) -> None:
    shown = answered(text).headline.show()
    for name, grams in parts.items():
        assert f"{grams} g" in shown
        assert f" of {name}" in shown
