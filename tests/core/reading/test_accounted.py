"""An amount that did not get into the question is asked about, unless something explains it."""

from __future__ import annotations

import pytest

from core.answer import NotUnderstood
from tests.core.reading.asked import answered


@pytest.mark.parametrize(
    "text",
    [
        "8% of 500 g = 40 g, is that it?",
        "my pot weighs 350 g, pot plus wax is 1350 g. what's 8 % fragrance",
        "bought 5 kg of soy for 28 euro, today I melt only 1.5 kg of it, want 7 %",
        "the recipe says 2 lb wax and 3 oz by weight oil, i only have 1.25 lb wax, how much oil",
        "a fluid ounce of this oil weighs 0.98 oz. how many oz on the scale are 8 fl oz",
        "20 g of 50% diluted fragrance in 200g wax - real fragrance load?",
    ],
)
def test_explained(text: str) -> None:
    assert answered(text).kind == "worked"


def test_left_over() -> None:
    answer = answered("500 g wax 8% fragrance, and there are 77 g")
    assert isinstance(answer, NotUnderstood)
    assert "77 g" in answer.headline.show()


@pytest.mark.parametrize(
    ("text", "number"),
    [
        ("500 g wax 8% and 77, how much oil", "77"),
        ("my wax 600 g, load 7 %, 40 more later", "40"),
    ],
)
def test_a_bare_number_that_may_matter_is_asked_about(text: str, number: str) -> None:
    answer = answered(text)
    assert isinstance(answer, NotUnderstood)
    assert f"“{number}”" in answer.headline.show()


@pytest.mark.parametrize(
    "text",
    [
        "bought on 12 March, wick size 6, 2 kg wax at 7.5%, how much oil",
        "fragrance 8% of wax, dye 0.1% of wax, wax+fragrance+dye = 800 g, give me all 3",
        "i poured 52 g in instead of 36, wax was 600 g. what load",
        "is 27 g in 450 the 6 percent?",
    ],
)
def test_bare_numbers_that_are_explained(text: str) -> None:
    assert answered(text).kind == "worked"
