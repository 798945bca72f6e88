"""Which unit, if any, follows a number: spellings, misspellings, and the letters that need their surroundings."""

from __future__ import annotations

import functools
from decimal import Decimal

from rapidfuzz.distance import OSA

from core.reading import unit_words as words
from core.reading.number_words import ARTICLES, CONTAINERS, NUMBER_WORDS, Numeral
from core.reading.tokens import Kind, Token
from core.reading.unit_letters import LETTERS, Unit, is_difference, letter_unit, over_stop


def _by_first_word() -> dict[str, list[tuple[tuple[str, ...], str]]]:
    table: dict[str, list[tuple[tuple[str, ...], str]]] = {}
    for key, spellings in words.SPELLINGS.items():
        for spelling in spellings.split(", "):
            first, *rest = spelling.split(" ")
            table.setdefault(first, []).append((tuple(rest), key))
    for entries in table.values():
        entries.sort(key=lambda entry: -len(entry[0]))
    return table


BY_FIRST_WORD = _by_first_word()

_UNIT_SIGNS = frozenset({*(w for w in BY_FIRST_WORD if not w.isalpha()), *words.COINS, "#", '"'})


# Of the short spellings only these follow "a"; "a gal", "a mil" and "a pt" are something else.
_AFTER_ARTICLE = frozenset({"oz", "lb", "kg", "ml", "cup", "tsp", "us", "uk", "imp", "big", "net", "dry"})


def match_unit(tokens: list[Token], number: Numeral, first: int) -> Unit | None:
    """The unit of `number`, whose first token is `first`; None if no unit of ours follows."""
    j = number.next
    if tokens[j].gap == "\n":
        return None
    if tokens[j].text == "-" and tokens[j].gap == "" == tokens[j + 1].gap:
        j += 1
    if tokens[j].text == "(" and tokens[j + 1].value == number.value and tokens[j + 2].text == ")":
        j += 3  # "two (2) cups"
    if number.form == "fraction":
        j = _over_of_a(tokens, j)
    if number.form == "article" and len(tokens[j].text) <= 3 and tokens[j].text not in _AFTER_ARTICLE:
        return None
    unit = unit_at(tokens, j, number, first)
    if unit is None or _is_something_else(tokens, unit):
        return None
    return unit


def unit_at(tokens: list[Token], j: int, number: Numeral | None = None, first: int = -1) -> Unit | None:
    """The unit written at token `j`, with its describing words. Letters that need a number are read only with one."""
    letter = tokens[j].text
    if tokens[j].kind is not Kind.WORD and letter not in _UNIT_SIGNS:
        return None
    if letter in LETTERS and (number.form == "article" if number else letter not in ("g", "l")):
        return _spelled(tokens, j) if letter == "m" and len(_spelling_used(tokens, j)) > 1 else None
    if number is not None and letter in LETTERS:
        unit = letter_unit(tokens, j, number, first)
        if unit or letter not in BY_FIRST_WORD:
            return unit
        if letter in ("g", "m"):
            return _spelled(tokens, j) if len(_spelling_used(tokens, j)) > 1 else None
    system, k = "", j
    for _ in range(3):
        word = tokens[k].text
        if word in words.SYSTEM_WORDS:
            system = words.SYSTEM_WORDS[word]
        elif word == "u" and tokens[k + 1].text == "." and tokens[k + 2].text == "s":
            system = "us"
            k += 2 + (tokens[k + 3].text == ".")
        elif word not in words.DESCRIBING or (word == "liquid" and tokens[k + 1].text in ("oz", "ounce", "ounces")):
            break
        k += 1
    if k > j and (tokens[k].gap == "\n" or tokens[k].text in LETTERS):
        return None
    unit = _spelled(tokens, k)
    if unit is None and number is not None:
        unit = _misspelt(tokens, k)
    if unit is None:
        return None
    if unit.key == "lb" and tokens[j].text in ("british", "english", "uk"):
        return Unit("gbp", unit.next)
    if unit.key == "lb" and _is_money(tokens, first, unit.next) and tokens[unit.next - 1].text in ("pound", "pounds"):
        return Unit("gbp", unit.next)
    if unit.key in ("degC", "degF", "deg") and first >= 0 and is_difference(tokens, first, unit.next):
        return Unit(f"delta_{unit.key}", unit.next)
    if unit.key in words.SYSTEMS:
        return _of_system(tokens, unit, system)
    return unit


def _spelling_used(tokens: list[Token], j: int) -> tuple[str, ...]:
    """The spelling from the table that stands at token `j`, full stops left out; () if none."""
    unit = _spelled(tokens, j)
    return tuple(t.text for t in tokens[j : unit.next] if t.text != ".") if unit else ()


