"""One amount while it is being put together: a number with its unit, and where it stands among the tokens."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.reading import unit_words as words
from core.reading.number_words import ARTICLES, NUMBER_WORDS, Numeral
from core.reading.numerals import and_fraction, read_numeral
from core.reading.tokens import Kind, Token, word_set
from core.reading.unit_match import BY_FIRST_WORD, match_unit, unit_at


@dataclass(slots=True)
class Found:
    """An amount over the tokens `first` to `next` (exclusive).

    `form` is the numeral's, or "implied" for a unit without a number ("per pound", "the pound"), which counts as one.
    The other fields are those of `core.reading.amounts.Amount`.
    """

    first: int
    next: int
    value: Decimal
    unit: str = ""
    form: str = "figure"
    high: Decimal | None = None
    parts: tuple[tuple[Decimal, str], ...] = ()
    per: tuple[Decimal, str] | None = None
    ratio: tuple[Decimal, ...] = ()
    code: bool = False

    @property
    def single(self) -> bool:
        """Whether it is one plain number with or without unit, nothing put together yet."""
        return self.high is None and not self.parts and self.per is None and not self.ratio


# Words an amount can start with; all others are passed over at once.
_LONG_UNIT_WORDS = frozenset(w for w in BY_FIRST_WORD if len(w) > 3)
OPENING_WORDS = frozenset({*NUMBER_WORDS, *_LONG_UNIT_WORDS, "per", "every", "each", "the", "minus", "negative"})
_OPENING_SIGNS = frozenset({*words.MONEY_BEFORE, "%", "-", "/"})


def found_at(tokens: list[Token], i: int) -> tuple[Found | None, int]:
    """The amount that starts at token `i`, if any, and the token to go on from (always past `i`)."""
    token = tokens[i]
    if token.kind is Kind.FIGURE:
        if tokens[i - 1].text == "^" and not token.gap:
            return None, i + 1
        if (end := _chain_end(tokens, i)) > i:
            return None, end
        found = _numbered(tokens, i, i)
    elif token.kind is Kind.VULGAR:
        found = _numbered(tokens, i, i)
    elif token.kind is Kind.WORD:
        if token.text not in OPENING_WORDS:
            return None, i + 1
        found = _from_word(tokens, i)
    elif token.kind is Kind.SIGN and token.text in _OPENING_SIGNS:
        found = _from_sign(tokens, i)
    else:
        return None, i + 1
    return found, found.next if found else i + 1


def _from_word(tokens: list[Token], i: int) -> Found | None:
    text = tokens[i].text
    if text in ("minus", "negative"):
        return _negative(tokens, i)
    if text in ("per", "every", "each") or (text == "the" and tokens[i - 1].text in ("to", "in")):
        return _implied(tokens, i)
    if text in NUMBER_WORDS and (found := _numbered(tokens, i, i)):
        return found
    return _unit_and_a_half(tokens, i)


def _from_sign(tokens: list[Token], i: int) -> Found | None:
    token, after = tokens[i], tokens[i + 1]
    if token.text == "/":
        return _implied(tokens, i) if after.kind is Kind.WORD else None
    if token.text == "-":
        return _negative(tokens, i) if after.gap == "" and token.gap and after.kind is Kind.FIGURE else None
    if after.kind is not Kind.FIGURE or after.gap == "\n":
        return None
    number = read_numeral(tokens, i + 1)
    if number is None:
        return None
    if token.text == "%":
        glued = after.gap == "" and tokens[i - 1].kind is not Kind.FIGURE
        return Found(i, number.next, number.value, "percent") if glued else None
    return Found(i, number.next, number.value, words.MONEY_BEFORE[token.text], number.form)


def _negative(tokens: list[Token], i: int) -> Found | None:
    """ "-5 g", "wax -300 g", "minus 5 C"; a dash with a blank behind it, or opening one of several lines, is none."""
    found = _numbered(tokens, i + 1, i)
    if found is None or found.form == "article":
        return None
    bullet = tokens[i].gap == "\n" and i > 0
    if tokens[i].text == "-" and bullet:
        found.first = i + 1
        return found
    before = tokens[i - 1]
    if tokens[i].text == "minus" and before.kind is not Kind.END:
        taken_from = before.text in BY_FIRST_WORD or before.text in NUMBER_WORDS or before.text in words.MATERIALS
        if taken_from or before.kind is Kind.FIGURE:
            return None  # "500 g minus 20 g": a subtraction
    found.value = found.value.copy_negate()
    return found


def _numbered(tokens: list[Token], i: int, first: int) -> Found | None:
    """The number at token `i` with its unit; None where it is no amount (a time, a seat, a lone "a")."""
    code = tokens[i].code
    if code and not _may_be_parted(tokens, i):
        return None
    number = read_numeral(tokens, i)
    if number is None:
        return None
    unit = match_unit(tokens, number, first)
    if unit is None:
        if code or not _is_amount(tokens, i, number):
            return None
        return _filled_in(tokens, i, number) or Found(first, number.next, number.value, "", number.form)
    if code and unit.key in _LETTER_UNITS:
        return None
    if number.form == "article" and unit.key in ("deg", "part", "degC", "degF"):
        return None  # "a part of", "a degree of", "a celsius thermometer"
    value = number.value if unit.share == 1 else number.value * unit.share  # a product rounds long numbers
    found = Found(first, unit.next, value, unit.key, number.form, code=code)
    if (tail := and_fraction(tokens, found.next)) and not match_unit(tokens, tail, -1):
        found.value += tail.value * unit.share  # "a pound and a half"; but "a pound and half an ounce" is two
        found.next = tail.next
    return found


def _filled_in(tokens: list[Token], i: int, number: Numeral) -> Found | None:
    """A form filled in, with the unit before the number: "wax kg 0,8", "oil (g): 40", "load % 10"."""
    j = i - 1 - (tokens[i - 1].text in (":", "="))
    bracket = tokens[j].text == ")"
    j -= bracket
    if j < 1 or (tokens[j].text != "%" and tokens[j].kind is not Kind.WORD):
        return None
    unit = unit_at(tokens, j)
    if unit is None or unit.next > i or unit.key in ("deg", "part") or (bracket and tokens[j - 1].text != "("):
        return None
    label = tokens[j - 1 - bracket].text
    return Found(j, number.next, number.value, unit.key, number.form) if label in words.MATERIALS else None


_LETTER_UNITS = frozenset({"degC", "degF", "m", "t", "in", "cup"})


def _may_be_parted(tokens: list[Token], i: int) -> bool:
    """Whether figures glued to a word may be an amount after all: "wax500g", "soy-500g"; not "V8"."""
    return tokens[i - 1].text == "-" or len(tokens[i - 1].text) >= 3


def _unit_and_a_half(tokens: list[Token], i: int) -> Found | None:
    """ "pound and a half" without an article before it."""
    unit = unit_at(tokens, i)
    if unit is None or unit.key in ("percent", "part") or unit.key in words.MONEY:
        return None
    tail = and_fraction(tokens, unit.next)
    if tail is None or tokens[unit.next + 1].text not in ARTICLES or match_unit(tokens, tail, -1):
        return None
    return Found(i, tail.next, 1 + tail.value, unit.key, "word")


def _implied(tokens: list[Token], i: int) -> Found | None:
    """The unit after "per", "/", "every", "each" or "the", counted as one."""
    unit = unit_at(tokens, i + 1)
    if unit is None or unit.key in words.MONEY or tokens[i + 1].gap == "\n" or unit.key == "percent":
        return None
    if tokens[unit.next].text == "^" or tokens[unit.next].kind is Kind.RAISED:
        return None
    return Found(i + 1, unit.next, Decimal(1), unit.key, "implied")


def _is_amount(tokens: list[Token], i: int, number: Numeral) -> bool:
    """Whether a number without a unit of ours may count something."""
    before, token, after = tokens[i - 1], tokens[i], tokens[number.next]
    if number.form == "article":
        return False
    if after.text in words.NOT_OURS and after.gap != "\n":
        return False
    if after.text == "-" and after.gap == "" and tokens[number.next + 1].text in words.NOT_OURS:
        return False
    if token.kind is Kind.WORD:
        if token.text == "zero" and number.next == i + 1:
            return False  # "forgot to zero the beaker"
        if token.text in ("half", "quarter", "third", "a", "an", "fourth", "fifth", "sixth", "eighth", "tenth"):
            if number.form == "word" or after.text in ("of", "full", "filled"):
                return tokens[i + 1].text not in ("past", "to")
            return _range_follows(tokens, number.next)
        return token.text != "one" or number.next > i + 1 or _counts(before, after) or _range_follows(tokens, i + 1)
    if before.text in words.NUMBERING or (before.text == "." and tokens[i - 2].text in ("no", "nr")):
        return False
    if _is_year(token, before, after):
        return False
    return not (after.gap == "" and after.kind is Kind.WORD and after.text in words.ORDINAL_ENDINGS)


def _is_year(token: Token, before: Token, after: Token) -> bool:
    """ "A book from 1890 says": no range goes on behind it."""
    figure = token.text.isdecimal() and len(token.text) == 4 and 1700 <= int(token.text) <= 2100
    return figure and before.text in ("from", "since", "anno", "year") and after.text not in ("to", "-", "–", "down")


def _range_follows(tokens: list[Token], j: int) -> bool:
    """ "half to three quarters", "one or two": another number stands behind a small word."""
    return tokens[j].text in ("to", "or", "-", "–", ":") and read_numeral(tokens, j + 1) is not None


def _counts(before: Token, after: Token) -> bool:
    """Whether "one" counts ("one jar") rather than points ("which one is", "american one")."""
    pointing = before.kind is Kind.WORD and before.text in _POINTING
    return after.kind is Kind.WORD and after.text not in _AFTER_POINTING and not pointing


_POINTING = word_set("which this that the each every any no other another same american british first last bigger")
_AFTER_POINTING = word_set(
    "of is are was were isnt isn't that which who and or than to in on at for with has have do does can should would "
    "weighs weigh runs will please by from if"
)


MOST_SHARES = 8


def _chain_end(tokens: list[Token], i: int) -> int:
    """The token after a date, telephone number or time of day that starts at token `i`; `i` if there is none."""
    mark = tokens[i + 1].text
    if mark not in ("/", "-", ":") or not tokens[i].text.isdecimal():
        return i
    j, groups = i, [tokens[i]]
    while tokens[j + 1].text == mark and not tokens[j + 1].gap and not tokens[j + 2].gap:
        if not tokens[j + 2].text.isdecimal() or (mark == ":" and len(groups) > 3):
            break
        groups.append(tokens[j + 2])
        j += 2
    if len(groups) == 1:
        return i
    if mark == ":":
        return j + 1 if _is_time(tokens, i, j, groups) else i
    if mark == "/" and sum(int(group.text) for group in groups[:MOST_SHARES]) == 100 and len(groups) <= MOST_SHARES:
        return i  # 50/30/20: shares
    if len(groups) >= 3:
        # 2024-05-01, 12/05/2024, 1-800-555-0199; but "1-1/2-2 cups" and "12-15-oz" are not chains of one sign
        return j + 1
    second = groups[1].text
    return j + 1 if mark == "-" and second.startswith("0") and len(second) > 1 else i


def _is_time(tokens: list[Token], i: int, j: int, groups: list[Token]) -> bool:
    """Whether "10:30" is a time of day rather than a ratio."""
    if len(groups) > 3 or len(groups[1].text) != 2 or len(groups[0].text) > 2:
        return False
    hours, minutes = int(groups[0].text), int(groups[1].text)
    if hours > 23 or minutes > 59 or hours + minutes == 100:
        return False
    if any(tokens[k].text in _RATIO_NEAR for k in range(max(i - 3, 0), j + 5)):
        return False
    before, after = tokens[i - 1].text, tokens[j + 1].text
    if before in ("at", "by", "until", "till", "from", "@", "since") or after in ("am", "pm", "a", "p", "h", "o'clock"):
        return True
    return groups[1].text.startswith("0") or hours != 1


_RATIO_NEAR = word_set("ratio ratios parts part weight volume mix split blend wax oil fragrance scent")
