"""Getting an answer to the asker: once, in time, and again where a connection broke on the way."""

from __future__ import annotations

from collections import OrderedDict
from dataclasses import dataclass, field
from typing import Any

import aiohttp
import discord

from bot.adapter import respond
from bot.message import Message
from bot.report import UNKNOWN_MESSAGE

REMEMBERED = 4_000
NEW, UPDATED = discord.InteractionResponseType.channel_message, discord.InteractionResponseType.message_update
EPHEMERAL = discord.MessageFlags(ephemeral=True).value


@dataclass(slots=True)
class Once:
    """Which interactions and messages were taken up: the platform may deliver one twice."""

    _seen: OrderedDict[int, None] = field(default_factory=OrderedDict)

    def first(self, number: int) -> bool:
        """True the first time this id is seen."""
        if number in self._seen:
            return False
        self._seen[number] = None
        if len(self._seen) > REMEMBERED:
            self._seen.popitem(last=False)
        return True


async def answer(interaction: discord.Interaction[Any], message: Message, *, private: bool) -> None:
    """The first response, as a new message."""
    data = {**message.payload(), "flags": EPHEMERAL} if private else message.payload()
    try:
        await respond(interaction, NEW, data)
    except (OSError, aiohttp.ClientError):
        # The connection broke: whether it arrived is not known. A second answer is refused if it did.
        await respond(interaction, NEW, data)


async def change(interaction: discord.Interaction[Any], message: Message) -> None:
    """The message that was pressed, changed; where somebody has deleted it, a new one for the asker alone."""
    try:
        await respond(interaction, UPDATED, message.payload())
    except discord.NotFound as error:
        if error.code != UNKNOWN_MESSAGE:
            raise
        await answer(interaction, message, private=True)
