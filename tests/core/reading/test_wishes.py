"""Thanks, help, and a lesson, an example or an exercise wished for in plain words."""

from __future__ import annotations

import pytest

from core.answer import Declined
from core.exercises.kinds import Family
from core.lessons.topics import Topic
from core.question import Question
from core.questions.example import ExampleQuestion
from core.questions.lesson import LessonQuestion
from core.questions.practice import PracticeQuestion
from tests.core.reading.asked import answered, understood


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("lessons", LessonQuestion()),
        ("teach me about flakes", LessonQuestion(topic=Topic.FLAKES)),
        ("lesson about density please", LessonQuestion(topic=Topic.DENSITY)),
        ("give me an exercise", PracticeQuestion()),
        ("exercise ounces", PracticeQuestion(family=Family.OUNCES)),
        ("quiz me on batches", PracticeQuestion(family=Family.BATCH)),
        ("write me a worked example about ounces", ExampleQuestion(family=Family.OUNCES)),
        ("another example for a blend", ExampleQuestion(family=Family.BLEND)),
    ],
)
def test_what_is_wished_for(text: str, asked: Question) -> None:
    assert understood(text) == asked


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("help", "help"),
        ("what can you do?", "help"),
        ("how do i use this bot", "help"),
        ("thanks!", "thanks"),
        ("thank you so much", "thanks"),
        ("ok cheers mate", "thanks"),
    ],
)
def test_talk_gets_a_short_answer(text: str, reason: str) -> None:
    answer = answered(text)
    assert isinstance(answer, Declined)
    assert answer.reason == reason


@pytest.mark.parametrize(
    "text",
    [
        "practice makes perfect",
        "example of a good candle name",
        "thanks for nothing, 8%",
        "help me fix frosting",
        "lol",
    ],
)
def test_other_talk_is_no_wish(text: str) -> None:
    answer = answered(text)
    assert not isinstance(understood(text), Question) or answer.kind != "worked"
    assert not (isinstance(answer, Declined) and answer.reason in ("thanks", "help"))
