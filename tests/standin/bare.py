"""The floor of the benchmark: a discord.py client that answers everything with one constant.

One slash command (/load, three text options, completion on the first), a message menu entry, a mention or direct
message, one lasting button. Same intents and mention rule as the real bot, nothing computed.
"""

from __future__ import annotations

import asyncio
import os
import signal
from typing import Any

import discord
from discord import app_commands

ANSWER = discord.Embed(title="46.5 g", description="620 g × 7.5 ÷ 100 = 46.5 g")
COMPLETIONS = [app_commands.Choice(name=name, value=name) for name in ("soy", "palm", "paraffin")]
BUTTON_ID = "bare:again"


class Again(discord.ui.View):
    """A button that outlives a restart."""

    def __init__(self) -> None:
        super().__init__(timeout=None)

    @discord.ui.button(label="Again", custom_id=BUTTON_ID)
    async def again(self, interaction: discord.Interaction, button: discord.ui.Button[Any]) -> None:
        await interaction.response.edit_message(embed=ANSWER)


class BareBot(discord.Client):
    def __init__(self) -> None:
        intents = discord.Intents(guilds=True, guild_messages=True, dm_messages=True)
        super().__init__(intents=intents, allowed_mentions=discord.AllowedMentions.none())
        self.tree = app_commands.CommandTree(self)

        @self.tree.command(name="load", description="Answers with one constant")
        @app_commands.describe(wax="text", load="text", basis="text")
        async def load(
            interaction: discord.Interaction, wax: str, load: str = "", basis: str = "", private: bool = False
        ) -> None:
            await interaction.response.send_message(embed=ANSWER, ephemeral=private)

        @load.autocomplete("wax")
        async def complete(interaction: discord.Interaction, current: str) -> list[app_commands.Choice[str]]:
            return COMPLETIONS

        @self.tree.context_menu(name="Work it out")
        async def work_it_out(interaction: discord.Interaction, message: discord.Message) -> None:
            await interaction.response.send_message(embed=ANSWER)

        @self.tree.command(name="button", description="An answer with a button")
        async def button(interaction: discord.Interaction) -> None:
            view = Again()
            view.stop()  # the one added at the start listens; this one must not be stored per message
            await interaction.response.send_message(embed=ANSWER, view=view)

    async def setup_hook(self) -> None:
        self.add_view(Again())

    async def on_message(self, message: discord.Message) -> None:
        if message.author.bot or not (message.guild is None or self.user in message.mentions):
            return
        await message.reply(embed=ANSWER)


async def _serve(token: str) -> None:
    async with BareBot() as client:
        loop = asyncio.get_running_loop()
        stopping: list[asyncio.Task[None]] = []
        loop.add_signal_handler(signal.SIGTERM, lambda: stopping.append(loop.create_task(client.close())))
        await client.start(token)


def main() -> int:
    asyncio.run(_serve(os.environ["DISCORD_TOKEN"]))
    return 0
