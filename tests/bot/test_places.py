"""Servers, direct messages, user-installed use: who sees what, and that nothing needs a cached server."""

from __future__ import annotations

import asyncio
from pathlib import Path
from typing import Any

import pytest

from bot.client import SteelyardClient
from bot.hearing import is_for
from tests.bot.bots import steelyard
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, MEMBER, SEND_MESSAGES, Person, Server

OIL = {"material": "rose oil", "density": "0.93 g/ml"}
ASKED = {"volume": "30 ml", "material": "rose oil"}


async def test_two_servers_never_see_each_other(database: Path) -> None:
    first, second = Server("first"), Server("second")
    person = Person("member of both")
    async with StandIn(servers=(first, second)) as standin, steelyard(standin, database):
        await standin.slash("record_density", OIL, guild=first, user=person, permissions=MANAGER)
        assert "27.9 g" in (await standin.slash("volume", ASKED, guild=first, user=person)).text
        for where in (second, None):
            assert "27.9 g" not in (await standin.slash("volume", ASKED, guild=where, user=person)).text
            shelf = await standin.slash("shelf", guild=where, user=person)
            assert "rose" not in shelf.text
            offered = await standin.autocomplete("volume", {"material": "rose"}, "material", guild=where, user=person)
            assert "rose oil" not in [choice["value"] for choice in offered.choices]
        offered = await standin.autocomplete("volume", {"material": "rose"}, "material", guild=first, user=person)
        assert "rose oil" in [choice["value"] for choice in offered.choices]
        # nor does a question that was asked in the first find its way by a button of the second
        asked = await standin.slash("volume", ASKED, guild=second, user=person)
        again = await standin.submit(await standin.press("Fill it in", asked, user=person), {"density": "0.9 g/ml"})
        assert "27 g" in again.text.splitlines()[0]


async def test_a_direct_message_has_the_persons_own_shelf(standin: StandIn, client: SteelyardClient) -> None:
    person = Person("maker")
    await standin.slash("record_density", OIL, guild=None, user=person)
    assert "27.9 g" in (await standin.slash("volume", ASKED, guild=None, user=person)).text
    assert "27.9 g" not in (await standin.slash("volume", ASKED, guild=None, user=Person("other"))).text
    assert "27.9 g" not in (await standin.slash("volume", ASKED, user=person)).text


async def test_an_own_app_in_a_server_that_never_joined(standin: StandIn, client: SteelyardClient) -> None:
    away = Server("never joined")
    person = Person("guest")
    answer = await standin.slash("load", {"wax": "450g", "load": "8%"}, guild=away, install="user", user=person)
    assert client.get_guild(away.id) is None
    assert answer.text.startswith("**36 g")
    pressed = await standin.press("Ounces first", answer, user=person)
    assert pressed.text.startswith("**1.27 oz")
    # what is recorded there is the person's own
    await standin.slash("record_density", OIL, guild=away, install="user", user=person)
    assert "27.9 g" in (await standin.slash("volume", ASKED, guild=None, user=person)).text
    assert client.desk.library is not None
    assert client.desk.library.servers() == []


async def test_a_group_conversation(standin: StandIn, client: SteelyardClient) -> None:
    answer = await standin.slash("load", {"wax": "450g", "load": "8%"}, guild=None, context=2, install="user")
    assert answer.text.startswith("**36 g")
    assert (await standin.press("Ounces first", answer)).text.startswith("**1.27 oz")


async def test_who_may_not_write_is_answered_privately(standin: StandIn, client: SteelyardClient) -> None:
    answer = await standin.slash("load", {"wax": "450g", "load": "8%"}, permissions=MEMBER & ~SEND_MESSAGES)
    assert answer.ephemeral
    assert answer.text.startswith("**36 g")


