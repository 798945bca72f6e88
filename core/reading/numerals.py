"""Numbers in running text: figures, fractions and number words, read from tokens to an exact Decimal."""

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
NUMBER_WORDS = {*DIGITS, *TEENS, *TENS, *SCALES, *GROUPS, *PARTS_OF_ONE, *ARTICLES, "hundred", "point", "oh"}

# What is counted by weight: "3 250 g candles" are three, "1 250 g" of something is 1250 g.
CONTAINERS = word_set(
    "bags bag jars jar tins tin candles candle melts melt tubs tub packs pack packets packages blocks block bars "
    "bottles bottle pots boxes cans cups glasses votives tealights pillars moulds molds containers slabs sticks vials "
    "cartons sacks pieces cubes tumblers tarts"
)
RATIO_WORDS = word_set("ratio ratios split splits mix blend blends mixture parts")


class Numeral(NamedTuple):
    """A number and the first token after it. `form`: figure, fraction (a half, 3/4, 1 1/2), word or article (a, an)."""

    value: Decimal
    next: int
    form: str


def read_numeral(tokens: list[Token], i: int) -> Numeral | None:
    """The number that starts at token `i`, or None. `tokens` as `tokenize` gives them."""
    token = tokens[i]
    if token.kind is Kind.FIGURE:
        return _figures(tokens, i)
    if token.kind is Kind.VULGAR and token.value is not None:
        return Numeral(token.value, i + 1, "fraction")
    if token.kind is Kind.WORD and token.text in NUMBER_WORDS:
        return _words(tokens, i)
    return None


def _figures(tokens: list[Token], i: int) -> Numeral | None:
    value = tokens[i].value
    if value is None:
        return None
    if fraction := slash_fraction(tokens, i):
        return fraction
    if tokens[i].text.isdecimal():
        if mixed := _mixed(tokens, i, value):
            return mixed
        if spaced := _spaced_thousands(tokens, i):
            return spaced
    if power := _power_of_ten(tokens, i + 1):
        return Numeral(value.scaleb(power[0]), power[1], "figure")
    return _grown(tokens, Numeral(value, i + 1, "figure"))


def _grown(tokens: list[Token], number: Numeral) -> Numeral:
    """`number` with what may follow it: dozen, thousand, "and a half", "quarters"."""
    word = tokens[number.next].text
    if word in SCALES or word in ("hundred", "dozen"):
        times = SCALES.get(word) or (12 if word == "dozen" else 100)
        number = Numeral(number.value * times, number.next + 1, number.form)
    if tail := and_fraction(tokens, number.next):
        total = Numeral(number.value + tail.value, tail.next, "fraction")
        if tokens[tail.next].text in ("dozen", "thousand", "million"):
            return Numeral(total.value * (12 if tokens[tail.next].text == "dozen" else 1000), tail.next + 1, "figure")
        return total
    return _several_parts(tokens, number) or number


def slash_fraction(tokens: list[Token], i: int) -> Numeral | None:
    """ "3/4" at token `i`; None for ratios (60/40), dates and mere alternatives."""
    above, slash, below = tokens[i], tokens[i + 1], tokens[i + 2]
    if slash.text != "/" or slash.gap != below.gap or slash.gap == "\n" or below.kind is not Kind.FIGURE:
        return None
    if not (above.text.isdecimal() and below.text.isdecimal() and len(above.text) <= 3 and len(below.text) <= 3):
        return None
    if tokens[i + 3].text == "/" and tokens[i + 4].kind is Kind.FIGURE:
        return None
    top, bottom = int(above.text), int(below.text)
    if top == 0 or bottom < 2 or top + bottom == 100 or tokens[i + 3].text in RATIO_WORDS:
        return None
    proper = top < bottom and (bottom <= 64 or bottom == 100) and not (top >= 10 and bottom not in (12, 16, 32, 64))
    improper = top > bottom and bottom in (2, 3, 4, 8, 16) and top < 16 and top % bottom != 0 and top + bottom != 10
    return Numeral(Decimal(top) / bottom, i + 3, "fraction") if proper or improper else None


def _proper_fraction(tokens: list[Token], i: int) -> Numeral | None:
    """A fraction below one in figures: "½", "1/2"."""
    token = tokens[i]
    if token.kind is Kind.VULGAR and token.value is not None:
        return Numeral(token.value, i + 1, "fraction")
    fraction = slash_fraction(tokens, i) if token.kind is Kind.FIGURE else None
    return fraction if fraction and fraction.value < 1 else None


def _mixed(tokens: list[Token], i: int, whole: Decimal) -> Numeral | None:
    """ "1½", "1 1/2", "1-1/2"."""
    j = i + 1
    if tokens[j].text in ("-", "–") and tokens[j].gap == "" == tokens[j + 1].gap:
        j += 1
    if tokens[j].gap == "\n":
        return None
    fraction = _proper_fraction(tokens, j)
    return Numeral(whole + fraction.value, fraction.next, "fraction") if fraction else None


def _spaced_thousands(tokens: list[Token], i: int) -> Numeral | None:
    """ "1 000", "1 250 000", "1 000,5": groups of three digits after one to three."""
    first = tokens[i].text
    if len(first) > 3 or first.startswith("0"):
        return None
    groups, decimals, j = [first], "", i + 1
    while not decimals and tokens[j].kind is Kind.FIGURE and tokens[j].gap == " " and not tokens[j].code:
        text = tokens[j].text
        if not text[:3].isdecimal() or len(text) < 3 or (len(text) > 3 and text[3] not in ".,"):
            break
        groups.append(text[:3])
        decimals = text[4:]
        j += 1
    if len(groups) == 1 or (len(groups) == 2 and groups[1] != "000" and _counts_containers(tokens, j)):
        return None
    return Numeral(Decimal("".join(groups) + (f".{decimals}" if decimals else "")), j, "figure")


