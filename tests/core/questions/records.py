"""A book with a few invented records, and short ways to look at an answer."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from core.answer import Answer, Choice, Line, Missing, results_by_name
from core.book import EmptyBook, MaterialRecord, Preferences
from core.units import Density, Temperature

D = Decimal

RECORDS = (
    MaterialRecord(
        "Barn soy", "wax", Density(D("0.912")), D("0.004"), Temperature(D(20)), how="weighed in a 100 ml cylinder"
    ),
    MaterialRecord("Night fig", "fragrance oil", Density(D("1.012")), at=Temperature(D(20))),
    MaterialRecord("Dry dye", "additive"),
)


@dataclass(frozen=True, slots=True)
class Shelf(EmptyBook):
    """The invented records, found by name whatever the case."""

    preferences: Preferences = field(default_factory=Preferences)

    def material(self, name: str) -> MaterialRecord | None:
        """The record of that name."""
        return next((each for each in RECORDS if each.name.casefold() == name.casefold().strip()), None)

    def names(self, kind: str, start: str, limit: int = 25) -> Sequence[str]:
        """Names that begin like `start`."""
        return [each.name for each in RECORDS if each.name.casefold()[:3] == start.casefold()[:3]][:limit]


SHELF = Shelf()
EMPTY = EmptyBook()


def number(answer: Answer, what: str) -> Decimal:
    """One result in its base unit."""
    return results_by_name(answer)[what].base


def needs(answer: Answer) -> list[str]:
    """The names of what is missing or open."""
    assert isinstance(answer, Missing | Choice), answer.headline.show()
    return [need.name for need in answer.needs]


def words(answer: Answer) -> str:
    """Everything an answer says, as plain text."""
    parts: list[Line] = [answer.headline, *answer.body, *answer.other, *answer.assumed]
    parts += [part for part in (answer.read_as, answer.check) if part is not None]
    parts += [each for step in answer.steps for each in (line_of(step.formula), step.numbers, step.result)]
    parts += [caution.line for caution in answer.cautions]
    if isinstance(answer, Missing):
        parts += answer.guide
        parts += [each for need in answer.needs for each in (need.what, need.how) if each is not None]
    if isinstance(answer, Choice):
        parts += [option.means for option in answer.options]
    return "\n".join(part.show() for part in parts)


def line_of(text: str) -> Line:
    """Our own words as a line."""
    return Line("{}", (text,))


def cautions(answer: Answer) -> set[str]:
    """The keys of the cautions."""
    return {caution.key for caution in answer.cautions}
