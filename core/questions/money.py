"""Prices together: one currency or none said, and what a little of something costs."""

from __future__ import annotations

from collections.abc import Iterable

from core.errors import Contradiction, OutOfRange
from core.units import Money
from core.writing import write


def one_currency(prices: Iterable[Money], usual: str = "money") -> str:
    """The currency of all the prices; those without one take the others'. `usual` where none was said.

    Raises Contradiction for two currencies, OutOfRange for a price below nothing.
    """
    found: list[str] = []
    for price in prices:
        if price.base < 0:
            raise OutOfRange(write(price), "A price can't be less than nothing. Check the minus sign.")
        if price.unit != "money" and price.unit not in found:
            found.append(price.unit)
    if len(found) > 1:
        raise Contradiction(
            ", ".join(found), "Those prices are in different currencies. Give them all in one, and ask again."
        )
    return found[0] if found else usual
