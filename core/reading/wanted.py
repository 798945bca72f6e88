"""What a text asks for: a weight, a percent, a price, a number of packs, and in which unit."""

from __future__ import annotations

from dataclasses import dataclass, field

from core.book import Book
from core.reading.marks import Mark, Measured, Scan
from core.reading.share import Shares
from core.reading.wordset import wordset
from core.units import Mass, Volume, kind_of

_ASKED_REACH = 14
_CHECKING = ("right", "enough", "correct", "true", "sound", "ok", "okay", "false", "fine")


@dataclass(slots=True)
class Wanted:
    """A text with its amounts sorted out, as far as it asks. `used` are where those stand that a builder took in or
    left out knowingly."""

    scan: Scan
    shares: Shares
    book: Book
    used: set[int] = field(default_factory=set)

    def has(self, *tags: str) -> bool:
        """Whether any of the tags was heard."""
        return self.scan.has(*tags)

    def asked(self) -> set[str]:
        """The things that are asked for: after "how much" or "what", or right before a question mark."""
        marks, out = self.scan.marks, set()
        for at, head in self.scan.heads:
            if head == "fragrance" and _is_verb(marks, at):
                continue
            after = at
            both = head == "total" and marks[at].noun in ("wax", "fragrance")  # "wax and oil?"
            while after < len(marks) and (marks[after].noun or (both and marks[after].text in _JOINING)):
                after += 1
            if after < len(marks) and _is_asked(marks, after) and not _said_of(marks, at):
                out.add(head)
            if both and head in out:
                out |= {"wax", "fragrance"}
            i = at - 1
            while i >= 0 and at - i < _ASKED_REACH and marks[i].kind not in ("amount", "stop"):
                if marks[i].tags & {"asks", "what"}:
                    out.add(head)
                i -= 1
        return out

    def said_weight(self, m: Measured) -> bool:
        """Whether "weight" or "weighed" stands right by the amount."""
        near = (*self.scan.marks[max(0, m.at - 2) : m.at], *self.scan.marks[m.at + 1 : m.at + 4])
        return any(mark.text in ("weight", "weighed", "wt") for mark in near)

    @property
    def checks(self) -> bool:
        """Whether a figure of the asker's own is to be checked: "is 25 g right", "too much?"."""
        return self.scan.says(_CHECKING) or self.has("wrong", "enough")

    @property
    def asks_price(self) -> bool:
        """Whether a price is asked for; a price that is told stands beside its money."""
        marks = self.scan.marks
        for i, mark in enumerate(marks):
            per_unit = "per_unit" in mark.tags and (self.has("price") or bool(self.scan.kind("money")))
            if "price" in mark.tags or per_unit:
                near = marks[i + 1 : i + 5]
                told = [x for x in near if x.measured is not None and _tells_price(x.measured)]
                if not told or mark.text in ("cheaper", "cheapest"):
                    return True
        asked = self.has("price") and self.has("asks", "what")
        return asked and not self.shares.loads and bool(self.scan.kind("money"))

    @property
    def asks_net(self) -> bool:
        """Whether a net weight is asked for; one that is told stands beside its weight."""
        marks = self.scan.marks
        for i, mark in enumerate(marks):
            if "net" not in mark.tags:
                continue
            j = i + 1
            while j < len(marks) and marks[j].text in _NET_IS:
                j += 1
            told = [x.measured for x in (*marks[max(0, i - 1) : i], *marks[j : j + 1]) if x.measured is not None]
            if not any(m.kind == "mass" for m in told):
                return True
        return False

    @property
    def asks_packs(self) -> bool:
        """ "How many bags", "slabs needed"."""
        marks = self.scan.marks
        if self.has("buy") and self.scan.masses("pack") and not self.scan.kind("money") and not self.shares.loads:
            return True
        for at, head in self.scan.heads:
            if head in ("pack", "bottle") and (_asks_how_many(marks) or _asks_how_many_of_each(marks)):
                return True
            if head == "bottle" and any(mark.text == "how much" for mark in marks[max(0, at - 3) : at]):
                continue
            if head in ("pack", "bottle", "box"):
                before = marks[max(0, at - 3) : at]
                after = marks[at + 1].text if at + 1 < len(marks) else ""
                alone = after == "?" and (not before or before[-1].kind == "stop" or before[-1].text in (",", "."))
                if any("asks" in mark.tags for mark in before) or after == "needed" or alone:
                    return True
        return False

    def wanted(self) -> list[str]:
        """The units named without a number, in order: what the answer is wanted in."""
        return [mark.unit for mark in self.scan.marks if mark.kind == "unit" and mark.unit and mark.unit != "percent"]

    def wanted_mass(self) -> str:
        """The first weight unit asked for, or ""."""
        return next((unit for unit in self.wanted() if kind_of(unit) is Mass), "")

    def wanted_volume(self) -> str:
        """The first volume unit asked for, or ""."""
        return next((unit for unit in self.wanted() if kind_of(unit) is Volume), "")

    @property
    def asks_percent(self) -> bool:
        """Whether a percent or a load is what is asked for."""
        if self.scan.kind("asked"):
            return True
        for mark in self.scan.marks:
            if mark.kind == "unit" and mark.unit == "percent":
                return True
            if mark.kind == "word" and not mark.tags.isdisjoint(("percent_word", "load")):
                return True
        return False

    @property
    def asks_load(self) -> bool:
        """Whether the load itself is asked for, not given beside its word: "what load", "load?"."""
        marks = self.scan.marks
        for i, mark in enumerate(marks):
            if "load" in mark.tags or "percent_word" in mark.tags:
                near = marks[max(0, i - 3) : i]
                after = marks[i + 1] if i + 1 < len(marks) else None
                closed = after is None or after.text == "?"
                if closed or any(x.tags & {"what", "asks"} for x in near):
                    return True
        return False


