"""The real bot as a process beside the bare discord.py bot, both in the same run, asked in turn.

What is compared: each kind of traffic is the same event with the same text for both, and each sends one request for
it, a reply made and sent by discord.py. The bare bot's says one constant sentence of 40 characters, ours the whole
answer with its buttons (about 1,200 characters of JSON), which is our own to pay for. JSON parser, HTTP client and
transport are the same; both hear the messages of their servers, so each also gets its own answers back as events. The
bare bot is discord.py as it comes: it has the answer sent back, and builds an object of every message it hears. Ours
asks for neither, and logs a line for each answer. A button needs an answer to stand below, so that row is two
interactions.
"""

from __future__ import annotations

import asyncio
import contextlib
import sqlite3
import statistics
import sys
import tempfile
from collections.abc import AsyncIterator, Awaitable, Callable, Sequence
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from pathlib import Path

from core.library import Library
from tests.bench.installed import as_installed
from tests.bench.timing import heading, table
from tests.core.library.shelves import filled
from tests.standin.load import FirstAnswer, Report, first_answer, measure
from tests.standin.reply import Reply
from tests.standin.run import ROOT, BotProcess, running_process
from tests.standin.server import StandIn
from tests.standin.world import Channel, Person

IN_FLIGHT = (1, 20, 200)
EACH = 1500  # interactions of one measurement
MATERIALS = 50
PEOPLE = 1000  # who write directly: discord.py sends one message after another to each


def weight(n: int) -> str:
    """A weight that was not asked before: nothing is answered from memory."""
    return f"{300 + n // 10}.{n % 10}"


@dataclass(slots=True)
class Bot:
    """One bot with a stand-in of its own, so that the other one hears nothing of it."""

    standin: StandIn
    process: BotProcess
    bare: bool
    people: list[Person] = field(default_factory=lambda: [Person(f"writer {n}") for n in range(PEOPLE)])

    def load(self, n: int) -> Awaitable[Reply]:
        """An answered slash command."""
        options = {"wax": f"{weight(n)} g", "load": f"{5 + n % 6} %"}
        return self.standin.slash("load", options)

    def words(self, n: int) -> Awaitable[Reply]:
        """A question in plain words."""
        question = f"{weight(n)} g soy wax at {5 + n % 6} %, how much fragrance?"
        return self.standin.slash("load" if self.bare else "ask", {"wax" if self.bare else "question": question})

    def direct(self, n: int) -> Awaitable[Reply]:
        """The same in a direct message, which is answered by a message."""
        question = f"{weight(n)} g soy wax at {5 + n % 6} %, how much fragrance?"
        return self.standin.message(question, dm=True, user=self.people[n % PEOPLE])

    def menu(self, n: int) -> Awaitable[Reply]:
        """A question in somebody's message."""
        text = f"{weight(n)} g soy wax at {5 + n % 6} %, how much fragrance?"
        return self.standin.message_menu("Work it out" if self.bare else "Work out by weight", text)

    def complete(self, n: int) -> Awaitable[Reply]:
        """An option while it is typed."""
        if self.bare:
            return self.standin.autocomplete("load", {"wax": "so"}, "wax")
        return self.standin.autocomplete("volume", {"material": ("be", "par", "soy", "pi")[n % 4]}, "material")

    async def press(self, n: int) -> Reply:
        """An answer, and a button of it."""
        if self.bare:
            return await self.standin.press("Again", await self.standin.slash("button"))
        return await self.standin.press("Ounces first", await self.load(n))

    def record(self, n: int) -> Awaitable[Reply]:
        """Something written down."""
        if self.bare:
            return self.load(n)
        options = {"material": f"oil {n % MATERIALS}", "density": f"0.{880 + n % 90} g/ml"}
        person = Person(f"maker {n % 100}")
        return self.standin.slash("record_density", options, user=person, guild=None, channel=_direct(person))

    def reading(self, n: int) -> Awaitable[Reply]:
        """Mixed traffic that writes nothing."""
        return (self.load, self.words, self.complete, self.press, self.load, self.menu)[n % 6](n)

    def mixed(self, n: int) -> Awaitable[Reply]:
        """The same with one recording in ten."""
        return self.record(n) if n % 10 == 9 else self.reading(n)


