"""What stops the bot from starting is told in one clear line, with an exit code, and without the token."""

from __future__ import annotations

import asyncio
import os
import socket
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

import pytest

from tests.standin.run import ROOT, start_process
from tests.standin.server import StandIn

WRONG = "a-token-nobody-may-see"


@dataclass(frozen=True, slots=True)
class Start:
    """A start that must fail: the settings file's text (None: no file), the command, and what the line says."""

    settings: str | None
    args: tuple[str, ...]
    code: int
    says: tuple[str, ...]
    env: dict[str, str] = field(default_factory=dict)


STARTS = {
    "no token": Start("", ("run",), 2, ("DISCORD_TOKEN", "token_file"), {"DISCORD_TOKEN": ""}),
    "no token to sync with": Start("", ("sync",), 2, ("DISCORD_TOKEN",), {"DISCORD_TOKEN": ""}),
    "refused token": Start("", ("run",), 1, ("refused the token",), {"DISCORD_TOKEN": WRONG}),
    "token refused at sync": Start("", ("sync",), 1, ("refused the token",), {"DISCORD_TOKEN": WRONG}),
    "no TOML": Start('database = "x', ("run",), 2, ("not valid TOML",)),
    "unknown setting": Start('databse = "x.db"', ("run",), 2, ("unknown", "“databse”", "database")),
    "no token file": Start('token_file = "nowhere"', ("run",), 2, ("token file", "nowhere"), {"DISCORD_TOKEN": ""}),
}


@pytest.mark.parametrize("start", STARTS.values(), ids=STARTS.keys())
async def test_a_start_that_fails(start: Start, tmp_path: Path, standin: StandIn) -> None:
    config = tmp_path / "config.toml"
    if start.settings is not None:
        config.write_bytes(start.settings.encode("utf-8", "surrogateescape"))
    process = await start_process(standin.base, (*start.args, "--config", str(config)), env=start.env)
    assert await process.ended(20) == start.code
    told = [text for text in process.err.decode().splitlines() if not text.startswith("ts=")]
    assert len(told) == 1, process.printed
    for part in start.says:
        assert part in told[0]
    assert process.out.decode() == ""
    assert "Traceback" not in process.printed
    assert WRONG not in process.printed


@pytest.fixture
def taken_port() -> Iterator[int]:
    """A port somebody else listens on."""
    with socket.socket() as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        yield int(other.getsockname()[1])


async def test_a_taken_health_port(taken_port: int, tmp_path: Path, standin: StandIn) -> None:
    config = tmp_path / "config.toml"
    config.write_text(f"health_port = {taken_port}", "utf-8")
    process = await start_process(standin.base, ("run", "--config", str(config)))
    assert await process.ended(20) == 1
    assert f"Port {taken_port}" in process.err.decode()
    assert "Traceback" not in process.printed


@pytest.mark.parametrize(
    ("args", "code", "says"),
    [
        ((), 2, "COMMAND"),
        (("brew",), 2, "invalid choice"),
        (("run", "--token", "x"), 2, "unrecognized arguments"),
        (("restore", "nowhere.db"), 1, "There is no file nowhere.db"),
        (("backup", "copy.db"), 1, "nothing was recorded"),
        (("check",), 1, "No token"),
    ],
    ids=["nothing", "unknown command", "token as an argument", "restore nothing", "backup nothing", "check"],
)
async def test_a_wrong_command_line(args: tuple[str, ...], code: int, says: str, tmp_path: Path) -> None:
    ended, out, err = await bot(*args, *(("--db", str(tmp_path / "library.db")) if args else ()), cwd=tmp_path)
    assert ended == code
    assert says in out + err
    assert "Traceback" not in out + err


async def bot(*args: str, cwd: Path) -> tuple[int, str, str]:
    """`python -m bot` somewhere else, without a token: exit code and what it printed."""
    env = {**os.environ, "PYTHONPATH": str(ROOT), "DISCORD_TOKEN": ""}
    process = await asyncio.create_subprocess_exec(
        sys.executable,
        *("-m", "bot", *args),
        cwd=cwd,
        env=env,
        stdin=asyncio.subprocess.DEVNULL,
        stdout=asyncio.subprocess.PIPE,
        stderr=asyncio.subprocess.PIPE,
    )
    out, err = await process.communicate()
    assert process.returncode is not None
    return process.returncode, out.decode(), err.decode()
