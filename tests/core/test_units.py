"""Unit factors against the legal definitions and scipy.constants (CODATA and legal units, its own tables)."""

from __future__ import annotations

import math
from decimal import Decimal

import pytest
import scipy.constants as sc
from hypothesis import given
from hypothesis import strategies as st

from core.errors import OutOfRange
from core.units import (
    DENSITY_UNITS,
    LARGEST,
    LENGTH_UNITS,
    MASS_UNITS,
    UNSAID,
    VOLUME_UNITS,
    Density,
    Length,
    Mass,
    Money,
    Number,
    Percent,
    Temperature,
    TemperatureDifference,
    Volume,
    density_factor,
    factor,
    kind_of,
)

D = Decimal

# NIST Handbook 44 Appendix C, UK Weights and Measures Act 1985 Schedule 1, 21 CFR 101.9(b)(5)(viii) (label measures).
LEGAL = {
    ("oz", "g"): "28.349523125",
    ("lb", "g"): "453.59237",
    ("grain", "g"): "0.06479891",
    ("oz_t", "g"): "31.1034768",
    ("us_fl_oz", "ml"): "29.5735295625",
    ("us_cup", "ml"): "236.5882365",
    ("us_pint", "ml"): "473.176473",
    ("us_quart", "ml"): "946.352946",
    ("us_gallon", "ml"): "3785.411784",
    ("us_tbsp", "ml"): "14.78676478125",
    ("us_tsp", "ml"): "4.92892159375",
    ("imp_fl_oz", "ml"): "28.4130625",
    ("imp_cup", "ml"): "284.130625",
    ("imp_pint", "ml"): "568.26125",
    ("imp_quart", "ml"): "1136.5225",
    ("imp_gallon", "ml"): "4546.09",
    ("label_cup", "ml"): "240",
    ("label_fl_oz", "ml"): "30",
    ("metric_cup", "ml"): "250",
    ("in", "mm"): "25.4",
    ("ft", "mm"): "304.8",
}

# kg, m³ and m for one unit, as scipy has them.
SCIPY = {
    "oz": (sc.oz, "g", 1e3),
    "lb": (sc.lb, "g", 1e3),
    "grain": (sc.grain, "g", 1e3),
    "oz_t": (sc.troy_ounce, "g", 1e3),
    "us_fl_oz": (sc.fluid_ounce_US, "ml", 1e6),
    "us_gallon": (sc.gallon_US, "ml", 1e6),
    "imp_fl_oz": (sc.fluid_ounce_imp, "ml", 1e6),
    "imp_gallon": (sc.gallon_imp, "ml", 1e6),
    "l": (sc.liter, "ml", 1e6),
    "in": (sc.inch, "mm", 1e3),
    "ft": (sc.foot, "mm", 1e3),
    "t": (sc.metric_ton, "g", 1e3),
}


@pytest.mark.parametrize(("pair", "legal"), LEGAL.items())
def test_a_factor_is_the_legal_one_to_the_last_digit(pair: tuple[str, str], legal: str) -> None:
    assert factor(*pair) == D(legal)


@pytest.mark.parametrize("unit", SCIPY)
def test_a_factor_agrees_with_scipy(unit: str) -> None:
    si, base, times = SCIPY[unit]
    assert math.isclose(float(factor(unit, base)), si * times, rel_tol=1e-12)


def test_the_us_measures_are_shares_of_231_cubic_inches() -> None:
    # NIST Handbook 44: 1 gallon = 231 in³ = 4 quarts = 8 pints = 16 cups = 128 fl oz; 1 fl oz = 2 tbsp = 6 tsp.
    gallon = 231 * D("2.54") ** 3
    shares = {"quart": 4, "pint": 8, "cup": 16, "fl_oz": 128, "tbsp": 256, "tsp": 768}
    assert factor("us_gallon", "ml") == gallon
    assert {name: factor(f"us_{name}", "ml") * share for name, share in shares.items()} == dict.fromkeys(shares, gallon)


def test_the_imperial_measures_are_shares_of_their_gallon() -> None:
    # UK Weights and Measures Act 1985: 1 gallon = 4.54609 l = 4 quarts = 8 pints = 160 fl oz.
    assert {160 * factor("imp_fl_oz", "ml"), 8 * factor("imp_pint", "ml"), 4 * factor("imp_quart", "ml")} == {
        D("4546.09")
    }


@pytest.mark.parametrize("unit", UNSAID)
def test_a_measure_of_unsaid_country_is_the_us_one_and_says_so(unit: str) -> None:
    assert Volume.of(3, unit) == Volume.of(3, f"us_{unit}")
    assert Volume.of(3, unit).assumed_country
    assert not Volume.of(3, f"us_{unit}").assumed_country


@pytest.mark.parametrize("unit", ["furlong", "", "9**9", "__import__", "fl oz"])
def test_an_unknown_key_is_a_key_error(unit: str) -> None:
    with pytest.raises(KeyError):
        factor(unit, "g")


