"""Scales in plain words. Half a step is how far a reading is off; the sums beside the rows are done by hand."""

from __future__ import annotations

import pytest

from core.answer import Lesson
from core.questions.scale import ScaleQuestion
from tests.core.reading.asked import answered, result, understood


@pytest.mark.parametrize(
    ("text", "errors"),
    [
        # half a step ÷ what is weighed × 100
        ("bro my scale only goes in 1g steps n i need 3g dye how bad is that in %", [16.6667]),
        ("weighing 5 grams on one that shows whole grams only, how far off percent", [10]),
        ("my scale only shows full grams, 8 g oil, how wrong percent", [6.25]),
        ("0.3 g dye: how wrong on a 0.1 g scale and how wrong on a 0.01 g one", [16.6667, 1.6667]),
        ("kitchen scale goes by 1 g, jewellery one by 0.1 g. need 0.8 g dye. how bad is each", [62.5, 6.25]),
        ("i've a 1 g scale and a 0.01 g scale, 2.5 g mica: percent off on each", [20, 0.2]),
        ("5 g steps scale or the 1 g one for 40 g of oil, how far off", [6.25, 1.25]),
        ("0.01g or 0.1g scale for 1.2g dye, error % each", [0.4167, 4.1667]),
    ],
)
def test_errors(text: str, errors: list[float]) -> None:
    first = answered(text)
    found = [float(each.value.base) for a in (first, *first.then) for each in a.results if each.what == "error"]
    assert found == pytest.approx(errors, rel=1e-3)


def test_one_of_it_and_several_at_once() -> None:
    text = "one tin is 0.2 g dye, or weigh 20 together on the 0.1 g scale. error of each"
    assert (float(result(text, "error_1")), float(result(text, "error_2"))) == (25, 1.25)


@pytest.mark.parametrize(
    ("text", "low", "high"),
    [
        # (8 ± 0.5) ÷ 100; (24 ± 0.5) ÷ 300; (50 ± 1) ÷ 600; (38 ± 1) ÷ 500
        ("100 g wax 8 g oil on a scale with 1g steps. my real load is between?", 7.5, 8.5),
        ("got 300 g wax 24 g fo, scale reads to 1 g, highest and lowest load?", 7.8333, 8.1667),
        ("scale counts by 2 g. 50 g oil in 600 g wax. what could the load really be", 8.1667, 8.5),
        ("scale goes in 2g steps, oil shows 38 and wax is 500g, what is the lowest and the highest load", 7.4, 7.8),
    ],
)
def test_between_which_loads(text: str, low: float, high: float) -> None:
    assert float(result(text, "load_lowest")) == pytest.approx(low, rel=1e-3)
    assert float(result(text, "load_highest")) == pytest.approx(high, rel=1e-3)


def test_between_which_weights() -> None:
    text = "steps of 2 g and it shows 30 g, real weight is from what to what"
    assert (result(text, "lowest"), result(text, "highest")) == (29, 31)


@pytest.mark.parametrize(
    "text",
    [
        "how do I measure 20 g with only a spoon",
        "one pot has 500 g of wax, 8 % oil",
        "400 g wax and 32 g oil, which load",
    ],
)
def test_where_no_scale_is_asked_about(text: str) -> None:
    assert not isinstance(understood(text), ScaleQuestion)


def test_a_scale_without_figures_is_a_lesson() -> None:
    assert isinstance(answered("what kind of scale should I buy"), Lesson)
