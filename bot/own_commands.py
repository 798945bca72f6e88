"""The commands that are no questions: plain words, a message's text, forms by name, settings, privacy, help."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

import discord
from discord import app_commands

from bot.components import OPTION_LENGTH, cut
from bot.desk import COMMANDS
from bot.forms import FORMS
from bot.formula_commands import FILE_KINDS
from bot.help import command_help, grouped
from bot.reply import harmless, pages
from bot.report import NONE
from core.question import description

if TYPE_CHECKING:
    from bot.client import SteelyardClient

MENU_NAME = "Work out by weight"
ASK = "As you would say it, e.g. 2 lb wax at 6 percent, how many oz of fragrance"
# In Discord these have a panel of their own.
IN_PANELS = ("settings", "my_data")
QUOTED = 120
HELP = """**Ask in plain words**, with /ask, in a message that mentions me, or in a direct message to me:
“2 lb of wax, 6 percent, how many oz of fragrance?”
Then “and at 10 %?” or “in grams” changes the last question.
**From somebody's message:** hold or right-click it, Apps, “Work out by weight”.
**Or use a command.** /help with a command's name lists its values. There are:"""


def own_commands(client: SteelyardClient) -> list[app_commands.Command[Any, ..., None] | app_commands.ContextMenu]:
    """All of them, bound to the client."""
    made: list[app_commands.Command[Any, ..., None] | app_commands.ContextMenu] = [
        app_commands.Command(name=name, description=says, callback=callback)
        for name, says, callback in (
            ("ask", "Ask in plain words", _ask(client)),
            ("form", "Fill in a form: a measured density, a vessel, a batch, a formula, a lot", _form(client)),
            ("settings", "How you want answers; for those who manage the server, its settings too", _open(client, "S")),
            ("privacy", "What is kept about you: see it, get it as a file, delete it", _open(client, "P")),
            ("help", "What you can ask, and the commands there are", _help(client)),
        )
    ]
    return [*made, app_commands.ContextMenu(name=MENU_NAME, callback=_menu(client))]


def _ask(client: SteelyardClient) -> Any:
    @app_commands.describe(question=ASK)
    async def ask(interaction: discord.Interaction, question: app_commands.Range[str, 1, 6000]) -> None:
        await client.words(interaction, "ask", question)

    return ask


def _menu(client: SteelyardClient) -> Any:
    async def work_out(interaction: discord.Interaction, message: discord.Message) -> None:
        await client.words(interaction, "menu", message.content, quoted(message.content))

    return work_out


def _form(client: SteelyardClient) -> Any:
    choices = [
        app_commands.Choice(name=cut(description(COMMANDS[name]), OPTION_LENGTH), value=name)
        for name in FORMS
        if name in COMMANDS
    ]

    @app_commands.describe(which="Which form")
    @app_commands.choices(which=choices)
    async def form(interaction: discord.Interaction, which: str) -> None:
        await client.asked(interaction, COMMANDS[which], {})

    return form


def _open(client: SteelyardClient, panel: str) -> Any:
    async def panel_opened(interaction: discord.Interaction) -> None:
        await client.opened(interaction, f"{panel}open")

    return panel_opened


def _help(client: SteelyardClient) -> Any:
    kinds = {name: kind for name, kind in COMMANDS.items() if name not in IN_PANELS} | FILE_KINDS

    @app_commands.describe(command="A command, for its values and an example")
    async def help_(interaction: discord.Interaction, command: str = "") -> None:
        name = command.strip().removeprefix("/").casefold()
        lines = [harmless(each) for each in command_help(name, kinds).splitlines()] if name else [HELP, *listed(kinds)]
        embeds = [discord.Embed(description=page) for page in pages([[each] for each in lines])][:3]
        await interaction.response.send_message(embeds=embeds[:1], ephemeral=True, allowed_mentions=NONE)
        for more in embeds[1:]:
            await interaction.followup.send(embed=more, ephemeral=True, allowed_mentions=NONE)

    return help_


def listed(kinds: Mapping[str, type[Any]]) -> list[str]:
    """Every command with what it does, a line each, under headings."""
    lines: list[str] = []
    for heading, names in grouped(kinds):
        lines += [f"**{heading}**", *(f"- /{name}: {description(kinds[name])}" for name in names)]
    return lines


def quoted(text: str) -> str:
    """The beginning of somebody's message, harmless, so that readers see what is answered."""
    return harmless(cut(" ".join(text.split()), QUOTED)) or "(no text)"
