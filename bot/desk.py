"""The desk where every question is put: reads it, answers it, remembers it. All adapters call these few methods."""

from __future__ import annotations

import secrets
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from bot.memory import Memory
from bot.tasks import FEW_WORDS, asks_another, exercise_answered, last_question, plainly, task_of, told_of_task
from core.action import Action, Actor
from core.actions import BY_COMMAND as ACTIONS
from core.answer import Answer, Choice, NotUnderstood, line
from core.ask import answer, from_error
from core.book import Book, EmptyBook
from core.errors import BadInput, LibraryUnavailable, SteelyardError
from core.library import Library
from core.question import Question
from core.questions import BY_COMMAND as QUESTIONS
from core.reading import read
from core.reading.slash_form import command_of, read_form

LONGEST = 6_000
MOST_SEED = 1_000_000
COMMANDS: dict[str, type[Question | Action]] = {**QUESTIONS, **ACTIONS}


@dataclass(frozen=True, slots=True)
class Asker:
    """Who asks and where: `spaces` whose records may be seen, the first one also written to; `place` the channel,
    `private_place` where nobody else reads along; `roles` the ids the server gave them."""

    user: str
    name: str
    spaces: tuple[str, ...]
    place: str = ""
    may_edit: bool = True
    roles: tuple[str, ...] = ()
    private_place: bool = False


LOCAL = Asker(user="local", name="you", spaces=("local",))


@dataclass(slots=True)
class Desk:
    """`library` None means nothing can be looked up or recorded; answers still come. `commands` are those that may be
    typed in the slash form."""

    library: Library | None
    memory: Memory = field(default_factory=Memory)
    commands: Mapping[str, type[Question | Action]] = field(default_factory=lambda: COMMANDS)

    def book(self, asker: Asker) -> Book:
        """What this asker may look up."""
        return EmptyBook() if self.library is None else self.library.book(asker.spaces, asker.user)

    def text(self, text: str, asker: Asker, now: str = "", once: str = "", book: Book | None = None) -> Answer:
        """Plain words or the slash form; `book` is the asker's where there is one already. Never raises for anything
        typed."""
        if not text.strip():
            return NotUnderstood(intent="not_understood", headline=NOTHING, reason="empty")
        if len(text) > LONGEST:
            return NotUnderstood(intent="not_understood", headline=TOO_LONG, reason="too_long")
        book = book or self.book(asker)
        try:
            if text.lstrip().startswith("/"):
                asked = read_form(text, self.commands, book)
                return self.act(asked, asker, now, once) if isinstance(asked, Action) else self.ask(asked, asker, book)
            return self._plain(text, asker, book)
        except SteelyardError as error:
            return from_error(error)

    def acts(self, text: str) -> bool:
        """Whether the text is the slash form of something that records or changes: it may have to wait for the disk."""
        return text.lstrip().startswith("/") and command_of(text)[0].casefold() in ACTIONS

    def ask(self, question: Question, asker: Asker, book: Book | None = None) -> Answer:
        """A question already built; its answer is remembered for a follow-up."""
        return self._remember(answer(seeded(question), book or self.book(asker)), asker)

    def act(self, action: Action, asker: Asker, now: str, once: str = "") -> Answer:
        """Record or change something. What could not be recorded is said, nothing is lost silently."""
        try:
            if self.library is None:
                raise LibraryUnavailable(NO_LIBRARY, "none")
            may_edit = self.library.may_record(asker.spaces[0], asker.roles, asker.may_edit)
            actor = Actor(asker.user, asker.name, asker.spaces[0], now, may_edit, once)
            return action.act(self.library, actor)
        except SteelyardError as error:
            return from_error(error, action.command)

    def _plain(self, text: str, asker: Asker, book: Book) -> Answer:
        last = self.memory.last(asker.user, asker.place)
        offered = last if isinstance(last, Choice) else self.memory.last(asker.user, f"{asker.place}{OFFERED}")
        if isinstance(offered, Choice) and (picked := _chosen(text, offered)) is not None:
            answered = self.ask(picked, asker, book)
            self.memory.keep(asker.user, f"{asker.place}{OFFERED}", offered)  # so that the other one may follow
            return answered
        task = task_of(last)
        if task is not None and (told := told_of_task(text, task, book)) is not None:
            return told  # not remembered: a follow-up is still about the task
        chosen = exercise_answered(text, last) or (
            seeded(task, anew=True) if task is not None and asks_another(text) else _by_name(text, book)
        )
        if chosen is not None:
            return self.ask(chosen, asker, book)
        understood = read(text, book, last if isinstance(last, Choice) else last_question(last))
        asked = understood.asked
        if isinstance(asked, Question) and (made := seeded(asked)) is not asked:
            understood = understood._replace(asked=made)
        return self._remember(understood.answered(book), asker)

    def _remember(self, answered: Answer, asker: Asker) -> Answer:
        if isinstance(answered, Choice) or last_question(answered) is not None:
            self.memory.keep(asker.user, asker.place, answered)
            self.memory.keep(asker.user, f"{asker.place}{OFFERED}", answered)
        return answered


def seeded(question: Question, *, anew: bool = False) -> Question:
    """A question that makes something up each time, with a seed to make it from (`anew`: another one, and no answer
    yet); others as they are."""
    kind = type(question)
    if not getattr(kind, "needs_seed", False) or (getattr(question, "seed", None) is not None and not anew):
        return question
    changes: dict[str, Any] = {"seed": 1 + secrets.randbelow(MOST_SEED)}
    if anew and hasattr(question, "your_answer"):
        changes["your_answer"] = None
    return replace(question, **changes)


NOTHING = line("That was empty. Ask a measurement question, such as “450 g wax at 8 %, how much fragrance?”")
TOO_LONG = line(
    "That is longer than {} characters. Ask one measurement question at a time, in a sentence or two.", LONGEST
)
NO_LIBRARY = "There is no library here, so nothing can be recorded. Questions are answered all the same."


def _by_name(text: str, book: Book) -> Question | None:
    """“lesson tare”, “example”, “practice load”: as their commands, the slash left out."""
    words = plainly(text)
    if words.partition(" ")[0].casefold() not in BY_NAME:
        return None
    try:
        asked = read_form(f"/{words}", COMMANDS, book)
    except BadInput:
        return None
    return asked if isinstance(asked, Question) else None


BY_NAME = ("lesson", "example", "practice")


# Where the last choice is kept beside the last answer: no place is called so.
OFFERED = "\0offered"
ORDINALS = (("1", "first", "1st"), ("2", "second", "2nd"), ("3", "third", "3rd"), ("4", "fourth", "4th"))
FILLERS = frozenset(
    "the one it is its i mean meant please option number that take ones both of them was a".split()  # noqa: SIM905
)


def _chosen(text: str, offered: Choice) -> Question | None:
    """The question behind an option, picked by its number, its label, or words that only its label has."""
    said = text.strip().strip(".)!").casefold()
    for number, option in enumerate(offered.options, 1):
        if option.question is not None and said in (str(number), option.label.casefold()):
            return option.question
    words = {word.strip(".,!?") for word in said.split()} - FILLERS
    if not words or len(words) > FEW_WORDS:
        return None
    fitting = [
        option.question
        for names, option in zip(ORDINALS, offered.options, strict=False)
        if words <= {*option.label.casefold().split(), "by", "of"} - {"the"} or (len(words) == 1 and words & {*names})
    ]
    return fitting[0] if len(fitting) == 1 else None