def _direct(person: Person) -> Channel:
    return Channel("", type=1, people=(person,))


KINDS: dict[str, Callable[[Bot], Callable[[int], Awaitable[Reply]]]] = {
    "slash command": lambda bot: bot.load,
    "plain words": lambda bot: bot.words,
    "direct message": lambda bot: bot.direct,
    "message menu": lambda bot: bot.menu,
    "completion": lambda bot: bot.complete,
    "answer and button": lambda bot: bot.press,
    "mixed, nothing written": lambda bot: bot.reading,
    "mixed, one in ten recorded": lambda bot: bot.mixed,
}


@asynccontextmanager
async def both(folder: Path) -> AsyncIterator[tuple[Bot, Bot]]:
    """The bare bot and the real one, connected and warm."""
    config = folder / "config.toml"
    config.write_text('database = "library.db"\n', "utf-8")
    env = as_installed(folder)
    async with (
        StandIn(check=False, record=False) as one,
        StandIn(check=False, record=False) as two,
        running_process(one, bare=True, env=env) as plain,
        running_process(two, "run", "--config", str(config), env=env) as real,
    ):
        bots = Bot(one, plain, True), Bot(two, real, False)
        for bot in bots:
            for kind in KINDS.values():
                await measure(bot.standin, bot.process, kind(bot), 60, 5)
        yield bots


async def _in_turn(bots: Sequence[Bot], kind: str, count: int, in_flight: int, rounds: int) -> list[list[Report]]:
    """Reports of each bot, measured alternately."""
    found: list[list[Report]] = [[] for _ in bots]
    for turn in range(rounds):
        for place in (0, 1) if turn % 2 == 0 else (1, 0):
            bot = bots[place]
            found[place].append(await measure(bot.standin, bot.process, KINDS[kind](bot), count, in_flight))
    return found


def _middle(reports: Sequence[Report], figure: str) -> float:
    return statistics.median(getattr(report, figure) for report in reports)


async def _cpu(rounds: int) -> None:
    heading(
        f"CPU per interaction beside the bare bot, medians of {rounds} rounds of {EACH} "
        "(aims for what writes nothing, mixed: at most 1.6; p99 at most 3)"
    )
    rows = []
    with tempfile.TemporaryDirectory() as name:
        async with both(Path(name)) as (bare, real):
            ready = [bot.process.rss_mib() for bot in (bare, real)]
            for kind in KINDS:
                for in_flight in IN_FLIGHT:
                    plain, ours = await _in_turn((bare, real), kind, EACH, in_flight, rounds)
                    ratios = [o.cpu_ms_each / p.cpu_ms_each for o, p in zip(ours, plain, strict=True)]
                    rows.append(
                        (
                            kind,
                            in_flight,
                            f"{_middle(plain, 'cpu_ms_each'):.3f}",
                            f"{_middle(ours, 'cpu_ms_each'):.3f}",
                            statistics.median(ratios),
                            f"{_middle(plain, 'per_second'):,.0f}",
                            f"{_middle(ours, 'per_second'):,.0f}",
                            _middle(plain, "p99_ms"),
                            _middle(ours, "p99_ms"),
                            _middle(ours, "p99_ms") / _middle(plain, "p99_ms"),
                            sum(report.unanswered for report in (*plain, *ours)),
                        )
                    )
            columns = (
                "traffic",
                "in flight",
                "bare ms",
                "ours ms",
                "ratio",
                "bare/s",
                "ours/s",
                "bare p99",
                "ours p99",
            )
            table((*columns, "ratio", "unanswered"), rows)
            heading("Memory (aim: at most twice the bare bot's)")
            after = [bot.process.rss_mib() for bot in (bare, real)]
            peak = [bot.process.peak_mib() for bot in (bare, real)]
            table(
                ("MiB", "bare", "ours", "ratio"),
                [
                    (what, one, two, two / one)
                    for what, (one, two) in (("warm", ready), ("after all that", after), ("peak", peak))
                ],
            )


