"""The stand-in proved with a real discord.py client: every way to ask, to answer, and to fail."""

from __future__ import annotations

import asyncio
from collections.abc import AsyncIterator

import discord
import pytest
from discord import app_commands

from tests.standin import faults
from tests.standin.asking import ImpossibleError
from tests.standin.gateway import GUILD_MESSAGES, GUILDS, NotConnectedError
from tests.standin.reply import NotAnsweredError
from tests.standin.run import running
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn
from tests.standin.world import MEMBER, SEND_MESSAGES, Channel, Person, Role, Server, Upload


@pytest.fixture
async def bot(standin: StandIn) -> AsyncIterator[SampleBot]:
    async with running(SampleBot(), standin) as client:
        await client.tree.sync()
        yield client


class TestAsking:
    async def test_sync_registers_every_command_with_an_id(self, standin: StandIn, bot: SampleBot) -> None:
        names = {command["name"] for command in standin.commands}
        assert names >= {"plain", "shelf", "Read it"}
        assert all(command["id"].isdigit() for command in standin.commands)
        ids = {command["name"]: command["id"] for command in standin.commands}
        await bot.tree.sync()
        assert ids == {command["name"]: command["id"] for command in standin.commands}

    async def test_slash_carries_options_locale_and_place(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("plain", {"text": "450", "unit": "g", "number": 7}, locale="de")
        assert reply.text == f"450 g 7 de {standin.home.id}"
        assert reply.statuses == [200]
        assert not reply.ephemeral
        assert reply.acknowledged_after is not None
        assert 0 < reply.acknowledged_after < 3

    async def test_subcommand_and_its_completion(self, standin: StandIn, bot: SampleBot) -> None:
        assert (await standin.slash("shelf find", {"name": "soy"})).text == "found soy"
        offered = await standin.autocomplete("shelf find", {"name": "so"}, "name")
        assert [choice["value"] for choice in offered.choices] == ["so0", "so1"]

    async def test_direct_conversation_and_user_installation(self, standin: StandIn, bot: SampleBot) -> None:
        assert (await standin.slash("plain", {"text": "a"}, guild=None)).text == "a g 0 en-US nowhere"
        foreign = Server("never joined")
        reply = await standin.slash("plain", {"text": "a"}, guild=foreign, install="user")
        assert reply.text == f"a g 0 en-US {foreign.id}"
        assert bot.get_guild(foreign.id) is None
        private = await standin.slash("plain", {"text": "b"}, guild=None, context=2, install="user")
        assert private.text == "b g 0 en-US nowhere"

    async def test_message_menu_reads_the_message(self, standin: StandIn, bot: SampleBot) -> None:
        assert (await standin.message_menu("Read it", "450 g")).text == "it says 450 g"

    async def test_what_no_client_could_send_is_refused(self, standin: StandIn, bot: SampleBot) -> None:
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

    async def test_mention_is_read_and_answered(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.message("450 g at 8 %", mention=True)
        assert reply.text == "read: @Scale Bot 450 g at 8 %"
        assert reply.message.payload["referenced_message"]["id"] == str(reply.id)

    async def test_direct_message_is_read_and_answered(self, standin: StandIn, bot: SampleBot) -> None:
        assert (await standin.message("450 g", dm=True)).text == "read: 450 g"

    async def test_other_messages_arrive_without_their_text(self, standin: StandIn, bot: SampleBot) -> None:
        await standin.message("not for the bot", expect="silence")
        assert "message asker: " in bot.heard

    async def test_the_bot_hears_its_own_messages(self, standin: StandIn, bot: SampleBot) -> None:
        await standin.message("450 g", dm=True)
        await asyncio.sleep(0.05)
        assert "message scale bot: read: 450 g" in bot.heard


class TestControls:
    async def test_form_round_trip_from_a_command(self, standin: StandIn, bot: SampleBot) -> None:
        opened = await standin.slash("form")
        assert opened.modal["title"] == "Density"
        reply = await standin.submit(opened, {"Material": "soy", "Kind": "oil"})
        assert reply.text == "recorded soy / o / by scale"

    async def test_form_round_trip_from_a_button(self, standin: StandIn, bot: SampleBot) -> None:
        panel = await standin.slash("panel")
        opened = await standin.press("Form", panel)
        reply = await standin.submit(opened.modal["custom_id"], {"name": "soy", "kind": "w", "note": "x"})
        assert reply.message is panel.message
        assert panel.text.startswith("recorded soy / w / x")

    async def test_form_checks_as_the_client_would(self, standin: StandIn, bot: SampleBot) -> None:
        opened = await standin.slash("form")
        for values in ({}, {"Material": "x" * 41, "Kind": "oil"}, {"Material": "a", "Kind": "tea"}, {"Colour": "a"}):
            with pytest.raises(ImpossibleError):
                await standin.submit(opened, values)

    async def test_select_edits_the_message(self, standin: StandIn, bot: SampleBot) -> None:
        panel = await standin.slash("panel")
        reply = await standin.select("Unit", ["grams"], panel)
        assert reply.message is panel.message
        assert panel.message.content == "unit g"

    async def test_role_select_is_resolved(self, standin: StandIn, bot: SampleBot) -> None:
        panel = await standin.slash("panel")
        reply = await standin.select("panel:role", [Role("teachers")], panel)
        assert reply.text == "role teachers"
        assert reply.ephemeral

    async def test_deferred_update_then_edit(self, standin: StandIn, bot: SampleBot) -> None:
        panel = await standin.slash("panel")
        reply = await standin.press("Later", panel)
        assert reply.type == 6
        assert panel.message.content == "changed later"

    async def test_disabled_and_missing_buttons(self, standin: StandIn, bot: SampleBot) -> None:
        panel = await standin.slash("panel")
        with pytest.raises(ImpossibleError):
            await standin.press("Off", panel)
        with pytest.raises(KeyError):
            await standin.press("Nowhere", panel)

    async def test_button_works_after_a_restart(self, standin: StandIn) -> None:
        async with running(SampleBot(), standin) as client:
            await client.tree.sync()
            panel = await standin.slash("panel")
        with pytest.raises(NotConnectedError):
            await standin.press("Later", panel)
        async with running(SampleBot(), standin):
            await standin.press("Later", panel)
        assert panel.message.content == "changed later"

    async def test_deferral_decides_visibility_and_follow_ups_arrive(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("slow")
        await reply.more(2)
        assert reply.type == 5
        assert reply.edits == 1
        assert [message.content for message in reply.messages] == ["first, corrected", "second"]
        # the first follow-up fills the waiting message, so it stays private although it did not ask to be
        assert [message.ephemeral for message in reply.messages] == [True, True]

    async def test_files_both_ways(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("file", {"given": Upload("in.csv", b"wax,oil")})
        assert reply.files == {"table.csv": b"WAX,OIL"}
        assert reply.message.payload["attachments"][0]["description"] == "the weigh-out table"

    async def test_second_generation_of_components(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("layout")
        assert "# 46.5 g" in reply.text
        assert [button["label"] for button in reply.message.buttons] == ["Other"]
        file = next(c for c in reply.message.components if c["type"] == 13)
        assert file["file"]["url"].startswith(standin.base)


class TestFaults:
    async def test_429_with_via_is_waited_for(self, standin: StandIn, bot: SampleBot) -> None:
        standin.fault("callback", faults.too_many(0.05))
        reply = await standin.slash("plain", {"text": "a"})
        assert reply.statuses == [429, 200]

    async def test_429_without_via_is_raised(self, standin: StandIn, bot: SampleBot) -> None:
        standin.fault("callback", faults.too_many(via=False))
        await standin.slash("plain", {"text": "a"}, expect="silence")
        assert [getattr(error, "status", None) for error in bot.unhandled] == [429]

    async def test_500_is_tried_again(self, standin: StandIn, bot: SampleBot) -> None:
        standin.fault("callback", faults.broken())
        reply = await standin.slash("plain", {"text": "a"})
        assert reply.statuses == [500, 200]
        assert reply.answered_after is not None
        assert reply.answered_after >= 1

    async def test_unknown_interaction(self, standin: StandIn, bot: SampleBot) -> None:
        standin.fault("callback", faults.unknown_interaction())
        reply = await standin.slash("plain", {"text": "a"}, expect="silence")
        assert [call.refused for call in reply.calls] == [10062]
        assert isinstance(bot.unhandled[0], discord.NotFound)

    async def test_a_late_callback_is_unknown(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("plain", {"text": "a"}, deadline=0.0, expect="silence")
        assert [call.refused for call in reply.calls] == [10062]

    @pytest.mark.parametrize("taken", [False, True])
    async def test_connection_reset(self, standin: StandIn, bot: SampleBot, taken: bool) -> None:
        standin.fault("callback", faults.cut(taken))
        reply = await standin.slash("plain", {"text": "a"}, expect="anything")
        assert reply.statuses == [0]
        assert reply.answered is taken
        assert isinstance(bot.unhandled[0], OSError)
        assert bot.unhandled[0].errno == 104  # Linux: connection reset by peer

    async def test_slow_answer(self, standin: StandIn, bot: SampleBot) -> None:
        standin.fault("callback", faults.slow(0.2))
        reply = await standin.slash("plain", {"text": "a"})
        assert reply.answered_after is not None
        assert reply.answered_after >= 0.2

    async def test_the_same_interaction_twice(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("plain", {"text": "a"}, deliveries=2)
        await reply.until(lambda r: len(r.calls) == 2)
        assert bot.runs == 2
        assert sorted(call.refused for call in reply.calls) == [0, 40060]
        assert len(reply.messages) == 1

    async def test_expired_token(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("changes", {"wait": 0.1})
        standin.expire(reply)
        await reply.until(lambda r: len(r.calls) == 2)
        assert reply.calls[1].refused == 50027
        assert reply.text == "before"

    async def test_deleted_answer(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("changes", {"wait": 0.1})
        await standin.delete(reply.message)
        await reply.until(lambda r: len(r.calls) == 2)
        assert reply.calls[1].refused == 10008
        assert f"deleted {reply.message.id}" in bot.heard

    async def test_missing_permission_in_a_channel(self, standin: StandIn, bot: SampleBot) -> None:
        assert (await standin.slash("post")).text == "done"
        standin.deny(standin.home.channels[0])
        assert (await standin.slash("post")).text == "may not: 50013"

    async def test_closed_direct_messages(self, standin: StandIn, bot: SampleBot) -> None:
        shy = Person("shy")
        assert (await standin.slash("post", {"directly": True}, user=shy)).text == "done"
        standin.deny(standin.direct_channel(shy), 50007)
        assert (await standin.slash("post", {"directly": True}, user=shy)).text == "may not: 50007"

    async def test_posting_where_only_a_person_installed_the_bot(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("post", guild=Server("never joined"), install="user")
        assert reply.text == "may not: 50001"

    async def test_who_may_not_speak_is_answered_privately(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.slash("plain", {"text": "a"}, permissions=MEMBER & ~SEND_MESSAGES)
        assert reply.ephemeral

    async def test_silence_is_reported(self, standin: StandIn, bot: SampleBot) -> None:
        with pytest.raises(NotAnsweredError):
            await standin.message("no one listens", wait=0.1)
        with pytest.raises(NotAnsweredError):
            await standin.slash("plain", {"text": "a"}, expect="silence")


class TestGateway:
    async def test_op_7_resumes_and_nothing_is_lost(self, standin: StandIn, bot: SampleBot) -> None:
        await standin.reconnect()
        assert len(standin.gateway.identifies) == 1
        assert standin.gateway.resumes == 1
        assert (await standin.slash("plain", {"text": "a"})).answered

    async def test_drop_resumes_and_what_came_meanwhile_is_delivered(self, standin: StandIn, bot: SampleBot) -> None:
        standin.gateway.drop()
        reply = await standin.slash("plain", {"text": "a"})
        assert reply.answered
        assert standin.gateway.resumes == 1

    async def test_op_9_resumable(self, standin: StandIn, bot: SampleBot) -> None:
        await standin.invalidate(resumable=True)
        assert (len(standin.gateway.identifies), standin.gateway.resumes) == (1, 1)

    async def test_op_9_identifies_anew(self, standin: StandIn, bot: SampleBot) -> None:
        await standin.invalidate(resumable=False)
        assert (len(standin.gateway.identifies), standin.gateway.resumes) == (2, 0)
        assert (await standin.slash("plain", {"text": "a"})).answered

    async def test_joining_and_leaving(self, standin: StandIn, bot: SampleBot) -> None:
        other = Server("other")
        await bot.wait_until_ready()
        await standin.join(other)
        await standin.outage(standin.home)
        await standin.leave(other)
        await asyncio.sleep(0.05)
        assert bot.heard == ["join other", "leave other"]

    async def test_wrong_token_and_privileged_intents(self, standin: StandIn) -> None:
        with pytest.raises(discord.LoginFailure):
            async with running(SampleBot(), standin, token="wrong"):
                pass
        client = discord.Client(intents=discord.Intents(guilds=True, message_content=True))
        with pytest.raises(discord.PrivilegedIntentsRequired):
            async with running(client, standin):
                pass

    async def test_shards_get_their_own_servers(self) -> None:
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

    async def test_intents_decide_which_events_come(self, standin: StandIn) -> None:
        client = discord.Client(intents=discord.Intents.none())
        async with running(client, standin):
            with pytest.raises(NotConnectedError):
                await standin.message("a", mention=True)
            (session,) = standin.gateway.sessions.values()
            assert not session.wants(GUILD_MESSAGES)
            assert not session.wants(GUILDS)


NO_MENTIONS = discord.AllowedMentions.none()


class TestLimitsAreEnforced:
    async def test_a_message_over_its_limit_is_refused_and_noted(self, standin: StandIn, bot: SampleBot) -> None:
        await standin.slash("long", {"size": 2000})
        assert standin.violations == []
        reply = await standin.slash("long", {"size": 2001}, expect="silence")
        assert [call.refused for call in reply.calls] == [50035]
        assert "content" in str(bot.unhandled[0])
        (noted,) = standin.take_violations()
        assert noted.endswith("data.content: 2001 characters, at most 2000")

    async def test_too_many_completions(self, standin: StandIn, bot: SampleBot) -> None:
        reply = await standin.autocomplete("shelf find", {"name": "many"}, "name", expect="silence")
        assert [call.refused for call in reply.calls] == [50035]
        assert len(standin.take_violations()) == 1

    async def test_a_bad_command_fails_the_sync(self, standin: StandIn, bot: SampleBot) -> None:
        @bot.tree.command(name="wordy", description="x" * 101)
        async def wordy(interaction: discord.Interaction) -> None: ...

        with pytest.raises(app_commands.CommandSyncFailure, match="wordy"):
            await bot.tree.sync()
        assert any("101 characters" in noted for noted in standin.take_violations())

    async def test_a_message_that_could_ping_is_noted_but_sent(self, standin: StandIn, bot: SampleBot) -> None:
        assert (await standin.slash("loud")).text == "hello"
        assert len(standin.take_violations()) == 1

    async def test_leaving_with_a_broken_limit_fails(self) -> None:
        with pytest.raises(AssertionError, match="2001 characters"):
            async with StandIn() as world, running(SampleBot(), world):
                await world.slash("long", {"size": 2001}, expect="silence")

    async def test_an_unknown_route_is_noted(self, standin: StandIn, bot: SampleBot) -> None:
        with pytest.raises(discord.NotFound):
            await bot.fetch_template("abc")
        assert "no such route" in standin.take_violations()[0]

    async def test_follow_ups_of_a_user_app_are_counted(self, standin: StandIn, bot: SampleBot) -> None:
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
