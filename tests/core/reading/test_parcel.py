"""Parcels in plain words: limits, the carrier's steps, pallets, one of the whole. Sums by hand beside the rows."""

from __future__ import annotations

import pytest

from core.answer import Worked
from tests.core.reading.asked import answered, result


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        # (5000 − 350) ÷ 420 = 11.07; (10000 − 400) ÷ 165 = 58.2; (1000 − 60) ÷ 95 = 9.9; (20000 − 1200) ÷ 640 = 29.4
        ("max 5 kg per parcel. each jar 420 g, box plus paper 350 g, how many jars can i send", "count", 11),
        ("Limit 10kg. tins 165 g filled, carton 400 g. how many fit?", "count", 58),
        ("up to 1 kg is cheap postage. votive 95 g each, mailer 60 g. how many can I put in", "count", 9),
        ("weight limit 20 kg but carton 1.2 kg, candles 640 g. wie viele?", "count", 29),
        # 12 × 350 + 500; 40 × 12.5 kg + 22 kg; 30 × 18 kg + 25 kg; 24 × 310 + 1800
        ("12 candles 350 g each, box 500 g. is it under 5 kg", "parcel", 4700),
        ("pallet: 40 cartons at 12.5 kg, pallet itself 22 kg. total", "parcel", 522000),
        ("pallet 25 kg, 30 boxes of 18 kg each. total weight", "parcel", 565000),
        ("24 candles in a crate, 310g each with the glass, crate is 1.8 kg, how heavy is the lot", "parcel", 9240),
        # 20 × 480 + 700 = 10.3 kg; 6 × 410 + 290 = 2750 g; 3 × 600 + 250 g = 4.52 lb of 453.59237 g
        ("20 candles at 480 g gross, box 700 g, rounds up to the next kg, what do they bill", "charged", 11000),
        ("6 candles 410 g each + box 290 g, charged per started 500 g", "charged", 3000),
        ("3 jars 600 g each, carton 250 g, billed by full pound. billed weight?", "charged", 2267.96185),
        # 40 × 30 × 25 ÷ 5000 = 6 kg beside 5.2 kg; 50 × 40 × 30 ÷ 6000 = 10 kg beside 8 kg
        ("carton 40x30x25 cm, divisor 5000, real weight 5.2 kg, which weight do i pay for", "charged", 6000),
        ("box 50 x 40 x 30 cm, divisor 6000, real weight 8 kg, billed what", "charged", 10000),
        # (4600 − 400) ÷ 12; (3000 − 300) ÷ 6
        ("whole parcel is 4.6 kg, carton 400 g, 12 candles in it. what does each weigh", "candle", 350),
        ("what does one weigh: 6 jars 3 kg with box of 300 g", "candle", 450),
    ],
)
def test_what_it_comes_to(text: str, what: str, value: float) -> None:
    assert float(result(text, what)) == pytest.approx(value)


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        ("max load 10%. 500 g wax. how much oil for the parcel", "fragrance", 50),
        ("supplier says max 8%, box of wax 5 kg, how much oil", "fragrance", 400),
    ],
)
def test_a_limit_of_the_load_is_no_limit_of_a_parcel(text: str, what: str, value: float) -> None:
    assert float(result(text, what)) == value


@pytest.mark.parametrize(
    "text",
    [
        "the carrier allows 30 lb. case is 14 oz, one candle 1 lb 3 oz. how many?",
        "4 candles each 300 g with glass, what will the parcel weigh",
    ],
)
def test_what_is_not_sure_is_asked(text: str) -> None:
    assert not isinstance(answered(text), Worked)


def test_the_limit_is_compared() -> None:
    assert "under" in " ".join(each.show() for each in answered("12 candles 350 g each, box 500 g, under 5 kg?").body)
