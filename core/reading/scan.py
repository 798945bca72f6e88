"""A text as the row of marks that reading works on: amounts, words with what they tell, unit words, signs."""

from __future__ import annotations

from core.reading.amounts import amounts
from core.reading.bare_prices import bare_prices, discounts
from core.reading.elsewhere import country_of_the_recipe, heading, marks_of_a_measure, tools
from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import measured_from
from core.reading.nearby import (
    SCALE_LETTERS,
    cup_on_the_scale,
    degrees_named_apart,
    densities_together,
    dozen_and_a_half,
    inches,
    lone_scale_letters,
    off_of_something,
    one_of_it,
    scale_of_the_thermometer,
    taken_off,
    unit_of_the_last,
    units_after_times,
    units_before_numbers,
)
from core.reading.parting import parted
from core.reading.tokens import Kind, Token, tokenize
from core.reading.unit_letters import Unit
from core.reading.unit_match import nearest_spelling, unit_at
from core.reading.words import NOTHING, PHRASES, WHOLE, mended, tags_of

MOST_MENDED = 60  # words of one text that are looked up for slips; the rest count as they stand


_END_SIGNS = frozenset(".?!;")
_PLAIN_SIGNS = frozenset(",:=+-@/()x*→>×–&~")


def scan(text: str) -> Scan:
    """The marks of `text`. Raises OutOfRange for a number that nothing could be worked out from."""
    tokens = tokenize(text)
    marks: list[Mark] = []
    found: list[Measured] = []
    spans = iter(parted(amounts(text, tokens), text))
    amount = next(spans, None)
    i, mending = 0, MOST_MENDED
    while tokens[i].kind is not Kind.END:
        token = tokens[i]
        if amount is not None and token.start >= amount.start:
            measured = measured_from(amount, len(marks))
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
    bare = any(m.kind == "number" for m in found)  # most texts have a unit at every number, and nothing to look for
    if bare:
        heading(marks)
        units_before_numbers(marks)
    tools(marks, found)
    country_of_the_recipe(marks, found)
    one_of_it(marks, found)
    if bare:
        marks_of_a_measure(marks, found)
        inches(marks)
        unit_of_the_last(marks)
        degrees_named_apart(marks)
        taken_off(marks)
        units_after_times(marks)
        dozen_and_a_half(marks)
    if any(m.kind == "density" for m in found):
        densities_together(marks)
    cup_on_the_scale(marks)
    lone_scale_letters(marks, found)
    if bare:
        scale_of_the_thermometer(marks, found)
    bare_prices(marks, found)
    discounts(marks, found)
    off_of_something(marks)
    tags = frozenset().union(*(mark.tags for mark in marks)) if marks else NOTHING
    words = frozenset(mark.text for mark in marks if mark.kind == "word")
    return Scan(text, marks, found, tags, words)


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
        if not rest or (_stand_at(tokens, i + 1, rest) and tokens[i + len(rest)].end <= limit):
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
    if text == "scale" and tokens[i + 1].text in _SCALED and tokens[i - 1].text in _BEFORE_VERB:
        plain = NOTHING  # "scale my recipe up": no balance
    if text == "off" and any(mark.text in _TAKES for mark in marks[-5:]):
        plain = NOTHING  # "take the pan off": nothing is off by so much
    marks.append(Mark("word", text, plain | tags if tags else plain, gap=token.gap))
    return i + 1, mending


def _stand_at(tokens: list[Token], i: int, words: tuple[str, ...]) -> bool:
    """Whether these words stand from token `i` on."""
    for word in words:
        if tokens[i].text != word:
            return False
        i += 1
    return True


_SCALED = frozenset({"to", "up", "down", "my", "this", "it", "the", "that", "recipe", "formula"})
_TAKES = frozenset({"take", "took", "taken", "taking", "lift", "lifted", "poured", "pour", "pulled", "cut", "wipe"})
_BEFORE_VERB = frozenset(
    {"", ",", ":", ".", "-", ";", "and", "to", "then", "please", "pls", "can", "you", "i", "must", "just", "let's"}
)
_TO_A_UNIT = frozenset({"many", "in", "to", "into", "as", "or", "und", "en", "=", ">", "→"})


def _lone_unit(tokens: list[Token], i: int) -> Unit | None:
    """A unit named without a number; slips and the letters of a thermometer only where a unit is expected."""
    unit = unit_at(tokens, i)
    if unit is not None or i == 0 or tokens[i - 1].text not in _TO_A_UNIT:
        return unit
    text = tokens[i].text
    if text in SCALE_LETTERS and tokens[i + 1].text not in ("'",):
        return Unit(SCALE_LETTERS[text], i + 1)
    key = nearest_spelling(text)
    return Unit(key, i + 1) if key is not None else None
