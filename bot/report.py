"""The one error path of commands, buttons, forms and autocompletes: the asker gets a sentence, the log a reference."""

from __future__ import annotations

import contextlib
import logging
import secrets

import discord
from discord import app_commands

from core.errors import SteelyardError

log = logging.getLogger("steelyard")

CHANGED = "This command has changed since you last saw it. Reload Discord and try again."
NONE = discord.AllowedMentions.none()


def sentence_for(error: BaseException) -> tuple[str, str]:
    """What to tell the asker, and the reference that stands in the log (empty where nothing is wrong with us)."""
    cause = getattr(error, "original", error)
    if isinstance(cause, SteelyardError):
        return cause.sentence, ""
    if isinstance(error, app_commands.CommandNotFound | app_commands.CommandSignatureMismatch):
        return CHANGED, ""
    if isinstance(error, app_commands.CheckFailure):
        return "You don't have the permission for that here. Ask somebody who manages the server.", ""
    reference = secrets.token_hex(4)
    return (
        f"Something went wrong on my side, not yours. Try again; if it stays, tell whoever runs the bot: {reference}.",
        reference,
    )


async def report(interaction: discord.Interaction, error: BaseException, where: str) -> None:
    """Tell the asker, privately, and log what is ours to mend. Never raises, never logs what was typed."""
    cause = getattr(error, "original", error)
    if isinstance(cause, discord.NotFound) and cause.code == 10062:
        log.warning("too late where=%s", where)
        return
    text, reference = sentence_for(error)
    if reference:
        log.error("failed where=%s ref=%s", where, reference, exc_info=cause)
    with contextlib.suppress(discord.HTTPException):
        if interaction.response.is_done():
            await interaction.followup.send(text, ephemeral=True, allowed_mentions=NONE)
        else:
            await interaction.response.send_message(text, ephemeral=True, allowed_mentions=NONE)
