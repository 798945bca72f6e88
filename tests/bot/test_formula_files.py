"""Formulas as files: from the command line and the local chat a file on this machine, in Discord an attachment."""

from __future__ import annotations

import csv
import io
import json
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.chat import answer_text
from bot.client import SteelyardClient
from bot.desk import LOCAL, Desk
from bot.formula_commands import NOT_FETCHED
from bot.formula_files import LOCAL_COMMANDS
from core.library import Library, Space
from core.library.portable_text import LARGEST_FILE, SHAPE
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, Person, Upload

RECORD = (
    "/record_formula name:winter pine load:8% waxes:soy 70, coconut 30 additives:dye 0.1% notes:stir",
    "/record_formula name:winter pine load:9% reason:too faint",
    "/log_test formula:winter pine observed:no soot verdict:works cure_days:14",
)
FORMULA = {"name": "winter pine", "load": "8%", "notes": "=1+1 *stir* @here"}


def desk_at(path: Path) -> Desk:
    return Desk(Library(path), commands=LOCAL_COMMANDS)


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    """The local chat's, with a formula of two versions and a test."""
    made = desk_at(tmp_path / "library.db")
    for text in RECORD:
        assert "winter pine" in answer_text(text, made)
    return made


# ---- the local chat


@pytest.mark.parametrize("name", ["formulas.json", "formulas.CSV", "my formulas.csv"])
def test_the_chat_writes_a_file_and_reads_it_back(tmp_path: Path, desk: Desk, name: str) -> None:
    said = answer_text(f"/export_formulas file:{tmp_path / name}", desk)
    assert "Exported: 1 formula, 2 versions and 1 test." in said
    assert str(tmp_path / name) in said
    other = desk_at(tmp_path / "other.db")
    assert "2 versions and 1 test, of 1 formula" in answer_text(f"/import_formulas file:{tmp_path / name}", other)
    for text in ("/formula name:winter pine", "/formula name:winter pine version:1", "/shelf formula:winter pine"):
        assert answer_text(text, other) == answer_text(text, desk)
    assert "Nothing new" in answer_text(f"/import_formulas file:{tmp_path / name}", other)


def test_nothing_is_overwritten(tmp_path: Path, desk: Desk) -> None:
    path = tmp_path / "mine.json"
    path.write_text("precious")
    assert "I overwrite nothing" in answer_text(f"/export_formulas file:{path}", desk)
    assert path.read_text() == "precious"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("/export_formulas", "Into which file?"),
        ("/export_formulas file:formulas.xls", ".json or .csv"),
        ("/export_formulas file:{tmp}/nowhere/x.json", "Give a name in a folder that is there."),
        ("/export_formulas file:{tmp}/x.json formula:winter pin", "Did you mean winter pine?"),
        ("/import_formulas", "From which file?"),
        ("/import_formulas file:{tmp}/nowhere.json", "There is no file"),
        ("/import_formulas file:{tmp}", "There is no file"),
        ("/import_formulas file:{tmp}/large.json", "too large"),
        ("/import_formulas file:{tmp}/empty.json", "empty"),
        ("/import_formulas file:{tmp}/picture.json", "UTF-8"),
        ("/import_formulas file:{tmp}/half.csv", "Formula 2 of the file:"),
    ],
)
def test_what_can_not_be_done_is_said(tmp_path: Path, desk: Desk, text: str, says: str) -> None:
    (tmp_path / "large.json").write_bytes(b"x" * (LARGEST_FILE + 1))
    (tmp_path / "empty.json").write_bytes(b"")
    (tmp_path / "picture.json").write_bytes(b"\x89PNG\r\n\x1a\n\xff")
    (tmp_path / "half.csv").write_text("name,load_percent\ngood,8\nbad,eight\n")
    said = answer_text(text.format(tmp=tmp_path), desk)
    assert says in said
    assert "Traceback" not in said
    assert not (tmp_path / "x.json").exists()
    assert "good" not in answer_text("/shelf", desk)


def test_the_chats_help_names_them_and_what_is_typed_in_discord_reaches_no_file(tmp_path: Path, desk: Desk) -> None:
    assert "/import_formulas" in answer_text("help", desk)
    assert "formulas.json" in answer_text("help export_formulas", desk)
    (tmp_path / "a.csv").write_text("name,load_percent\na,8\n")
    typed = Desk(Library(tmp_path / "library.db")).text(f"/import_formulas file:{tmp_path / 'a.csv'}", LOCAL)
    assert typed.kind == "not_understood"


# ---- the command line


def run(*arguments: str | Path) -> int:
    return main([str(each) for each in arguments])


def test_the_command_line_writes_and_reads_them(tmp_path: Path, desk: Desk, capsys: pytest.CaptureFixture[str]) -> None:
    library, other = tmp_path / "library.db", tmp_path / "other.db"
    assert run("export", tmp_path / "f.json", "--db", library) == 0
    assert "Exported: 1 formula" in capsys.readouterr().out
    assert run("import", tmp_path / "f.json", "--db", other, "--server", "77") == 0
    assert "Taken in" in capsys.readouterr().out
    # On a personal shelf they were the owner's alone: on a server's they stay so until it is said otherwise.
    assert Library(other).book((Space.guild(77),), "1").formula("winter pine") is None
    assert run("export", tmp_path / "g.csv", "--db", other, "--server", "77", "--formula", "winter pine") == 0
    assert "only me" in (tmp_path / "g.csv").read_text("utf-8")
    assert run("import", tmp_path / "g.csv", "--db", tmp_path / "third.db", "--only-me") == 0


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (("export", "{tmp}/f.json", "--formula", "nothing"), "no formula called"),
        (("export", "{tmp}/f.pdf"), ".json or .csv"),
        (("import", "{tmp}/nowhere.csv"), "There is no file"),
        (("import", "{tmp}/library.db"), "must name the columns"),
    ],
)
def test_failing_is_one_line_and_an_exit_code(
    tmp_path: Path, desk: Desk, capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], says: str
) -> None:
    assert run(*(each.format(tmp=tmp_path) for each in arguments), "--db", tmp_path / "library.db") == 1
    printed = capsys.readouterr()
    assert says in printed.err
    assert printed.out == ""


