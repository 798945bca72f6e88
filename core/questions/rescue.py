"""Rescue of a pot that has too much or too little fragrance in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import Basis, Load, Masses
from core.question import Question, slot
from core.units import Mass, Percent


@dataclass(frozen=True, slots=True, kw_only=True)
class RescueQuestion(Question):
    """Too much or too little fragrance in the pot: what to add to reach the load you want."""

    command: ClassVar[str] = "rescue"

    wax: Masses | None = slot("The wax in the pot, by weight; several add up", example="900 g")
    fragrance: Mass | None = slot("The fragrance oil already in it, by weight", example="90 g")
    load: Load | None = slot("The load you want: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    lost: Mass | None = slot("How much of the mix was poured off or spilled, by weight", example="120 g")
    second_wax: Masses | None = slot("The wax in a second pot that is mixed in, by weight", example="500 g")
    second_fragrance: Mass | None = slot("The fragrance oil in that second pot, by weight", example="20 g")
    strength: Percent | None = slot("How much of a diluted oil is fragrance", example="25%")
    limit: Percent | None = slot("The most the wax's own sheet allows", example="10%")

    @property
    def intent(self) -> str:
        """One name for every rescue."""
        return "rescue"
