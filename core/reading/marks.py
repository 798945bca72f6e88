"""The row of marks that reading works on: amounts, words with what they tell, unit words, signs."""

from __future__ import annotations

import dataclasses
import functools
from collections.abc import Iterable
from dataclasses import dataclass, field

from core.reading.amounts import Amount
from core.reading.words import NOTHING, NOUNS
from core.reading.workings import Counted, Working
from core.units import Quantity


@dataclass(slots=True, eq=False)
class Measured:
    """One amount with what it was found to be of. `of` is a noun tag of the vocabulary, "" while unknown.

    `kind`: mass volume percent number money temperature difference length density rate ratio part drop degrees
    discount.
    `subject` is the noun that stands before it where another one follows ("the jar holds 250 g of water"); `side` is
    where the noun it is of stands (left or right), `sure` that nothing stands between them.
    """

    amount: Amount
    kind: str
    value: Quantity | None
    at: int
    of: str = ""
    name: str = ""
    subject: str = ""
    side: str = ""
    sure: bool = False
    flags: set[str] = field(default_factory=set)

    def __getitem__(self, flag: str) -> bool:
        return flag in self.flags


@dataclass(slots=True, eq=False)
class Mark:
    """One thing in the row. `kind`: word, amount, unit, sign, stop (an end of sentence). `unit` is a unit key."""

    kind: str
    text: str
    tags: frozenset[str] = NOTHING
    measured: Measured | None = None
    unit: str = ""
    gap: str = " "

    @property
    def noun(self) -> str:
        """The noun tag of a word, or ""."""
        return _noun_among(self.tags) if self.tags else ""


@functools.lru_cache(maxsize=1024)  # the words of a text share a few sets of tags
def _noun_among(tags: frozenset[str]) -> str:
    return next((tag for tag in tags if tag in NOUNS), "")


@dataclass(slots=True, eq=False)
class Scan:
    """The whole text, marked. `tags` are all tags of all words; `found` are the amounts in order, `heads` the things
    named, each with the place of its first mark; `workings` the sums that were done before the question,
    `counted` what its answer is to be counted in as well."""

    text: str
    marks: list[Mark]
    found: list[Measured]
    tags: frozenset[str]
    words: frozenset[str]
    heads: list[tuple[int, str]] = field(default_factory=list)
    workings: list[Working] = field(default_factory=list)
    counted: Counted | None = None

    def has(self, *tags: str) -> bool:
        """Whether any of the tags was heard."""
        return not self.tags.isdisjoint(tags)

    def says(self, words: Iterable[str]) -> bool:
        """Whether any of these very words stands in the text."""
        return not self.words.isdisjoint(words)

    def kind(self, kind: str) -> list[Measured]:
        """All amounts of that kind, in order."""
        out = []  # asked some sixty times a text; a comprehension would be a call of its own
        for m in self.found:
            if m.kind == kind:
                out.append(m)
        return out

    def masses(self, *of: str) -> list[Measured]:
        """The weights of any of these things (all weights, if none is named)."""
        out = []
        for m in self.found:
            if m.kind == "mass" and (not of or m.of in of):
                out.append(m)
        return out

    def volumes(self, *of: str) -> list[Measured]:
        """The volumes of any of these things (all volumes, if none is named)."""
        return [m for m in self.found if m.kind == "volume" and (not of or m.of in of)]

    def around(self, m: Measured, before: int, after: int) -> tuple[list[Mark], list[Mark]]:
        """The marks before and after an amount, at most so many, up to another amount or the end of a sentence."""
        ahead: list[Mark] = []
        for mark in reversed(self.marks[max(0, m.at - before) : m.at]):
            if mark.kind in ("amount", "stop"):
                break
            ahead.append(mark)
        behind: list[Mark] = []
        for mark in self.marks[m.at + 1 : m.at + 1 + after]:
            if mark.kind in ("amount", "stop"):
                break
            behind.append(mark)
        return ahead[::-1], behind

    def blank(self, first: int, end: int) -> None:
        """Take the marks from `first` up to `end` out of the text: they tell nothing any more."""
        for i in range(first, end):
            self.marks[i] = Mark("word", "", gap=self.marks[i].gap)
        self.found = [m for m in self.found if not first <= m.at < end]
        self.tell()

    def put(self, m: Measured, fresh: Measured) -> None:
        """`fresh` in the place of `m`."""
        self.marks[m.at] = dataclasses.replace(self.marks[m.at], measured=fresh)
        self.found = [fresh if x is m else x for x in self.found]

    def tell(self) -> None:
        """Gather what all the words tell, anew."""
        self.tags = frozenset().union(*(mark.tags for mark in self.marks)) if self.marks else NOTHING
        self.words = frozenset(mark.text for mark in self.marks if mark.kind == "word")
