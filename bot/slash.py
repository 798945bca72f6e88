"""Questions and actions as slash commands, built from their slots: no command is written by hand."""

from __future__ import annotations

import contextlib
import inspect
from collections.abc import Awaitable, Callable, Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

import aiohttp
import discord
from discord import app_commands

from core.action import Action
from core.question import Question, Slot, description, slots_of

Ask = Callable[[discord.Interaction, type[Question | Action], dict[str, str]], Awaitable[None]]
Suggest = Callable[[discord.Interaction, Slot, str], Awaitable[list[app_commands.Choice[str]]]]

MOST_CHOICES = 25


def commands(
    kinds: Mapping[str, type[Question | Action]], ask: Ask, suggest: Suggest
) -> list[app_commands.Command[Any, ..., None]]:
    """One slash command for each kind; `ask` gets the options as typed, `suggest` completes them."""
    return [_command(kind, ask, suggest) for kind in kinds.values()]


def _command(kind: type[Question | Action], ask: Ask, suggest: Suggest) -> app_commands.Command[Any, ..., None]:
    async def callback(interaction: discord.Interaction, **options: Any) -> None:
        await ask(interaction, kind, {name: _text(value) for name, value in options.items() if value is not None})

    slots = sorted(slots_of(kind), key=lambda slot: not slot.required)
    first = inspect.Parameter(
        "interaction", inspect.Parameter.POSITIONAL_OR_KEYWORD, annotation=discord.Interaction[discord.Client]
    )
    callback.__signature__ = inspect.Signature([first, *(_parameter(slot) for slot in slots)])  # type: ignore[attr-defined]
    app_commands.describe(**{slot.name: _described(slot) for slot in slots})(callback)
    choices = {slot.name: _choices(slot.type) for slot in slots if _enumerated(slot.type)}
    if choices:
        app_commands.choices(**choices)(callback)
    command: app_commands.Command[Any, ..., None] = app_commands.Command(
        name=kind.command, description=description(kind)[:100], callback=callback
    )
    completers: dict[str, Any] = dict.fromkeys(slot.name for slot in slots)
    for slot in slots:
        if not _enumerated(slot.type) and slot.type is not bool and slot.type is not int:
            completers[slot.name] = _completer(slot, suggest)
            command.autocomplete(slot.name)(completers[slot.name])
    command.extras["plain"] = Plain(frozenset(slot.name for slot in slots if slot.required), completers)
    return command


@dataclass(frozen=True, slots=True)
class Plain:
    """A command that takes its options as they come: those it can't do without, and what completes each (None where
    the platform does)."""

    required: frozenset[str]
    completers: Mapping[str, Any]


async def call_plainly(command: app_commands.Command[Any, ..., Any], interaction: discord.Interaction[Any]) -> bool:
    """Call the command, or complete its option, with the options as they came: the library would look up and convert
    them one by one, and leave out one that the command no longer has. False, and nothing done, for a command that does
    not come from the table; CommandSignatureMismatch for options of another version of it."""
    plain: Plain | None = command.extras.get("plain")
    if plain is None:
        return False
    data: Any = interaction.data
    options = data.get("options", ())
    if interaction.type is discord.InteractionType.autocomplete:
        typed = next((option for option in options if option.get("focused")), {"name": ""})
        completer = plain.completers.get(typed["name"])
        choices = [] if completer is None else await completer(interaction, typed["value"])
        with contextlib.suppress(discord.HTTPException, OSError, aiohttp.ClientError):  # too late: typed on by now
            await interaction.response.autocomplete(choices)
        return True
    given = {option["name"]: option["value"] for option in options}
    if not plain.required <= given.keys() <= plain.completers.keys():
        raise app_commands.CommandSignatureMismatch(command)
    await command.callback(interaction, **given)  # type: ignore[call-arg]  # its signature stands in its slots
    return True


def _parameter(slot: Slot) -> inspect.Parameter:
    """Everything but yes/no and whole numbers is text: what people type is read by core, not by Discord."""
    kind = slot.type if slot.type in (bool, int) else str
    return inspect.Parameter(
        slot.name,
        inspect.Parameter.KEYWORD_ONLY,
        annotation=kind,
        default=inspect.Parameter.empty if slot.required else None,
    )


def _described(slot: Slot) -> str:
    text = f"{slot.says}, e.g. {slot.example}" if slot.example else slot.says
    return text if len(text) <= 100 else slot.says[:100]


def _enumerated(kind: Any) -> bool:
    return isinstance(kind, type) and issubclass(kind, StrEnum)


def _choices(kind: type[StrEnum]) -> list[app_commands.Choice[str]]:
    return [app_commands.Choice(name=member.value, value=member.value) for member in kind][:MOST_CHOICES]


def _text(value: object) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else str(value)


def _completer(slot: Slot, suggest: Suggest) -> Any:
    async def complete(interaction: discord.Interaction, typed: str) -> list[app_commands.Choice[str]]:
        return await suggest(interaction, slot, typed)

    return complete
