"""Run a bot against a stand-in: in this process, or as a process of its own that can be measured."""

from __future__ import annotations

import asyncio
import os
import signal
import sys
import time
from collections.abc import AsyncIterator, Mapping
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TypeVar

import discord

from tests.standin import guard
from tests.standin.ledger import TOKEN
from tests.standin.point import pointed_at
from tests.standin.server import StandIn

ROOT = Path(__file__).resolve().parents[2]
TICKS = os.sysconf("SC_CLK_TCK")
KILL_AFTER = 10.0
C = TypeVar("C", bound=discord.Client)


@asynccontextmanager
async def running(client: C, standin: StandIn, token: str = TOKEN) -> AsyncIterator[C]:
    """A client in this process, logged in and connected.

    For on_ready, and for join events, which discord.py holds back before it: await client.wait_until_ready().
    """

    async def at_once(shard_id: int | None, *, initial: bool = False) -> None:
        """discord.py waits 5 s before it identifies again; a test need not."""

    # discord.py waits 2 s for more servers before on_ready, and takes joins meanwhile for old ones
    client._connection.guild_ready_timeout = 0.02
    client.before_identify_hook = at_once  # type: ignore[method-assign]
    identifies = len(standin.gateway.identifies)
    with pointed_at(standin.base):
        async with client:
            task = asyncio.create_task(client.start(token))
            try:
                await _connected(standin, task, identifies + 1)
                yield client
            finally:
                await client.close()
                with suppress(BaseException):  # what ended it early was raised by _connected
                    await task
                await standin.gateway.all_gone()


async def _connected(standin: StandIn, ending: asyncio.Future[Any], identifies: int) -> None:
    """Wait for READY. When the bot ends before: its own exception, or AssertionError with its exit code."""
    ready = asyncio.ensure_future(standin.ready(20.0, identifies=identifies))
    await asyncio.wait({ready, ending}, return_when=asyncio.FIRST_COMPLETED)
    if not ready.done():
        ready.cancel()
        raise AssertionError(f"the bot ended before it connected: {ending.result()}")
    await ready


@dataclass(slots=True)
class BotProcess:
    """A bot as a process. Times are seconds, memory MiB; what it printed is in `out` and `err`."""

    process: asyncio.subprocess.Process
    started_at: float  # time.perf_counter() just before the start
    connected_after: float = 0.0
    out: bytearray = field(default_factory=bytearray)
    err: bytearray = field(default_factory=bytearray)
    _readers: list[asyncio.Task[None]] = field(default_factory=list)

    @property
    def pid(self) -> int:
        return self.process.pid

    @property
    def printed(self) -> str:
        return (self.out + self.err).decode(errors="replace")

    def cpu_seconds(self) -> float:
        """User and system time so far, of all threads (in steps of the kernel's tick, usually 0.01 s)."""
        # the command name may hold blanks and brackets, so count from the last bracket
        fields = Path(f"/proc/{self.pid}/stat").read_text().rpartition(")")[2].split()
        return (int(fields[11]) + int(fields[12])) / TICKS

    def rss_mib(self) -> float:
        return self._status("VmRSS")

    def peak_mib(self) -> float:
        return self._status("VmHWM")

    def _status(self, key: str) -> float:
        for line in Path(f"/proc/{self.pid}/status").read_text().splitlines():
            if line.startswith(f"{key}:"):
                return int(line.split()[1]) / 1024
        raise KeyError(key)

    async def stop(self, sign: signal.Signals = signal.SIGTERM) -> int:
        """Send a signal and wait for the end; the exit code. Killed when it takes longer than 10 s."""
        if self.process.returncode is None:
            self.process.send_signal(sign)
        return await self.ended(KILL_AFTER)

    async def ended(self, seconds: float) -> int:
        """Wait until it ends by itself; the exit code. AssertionError when it does not."""
        try:
            async with asyncio.timeout(seconds):
                code = await self.process.wait()
        except TimeoutError:
            self.process.kill()
            await self.process.wait()
            raise AssertionError(f"the bot did not end within {seconds} s:\n{self.printed}") from None
        await asyncio.gather(*self._readers)
        if guard.SENTENCE in self.printed:
            raise AssertionError(f"the bot tried to reach the network:\n{self.printed}")
        return code


async def start_process(
    base: str, args: tuple[str, ...] = ("run",), *, bare: bool = False, env: Mapping[str, str] | None = None
) -> BotProcess:
    """Start a bot that talks to `base`, without waiting for it to connect. The token is in DISCORD_TOKEN."""
    command = [sys.executable, "-m", "tests.standin.launch", "--base", base, *(["--bare"] if bare else ["--", *args])]
    started_at = time.perf_counter()
    process = await asyncio.create_subprocess_exec(
        *command,
        cwd=ROOT,
        env={**os.environ, "DISCORD_TOKEN": TOKEN, "PYTHONUNBUFFERED": "1", **(env or {})},
        stdin=asyncio.subprocess.DEVNULL,
        stdout=asyncio.subprocess.PIPE,
        stderr=asyncio.subprocess.PIPE,
    )
    found = BotProcess(process, started_at)
    assert process.stdout is not None
    assert process.stderr is not None
    found._readers = [
        asyncio.create_task(_read(process.stdout, found.out)),
        asyncio.create_task(_read(process.stderr, found.err)),
    ]
    return found


@asynccontextmanager
async def running_process(
    standin: StandIn, *args: str, bare: bool = False, env: Mapping[str, str] | None = None
) -> AsyncIterator[BotProcess]:
    """The same, connected; stopped by SIGTERM at the end when it still runs."""
    identifies = len(standin.gateway.identifies)
    found = await start_process(standin.base, args or ("run",), bare=bare, env=env)
    ending = asyncio.ensure_future(found.process.wait())
    try:
        try:
            await _connected(standin, ending, identifies + 1)
        except AssertionError as error:
            raise AssertionError(f"{error}\n{found.printed}") from error
        found.connected_after = time.perf_counter() - found.started_at
        yield found
    finally:
        await found.stop()
        await ending


async def _read(stream: asyncio.StreamReader, into: bytearray) -> None:
    while block := await stream.read(65536):
        into += block
