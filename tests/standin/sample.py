"""A client that uses every part of the platform once, to prove the stand-in with (not a pattern for the real bot)."""

from __future__ import annotations

import asyncio
import io
from typing import Any

import discord
from discord import app_commands, ui


class Form(ui.Modal, title="Density"):
    def __init__(self) -> None:
        super().__init__(timeout=60)
        kinds = [discord.SelectOption(label="wax", value="w"), discord.SelectOption(label="oil", value="o")]
        self.name: ui.TextInput[Any] = ui.TextInput(custom_id="name", max_length=40)
        self.kind: ui.Select[Any] = ui.Select(custom_id="kind", options=kinds)
        self.note: ui.TextInput[Any] = ui.TextInput(custom_id="note", required=False, default="by scale")
        self.add_item(ui.Label(text="Material", component=self.name))
        self.add_item(ui.Label(text="Kind", component=self.kind))
        self.add_item(ui.Label(text="Note", component=self.note))

    async def on_submit(self, interaction: discord.Interaction) -> None:
        text = f"recorded {self.name.value} / {self.kind.values[0]} / {self.note.value}"
        if interaction.message is not None:
            await interaction.response.edit_message(content=text)
        else:
            await interaction.response.send_message(text)


class Panel(ui.View):
    def __init__(self) -> None:
        super().__init__(timeout=None)

    @ui.button(label="Form", custom_id="panel:form")
    async def form(self, interaction: discord.Interaction, button: ui.Button[Any]) -> None:
        await interaction.response.send_modal(Form())

    @ui.button(label="Later", custom_id="panel:later")
    async def later(self, interaction: discord.Interaction, button: ui.Button[Any]) -> None:
        await interaction.response.defer()
        await interaction.edit_original_response(content="changed later")

    @ui.button(label="Off", custom_id="panel:off", disabled=True)
    async def off(self, interaction: discord.Interaction, button: ui.Button[Any]) -> None:
        raise AssertionError("a disabled button cannot be pressed")

    @ui.select(placeholder="Unit", custom_id="panel:unit", options=[discord.SelectOption(label="grams", value="g")])
    async def unit(self, interaction: discord.Interaction, select: ui.Select[Any]) -> None:
        await interaction.response.edit_message(content=f"unit {select.values[0]}")

    @ui.select(cls=ui.RoleSelect, custom_id="panel:role")
    async def role(self, interaction: discord.Interaction, select: ui.RoleSelect[Any]) -> None:
        await interaction.response.send_message(f"role {select.values[0].name}", ephemeral=True)


class Layout(ui.LayoutView):
    def __init__(self) -> None:
        super().__init__()
        box: ui.Container[Any] = ui.Container(ui.TextDisplay("# 46.5 g"), ui.Separator())
        box.add_item(ui.Section(ui.TextDisplay("of the wax"), accessory=ui.Button(label="Other", custom_id="other")))
        box.add_item(ui.File("attachment://table.csv"))
        self.add_item(box)


class SampleBot(discord.Client):
    """`unhandled` collects what handlers raised; `heard` the server events."""

    def __init__(self) -> None:
        intents = discord.Intents(guilds=True, guild_messages=True, dm_messages=True)
        super().__init__(intents=intents, allowed_mentions=discord.AllowedMentions.none())
        self.tree = app_commands.CommandTree(self)
        self.unhandled: list[BaseException] = []
        self.heard: list[str] = []
        self.runs = 0
        _add_commands(self)

    async def setup_hook(self) -> None:
        self.add_view(Panel())

    async def on_guild_join(self, guild: discord.Guild) -> None:
        self.heard.append(f"join {guild.name}")

    async def on_guild_remove(self, guild: discord.Guild) -> None:
        self.heard.append(f"leave {guild.name}")

    async def on_raw_message_delete(self, event: discord.RawMessageDeleteEvent) -> None:
        self.heard.append(f"deleted {event.message_id}")

    async def on_message(self, message: discord.Message) -> None:
        self.heard.append(f"message {message.author.name}: {message.content}")
        if not message.author.bot and message.content:
            await message.reply(f"read: {message.clean_content}")


