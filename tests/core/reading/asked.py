"""What a text gives in the end: the answer to the question that reading made of it."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

from core.answer import Answer, results_by_name
from core.book import EmptyBook
from core.question import Question
from core.reading import read
from tests.corpus.score import Outcome

BOOK = EmptyBook()
POUNDS = ("g", "oz", "lb", "kg")


def understood(text: str, last: Question | None = None) -> Question | Answer:
    """What reading makes of the text."""
    return read(text, BOOK, last).asked


def answered(text: str, last: Question | None = None) -> Answer:
    """The answer in the end."""
    return read(text, BOOK, last).answered(BOOK)


def result(text: str, what: str) -> Decimal:
    """One figure of the answer, in its base unit. KeyError where the answer hasn't got it."""
    return results_by_name(answered(text))[what].base


def outcome(text: str) -> Outcome:
    """The answer as the corpus scores it."""
    first = answered(text)
    answers = (first, *first.then)
    numbers: list[tuple[float, str]] = []
    for each in answers:
        for figure in each.results:
            value, base = figure.value, figure.value.BASE
            numbers.append((float(value.base), value.unit if base == "money" else base))
            numbers += [(float(value.to(unit)), _plain(unit)) for unit in {figure.unit, value.unit} - {"", base}]
            if base == "g":
                numbers += [(float(value.to(unit)), unit) for unit in POUNDS]
            if base == "delta_degC":
                numbers += [(float(value.base), "degC"), (float(value.to("delta_degF")), "degF")]
    missing = [need.name for each in answers for need in getattr(each, "needs", ())]
    return Outcome(first.kind in ("worked", "lesson"), missing, numbers, first.intent)


def _plain(unit: str) -> str:
    return unit.removeprefix("us_").removeprefix("imp_").removeprefix("delta_")


def cases(name: str) -> list[tuple[str, str]]:
    """The texts of a case file beside this module, each with what is expected."""
    lines = (Path(__file__).parent / name).read_text("utf-8").splitlines()
    pairs = (line.rsplit(" | ", 1) for line in lines if line and not line.startswith("#"))
    return [(text.strip(), expected.strip()) for text, expected in pairs]