# ---- Discord


def upload(text: str | bytes, name: str = "formulas.json") -> Upload:
    return Upload(name, text if isinstance(text, bytes) else text.encode())


ONE = json.dumps({"shape": SHAPE, "formulas": [{"name": "summer", "load_percent": "7", "notes": "**bold** @everyone"}]})


async def test_discord_sends_both_files_and_takes_either(standin: StandIn, client: SteelyardClient) -> None:
    await standin.slash("record_formula", FORMULA, permissions=MANAGER)
    await standin.slash("log_test", {"formula": "winter pine", "observed": "fine"}, permissions=MANAGER)
    sent = await standin.slash("export_formulas")
    assert sent.ephemeral
    assert "Exported: 1 formula, 1 version and 1 test." in sent.text
    assert set(sent.files) == {"formulas.json", "formulas.csv"}
    (row,) = json.loads(sent.files["formulas.json"])["formulas"]
    assert (row["name"], row["seen_by"]) == ("winter pine", "the whole group")
    lines = list(csv.DictReader(io.StringIO(sent.files["formulas.csv"].decode("utf-8-sig"))))
    assert lines[0]["notes"].startswith("'=1+1")
    for name, data in sent.files.items():
        mine = await standin.slash("import_formulas", {"file": upload(data, name)}, guild=None, user=Person(name))
        assert "Taken in: 1 version and 1 test, of 1 formula." in mine.text
        shelf = await standin.slash("shelf", {"formula": "winter pine"}, guild=None, user=Person("nobody"))
        assert "no formula called" in shelf.text


async def test_one_formula_is_sent_and_completed(standin: StandIn, client: SteelyardClient) -> None:
    await standin.slash("record_formula", FORMULA, permissions=MANAGER)
    await standin.slash("record_formula", {**FORMULA, "name": "summer"}, permissions=MANAGER)
    choices = (await standin.autocomplete("export_formulas", {"formula": "win"}, "formula")).choices
    assert [choice["value"] for choice in choices] == ["winter pine"]
    sent = await standin.slash("export_formulas", {"formula": "summer"})
    assert [row["name"] for row in json.loads(sent.files["formulas.json"])["formulas"]] == ["summer"]
    none = await standin.slash("export_formulas", {"formula": "sumer"})
    assert "Did you mean summer?" in none.text
    assert none.files == {}


async def test_who_may_not_record_may_only_take_in_what_is_theirs(standin: StandIn, client: SteelyardClient) -> None:
    refused = await standin.slash("import_formulas", {"file": upload(ONE)})
    assert "manage this server" in refused.text
    kept = await standin.slash("import_formulas", {"file": upload(ONE), "seen_by": "only me"})
    assert "Taken in" in kept.text
    assert "summer" in (await standin.slash("shelf")).text
    assert "summer" not in (await standin.slash("shelf", user=Person("other"))).text
    everybody = await standin.slash("import_formulas", {"file": upload(ONE)}, permissions=MANAGER)
    assert "Taken in" in everybody.text
    shown = await standin.slash("formula", {"name": "summer"}, user=Person("other"))
    assert "@everyone" not in shown.text
    assert "**bold**" not in shown.text


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"x" * (LARGEST_FILE + 1), "too large"),
        (b"", "empty"),
        (b"\x89PNG\r\n\x1a\n\xff", "UTF-8"),
        (b"{" * 70_000, "no JSON"),
        (b"name,load_percent\ngood,8\nbad,22,total\nworse,x\n", "Formula 3 of the file:"),
        (b"name,load_percent,basis\ngood,8,wax\nbad,22,total\n", "no wax holds"),
    ],
)
async def test_a_bad_file_gets_a_sentence_and_nothing_is_taken_in(
    standin: StandIn, client: SteelyardClient, data: bytes, says: str
) -> None:
    reply = await standin.slash("import_formulas", {"file": upload(data, "f.csv")}, permissions=MANAGER)
    assert reply.ephemeral
    assert says in reply.text
    assert "good" not in (await standin.slash("shelf")).text


async def test_a_file_that_is_gone_is_asked_for_again(standin: StandIn, client: SteelyardClient) -> None:
    lost = upload(ONE)
    wanted = standin.ledger.uploads
    standin.ledger.uploads = type("Gone", (dict,), {"get": lambda self, key: None})()
    reply = await standin.slash("import_formulas", {"file": lost}, permissions=MANAGER)
    standin.ledger.uploads = wanted
    assert NOT_FETCHED in reply.text


async def test_a_file_delivered_twice_is_taken_in_once(standin: StandIn, client: SteelyardClient) -> None:
    reply = await standin.slash("import_formulas", {"file": upload(ONE)}, permissions=MANAGER, deliveries=2)
    assert "Taken in: 1 version" in reply.text
    history = await standin.slash("export_formulas")
    assert len(json.loads(history.files["formulas.json"])["formulas"][0]["versions"]) == 1


async def test_the_help_tells_of_both(standin: StandIn, client: SteelyardClient) -> None:
    for command in ("export_formulas", "import_formulas"):
        said = (await standin.slash("help", {"command": command})).text.replace("\\", "")
        assert said.startswith(f"/{command}: ")
