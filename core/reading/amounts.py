"""The amounts in a text: every number with its unit and its place. What each is an amount of comes later."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.errors import OutOfRange, clipped
from core.reading.combine import MASS, combine, stands_alone
from core.reading.found import Found, found_at
from core.reading.tokens import Kind, Token, tokenize

MOST_NUMBERS = 300  # no question holds more, and a wall of digits costs little


@dataclass(frozen=True, slots=True)
class Amount:
    """One amount as typed, `text[start:end]`.

    `value` is in `unit`, a unit key of `core.units`, "" for a bare number, or `part`, `drop`, `ratio`, `deg`.
    `high` is the upper end of a range. `parts` holds a composite as typed, `value` its exact total in the first unit.
    `per` is what the amount is for: 1 oz per lb has per (1, "lb"). `ratio` holds the numbers of "12:1".
    A number may be of any size: whoever uses it bounds it.
    """

    start: int
    end: int
    value: Decimal
    unit: str
    high: Decimal | None = None
    parts: tuple[tuple[Decimal, str], ...] = ()
    per: tuple[Decimal, str] | None = None
    ratio: tuple[Decimal, ...] = ()
    text: str = ""


def amounts(text: str, tokens: list[Token] | None = None, most: int = MOST_NUMBERS) -> list[Amount]:
    """The amounts in `text` in order, not overlapping. Any text is taken; linear in its length.
    `tokens` are those of the text, where there are any yet.

    Raises OutOfRange where it holds more than `most` numbers: none of them may be left out.

    >>> [(str(a.value), a.unit) for a in amounts("a pound and a half of wax at 8 %")]
    [('1.5', 'lb'), ('8', 'percent')]
    """
    if tokens is None:
        tokens = tokenize(text)
    return [_amount(text, tokens, found) for found in _together(text, tokens, most)]


def _together(text: str, tokens: list[Token], most: int) -> list[Found]:
    together: list[Found] = []
    i = numbers = 0
    while tokens[i].kind is not Kind.END:
        found, i = found_at(tokens, i)
        if found is None:
            continue
        if numbers == most:
            raise OutOfRange(clipped(text), f"That is too long: I read up to {most} numbers at once. Ask in parts.")
        numbers += 1
        combined = combine(tokens, together[-1], found) if together else None
        if combined:
            together[-1:] = combined
        else:
            together.append(found)
    return [found for found in together if stands_alone(tokens, found)]


def _amount(text: str, tokens: list[Token], found: Found) -> Amount:
    start, end = tokens[found.first].start, tokens[found.next - 1].end
    return Amount(
        start,
        end,
        found.value,
        found.unit,
        found.high,
        found.parts,
        found.per,
        found.ratio,
        text[start:end],
    )


# Names as unit-scoring scripts and people know them. Units of no weight, volume, share or temperature are left out.
_PLAIN_NAMES = {
    **{key: key for key in ("mg", "g", "kg", "t", "oz", "lb", "ml", "cl", "dl", "l", "percent", "degC", "degF")},
    "delta_degC": "degC",
    "delta_degF": "degF",
    **{
        f"{country}{name}": name
        for country in ("", "us_", "imp_", "metric_", "label_")
        for name in ("fl_oz", "cup", "pint", "quart", "gallon", "tbsp", "tsp")
    },
}
# "per" one of these makes a weight a density, which is no weight.
_DENSITY_VOLUMES = frozenset(
    {"ml", "cl", "dl", "l", "m3", "gallon", "us_gallon", "imp_gallon", "fl_oz", "us_fl_oz", "imp_fl_oz"}
)


def pairs(text: str) -> list[tuple[Decimal, str]]:
    """The weights, volumes, percents and temperatures in `text` as (value, plain unit name).

    Both ends of a range, a composite once by its total, both sides of a rate; a density is none of these.
    """
    result: list[tuple[Decimal, str]] = []
    for amount in _together(text, tokenize(text), MOST_NUMBERS):
        if amount.form == "implied":  # "how much per pound": a unit named, no amount given
            continue
        per_value, per_unit = amount.per or (Decimal(0), "")
        if amount.unit in MASS and per_value == 1 and per_unit in _DENSITY_VOLUMES:
            continue
        if name := _PLAIN_NAMES.get(amount.unit):
            result += [(end, name) for end in (amount.value, amount.high) if end is not None]
        both = amount.unit in MASS or per_value != 1
        if both and (name := _PLAIN_NAMES.get(per_unit)):
            result.append((per_value, name))
    return result