def _add_commands(bot: SampleBot) -> None:
    tree = bot.tree

    @tree.error
    async def on_error(interaction: discord.Interaction, error: app_commands.AppCommandError) -> None:
        bot.unhandled.append(getattr(error, "original", error))

    @tree.command(description="Adds to what it was told")
    @app_commands.choices(unit=[app_commands.Choice(name="grams", value="g")])
    async def plain(
        interaction: discord.Interaction, text: app_commands.Range[str, 1, 20], unit: str = "g", number: int = 0
    ) -> None:
        bot.runs += 1
        place = interaction.guild_id or "nowhere"
        await interaction.response.send_message(f"{text} {unit} {number} {interaction.locale} {place}")

    @tree.command(description="Defers, edits, and follows up")
    async def slow(interaction: discord.Interaction, wait: float = 0.0) -> None:
        await interaction.response.defer(ephemeral=True, thinking=True)
        await asyncio.sleep(wait)
        await interaction.followup.send("first")
        await interaction.edit_original_response(content="first, corrected")
        await interaction.followup.send("second", ephemeral=True)

    @tree.command(description="Sends a file back")
    async def file(interaction: discord.Interaction, given: discord.Attachment) -> None:
        data = await given.read()
        answer = discord.File(io.BytesIO(data.upper()), "table.csv", description="the weigh-out table")
        await interaction.response.send_message("the table", file=answer)

    @tree.command(description="Second generation of components")
    async def layout(interaction: discord.Interaction) -> None:
        table = discord.File(io.BytesIO(b"a,b"), "table.csv")
        await interaction.response.send_message(view=Layout(), file=table)

    @tree.command(description="A panel of controls")
    async def panel(interaction: discord.Interaction) -> None:
        view = Panel()
        view.stop()
        await interaction.response.send_message("the panel", view=view)

    @tree.command(description="A form")
    async def form(interaction: discord.Interaction) -> None:
        await interaction.response.send_modal(Form())

    @tree.command(description="Says too much")
    async def long(interaction: discord.Interaction, size: int) -> None:
        await interaction.response.send_message("x" * size)

    @tree.command(description="Could ping")
    async def loud(interaction: discord.Interaction) -> None:
        await interaction.response.send_message("hello", allowed_mentions=discord.AllowedMentions(everyone=True))

    @tree.command(description="Writes to the channel, and to the asker")
    async def post(interaction: discord.Interaction, directly: bool = False) -> None:
        place = interaction.user if directly else interaction.channel
        assert place is not None
        try:
            await place.send("posted")  # type: ignore[union-attr]
        except discord.Forbidden as error:
            await interaction.response.send_message(f"may not: {error.code}")
        else:
            await interaction.response.send_message("done")

    @tree.command(description="Answers, then changes it when the message may be gone")
    async def changes(interaction: discord.Interaction, wait: float) -> None:
        await interaction.response.send_message("before")
        await asyncio.sleep(wait)
        await interaction.edit_original_response(content="after")

    @tree.context_menu(name="Read it")
    async def read_it(interaction: discord.Interaction, message: discord.Message) -> None:
        await interaction.response.send_message(f"it says {message.content}")

    group = app_commands.Group(name="shelf", description="Recorded materials")

    @group.command(description="Find one")
    async def find(interaction: discord.Interaction, name: str) -> None:
        await interaction.response.send_message(f"found {name}")

    @find.autocomplete("name")
    async def names(interaction: discord.Interaction, current: str) -> list[app_commands.Choice[str]]:
        many = 26 if current == "many" else 2
        return [app_commands.Choice(name=f"{current} {n}", value=f"{current}{n}") for n in range(many)]

    tree.add_command(group)
