"""The load question. Formulas: F = w·p and F = w·p/(1 − p), split F = T·p/(1 + p) and F = T·p, solved by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Declined, Missing, Worked
from core.ask import answer
from core.book import Preferences
from core.compounds import Additives, Basis, Load, Masses, Parts
from core.questions.load import LoadQuestion
from core.units import Density, Mass, Percent
from tests.core.questions.records import EMPTY, Shelf, cautions, needs, number, words

D = Decimal
TINY = D("1e-18")


def wax(value: Decimal | int | str, unit: str = "g") -> Masses:
    return Masses.one(Mass.of(value, unit))


def load(percent: str | Decimal, basis: Basis | None = None) -> Load:
    return Load(Percent(D(percent)), basis)


@pytest.mark.parametrize(
    ("question", "what", "value"),
    [
        (LoadQuestion(wax=wax(620), load=load("7.5")), "fragrance", "46.5"),
        (LoadQuestion(wax=wax(460), load=load("8"), basis=Basis.TOTAL), "fragrance", "40"),
        (LoadQuestion(wax=wax(460), load=load("8", Basis.TOTAL)), "total", "500"),
        (LoadQuestion(fragrance=Mass.of(40), load=load("8")), "wax", "500"),
        (LoadQuestion(fragrance=Mass.of(40), load=load("8", Basis.TOTAL)), "wax", "460"),
        (LoadQuestion(total=Mass.of(540), load=load("8")), "wax", "500"),
        (LoadQuestion(total=Mass.of(500), load=load("8", Basis.TOTAL)), "fragrance", "40"),
        (LoadQuestion(wax=wax(500), fragrance=Mass.of(40)), "load", "8"),
        (LoadQuestion(wax=wax(460), fragrance=Mass.of(40)), "load_of_total", "8"),
        (LoadQuestion(total=Mass.of(540), fragrance=Mass.of(40)), "load", "8"),
        (LoadQuestion(total=Mass.of(540), wax=wax(500)), "load", "8"),
        (
            LoadQuestion(wax=wax(1, "lb"), load=Load.rate(Mass.of(1, "oz"), Mass.of(1, "lb"), "1 oz per lb")),
            "load",
            "6.25",
        ),
        (LoadQuestion(wax=wax(400), load=load("2"), strength=Percent(D(25))), "mix", "32"),
        (LoadQuestion(wax=wax(400), load=load("2"), strength=Percent(D(25))), "fragrance", "8"),
        (LoadQuestion(wax=wax(400), load=load("10"), blend=Parts((("a", D(3)), ("b", D(1))))), "fragrance_1", "30"),
        (LoadQuestion(wax=wax(400), load=load("10"), additives=Additives((("dye", Percent(D("0.5"))),))), "dye", "2"),
        (
            LoadQuestion(wax=wax(400), load=load("10"), additives=Additives((("dye", Percent(D("0.5"))),))),
            "total",
            "442",
        ),
    ],
)
def test_two_figures_give_the_rest(question: LoadQuestion, what: str, value: str) -> None:
    found = question.answer(EMPTY)
    assert isinstance(found, Worked)
    assert abs(number(found, what) - D(value)) < TINY


def test_several_waxes_add_up() -> None:
    both = Masses((("soy", Mass.of(300)), ("coconut", Mass.of(100))))
    found = LoadQuestion(wax=both, load=load("8")).answer(EMPTY)
    assert number(found, "fragrance") == 32
    assert "300 g + 100 g" in words(found)


WEIGHTS = st.decimals(min_value=1, max_value=100000, places=2)
LOADS = st.decimals(min_value="0.1", max_value="19.9", places=2)


@given(WEIGHTS, LOADS, st.sampled_from(Basis))
def test_the_fragrance_found_has_the_load_asked_for(grams: Decimal, percent: Decimal, basis: Basis) -> None:
    there = LoadQuestion(wax=wax(grams), load=load(percent, basis)).answer(EMPTY)
    back = LoadQuestion(wax=wax(grams), fragrance=Mass(number(there, "fragrance"))).answer(EMPTY)
    assert abs(number(back, "load" if basis is Basis.WAX else "load_of_total") - percent) < TINY


@given(WEIGHTS, LOADS, st.sampled_from(Basis))
def test_a_split_adds_up_to_its_total(grams: Decimal, percent: Decimal, basis: Basis) -> None:
    found = LoadQuestion(total=Mass(grams), load=load(percent, basis)).answer(EMPTY)
    assert number(found, "wax") + number(found, "fragrance") == grams


def test_the_basis_is_said_and_the_other_figure_given() -> None:
    found = LoadQuestion(wax=wax(620), load=load("7.5")).answer(EMPTY)
    assert "of the wax" in words(found)
    assert "50.3 g" in "".join(each.show() for each in found.other)  # 620 × 7.5 ÷ 92.5
    assert any("didn't say" in each.show() for each in found.assumed)
    asked = LoadQuestion(wax=wax(620), load=load("7.5", Basis.WAX)).answer(EMPTY)
    assert asked.assumed == ()


def test_the_askers_usual_basis_is_used() -> None:
    found = LoadQuestion(wax=wax(460), load=load("8")).answer(Shelf(Preferences(basis=Basis.TOTAL)))
    assert abs(number(found, "fragrance") - 40) < TINY


def test_what_the_scale_really_reaches_is_said() -> None:
    # 46.5 g on a 1 g scale becomes 47 g, half up: 47 ÷ 620 = 7.58 %
    found = LoadQuestion(wax=wax(620), load=load("7.5")).answer(EMPTY)
    assert "weigh 47 g: a load of 7.58 %" in words(found)


@pytest.mark.parametrize(
    ("question", "lacking"),
    [
        (LoadQuestion(), ["weight_of_wax", "load_percent"]),
        (LoadQuestion(wax=wax(500)), ["load_percent"]),
        (LoadQuestion(load=load("8")), ["weight_of_wax"]),
        (LoadQuestion(wax=wax(0), load=load("8")), ["weight_of_wax"]),
        (LoadQuestion(fragrance=Mass.of(40)), ["load_percent"]),
    ],
)
def test_what_is_lacking_is_named(question: LoadQuestion, lacking: list[str]) -> None:
    found = question.answer(EMPTY)
    assert needs(found) == lacking
    assert isinstance(found, Missing)
    assert found.question == question


@pytest.mark.parametrize(
    "question",
    [
        LoadQuestion(wax=wax(500), load=load("25")),
        LoadQuestion(wax=wax(500), load=load("150")),
        LoadQuestion(wax=wax(500), fragrance=Mass.of(125)),
        LoadQuestion(total=Mass.of(200), fragrance=Mass.of(100)),
        LoadQuestion(wax=wax(500), load=load("20.1", Basis.TOTAL)),  # 25.2 % of the wax
    ],
)
def test_a_quarter_of_oil_and_more_is_declined(question: LoadQuestion) -> None:
    found = question.answer(EMPTY)
    assert isinstance(found, Declined)
    assert found.results == ()
    assert found.cautions


@pytest.mark.parametrize(
    ("question", "keys"),
    [
        (LoadQuestion(wax=wax(500), load=load("12")), set()),
        (LoadQuestion(wax=wax(500), load=load("12.1")), {"over_usual"}),
        (LoadQuestion(wax=wax(500), load=load("10"), limit=Percent(D(8))), {"over_limit"}),
        (LoadQuestion(wax=wax(500), load=load("8"), limit=Percent(D(8))), set()),
    ],
)
def test_cautions_about_the_load(question: LoadQuestion, keys: set[str]) -> None:
    assert cautions(question.answer(EMPTY)) == keys


@pytest.mark.parametrize(
    "question",
    [
        LoadQuestion(wax=wax(-5), load=load("8")),
        LoadQuestion(wax=wax(500), load=load("0")),
        LoadQuestion(wax=wax(500), load=load("-3")),
        LoadQuestion(wax=wax(500), total=Mass.of(400), load=load("8")),
        LoadQuestion(wax=wax(500), total=Mass.of(600), fragrance=Mass.of(40)),
        LoadQuestion(total=Mass.of(40), fragrance=Mass.of(40)),
        LoadQuestion(wax=wax(500), load=load("8"), strength=Percent(D(0))),
        LoadQuestion(wax=wax(500), load=load("8", Basis.TOTAL), strength=Percent(D(5))),
    ],
)
def test_the_impossible_becomes_a_sentence(question: LoadQuestion) -> None:
    found = answer(question, EMPTY)
    assert found.kind == "not_understood"
    assert found.headline.show().endswith((".", "?"))


class TestByVolume:
    """The fragrance of a load in a volume unit: 40 g ÷ 0.93 g/ml = 43.0108 ml, by hand."""

    def test_with_a_density(self) -> None:
        ask = LoadQuestion(wax=wax(500), load=load("8"), density=Density.of("0.93"), unit="us_tbsp")
        found = ask.answer(EMPTY)
        assert found.intent == "density_given_conversion"
        assert abs(number(found, "fragrance_volume") - D(40) / D("0.93")) < TINY
        assert number(found, "fragrance") == 40
        assert "2.91 US tbsp (43.01 ml)" in found.headline.show()

    def test_a_density_alone_gives_millilitres(self) -> None:
        found = LoadQuestion(total=Mass.of(540), load=load("8"), density=Density.of("0.93")).answer(EMPTY)
        assert "43.01 ml" in words(found)

    def test_without_a_density_the_weight_is_still_given(self) -> None:
        found = LoadQuestion(wax=wax(500), load=load("8"), unit="tbsp").answer(EMPTY)
        assert (found.intent, needs(found)) == ("weight_to_volume_needs_density", ["density_of_fragrance"])
        assert number(found, "fragrance") == 40
        assert found.steps
        assert "fragrance_volume" not in {each.what for each in found.results}

    def test_wax_by_volume_needs_the_waxs_density(self) -> None:
        ask = LoadQuestion(fragrance=Mass.of(40), load=load("8"), density=Density.of("0.93"), unit="l")
        assert needs(ask.answer(EMPTY)) == ["density_of_wax"]

    def test_a_weight_unit_asks_for_no_density(self) -> None:
        found = LoadQuestion(wax=wax(500), load=load("8"), unit="lb").answer(EMPTY)
        assert isinstance(found, Worked)
        assert "0.08818 lb" in words(found)
