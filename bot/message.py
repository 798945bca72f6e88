"""One answer as a Discord message: its page and what stands below it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

import discord

from bot.buttons import Below, preferred
from bot.components import cut
from bot.desk import Desk
from bot.forms import typed_lines
from bot.kept import Kept
from bot.outline import style_for
from bot.people import preferences_of
from bot.reply import harmless, pages_of
from bot.state import Draft, Known, Shown, questions_of
from core.answer import Answer, NotUnderstood
from core.book import Book

FIRST = Shown()
LONGEST_SHOWN = 400  # of one value in the message; the form behind the button holds all of it


@dataclass(frozen=True, slots=True)
class Message:
    """What is sent: `rows` None where there is nothing to press."""

    embed: discord.Embed
    rows: discord.ui.View | None = None

    def payload(self) -> dict[str, Any]:
        """As the platform takes it: nobody is mentioned, and what has no buttons loses those it had."""
        rows = [] if self.rows is None else self.rows.to_components()
        return {"embeds": [self.embed.to_dict()], "components": rows, "allowed_mentions": {"parse": []}}

    def sent(self) -> dict[str, Any]:
        """As arguments of sending."""
        return {"embed": self.embed} if self.rows is None else {"embed": self.embed, "view": self.rows}

    def edited(self) -> dict[str, Any]:
        """As arguments of editing: what has no buttons loses those it had."""
        return {"embed": self.embed, "view": self.rows}


@dataclass(frozen=True, slots=True)
class Reader:
    """For whom a message is made: the `owner` may change it; `locale` of their Discord; `book` they may look into."""

    owner: int
    locale: str
    book: Book


@dataclass(slots=True)
class Writer:
    """Makes messages of answers."""

    desk: Desk
    kept: Kept

    def message(
        self,
        answer: Answer,
        reader: Reader,
        shown: Shown = FIRST,
        *,
        private: bool = False,
        draft: Draft | None = None,
        note: str = "",
        quoted: str = "",
        known: Known | None = None,
    ) -> Message:
        """The message. `private` when only the asker sees it, who may then post it; `note` is a line of ours below,
        `quoted` the message of somebody else that was worked out."""
        preferences = preferred(preferences_of(reader.book, reader.locale), shown)
        style = style_for(answer, preferences, harmless)
        pages = pages_of(answer, style, reader.book.trouble, steps=shown.steps)
        shown = shown.turned(min(shown.page, len(pages) - 1)) if shown.page else shown
        text = pages[shown.page]
        if quoted:
            text = f"{text}\n-# From the message: {quoted}"
        elif draft is not None and isinstance(answer, NotUnderstood):
            text += "".join(typed(draft))
        if note:
            text = f"{text}\n-# {note}"
        below = Below(
            reader.owner,
            self.kept,
            shown,
            style.first,
            preferences.basis,
            len(pages),
            post=private,
            known=known,
        )
        return Message(discord.Embed(description=text), below.rows(answer, questions_of(answer), draft))


def typed(draft: Draft) -> list[str]:
    """What was typed, a line each, so that nothing of it is lost."""
    lines = [f"\n- {harmless(name)}: {harmless(cut(text, LONGEST_SHOWN))}" for name, text in typed_lines(draft.texts)]
    return ["\nYou typed:", *lines] if lines else []
