"""Permille: not read as a load, but told as the percent it is, so that nobody gets ten times the oil."""

from __future__ import annotations

import re
from decimal import Decimal

from core.errors import Unreadable, clipped

_PERMILLE = re.compile(
    r"(?<![\d.,])(\d{1,9}(?:[.,]\d{1,6})?) ?(?:‰|per[ -]?mille?s?\b|pro[ -]?mille\b|per thousand\b)", re.IGNORECASE
)


def refuse_permille(text: str) -> None:
    """Unreadable for "8 ‰" and "8 permille", with the percent to write instead."""
    if "‰" not in text and "mil" not in text.casefold() and "thousand" not in text.casefold():
        return
    found = _PERMILLE.search(text)
    if found is not None:
        tenth = (Decimal(found[1].replace(",", ".")) / 10).normalize()
        raise Unreadable(
            text,
            f"“{clipped(found[0])}” is {tenth:f} %: a permille is a tenth of a percent. Ask again with the percent.",
        )
