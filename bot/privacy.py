"""What is kept about one person: shown, given to them as a file, deleted."""

from __future__ import annotations

import asyncio
import io
import json
from collections.abc import Mapping, Sequence
from typing import Any

import discord

from bot import components as made
from bot import delivery
from bot.components import Rows
from bot.message import Message
from bot.panel import library_of, put
from bot.press import Press
from bot.report import NONE
from bot.state import OLD, OldButton, mark

KINDS = {
    "settings": "Settings of yours",
    "versions": "Entries you made of materials, vessels and formulas",
    "measurements": "Densities you measured",
    "tests": "Tests of candles",
}
NOT_KEPT = (
    "Your messages are not kept and not logged. The last answer stays in memory for a quarter of an hour, so that you "
    "can ask on. Questions too long for a button are kept for 30 days, without your name."
)
GROUPS = "What you recorded for a group stays with the group, without your name."
DELETED = "**Deleted.** Your settings and what was yours alone are gone."


async def privacy(press: Press) -> str:
    """Everything of /privacy."""
    verb = press.mark.verb[1:]
    if verb == "open" or verb == "keep":
        await put(press, await _overview(press))
    elif verb == "file":
        await _export(press)
    elif verb == "delete":
        await put(press, _sure(press.interaction.user.id))
    elif verb == "yes":
        await _delete(press)
    else:
        raise OldButton(OLD)
    return verb


async def _found(press: Press) -> dict[str, Any]:
    return await asyncio.to_thread(library_of(press).export_person, press.asker.user)


async def _overview(press: Press) -> Message:
    found = await _found(press)
    counts = [f"- {words}: {_count(found.get(key, ()))}" for key, words in KINDS.items()]
    user = press.interaction.user.id
    buttons = [
        made.button("All of it as a file", mark("Pfile", user)),
        made.button("Delete it", mark("Pdelete", user), made.DANGER),
    ]
    text = "\n".join(["**Kept about you**", *counts, NOT_KEPT, GROUPS])
    return Message(discord.Embed(description=text), Rows(made.rows_of(buttons)))


def _count(found: Mapping[str, Any] | Sequence[Any]) -> str:
    return str(len(found)) if found else "none"


def _sure(user: int) -> Message:
    text = f"**Delete what is kept about you, for good?**\nIt can't be undone. {GROUPS}"
    buttons = [
        made.button("Yes, delete it", mark("Pyes", user), made.DANGER),
        made.button("No, keep it", mark("Pkeep", user)),
    ]
    return Message(discord.Embed(description=text), Rows(made.rows_of(buttons)))


async def _export(press: Press) -> None:
    text = json.dumps(await _found(press), ensure_ascii=False, indent=2)
    file = discord.File(io.BytesIO(text.encode()), "kept-about-me.json", description="All that is kept about you, JSON")
    await press.interaction.response.send_message(
        "All that is kept about you.", file=file, ephemeral=True, allowed_mentions=NONE
    )


async def _delete(press: Press) -> None:
    if not press.mine:
        raise OldButton(OLD)
    await asyncio.to_thread(library_of(press).forget_person, press.asker.user)
    press.desk.memory.forget(press.asker.user)
    message = Message(discord.Embed(description=f"{DELETED}\n{GROUPS}"))
    if press.interaction.message is None:
        await delivery.answer(press.interaction, message, private=True)
    else:
        await delivery.change(press.interaction, message)
