"""Labels and lots in plain words. The sums beside the rows are done by hand."""

from __future__ import annotations

import pytest

from core.answer import Worked
from core.questions.lot import LotQuestion
from tests.core.reading.asked import answered, result, understood


@pytest.mark.parametrize(
    ("text", "grams"),
    [
        # full less empty, in any order: 388 − 171; 421 − 240; so many together: (4560 − 1200) ÷ 24; (3300 − 1500) ÷ 6
        ("glass with candle 388 g, empty ones i have are 171 g, lid is 22 g and was off. what goes on the label", 217),
        ("sticker says 180 g. full 421 g empty 240 g. enough?", 181),
        ("24 tins full weigh 4.56 kg together, 24 empty ones 1.2 kg. net each?", 140),
        ("6 jars together 3.3 kg full, 6 empties 1.5kg, net of one", 300),
        # the vessel, the lid and the box never count
        ("glass 280g, wax and oil 200g, box 50 g. what's net", 200),
        # several in one pack: 6 × 14; 3 × 25; 12 × 45
        ("pack of 6 melts, 14 g each, net for the front?", 84),
        ("3 wax melts of 25 g in a bag of 5 g, net for the label", 75),
        ("set of 12 little ones 45 g finished each, the box is 60 g, net weight for the label", 540),
        # what is poured beside what is printed: 215 + 17
        ("label says net 8 oz already printed. i pour 215g wax and 17g oil in, am i under", 232),
        ("net wt 7.5 oz and 212 g printed, is it the same", 212),
    ],
)
def test_net_weights(text: str, grams: float) -> None:
    assert float(result(text, "net")) == pytest.approx(grams)


@pytest.mark.parametrize(
    ("text", "agree"),
    [
        ("net 198 g and 7 oz on the same label, do they agree?", True),  # 198 g is 6.984 oz
        ("net wt 7.5 oz and 212 g printed, is it the same", True),  # 7.478 oz
        ("label 8 oz and 220 g, do they match", False),  # 7.76 oz
    ],
)
def test_two_units_on_one_label(text: str, agree: bool) -> None:
    assert ("They agree" in answered(text).headline.show()) is agree


def test_a_lot_and_an_average() -> None:
    # (230 + 224 + 228 + 219) ÷ 4; (198 + 201 + 197 + 200 + 204) ÷ 5
    assert float(result("label 226 g, poured 230 g, 224 g, 228 g, 219 g. ok?", "mean")) == 225.25
    text = "weighed five finished ones without the jar, 198 g 201 g 197 g 200 g 204 g. average?"
    assert float(result(text, "mean")) == 200


@pytest.mark.parametrize(
    "text",
    [
        "I poured 210 g 212 g 209 g into three jars at 8%, how much oil",
        "three waxes 400 g, 300 g, 300 g and 8% oil",
        "label 226 g, wax 210 g, oil 16 g, dye 1 g",
    ],
)
def test_what_is_no_lot(text: str) -> None:
    assert not isinstance(understood(text), LotQuestion)


def test_a_net_weight_that_is_told_asks_for_no_label() -> None:
    # 4 − 2.2 = 1.8 oz at 8 %: 22.5 oz of wax
    made = answered("bottle was 4 oz net by weight, used 2.2 oz of it (scale). at 8% how many lb wax does the rest do")
    assert not isinstance(made, Worked) or made.intent != "label_weight"
