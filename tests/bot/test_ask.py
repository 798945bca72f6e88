"""`ask`: one answer printed; `ask --json`: one object a line, flushed, with exact numbers under agreed names."""

from __future__ import annotations

import io
import json
import os
import select
import subprocess
import sys
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from bot.__main__ import main
from bot.desk import LOCAL, Desk
from bot.text import page
from core.book import Preferences
from tests.bot.bad_inputs import WORKED
from tests.standin.run import ROOT

KEYS = ["question", "kind", "intent", "given", "steps", "results", "missing", "choices", "cautions", "text"]
KINDS = {"worked", "missing", "choice", "lesson", "declined", "not_understood"}
ORIGINS = {"asked", "recorded", "published", "assumed"}
# Exact by law: the avoirdupois pound is 0.45359237 kg (international yard and pound agreement, 1959), 16 oz to it.
POUND = Fraction("453.59237")
OUNCE = POUND / 16
FLUID_OUNCE = Fraction("29.5735295625")  # the US gallon is 231 cubic inches of 25.4 mm each, 128 fl oz to it


@pytest.fixture
def ask(tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Any:
    """Questions in, objects out."""

    def asked(*questions: str) -> list[dict[str, Any]]:
        monkeypatch.setattr(sys, "stdin", io.StringIO("".join(f"{each}\n" for each in questions)))
        assert main(["ask", "--json", "--db", str(tmp_path / "library.db")]) == 0
        return [json.loads(line) for line in capsys.readouterr().out.splitlines()]

    return asked


def figures(items: list[dict[str, Any]], what: str) -> dict[str, float]:
    """The values under that name, by their units."""
    return {item["unit"]: item["value"] for item in items if item["what"] == what}


def test_one_answer_is_printed(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", "--db", str(tmp_path / "library.db"), "450 g wax at 8 %,", "how much fragrance?"]) == 0
    printed = capsys.readouterr()
    assert printed.out.startswith(f"{WORKED}.\n")
    assert printed.err == ""
    assert list(tmp_path.iterdir()) == []


def test_what_is_piped_in_is_the_question(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO("450 g wax at 8 %,\nhow much fragrance?\n"))
    assert main(["ask", "--db", str(tmp_path / "library.db")]) == 0
    assert capsys.readouterr().out.startswith(WORKED)


def test_the_question_may_be_the_argument(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["ask", "--json", "--db", str(tmp_path / "library.db"), "450 g wax at 8 %"]) == 0
    (line,) = capsys.readouterr().out.splitlines()
    assert json.loads(line)["question"] == "450 g wax at 8 %"


def test_the_keys_of_a_worked_answer(ask: Any) -> None:
    (answered,) = ask("450 g soy wax at 8 %, how much fragrance?")
    assert list(answered) == KEYS
    assert answered["question"] == "450 g soy wax at 8 %, how much fragrance?"
    assert answered["kind"] == "worked"
    assert answered["intent"] == "fragrance_for_wax"
    assert figures(answered["given"], "wax") == {"g": 450}
    assert figures(answered["given"], "load") == {"percent": 8}
    assert {given["origin"] for given in answered["given"]} <= ORIGINS
    assert figures(answered["results"], "fragrance")["g"] == 36
    assert figures(answered["results"], "fragrance")["oz"] == pytest.approx(float(36 / OUNCE), rel=1e-15)
    assert figures(answered["results"], "load_of_total")["percent"] == pytest.approx(100 * 36 / 486, rel=1e-15)
    step = answered["steps"][0]
    assert list(step) == ["formula", "numbers", "result"]
    assert "450 g" in step["numbers"]
    assert step["result"] == "36 g"
    assert answered["missing"] == answered["choices"] == []
    assert answered["text"].startswith(WORKED)


def test_every_kind(ask: Any) -> None:
    worked, missing, choice, lesson, declined, neither = ask(
        "2 lb of wax, 6 percent, how many oz of fragrance?",
        "350 ml of wax at 6 %, how much fragrance?",
        "how much wax fits in an 8 oz jar?",
        "why do I weigh instead of using cups?",
        "450 g wax at 30 %, how much fragrance?",
        "blue",
    )
    answers = [worked, missing, choice, lesson, declined, neither]
    assert [each["kind"] for each in answers] == [
        *("worked", "missing", "choice", "lesson", "declined", "not_understood"),
    ]
    for each in answers:
        assert list(each) == KEYS
        assert each["text"].strip()
    assert missing["missing"] == ["density_of_wax"]
    assert missing["results"] == [], "no weight from a volume"
    assert choice["missing"] == ["ounce_kind"]
    assert len(choice["choices"]) == 2
    assert choice["results"] == []
    assert lesson["intent"] == "concept"
    assert declined["intent"] == "unsafe"
    assert declined["results"] == []
    assert neither["results"] == neither["steps"] == []


def test_numbers_are_exact_to_the_last_place_of_a_double(ask: Any) -> None:
    pounds, third, gallon = ask(
        "1 lb 4 oz in grams",
        "/load total:1 kg load:7% basis:wax",
        "1 fl oz of oil at 0.93 g/ml, what does it weigh?",
    )
    assert figures(pounds["results"], "mass")["g"] == float(POUND + 4 * OUNCE) == 566.9904625
    assert figures(third["results"], "wax")["g"] == float(Fraction(1000 * 100, 107))
    assert figures(third["results"], "fragrance")["g"] == float(Fraction(1000 * 7, 107))
    weighs = FLUID_OUNCE * Fraction("0.93")
    assert float(weighs) in [item["value"] for item in gallon["results"] if item["unit"] == "g"]


def test_the_unit_asked_for_is_given_too(ask: Any) -> None:
    kilos, warm = ask("450 g of wax in kg", "185 F in celsius")
    assert 0.45 in [item["value"] for item in kilos["results"] if item["unit"] == "kg"]
    assert 85 in [item["value"] for item in warm["results"] if item["unit"] == "degC"]


def test_lines_stand_alone(ask: Any) -> None:
    first, follow_up, again = ask("450 g wax at 8 %, how much fragrance?", "and at 10 %?", "450 g wax at 8 %")
    assert figures(first["results"], "fragrance")["g"] == 36
    assert follow_up["results"] == []
    assert again["results"] == first["results"]


def test_an_empty_line_is_answered_like_any_other(ask: Any) -> None:
    empty, after = ask("", "450 g wax at 8 %")
    assert (empty["question"], empty["kind"]) == ("", "not_understood")
    assert after["kind"] == "worked"


def test_recording_says_so_and_is_found_by_a_later_line(ask: Any) -> None:
    recorded, found = ask(
        "/record_density material:pine oil density:0.88 g/ml", "/volume volume:100 ml material:pine oil"
    )
    assert recorded["kind"] == "worked"
    assert "recorded" in {given["origin"] for given in found["given"]}
    assert figures(found["results"], "mass")["g"] == 88


def test_the_text_is_what_ask_shows(ask: Any) -> None:
    question = "500 g finished candles at 8 %, how much fragrance?"
    (answered,) = ask(question)
    assert answered["text"] == page(Desk(None).text(question, LOCAL), Preferences())


def test_each_answer_is_there_before_the_next_question(tmp_path: Path) -> None:
    command = [sys.executable, "-m", "bot", "ask", "--json", "--db", str(tmp_path / "library.db")]
    env = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    pipe = subprocess.PIPE
    with subprocess.Popen(command, stdin=pipe, stdout=pipe, stderr=pipe, cwd=ROOT, env=env) as p:
        assert p.stdin is not None
        assert p.stdout is not None
        assert p.stderr is not None
        for percent, grams in ((8, 36), (10, 45), (4, 18)):
            p.stdin.write(f"450 g wax at {percent} %, how much fragrance?\n".encode())
            p.stdin.flush()
            ready, _, _ = select.select([p.stdout], [], [], 20)
            assert ready, "no answer while the pipe is still open"
            assert figures(json.loads(p.stdout.readline())["results"], "fragrance")["g"] == grams
        p.stdin.close()
        assert p.wait(timeout=10) == 0
        assert p.stdout.read() == p.stderr.read() == b""


def test_a_reader_that_goes_away_is_no_failure(tmp_path: Path) -> None:
    bot = f"{sys.executable} -m bot ask --json --db {tmp_path / 'library.db'}"
    questions = "450 g wax at 8 %\\n" * 2000
    ended = subprocess.run(
        ["bash", "-o", "pipefail", "-c", f"printf '{questions.replace('%', '%%')}' | {bot} | head -1"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        check=False,
        timeout=30,
    )
    assert json.loads(ended.stdout)["kind"] == "worked"
    assert "Traceback" not in ended.stderr
    assert "Broken" not in ended.stderr
