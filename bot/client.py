"""The Discord client: commands built from the questions, plain words by /ask, by a mention or in a direct message."""

from __future__ import annotations

import asyncio
import contextlib
import logging
import time
from datetime import UTC, datetime
from typing import Any

import discord
from discord import app_commands

from bot.config import Config
from bot.desk import COMMANDS, Desk
from bot.people import asker_of, author_of
from bot.reply import embed_of
from bot.report import NONE, report, sentence_for
from bot.slash import commands
from bot.suggest import suggestions
from core.action import Action
from core.answer import Answer, NotUnderstood
from core.errors import SteelyardError
from core.question import Question, Slot
from core.reading.slash_form import build

log = logging.getLogger("steelyard")

MENU_NAME = "Work out by weight"


def intents() -> discord.Intents:
    """Servers, and messages that mention the bot or are sent to it: nothing privileged."""
    return discord.Intents(guilds=True, guild_messages=True, dm_messages=True)


def now() -> str:
    """The time in ISO 8601, UTC."""
    return datetime.now(UTC).isoformat(timespec="seconds")


class Tree(app_commands.CommandTree["SteelyardClient"]):
    """Every command works in servers, direct messages and, user-installed, anywhere."""

    def __init__(self, client: SteelyardClient) -> None:
        super().__init__(
            client,
            allowed_contexts=app_commands.AppCommandContext(guild=True, dm_channel=True, private_channel=True),
            allowed_installs=app_commands.AppInstallationType(guild=True, user=True),
        )

    async def on_error(self, interaction: discord.Interaction[Any], error: app_commands.AppCommandError) -> None:
        """Commands end here when something raises."""
        command = interaction.command
        await report(interaction, error, command.name if command is not None else "unknown command")


class SteelyardClient(discord.AutoShardedClient):
    """One desk, asked through Discord."""

    def __init__(self, config: Config, desk: Desk) -> None:
        super().__init__(
            intents=intents(),
            allowed_mentions=NONE,
            max_messages=None,
            member_cache_flags=discord.MemberCacheFlags.none(),
            chunk_guilds_at_startup=False,
            shard_count=config.shard_count,
            **({"shard_ids": list(config.shard_ids)} if config.shard_ids is not None else {}),
        )
        self.desk = desk
        self.tree = Tree(self)
        self.started = time.monotonic()
        self.add_commands()

    def add_commands(self) -> None:
        """All commands, from the table of questions and actions."""
        for command in commands(COMMANDS, self.asked, self.suggest):
            self.tree.add_command(command)
        self.tree.add_command(
            app_commands.Command(name="ask", description="Ask in plain words", callback=self._plain_callback())
        )
        self.tree.add_command(app_commands.ContextMenu(name=MENU_NAME, callback=self._menu_callback()))

    def _plain_callback(self) -> Any:
        @app_commands.describe(question="As you would say it, e.g. 2 lb wax at 6 percent, how many oz of fragrance")
        async def ask(interaction: discord.Interaction, question: app_commands.Range[str, 1, 6000]) -> None:
            answered = self.desk.text(question, asker_of(interaction), now(), str(interaction.id))
            await self.send(interaction, answered)

        return ask

    def _menu_callback(self) -> Any:
        async def work_out(interaction: discord.Interaction, message: discord.Message) -> None:
            await self.send(interaction, self.desk.text(message.content, asker_of(interaction), now()))

        return work_out

    async def asked(
        self, interaction: discord.Interaction, kind: type[Question | Action], options: dict[str, str]
    ) -> None:
        """A slash command: its options are read by core, then answered or done."""
        asker = asker_of(interaction)
        book = self.desk.book(asker)
        asked = build(kind, options, book)
        if isinstance(asked, Question):
            await self.send(interaction, self.desk.ask(asked, asker, book))
        else:
            # Writing waits for the disk: keep the heartbeat and the other askers out of that.
            done = await asyncio.to_thread(self.desk.act, asked, asker, now(), str(interaction.id))
            await self.send(interaction, done)

    async def send(self, interaction: discord.Interaction, answered: Answer) -> None:
        """The answer as the interaction's first response; what was not understood is for the asker alone."""
        book = self.desk.book(asker_of(interaction))
        embed = embed_of(answered, book.preferences, book.trouble)
        private = isinstance(answered, NotUnderstood)
        await interaction.response.send_message(embed=embed, ephemeral=private, allowed_mentions=NONE)

    async def suggest(self, interaction: discord.Interaction, slot: Slot, typed: str) -> list[app_commands.Choice[str]]:
        """Completions of an option; none rather than an error."""
        try:
            book = self.desk.book(asker_of(interaction))
            return [app_commands.Choice(name=name, value=name) for name in suggestions(slot.type, typed, book)]
        except Exception as error:  # an autocomplete has no other error path: the asker just types on
            log.error("failed where=autocomplete ref=%s", sentence_for(error)[1], exc_info=error)
            return []

    async def on_message(self, message: discord.Message) -> None:
        """A direct message, or one that begins with or holds a mention of the bot, is a question in plain words."""
        if message.author.bot or self.user is None:
            return
        mentions = (f"<@{self.user.id}>", f"<@!{self.user.id}>")
        if message.guild is not None and not any(mention in message.content for mention in mentions):
            return
        text = message.content
        for mention in mentions:
            text = text.replace(mention, " ")
        asker = author_of(message)
        try:
            answered = self.desk.text(text, asker, now(), str(message.id))
            book = self.desk.book(asker)
            embed = embed_of(answered, book.preferences, book.trouble)
            await message.reply(embed=embed, mention_author=False, allowed_mentions=NONE)
        except (SteelyardError, Exception) as error:
            said, reference = sentence_for(error)
            log.error("failed where=message ref=%s", reference, exc_info=error)
            with contextlib.suppress(discord.HTTPException):
                await message.reply(said, mention_author=False, allowed_mentions=NONE)


def make_client(config: Config, desk: Desk | None = None) -> SteelyardClient:
    """The client, not yet connected."""
    if desk is None:
        from core.library import Library

        desk = Desk(Library(config.database))
    return SteelyardClient(config, desk)
