"""Settings: from the file, the environment and the command line; what is wrong is said, the token never."""

from __future__ import annotations

import tomllib
from pathlib import Path

import pytest

from bot.__main__ import main
from bot.config import KNOWN, ConfigError, Secret, default_database, load
from tests.standin.run import ROOT

SECRET = "abc.def.nobody-may-see-this"


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "config.toml"


def test_without_a_file_the_library_lies_in_the_users_data_folder(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", "/somewhere/data")
    config = load(None, {})
    assert config.database == default_database() == Path("/somewhere/data/steelyard/library.db")
    assert config.token is None
    assert (config.log_level, config.shard_count, config.shard_ids, config.health_port) == ("INFO", None, None, None)


def test_every_setting(file: Path) -> None:
    file.write_text(
        'database = "shelf.db"\nlog_level = "debug"\nshard_count = 4\nshard_ids = [1, 0, 1]\nhealth_port = 8080\n'
    )
    config = load(file, {})
    assert config.database == file.parent / "shelf.db"
    assert config.log_level == "DEBUG"
    assert (config.shard_count, config.shard_ids, config.health_port) == (4, (0, 1), 8080)


def test_the_example_is_valid_and_names_every_setting(file: Path) -> None:
    text = (ROOT / "config.example.toml").read_text("utf-8")
    file.write_text(text, "utf-8")
    assert load(file, {}).log_level == "INFO"
    lines = [line.removeprefix("# ") for line in text.splitlines() if " = " in line]
    offered = tomllib.loads("\n".join(lines))
    assert set(offered) == set(KNOWN)
    file.with_name(offered["token_file"]).write_text(SECRET)
    file.write_text("\n".join(lines), "utf-8")
    assert load(file, {}).token is not None, "and with every line in use it is valid too"


def test_the_command_line_goes_before_the_file(file: Path, tmp_path: Path) -> None:
    file.write_text('database = "shelf.db"')
    assert load(file, {}, database=tmp_path / "other.db").database == tmp_path / "other.db"


def test_the_home_folder_may_be_written_short(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("HOME", "/home/someone")
    assert load(None, {}, database=Path("~/shelf.db")).database == Path("/home/someone/shelf.db")


def test_the_token_from_the_environment_goes_before_its_file(file: Path) -> None:
    token_file = file.with_name("token")
    token_file.write_text(f"{SECRET}\n")
    file.write_text('token_file = "token"')
    for env, expected in (
        ({}, SECRET),
        ({"DISCORD_TOKEN": " from-the-environment "}, "from-the-environment"),
        ({"DISCORD_TOKEN": " "}, SECRET),
    ):
        token = load(file, env).token
        assert token is not None
        assert token.reveal() == expected
    named = load(None, {"DISCORD_TOKEN_FILE": str(token_file)}).token
    assert named is not None
    assert named.reveal() == SECRET


def test_the_token_never_shows_itself(file: Path) -> None:
    config = load(None, {"DISCORD_TOKEN": SECRET})
    shown = f"{config} {config!r} {config.token} {config.token!r} {[config.token]} {vars(Secret)}"
    assert SECRET not in shown


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ('databse = "x.db"', ("“databse”", "database")),
        ("token = 'x'", ("“token”", "token_file")),
        ("[table]\nx = 1", ("“table”",)),
        ("database = 3", ("“database”", "config.example.toml")),
        ("health_port = true", ("“health_port”",)),
        ('log_level = "LOUD"', ("log_level", "INFO")),
        ("shard_count = 2\nshard_ids = [2]", ("shard_ids", "shard_count")),
        ("shard_ids = [0]", ("shard_ids", "shard_count")),
        ("shard_count = 2\nshard_ids = []", ("shard_ids",)),
        ("shard_count = 0", ("shard_count",)),
        ("shard_count = -1", ("shard_count",)),
        ('database = "x', ("not valid TOML",)),
        ('token_file = "nowhere"', ("nowhere", "can't be read")),
        ('token_file = "empty"', ("empty", "is empty")),
    ],
)
def test_what_is_wrong_is_one_line_on_its_own(
    text: str,
    says: tuple[str, ...],
    file: Path,
    capsys: pytest.CaptureFixture[str],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.delenv("DISCORD_TOKEN", raising=False)
    file.with_name("empty").write_text(" \n")
    file.write_text(text, "utf-8")
    assert main(["check", "--config", str(file)]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert len(printed.err.splitlines()) == 1
    for part in says:
        assert part in printed.err


@pytest.mark.parametrize(("raw", "says"), [(b"\xff\xfe", "can't be read"), (None, "There is no settings file")])
def test_a_file_that_cannot_be_read(raw: bytes | None, says: str, file: Path) -> None:
    if raw is not None:
        file.write_bytes(raw)
    with pytest.raises(ConfigError, match=says):
        load(file, {})


def test_a_folder_instead_of_a_file(tmp_path: Path) -> None:
    with pytest.raises(ConfigError, match="can't be read"):
        load(tmp_path, {})
