"""A library that is locked, write-protected, out of place or broken: answers come all the same, and what could not be
recorded is said, in the chat, with `ask`, with `ask --json` and on Discord alike."""

from __future__ import annotations

import contextlib
import io
import json
import os
import sqlite3
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager
from dataclasses import dataclass
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.chat import answer_text
from bot.desk import Desk
from core.library import Library
from core.library.migrations import NEWEST
from tests.bot.bad_inputs import WORKED, harmless_markup, readable
from tests.bot.bots import steelyard
from tests.standin.server import StandIn

ASK = "450 g wax at 8 %, how much fragrance?"
RECORD = "/record_density material:rose oil density:0.9 g/ml"
NOBODY = 65534


def with_a_record(folder: Path) -> Path:
    """A sound library with something in it."""
    path = folder / "library.db"
    desk = Desk(Library(path))
    assert "pine oil" in answer_text("/record_density material:pine oil density:0.88 g/ml", desk)
    assert desk.library is not None
    desk.library.close()
    return path


@contextlib.contextmanager
def locked(folder: Path) -> Iterator[Path]:
    """Another program is writing and lets nobody read."""
    path = with_a_record(folder)
    with contextlib.closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("PRAGMA locking_mode = EXCLUSIVE")
        other.execute("BEGIN EXCLUSIVE")
        other.execute("CREATE TABLE somebody_elses (x)")
        yield path
        other.execute("ROLLBACK")


@contextlib.contextmanager
def being_written(folder: Path) -> Iterator[Path]:
    """Another program is writing; reading goes on."""
    path = with_a_record(folder)
    with contextlib.closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN IMMEDIATE")
        yield path
        other.execute("ROLLBACK")


@contextlib.contextmanager
def write_protected(folder: Path) -> Iterator[Path]:
    """File and folder may be read only; root, who may write anywhere, is somebody else for a while."""
    path = with_a_record(folder)
    for file in folder.iterdir():
        file.chmod(0o444)
    folder.chmod(0o555)
    root = os.geteuid() == 0
    if root:
        os.setresuid(NOBODY, NOBODY, 0)
    try:
        yield path
    finally:
        if root:
            os.setresuid(0, 0, 0)
        folder.chmod(0o755)


@contextlib.contextmanager
def without_a_folder(folder: Path) -> Iterator[Path]:
    (folder / "file").write_text("in the way")
    yield folder / "file" / "library.db"


@contextlib.contextmanager
def not_yet_there(folder: Path) -> Iterator[Path]:
    yield folder / "new" / "library.db"


@contextlib.contextmanager
def damaged(folder: Path) -> Iterator[Path]:
    """Everything but the first page overwritten."""
    path = with_a_record(folder)
    size = path.stat().st_size
    with path.open("r+b") as file:
        file.seek(4096)
        file.write(b"\xa5" * (size - 4096))
    yield path


@contextlib.contextmanager
def cut_off(folder: Path) -> Iterator[Path]:
    path = with_a_record(folder)
    with path.open("r+b") as file:
        file.truncate(6000)
    yield path


@contextlib.contextmanager
def no_database(folder: Path) -> Iterator[Path]:
    (folder / "library.db").write_bytes(b"this is a shopping list, not a database\n" * 200)
    yield folder / "library.db"


@contextlib.contextmanager
def a_folder(folder: Path) -> Iterator[Path]:
    (folder / "library.db").mkdir()
    yield folder / "library.db"


@contextlib.contextmanager
def of_a_newer_version(folder: Path) -> Iterator[Path]:
    path = with_a_record(folder)
    with contextlib.closing(sqlite3.connect(path)) as db:
        db.execute(f"PRAGMA user_version = {NEWEST + 1}")
    yield path


@dataclass(frozen=True, slots=True)
class Trouble:
    """`reading` is said with every answer, "" where reading works; `writing` where something was to be recorded."""

    made: Callable[[Path], AbstractContextManager[Path]]
    reading: str
    writing: str


