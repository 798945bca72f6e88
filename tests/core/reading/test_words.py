"""The vocabulary, and slips of the pen."""

from __future__ import annotations

import pytest

from core.reading import vocabulary
from core.reading.intent import ROWS
from core.reading.words import TAGGED, mended, tags_of


@pytest.mark.parametrize(
    ("slip", "word"),
    [
        ("fragrannce", "fragrance"),
        ("frgrance", "fragrance"),
        ("candel", "candle"),
        ("denisty", "density"),
        ("perecntage", "percentage"),
    ],
)
def test_slips_are_mended(slip: str, word: str) -> None:
    assert mended(slip) == word


@pytest.mark.parametrize(
    "word", ["later", "letter", "spent", "human", "weather", "shopping", "scene", "title", "handle", "material"]
)
def test_words_of_everyday_talk_stay(word: str) -> None:
    assert mended(word) == word
    assert not tags_of(word)


def test_every_cue_of_the_table_is_in_the_vocabulary() -> None:
    heard = {tag for tags in TAGGED.values() for tag in tags} | set(vocabulary.PHRASES)
    asked = {tag for row in ROWS for group in (*row.hears, row.lacks) for tag in group.split()}
    assert asked <= heard | {"dissolve"}


def test_no_word_of_the_vocabulary_is_mended_into_another() -> None:
    assert [word for word in TAGGED if mended(word) != word] == []
