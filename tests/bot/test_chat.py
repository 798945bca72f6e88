"""The local chat: typed into a terminal, through a pipe, with follow-ups, choices, help and a history."""

from __future__ import annotations

import os
import pty
import re
import select
import stat
import subprocess
import sys
import time
from pathlib import Path

import pytest

from bot.chat import GREETING, answer_text
from bot.desk import COMMANDS, LOCAL, Desk
from core.library import Library
from core.question import description, slots_of
from tests.standin.run import ROOT

READY = "\x1b[?7h"  # what the line editor sends last when it has drawn the prompt
ENDING = "Goodbye. Weigh twice, pour once.\n"


def chat(path: Path, text: str, *first: str) -> subprocess.CompletedProcess[str]:
    """One conversation through a pipe."""
    command = [sys.executable, "-m", "bot", "chat", "--db", str(path), *first]
    return subprocess.run(
        command, input=text, capture_output=True, text=True, cwd=ROOT, check=False, timeout=30, encoding="utf-8"
    )


def test_a_pipe_is_answered_and_ends_by_itself(tmp_path: Path) -> None:
    path = tmp_path / "new folder" / "library.db"
    lines = [
        "450 g soy wax at 8 %, how much fragrance?",
        "",
        "and at 10 %?",
        "/record_density material:pine oil density:0.88 g/ml",
        "/volume volume:100 ml material:pine oil",
    ]
    ended = chat(path, "\n".join(lines), "2 lb of wax at 6 percent")
    assert ended.returncode == 0
    assert ended.stderr == ""
    assert ended.stdout.endswith(ENDING)
    told = re.split(r"^> ", ended.stdout, flags=re.MULTILINE)
    assert told[0].startswith("Steelyard")
    answers = [each.split("\n", 2) for each in told[1:]]
    assert [asked for asked, *_ in answers] == ["2 lb of wax at 6 percent", *(line for line in lines if line)]
    firsts = [first for _, first, *_ in answers]
    assert firsts[0].startswith("1.92 oz (54.4 g)")
    assert firsts[1].startswith("36 g (1.27 oz)")
    assert firsts[2].startswith("45 g (1.59 oz)")
    assert "0.88 g/ml" in firsts[3]
    assert "weighs 88 g" in firsts[4]
    # and it is still known in another conversation
    assert "weighs 88 g" in chat(path, "/volume volume:100 ml material:pine oil").stdout


def test_quit_ends_it_and_leaves_the_rest_unread(tmp_path: Path) -> None:
    for word in ("quit", "exit", "Quit"):
        ended = chat(tmp_path / "library.db", f"{word}\n450 g wax at 8 %\n")
        assert ended.returncode == 0
        assert ended.stdout.endswith(ENDING)
        assert "36 g" not in ended.stdout


def test_nothing_is_written_where_nothing_was_recorded(tmp_path: Path) -> None:
    chat(tmp_path / "library.db", "450 g wax at 8 %\n")
    assert list(tmp_path.iterdir()) == []


def test_the_greeting_holds_three_things_that_work() -> None:
    offered = [line.strip() for line in GREETING.splitlines() if line.startswith("  ")]
    assert len(offered) == 3
    assert {Desk(None).text(each, LOCAL).kind for each in offered} <= {"worked", "lesson"}


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    return Desk(Library(tmp_path / "library.db"))


def test_help_names_every_command_and_what_it_does(desk: Desk) -> None:
    for word in ("help", "/help", "?", " HELP "):
        text = answer_text(word, desk)
        for name, kind in COMMANDS.items():
            assert f"/{name} " in text
            assert description(kind) in text
    assert "quit" in answer_text("help", desk)


@pytest.mark.parametrize("name", COMMANDS)
def test_help_for_a_command_names_its_values_and_an_example_that_works(name: str, desk: Desk) -> None:
    for typed in (f"help {name}", f"help /{name}", f"help {name.upper()}"):
        text = answer_text(typed, desk)
        for slot in slots_of(COMMANDS[name]):
            assert f"  {slot.name}: {slot.says}" in text
    shown = re.search(r"^Example: (/.*)$", text, re.MULTILINE)
    assert (shown is not None) == any(slot.example for slot in slots_of(COMMANDS[name]))
    if shown is not None:
        assert desk.text(shown[1], LOCAL, "2026-01-01T00:00:00+00:00").kind in (
            "worked",
            "missing",
            "lesson",
            "not_understood",
        )


