"""Resuming, identifying, joining, shards and intents against the stand-in."""

from __future__ import annotations

import asyncio

import discord
import pytest
from discord import app_commands

from tests.standin.gateway import GUILD_MESSAGES, GUILDS, NotConnectedError
from tests.standin.run import running
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn
from tests.standin.world import Server

NO_MENTIONS = discord.AllowedMentions.none()


async def test_op_7_resumes_and_nothing_is_lost(standin: StandIn, bot: SampleBot) -> None:
    await standin.reconnect()
    assert len(standin.gateway.identifies) == 1
    assert standin.gateway.resumes == 1
    assert (await standin.slash("plain", {"text": "a"})).answered


async def test_drop_resumes_and_what_came_meanwhile_is_delivered(standin: StandIn, bot: SampleBot) -> None:
    standin.gateway.drop()
    reply = await standin.slash("plain", {"text": "a"})
    assert reply.answered
    assert standin.gateway.resumes == 1


async def test_op_9_resumable(standin: StandIn, bot: SampleBot) -> None:
    await standin.invalidate(resumable=True)
    assert (len(standin.gateway.identifies), standin.gateway.resumes) == (1, 1)


async def test_op_9_identifies_anew(standin: StandIn, bot: SampleBot) -> None:
    await standin.invalidate(resumable=False)
    assert (len(standin.gateway.identifies), standin.gateway.resumes) == (2, 0)
    assert (await standin.slash("plain", {"text": "a"})).answered


async def test_joining_and_leaving(standin: StandIn, bot: SampleBot) -> None:
    other = Server("other")
    await bot.wait_until_ready()
    await standin.join(other)
    await standin.outage(standin.home)
    await standin.leave(other)
    await asyncio.sleep(0.05)
    assert bot.heard == ["join other", "leave other"]


async def test_wrong_token_and_privileged_intents(standin: StandIn) -> None:
    with pytest.raises(discord.LoginFailure):
        async with running(SampleBot(), standin, token="wrong"):
            pass
    client = discord.Client(intents=discord.Intents(guilds=True, message_content=True))
    with pytest.raises(discord.PrivilegedIntentsRequired):
        async with running(client, standin):
            pass


async def test_shards_get_their_own_servers() -> None:
    apart = tuple(Server(f"server {n}", id=n << 22) for n in (4, 5))
    async with StandIn(servers=apart) as world:
        client = discord.AutoShardedClient(intents=discord.Intents(guilds=True), shard_count=2)
        tree = app_commands.CommandTree(client)

        @tree.command(description="Which shard")
        async def shard(interaction: discord.Interaction) -> None:
            assert interaction.guild is not None
            await interaction.response.send_message(f"{interaction.guild.name}", allowed_mentions=NO_MENTIONS)

        async with running(client, world):
            await world.ready(sessions=2)
            assert [data["shard"] for data in world.gateway.identifies] == [[0, 2], [1, 2]]
            for server in apart:
                assert (await world.slash("shard", guild=server)).text == server.name
            sequence = {s.shard: s.sequence for s in world.gateway.sessions.values()}
            assert sequence == {0: 3, 1: 3}  # READY, GUILD_CREATE and one interaction each


async def test_intents_decide_which_events_come(standin: StandIn) -> None:
    client = discord.Client(intents=discord.Intents.none())
    async with running(client, standin):
        with pytest.raises(NotConnectedError):
            await standin.message("a", mention=True)
        (session,) = standin.gateway.sessions.values()
        assert not session.wants(GUILD_MESSAGES)
        assert not session.wants(GUILDS)
