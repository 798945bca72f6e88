"""Numbers in running text: figures, fractions and number words, read from tokens to an exact Decimal."""

from __future__ import annotations

from decimal import Decimal
from math import gcd

from core.reading.number_words import (
    AND,
    ARTICLES,
    CONTAINERS,
    DIGITS,
    GROUPS,
    NUMBER_WORDS,
    PARTS_OF_ONE,
    SCALES,
    Numeral,
    cardinal,
)
from core.reading.tokens import Kind, Token, word_set

RATIO_WORDS = word_set("ratio ratios split splits mix blend blends mixture parts")


# "A few hundred grams" is not a hundred.
_VAGUE = word_set("few several many some")


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
    if tokens[i].text == "10" and (power := _raised(tokens, i + 1)):
        return Numeral(Decimal(1).scaleb(power[0]), power[1], "figure")
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
    scalable = number.form == "figure" or number.value < 100
    if word == "dozen" or (scalable and (word in SCALES or word == "hundred")):
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
    if top == 0 or bottom < 2 or tokens[i + 3].text in RATIO_WORDS:
        return None
    reduced = gcd(top, bottom) == 1 and bottom in (12, 16, 32, 64)
    proper = top < bottom and (bottom <= 64 or bottom == 100) and (top < 10 or reduced)
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
    if tokens[j].text in ("-", "–") and tokens[j].gap == "" and tokens[j + 1].gap != "\n":
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
    before = tokens[i - 1]
    if i > 1 and before.text in "/:" and tokens[i - 2].kind is Kind.FIGURE:
        return None  # "60/40 900 g"
    row = [before.text, *groups] if before.kind is Kind.FIGURE and tokens[i].gap == " " else groups
    if _alike(row, tokens[j].text):
        return None
    return Numeral(Decimal("".join(groups) + (f".{decimals}" if decimals else "")), j, "figure")


_SMALL_UNITS = frozenset(["g", "gram", "grams", "gr", "gms", "oz", "ml"])


def _alike(groups: list[str], unit: str) -> bool:
    """ "231 229 226 g": weights in a row, and no number of hundreds of millions."""
    numbers = [int(group) if group.isdecimal() else 0 for group in groups]
    if min(numbers) < 100:
        return False
    close = max(numbers) * 4 <= min(numbers) * 5
    return close and (len(groups) > 2 or unit in _SMALL_UNITS)


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
    if power := _raised(tokens, j + 2):
        return power
    minus, exponent = tokens[j + 2], tokens[j + 3]
    glued = minus.text in ("-", "–") and minus.gap == "" == exponent.gap
    return (-int(exponent.text), j + 4) if glued and _is_exponent(exponent) else None


def _raised(tokens: list[Token], j: int) -> tuple[int, int] | None:
    """ "^6", "^-3", "⁻³" at token `j`: the exponent and the next token."""
    if tokens[j].kind is Kind.RAISED and tokens[j].gap == "":
        raised = tokens[j].text.translate(str.maketrans("⁰¹²³⁴⁵⁶⁷⁸⁹⁺⁻", "0123456789+-"))
        digits = raised[raised[0] in "+-" :]
        return (int(raised), j + 1) if digits.isdecimal() and len(digits) <= 2 else None
    if tokens[j].text != "^":
        return None
    minus = tokens[j + 1].text in ("-", "–")
    exponent = tokens[j + 1 + minus]
    return ((-1 if minus else 1) * int(exponent.text), j + 2 + minus) if _is_exponent(exponent) else None


def _is_exponent(token: Token) -> bool:
    return token.kind is Kind.FIGURE and token.text.isdecimal() and len(token.text) <= 2


def and_fraction(tokens: list[Token], j: int) -> Numeral | None:
    """ "and a half", "and 3/4", "& three quarters", "and half" at token `j`; the value is below one."""
    if tokens[j].text not in AND or tokens[j].gap == "\n":
        return None
    fraction = _proper_fraction(tokens, j + 1) or _part_words(tokens, j + 1)
    if fraction is None or fraction.value >= 1 or _of_the(tokens, fraction.next):
        return None
    return fraction


def _of_the(tokens: list[Token], i: int) -> bool:
    """ "9 % and one third of the oil is rose", "8 % and half that", "6 % and half get 9 %": a part of another thing."""
    return tokens[i].text in ("that", "this", "get", "gets", "has", "have", "got", "at") or (
        tokens[i].text == "of" and tokens[i + 1].text in ("the", "it", "that", "my", "this")
    )


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
        j = i + 1 + (tokens[i + 1].text == "of")
        return _grown(tokens, Numeral(Decimal(2), j, "word"))
    if tokens[i - 1].text in _VAGUE:
        return None
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
