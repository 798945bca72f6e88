"""Scales: half a step either way, the GUM's uncertainties by the `uncertainties` library, OIML R 76 and HB 44 rows."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
import uncertainties
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Declined, Missing, NotUnderstood, Worked
from core.book import EmptyBook, Preferences
from core.compounds import Basis, Load, Masses
from core.mixing import Mix
from core.questions.scale import MOST_WEIGHINGS, ScaleQuestion
from core.questions.scale_sums import Readings, smallest, u_of_load, u_of_total_load
from core.reference.scales import Accuracy
from core.units import Density, Mass, Percent, Volume
from tests.core.questions.records import EMPTY, cautions, needs, number, words
from tests.core.questions.workbench import load, percent, shown

D = Decimal
ONE_GRAM, TENTH = Mass.of(1), Mass.of("0.1")


def weights(*grams: str | int) -> Masses:
    return Masses(tuple(("", Mass.of(each)) for each in grams))


def test_the_error_of_one_weighing() -> None:
    # 0.05 ÷ 0.5 × 100
    answer = ScaleQuestion(step=TENTH, weighing=weights("0.5")).answer(EMPTY)
    assert isinstance(answer, Worked)
    assert number(answer, "error") == 10
    assert answer.headline.show() == "±10 %: 0.5 g may really be 0.05 g more or less."
    assert cautions(answer) == {"coarse_scale"}
    shown(answer)


def test_the_difference_of_two_readings_is_off_by_a_whole_step() -> None:
    # Full less empty: half a step at each reading. Standard uncertainty d ÷ √6 = 0.4082 d (GUM practice).
    answer = ScaleQuestion(step=TENTH, weighing=weights("0.5"), readings=Readings.TARED).answer(EMPTY)
    assert (number(answer, "error"), number(answer, "off")) == (20, D("0.1"))
    assert number(answer, "uncertainty").quantize(D("0.00001")) == D("0.04082")
    single = ScaleQuestion(step=ONE_GRAM, weighing=weights(5)).answer(EMPTY)
    assert number(single, "uncertainty").quantize(D("0.0001")) == D("0.2887")  # d ÷ √12


def test_two_weighings_side_by_side() -> None:
    answer = ScaleQuestion(step=ONE_GRAM, weighing=weights(2, 20)).answer(EMPTY)
    assert (number(answer, "error_1"), number(answer, "error_2")) == (25, D("2.5"))
    assert answer.headline.show() == "Worse for the lighter: 2 g is ±25 %, 20 g only ±2.5 %."


def test_from_which_weight_on() -> None:
    answer = ScaleQuestion(step=TENTH, error=percent(1)).answer(EMPTY)
    assert number(answer, "smallest") == 5
    assumed = ScaleQuestion(step=ONE_GRAM).answer(EMPTY)
    assert number(assumed, "smallest") == 50
    assert "You didn't say how exact" in words(assumed)


def test_which_scale_to_buy() -> None:
    # 24 g to 1 % allows ±0.24 g, so steps up to 0.48 g: 0.2 g is the coarsest on sale below.
    recipe = ScaleQuestion(wax=weights(400), load=load(6), buy=True).answer(EMPTY)
    assert (number(recipe, "step"), number(recipe, "step_at_most")) == (D("0.2"), D("0.48"))
    dye = ScaleQuestion(weighing=weights("0.5"), error=percent(2)).answer(EMPTY)
    assert number(dye, "step") == D("0.01")
    shown(recipe)
    shown(dye)


@pytest.mark.parametrize(
    ("oil", "wax", "step", "of_wax", "of_total"),
    [
        ("30", "300", "0.1", 0.009670, 0.007992),
        ("24", "400", "1", 0.072299, 0.064345),
        ("1", "10", "0.1", 0.290115, 0.239764),
    ],
)
def test_uncertainty_of_a_load_by_the_uncertainties_library(
    oil: str, wax: str, step: str, of_wax: float, of_total: float
) -> None:
    """JCGM 100:2008; the figures are those of the library (rectangular distribution, one reading each)."""
    u = float(step) / math.sqrt(12)
    a, b = uncertainties.ufloat(float(oil), u), uncertainties.ufloat(float(wax), u)
    mix, d = Mix(Mass.of(wax), Mass.of(oil)), Mass.of(step)
    assert float(u_of_load(mix, d, Readings.SINGLE).base) == pytest.approx((a / b * 100).std_dev, rel=1e-9)
    assert float(u_of_total_load(mix, d, Readings.SINGLE).base) == pytest.approx((a / (a + b) * 100).std_dev, rel=1e-9)
    assert float(u_of_load(mix, d, Readings.SINGLE).base) == pytest.approx(of_wax, abs=5e-7)
    assert float(u_of_total_load(mix, d, Readings.SINGLE).base) == pytest.approx(of_total, abs=5e-7)


@given(st.integers(1, 900), st.integers(1, 5000), st.sampled_from(["0.01", "0.1", "0.5", "1"]))
def test_tared_and_cumulative_weighings_by_the_uncertainties_library(oil: int, wax: int, step: str) -> None:
    u = float(step) / math.sqrt(12)
    mix, d = Mix(Mass.of(wax), Mass.of(oil)), Mass.of(step)
    two = math.sqrt(2) * u
    tared = uncertainties.ufloat(oil, two) / uncertainties.ufloat(wax, two) * 100
    first, second = uncertainties.ufloat(wax, u), uncertainties.ufloat(wax + oil, u)
    cumulative = (second - first) / first * 100
    assert float(u_of_load(mix, d, Readings.TARED).base) == pytest.approx(tared.std_dev, rel=1e-9)
    assert float(u_of_load(mix, d, Readings.CUMULATIVE).base) == pytest.approx(cumulative.std_dev, rel=1e-9)


def test_a_recipe_on_a_scale() -> None:
    answer = ScaleQuestion(step=TENTH, wax=weights(300), fragrance=Mass.of(30)).answer(EMPTY)
    assert answer.headline.show() == "A load of 10 % of the wax, almost always between 9.98 % and 10.02 %."
    assert number(answer, "load_of_total").quantize(D("0.0001")) == D("9.0909")
    of_total = ScaleQuestion(step=ONE_GRAM, wax=weights(450), load=load(10, Basis.TOTAL)).answer(EMPTY)
    assert number(of_total, "fragrance").quantize(D("1e-20")) == 50
    shown(of_total)


@pytest.mark.parametrize(
    ("step", "weight", "phrase"),
    [
        # OIML R 76-1: class III min load 20 e, in service ±1 e up to 500 e, ±2 e up to 2000 e.
        ("1", "19", "not made for less than 20 g"),
        ("1", "20", "may be off by 1 g here once in use: ±5 %"),
        ("0.1", "20", "may be off by 0.1 g here once in use: ±0.5 %"),
        ("1", "500", "may be off by 1 g here"),
        ("1", "501", "may be off by 2 g here"),
        ("1", "2001", "may be off by 3 g here"),
        ("1", "10001", "more steps than a class III scale has"),
    ],
)
def test_class_three_lines(step: str, weight: str, phrase: str) -> None:
    answer = ScaleQuestion(step=Mass.of(step), weighing=weights(weight)).answer(EMPTY)
    assert phrase in words(answer)


def test_ounce_scales_keep_the_minimum_of_twenty_steps() -> None:
    # NIST HB 44: 0.1 oz steps, 1 oz is 10 divisions, below the minimum load; 0.05 oz steps are at the minimum.
    coarse = ScaleQuestion(step=Mass.of("0.1", "oz"), weighing=Masses.one(Mass.of(1, "oz"))).answer(EMPTY)
    fine = ScaleQuestion(step=Mass.of("0.05", "oz"), weighing=Masses.one(Mass.of(1, "oz"))).answer(EMPTY)
    assert "not made for less than 2 oz" in words(coarse)
    assert "not made for less" not in words(fine)


def test_a_printed_class_is_used() -> None:
    answer = ScaleQuestion(step=Mass.of("0.01"), weighing=weights("0.5"), accuracy=Accuracy.II).answer(EMPTY)
    assert "A class II scale may be off by 0.01 g here" in words(answer)  # 50 e, ±1 e in service
    none = ScaleQuestion(step=Mass.of("0.01"), weighing=weights("0.5"), accuracy=Accuracy.III).answer(EMPTY)
    assert "No class III scale has steps as fine" in words(none)


def test_beside_a_cylinder_a_beaker_and_a_spoon() -> None:
    # ASTM E1272 class B: ±1.0 ml at 100 ml; kitchen measures ±5 % (US voluntary standard).
    answer = ScaleQuestion(step=ONE_GRAM, weighing=weights(93), volume=Volume.of(100)).answer(EMPTY)
    assert answer.table is not None
    assert [row[2] for row in answer.table.rows] == [Percent(D(50) / 93), percent(1), percent(5), percent(5)]
    by_density = ScaleQuestion(step=ONE_GRAM, weighing=weights(93), density=Density.of("0.93")).answer(EMPTY)
    assert by_density.table == answer.table


def test_the_scale_of_the_settings_is_used_and_named() -> None:
    own = EmptyBook(Preferences(step=D("0.1")))
    answer = ScaleQuestion(weighing=weights("0.5")).answer(own)
    assert number(answer, "error") == 10
    assert "the scale of your settings: 0.1 g" in words(answer)
    assert [given.origin.value for given in answer.given if given.what == "step"] == ["recorded"]
    assert number(ScaleQuestion(weighing=weights("0.5"), buy=True).answer(own), "step") == D("0.01")
    assert isinstance(ScaleQuestion().answer(own), Missing)


def test_fit_or_not() -> None:
    no = ScaleQuestion(step=ONE_GRAM, weighing=weights(20), error=percent(1)).answer(EMPTY)
    yes = ScaleQuestion(step=TENTH, weighing=weights(20), error=percent(1)).answer(EMPTY)
    assert no.headline.show().startswith("No, too coarse")
    assert yes.headline.show().startswith("Yes, fine enough")


def test_over_the_capacity() -> None:
    answer = ScaleQuestion(step=ONE_GRAM, weighing=weights(600), capacity=Mass.of(500)).answer(EMPTY)
    assert cautions(answer) == {"over_capacity"}


@given(st.integers(1, 10_000), st.integers(1, 9_999), st.sampled_from(Readings))
def test_the_smallest_weight_is_just_within_the_error(step: int, error: int, readings: Readings) -> None:
    d, wanted = Mass(D(step) / 1000), Percent(D(error) / 100)
    least = smallest(d, wanted, readings)
    answer = ScaleQuestion(step=d, weighing=Masses.one(least), readings=readings).answer(EMPTY)
    assert abs(number(answer, "error") - wanted.base) < D("1e-30")


@pytest.mark.parametrize(
    ("question", "names"),
    [
        (ScaleQuestion(), ["scale_step", "weight_to_weigh"]),
        (ScaleQuestion(weighing=weights("0.5")), ["scale_step"]),
        (ScaleQuestion(wax=weights(400), load=load(6)), ["scale_step"]),
    ],
)
def test_what_is_missing_is_named(question: ScaleQuestion, names: list[str]) -> None:
    answer = question.answer(EMPTY)
    assert isinstance(answer, Missing)
    assert needs(answer) == names
    assert not answer.results
    shown(answer)


@pytest.mark.parametrize(
    "question",
    [
        ScaleQuestion(step=Mass.of(0), weighing=weights(2)),
        ScaleQuestion(step=ONE_GRAM, weighing=weights(0)),
        ScaleQuestion(step=ONE_GRAM, weighing=weights(*[5] * (MOST_WEIGHINGS + 1))),
        ScaleQuestion(step=ONE_GRAM, error=percent(0)),
        ScaleQuestion(step=ONE_GRAM, error=percent(100)),
        ScaleQuestion(step=Mass.of(5, "kg"), capacity=Mass.of(1), weighing=weights(2)),
        ScaleQuestion(step=ONE_GRAM, wax=weights(400), load=load(-6)),
    ],
)
def test_what_cannot_be_says_the_way_out(question: ScaleQuestion) -> None:
    answer = ask.answer(question, EMPTY)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason in ("out_of_range", "contradiction")


def test_an_unsafe_load_is_not_worked() -> None:
    assert isinstance(ScaleQuestion(step=ONE_GRAM, wax=weights(400), load=Load(percent(30))).answer(EMPTY), Declined)
