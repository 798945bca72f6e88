"""Load on a bot process through the gateway, and what it cost. Prints nothing.

    async with StandIn(check=False, record=False) as standin, running_process(standin, bare=True) as bot:
        report = await measure(standin, bot, lambda n: standin.slash("load", {"wax": "620 g"}), 2000, 20)

`traffic` is called with the running number and returns the awaitable of one question, so any mixture is possible. Plain
messages need a channel or person each: discord.py posts to one channel one message at a time.
"""

from __future__ import annotations

import asyncio
import itertools
import math
import time
from collections.abc import Awaitable, Callable, Sequence
from dataclasses import dataclass

from tests.standin.reply import NotAnsweredError, Reply
from tests.standin.run import BotProcess, start_process
from tests.standin.server import StandIn

Traffic = Callable[[int], Awaitable[Reply]]


@dataclass(frozen=True, slots=True)
class Report:
    """Latencies in milliseconds from the event's sending to the answer's arrival, memory in MiB, CPU of the bot.

    `cpu_ms_each` is the bot process's user and system time for one interaction; its step is the kernel's tick
    (usually 10 ms) divided by the number of interactions.
    """

    interactions: int
    concurrency: int
    seconds: float
    p50_ms: float
    p90_ms: float
    p95_ms: float
    p99_ms: float
    max_ms: float
    cpu_ms_each: float
    rss_before_mib: float
    rss_after_mib: float
    unanswered: int

    @property
    def per_second(self) -> float:
        return self.interactions / self.seconds


def percentile(ordered: Sequence[float], share: float) -> float:
    """The smallest value that at least `share` (0 to 1) of the sorted values do not exceed."""
    return ordered[max(0, math.ceil(share * len(ordered)) - 1)]


async def measure(standin: StandIn, bot: BotProcess, traffic: Traffic, count: int, concurrency: int) -> Report:
    """`count` questions, at most `concurrency` of them in flight. Warm the bot up first with a small run."""
    numbers = itertools.count()
    latencies: list[float] = []
    unanswered = 0

    async def ask_in_turn() -> None:
        nonlocal unanswered
        while (number := next(numbers)) < count:
            try:
                reply = await traffic(number)
            except NotAnsweredError:
                unanswered += 1
            else:
                if reply.answered_after is None:
                    unanswered += 1
                else:
                    latencies.append(reply.answered_after * 1000)

    memory, cpu, begun = bot.rss_mib(), bot.cpu_seconds(), time.perf_counter()
    async with asyncio.TaskGroup() as group:
        for _ in range(concurrency):
            group.create_task(ask_in_turn())
    seconds = time.perf_counter() - begun
    cpu = bot.cpu_seconds() - cpu
    if not latencies:
        raise NotAnsweredError(f"none of {count} questions was answered:\n{bot.printed}")
    latencies.sort()
    p50, p90, p95, p99 = (percentile(latencies, share) for share in (0.5, 0.9, 0.95, 0.99))
    return Report(
        interactions=count,
        concurrency=concurrency,
        seconds=seconds,
        p50_ms=p50,
        p90_ms=p90,
        p95_ms=p95,
        p99_ms=p99,
        max_ms=latencies[-1],
        cpu_ms_each=cpu * 1000 / count,
        rss_before_mib=memory,
        rss_after_mib=bot.rss_mib(),
        unanswered=unanswered,
    )


@dataclass(frozen=True, slots=True)
class FirstAnswer:
    """Seconds from the process's start to its connection and to its first answer; MiB when ready; CPU seconds."""

    connected_after: float
    answered_after: float
    rss_ready_mib: float
    cpu_seconds: float


async def first_answer(
    standin: StandIn, traffic: Traffic, *args: str, bare: bool = False, env: dict[str, str] | None = None
) -> FirstAnswer:
    """Start a bot process, ask it as soon as it is connected, and stop it again."""
    identifies = len(standin.gateway.identifies)
    bot = await start_process(standin.base, args or ("run",), bare=bare, env=env)
    try:
        await standin.ready(30.0, identifies=identifies + 1)
        connected = time.perf_counter() - bot.started_at
        await traffic(0)
        answered = time.perf_counter() - bot.started_at
        return FirstAnswer(connected, answered, bot.rss_mib(), bot.cpu_seconds())
    finally:
        await bot.stop()