async def _start(rounds: int) -> None:
    heading(f"From the start of the process to its first answer, medians of {rounds}")
    found: dict[bool, list[FirstAnswer]] = {True: [], False: []}
    with tempfile.TemporaryDirectory() as name:
        config = Path(name) / "config.toml"
        config.write_text('database = "library.db"\n', "utf-8")
        env = as_installed(Path(name))
        for _ in range(rounds):
            for bare in (True, False):
                async with StandIn(check=False) as standin:
                    args = () if bare else ("run", "--config", str(config))
                    ask = lambda n, s=standin: s.slash("load", {"wax": "620 g", "load": "8 %"})  # noqa: E731
                    found[bare].append(await first_answer(standin, ask, *args, bare=bare, env=env))
    rows = []
    for what in ("connected_after", "answered_after", "cpu_seconds", "rss_ready_mib"):
        one, two = (statistics.median(getattr(each, what) for each in found[bare]) for bare in (True, False))
        rows.append((what.replace("_", " "), one, two, two / one))
    table(("seconds, or MiB", "bare", "ours", "ratio"), rows)


async def _locked(rounds: int) -> None:
    heading("Answers while the library is locked or copied (aim: none later than 1 s)")
    rows = []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        library = Library(folder / "library.db")
        filled(library, 100_000)
        library.close()
        async with both(folder) as (_, real):
            for what, around in (
                ("nothing else", _nothing),
                ("a backup of 100,000 records", _copying),
                ("locked", _held),
            ):
                async with around(folder):
                    for kind in ("mixed, nothing written", "mixed, one in ten recorded"):
                        done = await measure(real.standin, real.process, KINDS[kind](real), 600, 20)
                        rows.append((f"{what}: {kind}", done.p50_ms, done.p99_ms, done.max_ms, done.unanswered))
    table(("meanwhile", "p50 ms", "p99 ms", "slowest ms", "unanswered"), rows)


@asynccontextmanager
async def _nothing(folder: Path) -> AsyncIterator[None]:
    yield


@asynccontextmanager
async def _held(folder: Path) -> AsyncIterator[None]:
    """Another program holds the whole file for itself."""
    with contextlib.closing(sqlite3.connect(folder / "library.db", isolation_level=None, timeout=10)) as other:
        other.execute("BEGIN EXCLUSIVE")
        yield
        other.execute("ROLLBACK")


@asynccontextmanager
async def _copying(folder: Path) -> AsyncIterator[None]:
    """Backups by the command line, one after another."""
    stop = asyncio.Event()

    async def copies() -> int:
        made = 0
        while not stop.is_set():
            command = (
                sys.executable,
                "-m",
                "bot",
                "backup",
                "--db",
                str(folder / "library.db"),
                str(folder / "copy.db"),
            )
            process = await asyncio.create_subprocess_exec(*command, cwd=ROOT, stdout=asyncio.subprocess.DEVNULL)
            made += await process.wait() == 0
        return made

    task = asyncio.create_task(copies())
    yield
    stop.set()
    print(f"{await task} backups were made meanwhile")


def cpu(rounds: int) -> None:
    """CPU, latency and memory beside the bare bot."""
    asyncio.run(_cpu(rounds))


def start(rounds: int) -> None:
    """Time and memory to the first answer."""
    asyncio.run(_start(max(3, rounds)))


def locked(rounds: int) -> None:
    """Answers while somebody else has the library."""
    asyncio.run(_locked(rounds))
