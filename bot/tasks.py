"""What is typed after a task or an example: an answer to it, "hint", "solution", "give me another"."""

from __future__ import annotations

from core.answer import Answer, Missing, Worked
from core.book import Book
from core.question import Question
from core.questions.practice import PracticeQuestion
from core.reading.amounts import amounts
from core.reading.wordset import wordset

# Beside the amount itself, an answer to an exercise has so many words at most: "I think it is 36 g of oil".
FEW_WORDS = 6
_SMALL = wordset(
    "a an the me us i i'd i'll we you can could would like please pls give show see tell get have want need just to it",
    "this that one ok okay for what's whats what is at of from with my do let let's try some now so",
)
_ANOTHER = wordset("another next more again new different other skip task exercise example question")
_TASK = wordset("task exercise example question")
_SOLUTION = wordset("solution solutions solve solved answer workings steps worked out give up how done")
_SOLVED = wordset("solution solutions solve solved answer workings worked up")
_UNSURE = wordset("hint hints clue help tip nudge idk dunno stuck lost how idea know sure understand")
_NOT = wordset("no not don't dont i'm im am")


def last_question(answered: Answer | None) -> Question | None:
    """The question a follow-up would change."""
    return answered.question if isinstance(answered, Worked | Missing) else None


def task_of(last: Answer | None) -> Question | None:
    """The task or the example that was given last."""
    question = last_question(last)
    return question if question is not None and getattr(type(question), "needs_seed", False) else None


def exercise_answered(text: str, last: Answer | None) -> Question | None:
    """The exercise that was set last with this answer to it, where the text is one amount and little else."""
    question = last.question if isinstance(last, Missing) else None
    if not isinstance(question, PracticeQuestion):
        return None
    found = amounts(text)
    if len(found) != 1 or len((text[: found[0].start] + text[found[0].end :]).split()) > FEW_WORDS:
        return None
    return question.with_answer(found[0].text)


def told_of_task(text: str, task: Question, book: Book) -> Answer | None:
    """A hint for a task, or its solution, where the text asks for one."""
    if not isinstance(task, PracticeQuestion):
        return None
    words = _words(text)
    if words & _UNSURE and words <= _UNSURE | _NOT:
        return task.hint(book)
    if words & _SOLVED and words <= _SOLUTION | _TASK:
        return task.solution.answer(book)
    return None


def asks_another(text: str) -> bool:
    """Whether a new example or task of the same kind is wished for."""
    words = _words(text)
    return bool(words) and words <= _ANOTHER and not words <= _TASK


def plainly(text: str) -> str:
    """The text with single blanks, without quotes or an end of sentence around it."""
    return " ".join(text.split()).strip(" .!?\"'“”")


def _words(text: str) -> frozenset[str]:
    """The few words of the text that tell something."""
    words = plainly(text).casefold().replace("’", "'").split()
    return frozenset(word.strip(".,!?") for word in words) - _SMALL if len(words) <= FEW_WORDS + 2 else frozenset()
