"""What the wax and the fragrance at hand give: how many candles, what runs out first, what is left."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import Basis, Load, Masses
from core.question import Question, slot
from core.questions.batch import FillIs
from core.units import Mass


@dataclass(frozen=True, slots=True, kw_only=True)
class StockQuestion(Question):
    """How far the wax and fragrance at hand go: which runs out first, and what is left."""

    command: ClassVar[str] = "stock"

    wax: Masses | None = slot("The wax at hand, by weight; several add up", example="2.4 kg")
    fragrance: Mass | None = slot("The fragrance oil at hand, by weight", example="100 g")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    each: Mass | None = slot("What goes into one candle, by weight", example="200 g")
    fill_is: FillIs | None = slot("Is that wax and fragrance together, or the wax alone?")

    @property
    def intent(self) -> str:
        """One name for every way round."""
        return "wax_for_fragrance"
