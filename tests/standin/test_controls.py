"""Buttons, selects, forms, deferrals and files against the stand-in."""

from __future__ import annotations

import pytest

from tests.standin.asking import ImpossibleError
from tests.standin.gateway import NotConnectedError
from tests.standin.run import running
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn
from tests.standin.world import Role, Upload


async def test_form_round_trip_from_a_command(standin: StandIn, bot: SampleBot) -> None:
    opened = await standin.slash("form")
    assert opened.modal["title"] == "Density"
    reply = await standin.submit(opened, {"Material": "soy", "Kind": "oil"})
    assert reply.text == "recorded soy / o / by scale"


async def test_form_round_trip_from_a_button(standin: StandIn, bot: SampleBot) -> None:
    panel = await standin.slash("panel")
    opened = await standin.press("Form", panel)
    reply = await standin.submit(opened.modal["custom_id"], {"name": "soy", "kind": "w", "note": "x"})
    assert reply.message is panel.message
    assert panel.text.startswith("recorded soy / w / x")


async def test_form_checks_as_the_client_would(standin: StandIn, bot: SampleBot) -> None:
    opened = await standin.slash("form")
    for values in ({}, {"Material": "x" * 41, "Kind": "oil"}, {"Material": "a", "Kind": "tea"}, {"Colour": "a"}):
        with pytest.raises(ImpossibleError):
            await standin.submit(opened, values)


async def test_select_edits_the_message(standin: StandIn, bot: SampleBot) -> None:
    panel = await standin.slash("panel")
    reply = await standin.select("Unit", ["grams"], panel)
    assert reply.message is panel.message
    assert panel.message.content == "unit g"


async def test_role_select_is_resolved(standin: StandIn, bot: SampleBot) -> None:
    panel = await standin.slash("panel")
    reply = await standin.select("panel:role", [Role("teachers")], panel)
    assert reply.text == "role teachers"
    assert reply.ephemeral


async def test_deferred_update_then_edit(standin: StandIn, bot: SampleBot) -> None:
    panel = await standin.slash("panel")
    reply = await standin.press("Later", panel)
    assert reply.type == 6
    assert panel.message.content == "changed later"


async def test_disabled_and_missing_buttons(standin: StandIn, bot: SampleBot) -> None:
    panel = await standin.slash("panel")
    with pytest.raises(ImpossibleError):
        await standin.press("Off", panel)
    with pytest.raises(KeyError):
        await standin.press("Nowhere", panel)


async def test_button_works_after_a_restart(standin: StandIn) -> None:
    async with running(SampleBot(), standin) as client:
        await client.tree.sync()
        panel = await standin.slash("panel")
    with pytest.raises(NotConnectedError):
        await standin.press("Later", panel)
    async with running(SampleBot(), standin):
        await standin.press("Later", panel)
    assert panel.message.content == "changed later"


async def test_deferral_decides_visibility_and_follow_ups_arrive(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("slow")
    await reply.more(2)
    assert reply.type == 5
    assert reply.edits == 1
    assert [message.content for message in reply.messages] == ["first, corrected", "second"]
    # the first follow-up fills the waiting message, so it stays private although it did not ask to be
    assert [message.ephemeral for message in reply.messages] == [True, True]


async def test_files_both_ways(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("file", {"given": Upload("in.csv", b"wax,oil")})
    assert reply.files == {"table.csv": b"WAX,OIL"}
    assert reply.message.payload["attachments"][0]["description"] == "the weigh-out table"


async def test_second_generation_of_components(standin: StandIn, bot: SampleBot) -> None:
    reply = await standin.slash("layout")
    assert "# 46.5 g" in reply.text
    assert [button["label"] for button in reply.message.buttons] == ["Other"]
    file = next(c for c in reply.message.components if c["type"] == 13)
    assert file["file"]["url"].startswith(standin.base)
