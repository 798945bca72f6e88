"""Showing the channel what only its asker saw, once."""

from __future__ import annotations

import asyncio
import contextlib

import discord

from bot.clock import now
from bot.press import Press
from bot.report import NO_ACCESS, NO_PERMISSION, NONE, NOT_HERE
from bot.state import unpack
from core.errors import LibraryUnavailable, NotAllowed
from core.library.library import AlreadyDone

THERE_ALREADY = "That answer is in the channel already; it was posted once."


async def post(press: Press) -> str:
    """Post the answer to the channel and take the button away. A second press says that it is there."""
    message = press.interaction.message
    if message is None or not press.mine:
        raise NotAllowed("Only the one who asked can post this answer.")
    if await _posted(press, message.id):
        await press.interaction.response.send_message(THERE_ALREADY, ephemeral=True, allowed_mentions=NONE)
        return "posted_before"
    permissions = press.interaction.permissions
    if not press.interaction.is_guild_integration() and not permissions.use_external_apps:
        raise NotAllowed("This server lets nobody post with an app of their own. Copy the answer, or ask its managers.")
    if not permissions.send_messages and not permissions.send_messages_in_threads:
        raise NotAllowed("You may not write in this channel, so I may not post there for you.")
    press.kept.mark_posted(message.id, True)
    try:
        return await _post(press)
    except discord.HTTPException as error:
        press.kept.mark_posted(message.id, False)
        if error.code in (NO_ACCESS, NO_PERMISSION):
            raise NotAllowed(NOT_HERE) from None
        raise


async def _post(press: Press) -> str:
    message = press.interaction.message
    assert message is not None
    shown, state = unpack(press.mark.args)
    answered = press.answered(press.questions(state))
    await press.interaction.response.defer()
    public = press.writer.message(answered, press.reader, shown, note=f"Asked by {press.interaction.user.mention}")
    await press.interaction.followup.send(allowed_mentions=NONE, **public.sent())
    if press.desk.library is not None:
        with contextlib.suppress(LibraryUnavailable, AlreadyDone):
            await asyncio.to_thread(_mark_posted, press, message.id)
    own = press.writer.message(answered, press.reader, shown)
    with contextlib.suppress(discord.HTTPException):  # the message may be gone by now; the post stands
        await press.interaction.edit_original_response(allowed_mentions=NONE, **own.edited())
    return "posted"


def _mark_posted(press: Press, message_id: int) -> None:
    assert press.desk.library is not None
    with press.desk.library.writing(f"post:{message_id}", now()):
        pass


async def _posted(press: Press, message_id: int) -> bool:
    if press.kept.posted(message_id):
        return True
    if press.desk.library is None:
        return False
    try:
        return await asyncio.to_thread(press.desk.library.seen, f"post:{message_id}")
    except LibraryUnavailable:
        return False
