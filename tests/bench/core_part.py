"""Core alone: from a text to its answer, hostile texts and names, the corpus by intent, the largest sums, tables."""

from __future__ import annotations

import contextlib
import statistics
from collections.abc import Callable
from dataclasses import replace
from decimal import Decimal

from core.answer import Answer
from core.ask import answer, from_error
from core.book import EmptyBook
from core.compounds import Fill, Fills
from core.errors import SteelyardError
from core.library import portable_text
from core.question import Question
from core.questions import BY_COMMAND
from core.questions.cover import cheapest_cover
from core.reading import read
from core.reading.slash_form import read_form
from core.reading.values import read_value
from core.reference import densities
from core.reference.table import text_of as table_text
from core.units import Mass
from tests.bench.timing import heading, milliseconds, spread, table
from tests.bot.bad_inputs import BAD
from tests.core.questions.test_cover import MIXED
from tests.core.reading.asked import outcome
from tests.core.reading.test_hostile import HOSTILE
from tests.core.reference.test_table import LOADERS, forget, load_all
from tests.corpus.rows import FILES, load
from tests.corpus.score import score

BOOK = EmptyBook()
WALLS = {
    "figures": "9" * 6000,
    "figures and blanks": "9 " * 3000,
    "brackets": "(" * 6000,
    "stars": "*" * 6000,
    "amounts": "1 lb " * 1200,
    "amounts up to the limit": ("1 lb 4 oz " * 200)[:2000],
    "slashes": "1/2" * 2000,
    "commas": "1,2," * 1500,
    "letters": "a" * 6000,
    "words up to the limit": ("waxfragranse " * 160)[:2000],
    "percents up to the limit": ("8 % of " * 300)[:2000],
    "a conjunct of many scripts": "蜡ж5" * 1500,
    "slash form": "/load wax:" + "450 g + " * 740,
}


def from_text(text: str) -> Answer:
    """What every adapter does with a text."""
    try:
        asked = read_form(text, BY_COMMAND, BOOK) if text.startswith("/") else read(text, BOOK).asked
    except SteelyardError as error:
        return from_error(error)
    return answer(asked, BOOK) if isinstance(asked, Question) else asked


