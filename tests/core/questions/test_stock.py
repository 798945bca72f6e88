"""Stock: what runs out first and what is left, against sums in fractions; no more is used than is there."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import floor

import pytest
import scipy.constants
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Declined, Missing, NotUnderstood, Worked, results_by_name
from core.book import EmptyBook
from core.compounds import Basis, Load, Masses
from core.questions.fills import FillIs
from core.questions.stock import StockQuestion
from core.units import Mass
from tests.core.questions.records import EMPTY, number
from tests.core.questions.workbench import load, percent, shown

BOOK = EmptyBook()


def wax(*grams: int | str) -> Masses:
    return Masses(tuple(("", Mass.of(each)) for each in grams))


def figures(question: StockQuestion) -> dict[str, Decimal]:
    answer = question.answer(BOOK)
    assert isinstance(answer, Worked), answer
    shown(answer)
    return {name: value.base for name, value in results_by_name(answer).items()}


def test_the_wax_runs_out_first() -> None:
    # By hand: 8 % of 410 g is 32.8 g; 41 − 32.8 = 8.2 g is left.
    question = StockQuestion(wax=wax(410), fragrance=Mass.of(41), load=load(8))
    found = figures(question)
    assert (found["fragrance"], found["left_over_fragrance"]) == (Decimal("32.8"), Decimal("8.2"))
    assert found["left_over_wax"] == 0
    assert question.answer(BOOK).headline.show() == "The wax runs out first; 8.2 g (0.29 oz) of fragrance oil is left."


def test_the_fragrance_runs_out_first() -> None:
    # By hand: 30 g at 6 % does 500 g.
    question = StockQuestion(wax=wax(400, 300), fragrance=Mass.of(30), load=load(6))
    found = figures(question)
    assert (found["wax"], found["left_over_wax"], found["left_over_fragrance"]) == (500, 200, 0)
    assert "fragrance oil runs out first" in question.answer(BOOK).headline.show()


def test_both_run_out_together() -> None:
    question = StockQuestion(wax=wax(1000), fragrance=Mass.of(80), load=load(8))
    assert "together" in question.answer(BOOK).headline.show()
    assert figures(question)["left_over_fragrance"] == 0


def test_candles_from_wax_alone_need_no_load() -> None:
    assert figures(StockQuestion(wax=wax(2400), each=Mass.of(150)))["count"] == 16
    found = figures(StockQuestion(wax=wax(5000), each=Mass.of(220), fill_is=FillIs.WAX))
    assert (found["count"], found["left_over_wax"]) == (22, 160)


def test_whole_candles_are_not_lost_to_a_repeating_decimal() -> None:
    # 2500 g of wax at 8 % are 2700 g: exactly 12 of 225 g, though 225 ÷ 1.08 never ends.
    found = figures(StockQuestion(wax=wax(2500), fragrance=Mass.of(300), load=load(8), each=Mass.of(225)))
    assert (found["count"], found["left_over_wax"], found["left_over_fragrance"]) == (12, 0, 100)


def test_whole_candles_of_a_rate_that_never_ends() -> None:
    # By hand: at 1 to 6, 100 g of oil do 600 g of wax: ten of 60 g, though 1 ÷ 6 never ends.
    rate = Load.rate(Mass.of(1, "oz"), Mass.of(6, "oz"), "1 oz per 6 oz")
    question = StockQuestion(fragrance=Mass.of(100), load=rate, each=Mass.of(60), fill_is=FillIs.WAX)
    assert figures(question)["count"] == 10


def test_fragrance_alone_does_so_much_wax() -> None:
    # Avoirdupois ounce: scipy.constants.
    found = figures(StockQuestion(fragrance=Mass.of(4, "oz"), load=load(10)))
    assert float(found["wax"]) == pytest.approx(40 * scipy.constants.oz * 1000, rel=1e-12)


def test_too_little_for_one_candle_is_said() -> None:
    question = StockQuestion(wax=wax(100), load=load(10), each=Mass.of(200))
    answer = question.answer(BOOK)
    assert answer.headline.show() == "Not enough for one candle."
    assert figures(question)["count"] == 0


@pytest.mark.parametrize(
    ("question", "needs"),
    [
        (StockQuestion(wax=wax(500), fragrance=Mass.of(30)), ["load_percent"]),
        (StockQuestion(wax=wax(500), each=Mass.of(90), fill_is=FillIs.FINISHED), ["load_percent"]),
        (StockQuestion(load=load(8)), ["weight_of_wax", "weight_of_fragrance"]),
    ],
)
def test_what_is_missing_is_named(question: StockQuestion, needs: list[str]) -> None:
    answer = question.answer(BOOK)
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == needs
    shown(answer)


@pytest.mark.parametrize(
    "question",
    [
        StockQuestion(wax=wax(0), load=load(8)),
        StockQuestion(wax=wax(500), fragrance=Mass.of(-1), load=load(8)),
        StockQuestion(wax=wax(500), each=Mass.of(0), load=load(8)),
        StockQuestion(wax=wax(500), load=load(0)),
        StockQuestion(wax=wax(*[1] * 201), load=load(8)),
    ],
)
def test_impossible_givens_get_a_sentence(question: StockQuestion) -> None:
    answer = ask.answer(question, BOOK)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == "out_of_range"


def test_a_load_no_wax_holds_is_declined() -> None:
    assert isinstance(StockQuestion(wax=wax(500), load=load(40)).answer(BOOK), Declined)


grams = st.decimals(min_value="1", max_value="20000", places=1)


@given(
    grams,
    grams,
    st.decimals(min_value="0.5", max_value="19", places=1),
    st.sampled_from(Basis),
    grams,
    st.sampled_from(FillIs),
)
def test_the_count_is_the_most_that_both_stocks_give(
    at_hand: Decimal, oil: Decimal, p: Decimal, basis: Basis, each: Decimal, fill_is: FillIs
) -> None:
    question = StockQuestion(
        wax=Masses.one(Mass(at_hand)),
        fragrance=Mass(oil),
        load=Load(percent(str(p)), basis),
        each=Mass(each),
        fill_is=fill_is,
    )
    found = figures(question)
    share = Fraction(p) / 100
    per_wax = share if basis is Basis.WAX else share / (1 - share)
    wax_in_each = Fraction(each) if fill_is is FillIs.WAX else Fraction(each) / (1 + per_wax)
    most = min(Fraction(at_hand), Fraction(oil) / per_wax)
    assert found["count"] == floor(most / wax_in_each)
    assert found["left_over_wax"] >= 0
    assert found["left_over_fragrance"] >= 0
    tiny = Decimal("1e-12")
    assert abs(found["wax"] + found["left_over_wax"] - at_hand) < tiny
    assert abs(found["fragrance"] + found["left_over_fragrance"] - oil) < tiny


def test_what_is_left_after_so_many() -> None:
    question = StockQuestion(wax=Masses.one(Mass.of(10, "kg")), each=Mass.of(180), count=45)
    assert number(question.answer(EMPTY), "left_over_wax") == 1900
    lacking = StockQuestion(wax=Masses.one(Mass.of(8, "kg")), each=Mass.of(180), count=45).answer(EMPTY)
    assert number(lacking, "missing") == 100


def test_candles_from_oil_alone() -> None:
    answer = StockQuestion(fragrance=Mass.of(90), oil_each=Mass.of(12)).answer(EMPTY)
    assert (number(answer, "count"), number(answer, "left_over_fragrance")) == (7, 6)
