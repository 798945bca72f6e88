"""Texts behind buttons: known at once, written down later, there after an upgrade, honest when they are gone."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.asking import now
from bot.kept import IN_MEMORY, Kept
from bot.state import OldButton
from core.library import Library, migrations
from tests.bot.bots import steelyard
from tests.standin.server import StandIn

NOW = "2026-01-01T00:00:00+00:00"
LONG_FILLS = ", ".join(f"{count} x {200 + count} g" for count in range(1, 15))


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


async def test_buttons_work_after_an_upgrade_of_the_library(
    standin: StandIn, database: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The file of this version, opened by a next one with a further step."""
    async with steelyard(standin, database) as client:
        short = await standin.slash("load", {"wax": "450g", "load": "8%"})
        long = await standin.slash("batch", {"fills": LONG_FILLS, "load": "8%"})
        while client.kept.waiting:
            await client.kept.save(now())
    further = ("99 a further step", migrations._script("CREATE TABLE further (id INTEGER PRIMARY KEY);\n"))
    monkeypatch.setattr(migrations, "STEPS", (*migrations.STEPS, further))
    monkeypatch.setattr(migrations.bring_up_to_date, "__defaults__", (len(migrations.STEPS),))
    async with steelyard(standin, database) as client:
        assert (await standin.press("Ounces first", short)).text.startswith("**1.27 oz")
        assert "oz" in (await standin.press("Ounces first", long)).text.splitlines()[0]
        assert client.desk.library is not None
        with client.desk.library.reading() as db:
            assert db is not None
            assert db.execute("PRAGMA user_version").fetchone() == (len(migrations.STEPS),)
            assert db.execute("SELECT count(*) FROM further").fetchone() == (0,)
