"""Starting where Discord can't be reached: waited for without a session used up, and left at once when told to."""

from __future__ import annotations

import asyncio
import logging
import socket
from pathlib import Path

import pytest

from bot import service
from bot.client import make_client
from bot.config import Config
from tests.standin import faults
from tests.standin.ledger import TOKEN
from tests.standin.point import pointed_at
from tests.standin.run import start_process
from tests.standin.server import StandIn


@pytest.mark.parametrize("fault", [faults.cut(False), faults.broken(503)], ids=["no connection", "discord is down"])
async def test_logging_in_is_tried_until_it_works(
    standin: StandIn,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    caplog: pytest.LogCaptureFixture,
    fault: faults.Fault,
) -> None:
    monkeypatch.setattr(service, "FIRST_WAIT", 0.01)
    standin.fault("login", fault, fault)
    with pointed_at(standin.base):
        async with make_client(Config(tmp_path / "l.db")) as client:
            assert await service._logged_in(client, TOKEN, asyncio.Event())
            assert client.user is not None
    assert caplog.text.count("event=unreachable") in (1, 2)  # aiohttp tries a cut connection once more by itself
    assert standin.gateway.identifies == []
    assert "Traceback" not in caplog.text


async def test_told_to_stop_while_waiting(standin: StandIn, tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    caplog.set_level(logging.INFO)
    standin.fault("login", faults.broken(503))
    stopping = asyncio.Event()
    with pointed_at(standin.base):
        async with make_client(Config(tmp_path / "l.db")) as client:
            waiting = asyncio.create_task(service._logged_in(client, TOKEN, stopping))
            async with asyncio.timeout(5):
                while "event=unreachable" not in caplog.text:
                    await asyncio.sleep(0.01)
            stopping.set()
            assert await asyncio.wait_for(waiting, 1) is False


async def test_the_process_waits_and_stops_when_told(tmp_path: Path) -> None:
    process = await start_process(f"http://127.0.0.1:{free_port()}", ("run", "--db", str(tmp_path / "l.db")))
    async with asyncio.timeout(20):
        while "event=unreachable" not in process.printed:
            await asyncio.sleep(0.05)
    assert await process.stop() == 0
    assert "again_in_s=5" in process.printed
    assert "event=stopped" in process.printed
    assert "Traceback" not in process.printed


async def test_registering_says_so(tmp_path: Path) -> None:
    process = await start_process(f"http://127.0.0.1:{free_port()}", ("sync", "--db", str(tmp_path / "l.db")))
    assert await process.ended(20) == 1
    assert "can't be reached" in process.printed
    assert "Traceback" not in process.printed


def free_port() -> int:
    """A port nobody listens on."""
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        return int(taken.getsockname()[1])
