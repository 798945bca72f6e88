"""How quantities are written: rounding half up, tables that add up, the asker's step, unit and decimal comma."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.units import (
    Density,
    Length,
    Mass,
    Money,
    Number,
    Percent,
    Quantity,
    Temperature,
    TemperatureDifference,
    Volume,
)
from core.writing import Style, figure, rounded, significant, to_step, write

D = Decimal


@pytest.mark.parametrize(
    ("value", "spec", "text"),
    [
        (Mass.of("46.5"), "", "46.5 g (1.64 oz)"),
        (Mass.of("0.456"), "", "0.46 g (0.016 oz)"),
        (Mass.of("99.96"), "g", "100 g"),
        (Mass.of(12345), "g", "12,345 g"),
        (Mass.of("1.005"), "work", "1.01 g"),
        (Mass.of("0.0004"), "g", "0.0004 g"),
        (Mass.of(0), "", "0 g (0.00 oz)"),
        (Mass(D("566.9904625"), "lb_oz"), "typed", "1 lb 4 oz"),
        (Mass(D("566.9904625"), "lb_oz"), "lb_oz", "1 lb 4 oz"),
        (Mass.of("2.5", "kg"), "lb", "5.512 lb"),
        (Mass.of("6.1"), "g.2", "6.10 g"),
        (Mass.of(16, "oz"), "lb.3", "1.000 lb"),
        (Mass.of("6.1"), "first.1.2", "6.1 g"),
        (Mass.of(1, "grain"), "typed", "1 grain"),
        (Mass.of(2, "grain"), "typed", "2 grains"),
        (Mass.of("1.5", "lb"), "by", "1.5 × 453.5924 g"),
        (Volume.of(1, "cup"), "typed", "1 US cup"),
        (Volume.of("1.5", "cup"), "typed", "1.5 US cups"),
        (Volume.of("236.5882365"), "", "236.6 ml"),
        (Volume.of("236.5882365"), "work", "236.588 ml"),
        (Volume.of(40, "ml"), "us_tbsp", "2.71 US tbsp"),
        (Volume.of(3, "imp_pint"), "unit", "3 imperial pints"),
        (Percent(D("7.5")), "", "7.5 %"),
        (Percent(D("7.5")), "bare", "7.5"),
        (Percent(D("0.0123")), "", "0.012 %"),
        (Density.of("0.93"), "", "0.93 g/ml"),
        (Density.of("1.5", "oz/us_fl_oz"), "typed", "1.5 oz per US fl oz"),
        (Density.of("1.5", "oz/us_fl_oz"), "work", "1.43792 g/ml"),
        (Temperature.of(185, "degF"), "", "185 °F"),
        (Temperature.of(185, "degF"), "degC", "85 °C"),
        (TemperatureDifference.of(9, "delta_degF"), "delta_degC", "5 °C"),
        (Money.of("3.5", "gbp"), "", "£3.50"),
        (Money.of("3.5"), "", "3.50"),
        (Number(D("0.93750")), "", "0.9375"),
        (Length.of(4, "in"), "mm", "101.6 mm"),
        ("plain", "", "plain"),
    ],
)
def test_what_is_written(value: object, spec: str, text: str) -> None:
    assert write(value, spec=spec) == text


@pytest.mark.parametrize(
    ("style", "text"),
    [
        (Style(first="oz"), "1.64 oz (46.5 g)"),
        (Style(step=D(1)), "47 g (1.64 oz)"),
        (Style(step=D("0.01"), comma=True), "46,5 g (1,64 oz)"),
    ],
)
def test_the_askers_style(style: Style, text: str) -> None:
    assert write(Mass.of("46.5"), style) == text


def test_a_decimal_comma_moves_the_thousands_mark() -> None:
    assert write(Mass.of(12345), Style(comma=True), "g") == "12.345 g"


def test_the_askers_own_words_are_escaped() -> None:
    assert write("a*b", Style(escape=lambda text: text.replace("*", "\\*"))) == "a\\*b"


def test_halves_go_up() -> None:
    # common practice, no source: 0.5 of the last digit goes up, not to the even neighbour
    assert [rounded(D(x), 1) for x in ("0.05", "0.15", "0.25")] == [D("0.1"), D("0.2"), D("0.3")]
    assert to_step(D("46.5"), D(1)) == 47


@given(st.decimals(min_value="0.000001", max_value="999999", places=6), st.integers(min_value=1, max_value=8))
def test_significant_digits_never_lose_more_than_half_of_the_last(number: Decimal, digits: int) -> None:
    shown = significant(number, digits)
    assert abs(shown - number) <= D(5).scaleb(min(number.adjusted() - digits, -1))


@given(st.sampled_from(["g", "kg", "oz", "lb", "mg"]), st.decimals(min_value="0.001", max_value="9999", places=3))
def test_typed_drops_no_digit_that_was_typed(unit: str, number: Decimal) -> None:
    text = write(Mass.of(number, unit), spec="typed")
    shown, symbol = text.rsplit(" ", 1)
    assert (D(shown), symbol) == (number.normalize(), unit)


@pytest.mark.parametrize("number", ["-0", "0.000", "-0.0"])
def test_nothing_is_written_as_a_plain_nought(number: str) -> None:
    assert figure(D(number), trim=True) == "0"


@pytest.mark.parametrize(
    "value",
    [Mass.of("1e-9"), Mass.of("999999999999"), Volume.of("1e-9"), Density.of("0.000001"), Percent(D("1e-9"))],
)
def test_very_small_and_very_large_amounts_never_show_as_nothing(value: Quantity) -> None:
    digits = [character for character in write(value) if character.isdigit()]
    assert any(digit != "0" for digit in digits)
    assert "E" not in write(value)
