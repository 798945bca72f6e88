"""A bot as a process of its own: started, measured, loaded and stopped; and the guard around the network."""

from __future__ import annotations

import asyncio
import socket
import sys

import pytest

from tests.standin import guard
from tests.standin.load import first_answer, measure, percentile
from tests.standin.reply import Reply
from tests.standin.run import ROOT, running_process, start_process
from tests.standin.server import StandIn


async def test_the_bare_bot_under_load() -> None:
    async with StandIn(record=False) as standin, running_process(standin, bare=True) as bot:

        async def mixed(number: int) -> Reply:
            if number % 2:
                return await standin.slash("load", {"wax": "620 g"})
            return await standin.autocomplete("load", {"wax": "so"}, "wax")

        cpu = bot.cpu_seconds()
        report = await measure(standin, bot, mixed, 200, 10)
        assert report.unanswered == 0
        assert 0 < report.p50_ms <= report.p90_ms <= report.p95_ms <= report.p99_ms <= report.max_ms
        assert report.per_second == pytest.approx(200 / report.seconds)
        # one CPU second a second at most, and some work done
        assert cpu < bot.cpu_seconds() <= cpu + report.seconds + 1
        assert report.cpu_ms_each < report.seconds * 1000 / 200 + 5
        assert 20 < report.rss_before_mib <= bot.peak_mib() < 500
        assert standin.calls == []
        assert standin.ledger.replies == {}
        assert await bot.stop() == 0
        assert bot.printed == ""


async def test_first_answer() -> None:
    async with StandIn() as standin:
        first = await first_answer(standin, lambda _: standin.slash("load", {"wax": "620 g"}), bare=True)
        assert 0 < first.connected_after < first.answered_after < 20
        assert first.cpu_seconds > 0


async def test_a_bot_that_cannot_log_in_is_reported_with_what_it_printed() -> None:
    async with StandIn() as standin:
        with pytest.raises(AssertionError, match="Improper token"):
            async with running_process(standin, bare=True, env={"DISCORD_TOKEN": "wrong"}):
                pass


async def test_a_killed_bot_says_so() -> None:
    async with StandIn() as standin:
        bot = await start_process(standin.base, bare=True)
        await standin.ready()
        bot.process.kill()
        assert await bot.ended(10) == -9


def test_percentiles() -> None:
    values = [float(n) for n in range(1, 101)]
    assert [percentile(values, share) for share in (0.5, 0.9, 0.99, 1.0)] == [50, 90, 99, 100]
    assert percentile([7.0], 0.5) == 7


@pytest.mark.parametrize("host", ["127.0.0.1", "::1", "localhost", "127.8.8.8", "", None, b"localhost"])
def test_local_hosts(host: object) -> None:
    assert guard.is_local(host)


@pytest.mark.parametrize("host", ["192.0.2.1", "example.org", "2001:db8::1", "127.0.0.1.example.org"])
def test_hosts_beyond(host: str) -> None:
    assert not guard.is_local(host)


def test_the_guard_refuses_and_remembers() -> None:
    before = len(guard.attempts)
    with socket.socket() as tcp, socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as udp:
        for attempt in (
            lambda: tcp.connect(("192.0.2.1", 80)),
            lambda: tcp.connect_ex(("192.0.2.1", 80)),
            lambda: udp.sendto(b"", ("192.0.2.1", 53)),
            lambda: socket.getaddrinfo("example.org", 80),
        ):
            with pytest.raises(guard.NetworkUsedError):
                attempt()
    assert len(guard.attempts) == before + 4
    del guard.attempts[before:]


async def test_a_process_that_reaches_out_fails() -> None:
    reach = "import urllib.request; urllib.request.urlopen('http://192.0.2.1')"
    code = f"from tests.standin import guard; guard.install(); {reach}"
    process = await asyncio.create_subprocess_exec(sys.executable, "-c", code, cwd=ROOT, stderr=asyncio.subprocess.PIPE)
    _, printed = await process.communicate()
    assert process.returncode == 1
    assert guard.SENTENCE in printed.decode()
