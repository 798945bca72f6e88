"""The Discord client: commands built from the questions, plain words by /ask, by a mention or in a direct message."""

from __future__ import annotations

import asyncio
import logging
import time
from collections.abc import Awaitable, Callable
from typing import Any

import discord
from discord import app_commands

from bot import adapter, delivery, upkeep
from bot.asking import Answered, answer_texts, answer_words, with_usual
from bot.clock import now
from bot.config import Config
from bot.desk import COMMANDS, Asker, Desk
from bot.forms import FORMS, asked_in_form
from bot.formula_commands import formula_commands
from bot.health import health_line
from bot.hearing import listen, words
from bot.kept import Kept
from bot.logs import line
from bot.message import Reader, Writer
from bot.own_commands import IN_PANELS, own_commands
from bot.people import asker_of, author_of, is_private, settings_of
from bot.press import open_draft
from bot.report import NONE, reply_to, report, report_message
from bot.router import Router
from bot.slash import call_plainly, commands
from bot.state import Draft, Mark
from bot.suggest import suggestions
from core.action import Action
from core.answer import Answer, NotUnderstood
from core.book import Book
from core.question import Question, Slot

log = logging.getLogger("steelyard")

Filed = Callable[[], Awaitable[tuple[Answer, list[discord.File]]]]


def intents() -> discord.Intents:
    """Servers, and messages that mention the bot or are sent to it: nothing privileged."""
    return discord.Intents(guilds=True, guild_messages=True, dm_messages=True)


class Tree(app_commands.CommandTree["SteelyardClient"]):
    """Every command works in servers, direct messages and, user-installed, anywhere."""

    def __init__(self, client: SteelyardClient) -> None:
        super().__init__(
            client,
            allowed_contexts=app_commands.AppCommandContext(guild=True, dm_channel=True, private_channel=True),
            allowed_installs=app_commands.AppInstallationType(guild=True, user=True),
        )

    async def interaction_check(self, interaction: discord.Interaction[Any], /) -> bool:
        """False where the command has been called already (see `slash.call_plainly`)."""
        data: Any = interaction.data
        command = self.get_command(data["name"]) if data.get("type", 1) == SLASH else None
        return not (isinstance(command, app_commands.Command) and await call_plainly(command, interaction))

    async def on_error(self, interaction: discord.Interaction[Any], error: app_commands.AppCommandError) -> None:
        """Commands end here when something raises."""
        command = interaction.command
        await report(interaction, error, command.name if command is not None else "unknown command")


