"""The README tells the truth: each exchange it shows is what the assistant says, each command it names is there.

An exchange is a block marked `text` whose questions begin with "> "; a line "…" leaves something out.
"""

from __future__ import annotations

import json
import re
import shlex
from typing import Any

import pytest

from bot.__main__ import parser
from bot.chat import answer_text
from bot.config import KNOWN
from bot.desk import COMMANDS, LOCAL, Desk
from bot.formula_files import FILE_COMMANDS
from bot.record import record
from core.book import Preferences
from tests.standin.run import ROOT

README = (ROOT / "README.md").read_text("utf-8")
_BLOCK = re.compile(r"^```(\w+)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
_COMMAND = re.compile(r"python3? -m bot ([^&|#<\n`]+)")


def blocks(kind: str) -> list[str]:
    return [text for marked, text in _BLOCK.findall(README) if marked == kind]


EXCHANGES = [text for text in blocks("text") if text.startswith("> ")]


def flat(text: str) -> str:
    """The same words, however the lines are broken."""
    return " ".join(text.split())


def test_there_is_a_real_exchange_with_a_follow_up() -> None:
    assert any(text.count("\n> ") >= 1 for text in EXCHANGES)


@pytest.mark.parametrize("exchange", EXCHANGES)
def test_an_exchange_is_as_shown(exchange: str) -> None:
    desk = Desk(None)
    for part in re.split(r"^> ", exchange, flags=re.MULTILINE)[1:]:
        question, _, shown = part.partition("\n")
        answered = flat(answer_text(question, desk))
        pieces = [flat(piece) for piece in re.split(r"^…$", shown, flags=re.MULTILINE)]
        if len(pieces) == 1:
            assert pieces[0] == answered
        assert answered.startswith(pieces[0])
        place = 0
        for piece in pieces:
            place = answered.find(piece, place)
            assert place >= 0, f"{piece!r} is not said to {question!r}: {answered}"
            place += len(piece)


def test_a_json_answer_is_as_shown() -> None:
    for text in blocks("json"):
        shown: dict[str, Any] = json.loads(text)
        answered = record(shown["question"], Desk(None).text(shown["question"], LOCAL), Preferences())
        assert list(shown) == list(answered)
        for key, value in shown.items():
            assert value in (answered[key], "…")


@pytest.mark.parametrize("line", sorted({found.strip() for found in _COMMAND.findall(README)}))
def test_a_command_named_there_is_understood(line: str) -> None:
    options = parser().parse_args(shlex.split(line))
    if "question" in options and options.question and options.command in ("chat", "ask"):
        assert Desk(None).text(" ".join(options.question), LOCAL).kind == "worked"


def test_slash_commands_named_there_exist() -> None:
    named = set(
        re.findall(r"(?<![\w/.])/([a-z_]+)\b(?![/.\w])", "\n".join([*blocks("text"), *re.findall(r"`[^`]+`", README)]))
    )
    own = {"ask", "form", "settings", "privacy", "help", "health", *FILE_COMMANDS}
    assert {name for name in named if name not in COMMANDS} <= own


def test_settings_named_there_exist() -> None:
    for text in blocks("toml"):
        assert set(re.findall(r"^(\w+) = ", text, re.MULTILINE)) <= set(KNOWN)


def test_files_named_there_exist() -> None:
    for target in re.findall(r"\]\(([^)#:]+)\)", README):
        assert (ROOT / target).exists(), target


def test_the_two_commands_are_one_line_each_and_need_only_python() -> None:
    lines = [text.strip() for text in blocks("sh") if "venv" in text]
    assert len(lines) >= 2
    for line in lines[:2]:
        assert "\n" not in line
        assert line.startswith("python3 -m venv ")
