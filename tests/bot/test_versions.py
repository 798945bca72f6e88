"""Commands, presses and messages as they come: of another version of the bot, and with more than it looks at."""

from __future__ import annotations

import copy
import threading
from typing import Any

import pytest

from bot.client import SteelyardClient
from bot.desk import Desk
from bot.hearing import shortened
from tests.standin.server import StandIn


async def test_an_option_of_an_older_version_is_not_passed_over(standin: StandIn, client: SteelyardClient) -> None:
    older = copy.deepcopy(standin.commands)
    for command in older:
        for option in command.get("options") or ():
            if (command["name"], option["name"]) == ("load", "blend"):
                option["name"] = "oils"
    standin.register(older)
    reply = await standin.slash("load", {"wax": "450 g", "load": "8 %", "oils": "60/40"})
    assert reply.ephemeral
    assert reply.text.startswith("This command has changed")
    assert (await standin.autocomplete("load", {"oils": "60"}, "oils")).choices == []
    assert (await standin.slash("load", {"wax": "450 g", "load": "8 %"})).text.startswith("**36 g")


async def test_a_command_that_lacks_what_it_needs_now(standin: StandIn, client: SteelyardClient) -> None:
    older = copy.deepcopy(standin.commands)
    for command in older:
        for option in command.get("options") or ():
            option["required"] = False
    standin.register(older)
    assert (await standin.slash("convert")).text.startswith("This command has changed")


async def test_of_a_pressed_message_only_what_is_looked_at_is_built(standin: StandIn, client: SteelyardClient) -> None:
    seen: list[Any] = []
    route = client.router.route

    async def noted(interaction: Any) -> None:
        seen.append(interaction.message)
        await route(interaction)

    client.router.route = noted  # type: ignore[method-assign]
    first = await standin.slash("load", {"wax": "450 g", "load": "8 %"})
    assert (await standin.press("Ounces first", first)).text.startswith("**1.27 oz")
    assert (seen[0].id, seen[0].embeds, seen[0].interaction_metadata) == (first.message.id, [], None)


def test_shortened() -> None:
    message = {"id": "1", "type": 0, "content": "450 g", "embeds": [{}], "components": [{}], "author": {}}
    assert shortened(message) == {"id": "1", "type": 0, "content": "450 g"}


async def test_recording_by_a_typed_command_leaves_the_loop_free(
    standin: StandIn, client: SteelyardClient, monkeypatch: pytest.MonkeyPatch
) -> None:
    threads: list[threading.Thread] = []
    act = Desk.act

    def noted(self: Desk, *given: Any) -> Any:
        threads.append(threading.current_thread())
        return act(self, *given)

    monkeypatch.setattr(Desk, "act", noted)
    form = "/record_density material:rose oil density:0.93 g/ml"
    assert "Recorded" in (await standin.message(form, dm=True)).text
    assert "Recorded" in (await standin.slash("ask", {"question": form}, guild=None)).text
    assert len(threads) == 2
    assert threading.main_thread() not in threads
