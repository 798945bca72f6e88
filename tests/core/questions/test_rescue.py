"""Rescue: what is added reaches the wanted load exactly, in both bases, with a diluted oil, and after a loss."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Declined, Missing, NotUnderstood, Worked, results_by_name
from core.book import EmptyBook
from core.compounds import Basis, Load, Masses
from core.questions.rescue import RescueQuestion
from core.units import Mass
from tests.core.questions.workbench import load, percent, shown

BOOK = EmptyBook()


def wax(*grams: int | str | Decimal) -> Masses:
    return Masses(tuple(("", Mass.of(each)) for each in grams))


def figures(question: RescueQuestion) -> dict[str, Decimal]:
    answer = question.answer(BOOK)
    assert isinstance(answer, Worked), answer
    shown(answer)
    return {name: value.base for name, value in results_by_name(answer).items()}


def test_too_little_is_topped_up() -> None:
    # By hand: 8 % of 900 g is 72 g; 54 g are in.
    found = figures(RescueQuestion(wax=wax(900), fragrance=Mass.of(54), load=load(8)))
    assert (found["add_fragrance"], found["load"]) == (18, 6)
    assert "add_wax" not in found


def test_too_much_is_thinned_with_wax() -> None:
    # By hand: 90 g at 8 % belong to 1125 g of wax; 900 g are in.
    found = figures(RescueQuestion(wax=wax(500, 400), fragrance=Mass.of(90), load=load(8)))
    assert (found["add_wax"], found["load"], found["wax"]) == (225, 10, 1125)


def test_too_much_of_the_total() -> None:
    # By hand: 120 g of 1000 g; 8 % of the total wants 1500 g in all, so 500 g more wax.
    found = figures(RescueQuestion(wax=wax(880), fragrance=Mass.of(120), load=load(8, Basis.TOTAL)))
    assert (found["add_wax"], found["load_of_total"], found["total"]) == (500, 12, 1500)


def test_a_diluted_oil_counts_for_its_strength() -> None:
    # By hand: 6 % of 500 g is 30 g of fragrance, 60 g of an oil of 50 %; 30 g are in.
    found = figures(RescueQuestion(wax=wax(500), fragrance=Mass.of(30), strength=percent(50), load=load(6)))
    assert (found["add_fragrance"], found["load"]) == (30, 3)


def test_nothing_to_add() -> None:
    question = RescueQuestion(wax=wax(900), fragrance=Mass.of(72), load=load(8))
    assert figures(question)["add_fragrance"] == 0
    answer = question.answer(BOOK)
    assert answer.headline.show() == "Nothing to add: it has 8 % of the wax already."
    assert not answer.cautions


def test_forgotten_fragrance() -> None:
    assert figures(RescueQuestion(wax=wax(500), fragrance=Mass.of(0), load=load(6)))["add_fragrance"] == 30


def test_a_spilled_share_leaves_the_load_as_it_was() -> None:
    # By hand: a tenth of 1000 g spilled leaves nine tenths of each: 810 g and 90 g.
    question = RescueQuestion(wax=wax(900), fragrance=Mass.of(100), lost=Mass.of(100), load=load(10))
    found = figures(question)
    assert found["add_wax"] == 90
    assert abs(found["load"] - Decimal(100) / 9) < Decimal("1e-30")
    # Had the fragrance alone gone, all of it would be gone: no second figure. With 40 g lost there is one.
    assert not any("evaporated" in text for text in (each.show() for each in question.answer(BOOK).other))
    less = RescueQuestion(wax=wax(900), fragrance=Mass.of(100), lost=Mass.of(40), load=load(10)).answer(BOOK)
    assert "add 30 g (1.06 oz) of fragrance oil" in less.other[-1].show()  # 90 wanted, 60 left


def test_two_pots_mixed() -> None:
    # By hand: (60 + 12) ÷ (500 + 300) = 9 %.
    two = RescueQuestion(wax=wax(500), fragrance=Mass.of(60), second_wax=wax(300), second_fragrance=Mass.of(12))
    assert figures(two)["load"] == 9
    wanted = RescueQuestion(
        wax=wax(500), fragrance=Mass.of(60), second_wax=wax(300), second_fragrance=Mass.of(12), load=load(10)
    )
    assert figures(wanted)["add_fragrance"] == 8


@pytest.mark.parametrize(
    ("wanted", "says"),
    [
        # By hand, 12 % and 4 % pots of 560 g and 312 g. 10 %: 5/9 of the second, (60 + 20/3) ÷ (500 + 500/3) = 0.1.
        (10, ["Without adding anything: all of the first pot with 173 g (6.11 oz) of the second reaches it too."]),
        # 5 %: 3/35 of the first, (12 + 36/7) ÷ (300 + 300/7) = 0.05.
        (5, ["Without adding anything: all of the second pot with 48 g (1.69 oz) of the first reaches it too."]),
        (13, []),
        (3, []),
    ],
)
def test_two_pots_reach_a_load_between_theirs_with_nothing_added(wanted: int, says: list[str]) -> None:
    answer = RescueQuestion(
        wax=wax(500), fragrance=Mass.of(60), second_wax=wax(300), second_fragrance=Mass.of(12), load=load(wanted)
    ).answer(BOOK)
    assert [text for text in (each.show() for each in answer.body) if text.startswith("Without")] == says


def test_a_pot_with_too_much_is_not_to_be_burnt_and_hot_wax_is_warned_of() -> None:
    answer = RescueQuestion(wax=wax(900), fragrance=Mass.of(180), load=load(8)).answer(BOOK)
    assert [caution.key for caution in answer.cautions] == ["too_much_now", "hot_wax"]
    over = RescueQuestion(wax=wax(900), fragrance=Mass.of(9), load=load(11), limit=percent(10)).answer(BOOK)
    assert "over_limit" in [caution.key for caution in over.cautions]


@pytest.mark.parametrize(
    ("question", "needs"),
    [
        (RescueQuestion(), ["weight_of_wax", "weight_of_fragrance", "load_percent"]),
        (RescueQuestion(wax=wax(500), load=load(8)), ["weight_of_fragrance"]),
        (RescueQuestion(fragrance=Mass.of(30), load=load(8)), ["weight_of_wax"]),
        (RescueQuestion(wax=wax(500), fragrance=Mass.of(60)), ["load_percent"]),
        (
            RescueQuestion(wax=wax(500), fragrance=Mass.of(60), second_fragrance=Mass.of(5), load=load(8)),
            ["weight_of_wax"],
        ),
    ],
)
def test_what_is_missing_is_named(question: RescueQuestion, needs: list[str]) -> None:
    answer = question.answer(BOOK)
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == needs
    shown(answer)


@pytest.mark.parametrize(
    ("question", "reason"),
    [
        (RescueQuestion(wax=wax(500), fragrance=Mass.of(-60), load=load(8)), "out_of_range"),
        (RescueQuestion(wax=wax(500), fragrance=Mass.of(60), load=load(0)), "out_of_range"),
        (RescueQuestion(wax=wax(500), fragrance=Mass.of(60), load=load(8), strength=percent(101)), "out_of_range"),
        (RescueQuestion(wax=wax(500), fragrance=Mass.of(60), load=load(8), lost=Mass.of(560)), "contradiction"),
        (
            RescueQuestion(wax=wax(500), fragrance=Mass.of(6), load=load(20, Basis.TOTAL), strength=percent(20)),
            "contradiction",
        ),
        (RescueQuestion(wax=wax(*[1] * 201), fragrance=Mass.of(6), load=load(8)), "out_of_range"),
    ],
)
def test_impossible_givens_get_a_sentence(question: RescueQuestion, reason: str) -> None:
    answer = ask.answer(question, BOOK)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == reason


def test_a_load_no_wax_holds_is_declined() -> None:
    assert isinstance(RescueQuestion(wax=wax(500), fragrance=Mass.of(6), load=load(30)).answer(BOOK), Declined)


@given(
    st.decimals(min_value="1", max_value="20000", places=1),
    st.decimals(min_value="0", max_value="3000", places=1),
    st.decimals(min_value="0.5", max_value="19", places=1),
    st.sampled_from(Basis),
    st.sampled_from(["100", "80", "25"]),
)
def test_what_is_added_reaches_the_wanted_load_exactly(
    in_pot: Decimal, oil: Decimal, p: Decimal, basis: Basis, strength: str
) -> None:
    question = RescueQuestion(
        wax=wax(in_pot), fragrance=Mass(oil), load=Load(percent(str(p)), basis), strength=percent(strength)
    )
    found = figures(question)
    more_oil, more_wax = found.get("add_fragrance", Decimal(0)), found.get("add_wax", Decimal(0))
    assert min(more_oil, more_wax) == 0 <= max(more_oil, more_wax)
    all_oil, all_wax = Fraction(oil) + Fraction(more_oil), Fraction(in_pot) + Fraction(more_wax)
    whole = all_wax if basis is Basis.WAX else all_wax + all_oil
    reached = all_oil * Fraction(strength) / whole
    assert abs(reached - Fraction(p)) < Fraction(1, 10**15)
