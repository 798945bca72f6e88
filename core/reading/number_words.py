"""Number words ("four hundred fifty", "one point five") and the words around numbers."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from core.reading.tokens import Kind, Token, word_set

DIGITS = {
    "zero": 0, "nought": 0, "naught": 0, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9,
}  # fmt: skip
TEENS = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16,
    "seventeen": 17, "eighteen": 18, "nineteen": 19,
}  # fmt: skip
TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80,
    "ninety": 90,
}  # fmt: skip
SCALES = {"thousand": 1000, "million": 1_000_000}
GROUPS = {"dozen": 12, "couple": 2}
# Parts by their size; the word as said for one, then for several.
PARTS_OF_ONE = {
    "half": 2, "halves": 2, "third": 3, "thirds": 3, "quarter": 4, "quarters": 4, "fourth": 4, "fourths": 4,
    "fifth": 5, "fifths": 5, "sixth": 6, "sixths": 6, "eighth": 8, "eighths": 8, "tenth": 10, "tenths": 10,
    "sixteenth": 16, "sixteenths": 16, "hundredth": 100, "hundredths": 100,
}  # fmt: skip
ARTICLES = ("a", "an", "another")
AND = frozenset({"and", "&", "n", "nd"})
NUMBER_WORDS = {*DIGITS, *TEENS, *TENS, *SCALES, *GROUPS, *PARTS_OF_ONE, *ARTICLES, "hundred", "point", "oh"}

# What is counted by weight: "3 250 g candles" are three, "1 250 g" of something is 1250 g.
CONTAINERS = word_set(
    "bags bag jars jar tins tin candles candle melts melt tubs tub packs pack packets packages blocks block bars "
    "bottles bottle pots boxes cans cups glasses votives tealights pillars moulds molds containers slabs sticks vials "
    "cartons sacks pieces cubes tumblers tarts"
)


class Numeral(NamedTuple):
    """A number and the first token after it. `form`: figure, fraction (a half, 3/4, 1 1/2), word or article (a, an)."""

    value: Decimal
    next: int
    form: str


def cardinal(tokens: list[Token], i: int) -> Numeral | None:
    """A whole number or "point" decimal in words: "four hundred fifty", "seventeen hundred", "one eighty five"."""
    total, current, last, j = 0, None, "", i
    smallest_scale = 10**9
    while True:
        k = j
        if j > i and tokens[j].text == "-" and tokens[j].gap == "" == tokens[j + 1].gap:
            k += 1
        if last in ("hundred", "scale") and tokens[k].text in AND:
            k += 1
            if tokens[k].text in PARTS_OF_ONE or tokens[k].text in ARTICLES:
                break
        token = tokens[k]
        if token.kind is not Kind.WORD or (j > i and token.gap == "\n"):
            break
        word = token.text
        if word in DIGITS and (current is None or last == "hundred" or (last == "tens" and DIGITS[word])):
            current, last = (current or 0) + DIGITS[word], "digit" if current is None else "full"
        elif word in TEENS and (current is None or last == "hundred"):
            current, last = (current or 0) + TEENS[word], "teen" if current is None else "full"
        elif word in TENS and (current is None or last == "hundred"):
            current, last = (current or 0) + TENS[word], "tens"
        elif word in TENS and current and last in ("digit", "teen") and not total and not _sizes(tokens, k):
            current, last = current * 100 + TENS[word], "tens"  # said as on the telephone: "one eighty five"
        elif word == "hundred" and last in ("", "digit", "teen", "tens", "full") and (current or 1) < 100:
            current, last = (current or 1) * 100, "hundred"
        elif word in SCALES and SCALES[word] < smallest_scale and (current is not None or not total):
            smallest_scale = SCALES[word]
            total, current, last = total + (current or 1) * smallest_scale, None, "scale"
        else:
            break
        j = k + 1
    value = Decimal(total + (current or 0))
    if tokens[j].text == "point" and (digits := _point_digits(tokens, j + 1)):
        return Numeral(Decimal(f"{value}.{digits[0]}"), digits[1], "word")
    if j == i and tokens[i].text == "oh" and tokens[i + 1].text == "point" and (digits := _point_digits(tokens, i + 2)):
        return Numeral(Decimal(f"0.{digits[0]}"), digits[1], "word")
    return Numeral(value, j, "word") if j > i else None


def _sizes(tokens: list[Token], k: int) -> bool:
    """Whether "six twenty gram melts" is meant: a count, then a size."""
    return any(tokens[n].text in CONTAINERS for n in range(k + 1, k + 5))


def _point_digits(tokens: list[Token], j: int) -> tuple[str, int] | None:
    """The digits said after "point": "two five", "twenty five", "oh five"."""
    digits, start = "", j
    while len(digits) <= 20:
        word = tokens[j].text
        if word in DIGITS or word == "oh":
            digits += str(DIGITS.get(word, 0))
        elif j == start and word in TEENS:
            return str(TEENS[word]), j + 1
        elif j == start and word in TENS:
            ones = DIGITS.get(tokens[j + 1].text, 0)
            return str(TENS[word] + ones), j + 1 + bool(ones)
        else:
            break
        j += 1
    return (digits, j) if digits else None