def test_help_for_a_command_nobody_knows(desk: Desk) -> None:
    assert "Did you mean load" in answer_text("help laod", desk)
    assert "Type “help”" in answer_text("help xyzzy", desk)


def test_a_choice_is_made_by_its_number_or_its_name(desk: Desk) -> None:
    question = "500 g finished candles at 8 %, how much fragrance?"
    assert "\n  2. of the total" in answer_text(question, desk)
    assert "and 40 g (1.41 oz) of fragrance" in answer_text("2", desk)
    answer_text(question, desk)
    assert "and 37 g (1.31 oz) of fragrance" in answer_text("of the wax", desk)
    answer_text(question, desk)
    assert "36 g" in answer_text("450 g wax at 8 %", desk), "another question is not taken for a choice"


def test_a_follow_up_changes_one_thing(desk: Desk) -> None:
    answer_text("2 lb of wax, 6 percent, how many oz of fragrance?", desk)
    # 2 lb are 907.18474 g exactly; 10 ÷ 90 of them are 100.8 g
    assert answer_text("and at 10 % of the total?", desk).startswith("3.56 oz (101 g)")
    assert answer_text("in grams", desk).startswith("101 g")
    answer_text("450 g wax at 8 %, how much fragrance?", desk)
    assert answer_text("and with 900 g?", desk).startswith("72 g")


def test_lines_are_wrapped_to_the_terminal(desk: Desk) -> None:
    text = answer_text("350 ml of wax at 6 %?", desk, width=50)
    assert max(map(len, text.splitlines())) <= 50
    assert len(answer_text("350 ml of wax at 6 %?", desk).splitlines()) < len(text.splitlines())


def test_in_a_terminal_with_editing_and_a_history(tmp_path: Path) -> None:
    path = tmp_path / "kept" / "library.db"
    first = in_a_terminal(path, ["450 g wax at 8 %\r", "quit\r"])
    assert "36 g (1.27 oz)" in first
    history = path.with_suffix(".history")
    assert "450 g wax at 8 %" in history.read_text("utf-8")
    assert stat.S_IMODE(history.stat().st_mode) == 0o600
    up_and_changed = "\x1b[A\x1b[A" + "\x7f" * 3 + "10 %\r"  # the line before the last, its end typed anew
    again = in_a_terminal(path, [up_and_changed, "\x04"])
    assert "45 g (1.59 oz)" in again
    assert "Goodbye" in again


def in_a_terminal(path: Path, typed: list[str]) -> str:
    """What the chat printed when typed into through a pseudo-terminal, each text when it is ready for it."""
    ours, theirs = pty.openpty()
    command = [sys.executable, "-m", "bot", "chat", "--db", str(path)]
    env = {**os.environ, "TERM": "xterm", "PROMPT_TOOLKIT_NO_CPR": "1"}
    process = subprocess.Popen(command, stdin=theirs, stdout=theirs, stderr=theirs, cwd=ROOT, env=env)
    os.close(theirs)
    printed = ""
    try:
        for text in typed:
            printed += _until(ours, READY)
            os.write(ours, text.encode())
        printed += _until(ours, "Goodbye")
        assert process.wait(timeout=10) == 0
    finally:
        process.kill()
        process.wait()
        os.close(ours)
    return printed


def _until(terminal: int, mark: str) -> str:
    """All that is printed until the mark has come and nothing follows for a moment."""
    out = b""
    ends = time.monotonic() + 20
    while time.monotonic() < ends:
        ready, _, _ = select.select([terminal], [], [], 0.15 if mark.encode() in out else 1.0)
        if not ready and mark.encode() in out:
            break
        if ready:
            try:
                out += os.read(terminal, 65536)
            except OSError:  # the other end has gone
                break
    assert mark.encode() in out, out.decode(errors="replace")
    return out.decode(errors="replace")
