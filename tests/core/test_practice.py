"""Practice: right answers in any unit, every known mistake recognised, everything else met with a first step."""

from __future__ import annotations

import itertools
from decimal import Decimal

import pytest
from hypothesis import given, settings

from core import exercises
from core.answer import Answer, Missing, Worked
from core.ask import answer
from core.book import Book, Preferences
from core.exercises import Family, Level, Weights
from core.exercises.kinds import Solved
from core.questions.example import ExampleQuestion
from core.questions.practice import PracticeQuestion
from core.reading.values import exact, read_value
from core.units import Mass, Quantity
from core.writing import Style, write
from tests.core.exercising import EMPTY, Shelf, books, families, levels, seeds, weights
from tests.core.questions.workbench import shown

EACH = list(itertools.product(Family, Level, Weights))
LOAD = PracticeQuestion(family=Family.LOAD, level=Level.EASY, weights=Weights.GRAMS, seed=3)  # 600 g at 5 %: 30 g


def solved(question: PracticeQuestion, book: Book = EMPTY) -> Solved:
    return exercises.solved(book, question.family, question.level, question.weights, question.seed, question.material)


def said(question: PracticeQuestion, text: str, book: Book = EMPTY) -> Answer:
    return answer(question.with_answer(text), book)


def mistakes(found: Answer) -> list[str]:
    return [result.what for result in found.results]


def typed(value: Quantity, unit: str) -> str:
    """The figure as it is shown, in the unit the task wants."""
    spec = unit if isinstance(value, Mass) and unit in ("g", "oz") else ""
    return write(value, Style(), spec)


def test_without_an_answer_the_task_is_set() -> None:
    found = LOAD.answer(EMPTY)
    assert isinstance(found, Missing)
    assert found.headline.show().startswith("600 g of soy wax get 5 %")
    assert [need.name for need in found.needs] == ["your_answer"]
    assert found.question is not None
    assert "30" not in shown(found)


@pytest.mark.parametrize("text", ["30 g", "30g", "30.0 g", "0.03 kg", "1.06 oz", "1.058 oz", "30,0 g", "30000 mg"])
def test_a_right_answer_counts_in_any_unit(text: str) -> None:
    found = said(LOAD, text)
    assert isinstance(found, Worked), found.headline.show()
    assert found.headline.show() == "Right: 30 g (1.06 oz)."
    assert found.steps


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("31.6 g", "mistake_of_the_total"),  # 600 × 5 ÷ 95
        ("31.58 g", "mistake_of_the_total"),
        ("5 g", "mistake_percent_as_weight"),
        ("120 g", "mistake_divided_by_percent"),  # 600 ÷ 5
        ("30 oz", "mistake_ounces_for_grams"),
        ("1.06 g", "mistake_grams_for_ounces"),
        ("30 kg", "mistake_thousand_too_much"),
        ("0.03 g", "mistake_thousand_too_little"),
        ("0.3 g", "mistake_percent_twice"),
        ("3000 g", "mistake_percent_whole"),
        ("30 ml", "mistake_wrong_kind"),
    ],
)
def test_known_mistakes_are_named(text: str, name: str) -> None:
    found = said(LOAD, text)
    assert isinstance(found, Missing)
    assert mistakes(found) == [name]
    assert found.question == LOAD.answer(EMPTY).question  # type: ignore[attr-defined]


@given(books, families, levels, weights, seeds)
@settings(max_examples=120)
def test_each_mistake_given_as_an_answer_is_recognised(
    book: Book, family: Family, level: Level, told: Weights, seed: int
) -> None:
    question = PracticeQuestion(family=family, level=level, weights=told, seed=seed)
    found = solved(question, book)
    for mistake in found.mistakes:
        for text in texts(mistake.gives, found):
            checked = said(question, text, book)
            assert isinstance(checked, Missing), (text, mistake)
            assert mistakes(checked) == [f"mistake_{mistake.name}"], (text, found.right)
            assert checked.headline.show().startswith("Not yet: ")


def texts(figure: Quantity, found: Solved) -> list[str]:
    """With all its digits, and as it is shown where that has digits enough to tell it."""
    unit = found.exercise.unit if found.exercise.converts else figure.unit
    number = figure.to("lb" if unit == "lb_oz" else unit)
    in_full = f"{number:.12f} {unit}" if found.exercise.converts else exact(figure)
    rounded = typed(figure, found.exercise.unit)
    read = read_value(type(figure), rounded)
    return [in_full, rounded] if abs(read.base - figure.base) <= figure.base / 200 else [in_full]


