"""Bad input ends in a clear sentence: in the chat, with `ask`, with `ask --json` and on Discord alike."""

from __future__ import annotations

import io
import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main
from bot.chat import answer_text
from bot.desk import Desk
from core.library import Library
from tests.bot.bad_inputs import BAD, Bad, readable
from tests.standin.run import ROOT

EVERY = pytest.mark.parametrize("bad", BAD.values(), ids=BAD.keys())
EMPTY = "That was empty"


def typed(monkeypatch: pytest.MonkeyPatch, text: str) -> None:
    """Standard input holds `text`."""
    monkeypatch.setattr(sys, "stdin", io.StringIO(text))


@EVERY
def test_ask(bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    for text, says in ((bad.plain, bad.says), (bad.form, bad.slash_says))[: 2 if bad.slash else 1]:
        typed(monkeypatch, text)
        assert main(["ask", "--db", str(tmp_path / "library.db")]) == 0
        printed = capsys.readouterr()
        readable(printed.out, says)
        assert printed.err == ""


@EVERY
def test_ask_json(
    bad: Bad, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(monkeypatch, f"{bad.plain}\n{bad.form if bad.slash else ''}\n")
    assert main(["ask", "--json", "--db", str(tmp_path / "library.db")]) == 0
    plain, slash = _objects(capsys.readouterr().out)
    assert plain["question"] == bad.plain
    assert not bad.kinds or plain["kind"] in bad.kinds.split()
    readable(plain["text"], bad.says)
    readable(slash["text"], bad.slash_says if bad.slash else EMPTY)


def _objects(out: str) -> list[dict[str, Any]]:
    return [json.loads(line) for line in out.split("\n") if line]


def test_chat_through_a_pipe(tmp_path: Path) -> None:
    """All of them in one conversation, which ends by itself. A follow-up may read an answer on from the one before,
    so only that each is answered, in a readable way, is looked at here."""
    texts = [text for bad in BAD.values() for text in (bad.plain, bad.form if bad.slash else "") if text]
    raw = "\n".join(texts).encode()
    command = [sys.executable, "-m", "bot", "chat", "--db", str(tmp_path / "library.db")]
    ended = subprocess.run(command, input=raw, capture_output=True, cwd=ROOT, check=False, timeout=60)
    assert ended.returncode == 0
    assert ended.stderr == b""
    greeting, *answers = re.split(r"^> .*\n", ended.stdout.decode(), flags=re.MULTILINE)
    assert "Three things to try" in greeting
    assert len(answers) == len(texts)
    for answered in answers:
        readable(answered.removesuffix("Goodbye. Weigh twice, pour once.\n"), "")


@EVERY
def test_chat(bad: Bad) -> None:
    readable(answer_text(bad.plain, Desk(None)), bad.says)
    if bad.slash:
        readable(answer_text(bad.form, Desk(None)), bad.slash_says)


@pytest.mark.parametrize("text", ["", "   ", "\n\n", "\t"])
def test_nothing_at_all(
    text: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    typed(monkeypatch, text)
    assert main(["ask", "--db", str(tmp_path / "library.db")]) == 0
    readable(capsys.readouterr().out, EMPTY)


def test_bytes_that_are_no_text(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "bot", "ask", "--json", "--db", str(tmp_path / "library.db")]
    raw = b"\xff\xfe 450 g wax at 8 %\n\x80\n"
    ended = subprocess.run(command, input=raw, capture_output=True, cwd=ROOT, check=False, timeout=60)
    assert ended.returncode == 0
    assert ended.stderr == b""
    first, second = _objects(ended.stdout.decode())
    assert first["kind"] == "worked"
    assert second["kind"] == "not_understood"


def test_a_typed_name_is_shown_without_its_hidden_signs(tmp_path: Path) -> None:
    desk = Desk(Library(tmp_path / "library.db"))
    recorded = answer_text("/record_density material:\u202eliop\x1b[31m oil density:0.9 g/ml", desk)
    readable(recorded, "liop")
    readable(answer_text("/volume volume:100 ml material:liop [31m oil", desk), "")
