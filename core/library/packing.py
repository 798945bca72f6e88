"""Quantities as JSON and back: the exact base value as text, and the unit it was given in."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation
from typing import Any, TypeVar

from core.units import Quantity

Q = TypeVar("Q", bound=Quantity)


def pack(value: Quantity | None) -> list[str] | None:
    """`["453.59237", "lb"]`: always in the base unit of its kind, with the unit to show it in."""
    return None if value is None else [format(value.base, "f"), value.unit]


def unpack(kind: type[Q], packed: Any) -> Q | None:
    """The quantity again; None for None. ValueError for anything `pack` does not write."""
    if packed is None:
        return None
    if not isinstance(packed, list) or len(packed) != 2 or not all(isinstance(part, str) for part in packed):
        raise ValueError(packed)
    try:
        return kind(Decimal(packed[0]), packed[1])
    except InvalidOperation as error:
        raise ValueError(packed) from error


def text(number: Decimal | None) -> str | None:
    """The number in plain digits."""
    return None if number is None else format(number, "f")


def number(kept: str | None) -> Decimal | None:
    """The number again."""
    return None if kept is None else Decimal(kept)
