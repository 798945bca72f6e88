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
from bot.panel import settings
from bot.panel_server import server
from bot.people import asker_of
from bot.post import post
from bot.press import ON_PRESS, Press
from bot.privacy import privacy
from bot.report import report
from bot.state import OLD, Mark, OldButton, read_mark
from bot.submit import ON_SUBMIT

log = logging.getLogger("steelyard")

Handler = Callable[[Press], Awaitable[str]]


class Router:
    """Sends each press to what it means, by the first letter of its verb."""

    def __init__(self, desk: Desk, kept: Kept, writer: Writer) -> None:
        self.desk, self.kept, self.writer = desk, kept, writer
        self.handlers: dict[str, Handler] = {
            **ON_PRESS,
            **ON_SUBMIT,
            "p": post,
            "P": privacy,
            "S": settings,
            "V": server,
        }

    async def route(self, interaction: discord.Interaction[Any]) -> None:
        """Answer a press or a form, whatever it is. Never raises."""
        try:
            mark = read_mark(str(cast("dict[str, Any]", interaction.data).get("custom_id", "")))
        except Exception as error:
            await report(interaction, error, "an old button")
            return
        await self.take(interaction, mark)

    async def take(self, interaction: discord.Interaction[Any], mark: Mark) -> None:
        """Do what the mark says. Never raises."""
        started = time.perf_counter()
        try:
            handler = self.handlers.get(mark.verb[0])
            if handler is None:
                raise OldButton(OLD)
            asker = asker_of(interaction)
            press = Press(interaction, self.desk, self.kept, self.writer, mark, asker, self.desk.book(asker))
            outcome = await handler(press)
        except Exception as error:
            outcome = await report(interaction, error, f"button {mark.verb[:8]}")
        log.info(
            line("pressed", command=mark.verb[:8], duration_ms=1000 * (time.perf_counter() - started), outcome=outcome)
        )