def _counts_containers(tokens: list[Token], j: int) -> bool:
    """Whether the number before token `j` is the size of something counted, or has no unit at all."""
    unit = tokens[j]
    if unit.kind is not Kind.WORD and unit.text != "%":
        return True
    return unit.text in CONTAINERS or any(tokens[k].text in CONTAINERS for k in range(j + 1, j + 4))


def _power_of_ten(tokens: list[Token], j: int) -> tuple[int, int] | None:
    """ "x10-3", "x 10^6", "×10⁻³" at token `j`: the exponent and the next token."""
    if tokens[j].text not in ("x", "*") or tokens[j + 1].text != "10":
        return None
    j += 2
    if tokens[j].kind is Kind.RAISED:
        raised = tokens[j].text.translate(str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-"))
        digits = raised.lstrip("+-")
        return (int(raised), j + 1) if digits.isdecimal() and len(digits) <= 2 and len(raised) <= 3 else None
    marked = tokens[j].text == "^"
    j += marked
    sign = -1 if tokens[j].text in ("-", "–") and tokens[j].gap == "" else 1
    j += sign < 0
    if not (marked or sign < 0) or tokens[j].gap or not tokens[j].text.isdecimal() or len(tokens[j].text) > 2:
        return None
    return sign * int(tokens[j].text), j + 1


def and_fraction(tokens: list[Token], j: int) -> Numeral | None:
    """ "and a half", "and 3/4", "& three quarters", "and half" at token `j`; the value is below one."""
    if tokens[j].text not in ("and", "&") or tokens[j].gap == "\n":
        return None
    if fraction := _proper_fraction(tokens, j + 1):
        return fraction
    fraction = _part_words(tokens, j + 1)
    return fraction if fraction and fraction.value < 1 else None


def _part_words(tokens: list[Token], i: int) -> Numeral | None:
    """ "half", "a third", "one quarter", "three quarters", "two-thirds"."""
    word = tokens[i].text
    if word in ARTICLES:
        size = PARTS_OF_ONE.get(tokens[i + 1].text)
        return Numeral(Decimal(1) / size, i + 2, "fraction") if size else None
    if word in PARTS_OF_ONE:
        return Numeral(Decimal(1) / PARTS_OF_ONE[word], i + 1, "fraction")
    if word in DIGITS:
        return _several_parts(tokens, Numeral(Decimal(DIGITS[word]), i + 1, "word"))
    return None


def _several_parts(tokens: list[Token], number: Numeral) -> Numeral | None:
    """ "three quarters", "3 quarters", "two third", "one-half": `number` of the part named next."""
    j = number.next
    if tokens[j].text == "-" and tokens[j].gap == "" == tokens[j + 1].gap:
        j += 1
    word = tokens[j].text
    size = PARTS_OF_ONE.get(word)
    count = number.value
    if size is None or not 0 < count < 100 or count != int(count):
        return None
    # "three quarter oz" is one amount, but "two half pound bags" and "6 quarter pound bars" are two.
    plural = word.endswith(("s", "halves"))
    if not (plural or count == 1 or (count == size - 1 and size > 2) or size in (8, 10, 16, 100)):
        return None
    return Numeral(count / size, j + 1, "fraction")


def _words(tokens: list[Token], i: int) -> Numeral | None:
    word = tokens[i].text
    if word in ARTICLES:
        return _after_article(tokens, i)
    if word in PARTS_OF_ONE:
        return _of_a_dozen(tokens, Numeral(Decimal(1) / PARTS_OF_ONE[word], i + 1, "fraction"))
    if word == "couple":
        return Numeral(Decimal(2), i + 1 + (tokens[i + 1].text == "of"), "word")
    if word == "dozen":
        return Numeral(Decimal(12), i + 1, "word")
    number = cardinal(tokens, i)
    return _grown(tokens, number) if number else None


def _after_article(tokens: list[Token], i: int) -> Numeral | None:
    """ "a dozen", "a couple of", "a hundred", "a half"; else the article itself as one."""
    word = tokens[i + 1].text
    if word in PARTS_OF_ONE:
        return _of_a_dozen(tokens, Numeral(Decimal(1) / PARTS_OF_ONE[word], i + 2, "fraction"))
    if word in GROUPS or word in SCALES or word == "hundred":
        return _words(tokens, i + 1)
    return Numeral(Decimal(1), i + 1, "article")


def _of_a_dozen(tokens: list[Token], part: Numeral) -> Numeral:
    """ "half a dozen", "a half dozen"."""
    j = part.next + (tokens[part.next].text in ARTICLES)
    return Numeral(part.value * 12, j + 1, "word") if tokens[j].text == "dozen" else part


def cardinal(tokens: list[Token], i: int) -> Numeral | None:
    """A whole number or "point" decimal in words: "four hundred fifty", "seventeen hundred", "one eighty five"."""
    total, current, last, j = 0, None, "", i
    smallest_scale = 10**9
    while True:
        k = j
        if j > i and tokens[j].text == "-" and tokens[j].gap == "" == tokens[j + 1].gap:
            k += 1
        if last in ("hundred", "scale") and tokens[k].text == "and":
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
