"""A fragrance load as typed: a percent, a fraction, a rate such as "1 oz per lb"; and what it is a percent of."""

from __future__ import annotations

from decimal import Decimal

from core.compounds import Basis, Load
from core.errors import OutOfRange, Unreadable, WrongKind, clipped
from core.reading.amounts import Amount, amounts
from core.reading.quantities import bounded, quantity
from core.reading.tokens import Kind, tokenize
from core.reading.wordset import wordset
from core.units import Mass, Percent

EXAMPLE = "8 % or 1 oz per lb"
# A bare number up to here is a fraction of one (0.08 is 8 %), from one on a percent; between them nobody can tell.
LARGEST_FRACTION = Decimal("0.25")

_TOTAL_WORDS = wordset(
    "total whole all everything finished mix mixture together combined batch candle product entire both"
)
_WAX_WORDS = wordset("wax waxes base soy paraffin")


def basis_said(text: str) -> Basis | None:
    """The basis that words such as "of the wax" or "of total" name; None where they name none or both."""
    words = [token.text for token in tokenize(text[:200]) if token.kind is Kind.WORD]
    total, wax = _TOTAL_WORDS.intersection(words), _WAX_WORDS.intersection(words)
    if bool(total) == bool(wax):
        return None
    return Basis.TOTAL if total else Basis.WAX


def load(text: str) -> Load:
    """The load in the text of one option. Unreadable, WrongKind or OutOfRange with the way out."""
    found = amounts(text)
    if len(found) == 2 and found[0].unit == found[1].unit == "part":
        return Load.rate(Mass(bounded(found[1].value, text)), Mass(_above_zero(found[0].value, text)), text)
    if len(found) != 1:
        count = "no percent" if not found else "more than one amount"
        raise Unreadable(text, f"I see {count} in “{clipped(text)}”. Write one load, such as {EXAMPLE}.")
    amount = found[0]
    if amount.high is not None:
        raise Unreadable(text, f"“{clipped(amount.text)}” is a range. Give one load, then ask again with the other.")
    return _rate(amount, text) or Load(_percent(amount, text), basis_said(text[amount.end :]))


def _percent(amount: Amount, text: str) -> Percent:
    value = bounded(amount.value, text)
    if value < 0:
        raise OutOfRange(text, "A load can't be less than nothing. Check the minus sign.")
    if amount.unit == "percent":
        return Percent(value)
    if amount.unit == "":
        if 0 < value <= LARGEST_FRACTION:
            return Percent(value * 100)
        if value >= 1 or not value:
            return Percent(value)
        raise either_percent(text, value)
    raise WrongKind(text, f"{clipped(text)} is no load. A load is a percent or a rate, such as {EXAMPLE}.")


def either_percent(text: str, value: Decimal) -> Unreadable:
    """The error for a bare 0.5, which may be half a percent or half of all."""
    as_is, times_100 = (f"{number.normalize():f} %" for number in (value, value * 100))
    return Unreadable(text, f"Is “{clipped(text)}” meant as {as_is} or {times_100}? Write it with the % sign.")


def _rate(amount: Amount, text: str) -> Load | None:
    """ "1 oz per lb" and "12:1" as a load; None for a percent."""
    if amount.ratio:
        if len(amount.ratio) != 2:
            raise Unreadable(
                text, f"“{clipped(text)}” has more than two parts. Write the load as a percent, such as 8 %."
            )
        large, small = max(amount.ratio), min(amount.ratio)
        return Load.rate(Mass(bounded(small, text)), Mass(_above_zero(large, text)), amount.text)
    if amount.per is None:
        return None
    fragrance = quantity(_single(amount))
    per = quantity(Amount(amount.start, amount.end, amount.per[0], amount.per[1], text=amount.text))
    if not isinstance(fragrance, Mass) or not isinstance(per, Mass):
        raise WrongKind(
            text,
            f"“{clipped(amount.text)}” is not weight to weight. Give the load as {EXAMPLE}, with both sides weighed.",
        )
    if not per:
        raise OutOfRange(text, "A rate needs some wax to go with it, such as 1 oz per lb.")
    return Load.rate(fragrance, per, amount.text)


def rate_of(amount: Amount) -> Load | None:
    """The load that an amount in running text is (weight to weight only), or None."""
    try:
        return _rate(amount, amount.text) if amount.per is not None else None
    except (OutOfRange, Unreadable, WrongKind):
        return None


def _single(amount: Amount) -> Amount:
    return Amount(amount.start, amount.end, amount.value, amount.unit, text=amount.text)


def _above_zero(value: Decimal, text: str) -> Decimal:
    if bounded(value, text) <= 0:
        raise OutOfRange(text, f"A rate needs some wax to go with it. Write it as {EXAMPLE}.")
    return value
