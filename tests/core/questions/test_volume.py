"""Volumes and weights: densities from CoolProp and chemicals, laws by hypothesis, no weight without a density."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
from chemicals import MW
from chemicals.dippr import EQ105
from chemicals.volume import rho_data_Perry_8E_105_l
from CoolProp.CoolProp import PropsSI
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Missing, Origin, Result, Worked
from core.compounds import Masses, Material, State, Stuff
from core.questions.volume import VolumeQuestion
from core.units import VOLUME_UNITS, Density, Mass, Temperature, Volume
from tests.core.questions.records import EMPTY, SHELF, number, words
from tests.core.questions.workbench import load

D = Decimal
TINY = D("1e-18")
FL_OZ = Volume.of(1, "us_fl_oz")


class TestPublished:
    """One US fl oz of three liquids at 20 °C: 24.93, 29.52 and 34.92 g, from the libraries' own densities."""

    @pytest.mark.parametrize(
        ("name", "grams", "library"),
        [
            ("d-limonene", 24.93, PropsSI("D", "T", 293.15, "P", 101325, "INCOMP::TCO")),
            ("water", 29.52, PropsSI("D", "T", 293.15, "P", 101325, "Water")),
            ("ethanol", 23.35, PropsSI("D", "T", 293.15, "P", 101325, "Ethanol")),
        ],
    )
    def test_against_coolprop(self, name: str, grams: float, library: float) -> None:
        found = VolumeQuestion(volume=FL_OZ, material=Material(name), at=Temperature(D(20))).answer(EMPTY)
        assert isinstance(found, Worked)
        weight = float(number(found, "mass"))
        assert math.isclose(weight, library * 29.5735295625e-3, rel_tol=2e-5)
        assert math.isclose(weight, grams, abs_tol=0.01)

    def test_benzyl_alcohol_against_chemicals(self) -> None:
        row = rho_data_Perry_8E_105_l.loc["100-51-6"]  # DIPPR equation 105, mol/m³
        molar = EQ105(293.15, *(float(row[c]) for c in ("C1", "C2", "C3", "C4")))
        library = molar * MW("100-51-6") * 1e-6  # g/ml
        found = VolumeQuestion(volume=Volume.of(100), material=Material("benzyl alcohol"), at=Temperature(D(20)))
        assert math.isclose(float(number(found.answer(EMPTY), "mass")), library * 100, rel_tol=2e-4)

    def test_methyl_salicylate(self) -> None:
        # 34.92 g: VDI heat atlas equation 116 as in the chemicals library
        found = VolumeQuestion(volume=FL_OZ, material=Material("methyl salicylate")).answer(EMPTY)
        assert math.isclose(float(number(found, "mass")), 34.92, abs_tol=0.01)

    def test_where_it_comes_from_is_said(self) -> None:
        found = VolumeQuestion(volume=FL_OZ, material=Material("Water")).answer(EMPTY)
        (density,) = [each for each in found.given if each.what == "density"]
        assert density.origin is Origin.PUBLISHED
        assert density.source is not None
        assert "IAPWS" in density.source.show()
        assert "how warm" in words(found)

    @pytest.mark.parametrize("name", ["soy wax", "paraffin", "beeswax", "tea tree oil", "eugenol", "lavender oil"])
    def test_a_band_or_a_mixture_is_no_value(self, name: str) -> None:
        found = VolumeQuestion(volume=FL_OZ, material=Material(name)).answer(EMPTY)
        assert isinstance(found, Missing)
        assert found.results == ()

    def test_a_figure_from_memory_is_no_value(self) -> None:
        # molten carnauba: one figure, 0.85 g/ml, and that from memory
        ask = VolumeQuestion(volume=FL_OZ, material=Material("carnauba wax"), state=State.MOLTEN)
        found = ask.answer(EMPTY)
        assert isinstance(found, Missing)
        assert "from memory" in words(found)

    @pytest.mark.parametrize("degrees", ["60", "80", "-10"])
    def test_a_figure_for_another_temperature_is_not_used(self, degrees: str) -> None:
        for name in ("water", "ethanol"):
            ask = VolumeQuestion(volume=FL_OZ, material=Material(name), at=Temperature(D(degrees)))
            assert isinstance(ask.answer(EMPTY), Missing)


