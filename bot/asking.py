"""A command with its texts, from a slash command or from a form alike: read, seeded, answered or done."""

from __future__ import annotations

import asyncio
import secrets
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any

from bot.desk import COMMANDS, Asker, Desk
from bot.people import settings_of, with_rights
from bot.state import OLD, Draft, OldButton
from core.action import Action
from core.answer import Answer, Missing, NotUnderstood
from core.ask import from_error
from core.book import Book
from core.errors import BadInput
from core.library.settings import Settings
from core.question import Question
from core.reading.slash_form import build

MOST_SEED = 1_000_000


def now() -> str:
    """The time in ISO 8601, UTC."""
    return datetime.now(UTC).isoformat(timespec="seconds")


def seeded(question: Question, *, anew: bool = False) -> Question:
    """A question that makes something up each time, with a seed to make it from; others as they are."""
    if not getattr(type(question), "needs_seed", False) or (getattr(question, "seed", None) is not None and not anew):
        return question
    changes: dict[str, Any] = {"seed": 1 + secrets.randbelow(MOST_SEED)}
    if anew and hasattr(question, "given"):  # what was answered to the one before
        changes["given"] = None
    return replace(question, **changes)


# Command: the slot that a setting of the server fills where nothing was given.
USUAL = {"buy": ("packs", "packs"), "batch": ("fills", "vessels")}


def with_usual(draft: Draft, settings: Settings) -> tuple[Draft, str]:
    """The draft with the group's usual packs or vessels where none were given; a sentence that says so, else ""."""
    slot, key = USUAL.get(draft.command, ("", ""))
    usual = {"packs": settings.packs, "vessels": settings.vessels}.get(key, "")
    if not usual or slot in draft.texts:
        return draft, ""
    return replace(draft, texts={**draft.texts, slot: usual}), f"With this server's usual {key}, as in its settings."


async def answer_texts(desk: Desk, draft: Draft, asker: Asker, book: Book, once: str) -> tuple[Answer, Draft | None]:
    """What a command with these texts comes to; with it the draft to be offered again, where something is wrong or
    an act lacks something. Actions are done in a thread: writing waits for the disk."""
    kind = COMMANDS.get(draft.command)
    if kind is None:
        raise OldButton(OLD)
    try:
        asked = build(kind, draft.texts, book)
    except BadInput as error:
        wrong = error.sentence.partition(":")[0]
        return from_error(error, draft.command), replace(draft, wrong=wrong)
    if isinstance(asked, Action):
        rights = with_rights(asker, settings_of(book))
        answered = await asyncio.to_thread(desk.act, asked, rights, now(), once)
        return answered, draft if isinstance(answered, Missing | NotUnderstood) else None
    question = replace(asked, unit=draft.unit) if draft.unit else asked
    answered = desk.ask(seeded(question), asker, book)
    return answered, draft if isinstance(answered, NotUnderstood) else None


def words_draft(answered: Answer, text: str) -> Draft | None:
    """Plain words to be offered again where they were not understood."""
    return Draft("", {"question": text}) if isinstance(answered, NotUnderstood) and text.strip() else None
