"""Lessons for those who ask to understand; figures for those who ask for one."""

from __future__ import annotations

import pytest

from core.answer import Lesson, Missing
from tests.core.reading.asked import answered


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("why does everyone say weigh it not measure it", "why_weight"),
        ("how do I work out percent of wax vs percent of total?", "bases"),
        ("is an ounce of oil the same as a fluid ounce", "ounces"),
        ("explain density like im five please", "density"),
        ("is 4 oz of fo the same as 4 fl oz", "ounces"),
        ("what is a fluid ounce", "ounces"),
        ("why cant i use cups", "why_weight"),
        ("density of soy wax", "density"),
        ("how do i read a graduated cylinder", "reading_measures"),
        ("why shouldnt i use cups for wax pellets", "flakes"),
        ("do you need a special scale", "scales"),
        ("what does tare mean on a scale", "tare"),
        ("why do my 8 oz jars only hold like 6 and a half ounces of wax on the scale", "jar_ounces"),
        ("what does net weight include", "net_weight"),
        ("does flash point mean the scent burns off at that heat", "fire"),
    ],
)
def test_lesson(text: str, key: str) -> None:
    answer = answered(text)
    assert isinstance(answer, Lesson)
    assert answer.key == key


@pytest.mark.parametrize(
    "text",
    [
        "how much oil goes in my wax",
        "what % is 45g of scent in 600g",
        "how many grams is 30 ml of oil",
        "what wick do i need",
    ],
)
def test_no_lesson_where_a_figure_or_something_else_is_asked(text: str) -> None:
    assert not isinstance(answered(text), Lesson)


@pytest.mark.parametrize(
    ("text", "density"),
    [("1 oz = 30 ml right?", "0.945 g/ml"), ("is 1 ml 1 g", "1 g/ml"), ("is 30 ml of oil 28 g", "0.9333 g/ml")],
)
def test_a_weight_set_equal_to_room_depends_on_the_density(text: str, density: str) -> None:
    # 28.3495 g ÷ 30 ml = 0.945 g/ml, 28 g ÷ 30 ml = 0.933 g/ml, by hand
    answer = answered(text)
    assert isinstance(answer, Missing)
    assert answer.headline.show().startswith("It depends on the density")
    assert density in answer.body[0].show()


def test_a_load_with_room_in_it_is_not_taken_for_an_equation() -> None:
    assert not answered("100 ml oil and 100 g wax, same load?").headline.show().startswith("It depends")
