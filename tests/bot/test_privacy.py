"""What is kept about a person: shown, exported, deleted; and what goes when a server leaves."""

from __future__ import annotations

import asyncio
import json
from pathlib import Path

from bot.client import SteelyardClient
from bot.upkeep import look_over
from core.library import Library
from tests.bot.bots import steelyard
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, Person, Server

OIL = {"material": "rose oil", "density": "0.93 g/ml"}


async def recorded(standin: StandIn, person: Person, **where: object) -> None:
    reply = await standin.slash("record_density", OIL, user=person, **where)  # type: ignore[arg-type]
    assert "Recorded" in reply.text


async def test_shown_and_exported(standin: StandIn, client: SteelyardClient) -> None:
    person = Person("maker")
    assert "none" in (await standin.slash("privacy", user=person)).text
    await recorded(standin, person, guild=None)
    panel = await standin.slash("privacy", user=person)
    assert panel.ephemeral
    assert "Densities you measured: 1" in panel.text
    file = await standin.press("All of it as a file", panel, user=person)
    assert file.ephemeral
    kept = json.loads(file.files["kept-about-me.json"])
    assert kept["user"] == str(person.id)
    assert kept["measurements"][0]["name"] == "rose oil"


async def test_deleted_only_after_a_second_word(standin: StandIn, client: SteelyardClient) -> None:
    person = Person("maker")
    await recorded(standin, person, guild=None)
    sure = await standin.press("Delete it", await standin.slash("privacy", user=person), user=person)
    assert "can't be undone" in sure.text
    kept = await standin.press("No, keep it", sure, user=person)
    assert "Densities you measured: 1" in kept.text
    gone = await standin.press("Yes, delete it", await standin.press("Delete it", kept, user=person), user=person)
    assert "Deleted" in gone.text
    assert gone.message.buttons == []
    assert "Densities you measured: none" in (await standin.slash("privacy", user=person)).text
    # the last question is forgotten too: a follow-up has nothing to build on
    assert client.desk.memory.last(str(person.id), str(standin.direct_channel(person).id)) is None


async def test_a_group_keeps_what_was_given_to_it_without_the_name(standin: StandIn, client: SteelyardClient) -> None:
    person = Person("maker")
    await recorded(standin, person, permissions=MANAGER)
    panel = await standin.slash("privacy", user=person)
    await standin.press("Yes, delete it", await standin.press("Delete it", panel, user=person), user=person)
    shelf = await standin.slash("shelf", {"material": "rose oil"})
    assert "0.93 g/ml" in shelf.text
    assert "Maker" not in shelf.text


async def test_nobody_sees_or_deletes_for_another(standin: StandIn, client: SteelyardClient) -> None:
    person, other = Person("maker"), Person("other")
    await recorded(standin, person, guild=None)
    panel = await standin.slash("privacy", user=person)
    seen = await standin.press("All of it as a file", panel, user=other)
    assert json.loads(seen.files["kept-about-me.json"])["user"] == str(other.id)
    sure = await standin.press("Delete it", panel, user=person)
    await standin.press("Yes, delete it", sure, user=other)
    assert "Densities you measured: 1" in (await standin.slash("privacy", user=person)).text


async def test_a_server_that_leaves_is_forgotten_after_thirty_days(standin: StandIn, client: SteelyardClient) -> None:
    await client.wait_until_ready()
    await recorded(standin, Person("maker"), permissions=MANAGER)
    library = client.desk.library
    assert library is not None
    await standin.leave(standin.home)
    await until_leaving(library, standin.home, True)
    library.purge("2026-01-01T00:00:00+00:00")
    assert library.servers() == [str(standin.home.id)]
    library.purge("2999-01-01T00:00:00+00:00")
    assert library.servers() == []


async def test_a_server_that_comes_back_keeps_its_shelf(standin: StandIn, client: SteelyardClient) -> None:
    await client.wait_until_ready()
    await recorded(standin, Person("maker"), permissions=MANAGER)
    library = client.desk.library
    assert library is not None
    await standin.leave(standin.home)
    await until_leaving(library, standin.home, True)
    await standin.join(standin.home)
    await until_leaving(library, standin.home, False)
    library.purge("2999-01-01T00:00:00+00:00")
    assert library.servers() == [str(standin.home.id)]


async def test_an_outage_is_no_leaving(standin: StandIn, client: SteelyardClient) -> None:
    await client.wait_until_ready()
    await recorded(standin, Person("maker"), permissions=MANAGER)
    await standin.outage(standin.home)
    await asyncio.sleep(0.1)
    assert client.desk.library is not None
    client.desk.library.purge("2999-01-01T00:00:00+00:00")
    assert client.desk.library.servers() == [str(standin.home.id)]


async def test_a_server_that_left_while_the_bot_was_away(database: Path) -> None:
    home, other = Server("home"), Server("other")
    async with StandIn(servers=(home, other)) as standin, steelyard(standin, database):
        await recorded(standin, Person("maker"), guild=home, permissions=MANAGER)
        await recorded(standin, Person("maker"), guild=other, permissions=MANAGER)
    async with StandIn(servers=(other,)) as standin, steelyard(standin, database) as client:
        await client.wait_until_ready()
        library = client.desk.library
        assert library is not None
        await look_over(client, library)
        library.purge("2999-01-01T00:00:00+00:00")
        assert library.servers() == [str(other.id)]


async def until_leaving(library: Library, server: Server, leaving: bool) -> None:
    """Wait until the library has heard of it."""
    for _ in range(200):
        with library.reading() as db:
            assert db is not None
            found = db.execute("SELECT count(*) FROM leaving WHERE space = ?", (f"guild:{server.id}",)).fetchone()
        if bool(found[0]) is leaving:
            return
        await asyncio.sleep(0.01)
    raise AssertionError("the library was not told")
