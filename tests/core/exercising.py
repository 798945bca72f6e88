"""Every exercise there is, as hypothesis draws them, and a group's shelf that plays in them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from hypothesis import strategies as st

from core.book import EmptyBook, MaterialRecord, Preferences
from core.exercises import Family, Level, Weights
from core.units import Density

EMPTY = EmptyBook()
RECORDS = (
    MaterialRecord("Barn soy", "wax", Density(Decimal("0.912"))),
    MaterialRecord("Night fig", "fragrance oil", Density(Decimal("1.012")), how="weighed in a 100 ml cylinder"),
    MaterialRecord("{0} @everyone", "fragrance oil"),
    MaterialRecord("Dry dye", "additive"),
)


@dataclass(frozen=True, slots=True)
class Shelf(EmptyBook):
    """A few invented records."""

    preferences: Preferences = field(default_factory=Preferences)

    def material(self, name: str) -> MaterialRecord | None:
        """The record of that name."""
        return next((each for each in RECORDS if each.name.casefold() == name.casefold()), None)

    def names(self, kind: str, start: str, limit: int = 25) -> Sequence[str]:
        """The materials that begin so."""
        found = [each.name for each in RECORDS if each.name.casefold().startswith(start.casefold())]
        return found[:limit] if kind == "material" else []


books = st.sampled_from([EMPTY, Shelf(), Shelf(Preferences(first="oz", step=Decimal("0.1")))])
families, levels, weights = st.sampled_from(Family), st.sampled_from(Level), st.sampled_from(Weights)
seeds = st.integers(0, 10**6)
