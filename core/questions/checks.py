"""Refusing givens that no pot, vessel or scale can have, in words that say the way out."""

from __future__ import annotations

from decimal import Decimal

from core.errors import Contradiction, OutOfRange
from core.units import Mass, Quantity, Volume
from core.writing import write

MOST_KINDS = 200
MOST_PIECES = 100_000
# No wax and no fragrance material weighs more per millilitre than this (heaviest published: methyl salicylate, 1.18).
HEAVIEST_MIX = Decimal("1.2")


def above_zero(**given: Quantity | None) -> None:
    """Raise OutOfRange for any that is zero or less; the keyword is its name, with _ for a blank."""
    for what, value in given.items():
        if value is not None and value.base <= 0:
            raise OutOfRange(
                write(value, spec="typed"), f"The {what.replace('_', ' ')} must be more than 0. Check the number."
            )


def refuse_overfull(fill: Mass | None, room: Volume | None) -> None:
    """Raise Contradiction for a vessel smaller than what is to go into it."""
    if fill is not None and room is not None and fill.base > room.base * HEAVIEST_MIX:
        raise Contradiction(
            "fill", "That weight can't fit into that vessel: no wax is so heavy. Check the weight and the volume."
        )


def few_kinds(count: int, of_what: str) -> None:
    """Raise OutOfRange for a list longer than is taken at once."""
    if count > MOST_KINDS:
        raise OutOfRange(
            str(count), f"I take up to {MOST_KINDS} {of_what} at once; that is {figure_of(count)}. Ask in parts."
        )


def few_pieces(count: int) -> None:
    """Raise OutOfRange for no vessel at all, or for more than are taken at once."""
    if count < 1:
        raise OutOfRange(str(count), "How many vessels? I need at least 1.")
    if count > MOST_PIECES:
        raise OutOfRange(
            str(count)[:40],
            f"I take up to {figure_of(MOST_PIECES)} vessels at once. Ask for a smaller batch and multiply.",
        )


def figure_of(count: int) -> str:
    """A count with its thousands marked."""
    return f"{count:,}" if count < 10**12 else "far more"
