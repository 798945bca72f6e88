"""Units of one letter, and "in": which of them a letter after a number means, by what stands around it."""

from __future__ import annotations

from decimal import Decimal
from typing import NamedTuple

from core.reading import unit_words as words
from core.reading.number_words import Numeral
from core.reading.tokens import Kind, Token


class Unit(NamedTuple):
    """A unit key, the first token after it, and the share of the unit one stands for (a cent is 0.01)."""

    key: str
    next: int
    share: Decimal = Decimal(1)


# Letters that are a unit only in the right surroundings.
LETTERS = frozenset({"c", "f", "t", "g", "l", "m", "in", "p", "pc", "#", '"'})


def letter_unit(tokens: list[Token], j: int, number: Numeral, first: int) -> Unit | None:
    """A unit of one letter, or "in", by its surroundings."""
    token, after = tokens[j], tokens[j + 1]
    if token.gap == "" and after.gap == "" and (after.kind is Kind.FIGURE and after.code is False):
        # "9f86d0" is no temperature; but "cm 3" and "m 3" are read from the table.
        return None
    stop = j + 1 + (after.text == "." and after.gap == "")
    value = number.value
    match token.text:
        case "g":
            network = token.raw == "G" and token.gap == "" and value in (2, 3, 4, 5) and after.text in words.NETWORK
            return None if network or after.text in ("force", "'") else Unit("g", over_stop(tokens, j, j + 1))
        case "l":
            return Unit("l", over_stop(tokens, j, j + 1))
        case "m":
            plain = token.raw == "m" and not (after.gap == "" and after.text in ("3", "³", "^", "²", "2"))
            return Unit("m", j + 1) if plain else None
        case "#":
            return Unit("lb", j + 1) if token.gap == "" and after.kind is not Kind.FIGURE else None
        case "p":
            return Unit("gbp", j + 1, Decimal("0.01")) if token.gap == "" and after.text != "." else None
        case "pc":  # a share before what is measured in shares; else pieces
            return Unit("percent", j + 1) if after.text in words.FRAGRANCES or after.text == "load" else None
        case '"':
            opened = sum(t.text == '"' for t in tokens[max(0, first - 40) : first]) % 2
            return Unit("in", j + 1) if token.gap == "" and not opened else None
        case "in":
            return Unit("in", stop) if _is_inch(tokens, j, first) else None
        case "t":
            return _spoon(tokens, j, stop, number)
        case "c":
            return _cup_or_celsius(tokens, j, stop, number, first)
    return _fahrenheit(tokens, j, value, first)


def _is_inch(tokens: list[Token], j: int, first: int) -> bool:
    """ "9in", "16 in. pipe", "3 in tall", "6 ft 2 in"; not "put 5 in the pot"."""
    after = tokens[j + 1]
    if tokens[j].gap == "" or after.text in words.SIZE_WORDS or tokens[first - 1].text in ("ft", "feet", "foot"):
        return True
    return after.text == "." and after.gap == "" and tokens[j + 2].kind is Kind.WORD and tokens[j + 2].raw.islower()


def _food_follows(tokens: list[Token], stop: int) -> bool:
    word, stopped = tokens[stop], tokens[stop - 1].text == "."
    spaced = word.gap == " " or (stopped and word.gap == "")
    return word.kind is Kind.WORD and spaced and len(word.text) > 1 and word.text not in words.SMALL_WORDS


def _spoon(tokens: list[Token], j: int, stop: int, number: Numeral) -> Unit | None:
    """ "2 T butter", "1 t salt"; a lone t is a tonne, a lone T nothing."""
    most = 4 if tokens[stop].text == "of" else 20
    if number.form == "fraction" or (_food_follows(tokens, stop) and number.value <= most):
        return Unit("tbsp" if tokens[j].raw == "T" else "tsp", stop)
    return Unit("t", j + 1) if tokens[j].raw == "t" else None


def _cup_or_celsius(tokens: list[Token], j: int, stop: int, number: Numeral, first: int) -> Unit | None:
    """ "65C" and "20 c" are temperatures, "2 c. flour" and "1/2 C sugar" are cups."""
    value, before = number.value, tokens[first - 1]
    if number.form == "fraction" and value < 30:
        return Unit("cup", stop)
    if value <= 12 and before.text not in words.TEMPERATURE_CUES and _food_follows(tokens, stop):
        return Unit("cup", stop)
    if _is_seat(tokens, j, first) or not -100 <= value <= 1000:
        return None
    if is_difference(tokens, first, j + 1):
        return Unit("delta_degC", j + 1)
    return Unit("degC", j + 1)


def _fahrenheit(tokens: list[Token], j: int, value: Decimal, first: int) -> Unit | None:
    """ "185F"; not "13F seats" and not a small number without a hint of temperature."""
    plausible = (
        20 <= value <= 1200
        or tokens[first - 1].text in words.TEMPERATURE_CUES
        or tokens[first].text in ("-", "minus", "negative")
    )
    if _is_seat(tokens, j, first) or not plausible:
        return None
    return Unit("delta_degF" if is_difference(tokens, first, j + 1) else "degF", j + 1)


def _is_seat(tokens: list[Token], j: int, first: int) -> bool:
    return tokens[j + 1].text in words.SEATING or tokens[first - 1].text in words.SEATING


def is_difference(tokens: list[Token], first: int, after: int) -> bool:
    """Whether degrees are a difference and no reading: "10 °C warmer", "cooled by 10 °C", "a drop of 5 °F"."""
    if tokens[after].text in words.DIFFERENCE_AFTER:
        return tokens[after + 1].text not in ("zero", "freezing", "0")
    before = tokens[first - 1]
    if before.text in ("of", "about", "around"):
        before = tokens[first - 2]
    return before.kind is Kind.WORD and before.text in words.DIFFERENCE_BEFORE


def over_stop(tokens: list[Token], j: int, k: int) -> int:
    """Past the full stop of an abbreviation ("oz."), unless it ends the sentence."""
    last, stop, after = tokens[k - 1], tokens[k], tokens[k + 1]
    if stop.text != "." or stop.gap or last.kind is not Kind.WORD or len(last.text) > 5:
        return k
    ends = after.kind is Kind.END or after.gap == "\n" or (after.gap == " " and after.raw[:1].isupper())
    return k if ends and not (j < k - 1 and after.kind is not Kind.END) else k + 1
