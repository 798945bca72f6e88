"""What a button carries: whose answer it is, how it is shown, and the question itself, in at most 100 characters.

`s1:<verb>:<owner in base 36>:<args>`. The number is the version: what an older bot sent is told from what is ours.
"""

from __future__ import annotations

import functools
import json
import operator
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from bot.desk import COMMANDS
from core.answer import Answer, Lesson, Missing, Worked
from core.book import Book, EmptyBook
from core.errors import BadInput, SteelyardError
from core.question import Question
from core.reading.slash_form import read_form, write_form

VERSION = "s1"
LONGEST = 100
_DIGITS = "0123456789abcdefghijklmnopqrstuvwxyz"


class OldButton(SteelyardError):
    """A button or form of another version of the bot, or one whose question is no longer kept."""

    key = "old_button"


OLD = "That button is from another version of me and no longer works. Ask again, and use the buttons of the new answer."
GONE = "I no longer have the question behind that button; they are kept for 30 days. Please ask it again."


@dataclass(frozen=True, slots=True)
class Mark:
    """A button's or form's id, taken apart."""

    verb: str
    owner: int
    args: str


@dataclass(frozen=True, slots=True)
class Shown:
    """How an answer is shown: `first` "g", "oz" or "" (as the asker likes it), the steps or not, which page."""

    first: str = ""
    steps: bool = True
    page: int = 0

    def turned(self, page: int) -> Shown:
        """The same on another page."""
        return replace(self, page=page)


@functools.lru_cache(maxsize=1024)
def base36(number: int) -> str:
    """A whole number of 0 or more in the digits 0-9a-z; `int(text, 36)` reads it."""
    if number < 36:
        return _DIGITS[number]
    out = ""
    while number:
        number, digit = divmod(number, 36)
        out = _DIGITS[digit] + out
    return out


def mark(verb: str, owner: int, args: str = "") -> str:
    """The id of a button or form."""
    return f"{VERSION}:{verb}:{base36(owner)}:{args}"


def read_mark(custom_id: str) -> Mark:
    """The id taken apart; OldButton where it is not of this version."""
    parts = custom_id.split(":", 3)
    if len(parts) != 4 or parts[0] != VERSION or not parts[1]:
        raise OldButton(OLD)
    try:
        return Mark(parts[1], int(parts[2], 36), parts[3])
    except ValueError:
        raise OldButton(OLD) from None


def pack(shown: Shown, state: str = "") -> str:
    """How it is shown and the state, as the args of a mark."""
    return f"{shown.first or '-'}{'s' if shown.steps else 'h'}{base36(shown.page)}~{state}"


def unpack(args: str) -> tuple[Shown, str]:
    """The args taken apart; OldButton where they can't be."""
    flags, tilde, state = args.partition("~")
    first, steps, page = flags[:-2], flags[-2:-1], flags[-1:]
    if not tilde or first not in ("-", "g", "oz") or steps not in ("s", "h") or page not in _DIGITS:
        raise OldButton(OLD)
    return Shown("" if first == "-" else first, steps == "s", int(page, 36)), state


MOST_PAGES = len(_DIGITS)


def width(text: str) -> int:
    """Its length as the platform may count it: signs beyond the first 65,536 as two."""
    return len(text) if text.isascii() else len(text.encode("utf-16-le")) // 2


# ---- questions as text


def questions_of(answer: Answer) -> tuple[Question | None, ...]:
    """The question behind each part of an answer; None where there is none to ask again."""
    return tuple(_question(part) for part in (answer, *answer.then))


def _question(part: Answer) -> Question | None:
    if isinstance(part, Worked | Missing):
        return part.question
    return lesson_question(part.key, part.unit) if isinstance(part, Lesson) else None


def lesson_question(key: str, unit: str = "") -> Question | None:
    """The question that gives a lesson, its examples in that unit; None where there is no such lesson."""
    try:
        asked = read_form(f"/lesson {key}", COMMANDS, EmptyBook())
    except SteelyardError:
        return None
    return replace(asked, unit=unit) if isinstance(asked, Question) else None


def write_questions(questions: Sequence[Question]) -> str:
    """One question a line, each as its slash form with the unit asked for before it."""
    return "\n".join(f"{q.unit}~{write_form(q)}" if q.unit else write_form(q) for q in questions)


def typed_form(command: str, texts: Mapping[str, str]) -> str:
    """The slash form as it was typed; "" where a text would not read back as itself from it."""
    parts = [f"/{command}"]
    for name, text in texts.items():
        flat = " ".join(text.split())
        if ":" in flat or "~" in flat or not flat or flat[0] in _QUOTES or flat[-1] in _QUOTES:
            return ""
        parts.append(f"{name}:{flat}")
    return " ".join(parts)


_QUOTES = "\"'“”"


@dataclass(frozen=True, slots=True)
class Known:
    """Questions whose text is known already, so that it need not be written anew."""

    questions: tuple[Question, ...]
    text: str

    def tells(self, questions: Sequence[Question]) -> bool:
        """Whether it is the text of these very questions."""
        return (
            bool(self.text)
            and len(questions) == len(self.questions)
            and all(map(operator.is_, questions, self.questions))
        )


def read_questions(text: str, book: Book) -> tuple[Question, ...]:
    """The questions again. OldButton where a command or a slot of them is no more."""
    return tuple(_read_question(each, book) for each in text.split("\n"))


def _read_question(text: str, book: Book) -> Question:
    unit, form = "", text
    if not text.startswith("/"):
        unit, _, form = text.partition("~")
    try:
        asked = read_form(form, COMMANDS, book)
    except BadInput:
        raise OldButton(OLD) from None
    if not isinstance(asked, Question):
        raise OldButton(OLD)
    return replace(asked, unit=unit) if unit else asked


# ---- what was typed, before it can be read


@dataclass(frozen=True, slots=True)
class Draft:
    """What was typed into a command or form, exactly: `command` "" for plain words (under the name "question");
    `wrong` the slot that could not be read, where one is known."""

    command: str
    texts: Mapping[str, str]
    unit: str = ""
    wrong: str = ""

    def write(self) -> str:
        """As text to be kept."""
        kept = {"c": self.command, "t": dict(self.texts), "u": self.unit, "w": self.wrong}
        return json.dumps(kept, ensure_ascii=False, separators=(",", ":"))


def read_draft(text: str) -> Draft:
    """The draft again; OldButton where it can't be read."""
    try:
        kept = json.loads(text)
        texts = {str(name): str(value) for name, value in kept["t"].items()}
        return Draft(str(kept["c"]), texts, str(kept["u"]), str(kept["w"]))
    except (ValueError, KeyError, TypeError, AttributeError):
        raise OldButton(OLD) from None
