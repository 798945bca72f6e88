"""The one place where every press, choice and form arrives, whichever run of the bot sent the message."""

from __future__ import annotations

import logging
import time
from collections.abc import Awaitable, Callable
from typing import Any, cast

import discord

from bot.desk import Desk
from bot.kept import Kept
from bot.logs import line
from bot.message import Writer
from bot.people import asker_of
from bot.post import post
from bot.press import ON_PRESS, Press
from bot.report import report
from bot.state import OLD, OldButton, read_mark
from bot.submit import ON_SUBMIT

log = logging.getLogger("steelyard")

Handler = Callable[[Press], Awaitable[str]]


class Router:
    """Sends each press to what it means, by the first letter of its verb."""

    def __init__(self, desk: Desk, kept: Kept, writer: Writer) -> None:
        self.desk, self.kept, self.writer = desk, kept, writer
        self.handlers: dict[str, Handler] = {**ON_PRESS, **ON_SUBMIT, "p": post}

    async def route(self, interaction: discord.Interaction[Any]) -> None:
        """Answer it, whatever it is. Never raises."""
        started = time.perf_counter()
        verb = "unknown"
        try:
            mark = read_mark(str(cast("dict[str, Any]", interaction.data).get("custom_id", "")))
            verb = mark.verb
            handler = self.handlers.get(verb[0])
            if handler is None:
                raise OldButton(OLD)
            asker = asker_of(interaction)
            press = Press(interaction, self.desk, self.kept, self.writer, mark, asker, self.desk.book(asker))
            outcome = await handler(press)
        except Exception as error:
            outcome = await report(interaction, error, f"button {verb[:3]}")
        log.info(line("pressed", command=verb[:3], duration_ms=1000 * (time.perf_counter() - started), outcome=outcome))
