"""A command with its texts, from a slash command or from a form alike: read, seeded, answered or done."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, replace

from bot.clock import now
from bot.desk import COMMANDS, Asker, Desk, seeded
from bot.people import settings_of, with_rights
from bot.state import OLD, Draft, Known, OldButton, typed_form
from core.action import Action
from core.answer import Answer, Missing, NotUnderstood
from core.ask import from_error
from core.book import Book
from core.errors import BadInput
from core.library.settings import Settings
from core.reading.slash_form import build

# Command: the slot that a setting of the server fills where nothing was given.
USUAL = {"buy": ("packs", "packs"), "batch": ("fills", "vessels")}


def with_usual(draft: Draft, settings: Settings) -> tuple[Draft, str]:
    """The draft with the group's usual packs or vessels where none were given; a sentence that says so, else ""."""
    slot, key = USUAL.get(draft.command, ("", ""))
    usual = {"packs": settings.packs, "vessels": settings.vessels}.get(key, "")
    if not usual or slot in draft.texts:
        return draft, ""
    return replace(draft, texts={**draft.texts, slot: usual}), f"With this server's usual {key}, as in its settings."


@dataclass(frozen=True, slots=True)
class Answered:
    """What a command came to. `draft` is what was typed, to be offered again where something is wrong or an act lacks
    something; `known` the text of the question for its buttons."""

    answer: Answer
    draft: Draft | None = None
    known: Known | None = None


async def answer_texts(desk: Desk, draft: Draft, asker: Asker, book: Book, once: str) -> Answered:
    """A command with its texts read, seeded, answered or done. Actions are done in a thread: writing waits for the
    disk. OldButton for a command that is no more."""
    kind = COMMANDS.get(draft.command)
    if kind is None:
        raise OldButton(OLD)
    try:
        asked = build(kind, draft.texts, book)
    except BadInput as error:
        wrong = error.sentence.partition(":")[0]
        return Answered(from_error(error, draft.command), replace(draft, wrong=wrong))
    if isinstance(asked, Action):
        rights = with_rights(asker, settings_of(book))
        answered = await asyncio.to_thread(desk.act, asked, rights, now(), once)
        return Answered(answered, draft if isinstance(answered, Missing | NotUnderstood) else None)
    question = seeded(replace(asked, unit=draft.unit) if draft.unit else asked)
    answered = desk.ask(question, asker, book)
    if isinstance(answered, NotUnderstood):
        return Answered(answered, draft)
    text = typed_form(draft.command, draft.texts) if question is asked else ""
    return Answered(answered, None, Known((question,), text))


async def answer_words(desk: Desk, text: str, asker: Asker, book: Book, once: str) -> Answered:
    """Plain words or a slash form, answered or done: doing in a thread, as above. What was not understood is offered
    again."""
    if desk.acts(text):
        answered = await asyncio.to_thread(desk.text, text, asker, now(), once, book)
    else:
        answered = desk.text(text, asker, book=book)
    again = Draft("", {"question": text}) if isinstance(answered, NotUnderstood) and text.strip() else None
    return Answered(answered, again)