TROUBLES = {
    "locked": Trouble(locked, "in use", "in use"),
    "being written": Trouble(being_written, "", "in use"),
    "write-protected": Trouble(write_protected, "", "write-protected"),
    "no folder": Trouble(without_a_folder, "folder", "folder"),
    "damaged": Trouble(damaged, "damaged", "damaged"),
    "cut off": Trouble(cut_off, "damaged", "damaged"),
    "no database": Trouble(no_database, "no database", "no database"),
    "a folder in its place": Trouble(a_folder, "can't be opened", "can't be opened"),
    "newer": Trouble(of_a_newer_version, "newer", "newer"),
    "not there yet": Trouble(not_yet_there, "", ""),
}
EVERY = pytest.mark.parametrize("trouble", TROUBLES.values(), ids=TROUBLES.keys())


@pytest.fixture
def folder() -> Iterator[Path]:
    """A folder that everybody may enter (pytest's own may be entered by its owner alone)."""
    with tempfile.TemporaryDirectory() as name:
        Path(name).chmod(0o755)
        yield Path(name)


def told(answered: str, recorded: str, trouble: Trouble) -> None:
    """The answer is there with what is wrong; the recording says so or did it."""
    readable(answered, WORKED)
    assert trouble.reading in answered
    assert not trouble.reading or answered.count(trouble.reading) == 1
    readable(recorded, trouble.writing or "0.9 g/ml")
    assert bool(trouble.writing) != ("rose oil" in recorded), recorded


@EVERY
def test_chat(trouble: Trouble, folder: Path) -> None:
    with trouble.made(folder) as path:
        desk = Desk(Library(path))
        told(answer_text(ASK, desk), answer_text(RECORD, desk), trouble)
        assert desk.library is not None
        desk.library.close()


@EVERY
def test_ask(trouble: Trouble, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
    with trouble.made(folder) as path:
        assert main(["ask", "--db", str(path), ASK]) == 0
        answered = capsys.readouterr().out
        assert main(["ask", "--db", str(path), RECORD]) == 0
        told(answered, capsys.readouterr().out, trouble)


@EVERY
def test_ask_json(
    trouble: Trouble, folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "stdin", io.StringIO(f"{ASK}\n{RECORD}\n"))
    with trouble.made(folder) as path:
        assert main(["ask", "--json", "--db", str(path)]) == 0
    answered, recorded = map(json.loads, capsys.readouterr().out.splitlines())
    assert answered["kind"] == "worked"
    assert {"what": "fragrance", "value": 36, "unit": "g"} in answered["results"]
    assert recorded["kind"] == ("not_understood" if trouble.writing else "worked")
    told(answered["text"], recorded["text"], trouble)


@EVERY
async def test_discord(trouble: Trouble, folder: Path, standin: StandIn) -> None:
    with trouble.made(folder) as path:
        async with steelyard(standin, path):
            answered = await standin.slash("load", {"wax": "450 g", "load": "8 %"}, guild=None)
            options = {"material": "rose oil", "density": "0.9 g/ml"}
            recorded = await standin.slash("record_density", options, guild=None)
            for reply in (answered, recorded):
                harmless_markup(str(reply.message.embeds[0]["description"]))
            plain = [str(reply.message.embeds[0]["description"]).replace("\\", "") for reply in (answered, recorded)]
            told(plain[0], plain[1].partition("You typed")[0], trouble)


@EVERY
def test_check_says_it_in_one_line(
    trouble: Trouble, folder: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("DISCORD_TOKEN", "x")
    with trouble.made(folder) as path:
        code = main(["check", "--db", str(path)])
    printed = capsys.readouterr()
    assert printed.err == ""
    if trouble.reading or trouble.made is write_protected:
        assert code == 1
        assert trouble.writing in printed.out.splitlines()[0]
    else:
        assert code == 0
        assert printed.out.startswith("All is well")
