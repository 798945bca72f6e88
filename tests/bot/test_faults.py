"""What the API and the network do wrong: written once, told where that is possible, never silent, never a traceback."""

from __future__ import annotations

import asyncio
import logging
from pathlib import Path
from typing import Any

import pytest

from bot.client import SteelyardClient
from core.questions.load import LoadQuestion
from tests.bot.bots import steelyard
from tests.standin import faults
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, Person

POUND = {"wax": "450g", "load": "8%"}
OIL = {"material": "rose oil", "density": "0.93 g/ml"}


def measured(client: SteelyardClient, standin: StandIn) -> int:
    """How many densities the server's shelf has of the oil."""
    assert client.desk.library is not None
    with client.desk.library.reading() as db:
        return 0 if db is None else int(db.execute("SELECT count(*) FROM measurement").fetchone()[0])


async def test_recorded_once_though_delivered_twice(standin: StandIn, client: SteelyardClient) -> None:
    reply = await standin.slash("record_density", OIL, permissions=MANAGER, deliveries=2)
    await asyncio.sleep(0.1)
    assert "Recorded" in reply.text
    assert measured(client, standin) == 1
    assert len(reply.messages) == 1


async def test_recorded_once_though_delivered_again_to_the_next_run(standin: StandIn, database: Path) -> None:
    async with steelyard(standin, database) as client:
        reply = await standin.slash("record_density", OIL, permissions=MANAGER)
        assert measured(client, standin) == 1
    async with steelyard(standin, database) as client:
        await standin.gateway.dispatch("INTERACTION_CREATE", reply.asked, standin.home.id)
        await reply.until(lambda r: len(r.calls) >= 2)
        assert measured(client, standin) == 1


async def test_a_form_delivered_twice_is_recorded_once(standin: StandIn, client: SteelyardClient) -> None:
    opened = await standin.slash("form", {"which": "record_density"}, permissions=MANAGER)
    await standin.submit(opened, OIL, permissions=MANAGER, deliveries=2)
    await asyncio.sleep(0.1)
    assert measured(client, standin) == 1


async def test_a_message_delivered_twice_is_answered_once(standin: StandIn, client: SteelyardClient) -> None:
    reply = await standin.message("450 g wax at 8 %", mention=True, deliveries=2)
    await asyncio.sleep(0.1)
    assert len(reply.messages) == 1


async def test_saved_but_not_told(standin: StandIn, client: SteelyardClient, caplog: pytest.LogCaptureFixture) -> None:
    """An answer that comes too late (10062) is not taken back and not tried again and again."""
    caplog.set_level(logging.INFO)
    reply = await standin.slash("record_density", OIL, permissions=MANAGER, deadline=0.0, expect="silence")
    async with asyncio.timeout(5):
        while "reason=too_late" not in caplog.text:
            await asyncio.sleep(0.02)
    assert measured(client, standin) == 1
    assert [call.refused for call in reply.calls] == [10062]
    assert "reason=too_late" in caplog.text
    assert "Traceback" not in caplog.text


@pytest.mark.parametrize("taken", [True, False])
async def test_a_connection_that_breaks(standin: StandIn, client: SteelyardClient, taken: bool) -> None:
    standin.fault("callback", faults.cut(taken))
    reply = await standin.slash("record_density", OIL, permissions=MANAGER)
    await asyncio.sleep(0.1)
    assert "Recorded" in reply.text
    assert len(reply.messages) == 1
    assert measured(client, standin) == 1


async def test_a_server_error_is_tried_again(standin: StandIn, client: SteelyardClient) -> None:
    standin.fault("callback", faults.broken())
    reply = await standin.slash("load", POUND)
    assert reply.statuses == [500, 204]
    assert reply.text.startswith("**36 g")


async def test_too_many_requests_is_waited_for(standin: StandIn, client: SteelyardClient) -> None:
    standin.fault("callback", faults.too_many(0.05))
    assert (await standin.slash("load", POUND)).statuses == [429, 204]
    standin.fault("callback", faults.too_many(0.05))
    assert (await standin.press("Ounces first", await standin.slash("load", POUND))).text.startswith("**1.27 oz")


async def test_a_ban_by_the_edge_is_told_after_all(standin: StandIn, client: SteelyardClient) -> None:
    standin.fault("callback", faults.too_many(via=False))
    reply = await standin.slash("load", POUND)
    assert "went wrong on my side" in reply.text


