"""Measured densities: uncertainty against the `uncertainties` library and the GUM, tolerances by ASTM E1272 Table 1."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from core.answer import Origin, Worked
from core.ask import answer
from core.book import Preferences
from core.compounds import Material, Measure, Stuff
from core.questions.density import DensityQuestion
from core.units import Mass, Temperature, Volume
from tests.core.questions.records import EMPTY, SHELF, Shelf, cautions, needs, number, words

D = Decimal
A, B = Measure.CYLINDER_A, Measure.CYLINDER_B


def test_a_density_is_weight_over_volume() -> None:
    # 1.02 oz in 1 US fl oz: 1.02 × 28.349523125 ÷ 29.5735295625, by hand
    found = DensityQuestion(mass=Mass.of("1.02", "oz"), volume=Volume.of(1, "fl_oz")).answer(EMPTY)
    assert math.isclose(float(number(found, "density")), 0.977784, abs_tol=5e-7)
    assert "1.018 g/ml" in words(found)  # with the imperial fluid ounce
    assert {each.what for each in found.results} == {"density"}


@pytest.mark.parametrize(
    ("grams", "step", "millilitres", "capacity", "measure", "limit"),
    [
        # ± ml by ASTM E1272-02 Table 1; kitchen measures ±5 % (US voluntary standard); beakers ±5 % (from memory)
        ("93.0", "0.1", 100, 100, B, 1.0),
        ("93.0", "0.1", 100, 100, A, 0.5),
        ("9.0", "1", 10, 10, B, 0.20),
        ("9.00", "0.01", 10, 100, B, 1.0),
        ("230", "1", 250, 250, B, 2.0),
        ("215", "1", 240, None, Measure.KITCHEN, 12.0),
        ("90", "0.1", 100, None, Measure.BEAKER, 5.0),
    ],
)
def test_uncertainty_against_the_uncertainties_library(
    grams: str, step: str, millilitres: int, capacity: int | None, measure: Measure, limit: float
) -> None:
    found = DensityQuestion(
        mass=Mass.of(grams),
        step=Mass.of(step),
        volume=Volume.of(millilitres),
        capacity=Volume.of(capacity) if capacity else None,
        measure=measure,
    ).answer(EMPTY)
    # two readings of resolution d: d/√6; a rectangle of ±a: a/√3 (JCGM 100:2008)
    expected = ufloat(float(grams), float(step) / math.sqrt(6)) / ufloat(millilitres, limit / math.sqrt(3))
    assert math.isclose(float(number(found, "density")), expected.nominal_value, rel_tol=1e-12)
    assert math.isclose(float(number(found, "uncertainty")), expected.std_dev, rel_tol=1e-9)
    relative = expected.std_dev / expected.nominal_value * 100
    assert math.isclose(float(number(found, "relative")), relative, rel_tol=1e-9)


def test_the_known_example() -> None:
    # 93.0 g on a 0.1 g scale in a 100 ml class B cylinder: 0.9300 ± 0.0054 g/ml, class A 0.0027 (k = 1; computed)
    for measure, u in ((B, "0.0054"), (A, "0.0027")):
        ask = DensityQuestion(
            mass=Mass.of("93.0"), step=Mass.of("0.1"), volume=Volume.of(100), capacity=Volume.of(100), measure=measure
        )
        assert round(number(ask.answer(EMPTY), "uncertainty"), 4) == D(u)


@pytest.mark.parametrize(
    ("grams", "step", "millilitres", "decides"), [("93", "0.1", 100, "The measure"), ("9", "1", 10, "The scale")]
)
def test_what_decides_is_said(grams: str, step: str, millilitres: int, decides: str) -> None:
    size = Volume.of(millilitres)
    ask = DensityQuestion(mass=Mass.of(grams), step=Mass.of(step), volume=size, capacity=size, measure=B)
    text = words(ask.answer(EMPTY))
    assert f"{decides} (" in text
    assert "19 times in 20" in text


def test_what_was_not_said_is_said_to_be_assumed() -> None:
    bare = DensityQuestion(mass=Mass.of("93.0"), volume=Volume.of(90), measure=B)
    text = words(bare.answer(EMPTY))
    assert "I took 0.1 g" in text  # the last digit that was typed
    assert "I took one of 100 ml" in text  # the smallest that takes it
    assert "I took 1 g" in words(DensityQuestion(mass=Mass.of(93), volume=Volume.of(90), measure=B).answer(EMPTY))
    fine = Shelf(Preferences(step=D("0.01")))
    assert "I took 0.01 g" in words(bare.answer(fine))


def test_the_limit_of_the_measure_names_its_standard() -> None:
    found = DensityQuestion(mass=Mass.of(93), volume=Volume.of(100), measure=B).answer(EMPTY)
    (limit,) = [each for each in found.given if each.origin is Origin.PUBLISHED]
    assert limit.source is not None
    assert "E1272" in limit.source.show()


@pytest.mark.parametrize("measure", [None, Measure.UNKNOWN])
def test_without_the_measure_nothing_is_claimed_about_exactness(measure: Measure | None) -> None:
    found = DensityQuestion(mass=Mass.of(93), volume=Volume.of(100), measure=measure).answer(EMPTY)
    assert {each.what for each in found.results} == {"density"}
    assert "tell me which you used" in words(found)


def test_a_cylinder_beyond_the_table_has_no_limit() -> None:
    found = DensityQuestion(mass=Mass.of(1860), volume=Volume.of(2000), measure=B).answer(EMPTY)
    assert isinstance(found, Worked)
    assert "no limits are published" in words(found)


def test_full_less_empty() -> None:
    ask = DensityQuestion(full=Mass.of(173), empty=Mass.of(80), volume=Volume.of(100))
    found = ask.answer(EMPTY)
    assert number(found, "density") == D("0.93")
    assert "173 g − 80 g = 93 g" in " ".join(f"{s.numbers.show()} = {s.result.show()}" for s in found.steps)


def test_water_shows_what_the_measure_is_worth() -> None:
    # IAPWS-95 at 20 °C: 0.99821 g/ml; 95 g in 100 ml is 4.83 % less
    off = DensityQuestion(mass=Mass.of(95), volume=Volume.of(100), material=Material("water"))
    assert "4.83 % less than it says" in words(off.answer(EMPTY))
    right = DensityQuestion(
        mass=Mass.of("99.7"), volume=Volume.of(100), material=Material("water"), at=Temperature(D(25))
    )
    assert "agree with it" in words(right.answer(EMPTY))


@pytest.mark.parametrize(
    ("ask", "lacking"),
    [
        (DensityQuestion(), ["weight_of_sample", "volume_of_sample"]),
        (DensityQuestion(mass=Mass.of(93)), ["volume_of_sample"]),
        (DensityQuestion(volume=Volume.of(100)), ["weight_of_sample"]),
        (DensityQuestion(volume=Volume.of(100), full=Mass.of(93)), ["weight_of_container"]),
        (DensityQuestion(volume=Volume.of(100), stuff=Stuff.FRAGRANCE), ["weight_of_fragrance"]),
        (DensityQuestion(mass=Mass.of(93), stuff=Stuff.WAX), ["volume_of_wax"]),
        (DensityQuestion(volume=Volume.of(100), empty=Mass.of(93)), ["weight_of_sample"]),
    ],
)
def test_what_is_lacking(ask: DensityQuestion, lacking: list[str]) -> None:
    found = ask.answer(EMPTY)
    assert needs(found) == lacking
    assert found.intent == "density_from_measurement"


@pytest.mark.parametrize(
    "ask",
    [
        DensityQuestion(mass=Mass.of(0), volume=Volume.of(100)),
        DensityQuestion(mass=Mass.of(93), volume=Volume.of(0)),
        DensityQuestion(mass=Mass.of(-93), volume=Volume.of(100)),
        DensityQuestion(mass=Mass.of(93), volume=Volume.of(100), step=Mass.of(0)),
        DensityQuestion(mass=Mass.of(93), volume=Volume.of(100), capacity=Volume.of(50)),
        DensityQuestion(full=Mass.of(80), empty=Mass.of(173), volume=Volume.of(100)),
        DensityQuestion(full=Mass.of(173), empty=Mass.of(80), mass=Mass.of(80), volume=Volume.of(100)),
        DensityQuestion(mass=Mass.of("0.001"), volume=Volume.of(100)),
        DensityQuestion(mass=Mass.of(93, "kg"), volume=Volume.of(100)),
    ],
)
def test_the_impossible_becomes_a_sentence(ask: DensityQuestion) -> None:
    found = answer(ask, EMPTY)
    assert found.kind == "not_understood"
    assert found.headline.show().endswith((".", "?"))


@pytest.mark.parametrize(
    ("grams", "stuff", "keys"),
    [
        (55, Stuff.WAX, {"odd_density"}),
        (93, Stuff.WAX, set()),
        (150, Stuff.FRAGRANCE, {"odd_density"}),
        (150, Stuff.OTHER, set()),
    ],
)
def test_an_unusual_density_is_pointed_out(grams: int, stuff: Stuff, keys: set[str]) -> None:
    found = DensityQuestion(mass=Mass.of(grams), volume=Volume.of(100), stuff=stuff).answer(SHELF)
    assert cautions(found) == keys


ANY = st.decimals(min_value="-1e12", max_value="1e12") | st.decimals(min_value=0, max_value="1e-30")


@given(ANY, ANY, ANY, ANY, st.sampled_from([None, *Measure]))
def test_no_number_crashes_it(
    grams: Decimal, room: Decimal, step: Decimal, capacity: Decimal, measure: Measure | None
) -> None:
    ask = DensityQuestion(
        mass=Mass(grams), volume=Volume(room), step=Mass(step), capacity=Volume(capacity), measure=measure
    )
    assert words(answer(ask, EMPTY))
    assert words(answer(DensityQuestion(full=Mass(grams), empty=Mass(step), volume=Volume(room)), EMPTY))


@given(
    st.decimals(min_value=10, max_value=1000, places=1),
    st.decimals(min_value=10, max_value=1000, places=1),
    st.sampled_from(["0.01", "0.1", "1"]),
    st.sampled_from([A, B, Measure.BEAKER, Measure.KITCHEN]),
)
def test_a_finer_scale_never_makes_it_worse(grams: Decimal, millilitres: Decimal, step: str, measure: Measure) -> None:
    def spread(size: Decimal) -> Decimal:
        ask = DensityQuestion(mass=Mass(grams), volume=Volume(millilitres), step=Mass(size), measure=measure)
        return number(ask.answer(EMPTY), "relative")

    if D("0.05") <= grams / millilitres <= 25:
        assert spread(D(step) / 10) <= spread(D(step))


def test_the_water_that_fills_the_vessel_tells_its_room() -> None:
    # 240 g of water at 20 °C take 240 × 1.0029 = 240.7 ml (ISO 8655-6); 211 g in them are 0.8766 g/ml.
    found = DensityQuestion(mass=Mass.of(211), water=Mass.of(240)).answer(EMPTY)
    assert isinstance(found, Worked)
    (density,) = [each.value for each in found.results if each.what == "density"]
    assert abs(density.base - Decimal("0.8766")) < Decimal("0.0002")
