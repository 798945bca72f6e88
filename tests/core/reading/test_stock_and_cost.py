"""What is at hand, what it costs, and recipes at another weight, in plain words. Sums by hand beside the rows."""

from __future__ import annotations

import pytest

from core.answer import Worked
from core.questions.scale import ScaleQuestion
from tests.core.reading.asked import answered, result, understood


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        # 25 ÷ 3.2 = 7.8; 25 − 7 × 3.2 = 2.6 kg
        ("25 kg sack, batches of 3.2 kg, how many full batches and whats left", "count", 7),
        ("25 kg sack, batches of 3.2 kg, how many full batches and whats left", "left_over_wax", 2600),
        # 90 ÷ 12 = 7.5; 150 g of oil at 8 % do 1875 g of wax, 2025 g in all, 10 × 190 g
        ("i have 90 g of fragrance, use 12 g per candle, how many candles", "count", 7),
        ("2.2 kg wax and 150 g oil at 8%, how many 190 g candles", "count", 10),
        # 10000 − 45 × 180; 12000 − 30 × 220
        ("what is left of a 10 kg bag after 45 candles of 180 g wax", "left_over_wax", 1900),
        ("wax 12 kg, i poured 30 jars x 220 g, how much wax remains", "left_over_wax", 5400),
        # 1.20 + 0.10 + 0.18 × 9; half a pound of wax at 3.20 a pound + half an ounce of oil at 1.75 an ounce
        ("jar 1.20, wick 10 cents, wax 180 g at 9 euro per kg. what does one candle cost", "cost_per_candle", 2.92),
        (
            "10 lb wax for $32 and 16 oz oil for $28, 1 oz oil per lb. cost of an 8 oz wax candle",
            "cost_per_candle",
            2.475,
        ),
        # 40 ÷ 500 of 2000; 72 and 0.9 × 600 ÷ 900; 80 ÷ 1000 of 3500
        ("scale up 500 g wax and 40 g oil to 2 kg wax", "fragrance", 160),
        ("recipe for 1 kg: 920 g wax 80 g oil. make 3.5 kg", "fragrance", 280),
    ],
)
def test_what_it_comes_to(text: str, what: str, value: float) -> None:
    assert float(result(text, what)) == pytest.approx(value, rel=1e-4)


def test_every_part_of_a_recipe_is_brought_to_another_weight() -> None:
    made = answered("shrink my recipe of 900 g wax, 72 g oil and 0.9 g dye to 600 g wax")
    assert [float(each.value.base) for each in made.results[:3]] == pytest.approx([600, 48, 0.6])


@pytest.mark.parametrize(
    "text",
    [
        "scale 500 g wax and 40 g oil to 3 kg",  # of wax, or in all?
        "jar 1.20, lid 0.40, what does one candle cost",  # nothing about the wax
        "i have 2 kg left",
    ],
)
def test_what_is_not_sure_is_asked(text: str) -> None:
    assert not isinstance(answered(text), Worked)


def test_scaling_a_recipe_needs_no_scale() -> None:
    assert not isinstance(understood("formula: soy 80% coconut 20%, scale to 5 kg"), ScaleQuestion)
    assert isinstance(understood("my 1 g scale to weigh 5 g of dye, error?"), ScaleQuestion)


def test_all_of_the_wax_and_all_of_the_oil_into_candles() -> None:
    # (2400 g + 192 g) ÷ 200 g = 12.96: twelve whole ones
    assert result("2400 g wax and 192 g fragrance, how many 200 g candles", "count") == 12


def test_a_batch_told_to_have_no_fragrance() -> None:
    for text in ("10 candles 200 g each no fragrance", "10 candles of 200 g without fragrance"):
        assert result(text, "wax") == 2000
