"""Every way to ask a bot, proved with a real discord.py client."""

from __future__ import annotations

import asyncio

import discord
import pytest

from tests.standin.asking import ImpossibleError
from tests.standin.run import running
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn
from tests.standin.world import Channel, Server


async def test_sync_registers_every_command_with_an_id(standin: StandIn, bot: SampleBot) -> None:
    names = {command["name"] for command in standin.commands}
    assert names >= {"plain", "shelf", "Read it"}
    assert all(command["id"].isdigit() for command in standin.commands)
    ids = {command["name"]: command["id"] for command in standin.commands}
    await bot.tree.sync()
    assert ids == {command["name"]: command["id"] for command in standin.commands}


async def test_slash_carries_options_locale_and_place(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("plain", {"text": "450", "unit": "g", "number": 7}, locale="de")
    assert reply.text == f"450 g 7 de {standin.home.id}"
    assert reply.statuses == [200]
    assert not reply.ephemeral
    assert reply.acknowledged_after is not None
    assert 0 < reply.acknowledged_after < 3


async def test_subcommand_and_its_completion(standin: StandIn, bot: SampleBot) -> None:
    assert (await standin.slash("shelf find", {"name": "soy"})).text == "found soy"
    offered = await standin.autocomplete("shelf find", {"name": "so"}, "name")
    assert [choice["value"] for choice in offered.choices] == ["so0", "so1"]


async def test_direct_conversation_and_user_installation(standin: StandIn, bot: SampleBot) -> None:
    assert (await standin.slash("plain", {"text": "a"}, guild=None)).text == "a g 0 en-US nowhere"
    foreign = Server("never joined")
    reply = await standin.slash("plain", {"text": "a"}, guild=foreign, install="user")
    assert reply.text == f"a g 0 en-US {foreign.id}"
    assert bot.get_guild(foreign.id) is None
    private = await standin.slash("plain", {"text": "b"}, guild=None, context=2, install="user")
    assert private.text == "b g 0 en-US nowhere"


async def test_message_menu_reads_the_message(standin: StandIn, bot: SampleBot) -> None:
    assert (await standin.message_menu("Read it", "450 g")).text == "it says 450 g"


async def test_what_no_client_could_send_is_refused(standin: StandIn, bot: SampleBot) -> None:
    with pytest.raises(ImpossibleError, match="not registered"):
        await standin.slash("nothing")
    with pytest.raises(ImpossibleError, match="needs"):
        await standin.slash("plain", {})
    with pytest.raises(ImpossibleError, match="no option"):
        await standin.slash("plain", {"text": "a", "colour": "b"})
    with pytest.raises(ImpossibleError, match="choices"):
        await standin.slash("plain", {"text": "a", "unit": "oz"})
    with pytest.raises(ImpossibleError, match="characters"):
        await standin.slash("plain", {"text": "a" * 21})


async def test_mention_is_read_and_answered(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.message("450 g at 8 %", mention=True)
    assert reply.text == "read: @Scale Bot 450 g at 8 %"
    assert reply.message.payload["referenced_message"]["id"] == str(reply.id)


async def test_direct_message_is_read_and_answered(standin: StandIn, bot: SampleBot) -> None:
    assert (await standin.message("450 g", dm=True)).text == "read: 450 g"


async def test_other_messages_arrive_without_their_text(standin: StandIn, bot: SampleBot) -> None:
    await standin.message("not for the bot", expect="silence")
    assert "message asker: " in bot.heard


async def test_the_bot_hears_its_own_messages(standin: StandIn, bot: SampleBot) -> None:
    await standin.message("450 g", dm=True)
    await asyncio.sleep(0.05)
    assert "message scale bot: read: 450 g" in bot.heard


def test_addresses_are_restored() -> None:
    assert discord.http.Route.BASE == "https://discord.com/api/v10"
    assert str(discord.gateway.DiscordWebSocket.DEFAULT_GATEWAY) == "wss://gateway.discord.gg/"


async def test_two_servers_and_their_channels_are_apart() -> None:
    first, second = Server("first"), Server("second", channels=(Channel("a"), Channel("b")))
    async with StandIn(servers=(first, second)) as world, running(SampleBot(), world) as client:
        await client.tree.sync()
        assert (await world.slash("plain", {"text": "x"}, guild=second)).text.endswith(str(second.id))
        await world.slash("post", guild=second, channel=second.channels[1])
        posted = [m for m in world.ledger.messages.values() if m.content == "posted"]
        assert [m.channel_id for m in posted] == [second.channels[1].id]
