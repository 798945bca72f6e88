"""Cost sheets: each part, the total, the cost of one candle; what lacks its amount or price."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Declined, Missing, NotUnderstood, Worked
from core.compounds import Basis
from core.questions.cost import CostQuestion
from core.units import Density, Mass, Money, Volume
from tests.core.questions.records import EMPTY, needs, number, words
from tests.core.questions.workbench import load, shown

D = Decimal


def euro(value: str | int) -> Money:
    return Money.of(value, "eur")


def test_a_whole_sheet() -> None:
    answer = CostQuestion(
        count=24,
        candle=Mass.of(180),
        wax_price=euro(39),
        wax_pack=Mass.of(5, "kg"),
        load=load(8),
        fragrance_price=euro(24),
        fragrance_pack=Mass.of(500),
        vessel=euro("1.2"),
        wick=euro("0.1"),
        lid=euro("0.4"),
        label=euro("0.15"),
        packing=euro("0.6"),
        other=euro(3),
    ).answer(EMPTY)
    assert isinstance(answer, Worked)
    # 24 × 180 = 4320 g × 39 ÷ 5000; 4320 × 0.08 = 345.6 g × 24 ÷ 500; 24 × 2.45 each; 3 once.
    parts = {"wax": D("33.696"), "fragrance": D("16.5888"), "vessel": D("28.8"), "packing": D("14.4")}
    assert {what: number(answer, f"cost_{what}") for what in parts} == parts
    assert number(answer, "cost_total") == D("33.696") + D("16.5888") + 24 * D("2.45") + 3
    assert answer.headline.show() == "€112.08 in all, €4.67 per candle."
    assert "a percent of the wax" in words(answer)
    shown(answer)


def test_the_columns_add_up_as_shown() -> None:
    answer = CostQuestion(
        count=3, wax=Mass.of(100), wax_price=euro(1), wax_pack=Mass.of(300), wick=euro("0.333"), lid=euro("0.333")
    ).answer(EMPTY)
    assert answer.table is not None
    for column in (1, 2):
        shown_costs = [row[column] for row in answer.table.rows]
        amounts = [cost.base for cost in shown_costs if isinstance(cost, Money)]
        assert len(amounts) == 4
        assert sum(amounts[:-1]) == amounts[-1].quantize(D("0.01"))


def test_a_bottle_by_volume_needs_a_density() -> None:
    asked = {"wax": Mass.of(1, "kg"), "count": 10, "load": load(10), "fragrance_price": euro(12)}
    without = CostQuestion(**asked, fragrance_pack=Volume.of(100)).answer(EMPTY)
    assert needs(without) == ["density_of_fragrance"]
    answer = CostQuestion(**asked, fragrance_pack=Volume.of(100), density=Density.of("0.8")).answer(EMPTY)
    assert number(answer, "cost_fragrance") == 15  # 100 g of oil, 80 g for 12 euro
    assert "Not counted, as I have no price: the wax." in words(answer)


def test_the_basis_of_the_load_is_kept() -> None:
    answer = CostQuestion(
        wax=Mass.of(900), load=load(10, Basis.TOTAL), fragrance_price=euro(1), fragrance_pack=Mass.of(100)
    ).answer(EMPTY)
    assert number(answer, "cost_fragrance").quantize(D("1e-20")) == 1
    assert "You didn't say" not in words(answer)


@pytest.mark.parametrize(
    ("question", "names"),
    [
        (CostQuestion(), ["prices"]),
        (CostQuestion(count=3, wax=Mass.of(5)), ["prices"]),
        (CostQuestion(vessel=euro(2)), ["count"]),
        (CostQuestion(wax_price=euro(39), wax_pack=Mass.of(5)), ["weight_of_wax"]),
        (CostQuestion(wax=Mass.of(3), wax_price=euro(39)), ["wax_pack"]),
        (CostQuestion(fragrance_price=euro(39), wax=Mass.of(3)), ["weight_of_fragrance", "fragrance_pack"]),
        (CostQuestion(fragrance_price=euro(39), fragrance_pack=Mass.of(3), load=load(6)), ["weight_of_wax"]),
        (CostQuestion(wick=euro(1), count=2, wax=Mass.of(3), wax_pack=Mass.of(5)), ["wax_price"]),
    ],
)
def test_what_is_missing_is_named(question: CostQuestion, names: list[str]) -> None:
    answer = question.answer(EMPTY)
    assert isinstance(answer, Missing)
    assert needs(answer) == names
    assert not answer.results
    shown(answer)


@pytest.mark.parametrize(
    "question",
    [
        CostQuestion(vessel=euro(2), lid=Money.of(3, "usd"), count=3),
        CostQuestion(vessel=euro(-2), count=3),
        CostQuestion(vessel=euro(2), count=0),
        CostQuestion(wax=Mass.of(0), wax_price=euro(3), wax_pack=Mass.of(3)),
        CostQuestion(wax=Mass.of(5), wax_price=euro(3), wax_pack=Mass.of(0)),
    ],
)
def test_what_cannot_be_says_the_way_out(question: CostQuestion) -> None:
    answer = ask.answer(question, EMPTY)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason in ("out_of_range", "contradiction")


def test_an_unsafe_load_is_not_costed() -> None:
    asked = CostQuestion(wax=Mass.of(100), load=load(30), fragrance_price=euro(1), fragrance_pack=Mass.of(100))
    assert isinstance(asked.answer(EMPTY), Declined)
    weighed = CostQuestion(
        wax=Mass.of(100), fragrance=Mass.of(40), fragrance_price=euro(1), fragrance_pack=Mass.of(100)
    )
    assert isinstance(weighed.answer(EMPTY), Declined)


@given(st.integers(1, 500), st.integers(1, 100_000), st.integers(0, 10_000), st.integers(0, 10_000))
def test_the_total_is_the_sum_of_its_parts(count: int, wax: int, price: int, wick: int) -> None:
    answer = CostQuestion(
        count=count,
        wax=Mass.of(wax),
        wax_price=Money.of(D(price) / 100),
        wax_pack=Mass.of(1000),
        wick=Money.of(D(wick) / 100),
    ).answer(EMPTY)
    total = number(answer, "cost_total")
    assert total == number(answer, "cost_wax") + number(answer, "cost_wick")
    assert abs(number(answer, "cost_per_candle") * count - total) < D("1e-25")