@given(books, families, levels, weights, seeds)
@settings(max_examples=120)
def test_the_right_figure_is_right_exact_and_as_shown(
    book: Book, family: Family, level: Level, told: Weights, seed: int
) -> None:
    question = PracticeQuestion(family=family, level=level, weights=told, seed=seed)
    found = solved(question, book)
    for text in texts(found.right, found):
        checked = said(question, text, book)
        assert isinstance(checked, Worked), (text, checked.headline.show())
        assert checked.headline.show().startswith("Right: ")


@pytest.mark.parametrize(("family", "level", "told"), EACH)
def test_an_unknown_wrong_answer_gets_a_first_step_and_no_solution(family: Family, level: Level, told: Weights) -> None:
    question = PracticeQuestion(family=family, level=level, weights=told, seed=11)
    found = solved(question)
    wrong = type(found.right)(found.right.base * Decimal("0.5137"), found.right.unit)
    checked = said(question, texts(wrong, found)[0])
    assert isinstance(checked, Missing)
    assert checked.headline.show().endswith("is too little.")
    steps = [step for step in found.answer.steps if not step.idle(Style(first="oz" if told is Weights.OUNCES else "g"))]
    if len(steps) > 1:
        assert "The first step: " in shown(checked)
    else:  # its only step would be the solution
        assert found.exercise.mistakes[0].instead.show() in shown(checked)
        assert steps[0].formula not in shown(checked)
    assert mistakes(checked) == []
    assert checked.question is not None


@pytest.mark.parametrize(
    "text", ["", " ", "hello", "30", "-30 g", "30 g or 31 g", "9**9**9**9", "30 blorps", "1e400 g", "NaN g"]
)
def test_what_is_no_answer_is_asked_for_again(text: str) -> None:
    found = said(LOAD, text)
    assert isinstance(found, Missing)
    assert [need.name for need in found.needs] == ["your_answer"]
    assert "The task" in shown(found) or "600 g of soy wax" in shown(found)


@pytest.mark.parametrize(("level", "told"), [(Level.EASY, Weights.GRAMS), (Level.MEDIUM, Weights.OUNCES)])
def test_a_conversion_must_be_converted(level: Level, told: Weights) -> None:
    question = PracticeQuestion(family=Family.OUNCES, level=level, weights=told, seed=3)
    found = solved(question)
    given_weight = found.exercise.question.amount  # type: ignore[attr-defined]
    checked = said(question, exact(given_weight))
    assert isinstance(checked, Missing)
    assert "asked for is the weight in" in checked.headline.show()


def test_the_askers_scale_excuses_half_a_step_but_no_mistake() -> None:
    question = PracticeQuestion(family=Family.LOAD, level=Level.HARD, weights=Weights.GRAMS, seed=3)  # 127.96 g
    assert isinstance(said(question, "129.1 g"), Missing)
    coarse = Shelf(Preferences(step=Decimal(5)))
    assert isinstance(said(question, "129.1 g", coarse), Worked)
    assert isinstance(said(question, "131 g", coarse), Missing)
    assert mistakes(said(question, "119 g", coarse)) == ["mistake_of_the_wax"]


def test_a_figure_rounded_to_its_own_digits_is_right() -> None:
    hard = PracticeQuestion(family=Family.LOAD, level=Level.HARD, weights=Weights.GRAMS, seed=3)  # 1700 × 7 ÷ 93
    assert isinstance(said(hard, "128 g"), Worked)
    assert isinstance(said(hard, "127.96 g"), Worked)
    assert mistakes(said(hard, "119 g")) == ["mistake_of_the_wax"]


def test_the_solution_is_the_example_of_the_same_seed() -> None:
    assert LOAD.solution == ExampleQuestion(family=Family.LOAD, level=Level.EASY, weights=Weights.GRAMS, seed=3)
    found = LOAD.solution.answer(EMPTY)
    assert found.headline.show().startswith(LOAD.answer(EMPTY).headline.show())


def test_an_answer_can_be_given_anew() -> None:
    once = LOAD.with_answer("31.6 g").answer(EMPTY)
    assert isinstance(once, Missing)
    again = once.question
    assert isinstance(again, PracticeQuestion)
    assert again.your_answer is None
    assert isinstance(again.with_answer("30 g").answer(EMPTY), Worked)
