"""What vessels take, in plain words. The sums beside the rows are done by hand; water is 1.0029 ml a gram at 20 °C."""

from __future__ import annotations

import pytest

from core.answer import Worked
from core.questions.vessel import VesselQuestion
from tests.core.reading.asked import answered, result, understood


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        # count × room × part × density
        ("half a dozen 30cl glasses filled four fifths, wax .9, how much wax do i melt", 6 * 300 * 0.8 * 0.9),
        ("8 glasses of 200 ml each, two thirds full, wax density 0.9, wax in all?", 8 * 200 * 2 / 3 * 0.9),
        ("a 400 ml jar filled 7/8, wax 0.88. how much wax", 400 * 7 / 8 * 0.88),
        ("0,3 l pot, three quarters full, wax has 0,9 g/ml. gramm wax?", 300 * 0.75 * 0.9),
        # (room − what stays free) × density
        ("holds 300 ml brim full, minus 20 ml so the lid fits, wax 0.9", 280 * 0.9),
        ("tin is 250 ml, leave 25 ml free, beeswax .96, grams?", 225 * 0.96),
        ("tin holds 240 ml, the last 30 ml stay empty. wax at 0.89?", 210 * 0.89),
        # the room from water
        ("jar full of water 655 g, dry 405 g. wax .86. wax needed?", 250 * 1.0029 * 0.86),
        (
            "filled it with tap water to where i want the wax: 184 g. wax is 0.9. and i have 7 jars",
            7 * 184 * 1.0029 * 0.9,
        ),
        ("water in it weighs 230 g. 10 jars, density .87, total wax", 10 * 230 * 1.0029 * 0.87),
        # a part of what it takes full
        ("jar takes 240g wax right to the rim but i only pour it three quarters, so how many g", 180),
    ],
)
def test_what_it_takes(text: str, grams: float) -> None:
    assert float(result(text, "wax")) == pytest.approx(grams, rel=1e-4)


def test_a_load_in_the_vessel() -> None:
    # 300 × 0.9 = 270 g, of which 270 ÷ 1.08 = 250 g of wax and 20 g of oil; 12 × 250 × 0.9 × 0.9 = 2430 = 2250 + 180
    text = "300 ml to fill, mix is about 0.9, oil 8% on the wax. wax and oil?"
    assert (round(result(text, "wax")), round(result(text, "fragrance"))) == (250, 20)
    text = "12 jars of 250 ml, 90% full, soy .9, 8% oil of the wax, wax and oil please"
    assert (round(result(text, "wax")), round(result(text, "fragrance"))) == (2250, 180)


def test_the_same_jar_with_another_wax() -> None:
    # 198 ÷ 0.9 = 220 ml, × 0.88
    text = "same jar took 198 g of wax with density .9, my new wax is .88, how much of the new goes in"
    found = {each.what: each.value for one in answered(text).then for each in one.results}
    assert float(found["wax"].base) == pytest.approx(193.6)


@pytest.mark.parametrize(
    "text", ["300 ml jar, 20 ml of oil, wax .9", "8 oz jars x 12, wax density 0.86, fill 85%, 8% fo"]
)
def test_what_is_not_sure_is_asked(text: str) -> None:
    assert not isinstance(answered(text), Worked)


@pytest.mark.parametrize(
    "text",
    [
        "half of my 3 lb bag at 8%",
        "7 jars, 184 g wax in each, 8%",
        "240 g of wax and 20 g of oil, how full is the load",
    ],
)
def test_where_no_vessel_is_asked_about(text: str) -> None:
    assert not isinstance(understood(text), VesselQuestion)
