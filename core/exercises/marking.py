"""An answer to an exercise, judged: right, a known mistake, or something else."""

from __future__ import annotations

from decimal import Decimal

from core.exercises.kinds import Mistake, Solved
from core.units import Mass, Quantity

# What rounding a sum in between leaves, as a share.
CLOSE = Decimal("0.003")
# The most that few typed digits, or a coarse scale, excuse.
COARSE = Decimal("0.02")
# They never excuse a figure that is nearer to a mistake.
NEARER = Decimal("0.45")


def is_right(given: Quantity, found: Solved, step: Decimal | None = None) -> bool:
    """Whether `given` is the right figure, within its own digits or the scale's `step` in grams."""
    right = found.right
    off = abs(given.base - right.base)
    if off <= right.base * CLOSE:
        return True
    nearest = min((abs(each.gives.base - right.base) for each in found.mistakes), default=right.base)
    digits = _half_digit(given)
    if step is not None and isinstance(right, Mass):
        digits = max(digits, step / 2)
    return off <= min(digits, right.base * COARSE, nearest * NEARER)


def mistake_made(given: Quantity, found: Solved) -> Mistake | None:
    """The known mistake that gives that figure, the nearest one where several could."""
    near = [each for each in found.mistakes if abs(given.base - each.gives.base) <= _allowed(given, each.gives)]
    return min(near, key=lambda each: abs(given.base - each.gives.base), default=None)


def _allowed(given: Quantity, figure: Quantity) -> Decimal:
    """How far off a mistake's figure may be written."""
    return max(figure.base * CLOSE, min(_half_digit(given), figure.base * COARSE))


def _half_digit(given: Quantity) -> Decimal:
    """Half of the last digit typed, in the base unit."""
    unit = "oz" if given.unit == "lb_oz" else given.unit
    exponent = given.to(unit).normalize().as_tuple().exponent
    digit = Decimal(1).scaleb(min(exponent, 0) if isinstance(exponent, int) else 0)
    return abs(type(given).of(digit, unit).base) / 2