@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [("185", "85"), ("32", "0"), ("212", "100"), ("-40", "-40"), ("98.6", "37")],
)
def test_readings_of_a_thermometer(fahrenheit: str, celsius: str) -> None:
    # by definition; scipy.constants.convert_temperature agrees
    assert Temperature.of(fahrenheit, "degF").base == D(celsius)
    assert Temperature.of(celsius).to("degF") == D(fahrenheit)
    assert math.isclose(sc.convert_temperature(float(fahrenheit), "F", "C"), float(celsius), abs_tol=1e-12)


def test_a_difference_of_degrees_has_no_32() -> None:
    assert TemperatureDifference.of(9, "delta_degF").base == 5
    assert TemperatureDifference.of(5).to("delta_degF") == 9
    assert Temperature.of(0).to("kelvin") == D("273.15")
    assert Temperature.of(0, "kelvin").base == D("-273.15")


@pytest.mark.parametrize("unit", DENSITY_UNITS)
def test_a_density_unit_is_its_mass_over_its_volume(unit: str) -> None:
    mass, volume, times = DENSITY_UNITS[unit]
    assert Density.of(2, unit) == Density.from_ratio(Mass.of(2, mass), Volume.of(times, volume))


def test_densities_in_other_units() -> None:
    # scipy.constants: kg and m³, so kg/m³ and a thousandth of it in g/ml
    assert math.isclose(density_factor("lb/us_gallon"), sc.lb / sc.gallon_US / 1000, rel_tol=1e-12)
    assert math.isclose(density_factor("lb/imp_gallon"), sc.lb / sc.gallon_imp / 1000, rel_tol=1e-12)
    assert math.isclose(density_factor("oz/us_fl_oz"), sc.oz / sc.fluid_ounce_US / 1000, rel_tol=1e-12)
    assert Density.of(930, "kg/m3").base == D("0.93")


@pytest.mark.parametrize("value", ["NaN", "Infinity", "-Infinity", "1e400", "1e13", "-1e13"])
@pytest.mark.parametrize("kind", [Mass, Volume, Percent, Density, Temperature, Number])
def test_no_quantity_is_beyond_weighing(kind: type[Mass], value: str) -> None:
    with pytest.raises(OutOfRange) as caught:
        kind.of(D(value))
    assert "Give one" in caught.value.sentence


AMOUNTS = st.decimals(min_value="0.000001", max_value="1000000", places=6)


@given(AMOUNTS, st.sampled_from((*MASS_UNITS, *VOLUME_UNITS, *LENGTH_UNITS)))
def test_there_and_back_is_the_same(number: Decimal, unit: str) -> None:
    kind = kind_of(unit)
    assert kind is not None
    assert abs(kind.of(number, unit).to(unit) - number) <= number * D("1e-35")


@given(st.decimals(min_value=-1000, max_value=1000, places=4), st.sampled_from(["degC", "degF", "kelvin"]))
def test_temperatures_there_and_back(number: Decimal, unit: str) -> None:
    assert abs(Temperature.of(number, unit).to(unit) - number) <= D("1e-30")


@given(AMOUNTS, AMOUNTS)
def test_volume_and_mass_undo_each_other(millilitres: Decimal, density: Decimal) -> None:
    volume, rho = Volume(millilitres), Density(density)
    mass = Decimal(millilitres * density)
    if mass > LARGEST:
        return
    assert abs(rho.volume_of(rho.mass_of(volume)).base - millilitres) <= millilitres * D("1e-35")


def test_equal_weights_are_equal_whatever_they_were_typed_in() -> None:
    assert Mass.of(16, "oz") == Mass.of(1, "lb") == Mass(D("453.59237"), "lb_oz")
    assert Mass.of(1, "lb").oz == 16
    assert Mass(D("453.59237"), "lb_oz").to("lb_oz") == 1
    assert Mass.of(500) > Mass.of(1, "lb")


def test_sums_keep_the_first_unit() -> None:
    total = Mass.of(1, "lb") + Mass.of(100)
    assert (total.base, total.unit) == (D("553.59237"), "lb")
    assert (total - Mass.of(100)).base == D("453.59237")
    assert (Mass.of(2) * 3).base == 6


def test_money_is_never_converted() -> None:
    assert Money.of("12.50", "usd").to("eur") == D("12.50")
    assert Money.of(1).unit == "money"


@pytest.mark.parametrize(
    ("unit", "kind"),
    [
        ("g", Mass),
        ("lb_oz", Mass),
        ("cup", Volume),
        ("degF", Temperature),
        ("delta_degF", TemperatureDifference),
        ("in", Length),
        ("kg/m3", Density),
        ("percent", Percent),
        ("", Number),
        ("gbp", Money),
        ("blorp", None),
    ],
)
def test_the_kind_of_a_unit(unit: str, kind: type | None) -> None:
    assert kind_of(unit) is kind
