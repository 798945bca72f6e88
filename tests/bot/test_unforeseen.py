"""A fault nobody foresaw: a sentence with a reference in the console, the same reference in the log, nothing raw."""

from __future__ import annotations

import io
import json
import logging
import re

import pytest

from bot.ask_lines import ask_json, ask_once
from bot.chat import answer_text
from bot.desk import Asker, Desk
from core.answer import Answer
from core.book import Book


class Broken(Desk):
    """A desk with a fault of its own."""

    def text(self, text: str, asker: Asker, now: str = "", once: str = "", book: Book | None = None) -> Answer:
        raise ZeroDivisionError(text)


def test_a_fault_is_a_sentence_with_the_reference_that_is_logged(caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.ERROR)
    out = io.StringIO()
    assert ask_once("450 g wax at 8 %", Broken(None), out) == 0
    found = re.search(r"tell whoever runs the bot: ([0-9a-f]{8})", out.getvalue())
    assert found is not None
    assert found[1] in caplog.text
    assert "450 g" not in caplog.text
    assert "Traceback" not in out.getvalue()


def test_every_way_of_the_console_has_it() -> None:
    assert "went wrong on my side" in answer_text("450 g wax at 8 %", Broken(None))
    out = io.StringIO()
    ask_json(["450 g wax at 8 %\n", "12 oz in grams\n"], Broken(None), out)
    records = [json.loads(line) for line in out.getvalue().splitlines()]
    assert [record["kind"] for record in records] == ["not_understood"] * 2
