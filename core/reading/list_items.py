"""The amounts of a list typed into one option, each with the words that belong to it.

A name may stand before or after its amount; one that holds digits or signs stands in double quotes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from core.reading.amounts import Amount, amounts
from core.reading.wordset import wordset

MOST_NUMBERS = 800  # in one list: 200 kinds of vessels have a count, pounds and ounces each
LONGEST_NAME = 80

_AROUND = " \t\r\n,;+&/|:=@-–—.()[]*×"
_FILLER = wordset("and of the a an x plus with each at for per wax: is are")


@dataclass(frozen=True, slots=True)
class Item:
    """An amount of a list with the words that belong to it."""

    amount: Amount
    name: str
    before: str = ""


def items(text: str) -> list[Item]:
    """The amounts in `text`, each with its name ("" if none)."""
    plain, quoted = masked(text)
    found = amounts(plain, most=MOST_NUMBERS)
    ends = [0, *(amount.end for amount in found)]
    starts = [*(amount.start for amount in found), len(plain)]
    before = [plain[end:start] for end, start in zip(ends, starts, strict=True)]
    if len(found) > 1 and all(_parted(gap) >= 0 for gap in before[1:-1]):
        names = _names_in_their_parts(plain, quoted, found)
        return [Item(amount, names[i], before[i]) for i, amount in enumerate(found)]
    gaps = [words_in(plain, quoted, end, start) for end, start in zip(ends, starts, strict=True)]
    shift = 0 if found and gaps[0] else 1
    return [Item(amount, gaps[i + shift], before[i]) for i, amount in enumerate(found)]


def _parted(gap: str) -> int:
    """Where a comma, semicolon, plus or line end parts two amounts; -1 if nothing does."""
    return next((i for i, sign in enumerate(gap) if sign in ",;+\n"), -1)


def _names_in_their_parts(plain: str, quoted: Sequence[tuple[int, str]], found: list[Amount]) -> list[str]:
    """Each amount's name where every amount has a part of the list to itself: before it, else after it."""
    cuts = [one.end + _parted(plain[one.end : two.start]) for one, two in pairwise(found)]
    names: list[str] = []
    for amount, start, end in zip(found, [0, *cuts], [*cuts, len(plain)], strict=True):
        around = plain[start : amount.start], plain[amount.end : end]
        name = words_in(plain, quoted, start, amount.start) or words_in(plain, quoted, amount.end, end)
        single = (words.strip(_AROUND) for words in around)  # "A 30 %, B 70 %"
        names.append(name or next((word for word in single if word.casefold() == "a"), ""))
    return names


def masked(text: str) -> tuple[str, list[tuple[int, str]]]:
    """`text` with what stands in double quotes blanked, and those names with their places."""
    text = text.replace("“", '"').replace("”", '"')
    if '"' not in text:
        return text, []
    out: list[str] = []
    names: list[tuple[int, str]] = []
    at = 0
    while at < len(text):
        opened = text.find('"', at)
        if opened < 0:
            out.append(text[at:])
            break
        if opened and text[opened - 1].isdigit():  # 3" is three inches
            out.append(text[at : opened + 1])
            at = opened + 1
            continue
        out.append(text[at:opened])
        name: list[str] = []
        end = opened + 1
        while end < len(text) and text[end] != '"':
            end += text[end] == "\\" and end + 1 < len(text)
            name.append(text[end])
            end += 1
        names.append((opened, "".join(name)))
        out.append(" " * (min(end + 1, len(text)) - opened))
        at = end + 1
    return "".join(out), names


def words_in(plain: str, quoted: Sequence[tuple[int, str]], start: int, end: int) -> str:
    """The name between two amounts: what is quoted there, else its words without the small ones at the ends."""
    for place, name in quoted:
        if start <= place < end:
            return name[:LONGEST_NAME]
    words = [word.strip(_AROUND) for word in plain[start:end].split()]
    words = [word for word in words if word]
    while words and words[0].casefold() in _FILLER:
        words.pop(0)
    while words and words[-1].casefold() in _FILLER and not (len(words) > 1 and words[-1] == "A"):  # "soy wax A"
        words.pop()
    return " ".join(words)[:LONGEST_NAME]
