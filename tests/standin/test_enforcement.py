"""A payload that breaks a limit is refused, noted, and fails the test."""

from __future__ import annotations

import discord
import pytest
from discord import app_commands

from tests.standin.run import running
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn


async def test_a_message_over_its_limit_is_refused_and_noted(standin: StandIn, bot: SampleBot) -> None:
    await standin.slash("long", {"size": 2000})
    assert standin.violations == []
    reply = await standin.slash("long", {"size": 2001}, expect="silence")
    assert [call.refused for call in reply.calls] == [50035]
    assert "content" in str(bot.unhandled[0])
    (noted,) = standin.take_violations()
    assert noted.endswith("data.content: 2001 characters, at most 2000")


async def test_too_many_completions(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.autocomplete("shelf find", {"name": "many"}, "name", expect="silence")
    assert [call.refused for call in reply.calls] == [50035]
    assert len(standin.take_violations()) == 1


async def test_a_bad_command_fails_the_sync(standin: StandIn, bot: SampleBot) -> None:
    @bot.tree.command(name="wordy", description="x" * 101)
    async def wordy(interaction: discord.Interaction) -> None: ...

    with pytest.raises(app_commands.CommandSyncFailure, match="wordy"):
        await bot.tree.sync()
    assert any("101 characters" in noted for noted in standin.take_violations())


async def test_a_message_that_could_ping_is_noted_but_sent(standin: StandIn, bot: SampleBot) -> None:
    assert (await standin.slash("loud")).text == "hello"
    assert len(standin.take_violations()) == 1


async def test_leaving_with_a_broken_limit_fails() -> None:
    with pytest.raises(AssertionError, match="2001 characters"):
        async with StandIn() as world, running(SampleBot(), world):
            await world.slash("long", {"size": 2001}, expect="silence")


async def test_an_unknown_route_is_noted(standin: StandIn, bot: SampleBot) -> None:
    with pytest.raises(discord.NotFound):
        await bot.fetch_template("abc")
    assert "no such route" in standin.take_violations()[0]


async def test_follow_ups_of_a_user_app_are_counted(standin: StandIn, bot: SampleBot) -> None:
    @bot.tree.command(description="Talks on")
    async def talk(interaction: discord.Interaction) -> None:
        await interaction.response.send_message("0")
        for n in range(1, 7):
            await interaction.followup.send(str(n))

    await bot.tree.sync()
    mine = await standin.slash("talk", install="user")
    await mine.until(lambda r: len(r.calls) == 7)
    assert [call.refused for call in mine.calls] == [0] * 6 + [40094]
    ours = await standin.slash("talk")
    assert len((await ours.more(7)).messages) == 7
