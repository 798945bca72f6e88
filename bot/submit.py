"""What comes of a form: a question answered, something recorded, or the form offered again with all that was typed."""

from __future__ import annotations

from collections.abc import Awaitable, Callable, Mapping
from dataclasses import replace

from bot import delivery
from bot.asking import Answered, answer_texts, answer_words
from bot.components import submitted
from bot.forms import filled
from bot.message import FIRST
from bot.people import is_private, settings_of
from bot.press import Press
from bot.state import Draft, read_draft, unpack
from core.answer import Answer
from core.reading.slash_form import texts_of


async def _in_place(press: Press) -> str:
    """The missing figures: the answer takes the place of what asked for them."""
    shown, state = unpack(press.mark.args)
    first, *rest = press.questions(state)
    got = await _answered(press, Draft(first.command, filled(texts_of(first), typed(press)), first.unit))
    if got.draft is not None:
        return await _new(press, got.answer, got.draft)
    answered = got.answer
    if rest:
        more = press.answered(tuple(rest))
        answered = replace(answered, then=(replace(more, then=()), *more.then))
    await press.put(answered, shown)
    return answered.kind


async def _anew(press: Press) -> str:
    """A form of its own: the answer is a new message."""
    _, state = unpack(press.mark.args)
    base = read_draft(press.kept.find(state))
    got = await _answered(press, replace(base, texts=filled(base.texts, typed(press))))
    return await _new(press, got.answer, got.draft)


async def _words(press: Press) -> str:
    """A question in plain words, typed anew."""
    text = typed(press).get("question", "")
    got = await answer_words(press.desk, text, press.asker, press.book, str(press.interaction.id))
    return await _new(press, got.answer, got.draft)


async def _answered(press: Press, draft: Draft) -> Answered:
    return await answer_texts(press.desk, draft, press.asker, press.book, str(press.interaction.id))


async def _new(press: Press, answered: Answer, draft: Draft | None) -> str:
    private = draft is not None or is_private(press.asker, settings_of(press.book))
    message = press.writer.message(answered, press.reader, FIRST, private=private and press.may_post, draft=draft)
    await delivery.answer(press.interaction, message, private=private)
    return answered.kind


def typed(press: Press) -> Mapping[str, str]:
    """What was typed into the form."""
    return submitted(press.data)


ON_SUBMIT: dict[str, Callable[[Press], Awaitable[str]]] = {"F": _in_place, "G": _anew, "W": _words}
