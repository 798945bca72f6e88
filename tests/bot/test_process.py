"""The real bot as a process of its own against the stand-in: synced, asked everything once, stopped, started again."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.desk import COMMANDS, Asker, Desk
from bot.outline import style_for
from bot.own_commands import IN_PANELS, MENU_NAME
from bot.reply import harmless
from core.ask import answer
from core.library import Library
from core.question import Question
from core.reading.slash_form import build
from tests.bot.typed import as_options, example_texts
from tests.standin.ledger import TOKEN
from tests.standin.reply import Reply
from tests.standin.run import BotProcess, running_process, start_process
from tests.standin.server import StandIn
from tests.standin.world import Upload

OURS_TO_MEND = "Something went wrong"
# What the commands that are no questions are tried with.
OWN_OPTIONS = {
    "ask": {"question": "450 g wax at 8 %"},
    "form": {"which": "batch"},
    "import_formulas": {"file": Upload("formulas.csv", b"name,load_percent\nsummer,8\n"), "seen_by": "only me"},
}


@pytest.fixture
def config(tmp_path: Path) -> Path:
    """A settings file; the library lies beside it and does not exist yet."""
    path = tmp_path / "config.toml"
    path.write_text('database = "library.db"\nlog_level = "INFO"\n', "utf-8")
    return path


async def synced(standin: StandIn, config: Path) -> BotProcess:
    """Register the commands with a process of its own, and leave."""
    process = await start_process(standin.base, ("sync", "--config", str(config)))
    assert await process.ended(20) == 0
    assert process.err.decode() == ""
    return process


def first_line(reply: Reply) -> str:
    """What stands first in the answer, without its marks."""
    return reply.text.strip().splitlines()[0].strip("*")


async def test_commands_are_registered_for_servers_and_for_people(standin: StandIn, config: Path) -> None:
    process = await synced(standin, config)
    names = {command["name"] for command in standin.commands}
    assert names >= {name for name in COMMANDS if name not in IN_PANELS} | {"ask", MENU_NAME}
    assert f"Registered {len(standin.commands)} commands." in process.printed
    for command in standin.commands:
        assert command["contexts"] == [0, 1, 2]
        assert command["integration_types"] == [0, 1]
    own = await start_process(standin.base, ("sync", "--guild", str(standin.home.id), "--config", str(config)))
    assert await own.ended(20) == 0
    assert {command["name"] for command in standin.ledger.commands[standin.home.id]} == names


async def test_every_command_answers_its_own_examples(standin: StandIn, config: Path) -> None:
    await synced(standin, config)
    desk = Desk(Library(config.parent / "library.db"))
    asker = Asker(str(standin.asker.id), "asker", (f"user:{standin.asker.id}",))
    async with running_process(standin, "run", "--config", str(config)) as bot:
        registered = {command["name"] for command in standin.commands if command["type"] == 1}
        wrong = []
        # what acts need comes first, what takes it away last
        order = ["record_material", "record_density", "record_vessel", "record_formula"]
        kinds = {name: kind for name, kind in COMMANDS.items() if name in registered and name not in IN_PANELS}
        for name in sorted(kinds, key=lambda name: order.index(name) if name in order else len(order)):
            kind = kinds[name]
            texts = example_texts(kind)
            reply = await standin.slash(name, as_options(kind, texts), guild=None)
            if OURS_TO_MEND in reply.text or not reply.text.strip():
                wrong.append(f"/{name} {texts}: {reply.text[:200]!r}")
            elif issubclass(kind, Question) and not getattr(kind, "needs_seed", False):
                book = desk.book(asker)
                expected = answer(build(kind, texts, book), book)  # type: ignore[arg-type]
                headline = expected.headline.show(style_for(expected, book.preferences, harmless))
                if headline not in reply.text:
                    wrong.append(f"/{name} {texts}: {first_line(reply)!r}, not {headline!r}")
        assert wrong == []
        await standin.slash("record_density", {"material": "pine oil B", "density": "0.88 g/ml"}, guild=None)
        found = await standin.slash("volume", {"volume": "100 ml", "material": "pine oil B"}, guild=None)
        assert "88 g" in first_line(found)
        for own in [*sorted(registered - set(COMMANDS)), "settings"]:
            options = OWN_OPTIONS.get(own, {})
            reply = await standin.slash(own, options)
            shown = str(reply.modal) if own == "form" else reply.text
            assert OURS_TO_MEND not in shown
            assert len(shown) > 40
        assert await bot.stop() == 0
        assert "level=ERROR" not in bot.printed
        assert TOKEN not in bot.printed


async def test_asking_in_every_way(standin: StandIn, config: Path) -> None:
    await synced(standin, config)
    async with running_process(standin, "run", "--config", str(config)) as bot:
        slash = await standin.slash("load", {"wax": "620 g", "load": "7.5 %"})
        plain = await standin.slash("ask", {"question": "620 g soy wax at 7.5 %, how much fragrance?"})
        menu = await standin.message_menu(MENU_NAME, "620 g wax at 7.5 %, how much fragrance?")
        mention = await standin.message("620 g wax at 7.5 %, how much fragrance?", mention=True)
        direct = await standin.message("620 g wax at 7.5 %, how much fragrance?", dm=True)
        for reply in (slash, plain, menu, mention, direct):
            assert "46.5 g" in first_line(reply)
        follow_up = await standin.message("and at 10 %?", dm=True)
        assert "62 g" in first_line(follow_up)
        not_for_us = await standin.message("620 g wax at 7.5 %", expect="silence")
        assert not not_for_us.answered
        typed = await standin.autocomplete("load", {"wax": "450"}, "wax")
        assert "450 g" in [choice["value"] for choice in typed.choices]
        materials = await standin.autocomplete("volume", {"material": "bees"}, "material")
        assert any("beeswax" in choice["name"].casefold() for choice in materials.choices)
        nothing = await standin.autocomplete("volume", {"material": "\x00@everyone"}, "material")
        assert nothing.choices == []
        assert TOKEN not in bot.printed


async def test_errors_end_in_a_sentence(standin: StandIn, config: Path) -> None:
    await synced(standin, config)
    gone = {"name": "gone", "description": "A command of an earlier version", "type": 1}
    standin.register([*standin.commands, gone])
    async with running_process(standin, "run", "--config", str(config)) as bot:
        unknown = await standin.slash("gone")
        assert unknown.ephemeral
        assert "has changed" in unknown.text
        wrong = await standin.slash("load", {"wax": "about a cupful", "load": "8%"})
        assert wrong.ephemeral
        assert "about a cupful" in wrong.text
        assert "such as 450 g" in wrong.text
        good = await standin.slash("load", {"wax": "450 g", "load": "8%"})
        assert "36 g" in first_line(good)
        old = good.message
        old.payload["components"][0]["components"][0]["custom_id"] = "s0:b:1:of-an-older-version"
        pressed = await standin.press("s0:b:1:of-an-older-version", old)
        assert pressed.ephemeral
        assert "Ask again" in pressed.text
        assert await bot.stop() == 0
        assert "Traceback" not in bot.printed
        assert "about a cupful" not in bot.printed, "what people type never gets into the log"


async def test_stopped_and_started_again(standin: StandIn, config: Path) -> None:
    await synced(standin, config)
    async with running_process(standin, "run", "--config", str(config)) as bot:
        await standin.slash("record_density", {"material": "pine oil B", "density": "0.88 g/ml"}, guild=None)
        answered = await standin.slash("load", {"wax": "450 g", "load": "8 %"})
        assert await bot.stop() == 0
        assert "event=stopped" in bot.printed
    async with running_process(standin, "run", "--config", str(config)) as bot:
        found = await standin.slash("volume", {"volume": "100 ml", "material": "pine oil B"}, guild=None)
        assert "88 g" in first_line(found)
        assert "recorded" in found.text
        other = next(each["label"] for each in answered.message.buttons if "total" in each["label"].casefold())
        pressed = await standin.press(other, answered)
        assert "39.1 g" in first_line(pressed)
        assert await bot.stop() == 0
