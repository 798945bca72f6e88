"""What makes a text unanswerable though it looks like a question: sums with powers, units nobody knows."""

from __future__ import annotations

import re

from core.answer import Answer, Missing
from core.errors import UnknownUnit, Unreadable, clipped
from core.question import Question
from core.questions.load import LoadQuestion
from core.questions.stock import StockQuestion
from core.reading.marks import Scan
from core.reading.unit_names import near_units
from core.units import Mass

# Two stars between figures; those around a bold figure have a blank or a letter on one side.
_POWER = re.compile(r"\d ?\*\* ?\d")


def refuse_powers(text: str) -> None:
    """Unreadable for "9**9 g": taken as two figures beside each other it would be a confident wrong answer."""
    found = _POWER.search(text) if "**" in text else None
    if found is not None:
        shown = clipped(text[found.start() : found.end()], 20)
        raise Unreadable(text, f"I can't work with powers such as “{shown}”. Write the number itself, such as 450 g.")


def unknown_unit(understood: Question | Answer | None, scan: Scan) -> UnknownUnit | None:
    """The error for "450 gg of wax at 8 %": a load of nothing, and a number whose unit nobody knows."""
    if isinstance(understood, LoadQuestion | StockQuestion):
        lacking = not any(getattr(understood, weight, None) for weight in ("wax", "fragrance", "total"))
    else:
        lacking = isinstance(understood, Missing)
    if not lacking or scan.kind("mass") or scan.kind("volume"):
        return None
    for number in scan.kind("number"):
        words = scan.marks[number.at + 1 : number.at + 4]
        if not words or words[0].kind != "word" or words[0].tags or not words[0].text.isalpha():
            continue
        if any(
            each.noun in ("wax", "fragrance") for each in words[1 : 3 if words[1:2] and words[1].text == "of" else 2]
        ):
            return near_units(words[0].text, (Mass,))
    return None