async def test_no_right_to_write_in_a_channel(standin: StandIn, client: SteelyardClient) -> None:
    standin.deny(standin.home.channels[0])
    reply = await standin.message("450 g wax at 8 %", mention=True, expect="anything")
    assert all(call.refused == 50013 for call in reply.calls)
    # commands still work there: they need no right of the bot's
    assert (await standin.slash("load", POUND)).text.startswith("**36 g")


async def test_no_right_to_read_what_was_asked(standin: StandIn, client: SteelyardClient) -> None:
    standin.fault("message", faults.refusal(160002))
    reply = await standin.message("450 g wax at 8 %", mention=True)
    assert reply.text.startswith("**36 g")
    assert "message_reference" not in standin.calls[-1].body


async def test_no_right_to_embed_is_said(standin: StandIn, client: SteelyardClient) -> None:
    standin.fault("message", faults.refusal(50006))
    reply = await standin.message("450 g wax at 8 %", mention=True)
    assert "Embed Links" in reply.text


async def test_a_question_deleted_meanwhile_is_let_go(
    standin: StandIn, client: SteelyardClient, caplog: pytest.LogCaptureFixture
) -> None:
    caplog.set_level(logging.INFO)
    standin.fault("message", faults.refusal(50035))
    reply = await standin.message("450 g wax at 8 %", mention=True, expect="anything", wait=0.3)
    assert reply.messages == []
    assert "outcome=gone" in caplog.text
    assert "level=ERROR" not in caplog.text


async def test_an_expired_token_is_no_failure(
    standin: StandIn, client: SteelyardClient, caplog: pytest.LogCaptureFixture
) -> None:
    person = Person("other")
    copy = await standin.press("Ounces first", await standin.slash("load", POUND), user=person)
    standin.fault("followup", faults.refusal(50027))
    await standin.press("Post to the channel", copy, user=person, expect="anything")
    assert "reason=expired" in caplog.text
    assert "Traceback" not in caplog.text


@pytest.mark.parametrize("how", ["drop", "reconnect", "invalidate"])
async def test_the_gateway_breaks_and_comes_back(standin: StandIn, client: SteelyardClient, how: str) -> None:
    first = await standin.slash("load", POUND)
    await getattr(standin, how)()
    assert (await standin.slash("load", POUND)).text.startswith("**36 g")
    assert (await standin.press("Ounces first", first)).text.startswith("**1.27 oz")


class BrokenError(RuntimeError):
    """Nothing we foresaw."""


@pytest.fixture
def broken(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail(*_: Any) -> Any:
        raise BrokenError("secret words of the asker")

    monkeypatch.setattr(LoadQuestion, "answer", fail)


async def test_the_unforeseen_is_told_with_a_reference_that_stands_in_the_log(
    standin: StandIn, client: SteelyardClient, broken: None, caplog: pytest.LogCaptureFixture
) -> None:
    reply = await standin.slash("load", POUND)
    assert reply.ephemeral
    reference = reply.text.rstrip(".").rpartition(" ")[2]
    assert len(reference) == 8
    assert f"ref={reference}" in caplog.text
    assert "BrokenError@" in caplog.text
    assert "secret words" not in caplog.text


@pytest.mark.parametrize("way", ["button", "form", "message", "words"])
async def test_every_way_ends_in_the_one_error_path(
    standin: StandIn, client: SteelyardClient, monkeypatch: pytest.MonkeyPatch, way: str
) -> None:
    missing = await standin.slash("load", {"wax": "450g"})
    first = await standin.slash("load", POUND)
    opened = await standin.press("Fill it in", missing)

    def fail(*_: Any) -> Any:
        raise BrokenError

    monkeypatch.setattr(LoadQuestion, "answer", fail)
    if way == "button":
        reply = await standin.press("Ounces first", first)
    elif way == "form":
        reply = await standin.submit(opened, {"load": "8%"})
    elif way == "message":
        reply = await standin.message("450 g wax at 8 %", mention=True)
    else:
        reply = await standin.slash("ask", {"question": "450 g wax at 8 %"})
    assert "went wrong on my side" in reply.text


async def test_completions_never_fail(
    standin: StandIn, client: SteelyardClient, monkeypatch: pytest.MonkeyPatch, caplog: pytest.LogCaptureFixture
) -> None:
    def fail(*_: Any) -> Any:
        raise BrokenError("secret words of the asker")

    monkeypatch.setattr("bot.client.suggestions", fail)
    offered = await standin.autocomplete("load", {"wax": "4"}, "wax")
    assert offered.choices == []
    assert 'where="completing wax"' in caplog.text
    assert "secret words" not in caplog.text
