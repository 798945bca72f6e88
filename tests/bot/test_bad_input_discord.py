"""The same bad input on Discord: a clear sentence, no live mention, no broken markup, whatever was typed."""

from __future__ import annotations

from collections.abc import AsyncIterator

import pytest
import pytest_asyncio

from bot.client import make_client
from bot.config import Config
from bot.desk import Desk
from bot.own_commands import MENU_NAME
from core.library import Library
from tests.bot.bad_inputs import BAD, WORKED, Bad, harmless_markup, readable
from tests.standin.reply import Reply
from tests.standin.run import running
from tests.standin.server import StandIn

pytestmark = pytest.mark.asyncio(loop_scope="module")
ANGRY = "```\n450 g wax at 8 %\n```\n@everyone **bold\n> quote\n# title\n-# small\n[a](https://example.org)"


@pytest_asyncio.fixture(scope="module", loop_scope="module")
async def asked(tmp_path_factory: pytest.TempPathFactory) -> AsyncIterator[StandIn]:
    """A stand-in with the real client in it; one for all, since nothing here is recorded."""
    database = tmp_path_factory.mktemp("library") / "library.db"
    async with StandIn() as world, running(make_client(Config(database), Desk(Library(database))), world) as client:
        await client.tree.sync()
        yield world


def seen(reply: Reply, says: str) -> None:
    """What the asker sees. The description is what we wrote; buttons stand below it."""
    assert reply.message.content == ""
    text = "\n".join(embed["description"] for embed in reply.message.embeds)
    plain = text.replace("\\", "").replace("\u200b", "")
    readable(plain, says)
    harmless_markup(text)
    assert reply.message.sent[0]["allowed_mentions"]["parse"] == []


@pytest.mark.parametrize("bad", BAD.values(), ids=BAD.keys())
async def test_slash_commands(bad: Bad, asked: StandIn) -> None:
    seen(await asked.slash("ask", {"question": bad.plain}), bad.says)
    if bad.slash:
        seen(await asked.slash("load", dict(bad.slash)), bad.slash_says)


@pytest.mark.parametrize("name", ["null bytes", "everyone", "code fence", "power", "right to left"])
async def test_messages_and_the_menu(name: str, asked: StandIn) -> None:
    bad = BAD[name]
    seen(await asked.message_menu(MENU_NAME, bad.plain), bad.says)
    if len(bad.plain) <= 2000:
        seen(await asked.message(bad.plain, dm=True), "")


async def test_a_message_without_text(asked: StandIn) -> None:
    seen(await asked.message("", dm=True), "That was empty")
    seen(await asked.message_menu(MENU_NAME, ""), "That was empty")


async def test_several_lines_of_markup(asked: StandIn) -> None:
    seen(await asked.message_menu(MENU_NAME, ANGRY), WORKED)
    seen(await asked.slash("volume", {"volume": "100 ml", "material": ANGRY[-60:]}), "")


@pytest.mark.parametrize("name", ["@everyone", "<@1234>", "**b", "```x", "[a](https://example.org)", "\u202ex", "# t"])
async def test_names_are_harmless_when_shown_again(name: str, asked: StandIn) -> None:
    recorded = await asked.slash("record_density", {"material": f"{name} oil", "density": "0.9 g/ml"}, guild=None)
    seen(recorded, "")
    seen(await asked.slash("volume", {"volume": "100 ml", "material": f"{name} oil"}, guild=None), "")
    seen(await asked.slash("shelf", {}, guild=None), "")


@pytest.mark.parametrize("typed", ["", "9" * 100, "\x00", "@everyone", "(((", "1e400", "NaN", "\u202e4", "😀" * 40])
async def test_completions_of_anything(typed: str, asked: StandIn) -> None:
    for slot in ("wax", "load", "density"):
        assert isinstance((await asked.autocomplete("load", {slot: typed}, slot)).choices, list)
    assert isinstance((await asked.autocomplete("volume", {"material": typed}, "material")).choices, list)
