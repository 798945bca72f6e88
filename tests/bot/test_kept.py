"""Texts behind buttons: known at once, written down later, there after an upgrade, honest when they are gone."""

from __future__ import annotations

import contextlib
import sqlite3
from pathlib import Path

import pytest

from bot.kept import IN_MEMORY, Kept
from bot.state import OldButton
from core.library import Library, migrations
from tests.bot.bots import steelyard
from tests.core.library.shelves import older_file
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, Person, Server

NOW = "2026-01-01T00:00:00+00:00"


async def test_what_fits_stays_as_it_is_and_what_does_not_gets_a_key() -> None:
    kept = Kept(None)
    assert kept.short("/load wax:450 g", 40) == "/load wax:450 g"
    key = kept.short("/load " + "x" * 40, 40)
    assert key.startswith("#")
    assert len(key) <= 23
    assert kept.find(key) == "/load " + "x" * 40
    assert kept.find(kept.short("#no key", 40)) == "#no key"  # a text that looks like one
    assert kept.short("😀" * 25, 40).startswith("#")  # 25 signs, but 50 as the platform may count them


async def test_it_is_written_once_and_found_by_the_next_run(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    kept = Kept(library)
    key = kept.keep("x" * 200)
    assert kept.waiting
    await kept.save(NOW)
    assert not kept.waiting
    kept.keep("x" * 200)
    assert not kept.waiting
    assert Kept(library).find(key) == "x" * 200
    library.close()


async def test_without_a_library_that_takes_it_memory_still_has_it(tmp_path: Path) -> None:
    folder = tmp_path / "l.db"
    folder.mkdir()
    kept = Kept(Library(folder))
    key = kept.keep("x" * 200)
    await kept.save(NOW)
    assert kept.waiting  # to be tried again
    assert kept.find(key) == "x" * 200


def test_memory_is_bounded_and_what_is_gone_is_said() -> None:
    kept = Kept(None)
    first = kept.keep("first" * 50)
    for number in range(IN_MEMORY):
        kept.keep(f"{number}" * 50)
    with pytest.raises(OldButton, match="ask it again"):
        kept.find(first)


async def test_buttons_work_after_an_upgrade_from_the_first_shape(database: Path) -> None:
    """Buttons as an older bot sent them, over the library it left: a question in the id, one kept in the file."""
    older_file(database)
    home = Server("home", id=100)
    async with StandIn(servers=(home,)) as standin, steelyard(standin, database) as client:
        # The ids of that time, owner 7: a short question, a long one, a lesson, a form, settings.
        old = await standin.slash("load", {"wax": "450g", "load": "8%"}, user=Person("bo"))

        async def press(custom_id: str) -> str:
            old.message.buttons[0]["custom_id"] = custom_id
            return (await standin.press(custom_id, old)).text

        assert (await press("s1:uo:7:-s0~/load wax:450 g load:8 %")).startswith("**1.38 oz")  # of the total: kept there
        assert "oz" in (await press("s1:uo:7:-s0~#gFckLnYgPi8VPxOzvxXdfg")).splitlines()[0]
        assert (await press("s1:l:7:bases")).startswith("**For 500 g of wax")
        assert "Your settings" in (await press("s1:Sopen:7:"))
        shelf = await standin.slash("shelf", {"material": "rose oil"})
        assert "0.9325 g/ml" in shelf.text
        recorded = await standin.slash(
            "record_density", {"material": "rose oil", "density": "0.931 g/ml"}, permissions=MANAGER
        )
        assert "mean of 3 measurements" in recorded.text
        assert client.desk.library is not None
        with client.desk.library.reading() as db:
            assert db is not None
            assert db.execute("PRAGMA user_version").fetchone() == (migrations.NEWEST,)


async def test_a_library_of_a_newer_bot_is_said_and_answers_still_come(standin: StandIn, database: Path) -> None:
    older_file(database)
    with contextlib.closing(sqlite3.connect(database)) as db:
        db.execute(f"PRAGMA user_version = {migrations.NEWEST + 1}")
        db.commit()
    async with steelyard(standin, database):
        answer = await standin.slash("load", {"wax": "450g", "load": "8%"})
        assert answer.text.startswith("**36 g")
        assert "newer Steelyard. Update this one" in answer.text
        refused = await standin.slash("record_density", {"material": "oil", "density": "0.9 g/ml"}, permissions=MANAGER)
        assert "newer Steelyard" in refused.text
