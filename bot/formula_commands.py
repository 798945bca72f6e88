"""Formulas as files in Discord: one command sends them, JSON and CSV, one takes an attachment in."""

from __future__ import annotations

import asyncio
import io
from typing import TYPE_CHECKING, Any

import aiohttp
import discord
from discord import app_commands

from bot.clock import now
from bot.people import asker_of, settings_of, with_rights
from core.action import Action, Actor
from core.actions.formula_files import ExportFormulas, ImportFormulas, told
from core.compounds import FormulaName, SeenBy
from core.errors import BadInput, LibraryUnavailable, OutOfRange
from core.library.portable_text import LARGEST_FILE, to_csv, to_json
from core.question import Question, Slot, description, slots_of

if TYPE_CHECKING:
    from bot.client import SteelyardClient
    from core.answer import Answer

NOT_FETCHED = "I could not fetch that file from Discord. Send it again; nothing was recorded."
A_FILE = "The file as it was exported here, JSON or CSV"
FILE_KINDS: dict[str, type[Question | Action]] = {kind.command: kind for kind in (ExportFormulas, ImportFormulas)}


def formula_commands(client: SteelyardClient) -> list[app_commands.Command[Any, ..., None]]:
    """Both, bound to the client."""
    made: list[app_commands.Command[Any, ..., None]] = [
        app_commands.Command(name=name, description=description(FILE_KINDS[name]), callback=callback)
        for name, callback in (
            (ExportFormulas.command, _export(client)),
            (ImportFormulas.command, _import(client)),
        )
    ]
    for slot in slots_of(ExportFormulas):
        made[0].autocomplete(slot.name)(_completer(client, slot))
    return made


def _completer(client: SteelyardClient, slot: Slot) -> Any:
    async def complete(interaction: discord.Interaction, typed: str) -> list[app_commands.Choice[str]]:
        return await client.suggest(interaction, slot, typed)

    return complete


def _export(client: SteelyardClient) -> Any:
    @app_commands.describe(**{slot.name: slot.says for slot in slots_of(ExportFormulas)})
    async def export(interaction: discord.Interaction, formula: str = "", after: str = "") -> None:
        action = ExportFormulas(formula=_name(formula), after=_name(after))

        async def work() -> tuple[Answer, list[discord.File]]:
            return await asyncio.to_thread(_exported, client, interaction, action)

        await client.filed(interaction, ExportFormulas.command, work)

    return export


def _name(text: str) -> FormulaName | None:
    return FormulaName(text) if text.strip() else None


def _exported(
    client: SteelyardClient, interaction: discord.Interaction, action: ExportFormulas
) -> tuple[Answer, list[discord.File]]:
    asker = asker_of(interaction)
    if client.desk.library is None:
        raise LibraryUnavailable("There is no library here, so there is nothing to export.", "none")
    out = action.take(client.desk.library, Actor(asker.user, asker.name, asker.spaces[0]))
    texts = (("formulas.json", to_json(out.found)), ("formulas.csv", to_csv(out.found))) if out.found else ()
    return told(out), [
        discord.File(io.BytesIO(text.encode("utf-8-sig" if name.endswith("csv") else "utf-8")), name)
        for name, text in texts
    ]


def _import(client: SteelyardClient) -> Any:
    choices = [app_commands.Choice(name=each.value, value=each.value) for each in SeenBy]

    @app_commands.describe(file=A_FILE, **{slot.name: slot.says for slot in slots_of(ImportFormulas)})
    @app_commands.choices(seen_by=choices)
    async def import_(interaction: discord.Interaction, file: discord.Attachment, seen_by: str = "") -> None:
        async def work() -> tuple[Answer, list[discord.File]]:
            action = ImportFormulas(data=await _fetched(file), seen_by=SeenBy(seen_by) if seen_by else None)
            asker = asker_of(interaction)
            rights = with_rights(asker, settings_of(client.desk.book(asker)))
            return await asyncio.to_thread(client.desk.act, action, rights, now(), str(interaction.id)), []

        await client.filed(interaction, ImportFormulas.command, work)

    return import_


async def _fetched(file: discord.Attachment) -> bytes:
    """What the attachment holds. What is too large is not fetched at all."""
    if file.size > LARGEST_FILE:
        raise OutOfRange("", f"That file is too large: at most {LARGEST_FILE // 1024:,} KiB. Nothing was recorded.")
    try:
        return await file.read()
    except (discord.HTTPException, aiohttp.ClientError, OSError, TimeoutError) as error:
        raise BadInput(file.filename, NOT_FETCHED) from error