def _spelled(tokens: list[Token], j: int) -> Unit | None:
    """The longest spelling of the table at token `j`."""
    text = tokens[j].text
    if text in words.MONEY_BEFORE and tokens[j + 1].kind is Kind.FIGURE and not tokens[j + 1].gap:
        return None  # "2 $5 bags": the sign belongs to the next number
    if text in words.COINS:
        key, share = words.COINS[text]
        return Unit(key, j + 1, Decimal(share))
    for rest, key in BY_FIRST_WORD.get(text, ()):
        k = j + 1
        for word in rest:
            if tokens[k].gap == "" and tokens[k].text in (".", "-"):
                k += 1
            if tokens[k].text != word or tokens[k].gap == "\n":
                break
            k += 1
        else:
            return Unit(key, over_stop(tokens, j, k))
    return None


@functools.lru_cache(maxsize=1024)
def nearest_spelling(word: str) -> str | None:
    """The unit key whose spelling `word` misses by one slip (two in long words), or None."""
    if len(word) < 5 or len(word) > 14 or word in words.NOT_MISSPELT or not word.isalpha():
        return None
    for target, key in words.FUZZY_TARGETS.items():
        slips = 2 if len(target) >= 9 and len(word) >= 8 else 1
        if word[0] == target[0] and OSA.distance(word, target, score_cutoff=slips) <= slips:
            return key
    return None


def _misspelt(tokens: list[Token], j: int) -> Unit | None:
    token = tokens[j]
    if token.kind is not Kind.WORD or (key := nearest_spelling(token.text)) is None:
        return None
    return Unit(key, j + 1)


def _over_of_a(tokens: list[Token], j: int) -> int:
    """Past "of a", "an", "of an" in "three quarters of an ounce"."""
    k = j + (tokens[j].text == "of")
    if tokens[k].text in ARTICLES or (k > j and tokens[k].text in ("one", "the")):
        k += 1
    return k if k > j and tokens[k].kind is Kind.WORD and tokens[k].gap != "\n" else j


def _of_system(tokens: list[Token], unit: Unit, system: str) -> Unit:
    """The unit of the country said before it, or after it: "2 pints (UK)", "1 gal US"."""
    j = unit.next
    if not system:
        opened = tokens[j].text == "("
        word = tokens[j + opened]
        said = words.SYSTEM_WORDS.get(word.text, "")
        alone = word.raw == "US" or tokens[j + 1].kind is Kind.END or tokens[j + 1].text in _ENDS_A_MEASURE
        if said and (word.text != "us" or alone) and (not opened or tokens[j + 2].text == ")"):
            system, j = said, j + 1 + 2 * opened
    if system in words.SYSTEMS[unit.key]:
        return Unit(f"{system}_{unit.key}", j)
    return unit


_ENDS_A_MEASURE = frozenset({"in", "to", "into", "=", "?", ",", "-", "→", "as", ")"})


def _is_something_else(tokens: list[Token], unit: Unit) -> bool:
    """Whether the unit is part of another measure: 340 m/s, 5 kg/h, 30 lb of force, 20 pounds per square inch."""
    j = unit.next
    after, beyond = tokens[j], tokens[j + 1]
    if after.text in ("/", "per") and after.gap != "\n":
        slash = after.text == "/"
        return beyond.text in words.OTHER_PER or (
            slash and (beyond.text in words.SLASH_ONLY or _is_area(tokens, j + 1))
        )
    if after.kind is Kind.RAISED or (after.text == "^" and after.gap == ""):
        return True
    if after.text in ("of", "-") and beyond.text in ("force", "pressure", "thrust", "torque"):
        return True
    if unit.key == "stone" and (after.text in CONTAINERS or after.text in ("ware", "mould", "bowl", "vessel", "vase")):
        return True
    if unit.key == "pint" and after.text in ("font", "type", "text"):
        return True
    if unit.key == "lb" and after.text == "-" and beyond.text in ("ft", "in", "foot"):
        return True
    return after.text in ("force", "thrust") or (
        unit.key == "lb" and after.text in ("cake", "cakes", "ft", "sign", "coin", "coins", "note")
    )


def _is_area(tokens: list[Token], j: int) -> bool:
    """ "m2", "cm²", "in^2" at token `j`."""
    raised = tokens[j + 1]
    return tokens[j].text in ("m", "cm", "mm", "in", "ft") and raised.gap == "" and raised.text in ("2", "²")


def _is_money(tokens: list[Token], first: int, after: int) -> bool:
    """Whether the pounds whose number starts at token `first` are paid rather than weighed."""
    if first < 0 or tokens[after].text == "of" or tokens[after].text in words.MATERIALS:
        return False
    if tokens[after].text in ("per", "a") and tokens[after + 1].text in ("kilo", "kg", "kilogram", "lb"):
        return True
    for k in range(first - 1, max(first - 5, -1), -1):
        token = tokens[k]
        number = token.kind is Kind.FIGURE or (token.text in NUMBER_WORDS and token.text not in ARTICLES)
        if number or token.text in (".", ",", ";", "?", "!"):
            return False
        if token.text in words.PAYING:
            return not (token.text in words.PRICE_NOUNS and tokens[k + 1].text in ("of", "for", "per"))
    return False