class SteelyardClient(discord.AutoShardedClient):
    """One desk, asked through Discord."""

    def __init__(self, config: Config, desk: Desk) -> None:
        shards: dict[str, Any] = {} if config.shard_ids is None else {"shard_ids": list(config.shard_ids)}
        super().__init__(
            intents=intents(),
            allowed_mentions=NONE,
            max_messages=None,
            member_cache_flags=discord.MemberCacheFlags.none(),
            chunk_guilds_at_startup=False,
            shard_count=config.shard_count,
            **shards,
        )
        self.desk = desk
        self.kept = Kept(desk.library)
        self.writer = Writer(desk, self.kept)
        self.router = Router(desk, self.kept, self.writer)
        self.once = delivery.Once()
        self.tree = Tree(self)
        self.started = time.monotonic()
        self.upkeep: asyncio.Task[None] | None = None
        self.add_commands()
        listen(self)

    def add_commands(self) -> None:
        """All commands, from the table of questions and actions."""
        kinds = {name: kind for name, kind in COMMANDS.items() if name not in IN_PANELS}
        for command in commands(kinds, self.asked, self.suggest):
            self.tree.add_command(command)
        for own in (*own_commands(self), *formula_commands(self)):
            self.tree.add_command(own)

    async def setup_hook(self) -> None:
        """Once, before the connection: how answers are sent; what is done daily begins."""
        adapter.use()
        self.upkeep = asyncio.create_task(upkeep.daily(self))

    async def close(self) -> None:
        """Disconnect and end what runs beside."""
        if self.upkeep is not None:
            self.upkeep.cancel()
        await super().close()

    async def on_guild_join(self, guild: discord.Guild) -> None:
        """The bot is in a server: its records stay."""
        await upkeep.joined(self.desk.library, guild.id)

    async def on_guild_remove(self, guild: discord.Guild) -> None:
        """The bot was removed from a server (an outage does not come here): its records go in 30 days."""
        await upkeep.left(self.desk.library, guild.id)

    def health(self) -> str:
        """The line for whatever watches the process."""
        library = "none" if self.desk.library is None else "trouble" if self.desk.library.book((), "").trouble else "ok"
        return health_line(
            ready=self.is_ready() and not any(shard.is_closed() for shard in self.shards.values()),
            started=self.started,
            latency=self.latency,
            servers=len(self.guilds),
            library=library,
        )

    async def asked(
        self, interaction: discord.Interaction, kind: type[Question | Action], options: dict[str, str]
    ) -> None:
        """A slash command: its options are read by core, then answered or done."""
        started = time.perf_counter()
        if not self.once.first(interaction.id):
            return
        outcome = "form"
        try:
            if not options and kind.command in FORMS:
                await self.open_form(interaction, kind)
            else:
                asker = asker_of(interaction)
                book = self.desk.book(asker)
                draft, note = with_usual(Draft(kind.command, options), settings_of(book))
                got = await answer_texts(self.desk, draft, asker, book, str(interaction.id))
                outcome = await self.send(interaction, got, asker, book, note)
        except Exception as error:
            outcome = await report(interaction, error, kind.command)
        await self.done(kind.command, started, outcome)

    async def words(self, interaction: discord.Interaction, command: str, text: str, quoted: str = "") -> None:
        """A question in plain words, from /ask or from somebody's message."""
        started = time.perf_counter()
        if not self.once.first(interaction.id):
            return
        try:
            asker = asker_of(interaction)
            book = self.desk.book(asker)
            got = await answer_words(self.desk, text, asker, book, str(interaction.id))
            outcome = await self.send(interaction, got, asker, book, quoted=quoted)
        except Exception as error:
            outcome = await report(interaction, error, command)
        await self.done(command, started, outcome)

    async def send(
        self,
        interaction: discord.Interaction,
        got: Answered,
        asker: Asker,
        book: Book,
        note: str = "",
        quoted: str = "",
    ) -> str:
        """The answer as the interaction's first response; what could not be used is for the asker alone."""
        # Somebody else's message that asks nothing is nobody's business but the presser's.
        idle = bool(quoted) and got.answer.intent == "out_of_scope"
        private = got.draft is not None or idle or is_private(asker, settings_of(book))
        reader = Reader(interaction.user.id, interaction.locale.value, book)
        message = self.writer.message(
            got.answer,
            reader,
            private=private and not asker.private_place,
            draft=got.draft,
            note=note,
            quoted=quoted,
            known=got.known,
        )
        await delivery.answer(interaction, message, private=private)
        return got.answer.kind

    async def filed(self, interaction: discord.Interaction, command: str, work: Filed) -> None:
        """A command that works with files: it may take longer than an answer has, so that it is said to come. What
        comes of it is for the asker alone."""
        started = time.perf_counter()
        if not self.once.first(interaction.id):
            return
        try:
            await interaction.response.defer(ephemeral=True, thinking=True)
            answered, files = await work()
            asker = asker_of(interaction)
            reader = Reader(interaction.user.id, interaction.locale.value, self.desk.book(asker))
            message = self.writer.message(answered, reader)
            await interaction.followup.send(ephemeral=True, files=files, allowed_mentions=NONE, **message.sent())
            outcome = answered.kind
        except Exception as error:
            outcome = await report(interaction, error, command)
        await self.done(command, started, outcome)

    async def opened(self, interaction: discord.Interaction, verb: str) -> None:
        """A panel, opened by a command as by a button of it."""
        if self.once.first(interaction.id):
            await self.router.take(interaction, Mark(verb, interaction.user.id, ""))

    async def open_form(self, interaction: discord.Interaction, kind: type[Question | Action]) -> None:
        """The empty form of a command that takes many figures."""
        draft, _ = with_usual(Draft(kind.command, {}), settings_of(self.desk.book(asker_of(interaction))))
        await open_draft(interaction, self.kept, draft, asked_in_form(kind))

    async def done(self, command: str, started: float, outcome: str) -> None:
        """Log it, and write down what the buttons need once the answer has gone out."""
        if log.isEnabledFor(logging.INFO):
            log.info(
                line("answered", command=command, duration_ms=1000 * (time.perf_counter() - started), outcome=outcome)
            )
        if self.kept.waiting:
            await self.kept.save(now())

    async def suggest(self, interaction: discord.Interaction, slot: Slot, typed: str) -> list[app_commands.Choice[str]]:
        """Completions of an option; none rather than an error."""
        try:
            book = self.desk.book(asker_of(interaction))
            return [app_commands.Choice(name=name, value=name) for name in suggestions(slot.type, typed, book)]
        except Exception as error:
            log.error(line("failed", where=f"completing {slot.name}", error=type(error).__name__))
            return []

    def dispatch(self, event: str, /, *args: Any, **kwargs: Any) -> None:
        """Commands and completions have been taken by the tree: their event would only make a task for nothing."""
        if event in UNHEARD or (event == "interaction" and args[0].type not in ROUTED):
            return
        super().dispatch(event, *args, **kwargs)

    async def on_interaction(self, interaction: discord.Interaction) -> None:
        """Presses, choices and forms."""
        if self.once.first(interaction.id):
            await self.router.route(interaction)
            if self.kept.waiting:
                await self.kept.save(now())

    async def on_message(self, message: discord.Message) -> None:
        """A direct message, a mention or a reply to the bot is a question in plain words (see bot/hearing.py)."""
        if self.user is None or not self.once.first(message.id):
            return
        started = time.perf_counter()
        text, called = words(message, self.user.id)
        try:
            asker = author_of(message)
            book = self.desk.book(asker)
            got = await answer_words(self.desk, text, asker, book, str(message.id))
            answered = got.answer
            if not called and (isinstance(answered, NotUnderstood) or answered.intent == "out_of_scope"):
                return
            if is_private(asker, settings_of(book)):
                await reply_to(message, {"content": FOR_YOU_ALONE})
                outcome = "private"
            else:
                reader = Reader(message.author.id, "", book)
                made = self.writer.message(answered, reader, draft=got.draft)
                await reply_to(message, made.payload())
                outcome = answered.kind
        except Exception as error:
            outcome = await report_message(message, error)
        await self.done("message", started, outcome)


SLASH = discord.AppCommandType.chat_input.value
# Come with every packet and every command; nothing here waits for them.
UNHEARD = frozenset({"socket_event_type", "app_command_completion"})
FOR_YOU_ALONE = (
    "Everybody here would see my answer, and by your settings or this channel's it is for you alone. "
    "Ask me with /ask: then only you see it."
)
ROUTED = (discord.InteractionType.component, discord.InteractionType.modal_submit)


def make_client(config: Config, desk: Desk | None = None) -> SteelyardClient:
    """The client, not yet connected."""
    if desk is None:
        from core.library import Library

        desk = Desk(Library(config.database))
    return SteelyardClient(config, desk)