class TestWorked:
    @pytest.mark.parametrize(
        ("ask", "what", "value"),
        [
            # 3 l × 0.9 kg/l = 2.7 kg; 5 fl oz × 1.5 oz/fl oz = 7.5 oz; 40 g ÷ 0.93 g/ml = 43.0107… ml
            (
                VolumeQuestion(volume=Volume.of(3, "l"), stuff=Stuff.WAX, density=Density.of("0.9", "kg/l")),
                "wax",
                "2700",
            ),
            (
                VolumeQuestion(volume=Volume.of(5, "fl_oz"), density=Density.of("1.5", "oz/us_fl_oz")),
                "mass",
                "212.6214234375",
            ),
            (
                VolumeQuestion(mass=Mass.of("37.2"), stuff=Stuff.FRAGRANCE, density=Density.of("0.93")),
                "fragrance_volume",
                "40",
            ),
            (VolumeQuestion(mass=Mass.of("37.2"), density=Density.of("0.93"), unit="us_tbsp"), "volume", "40"),
            (VolumeQuestion(mass=Mass.of(456), material=Material("barn soy")), "wax_volume", "500"),
        ],
    )
    def test_a_density_carries_one_into_the_other(self, ask: VolumeQuestion, what: str, value: str) -> None:
        found = ask.answer(SHELF)
        assert isinstance(found, Worked)
        assert found.intent == "density_given_conversion"
        assert abs(number(found, what) - D(value)) < TINY

    def test_a_recorded_density_with_its_spread(self) -> None:
        found = VolumeQuestion(volume=Volume.of(500), material=Material("BARN SOY ")).answer(SHELF)
        # 500 × 0.912 = 456 g; twice 0.004 g/ml is 4 g: 452 to 460 g
        assert "between 452 g and 460 g" in words(found)
        assert any(each.origin is Origin.RECORDED for each in found.given)

    def test_a_given_density_goes_before_the_recorded_one(self) -> None:
        ask = VolumeQuestion(volume=Volume.of(100), material=Material("Barn soy"), density=Density.of("0.9"))
        assert number(ask.answer(SHELF), "wax") == 90

    def test_a_volume_of_wax_is_carried_on_to_its_fragrance(self) -> None:
        ask = VolumeQuestion(volume=Volume.of(500), load=load("8"), density=Density.of("0.9"))
        found = ask.answer(EMPTY)
        assert (number(found, "wax"), number(found, "fragrance"), number(found, "total")) == (450, 36, 486)
        assert found.intent == "density_given_conversion"
        assert len(found.steps) == 2

    def test_a_volume_of_oil_is_carried_on_to_its_load(self) -> None:
        wax = Masses.one(Mass.of(500))
        ask = VolumeQuestion(volume=Volume.of(40), stuff=Stuff.FRAGRANCE, density=Density.of(1), wax=wax)
        assert number(ask.answer(EMPTY), "load") == 8
        only_load = VolumeQuestion(volume=Volume.of(40), stuff=Stuff.FRAGRANCE, density=Density.of(1), load=load("8"))
        assert number(only_load.answer(EMPTY), "wax") == 500

    def test_wax_and_load_end_in_a_volume(self) -> None:
        ask = VolumeQuestion(wax=Masses.one(Mass.of(500)), load=load("8"), density=Density.of("0.8"))
        assert number(ask.answer(EMPTY), "fragrance_volume") == 50

    @pytest.mark.parametrize(("grams", "word"), [("4.58", "Yes"), ("5", "No, not 5 g")])
    def test_a_supposed_weight_is_judged(self, grams: str, word: str) -> None:
        # 4.92892 ml × 0.93 g/ml = 4.584 g
        ask = VolumeQuestion(volume=Volume.of(1, "tsp"), mass=Mass.of(grams), density=Density.of("0.93"))
        assert ask.answer(EMPTY).headline.show().startswith(word)

    def test_other_countries_cups_are_told(self) -> None:
        found = VolumeQuestion(volume=Volume.of(1, "cup"), density=Density.of(1)).answer(EMPTY)
        assert "284 g" in words(found)  # 10 imperial fl oz of 28.4130625 ml
        assert "250 g" in words(found)
        assert "I took the US ones" in words(found)
        said = VolumeQuestion(volume=Volume.of(1, "us_cup"), density=Density.of(1)).answer(EMPTY)
        assert (said.other, said.assumed) == ((), ())

    @given(
        st.decimals(min_value="0.001", max_value="100000", places=3),
        st.decimals(min_value="0.1", max_value="2", places=3),
        st.sampled_from(VOLUME_UNITS),
    )
    def test_weight_and_volume_undo_each_other(self, amount: Decimal, density: Decimal, unit: str) -> None:
        there = VolumeQuestion(volume=Volume.of(amount, unit), density=Density(density)).answer(EMPTY)
        back = VolumeQuestion(mass=Mass(number(there, "mass")), density=Density(density), unit=unit).answer(EMPTY)
        (volume,) = [each for each in back.results if each.what == "volume"]
        assert isinstance(volume, Result)
        assert abs(volume.value.to(unit) - amount) <= amount * D("1e-30")
