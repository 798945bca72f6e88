"""Lists far longer than a sentence: taken whole by the console, an option and a form, or refused; never cut."""

from __future__ import annotations

import json
from pathlib import Path

from bot.chat import answer_text
from bot.client import SteelyardClient
from bot.desk import LOCAL, Desk
from bot.record import record
from core.book import Preferences
from core.library import Library
from tests.standin.server import StandIn

KINDS = ", ".join(f"{1 + number % 9} x {90 + number} g" for number in range(200))
COUNT = sum(1 + number % 9 for number in range(200))
POURED = sum((1 + number % 9) * (90 + number) for number in range(200))  # grams, by hand
WEIGHTS = ", ".join(f"{200 + number % 7} g" for number in range(600))


def test_two_hundred_kinds_of_vessels_in_the_console() -> None:
    asked = f"/batch load:8% fills:{KINDS}"
    assert len(asked) > 2000
    found = record(asked, Desk(None).text(asked, LOCAL), Preferences())
    results = {(each["what"], each["unit"]): each["value"] for each in found["results"]}
    assert (results["wax", "g"], results["count", "count"]) == (POURED, COUNT)
    json.dumps(found)


def test_two_hundred_additives_are_a_list_to_weigh_by() -> None:
    additives = ", ".join(f"dye{chr(97 + number // 26)}{chr(97 + number % 26)} 0.01%" for number in range(200))
    said = answer_text(f"/batch load:8% fills:10 x 200 g step:0.01 g additives:{additives}", Desk(None))
    assert said.count(" 0.2 g") >= 200  # 0.01 % of 2000 g
    assert "add up to" in said


def test_a_lot_of_six_hundred() -> None:
    said = answer_text(f"/lot label:200 g weights:{WEIGHTS}", Desk(None))
    assert "202.99 g on average" in said  # (85 × (200 + … + 206) + 200 + … + 204) ÷ 600


async def test_a_long_list_in_an_option_lives_on_behind_its_buttons(standin: StandIn, client: SteelyardClient) -> None:
    reply = await standin.slash("batch", {"fills": KINDS, "load": "8%"})
    assert f"{POURED:,} g" in reply.text
    turned = await standin.press("Ounces first", reply)
    assert f"{POURED / 28.349523125:.2f} oz" in turned.text


async def test_a_long_list_in_a_form(standin: StandIn, client: SteelyardClient, tmp_path: Path) -> None:
    form = await standin.slash("form", {"which": "batch"})
    reply = await standin.submit(form, {"fills": KINDS, "load": "8%"})
    assert f"{POURED:,} g" in reply.text


async def test_a_list_beyond_the_bound_is_refused_with_what_was_typed(
    standin: StandIn, client: SteelyardClient
) -> None:
    reply = await standin.slash("batch", {"fills": KINDS + ", 1 x 9 g" * 200, "load": "8%"})
    assert "up to 200 kinds of vessels" in reply.text
    reply = await standin.slash("batch", {"fills": "1 x 9 g, " * 660, "load": "8%"})
    assert "under 5,000 characters" in reply.text


def test_nothing_of_it_is_lost_in_the_library(tmp_path: Path) -> None:
    waxes = ", ".join(f"wax{chr(97 + number)} {number + 1}" for number in range(26))
    desk = Desk(Library(tmp_path / "l.db"))
    assert "Recorded" in answer_text(f"/record_formula name:many load:8% waxes:{waxes}", desk)
    assert "waxz" in answer_text("/formula name:many wax:1 kg step:0.01 g", desk)
