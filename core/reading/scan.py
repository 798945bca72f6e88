"""A text as the row of marks that reading works on: amounts, words with what they tell, unit words, signs."""

from __future__ import annotations

import dataclasses
import itertools
from collections.abc import Iterable
from dataclasses import dataclass, field
from decimal import Decimal

from core.errors import OutOfRange
from core.reading.amounts import Amount, amounts
from core.reading.quantities import density, quantity
from core.reading.tokens import Kind, Token, tokenize
from core.reading.unit_letters import Unit
from core.reading.unit_match import nearest_spelling, unit_at
from core.reading.words import NOTHING, NOUNS, PHRASES, WHOLE, mended, tags_of
from core.units import (
    Density,
    Length,
    Mass,
    Money,
    Number,
    Percent,
    Quantity,
    Temperature,
    TemperatureDifference,
    Volume,
    kind_of,
)

MOST_MENDED = 60  # words of one text that are looked up for slips; the rest count as they stand

_KINDS: dict[type[Quantity], str] = {
    Mass: "mass",
    Volume: "volume",
    Percent: "percent",
    Number: "number",
    Money: "money",
    Temperature: "temperature",
    TemperatureDifference: "difference",
    Length: "length",
    Density: "density",
}


@dataclass(slots=True, eq=False)
class Measured:
    """One amount with what it was found to be of. `of` is a noun tag of the vocabulary, "" while unknown.

    `kind`: mass volume percent number money temperature difference length density rate ratio part drop degrees.
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
        return next((tag for tag in self.tags if tag in NOUNS), "") if self.tags else ""


@dataclass(slots=True, eq=False)
class Scan:
    """The whole text, marked. `tags` are all tags of all words; `found` are the amounts in order, `heads` the things
    named, each with the place of its first mark."""

    text: str
    marks: list[Mark]
    found: list[Measured]
    tags: frozenset[str]
    words: frozenset[str]
    heads: list[tuple[int, str]] = field(default_factory=list)

    def has(self, *tags: str) -> bool:
        """Whether any of the tags was heard."""
        return not self.tags.isdisjoint(tags)

    def says(self, words: Iterable[str]) -> bool:
        """Whether any of these very words stands in the text."""
        return not self.words.isdisjoint(words)

    def kind(self, kind: str) -> list[Measured]:
        """All amounts of that kind, in order."""
        return [m for m in self.found if m.kind == kind]

    def masses(self, *of: str) -> list[Measured]:
        """The weights of any of these things (all weights, if none is named)."""
        return [m for m in self.found if m.kind == "mass" and (not of or m.of in of)]

    def volumes(self, *of: str) -> list[Measured]:
        """The volumes of any of these things (all volumes, if none is named)."""
        return [m for m in self.found if m.kind == "volume" and (not of or m.of in of)]


_END_SIGNS = frozenset(".?!;")
_PLAIN_SIGNS = frozenset(",:=+-@/()x*→>×–&~")


def scan(text: str) -> Scan:
    """The marks of `text`. Raises OutOfRange for a number that nothing could be worked out from."""
    tokens = tokenize(text)
    marks: list[Mark] = []
    found: list[Measured] = []
    spans = iter(_parted(amounts(text, tokens), text))
    amount = next(spans, None)
    i, mending = 0, MOST_MENDED
    while tokens[i].kind is not Kind.END:
        token = tokens[i]
        if amount is not None and token.start >= amount.start:
            measured = _measured(amount, len(marks))
            marks.append(Mark("amount", amount.text, measured=measured, gap=token.gap))
            found.append(measured)
            while tokens[i].kind is not Kind.END and tokens[i].start < amount.end:
                i += 1
            if amount.text.endswith("."):
                marks.append(Mark("sign", ".", gap=""))
            amount = next(spans, None)
            continue
        limit = amount.start if amount is not None else len(text)
        if token.kind is Kind.WORD:
            i, mending = _word(tokens, i, limit, marks, mending)
            continue
        if token.kind is Kind.SIGN:
            _sign(token, tokens[i + 1], marks)
        i += 1
    _units_before_numbers(marks)
    _one_of_it(marks, found)
    _inches(marks)
    _unit_of_the_last(marks)
    _degrees_named_apart(marks)
    _taken_off(marks)
    _lone_scale_letters(marks, found)
    _dozen_and_a_half(marks)
    tags = frozenset().union(*(mark.tags for mark in marks)) if marks else NOTHING
    words = frozenset(mark.text for mark in marks if mark.kind == "word")
    return Scan(text, marks, found, tags, words)


# A range in a recipe is narrower; "40 g to 640 g" is oil poured into wax.
WIDEST_RANGE = 4


def _two_weights(amount: Amount, whole: str) -> bool:
    """ "40 g to 640 g", "it went from 120 g to 87 g"."""
    wide = amount.high is not None and amount.high >= amount.value * WIDEST_RANGE
    moved = amount.high is not None and whole[: amount.start].rstrip().casefold().endswith("from")
    return (wide or moved) and " to " in amount.text and amount.unit in ("g", "kg", "oz", "lb")


def _price_asked(amount: Amount) -> int:
    """ "36 euro price per kg" asks for the price and is no price of 36 a kilo: where the asking begins, else -1."""
    if amount.per is None or amount.unit not in ("usd", "eur", "gbp", "money"):
        return -1
    return max(amount.text.casefold().find(word) for word in (" price", " cost", " how ", " what "))


def _sentence_end(text: str) -> int:
    """Where a sentence ends inside the text of one amount ("4 kg. Price per 100 g"), else -1."""
    for mark in (". ", "? ", "! ", "; "):
        if (place := text.find(mark)) > 0:
            return place + 1
    return -1


def _parted(found: list[Amount], whole: str) -> list[Amount]:
    """ "2 lb, 1 oz per lb" is a weight and a rate, not a rate of 2 lb 1 oz."""
    out: list[Amount] = []
    for amount in found:
        if _two_weights(amount, whole):
            cut = amount.start + amount.text.index(" to ")
            assert amount.high is not None
            out.append(Amount(amount.start, cut, amount.value, amount.unit, text=amount.text[: cut - amount.start]))
            out.append(
                Amount(cut + 4, amount.end, amount.high, amount.unit, text=amount.text[cut - amount.start + 4 :])
            )
            continue
        asked = _price_asked(amount)
        if asked > 0:
            text = amount.text[:asked].rstrip()
            out.append(Amount(amount.start, amount.start + len(text), amount.value, amount.unit, text=text))
            continue
        if amount.per is not None and (stop := _sentence_end(amount.text)) > 0:
            value, unit = amount.per
            cut = amount.start + stop
            out.append(Amount(amount.start, cut, amount.value, amount.unit, text=amount.text[:stop]))
            digit = next((k for k, sign in enumerate(amount.text) if k > stop and sign.isdigit()), -1)
            last = digit if digit > 0 else amount.text.rindex(" ") + 1
            out.append(Amount(amount.start + last, amount.end, value, unit, text=amount.text[last:]))
            continue
        if amount.per is None or len(amount.parts) != 2 or "," not in amount.text:
            out.append(amount)
            continue
        comma = amount.start + amount.text.index(",")
        (first, unit), (second, other) = amount.parts
        out.append(Amount(amount.start, comma, first, unit, text=amount.text[: comma - amount.start]))
        rest = amount.text[comma - amount.start + 1 :].lstrip()
        out.append(Amount(amount.end - len(rest), amount.end, second, other, per=amount.per, text=rest))
    return out


def _sign(token: Token, after: Token, marks: list[Mark]) -> None:
    if token.text in _END_SIGNS and not (token.text == "." and after.gap == "" and after.kind is not Kind.END):
        marks.append(Mark("stop", token.text, gap=token.gap))
    elif token.text == "%":
        marks.append(Mark("unit", "%", tags_of("%"), unit="percent", gap=token.gap))
    elif token.text in _PLAIN_SIGNS:
        marks.append(Mark("sign", token.text, gap=token.gap))


def _word(tokens: list[Token], i: int, limit: int, marks: list[Mark], mending: int) -> tuple[int, int]:
    """Add the word, phrase or unit at token `i`; the next token and how many more words may be mended."""
    token = tokens[i]
    if token.gap == "\n" and marks and marks[-1].kind not in ("stop", "sign"):
        marks.append(Mark("stop", "\n"))
    tags: set[str] = set()
    for rest, tag in PHRASES.get(token.text, ()):
        if all(tokens[i + 1 + k].text == word for k, word in enumerate(rest)) and (
            not rest or tokens[i + len(rest)].end <= limit
        ):
            tags.add(tag)
            if tag in WHOLE:
                marks.append(Mark("word", " ".join((token.text, *rest)), frozenset({tag}), gap=token.gap))
                return i + 1 + len(rest), mending
    unit = _lone_unit(tokens, i)
    if unit is not None and tokens[unit.next - 1].end <= limit and not unit.key.startswith("delta"):
        marks.append(Mark("unit", token.text, tags_of(token.text) | tags, unit=unit.key, gap=token.gap))
        return unit.next, mending
    text = token.text
    plain = tags_of(text)
    if not plain and mending:
        mending -= 1
        text = mended(text)
        plain = tags_of(text)
    marks.append(Mark("word", text, plain | tags if tags else plain, gap=token.gap))
    return i + 1, mending


_TO_A_UNIT = frozenset({"many", "in", "to", "into", "as", "or", "und", "en", "="})
_SCALE_LETTERS = {"c": "degC", "f": "degF"}


def _lone_unit(tokens: list[Token], i: int) -> Unit | None:
    """A unit named without a number; slips and the letters of a thermometer only where a unit is expected."""
    unit = unit_at(tokens, i)
    if unit is not None or i == 0 or tokens[i - 1].text not in _TO_A_UNIT:
        return unit
    text = tokens[i].text
    if text in _SCALE_LETTERS and tokens[i + 1].text not in ("'",):
        return Unit(_SCALE_LETTERS[text], i + 1)
    key = nearest_spelling(text)
    return Unit(key, i + 1) if key is not None else None


def _unit_of_the_last(marks: list[Mark]) -> None:
    """ "150, 200 and 250 ml", "8 and 10 %": the last one's unit is the others' too."""
    shared = -1
    for i in range(len(marks) - 3, -1, -1):
        here, comma, last = marks[i].measured, marks[i + 1].text, marks[i + 2].measured
        if here is None or last is None or here.kind != "number" or here.amount.unit:
            continue
        listed = comma == "," and (shared == i + 2 or last.amount.text.replace(".", "").isdecimal())
        if comma not in ("and", "or") and not listed:
            continue
        labelled = i > 0 and (marks[i - 1].noun or marks[i - 1].text in (":", "=", "size", "wick", "no", "batch"))
        sized = last.amount.unit in _SHARED and not last.amount.per and not last.amount.parts
        if sized and not labelled and last.amount.value / 20 < here.amount.value < last.amount.value * 20:
            _give_unit(here, last.amount.unit)
            shared = i


def _taken_off(marks: list[Mark]) -> None:
    """ "2267 g minus 400", "27 g in 450": the second number is of the same unit."""
    last = marks[0].measured if marks else None
    for mark, before in zip(marks[1:], marks, strict=False):
        measured = mark.measured
        if measured is None:
            continue
        bare = measured.kind == "number" and not measured.amount.unit
        poured = before.text in ("in", "into") and last is not None and measured.amount.value >= 3 * last.amount.value
        bare = bare and (before.text in ("minus", "less") or poured)
        if bare and last is not None and last.kind in ("mass", "volume") and last.amount.unit in _SHARED:
            _give_unit(measured, last.amount.unit)
        last = measured if measured.kind != "number" else last


_SHARED = frozenset(["g", "kg", "oz", "lb", "ml", "l", "cl", "fl_oz", "percent", "cm", "mm", "in"])


_DEGREE_WORDS = frozenset(["grad", "grade", "gradi", "degres", "degrés", "graus", "grados", "stopni", "deg", "degrees"])
_COLDEST, _HOTTEST = 0, 500


def _degrees_named_apart(marks: list[Mark]) -> None:
    """ "71 grad celsius", "167, that's fahrenheit", "by 9 F": the scale stands a word away from its number."""
    scales = [mark for mark in marks if mark.unit in ("degC", "degF") or mark.text in _SCALE_LETTERS]
    numbers = [mark.measured for mark in marks if mark.measured is not None]
    for mark, after, beyond in zip(marks, marks[1:], (*marks[2:], Mark("stop", "")), strict=False):
        measured = mark.measured
        if measured is None or measured.kind != "number" or measured.amount.unit:
            continue
        if after.text in _SCALE_LETTERS and len(scales) > 1:
            _give_unit(measured, _SCALE_LETTERS[after.text])
        elif after.text in _DEGREE_WORDS and beyond.unit in ("degC", "degF"):
            _give_unit(measured, beyond.unit)
            beyond.unit, beyond.kind = "", "word"
        elif (
            len(numbers) == 1 and len(scales) == 2 and _COLDEST <= measured.amount.value <= _HOTTEST and scales[0].unit
        ):
            _give_unit(measured, scales[0].unit)
            scales[0].unit, scales[0].kind = "", "word"


def _lone_scale_letters(marks: list[Mark], found: list[Measured]) -> None:
    """ "75 c, what is that f?": a lone letter is a scale where a temperature is spoken of."""
    if not any(m.kind in ("temperature", "difference") for m in found):
        return
    for mark in marks:
        if mark.kind == "word" and mark.text in _SCALE_LETTERS:
            mark.kind, mark.unit = "unit", _SCALE_LETTERS[mark.text]


def _dozen_and_a_half(marks: list[Mark]) -> None:
    """ "A dozen and a half" is 18."""
    for i, mark in enumerate(marks[:-2]):
        measured = mark.measured
        if measured is None or not measured.amount.text.endswith("dozen"):
            continue
        words = [after.text for after in marks[i + 1 : i + 4]]
        if words == ["and", "a", "half"] or words[:2] == ["and", "half"]:
            amount = dataclasses.replace(measured.amount, value=measured.amount.value + 6)
            measured.amount, measured.value = amount, quantity(amount)
            for after in marks[i + 1 : i + 1 + len(words) - (words[:2] == ["and", "half"])]:
                after.text, after.tags = "a", NOTHING


def _inches(marks: list[Mark]) -> None:
    """ "Diameter 3 in, height 4 in": where a width or a height is spoken of, "in" after a number is an inch."""
    if not any(mark.tags & {"wide", "high"} for mark in marks):
        return
    for mark, after in itertools.pairwise(marks):
        measured = mark.measured
        if measured is not None and measured.kind == "number" and not measured.amount.unit and after.text == "in":
            _give_unit(measured, "in")


_OPENING = frozenset({"if", "is", "does", "one", "the", "my", "each", "every", "a", "so"})
_EVERY = frozenset({"one", "each", "every", "a"})
_IS = frozenset({"is", "weighs", "weigh", "=", "was", "weighed", "has", "are"})


def _one_of_it(marks: list[Mark], found: list[Measured]) -> None:
    """ "Cup of oil weighs ...", "quart of wax to pounds": a measure without a number counts as one."""
    for i, mark in enumerate(marks[:-2]):
        before = marks[i - 1] if i else None
        opens = before is None or before.kind == "stop" or before.text in _OPENING
        linked = marks[i + 1].text == "of" or (
            before is not None and before.text in _EVERY and marks[i + 1].text in _IS
        )
        whole = kind_of(mark.unit) is Volume or mark.text in ("pound", "kilo", "kilogram", "pint")
        if mark.kind == "unit" and opens and linked and whole:
            measured = _measured(Amount(0, 0, Decimal(1), mark.unit, text=f"1 {mark.text}"), i)
            marks[i] = Mark("amount", mark.text, measured=measured, gap=mark.gap)
            found.append(measured)
            found.sort(key=lambda m: m.at)
            return


def _measured(amount: Amount, at: int) -> Measured:
    if amount.ratio:
        return Measured(amount, "ratio", None, at)
    if amount.unit in ("part", "deg", "delta_deg"):
        return Measured(amount, "part" if amount.unit == "part" else "degrees", quantity(_bare(amount)), at)
    if amount.per is not None and amount.unit not in ("usd", "eur", "gbp", "money", "percent"):
        dense = density(amount)
        return Measured(amount, "density" if dense is not None else "rate", dense, at)
    got = quantity(dataclasses.replace(amount, per=None))
    if isinstance(got, Number) and got.unit == "drop":
        return Measured(amount, "drop", got, at)
    return Measured(amount, _KINDS[type(got)] if got is not None else "other", got, at)


def _bare(amount: Amount) -> Amount:
    return dataclasses.replace(amount, unit="", per=None)


def _units_before_numbers(marks: list[Mark]) -> None:
    """ "wax kg 0,8", "load % 10": the unit before a bare number, where none follows, is its unit."""
    for i, mark in enumerate(marks):
        measured = mark.measured
        if measured is None or measured.kind != "number" or measured.amount.unit:
            continue
        before = marks[i - 1] if i else None
        after = marks[i + 1] if i + 1 < len(marks) else None
        if after is not None and after.text == "pc" and _shares_something(marks, i + 2):
            _give_unit(measured, "percent")
            after.tags = NOTHING
        elif (
            before is not None
            and before.kind == "unit"
            and before.unit in ("g", "kg", "oz", "lb", "ml", "l", "percent")
        ):
            ordinary = i > 1 and (
                marks[i - 2].text in ("many", "in", "much", "per", "to") or marks[i - 2].kind == "amount"
            )
            if not ordinary and (after is None or after.kind != "unit"):
                _give_unit(measured, before.unit)
                before.kind, before.unit = "word", ""


def _shares_something(marks: list[Mark], i: int) -> bool:
    return i < len(marks) and marks[i].noun in ("fragrance", "load", "wax", "dye")


def _give_unit(measured: Measured, unit: str) -> None:
    amount = dataclasses.replace(measured.amount, unit=unit)
    fresh = _measured(amount, measured.at)
    measured.amount, measured.kind, measured.value = amount, fresh.kind, fresh.value


def number_of(measured: Measured) -> Decimal:
    """The plain number of an amount of any kind."""
    return measured.amount.value


__all__ = ["Mark", "Measured", "OutOfRange", "Scan", "number_of", "scan"]
