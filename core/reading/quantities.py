"""One amount as found in a text to the typed quantity of `core.units` it is."""

from __future__ import annotations

from decimal import Decimal

from core.errors import OutOfRange
from core.reading.amounts import Amount
from core.units import DENSITY_UNITS, UNSAID, Density, Mass, Number, Quantity, Volume, factor, kind_of

# Finer or longer than anything a scale or a till shows; beyond it a number is noise or an attack.
MOST_DIGITS = 60
SMALLEST_EXPONENT = -40

CUBIC_METRE = Decimal("1e6")  # ml
_DENSITY_KEYS = {(mass, volume): key for key, (mass, volume, times) in reversed(DENSITY_UNITS.items()) if times == 1}
_DENSITY_KEYS[("kg", "m3")] = "kg/m3"


def bounded(value: Decimal, text: str) -> Decimal:
    """The number, if it is one a person could mean. OutOfRange otherwise."""
    if not value.is_finite() or len(value.as_tuple().digits) > MOST_DIGITS:
        raise OutOfRange(text[:40], "That number has too many digits to weigh. Give a shorter one, such as 450 g.")
    if not value:
        return Decimal(0)
    if value.adjusted() < SMALLEST_EXPONENT:
        raise OutOfRange(text[:40], "That number is too small to weigh. Give a larger one, such as 0.1 g.")
    if value.adjusted() > 12:
        raise OutOfRange(text[:40], "That number is too large to weigh. Give one below 1,000,000,000,000.")
    return value


def quantity(amount: Amount) -> Quantity | None:
    """The amount as a quantity; None for what is none of ours (a ratio, parts, degrees of an unsaid scale).

    A rate of a weight to a volume is a Density; another rate is None. OutOfRange for absurd numbers.
    """
    value = bounded(amount.value, amount.text)
    if amount.ratio:
        return None
    if amount.per is not None:
        return density(amount)
    if amount.unit == "m3":
        return Volume(value * CUBIC_METRE, "l")
    if amount.unit == "drop":
        return Number(value, "drop")
    kind = kind_of(amount.unit)
    if kind is None:
        return None
    if kind is Mass and [unit for _, unit in amount.parts] == ["lb", "oz"]:
        return Mass(value * factor("lb", "g"), "lb_oz")
    return kind.of(value, amount.unit)


def density(amount: Amount) -> Density | None:
    """A rate such as 0.93 g/ml or 8 lb per gallon as a density; None where it is another kind of rate."""
    if amount.per is None:
        return None
    number, per = bounded(amount.per[0], amount.text), amount.per[1]
    top, bottom = kind_of(amount.unit), Volume if per == "m3" else kind_of(per)
    if not number or {top, bottom} != {Mass, Volume}:
        return None
    value = bounded(amount.value, amount.text)
    if top is Volume:  # "1.08 ml per g"
        if not value:
            return None
        return Density.from_ratio(Mass.of(number, per), Volume.of(value, amount.unit))
    key = _DENSITY_KEYS.get((amount.unit, UNSAID.get(per, per)))
    if key is not None and number == 1:
        return Density.of(value, key)
    volume = Volume(number * CUBIC_METRE, "l") if per == "m3" else Volume.of(number, per)
    return Density.from_ratio(Mass.of(value, amount.unit), volume)


def mass(amount: Amount) -> Mass | None:
    """The amount as a weight, if it is one."""
    found = quantity(amount)
    return found if isinstance(found, Mass) else None
