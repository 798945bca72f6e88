"""What the buttons below an answer do. Everything they need stands in their id; the answer is worked out anew."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from dataclasses import dataclass, replace
from typing import Any, cast

import discord

from bot import delivery, forms
from bot.asking import with_usual
from bot.buttons import on_basis
from bot.carry import CARRIES
from bot.desk import COMMANDS, Asker, Desk, seeded
from bot.files import files_of
from bot.kept import Kept
from bot.message import Reader, Writer
from bot.people import preferences_of, settings_of
from bot.state import (
    OLD,
    Draft,
    Known,
    Mark,
    OldButton,
    Shown,
    lesson_question,
    mark,
    pack,
    read_draft,
    read_questions,
    unpack,
)
from core.answer import Answer, Missing
from core.book import Book
from core.compounds import Basis
from core.question import Question
from core.questions.lesson import LessonQuestion
from core.reading.slash_form import texts_of


@dataclass(slots=True)
class Press:
    """One press: who, on what, and all that answering it needs."""

    interaction: discord.Interaction[Any]
    desk: Desk
    kept: Kept
    writer: Writer
    mark: Mark
    asker: Asker
    book: Book

    @property
    def mine(self) -> bool:
        """Whether the answer is the presser's own."""
        return self.mark.owner == self.interaction.user.id

    @property
    def reader(self) -> Reader:
        """The presser, for whom what comes of it is made."""
        return Reader(self.interaction.user.id, self.interaction.locale.value, self.book)

    @property
    def hidden(self) -> bool:
        """Whether the message that was pressed is seen by its asker alone."""
        message = self.interaction.message
        return message is not None and message.flags.ephemeral

    @property
    def data(self) -> dict[str, Any]:
        """What the platform says about the press."""
        return cast("dict[str, Any]", self.interaction.data or {})

    @property
    def values(self) -> tuple[str, ...]:
        """What was chosen in a list."""
        return tuple(str(value) for value in self.data.get("values") or ())

    async def again(self, state: str, shown: Shown) -> str:
        """The same questions, shown in another way."""
        text = self.kept.find(state)
        return await self.show(read_questions(text, self.book), shown, text)

    def questions(self, state: str) -> tuple[Question, ...]:
        """The questions behind the button."""
        return read_questions(self.kept.find(state), self.book)

    def answered(self, questions: tuple[Question, ...]) -> Answer:
        """All of them answered, as one answer."""
        first, *rest = [self.desk.ask(question, self.asker, self.book) for question in questions]
        return replace(first, then=tuple(rest)) if rest else first

    async def show(self, questions: tuple[Question, ...], shown: Shown, known: str = "") -> str:
        """Change the presser's own answer; somebody else gets a copy of their own."""
        answered = self.answered(questions)
        await self.put(answered, shown, Known(questions, known) if known else None)
        return answered.kind

    async def put(self, answered: Answer, shown: Shown, known: Known | None = None) -> None:
        """Put the answer in the place of the presser's own; somebody else gets a copy of their own."""
        private = self.hidden or not self.mine
        message = self.writer.message(answered, self.reader, shown, private=private and self.may_post, known=known)
        if self.mine and self.interaction.message is not None:
            await delivery.change(self.interaction, message)
        else:
            await delivery.answer(self.interaction, message, private=True)

    @property
    def may_post(self) -> bool:
        """Whether there is a channel to post to."""
        return not self.asker.private_place


