"""Whole questions, all families: the figures that come out, worked by hand beside each text in read_cases.txt."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from core.answer import Choice, Declined, Missing, NotUnderstood, Worked
from core.compounds import Basis, Load
from core.questions.load import LoadQuestion
from core.units import Percent
from tests.core.reading.asked import answered, outcome, result, understood

CASES = [
    tuple(part.strip() for part in line.rsplit(" | ", 1))
    for name in ("read_cases.txt", "convert_cases.txt", "concept_cases.txt")
    for line in (Path(__file__).parent / name).read_text("utf-8").splitlines()
    if line and not line.startswith("#")
]
UNITS = {"%": "percent", "d": "g/ml", "C": "degC", "F": "degF", "n": "count", "$": "money", "floz": "fl_oz"}
MONEY = {"eur", "usd", "gbp", "money"}
WANTED = re.compile(r"(-?[\d.]+)(\S+)")


def holds(numbers: list[tuple[float, str]], wanted: str) -> bool:
    match = WANTED.fullmatch(wanted)
    assert match is not None, wanted
    value, unit = float(match[1]), UNITS.get(match[2], match[2])
    units = MONEY if unit in MONEY else {unit}
    return any(
        u in units and abs(v - value) <= max(0.06 if unit != "g/ml" else 0.006, abs(value) * 0.005) for v, u in numbers
    )


@pytest.mark.parametrize(("text", "expected"), CASES, ids=[text[:60] for text, _ in CASES])
def test_figures(text: str, expected: str) -> None:
    got = outcome(text)
    if expected == "ask":
        assert not got.answerable
    elif expected == "any":
        assert got.answerable
    else:
        assert got.answerable, got
        assert [wanted for wanted in expected.split(", ") if not holds(got.numbers, wanted)] == []


def test_the_way_it_was_read_is_restated() -> None:
    answer = answered("hi, 1 lb of soy and 3 lb of paraffin mixed, 7% fragrance, how much?")
    assert answer.read_as is not None
    assert "1 lb soy + 3 lb paraffin" in answer.read_as.show()


def test_bases_are_told_apart() -> None:
    assert understood("8 % of the total in 460 g wax") == LoadQuestion(
        wax=understood("460 g wax 8%").wax,  # type: ignore[union-attr]
        load=Load(Percent(8 * Percent.of(1).base), Basis.TOTAL),
    )
    assert result("450g wax, ten percent OF THE TOTAL", "fragrance") == 50


def test_a_total_with_a_bare_percent_is_a_choice_with_both_figures() -> None:
    answer = answered("my candle weighs 180 g, i want 8 percent scent")
    assert isinstance(answer, Choice)
    assert [need.name for need in answer.needs] == ["basis"]
    assert len(answer.options) == 2
    assert all(isinstance(option.question, LoadQuestion) for option in answer.options)


def test_ounces_of_a_liquid_are_asked_about_unless_weighed() -> None:
    assert [need.name for need in answered("what does 2oz of FO weigh in grams").needs] == ["ounce_kind"]  # type: ignore[attr-defined]
    assert isinstance(answered("2 oz of FO by weight in grams"), Worked)
    assert isinstance(answered("1 oz oil in 1 lb wax, load?"), Choice)
    assert isinstance(answered("1 oz oil in 1 lb wax, all weighed, load?"), Worked)
    assert isinstance(answered("12 oz wax at 8%"), Worked)


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("how much fragrance oil do i put in 2 lb of wax?", "load_percent"),
        ("I always use 10 percent is that a lot of grams?", "weight_of_wax"),
        ("what % is 25 grams oil", "weight_of_wax"),
        ("i have 700g wax and poured some oil, what load is it?", "weight_of_fragrance"),
        ("2 cups soy flakes and 6% oil, how much oil", "density_of_wax"),
        ("how many grams is 30 ml of fragrance oil?", "density_of_fragrance"),
        ("20 drops of oil is how many g", "drop_size"),
        ("batch of votives, 55g wax each and 7%. how much wax altogether", "number_of_vessels"),
        ("jar and candle together weigh 640 g, what net weight do i write", "weight_of_container"),
        ("total 600 g. wax? fragrance?", "load_percent"),
    ],
)
def test_what_is_missing_is_named(text: str, name: str) -> None:
    answer = answered(text)
    assert isinstance(answer, Missing)
    assert name in [need.name for need in answer.needs]


@pytest.mark.parametrize(
    "text",
    [
        "500 g wax, 8 %, and 300 g",  # 300 g of what?
        "1 kilo 25 of wax, six percent",
        "double batch of 400g wax each, 7%",
        "500 g wax 8% fragrance 3% wax",
        "4 jars and 200 g wax, 8%",
    ],
)
def test_an_amount_that_may_matter_is_asked_about(text: str) -> None:
    assert isinstance(answered(text), NotUnderstood | Choice | Missing)


def test_nothing_to_work_with_asks_for_one_thing() -> None:
    for text in ("", "?", "asdfgh 500", "banana 12 the the grams of", "👍"):
        answer = answered(text)
        assert isinstance(answer, NotUnderstood), text
        assert "such as" in answer.headline.show()


def test_other_peoples_questions_say_what_can_be_asked() -> None:
    answer = answered("why are my candles frosting")
    assert isinstance(answer, Declined)
    assert "450 g of wax" in answer.body[0].show()


def test_several_questions_are_answered_in_order() -> None:
    answer = answered("how much oil for 1 lb, 2 lb and 5 lb at 6%")
    weights = [each.results[0].value.to("oz") for each in (answer, *answer.then)]
    assert [round(float(weight), 2) for weight in weights] == [0.96, 1.92, 4.8]


def test_a_volume_is_never_a_weight_without_a_density() -> None:
    for text in ("350 ml wax at 6 %", "is 1 tsp 5 grams of oil", "a gallon of wax weighs what", "500 g wax in cups"):
        answer = answered(text)
        assert isinstance(answer, Missing), text
        assert any(need.name.startswith("density") for need in answer.needs)
