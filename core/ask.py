"""The one call every adapter makes: a question in, an answer out; impossible givens become a sentence."""

from __future__ import annotations

from core.answer import Answer, NotUnderstood, line
from core.book import Book
from core.errors import SteelyardError
from core.question import Question


def answer(question: Question, book: Book) -> Answer:
    """The question's answer; a SteelyardError is turned into the answer that says the way out."""
    try:
        return question.answer(book)
    except SteelyardError as error:
        return from_error(error, getattr(question, "intent", "") or question.command)


def from_error(error: SteelyardError, intent: str = "") -> NotUnderstood:
    """An error as an answer: its sentence and its key."""
    return NotUnderstood(intent=intent or "not_understood", headline=line("{}", error.sentence), reason=error.key)
