"""Log lines: key=value, one line, and nothing of what people write."""

from __future__ import annotations

import asyncio
import io
import logging
from collections.abc import Iterator

import pytest

from bot.client import SteelyardClient
from bot.logs import Lines, line, to_stderr, where_raised
from tests.standin.server import StandIn
from tests.standin.world import MANAGER

TYPED = "lavendelmondschein"


@pytest.fixture
def logged() -> Iterator[io.StringIO]:
    """Everything any logger says at its most talkative, formatted as when the bot runs."""
    kept = logging.getLogger().handlers[:], logging.getLogger().level
    to_stderr("DEBUG")
    out = io.StringIO()
    handler = logging.StreamHandler(out)
    handler.setFormatter(Lines())
    logging.getLogger().handlers[:] = [handler]
    yield out
    logging.getLogger().handlers[:], level = kept
    logging.getLogger().setLevel(level)


async def test_nothing_typed_gets_into_the_log(standin: StandIn, logged: io.StringIO, client: SteelyardClient) -> None:
    await standin.slash("ask", {"question": f"450 g of {TYPED} at 8 %"})
    await standin.slash("ask", {"question": TYPED})
    await standin.slash("load", {"wax": TYPED, "load": "8%"})
    await standin.message(f"{TYPED} 450 g at 8 %", mention=True)
    await standin.message_menu("Work out by weight", f"{TYPED} 450 g at 8 %")
    await standin.autocomplete("volume", {"material": TYPED}, "material")
    await standin.slash("record_density", {"material": TYPED, "density": "0.93 g/ml"}, permissions=MANAGER)
    form = await standin.slash("batch")
    await standin.submit(form, {"fills": TYPED})
    await asyncio.sleep(0.05)
    text = logged.getvalue()
    assert "event=answered" in text
    assert TYPED not in text
    assert "450 g" not in text


async def test_each_answer_has_its_line(standin: StandIn, logged: io.StringIO, client: SteelyardClient) -> None:
    first = await standin.slash("load", {"wax": "450g", "load": "8%"})
    await standin.press("Ounces first", first)
    await asyncio.sleep(0.05)  # the line is written after the answer has gone out
    lines = logged.getvalue().splitlines()
    asked = next(each for each in lines if "command=load" in each)
    values = dict(pair.split("=", 1) for pair in asked.split())
    assert values["event"] == "answered"
    assert values["outcome"] == "worked"
    assert float(values["duration_ms"]) > 0
    assert values["ts"].endswith("Z")
    assert any("event=pressed" in each and "command=uo" in each and "outcome=worked" in each for each in lines)


def test_an_exception_is_its_kind_and_its_place_but_not_its_words() -> None:
    try:
        raise ValueError(TYPED)
    except ValueError as error:
        found = where_raised(error)
    assert found.startswith("ValueError@bot/test_logs.py:")
    assert TYPED not in found


def test_a_line_is_one_line() -> None:
    record = logging.LogRecord("a", logging.INFO, "", 0, "two\nlines\x1b[0m", (), None)
    assert "\n" not in Lines().format(record)
    assert line("x", a=1.234, b="with blanks", c="") == 'event=x a=1.23 b="with blanks"'
