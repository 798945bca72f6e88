"""Numbers in figures and words. Every expected value is plain arithmetic done by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from core.reading.figures import figure
from core.reading.numerals import read_numeral
from core.reading.tokens import Kind, tokenize


def read(text: str) -> tuple[Decimal, str] | None:
    """The number `text` starts with, and the rest of the text."""
    tokens = tokenize(text)
    number = read_numeral(tokens, 0)
    if number is None:
        return None
    rest = tokens[number.next]
    return number.value, "" if rest.kind is Kind.END else text[rest.start :]


@pytest.mark.parametrize(
    ("raw", "value"),
    [
        ("450", "450"),
        ("2.5", "2.5"),
        ("2,5", "2.5"),
        ("0,500", "0.5"),
        (".5", "0.5"),
        ("1,000", "1000"),
        ("1.000", "1"),
        ("1,000.50", "1000.5"),
        ("1.000,5", "1000.5"),
        ("1.000.000", "1000000"),
        ("1,000,000", "1000000"),
        ("12,34,567", "1234567"),
        ("1'000", "1000"),
        ("1e3", "1000"),
        ("2.5E-2", "0.025"),
    ],
)
def test_figures(raw: str, value: str) -> None:
    assert figure(raw) == Decimal(value)


@pytest.mark.parametrize("raw", ["1.2.3", "24.12.2024", "192.168.10.1", "1,2,3", "5'6", "1e99999", "1,250.5,3"])
def test_figures_that_form_no_number(raw: str) -> None:
    assert figure(raw) is None


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("½", "0.5"),
        ("1½", "1.5"),
        ("1 ½", "1.5"),
        ("1/2", "0.5"),
        ("1 1/2", "1.5"),
        ("1-1/2", "1.5"),
        ("1- 1/2", "1.5"),
        ("1 and 1/2", "1.5"),
        ("1 & 1/2", "1.5"),
        ("1⁄2", "0.5"),
        ("5/4", "1.25"),
        ("2 and a half", "2.5"),
        ("3 quarters", "0.75"),
        ("1 000", "1000"),
        ("1 000,5", "1000.5"),
        ("1 250 000", "1250000"),
        ("2 dozen", "24"),
        ("3 hundred", "300"),
        ("2.5 million", "2500000"),
        ("5.5x10-3", "0.0055"),
        ("6 x 10^3", "6000"),
        ("2×10⁻²", "0.02"),
        ("10^3", "1000"),
        ("٥٠٠", "500"),
        ("५", "5"),
        ("５００", "500"),
    ],
)
def test_figures_with_fractions_groups_and_powers(text: str, value: str) -> None:
    assert read(text) == (Decimal(value), "")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("zero", "0"),
        ("eight", "8"),
        ("twenty four", "24"),
        ("twenty-four", "24"),
        ("fourty five", "45"),
        ("a hundred", "100"),
        ("hundred", "100"),
        ("a hundred and twenty", "120"),
        ("four hundred fifty", "450"),
        ("four hundred and fifty-two", "452"),
        ("seventeen hundred", "1700"),
        ("one thousand two hundred", "1200"),
        ("a thousand", "1000"),
        ("two million", "2000000"),
        ("one eighty five", "185"),
        ("two fifty", "250"),
        ("nineteen eighty four", "1984"),
        ("one point five", "1.5"),
        ("three point two five", "3.25"),
        ("nought point one", "0.1"),
        ("oh point five", "0.5"),
        ("point five", "0.5"),
        ("zero point oh five", "0.05"),
        ("six point twenty five", "6.25"),
        ("a dozen", "12"),
        ("half a dozen", "6"),
        ("two dozen", "24"),
        ("a couple of", "2"),
        ("a couple hundred", "200"),
        ("half", "0.5"),
        ("a half", "0.5"),
        ("one half", "0.5"),
        ("a quarter", "0.25"),
        ("three quarter", "0.75"),
        ("three quarters", "0.75"),
        ("three-quarters", "0.75"),
        ("seven eighths", "0.875"),
        ("nine tenths", "0.9"),
        ("one and a half", "1.5"),
        ("two and three quarters", "2.75"),
        ("one and one-half", "1.5"),
        ("one and 1/2", "1.5"),
        ("one hundred twenty-five and a half", "125.5"),
    ],
)
def test_number_words(text: str, value: str) -> None:
    assert read(text) == (Decimal(value), "")


@pytest.mark.parametrize(
    ("text", "value", "rest"),
    [
        ("eight four ounce jars", "8", "four ounce jars"),
        ("two half pound bags", "2", "half pound bags"),
        ("six twenty gram melts", "6", "twenty gram melts"),
        ("3 250 g candles", "3", "250 g candles"),
        ("2 14-oz cans", "2", "14-oz cans"),
        ("60/40", "60", "/40"),
        ("a hundred and a half", "100.5", ""),
        ("twenty 8 oz jars", "20", "8 oz jars"),
        ("two thousand thousand", "2000", "thousand"),
    ],
)
def test_where_a_number_ends(text: str, value: str, rest: str) -> None:
    assert read(text) == (Decimal(value), rest)


@pytest.mark.parametrize("text", ["few", "several pounds", "and a half", "of", "NaN", "infinity", "^", ""])
def test_what_is_no_number(text: str) -> None:
    assert read(text) is None


UNDER_TWENTY = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen "
    "seventeen eighteen nineteen"
)
ONES = UNDER_TWENTY.split()
TENS = ("twenty", "thirty", "forty", "fifty", "sixty", "seventy", "eighty", "ninety")


def in_words(number: int, joint: str, and_: str) -> str:
    """`number` (0 to 999 999) in English words, written independently of the reader."""
    if number >= 1000:
        rest = number % 1000
        return in_words(number // 1000, joint, and_) + " thousand" + (f" {in_words(rest, joint, and_)}" if rest else "")
    if number >= 100:
        rest = number % 100
        return f"{ONES[number // 100]} hundred" + (f"{and_} {in_words(rest, joint, and_)}" if rest else "")
    if number >= 20:
        return TENS[number // 10 - 2] + (joint + ONES[number % 10] if number % 10 else "")
    return ONES[number]


@given(st.integers(0, 999_999), st.sampled_from([" ", "-"]), st.sampled_from(["", " and"]))
def test_words_and_figures_give_the_same_number(number: int, joint: str, and_: str) -> None:
    assert read(in_words(number, joint, and_)) == (Decimal(number), "")


@given(st.integers(1000, 10**12), st.sampled_from([",", " ", "\u00a0", "'"]))
def test_thousands_by_any_mark(number: int, mark: str) -> None:
    groups = [int(group) for group in f"{number:,}".split(",")]
    spaced = mark in (" ", "\u00a0")
    assume(not spaced or min(groups) < 100 or max(groups) > 2 * min(groups))  # "231 229 226 g" are three weights
    assert read(f"{number:,}".replace(",", mark) + " g") == (Decimal(number), "g")


def test_weights_in_a_row_are_no_thousands() -> None:
    assert read("231 229 226 g") == (Decimal(231), "229 226 g")
    assert read("1 250 000 g") == (Decimal(1_250_000), "g")


@given(st.decimals("0.01", "999", places=2))
def test_decimal_comma_is_the_decimal_point(number: Decimal) -> None:
    assert figure(str(number).replace(".", ",")) == figure(str(number)) == number
