"""After a choice: an option by its number, its place or a word of its own; the other one may be looked at next."""

from __future__ import annotations

import pytest

from bot.desk import LOCAL, Desk


def said(*texts: str) -> list[str]:
    """The headlines in one conversation."""
    desk = Desk(None)
    return [desk.text(text, LOCAL).headline.show() for text in texts]


@pytest.mark.parametrize(
    ("pick", "starts"),
    [
        ("1", "2 oz is a weight"),
        ("by weight", "2 oz is a weight"),
        ("weight", "2 oz is a weight"),
        ("the first one", "2 oz is a weight"),
        ("2", "2 US fl oz is 59.15 ml"),  # 2 × 29.5735
        ("fluid", "2 US fl oz is 59.15 ml"),
        ("the fluid ones please", "2 US fl oz is 59.15 ml"),
        ("second", "2 US fl oz is 59.15 ml"),
    ],
)
def test_an_option_is_picked(pick: str, starts: str) -> None:
    assert said("2 oz fragrance in ml", pick)[-1].startswith(starts)


@pytest.mark.parametrize("text", ["ounces", "the other thing", "both", "third"])
def test_what_fits_no_option_or_several_picks_none(text: str) -> None:
    assert not said("2 oz fragrance in ml", text)[-1].startswith("2 ")


def test_one_option_after_the_other() -> None:
    one, other = said("8% of a 230 g candle", "1", "2")[1:]
    assert one.startswith("213 g")  # 230 ÷ 1.08 = 212.96
    assert other.startswith("212 g")  # 230 × 0.92 = 211.6


def test_another_question_ends_the_choice() -> None:
    assert said("8% of a 230 g candle", "12 oz in grams", "2")[-1] == "2 oz is 56.7 g."
