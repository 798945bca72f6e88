"""The health line."""

from __future__ import annotations

import asyncio

import pytest

from bot.client import SteelyardClient
from bot.health import health_line, served
from tests.standin.server import StandIn


async def ask(port: int, request: bytes = b"GET /health HTTP/1.1\r\nHost: x\r\n\r\n") -> str:
    reader, writer = await asyncio.open_connection("127.0.0.1", port)
    writer.write(request)
    await writer.drain()
    answer = (await reader.read()).decode()
    writer.close()
    return answer


async def test_a_running_bot_is_well(standin: StandIn, client: SteelyardClient) -> None:
    await client.wait_until_ready()
    async with served(0, client.health) as port:
        assert port is not None
        answer = await ask(port)
    assert answer.startswith("HTTP/1.1 200 OK\r\n")
    assert "\r\n\r\nok uptime_s=" in answer
    assert "servers=1 library=ok" in answer


@pytest.mark.parametrize(
    ("request_", "status"),
    [
        (b"GET / HTTP/1.1\r\n\r\n", "404"),
        (b"POST /health HTTP/1.1\r\n\r\n", "404"),
        (b"GET /health HTTP/1.0\r\n\r\n", "503"),
        (b"\r\n", "404"),
    ],
)
async def test_only_health_and_only_when_well(request_: bytes, status: str) -> None:
    async with served(0, lambda: "not_ready uptime_s=1") as port:
        assert port is not None
        assert (await ask(port, request_)).split()[1] == status


async def test_nonsense_is_closed_without_an_answer() -> None:
    async with served(0, lambda: "ok x") as port:
        assert port is not None
        assert await ask(port, b"x" * 10_000 + b"\r\n") == ""


async def test_no_port_no_server() -> None:
    async with served(None, lambda: "ok x") as port:
        assert port is None


def test_the_line() -> None:
    line = health_line(ready=False, started=0.0, latency=float("nan"), servers=2, library="trouble")
    assert line.startswith("not_ready uptime_s=")
    assert line.endswith("latency_ms=unknown servers=2 library=trouble")
