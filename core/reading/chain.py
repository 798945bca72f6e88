"""Several questions in one message: one question stays a question, more become one answer with the others after it."""

from __future__ import annotations

import dataclasses

from core.answer import Answer
from core.ask import answer
from core.book import Book
from core.question import Question

MOST = 6


def chained(book: Book, *questions: Question | Answer) -> Question | Answer:
    """The only question, or the answers to all of them, in order (at most `MOST`)."""
    if len(questions) == 1:
        return questions[0]
    answers = [each if isinstance(each, Answer) else answer(each, book) for each in questions[:MOST]]
    first, *others = answers
    return dataclasses.replace(first, then=(*first.then, *others))