def core(rounds: int) -> None:
    """From a text to an answer, one after another on one processor."""
    heading("Core: from a text to its answer (aim: median at most 1 ms)")
    rows = [row for path in FILES.values() for row in load(path)]
    for row in rows:
        from_text(row.text)
    times = [milliseconds(lambda text=row.text: from_text(text)) for _ in range(rounds) for row in rows]  # type: ignore[misc]
    rate = 1000 * len(times) / sum(times)
    print(f"{len(rows)} questions of the corpus, {rounds} rounds: {spread(times)}; {rate:,.0f} answers/s")
    heading("Core: hostile texts (aim: at most 20 ms each)")
    pieces = {f"{text[:20]!r}": text for text in HOSTILE}
    texts = {**{name: bad.plain for name, bad in BAD.items()}, **WALLS, **pieces}
    _slowest({name: (text, from_text) for name, text in texts.items()}, rounds)
    heading("Core: hostile names, lists and files (aim: at most 20 ms each)")
    named = {f"a name of {name}": (text, _by_name) for name, text in WALLS.items()}
    lists = {f"a list of {text[:12]!r}": (text * (5000 // len(text)), _as_fills) for text in ("1 x 9 g, ", "9, ", "1x")}
    walls = ("name," * 50_000 + "load_percent\na,8", "[" * 60_000)
    files = {f"a file of {text[:8]!r}": (text, _as_file) for text in walls}
    _slowest({**named, **lists, **files}, rounds)


def _slowest(texts: dict[str, tuple[str, Callable[[str], object]]], rounds: int) -> None:
    """Each text at its slowest, and those that took longest."""

    def refused_or_done(text: str, work: Callable[[str], object]) -> None:
        with contextlib.suppress(SteelyardError):
            work(text)

    worst = {
        name: max(milliseconds(lambda t=text, w=work: refused_or_done(t, w)) for _ in range(rounds))  # type: ignore[misc]
        for name, (text, work) in texts.items()
    }
    print(f"{len(texts)} texts, each at its slowest of {rounds}: {spread(list(worst.values()))}")
    slowest = sorted(worst.items(), key=lambda item: -item[1])[:6]
    table(("the slowest", "characters", "ms"), [(name, len(texts[name][0]), ms) for name, ms in slowest])


def _by_name(text: str) -> None:
    densities._near.cache_clear()
    densities.find(text)
    densities.near(text, 5)


def _as_fills(text: str) -> object:
    return read_value(Fills, text)


def _as_file(text: str) -> object:
    return portable_text.read(text.encode())


def tables(rounds: int) -> None:
    """Reading each data file and building what is looked up in it, which the first question that needs it waits for."""
    heading("Reference tables: read for the first time (aim: at most 20 ms each)")
    rows = []
    for name in LOADERS:
        times = []
        for _ in range(max(3, rounds)):
            forget(name)
            times.append(milliseconds(lambda name=name: load_all(name)))  # type: ignore[misc]
        rows.append((name, len(table_text(name)), statistics.median(times), max(times)))
    table(("table", "characters", "median ms", "worst ms"), rows)


def corpus(rounds: int) -> None:
    """What comes of the corpus, by intent: what was understood as what."""
    for name, path in FILES.items():
        heading(f"Corpus, {name}")
        print(score(load(path), outcome))


def sums(rounds: int) -> None:
    """The largest sums that are promised: a batch of 200 kinds of vessels, the cheapest packs."""
    heading("Large sums (aim: at most 20 ms each)")
    lines = ", ".join(f"dye{chr(97 + number // 26)}{chr(97 + number % 26)} 0.01%" for number in range(198))
    weighed = read_form(f"/batch fills:200 x 90 ml density:0.9 load:8% additives:{lines}", BY_COMMAND, BOOK)
    even = [(size, (size * Decimal("0.013")).quantize(Decimal("0.01"))) for size in MIXED]
    fills = Fills(tuple(Fill(1 + n % 9, Mass(Decimal(90 + n))) for n in range(200)))
    mix = read_form(
        "/batch load:8% blend:40 rose + 35 pine + 25 sage additives:dye 0.1%, UV 0.3% step:1 g", BY_COMMAND, BOOK
    )
    batch = replace(mix, fills=fills)
    sizes = (25, 60, 113, 180, 250, 454, 500, 907, 1000, 2268, 5000, 9980)
    packs = ", ".join(f"{size} g {2 + size * 0.0043 + (n * 7 % 5) * 0.11:.2f} eur" for n, size in enumerate(sizes))
    rows = []
    cheapest = [read_form(f"/buy need:{need} g packs:{packs}", BY_COMMAND, BOOK) for need in range(500, 10_001, 500)]
    ounces = "1.75 oz 2.00 eur, 3.3 oz 2.40 eur, 7.15 oz 3.10 eur, 12.9 oz 4.35 eur, 33.25 oz 7.15 eur"
    mixed = read_form(f"/buy need:10000 g packs:{ounces}, {', '.join(packs.split(', ')[:7])}", BY_COMMAND, BOOK)
    for name, asked in (
        ("a batch of 200 kinds of vessels", [batch]),
        ("a batch weighed out in 200 lines", [weighed]),
        ("the cheapest of 12 packs for 10,000 g", cheapest[-1:]),
        ("the same for 20 needs up to 10,000 g", cheapest),
        ("the cheapest of 7 gram packs and 5 ounce packs for 10,000 g", [mixed]),
    ):
        kinds = {answer(question, BOOK).kind for question in asked}
        times = [milliseconds(lambda q=question: answer(q, BOOK)) for _ in range(max(3, rounds)) for question in asked]  # type: ignore[misc]
        rows.append((name, "/".join(sorted(kinds)), spread(times)))
    times = [milliseconds(lambda: cheapest_cover(Decimal(10_000), even)) for _ in range(max(3, rounds))]
    rows.append(("6 gram and 6 ounce packs at one price a gram", "cover alone", spread(times)))
    table(("sum", "kind", "answering it"), rows)
