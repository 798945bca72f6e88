"""What each word of a text tells: tags by the vocabulary, with tolerance for slips of the pen."""

from __future__ import annotations

import functools

from rapidfuzz.distance import OSA

from core.reading import vocabulary
from core.reading.wordset import wordset

NOTHING: frozenset[str] = frozenset()
NOUNS = frozenset(vocabulary.NOUNS)
JOINING = wordset(vocabulary.JOINING)

# Phrases whose words tell nothing more by themselves: "on the scale" speaks of no scale.
WHOLE = wordset("by_weight asks together error without carrier additive dont_mind runs_out flash no_scale")

_SHORTEST_SLIP = 5  # shorter words are too near to one another
_LONGEST_WORD = 24
# What a slip is worth looking up for: the trade's own words, not the small ones.
_WORTH_MENDING = (
    "fragrance fragrances scent scents perfume paraffin beeswax coconut candle candles density volume weight "
    "container vessel water finished mixture together percent percentage total label parcel shipping scale error"
    " spillage votives tealights pitcher bottle syringe empty weighs weighing convert melted pellets flakes "
    "packaging cylinder cheaper cheapest maximum diluted carrier splitting unattended alcohol petrol acetone "
    "gasoline"
)


def _tagged() -> dict[str, frozenset[str]]:
    tags: dict[str, set[str]] = {}
    for table in (vocabulary.NOUNS, vocabulary.ALSO, vocabulary.CUES):
        for tag, words in table.items():
            for word in words.split():
                tags.setdefault(word, set()).add(tag)
    return {word: frozenset(found) for word, found in tags.items()}


def _phrases() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    table: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for tag, phrases in vocabulary.PHRASES.items():
        for phrase in phrases.split(", "):
            first, *rest = phrase.split()
            table.setdefault(first, []).append((tuple(rest), tag))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


TAGGED = _tagged()
PHRASES = _phrases()
_KNOWN = frozenset(TAGGED) | JOINING | wordset(vocabulary.EVERYDAY)
_TARGETS = tuple(_WORTH_MENDING.split())


def tags_of(word: str) -> frozenset[str]:
    """The tags of a lower-case word, as it stands or without its possessive ending; slips are not mended here."""
    return TAGGED.get(word) or TAGGED.get(word.removesuffix("'s"), NOTHING)


@functools.lru_cache(maxsize=4096)
def mended(word: str) -> str:
    """The word of ours that `word` misses by one slip (two in long words), or `word` itself."""
    if not _SHORTEST_SLIP <= len(word) <= _LONGEST_WORD or word in _KNOWN or not word.isalpha():
        return word
    best, fewest = word, 3
    for target in _TARGETS:
        slips = 2 if len(target) >= 8 and len(word) >= 7 else 1
        if abs(len(target) - len(word)) > slips or word[0] != target[0]:
            continue
        distance = OSA.distance(word, target, score_cutoff=slips)
        if distance <= slips and distance < fewest:
            best, fewest = target, distance
    return best