@pytest.mark.parametrize("where", ["mention", "direct"])
async def test_plain_words_with_a_follow_up(standin: StandIn, client: SteelyardClient, where: str) -> None:
    how = {"mention": True} if where == "mention" else {"dm": True}
    person = Person("maker")
    first = await standin.message("450 g wax at 8 %, how much fragrance?", user=person, **how)  # type: ignore[arg-type]
    assert first.text.startswith("**36 g")
    assert first.message.payload["referenced_message"]["id"] == str(first.id)
    then = await standin.message("and at 10 %?", user=person, **how)  # type: ignore[arg-type]
    assert then.text.startswith("**45 g")
    # the buttons of such an answer are the writer's own
    assert (await standin.press("Ounces first", then, user=person)).text.startswith("**1.59 oz")


async def test_a_follow_up_is_of_one_person_in_one_place(standin: StandIn, client: SteelyardClient) -> None:
    await standin.slash("ask", {"question": "450 g wax at 8 %, how much fragrance?"})
    assert not (await standin.slash("ask", {"question": "and at 10 %?"}, user=Person("other"))).text.startswith(
        "**45 g"
    )
    assert not (await standin.slash("ask", {"question": "and at 10 %?"}, guild=None)).text.startswith("**45 g")
    assert (await standin.slash("ask", {"question": "and at 10 %?"})).text.startswith("**45 g")


async def test_a_follow_up_after_a_button(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", {"wax": "450g", "load": "8%"})
    await standin.press("As % of the total", first)
    # 450 × 10 ÷ 90 = 50
    assert (await standin.slash("ask", {"question": "and at 10 %?"})).text.startswith("**50 g")


async def test_a_question_in_somebodys_message(standin: StandIn, client: SteelyardClient) -> None:
    message = standin.written("I have 3 lb of soy @everyone and want **9%** fragrance", user=Person("beginner"))
    answer = await standin.message_menu("Work out by weight", message, user=Person("teacher"))
    assert answer.text.startswith("**4.32 oz (122 g)")  # 48 × 9 ÷ 100
    assert "I have 3 lb of soy" in answer.text
    assert "@everyone" not in answer.text
    assert not answer.ephemeral


async def test_a_message_without_a_question_is_answered_privately(standin: StandIn, client: SteelyardClient) -> None:
    answer = await standin.message_menu("Work out by weight", standin.written("good morning all"))
    assert answer.ephemeral


async def test_messages_not_for_the_bot_are_left_alone(standin: StandIn, client: SteelyardClient) -> None:
    await standin.message("450 g at 8 %", expect="silence")


GUILD = {"guild_id": "1", "author": {"id": "7"}, "mentions": []}


@pytest.mark.parametrize(
    ("data", "heard"),
    [
        (GUILD, False),
        ({**GUILD, "mentions": [{"id": "8"}]}, False),
        ({**GUILD, "mentions": [{"id": "8"}, {"id": "9"}]}, True),
        ({"author": {"id": "7"}, "mentions": []}, True),
        ({"author": {"id": "9", "bot": True}, "mentions": []}, False),
        ({**GUILD, "mentions": [{"id": "9"}], "webhook_id": "4"}, False),
    ],
)
def test_which_messages_are_heard(data: dict[str, Any], heard: bool) -> None:
    assert is_for(data, "9") is heard


@pytest.mark.parametrize(("text", "answered"), [("and at 10 %?", True), ("thanks a lot!", False)])
async def test_a_reply_to_the_bot_is_answered_where_it_asks_something(
    standin: StandIn, client: SteelyardClient, text: str, answered: bool
) -> None:
    await standin.message("450 g wax at 8 %, how much fragrance?", mention=True)
    reply = standin.written(text)
    reply.payload["mentions"] = [standin.bot.json()]  # what a reply with its ping on looks like
    before = len(standin.calls)
    await standin.gateway.dispatch("MESSAGE_CREATE", reply.payload, standin.home.id)
    await asyncio.sleep(0.2)
    sent = [call for call in standin.calls[before:] if call.method == "POST"]
    assert len(sent) == int(answered)
    if answered:
        assert "45 g" in sent[0].body["embeds"][0]["description"]
