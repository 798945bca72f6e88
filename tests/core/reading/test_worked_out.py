"""The sums of a story: done first, shown as steps, and left alone where it is not sure what they are."""

from __future__ import annotations

import pytest

from core.reading.scan import scan
from core.reading.worked_out import worked_out
from tests.core.reading.asked import answered, cases, outcome
from tests.core.reading.test_read import holds


@pytest.mark.parametrize(("text", "expected"), cases("story_cases.txt"), ids=lambda text: text[:60])
def test_stories(text: str, expected: str) -> None:
    got = outcome(text)
    assert got.answerable == (expected != "ask"), got
    if expected != "ask":
        assert [wanted for wanted in expected.split(", ") if not holds(got.numbers, wanted)] == []


@pytest.mark.parametrize(
    ("text", "step"),
    [
        ("had 3 kg of wax, used 1.2 kg yesterday, the rest gets 5 %: oil?", "what is left: 3 kg − 1.2 kg = 1.8 kg"),
        (
            "a bottle of 200 g, used 60 g and 20 g, wax for the rest at 8 %?",
            "what is left: 200 g − 60 g − 20 g = 120 g",
        ),
        ("pan 640 g, pan with wax 1840 g, 5 % on the wax, oil?", "wax alone: 1840 g − 640 g = 1200 g"),
        ("one scoop of flakes weighs 55 g, i took 12 scoops, 10 % oil", "all of them: 12 × 55 g = 660 g"),
        ("3 boxes of 8 jars but 4 are broken. 100 g wax a jar at 6 %", "how many: 3 × 8 − 4 = 20"),
        ("a 2 kg bag of wax but i only use half of it at 6 %", "the part used: 2 kg × half = 1 kg"),
        ("put 20 g in, too weak so another 12, wax is 400 g. load?", "both together: 20 g + 12 g = 32 g"),
        (
            "my oil bottle was 180 g before and 132 g after, into 600 g wax. load?",
            "fragrance poured: 180 g − 132 g = 48 g",
        ),
    ],
)
def test_the_sum_is_the_first_step(text: str, step: str) -> None:
    first = answered(text).steps[0]
    assert f"{first.formula}: {first.numbers.show()} = {first.result.show()}" == step


@pytest.mark.parametrize(
    "text",
    [
        "450 g wax at 8 %",
        "i have 300 g wax left, 8 %",
        "i meant to put 40 g in 500 g wax but poured 60",
        "12 jars of 200 g at 7 %",
        "500 g wax, no dye, 30 g oil, what percent",
        "1 lb of soy and 3 lb of paraffin at 7 %",
        "no more than 10 % of the wax, 600 g wax",
    ],
)
def test_plain_texts_are_left_alone(text: str) -> None:
    plain = scan(text)
    amounts = [m.amount for m in plain.found]
    done = worked_out(plain)
    assert (done.workings, [m.amount for m in done.found]) == ([], amounts)