def _is_verb(marks: list[Mark], at: int) -> bool:
    """ "How much wax can I scent", "will that scent": what is done to the wax."""
    before = [mark.text for mark in marks[max(0, at - 2) : at]]
    return marks[at].text in ("scent", "perfume") and bool({*before} & {"will", "can", "could", "would"})


_JOINING = wordset("and + & plus")


def _said_of(marks: list[Mark], at: int) -> bool:
    """ "8 % of the wax?": not asked for; "kilos of wax?" is."""
    of = at > 0 and marks[at - 1].text in ("of", "on")
    return of and not (at > 1 and marks[at - 2].kind == "unit" and marks[at - 2].unit != "percent")


def _is_asked(marks: list[Mark], after: int) -> bool:
    """ "Wax?", "wax needed", "oil amount?" """
    text = marks[after].text
    closed = after + 1 >= len(marks) or marks[after + 1].text == "?"
    return text in ("?", "needed", "amount") or (text == "weight" and closed)


_NET_IS = ("weight", "wt", "is", "was", "of", "=", ":", "contents", "content")


def _asks_how_many(marks: list[Mark]) -> bool:
    """ "How many" with nothing after it."""
    for i, mark in enumerate(marks):
        if mark.text in ("how many", "hw mny", "how mny", "hw many"):
            after = marks[i + 1] if i + 1 < len(marks) else None
            if after is None or after.kind == "stop" or after.text in ("and", ",", "do", "should", "to"):
                return True
    return False


def _asks_how_many_of_each(marks: list[Mark]) -> bool:
    """ "How many of each"."""
    return any(
        one.text == "how many" and two.text == "of" and three.text in ("each", "them", "both")
        for one, two, three in zip(marks, marks[1:], marks[2:], strict=False)
    )


def _tells_price(m: Measured) -> bool:
    return m.kind == "money" or (m.kind == "number" and m.amount.value != 1)
