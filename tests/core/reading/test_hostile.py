"""Any text at all: never an exception, and work that grows with the text, not with its square."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.answer import Answer
from core.question import Question
from core.reading.read import LONGEST
from tests.core.reading.asked import answered, understood
from tests.work import lines_run

WORDS = [
    "wax",
    "oil",
    "fragrance",
    "jar",
    "jars",
    "500g",
    "8%",
    "1",
    "lb",
    "4",
    "oz",
    "per",
    "x",
    "@",
    "+",
    ",",
    ".",
    "?",
    "and",
    "of",
    "the",
    "in",
    "into",
    "ml",
    "0.9",
    "g/ml",
    "total",
    "each",
    "how",
    "much",
    "many",
    "what",
    "percent",
    "density",
    "pot",
    "empty",
    "full",
    "with",
    "water",
    "12",
    "half",
    "60/40",
    "12:1",
    "drops",
    "cm",
    "by",
    "box",
    "scale",
    "step",
    "$5",
    "eur",
    "70",
    "C",
    "F",
    "not",
    "no",
    "1e9",
    "load",
    "candle",
    "candles",
    "net",
    "label",
    "parcel",
    "is",
    "it",
    "between",
    "to",
    "from",
    "-5",
    "g",
    "nan",
    "½",
    "1/2",
    "a",
    "dozen",
]

PIECES = ("1 ", "a ", "1/", "and ", "½", "1,", ".", "500 g wax ", "8% ", "12 jars ", "wax ")
HOSTILE = [
    "",
    " ",
    "\x00" * 50,
    "NaN g of wax at inf %",
    "1e400 g wax 8%",
    "9**9**9**9",
    "((((((((((",
    "@everyone 500 g wax 8%",
    "```500 g wax``` **8%**",
    "\u202e500 g wax 8%\u202c",
    "-500 g wax 8 %",
    "500 g wax -8 %",
    "0 g wax 0 %",
    "500 g wax 150 %",
    "50 blorps of wax",
    "воск 500 г 8 %",
    "😀" * 300,
    *(piece * (LONGEST // len(piece)) for piece in PIECES),
    "12 jars of 200 g wax each, " * 70,
    "zqxjv " * 330,
    "x" * 6000,
    "500 g wax 8% " * 460,
]


@pytest.mark.parametrize("text", HOSTILE, ids=lambda text: repr(text[:20]))
def test_hostile_texts_get_a_sentence(text: str) -> None:
    assert answered(text).headline.show()


@pytest.mark.parametrize("piece", PIECES)
def test_four_times_the_text_is_about_four_times_the_work(piece: str) -> None:
    """Squared would be sixteen times."""

    def work(length: int) -> int:
        text = piece * (length // len(piece))
        understood(text)  # what is built once is built
        return lines_run(lambda: understood(text))

    assert work(LONGEST) <= 8 * work(LONGEST // 4) + 2000


@pytest.mark.parametrize("text", ["1:2:1:1:1:1:1:1 " * 45, "1:1:1:1:1:1:1:2 " * 40 + "450 g wax at 8 %"])
def test_more_numbers_than_are_read_are_refused_however_few_amounts_they_make(text: str) -> None:
    said = answered(text)
    assert said.kind == "not_understood"
    assert "up to 300 numbers at once" in said.headline.show()


@settings(max_examples=300)
@given(st.lists(st.sampled_from(WORDS), max_size=40).map(" ".join))
def test_any_row_of_our_own_words_is_taken(text: str) -> None:
    assert isinstance(understood(text), Question | Answer)
    assert answered(text).headline.show()


@given(st.text(max_size=300))
def test_any_text_is_taken(text: str) -> None:
    assert answered(text).headline.show()


def test_a_story_too_long_is_not_picked_apart() -> None:
    assert answered("500 g wax 8% " * 200).kind == "not_understood"
