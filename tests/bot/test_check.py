"""`check`, `backup` and `restore`: one clear line each, and an exit code a script can use."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.__main__ import main
from bot.chat import answer_text
from bot.desk import Desk
from core.library import Library

ASK = "/volume volume:100 ml material:pine oil"
SECRET = "abc.def.nobody-may-see-this"


@pytest.fixture(autouse=True)
def token(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("DISCORD_TOKEN", SECRET)


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """A library with a density in it."""
    path = tmp_path / "library.db"
    record(path, "0.88")
    return path


def record(path: Path, density: str) -> None:
    library = Library(path)
    assert density in answer_text(f"/record_density material:pine oil density:{density} g/ml", Desk(library))
    library.close()


def weighs(path: Path) -> str:
    library = Library(path)
    try:
        return answer_text(ASK, Desk(library)).splitlines()[0]
    finally:
        library.close()


def test_all_is_well(path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--db", str(path)]) == 0
    printed = capsys.readouterr()
    assert len(printed.out.splitlines()) == 1
    assert printed.out.startswith("All is well")
    assert SECRET not in printed.out + printed.err


def test_a_library_that_does_not_exist_yet_is_no_trouble(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["check", "--db", str(tmp_path / "library.db")]) == 0
    assert "All is well" in capsys.readouterr().out
    assert list(tmp_path.iterdir()) == []


def test_two_troubles_are_two_lines(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("DISCORD_TOKEN")
    (tmp_path / "library.db").write_bytes(b"no database" * 500)
    assert main(["check", "--db", str(tmp_path / "library.db")]) == 1
    library, no_token = capsys.readouterr().out.splitlines()
    assert "no database" in library
    assert "DISCORD_TOKEN" in no_token


def test_a_backup_is_put_back(path: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert "weighs 88 g" in weighs(path)
    copy = tmp_path / "copies" / "monday.db"
    assert main(["backup", "--db", str(path), str(copy)]) == 0
    record(path, "0.96")
    assert "weighs 92 g" in weighs(path), "both measurements, in the middle"
    capsys.readouterr()
    assert main(["restore", "--db", str(path), str(copy)]) == 0
    said = capsys.readouterr().out
    kept = next(each for each in tmp_path.iterdir() if ".old" in each.name)
    assert str(kept) in said
    assert "weighs 88 g" in weighs(path)
    assert "weighs 92 g" in weighs(kept)


@pytest.mark.parametrize(
    ("args", "says"),
    [
        (("restore", "nowhere.db"), "no file"),
        (("restore", "list.txt"), "no library"),
        (("restore", "empty.db"), "nothing was changed"),
        (("backup", "library.db"), "library's own file"),
        (("restore", "library.db"), "library's own file"),
        (("backup", "list.txt/copy.db"), "could not be made"),
    ],
)
def test_what_cannot_be_done_leaves_the_library_as_it_was(
    args: tuple[str, str],
    says: str,
    path: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.chdir(tmp_path)
    (tmp_path / "list.txt").write_text("wax\nwicks\n" * 500)
    (tmp_path / "empty.db").touch()
    assert main([*args, "--db", str(path)]) == 1
    printed = capsys.readouterr()
    assert printed.out == ""
    assert says in printed.err
    assert len(printed.err.splitlines()) == 1
    assert "weighs 88 g" in weighs(path)
