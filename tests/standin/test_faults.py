"""Every way the API can fail, and what discord.py makes of it."""

from __future__ import annotations

import discord
import pytest

from tests.standin import faults
from tests.standin.reply import NotAnsweredError
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn
from tests.standin.world import MEMBER, SEND_MESSAGES, Person, Server


async def test_429_with_via_is_waited_for(standin: StandIn, bot: SampleBot) -> None:
    standin.fault("callback", faults.too_many(0.05))
    reply = await standin.slash("plain", {"text": "a"})
    assert reply.statuses == [429, 200]


async def test_429_without_via_is_raised(standin: StandIn, bot: SampleBot) -> None:
    standin.fault("callback", faults.too_many(via=False))
    await standin.slash("plain", {"text": "a"}, expect="silence")
    assert [getattr(error, "status", None) for error in bot.unhandled] == [429]


async def test_500_is_tried_again(standin: StandIn, bot: SampleBot) -> None:
    standin.fault("callback", faults.broken())
    reply = await standin.slash("plain", {"text": "a"})
    assert reply.statuses == [500, 200]
    assert reply.answered_after is not None
    assert reply.answered_after >= 1


async def test_unknown_interaction(standin: StandIn, bot: SampleBot) -> None:
    standin.fault("callback", faults.unknown_interaction())
    reply = await standin.slash("plain", {"text": "a"}, expect="silence")
    assert [call.refused for call in reply.calls] == [10062]
    assert isinstance(bot.unhandled[0], discord.NotFound)


async def test_a_late_callback_is_unknown(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("plain", {"text": "a"}, deadline=0.0, expect="silence")
    assert [call.refused for call in reply.calls] == [10062]


@pytest.mark.parametrize("taken", [False, True])
async def test_connection_reset(standin: StandIn, bot: SampleBot, taken: bool) -> None:
    standin.fault("callback", faults.cut(taken))
    reply = await standin.slash("plain", {"text": "a"}, expect="anything")
    assert reply.statuses == [0]
    assert reply.answered is taken
    assert isinstance(bot.unhandled[0], OSError)
    assert bot.unhandled[0].errno == 104  # Linux: connection reset by peer


async def test_slow_answer(standin: StandIn, bot: SampleBot) -> None:
    standin.fault("callback", faults.slow(0.2))
    reply = await standin.slash("plain", {"text": "a"})
    assert reply.answered_after is not None
    assert reply.answered_after >= 0.2


async def test_the_same_interaction_twice(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("plain", {"text": "a"}, deliveries=2)
    await reply.until(lambda r: len(r.calls) == 2)
    assert bot.runs == 2
    assert sorted(call.refused for call in reply.calls) == [0, 40060]
    assert len(reply.messages) == 1


async def test_expired_token(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("changes", {"wait": 0.1})
    standin.expire(reply)
    await reply.until(lambda r: len(r.calls) == 2)
    assert reply.calls[1].refused == 50027
    assert reply.text == "before"


async def test_deleted_answer(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("changes", {"wait": 0.1})
    await standin.delete(reply.message)
    await reply.until(lambda r: len(r.calls) == 2)
    assert reply.calls[1].refused == 10008
    assert f"deleted {reply.message.id}" in bot.heard


async def test_missing_permission_in_a_channel(standin: StandIn, bot: SampleBot) -> None:
    assert (await standin.slash("post")).text == "done"
    standin.deny(standin.home.channels[0])
    assert (await standin.slash("post")).text == "may not: 50013"


async def test_closed_direct_messages(standin: StandIn, bot: SampleBot) -> None:
    shy = Person("shy")
    assert (await standin.slash("post", {"directly": True}, user=shy)).text == "done"
    standin.deny(standin.direct_channel(shy), 50007)
    assert (await standin.slash("post", {"directly": True}, user=shy)).text == "may not: 50007"


async def test_posting_where_only_a_person_installed_the_bot(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("post", guild=Server("never joined"), install="user")
    assert reply.text == "may not: 50001"


async def test_who_may_not_speak_is_answered_privately(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("plain", {"text": "a"}, permissions=MEMBER & ~SEND_MESSAGES)
    assert reply.ephemeral


async def test_silence_is_reported(standin: StandIn, bot: SampleBot) -> None:
    with pytest.raises(NotAnsweredError):
        await standin.message("no one listens", wait=0.1)
    with pytest.raises(NotAnsweredError):
        await standin.slash("plain", {"text": "a"}, expect="silence")
