"""The library held by another program: answers come within Discord's three seconds (a later one fails the test by the
stand-in), what could not be recorded is said."""

from __future__ import annotations

import sqlite3
from pathlib import Path

from bot.client import SteelyardClient
from tests.standin.server import StandIn
from tests.standin.world import MANAGER

OIL = {"material": "rose oil", "density": "0.93 g/ml"}


async def test_answers_while_the_file_is_locked(standin: StandIn, client: SteelyardClient, database: Path) -> None:
    await standin.slash("record_density", OIL, permissions=MANAGER)
    other = sqlite3.connect(database, isolation_level=None)
    other.execute("BEGIN IMMEDIATE")
    try:
        fills = ", ".join(f"{count} x {200 + count} g" for count in range(1, 15))
        first = await standin.slash("batch", {"fills": fills, "load": "8%"})
        # the question behind its buttons could not be written down, and they work all the same
        pressed = await standin.press("Ounces first", first)
        assert "776.56 oz (22,015 g) of wax" in pressed.text  # 1 × 201 g + … + 14 × 214 g
        refused = await standin.slash("record_density", {**OIL, "density": "0.95 g/ml"}, permissions=MANAGER)
        assert "in use by another program" in refused.text
        assert "0.95 g/ml" in refused.text
    finally:
        other.close()
    again = await standin.press("Try again", refused, permissions=MANAGER)
    assert "Recorded" in (await standin.submit(again, {}, permissions=MANAGER)).text
