"""Lessons, examples and practice asked for and answered in plain words, as in the local chat."""

from __future__ import annotations

import pytest

from bot.desk import LOCAL, Desk
from bot.text import page
from core.answer import Answer, Choice, Lesson, Missing, Worked
from core.book import Preferences
from core.lessons import TOPICS
from core.questions.practice import PracticeQuestion

TASK = "/practice family:load level:easy weights:grams seed:3"  # 600 g at 5 % of the wax: 30 g


@pytest.fixture
def desk() -> Desk:
    return Desk(None)


def said(desk: Desk, text: str) -> Answer:
    return desk.text(text, LOCAL)


def task(answer: Answer) -> PracticeQuestion:
    assert isinstance(answer, Missing | Worked), answer.headline.show()
    assert isinstance(answer.question, PracticeQuestion)
    return answer.question


@pytest.mark.parametrize("key", TOPICS)
def test_the_lesson_that_an_answer_points_to_can_be_typed(desk: Desk, key: str) -> None:
    found = said(desk, f"lesson {key}")
    assert isinstance(found, Lesson)
    assert found.key == key
    assert found == said(desk, f"Lesson {key.replace('_', ' ')}.")


def test_what_a_page_says_to_type_is_understood(desk: Desk) -> None:
    shown = page(said(desk, "450 g wax at 8 %, how much fragrance?"), Preferences())
    typed = shown.partition("More: type “")[2].partition("”")[0]
    assert isinstance(said(desk, typed), Lesson)


def test_lesson_alone_offers_them_all_by_number(desk: Desk) -> None:
    offered = said(desk, "lesson")
    assert isinstance(offered, Choice)
    eighth = said(desk, "8")
    assert isinstance(eighth, Lesson)
    assert eighth.key == list(TOPICS)[7]


def test_a_task_is_answered_wrong_then_right_in_words(desk: Desk) -> None:
    said(desk, TASK)
    wrong = said(desk, "I think it is 31.6 g")
    assert wrong.headline.show() == "Not yet: 31.6 g comes out when the percent is taken of the total."
    assert task(said(desk, "30")).seed == 3
    right = said(desk, "30 g then")
    assert isinstance(right, Worked)
    assert right.headline.show() == "Right: 30 g (1.06 oz)."


def test_another_one_is_another_one_of_the_same_kind(desk: Desk) -> None:
    said(desk, TASK)
    said(desk, "30 g")
    others = [task(said(desk, "another one")) for _ in range(4)]
    assert {each.family for each in others} == {others[0].family}
    assert len({each.seed for each in others} | {3}) == 5
    assert all(each.your_answer is None for each in others)


def test_examples_and_practice_by_name(desk: Desk) -> None:
    assert said(desk, "example").intent == said(desk, "Example density").intent == "worked_example"
    assert said(desk, "practice load").intent == "practice"
    assert len({said(desk, "example").headline.show() for _ in range(6)}) > 3
    assert said(desk, "example seed:7") == said(desk, "/example seed:7")


@pytest.mark.parametrize("text", ["practice makes perfect", "example of what?", "another one", "lesson learned"])
def test_other_words_are_read_as_words(desk: Desk, text: str) -> None:
    assert said(desk, text).intent not in ("worked_example", "practice")


def test_a_whole_question_after_a_task_is_a_question(desk: Desk) -> None:
    said(desk, TASK)
    found = said(desk, "450 g of wax at 8 %, how much fragrance?")
    assert found.headline.show() == "36 g (1.27 oz) of fragrance oil."


@pytest.mark.parametrize("text", ["idk", "I don't know", "hint", "a hint please", "no idea", "how do i do this?"])
def test_who_does_not_know_gets_a_hint_and_the_task_again(desk: Desk, text: str) -> None:
    said(desk, TASK)
    found = said(desk, text)
    assert task(found).seed == 3
    assert found.headline.show() == "A hint: Here it is a percent of the wax: take it of the wax's weight alone."
    assert "30 g" not in page(found, Preferences())
    assert said(desk, "30 g").headline.show() == "Right: 30 g (1.06 oz)."


@pytest.mark.parametrize("text", ["solution", "Show the solution", "i give up", "what's the answer?"])
def test_the_solution_can_be_asked_for_in_words(desk: Desk, text: str) -> None:
    said(desk, TASK)
    found = said(desk, text)
    assert found.intent == "worked_example"
    assert "30 g (1.06 oz)" in page(found, Preferences())
    assert task(said(desk, "give me another")).seed != 3


@pytest.mark.parametrize("text", ["give me another", "new task please", "skip this one", "next question"])
def test_another_task_in_other_words(desk: Desk, text: str) -> None:
    said(desk, TASK)
    assert task(said(desk, text)).seed != 3


def test_a_wrong_answer_to_a_task_of_one_step_does_not_give_it_away(desk: Desk) -> None:
    said(desk, TASK)
    shown = page(said(desk, "5.5 g"), Preferences())
    assert "wax × load" not in shown
    assert "A hint: " in shown


def test_without_a_task_there_is_no_hint(desk: Desk) -> None:
    said(desk, "450 g wax at 8 %")
    for text in ("hint", "solution", "another"):
        assert said(desk, text).kind == "not_understood"
