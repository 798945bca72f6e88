"""One line about how the bot is, over HTTP on this machine alone, for whatever watches it."""

from __future__ import annotations

import asyncio
import contextlib
import math
import time
from collections.abc import AsyncIterator, Callable

LONGEST_REQUEST = 4096
PATIENCE = 5.0


def health_line(*, ready: bool, started: float, latency: float, servers: int, library: str) -> str:
    """`ok` or `not_ready`, then key=value: seconds since the start, milliseconds to the gateway, servers, library."""
    ms = "unknown" if math.isnan(latency) or math.isinf(latency) else f"{1000 * latency:.0f}"
    state = "ok" if ready else "not_ready"
    return f"{state} uptime_s={time.monotonic() - started:.0f} latency_ms={ms} servers={servers} library={library}"


@contextlib.asynccontextmanager
async def served(port: int | None, line: Callable[[], str]) -> AsyncIterator[int | None]:
    """While inside, `GET /health` on 127.0.0.1:`port` (0: any free one) answers 200 with an ok line, else 503.

    Gives the port; None where `port` is None and nothing is served. OSError where the port is taken.
    """
    if port is None:
        yield None
        return

    async def answer(reader: asyncio.StreamReader, writer: asyncio.StreamWriter) -> None:
        try:
            async with asyncio.timeout(PATIENCE):
                head = await reader.readuntil(b"\r\n")
                status, text = _response(head, line)
                body = text.encode() + b"\n"
                writer.write(
                    f"HTTP/1.1 {status}\r\nContent-Type: text/plain; charset=utf-8\r\n"
                    f"Content-Length: {len(body)}\r\nConnection: close\r\n\r\n".encode()
                    + body
                )
                await writer.drain()
        except (TimeoutError, asyncio.IncompleteReadError, asyncio.LimitOverrunError, ConnectionError):
            pass  # whoever asked has gone, or did not speak HTTP
        finally:
            writer.close()

    server = await asyncio.start_server(answer, "127.0.0.1", port, limit=LONGEST_REQUEST)
    async with server:
        yield server.sockets[0].getsockname()[1]


def _response(head: bytes, line: Callable[[], str]) -> tuple[str, str]:
    words = head.split()
    if len(words) < 2 or words[0] not in (b"GET", b"HEAD") or words[1].partition(b"?")[0] != b"/health":
        return "404 Not Found", "only /health is here"
    text = line()
    return ("200 OK" if text.startswith("ok ") else "503 Service Unavailable"), text
