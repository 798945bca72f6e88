"""What came out can be kept: in the chat by a line to type, in Discord by a button that opens the filled form."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.chat import answer_text
from bot.client import SteelyardClient
from bot.desk import Desk
from core.library import Library
from tests.standin.server import StandIn
from tests.standin.world import MANAGER


def hint(said: str) -> str:
    """What the chat says to type."""
    (found,) = [line for line in said.splitlines() if line.startswith("Record this")]
    return found.partition("“")[2].partition("”")[0]


@pytest.mark.parametrize(
    ("asked", "then", "shown"),
    [
        # 93 g in 100 ml are 0.93 g/ml.
        ("/density mass:93 g volume:100 ml material:soy wax A", "/shelf material:soy wax A", "0.93 g/ml"),
        ("/density full:173 g empty:80 g volume:100 ml measure:beaker", "/shelf material:soy wax A", "0.93 g/ml"),
        # 252.0 g of water at 20 °C take 252.7 ml (ISO 8655-6:2002, Annex A: Z = 1.0029 ml/g).
        ("/vessel empty:180 g full:432 g at:20 °C", "/shelf vessel:soy wax A", "252.7 ml"),
        ("/vessel room:250 ml density:0.9 g/ml", "/shelf vessel:soy wax A", "225 g"),
    ],
)
def test_the_line_to_type_records_what_came_out(tmp_path: Path, asked: str, then: str, shown: str) -> None:
    desk = Desk(Library(tmp_path / "l.db"))
    typed = hint(answer_text(asked, desk))
    if "…" in typed:
        assert "Recorded" not in answer_text(typed, desk)  # dots are no name
        typed = typed.replace("…", "soy wax A")
    assert "Recorded" in answer_text(typed, desk)
    assert shown in answer_text(then, desk)


def test_nothing_to_keep_nothing_to_type(tmp_path: Path) -> None:
    desk = Desk(Library(tmp_path / "l.db"))
    for asked in ("/density mass:93 g", "/vessel", "/load wax:450 g load:8%", "/shelf"):
        assert "Record this" not in answer_text(asked, desk)


async def test_a_measured_room_is_recorded_though_the_waxs_density_is_lacking(
    standin: StandIn, client: SteelyardClient
) -> None:
    measured = await standin.slash("vessel", {"empty": "180 g", "full": "432 g", "at": "20 °C"})
    opened = await standin.press("Record this vessel", measured, permissions=MANAGER)
    kept = await standin.submit(opened, {"vessel": "amber jar"}, permissions=MANAGER)
    assert "252.7 ml" in kept.text
    assert "252.7 ml" in (await standin.slash("shelf", {"vessel": "amber jar"})).text


def test_a_vessel_filled_in_part_is_recorded_with_its_whole_room(tmp_path: Path) -> None:
    """By hand: 250 ml filled to 80 % takes 200 ml × 0.86 g/ml = 172 g: neither is what the vessel holds."""
    text = answer_text("/vessel room:250 ml level:80% density:0.86 g/ml", Desk(Library(tmp_path / "l.db")))
    assert "172 g" in text
    flat = " ".join(text.split())
    assert "/record_vessel vessel:… room:250 ml”" in flat
    assert "fill:" not in flat


def test_what_a_form_is_filled_with_has_no_more_digits_than_were_measured(tmp_path: Path) -> None:
    """By hand: 462 g × 1.0029 ml/g (ISO 8655-6, 20 °C) = 463.3398 ml, of which 462 g are known to the gram."""
    text = answer_text("/vessel water:462 g density:0.9 g/ml", Desk(Library(tmp_path / "l.db")))
    assert "room:463.3 ml" in " ".join(text.split())
    ounces = answer_text("/vessel room:8 US fl oz density:0.9 g/ml", Desk(Library(tmp_path / "m.db")))
    assert "room:8 US fl oz" in " ".join(ounces.split())
