"""Conversions against scipy.constants and the definitions; the open ounce is asked back; measures side by side."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
import scipy.constants as sc
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Choice, Missing, Worked
from core.ask import answer
from core.compounds import HouseholdMeasure, Material, OunceKind, Stuff, UnitName
from core.errors import WrongKind
from core.questions.convert import CompareMeasuresQuestion, Convertible, ConvertQuestion
from core.units import (
    LENGTH_UNITS,
    MASS_UNITS,
    VOLUME_UNITS,
    Density,
    Length,
    Mass,
    Temperature,
    TemperatureDifference,
    Volume,
)
from tests.core.questions.records import EMPTY, cautions, needs, number, words

D = Decimal
OZ, LB, FL_OZ = sc.oz * 1e3, sc.lb * 1e3, sc.fluid_ounce_US * 1e6


def convert(amount: Convertible, to: str = "", **more: object) -> ConvertQuestion:
    return ConvertQuestion(amount=amount, to=UnitName(to) if to else None, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("ask", "intent", "what", "value"),
    [
        (convert(Mass.of(12, "oz"), "g"), "convert_mass", "mass", 12 * OZ),
        (convert(Mass.of("2.5", "kg"), "lb"), "convert_mass", "mass", 2500 / LB),
        (convert(Mass.of(85), "oz"), "convert_mass", "mass", 85 / OZ),
        (convert(Mass(D("566.9904625"), "lb_oz"), "g"), "convert_mass", "mass", 1.25 * LB),
        (convert(Mass.of(5, "oz_t"), "g"), "convert_mass", "mass", 5 * sc.troy_ounce * 1e3),
        (convert(Volume.of(30), "fl_oz"), "convert_volume", "volume", 30 / FL_OZ),
        (convert(Volume.of("1.5", "quart"), "l"), "convert_volume", "volume", 1.5 * sc.gallon_US * 1e3 / 4),
        (convert(Volume.of(1, "imp_pint"), "us_pint"), "convert_volume", "volume", sc.gallon_imp / sc.gallon_US),
        (convert(Temperature.of(185, "degF"), "degC"), "convert_temperature", "temperature", 85),
        (convert(Temperature.of(20), "degF"), "convert_temperature", "temperature", 68),
        (convert(Temperature.of(0), "kelvin"), "convert_temperature", "temperature", sc.zero_Celsius),
        (convert(TemperatureDifference.of(9, "delta_degF"), "degC"), "convert_temperature", "change", 5),
        (convert(Length.of(4, "in"), "mm"), "convert_length", "length", 4 * sc.inch * 1e3),
    ],
)
def test_conversions(ask: ConvertQuestion, intent: str, what: str, value: float) -> None:
    found = ask.answer(EMPTY)
    assert isinstance(found, Worked)
    assert found.intent == intent
    (result,) = [each for each in found.results if each.what == what]
    assert math.isclose(float(result.value.to(result.unit)), value, rel_tol=1e-12)


@pytest.mark.parametrize(
    ("amount", "headline"),
    [
        (Mass.of(500), "500 g is 17.64 oz."),
        (Mass.of(12, "oz"), "12 oz is 340.19 g."),
        (Volume.of(100), "100 ml is 3.38 US fl oz."),
        (Volume.of(2, "fl_oz"), "2 US fl oz is 59.15 ml."),
        (Temperature.of(185, "degF"), "185 °F is 85 °C."),
        (Temperature.of(85), "85 °C is 185 °F."),
        (TemperatureDifference.of(5), "A change of 5 °C is a change of 9 °F."),
        (Length.of(10, "cm"), "10 cm is 3.94 in."),
    ],
)
def test_the_usual_unit_where_none_is_asked_for(amount: Convertible, headline: str) -> None:
    assert convert(amount).answer(EMPTY).headline.show() == headline


@given(
    st.decimals(min_value="0.001", max_value="99999", places=3),
    st.sampled_from([MASS_UNITS, VOLUME_UNITS, LENGTH_UNITS]).flatmap(
        lambda units: st.tuples(st.sampled_from(units), st.sampled_from(units))
    ),
)
def test_there_and_back_is_the_same_amount(number_of: Decimal, units: tuple[str, str]) -> None:
    one, other = units
    kind = Mass if one in MASS_UNITS else Volume if one in VOLUME_UNITS else Length
    there = convert(kind.of(number_of, one), other).answer(EMPTY)
    assert isinstance(there, Worked)
    value = there.results[0].value.to(other)
    back = convert(kind.of(value, other), one).answer(EMPTY)
    assert abs(back.results[0].value.to(one) - number_of) <= number_of * D("1e-30")


def test_the_sum_shown_is_right() -> None:
    (step,) = convert(Mass.of("2.5", "kg"), "lb").answer(EMPTY).steps
    assert step.formula == f"1 kg = {1 / sc.lb:.6f} lb"
    assert step.numbers.show() == f"2.5 × {1 / sc.lb:.6f}"
    assert step.result.show() == "5.51 lb"


@pytest.mark.parametrize(
    ("amount", "to", "said"),
    [
        (Volume.of(2, "cup"), "ml", ["568.26 ml", "500 ml"]),  # 2 × 284.130625 and 2 × 250
        (Volume.of(2, "cup"), "fl_oz", ["20 imperial fl oz"]),  # 10 imperial fl oz to the imperial cup
        (Volume.of(30), "fl_oz", ["1.06 imperial fl oz"]),  # 30 ÷ 28.4130625
        (Volume.of(1, "us_cup"), "ml", []),
    ],
)
def test_countries_are_told_apart(amount: Volume, to: str, said: list[str]) -> None:
    found = convert(amount, to).answer(EMPTY)
    text = " ".join(each.show() for each in found.other)
    assert all(each in text for each in said)
    assert len(found.other) == len(said)
    assert bool(found.assumed) is bool(said)


class TestOunces:
    """1 oz of oil may be 28.35 g of weight or 29.57 ml of room."""

    def test_both_readings_are_offered_and_complete(self) -> None:
        found = convert(Mass.of(1, "oz"), "ml", stuff=Stuff.FRAGRANCE, unsure=True).answer(EMPTY)
        assert isinstance(found, Choice)
        assert (found.intent, needs(found)) == ("ambiguous_ounces", ["ounce_kind"])
        weight, fluid = (option.question for option in found.options)
        assert isinstance(weight, ConvertQuestion)
        assert isinstance(fluid, ConvertQuestion)
        assert needs(weight.answer(EMPTY)) == ["density_of_fragrance"]
        assert math.isclose(float(number(fluid.answer(EMPTY), "volume")), FL_OZ, rel_tol=1e-12)
        assert "28.3 g" in found.options[0].means.show()
        assert "29.57 ml" in found.options[1].means.show()
        assert found.results == ()

    def test_grams_of_two_ounces(self) -> None:
        found = convert(Mass.of(2, "oz"), "g", stuff=Stuff.FRAGRANCE, unsure=True).answer(EMPTY)
        assert isinstance(found, Choice)
        weight, fluid = (option.question for option in found.options)
        assert weight is not None
        assert fluid is not None
        assert math.isclose(float(number(weight.answer(EMPTY), "mass")), 2 * OZ, rel_tol=1e-12)
        assert needs(fluid.answer(EMPTY)) == ["density_of_fragrance"]

    @pytest.mark.parametrize(
        ("kind", "lacking"), [(OunceKind.WEIGHT, ["density_of_fragrance"]), (OunceKind.FLUID, None)]
    )
    def test_millilitres_to_ounces(self, kind: OunceKind, lacking: list[str] | None) -> None:
        found = convert(Volume.of(30), "oz", stuff=Stuff.FRAGRANCE, ounce=kind).answer(EMPTY)
        if lacking is None:
            assert math.isclose(float(found.results[0].value.to("us_fl_oz")), 30 / FL_OZ, rel_tol=1e-12)
        else:
            assert needs(found) == lacking

    def test_fluid_ounces_that_were_meant_as_weight(self) -> None:
        found = convert(Volume.of(2, "us_fl_oz"), "g", ounce=OunceKind.WEIGHT).answer(EMPTY)
        assert math.isclose(float(number(found, "mass")), 2 * OZ, rel_tol=1e-12)

    def test_a_chosen_kind_is_not_asked_again(self) -> None:
        assert isinstance(convert(Mass.of(1, "oz"), "g", unsure=True, ounce=OunceKind.WEIGHT).answer(EMPTY), Worked)


def test_between_weight_and_volume_only_through_a_density() -> None:
    worked = convert(Mass.of(40), "ml", density=Density.of("0.8")).answer(EMPTY)
    assert (number(worked, "volume"), worked.intent) == (50, "density_given_conversion")
    lacking = convert(Mass.of(40), "ml", stuff=Stuff.WAX).answer(EMPTY)
    assert (lacking.intent, needs(lacking)) == ("weight_to_volume_needs_density", ["density_of_wax"])
    water = convert(Volume.of(1, "l"), "g", material=Material("water")).answer(EMPTY)
    assert math.isclose(float(number(water, "mass")), 998.207, abs_tol=0.001)  # IAPWS-95, 20 °C


@pytest.mark.parametrize(
    ("ask", "reason"),
    [
        (convert(Mass.of(4), "degC"), "wrong_kind"),
        (convert(Temperature.of(4), "g"), "wrong_kind"),
        (convert(Length.of(4), "g"), "wrong_kind"),
        (convert(Mass.of(4), "percent"), "wrong_kind"),
        (convert(Mass.of(4), "blorp"), "unknown_unit"),
        (convert(Mass.of(4), "9**9**9"), "unknown_unit"),
        (convert(Mass.of(-4), "oz"), "out_of_range"),
        (convert(Temperature.of(-460, "degF"), "degC"), "out_of_range"),
        (convert(Temperature.of(-300), "degF"), "out_of_range"),
    ],
)
def test_the_impossible_becomes_a_sentence(ask: ConvertQuestion, reason: str) -> None:
    found = answer(ask, EMPTY)
    assert (found.kind, getattr(found, "reason", "")) == ("not_understood", reason)


@given(
    st.decimals(min_value="-1e12", max_value="1e12") | st.decimals(min_value=0, max_value="1e-30"),
    st.sampled_from([Mass, Volume, Length, Temperature, TemperatureDifference]),
    st.sampled_from(["", "g", "lb_oz", "cup", "us_gallon", "in", "degF", "kelvin", "delta_degF", "usd", "g/ml", "x"]),
    st.booleans(),
)
def test_no_number_and_no_unit_crashes_it(value: Decimal, kind: type[Mass], to: str, unsure: bool) -> None:
    found = answer(convert(kind(value), to, unsure=unsure), EMPTY)
    assert words(found)


def test_nothing_to_convert_is_asked_for() -> None:
    assert needs(ConvertQuestion().answer(EMPTY)) == ["amount"]
    assert needs(CompareMeasuresQuestion().answer(EMPTY)) == ["measure"]


def test_no_weight_and_the_same_unit() -> None:
    assert convert(Mass.of(0), "oz").answer(EMPTY).headline.show() == "0 g is 0 oz."
    same = convert(Mass.of(4), "g").answer(EMPTY)
    assert (same.headline.show(), same.steps, same.check) == ("4 g is 4 g.", (), None)


@pytest.mark.parametrize(("degrees", "keys"), [("185", {"hot_wax"}), ("70", set())])
def test_hot_wax_gets_its_caution(degrees: str, keys: set[str]) -> None:
    assert cautions(convert(Temperature.of(degrees, "degF")).answer(EMPTY)) == keys


@given(st.integers(-2000, 20000))
def test_the_step_shows_the_reading_as_it_was_typed(tenths: int) -> None:
    """350 °F is kept in °C, 176.66…, and must not come back as 350.000…1."""
    typed = Decimal(tenths) / 10
    (step,) = convert(Temperature.of(typed, "degF"), "degC").answer(EMPTY).steps
    shown = step.numbers.show().removeprefix("(").split(" ")[0]
    assert Decimal(shown.replace("−", "-").replace(",", "")) == typed


@pytest.mark.parametrize(
    ("measure", "us", "imperial"),
    [
        (HouseholdMeasure.FL_OZ, FL_OZ, sc.fluid_ounce_imp * 1e6),
        (HouseholdMeasure.CUP, sc.gallon_US * 1e6 / 16, sc.gallon_imp * 1e6 / 16),
        (HouseholdMeasure.PINT, sc.gallon_US * 1e6 / 8, sc.gallon_imp * 1e6 / 8),
        (HouseholdMeasure.QUART, sc.gallon_US * 1e6 / 4, sc.gallon_imp * 1e6 / 4),
        (HouseholdMeasure.GALLON, sc.gallon_US * 1e6, sc.gallon_imp * 1e6),
        (HouseholdMeasure.TBSP, FL_OZ / 2, 17.7581640625),  # five eighths of an imperial fluid ounce (from memory)
        (HouseholdMeasure.TSP, FL_OZ / 6, 5.919388020833333),  # a third of that (from memory)
    ],
)
def test_measures_side_by_side(measure: HouseholdMeasure, us: float, imperial: float) -> None:
    found = CompareMeasuresQuestion(measure=measure).answer(EMPTY)
    assert found.intent == "convert_volume"
    assert math.isclose(float(number(found, "us")), us, rel_tol=1e-12)
    assert math.isclose(float(number(found, "imperial")), imperial, rel_tol=1e-12)
    assert ("smaller" in words(found)) is (measure is HouseholdMeasure.FL_OZ)


def test_a_british_fluid_ounce_is_the_smaller_one() -> None:
    found = CompareMeasuresQuestion(measure=HouseholdMeasure.FL_OZ).answer(EMPTY)
    assert found.headline.show() == (
        "The imperial (British) fluid ounce is smaller: 28.4131 ml, against 29.5735 ml for the US one."
    )
    assert "3.92 % smaller" in words(found)


def test_missing_is_never_worked() -> None:
    assert isinstance(convert(Volume.of(1, "cup"), "g", stuff=Stuff.WAX).answer(EMPTY), Missing)


def test_two_readings_are_compared_on_the_scale_of_the_first() -> None:
    # (180 − 32) × 5 ÷ 9 = 82.22; 85 − 82.22 = 2.78
    found = ConvertQuestion(amount=Temperature.of(85), against=Temperature.of(180, "degF")).answer(EMPTY)
    assert isinstance(found, Worked)
    assert found.headline.show() == "180 °F is 82.22 °C, so 85 °C is 2.78 °C hotter."


def test_a_reading_moved_by_a_change_of_the_other_scale() -> None:
    # 10 °C are 18 °F: 165 − 18 = 147 °F = 63.89 °C
    change = TemperatureDifference.of(-10)
    found = ConvertQuestion(amount=Temperature.of(165, "degF"), change=change).answer(EMPTY)
    assert isinstance(found, Worked)
    assert found.headline.show() == "10 °C below 165 °F is 147 °F. That is 63.89 °C."


def test_amounts_of_two_kinds_are_not_compared() -> None:
    with pytest.raises(WrongKind):
        ConvertQuestion(amount=Mass.of(1), against=Volume.of(1)).answer(EMPTY)
    with pytest.raises(WrongKind):
        ConvertQuestion(amount=Mass.of(1), change=TemperatureDifference.of(1)).answer(EMPTY)
