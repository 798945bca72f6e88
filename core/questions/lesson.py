"""Asking for a lesson by name, or for the list of them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

import core.lessons as lessons
from core.answer import Answer, Choice, Need, Option, line
from core.book import Book
from core.lessons.topics import Topic
from core.question import Question, slot

NEED_TOPIC = Need("topic", line("which lesson"))


@dataclass(frozen=True, slots=True, kw_only=True)
class LessonQuestion(Question):
    """A short lesson with worked numbers: weight, loads, ounces, density, scales, safety."""

    command: ClassVar[str] = "lesson"

    topic: Topic | None = slot("What it is about; leave it out for the list", example="tare")

    @property
    def intent(self) -> str:
        """An explanation, not a sum."""
        return "concept"

    def answer(self, book: Book) -> Answer:
        """The lesson; without a topic a Choice of all of them."""
        if self.topic is not None:
            return lessons.lesson(self.topic.key, book, self.unit)
        return Choice(
            intent=self.intent,
            headline=line("Which lesson? There are {}.", len(Topic)),
            options=tuple(
                Option(
                    topic.value,
                    lessons.lesson(topic.key, book, self.unit).headline,
                    LessonQuestion(topic=topic, unit=self.unit),
                )
                for topic in Topic
            ),
            needs=(NEED_TOPIC,),
        )
