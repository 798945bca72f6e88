"""Unit words on their own: the unit a word names, and the words that may have been meant by one nobody knows."""

from __future__ import annotations

import functools
from collections.abc import Sequence

from rapidfuzz import fuzz, process

from core.errors import UnknownUnit
from core.reading.amounts import amounts
from core.reading.tokens import Kind, tokenize
from core.reading.unit_words import SPELLINGS
from core.units import DENSITY_UNITS, Quantity, kind_of
from core.writing import SYMBOLS

_LONGEST = 30
# Letters and words that mean one unit only where nothing but a unit can stand.
_ALONE = {"c": "degC", "f": "degF", "k": "kelvin", "t": "t", "g": "g", "l": "l", "m": "m", "in": "in", "fl": "fl_oz"}


def unit_named(text: str) -> str | None:
    """The unit key that `text` names ("grams", "US fl oz", "fl. oz.", "°C", "g/ml"), or None."""
    plain = " ".join(text.casefold().split())
    if len(plain) > _LONGEST:
        return None
    if kind_of(plain) is not None and plain:
        return plain
    if plain in _ALONE:
        return _ALONE[plain]
    by_symbol = _symbols().get(plain)
    if by_symbol is not None:
        return by_symbol
    found = amounts(f"2 {plain}")
    if len(found) != 1 or found[0].end < len(plain.rstrip(".")) + 2 or found[0].ratio:
        return None
    unit, per = found[0].unit, found[0].per
    if per is not None:
        return _density_key(unit, per[1])
    return unit if kind_of(unit) is not None and unit else None


@functools.cache
def _symbols() -> dict[str, str]:
    """What the answers print for a unit, to its key; a difference is never meant by the sign alone."""
    return {symbol.casefold(): key for key, symbol in SYMBOLS.items() if not key.startswith("delta_")}


def _density_key(mass: str, volume: str) -> str | None:
    for key, (top, bottom, times) in DENSITY_UNITS.items():
        if times == 1 and (top, bottom) in ((mass, volume), (mass, f"us_{volume}")):
            return key
    return None


def unknown_unit(text: str, end: int) -> str:
    """The word right after the amount that ends at `end`, or ""."""
    for token in tokenize(text[end : end + _LONGEST * 2])[:1]:
        if token.kind is Kind.WORD and len(token.text) <= _LONGEST:
            return token.raw
    return ""


@functools.cache
def _spellings() -> tuple[tuple[str, str], ...]:
    return tuple(
        (spelling, key) for key, all_ in SPELLINGS.items() for spelling in all_.split(", ") if len(spelling) > 2
    )


def near_units(word: str, kinds: Sequence[type[Quantity]]) -> UnknownUnit:
    """The error for a unit nobody knows, with the known ones of `kinds` (any, if empty) that come near it."""
    words = [spelling for spelling, key in _spellings() if not kinds or kind_of(key) in kinds]
    matches = process.extract(word.casefold()[:_LONGEST], words, scorer=fuzz.ratio, limit=6, score_cutoff=65)
    near: list[str] = []
    keys: set[str] = set()
    for match, _, _ in matches:
        key = dict(_spellings())[match]
        if key not in keys and len(near) < 3:
            keys.add(key)
            near.append(match)
    return UnknownUnit(word, near)
