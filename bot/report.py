"""The one error path of commands, buttons, forms and autocompletes: the asker gets a sentence, the log a reference."""

from __future__ import annotations

import contextlib
import logging
from typing import Any

import aiohttp
import discord
from discord import app_commands
from discord.http import MultipartParameters

from bot.logs import line, where_raised
from bot.reply import harmless
from bot.unforeseen import new_reference, ours
from core.errors import SteelyardError

log = logging.getLogger("steelyard")

CHANGED = "This command has changed since you last saw it. Reload Discord and try again."
NOT_HERE = "I may not write in this channel. Ask somebody who manages the server to allow it, or ask me elsewhere."
NO_EMBEDS = (
    "I may not show my answers in this channel. Ask somebody who manages the server to allow me Embed Links here."
)
NONE = discord.AllowedMentions.none()
# Discord's error codes.
UNKNOWN_MESSAGE, UNKNOWN_INTERACTION, ANSWERED, NO_ACCESS, NO_PERMISSION, EXPIRED = (
    10008,
    10062,
    40060,
    50001,
    50013,
    50027,
)
# Of a reply to a message (codes from memory): no right to read what it replies to, that message is gone, nothing left
# of the answer without the right to embed.
NO_HISTORY, GONE, EMPTY = 160002, 50035, 50006
# Nothing can be told any more: too late, told already, or the fifteen minutes are over.
CLOSED = {UNKNOWN_INTERACTION: "too_late", ANSWERED: "answered_before", EXPIRED: "expired"}


def sentence_for(error: BaseException) -> tuple[str, str]:
    """What to tell the asker, and the reference that stands in the log (empty where nothing is wrong with us)."""
    cause = getattr(error, "original", error)
    if isinstance(cause, SteelyardError):
        return harmless(cause.sentence), ""
    if isinstance(error, app_commands.CommandNotFound | app_commands.CommandSignatureMismatch):
        return CHANGED, ""
    if isinstance(error, app_commands.CheckFailure):
        return "You don't have the permission for that here. Ask somebody who manages the server.", ""
    if isinstance(cause, discord.HTTPException) and cause.code in (NO_ACCESS, NO_PERMISSION):
        return NOT_HERE, ""
    if isinstance(cause, discord.HTTPException) and cause.code == EMPTY:
        return NO_EMBEDS, ""
    reference = new_reference()
    return ours(reference), reference


async def report(interaction: discord.Interaction[Any], error: BaseException, where: str) -> str:
    """Tell the asker, privately, and log what is ours to mend; the outcome for the log. Never raises, never logs what
    was typed."""
    cause = getattr(error, "original", error)
    if isinstance(cause, discord.HTTPException) and cause.code in CLOSED:
        log.warning(line("not_told", where=where, reason=CLOSED[cause.code]))
        return CLOSED[cause.code]
    text, reference = sentence_for(error)
    if reference:
        log.error(line("failed", where=where, ref=reference, error=where_raised(cause)))
    with contextlib.suppress(discord.HTTPException, OSError, aiohttp.ClientError):
        if interaction.response.is_done():
            await interaction.followup.send(text, ephemeral=True, allowed_mentions=NONE)
        else:
            await interaction.response.send_message(text, ephemeral=True, allowed_mentions=NONE)
    return f"error:{reference}" if reference else "refused"


async def reply_to(message: discord.Message, payload: dict[str, Any]) -> None:
    """Answer a message with a finished payload, as a reply where that is allowed. Nobody is mentioned. The library's
    own way would build an object of what was sent."""
    post, channel = message._state.http.send_message, message.channel.id
    plain = {**payload, "allowed_mentions": {"parse": []}}
    reply = {**plain, "message_reference": message.to_message_reference_dict()}
    try:
        await post(channel, params=MultipartParameters(reply, None, None))
    except discord.HTTPException as error:
        if error.code != NO_HISTORY:
            raise
        await post(channel, params=MultipartParameters(plain, None, None))


async def report_message(message: discord.Message, error: BaseException) -> str:
    """The same for a message that was sent to the bot."""
    if isinstance(error, discord.HTTPException) and error.code == GONE:
        return "gone"
    said, reference = sentence_for(error)
    if reference:
        log.error(line("failed", where="message", ref=reference, error=where_raised(error)))
    with contextlib.suppress(discord.HTTPException, OSError, aiohttp.ClientError):
        await reply_to(message, {"content": said})
    return f"error:{reference}" if reference else "refused"