async def _basis(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    basis = {"bw": Basis.WAX, "bt": Basis.TOTAL}.get(press.mark.verb)
    if basis is None:
        raise OldButton(OLD)
    return await press.show(tuple(on_basis(question, basis) for question in press.questions(state)), shown.turned(0))


async def _unit(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    first = {"ug": "g", "uo": "oz"}.get(press.mark.verb)
    if first is None:
        raise OldButton(OLD)
    questions = press.questions(state)
    if isinstance(questions[0], LessonQuestion):  # its examples are round in the unit they are made in
        return await press.show(
            tuple(replace(question, unit=first) for question in questions), replace(shown, first=first)
        )
    return await press.again(state, replace(shown, first=first))


async def _steps(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    return await press.again(state, Shown(shown.first, steps=press.mark.verb == "ss"))


async def _next(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    return await press.again(state, shown.turned(shown.page + 1))


async def _previous(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    return await press.again(state, shown.turned(max(0, shown.page - 1)))


async def _option(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    return await press.again(state, shown)


async def _choice(press: Press) -> str:
    shown, state = unpack((press.values or ("",))[0])
    return await press.again(state, shown)


async def _another(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    return await press.show(tuple(seeded(question, anew=True) for question in press.questions(state)), shown)


async def _lesson(press: Press) -> str:
    key, _, unit = press.mark.args.partition("~")
    question = lesson_question(key, unit)
    if question is None or unit not in ("", "g", "oz"):
        raise OldButton(OLD)
    answered = press.desk.ask(question, press.asker, press.book)
    message = press.writer.message(answered, press.reader, Shown(unit), private=press.may_post)
    await delivery.answer(press.interaction, message, private=True)
    return answered.kind


async def _solution(press: Press) -> str:
    """How a task is worked, for the presser alone: others may still be at it."""
    _, state = unpack(press.mark.args)
    solution = getattr(press.questions(state)[0], "solution", None)
    if not isinstance(solution, Question):
        raise OldButton(OLD)
    answered = solution.answer(press.book)  # not remembered: a follow-up is still about the task
    message = press.writer.message(answered, press.reader, private=press.may_post)
    await delivery.answer(press.interaction, message, private=True)
    return answered.kind


async def _table(press: Press) -> str:
    shown, state = unpack(press.mark.args)
    answered = press.answered(press.questions(state))
    preferences = preferences_of(press.book, press.interaction.locale.value)
    await press.interaction.response.send_message(
        "The table for a spreadsheet (CSV), and the whole answer as text to print.",
        files=files_of(answered, replace(preferences, first=shown.first or preferences.first)),
        ephemeral=True,
    )
    return "files"


async def _fill_in(press: Press) -> str:
    """The form for what is missing; its answer takes the place of this message."""
    shown, state = unpack(press.mark.args)
    question = press.questions(state)[0]
    answered = press.desk.ask(question, press.asker, press.book)
    names = forms.wanted(answered) if isinstance(answered, Missing) else ()
    if not names:  # what was missing is recorded by now
        return await press.again(state, shown)
    usual, _ = with_usual(Draft(question.command, {}), settings_of(press.book))
    custom_id = mark("F", press.mark.owner, pack(shown, state))
    title = "My answer" if names == ("your_answer",) else "What is missing"
    form = forms.form(type(question), custom_id, names, {**usual.texts, **texts_of(question)}, title)
    await press.interaction.response.send_modal(form)
    return "form"


async def _carry(press: Press) -> str:
    """The form that carries the answer's figures on; what comes of it is a new message."""
    _, state = unpack(press.mark.args)
    question = press.questions(state)[0]
    carry = next((each for each in CARRIES.get(question.command, ()) if each.verb == press.mark.verb), None)
    if carry is None or carry.command not in COMMANDS:
        raise OldButton(OLD)
    draft = Draft(carry.command, carry.texts(question, press.desk.ask(question, press.asker, press.book)))
    await open_draft(press.interaction, press.kept, draft, forms.asked_in_form(COMMANDS[draft.command]))
    return "form"


async def _correct(press: Press) -> str:
    """The form again, filled with what was typed."""
    _, state = unpack(press.mark.args)
    draft = read_draft(press.kept.find(state))
    if not draft.command:
        custom_id = mark("W", press.interaction.user.id)
        await press.interaction.response.send_modal(forms.words_form(custom_id, draft.texts.get("question", "")))
        return "form"
    if draft.command not in COMMANDS:
        raise OldButton(OLD)
    await open_draft(press.interaction, press.kept, draft, forms.again(draft, COMMANDS[draft.command]))
    return "form"


async def open_draft(interaction: discord.Interaction[Any], kept: Kept, draft: Draft, names: tuple[str, ...]) -> None:
    """Open the form of a command, filled; what it does not show is kept beside it."""
    beside = {name: text for name, text in draft.texts.items() if name not in names}
    state = kept.short(Draft(draft.command, beside, draft.unit).write(), 60)
    custom_id = mark("G", interaction.user.id, pack(Shown(), state))
    await interaction.response.send_modal(forms.form(COMMANDS[draft.command], custom_id, names, draft.texts))


ON_PRESS: dict[str, Callable[[Press], Awaitable[str]]] = {
    "a": _another,
    "b": _basis,
    "c": _correct,
    "e": _solution,
    "f": _fill_in,
    "l": _lesson,
    "m": _carry,
    "n": _next,
    "O": _choice,
    "o": _option,
    "q": _previous,
    "r": _carry,
    "s": _steps,
    "t": _table,
    "u": _unit,
}
