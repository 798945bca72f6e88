"""A batch: what goes into the pot for any mix of vessels, and in which order it is weighed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from core.compounds import Additives, Basis, Fills, FormulaName, Load, Parts
from core.question import Question, slot
from core.units import Density, Mass, Percent, Volume


class FillIs(StrEnum):
    """What the weight that a vessel takes is the weight of."""

    FINISHED = "wax and fragrance together"
    WAX = "wax alone"


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchQuestion(Question):
    """A whole batch: total, wax, fragrance and a list to weigh by, for any mix of vessels."""

    command: ClassVar[str] = "batch"

    fills: Fills | None = slot("The vessels: how many, and what each takes", example="12 x 200g, 6 x 90g")
    fill_is: FillIs | None = slot("Is that weight wax and fragrance together, or the wax alone?")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb (0% for none)", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    spare: Percent | None = slot("How much more to melt for what stays in the pot, in percent", example="5%")
    spare_weight: Mass | None = slot("How much more to melt for what stays in the pot, by weight", example="50 g")
    blend: Parts | None = slot("How the fragrance divides between several oils", example="60/40")
    additives: Additives | None = slot("Dye, UV inhibitor...: percents of the wax", example="dye 0.1%, UV 0.3%")
    waxes: Parts | None = slot("How the wax divides between several waxes", example="soy 70, coconut 30")
    step: Mass | None = slot("The scale's step: the smallest change it shows", example="1 g")
    pot: Volume | None = slot("The room in the pot", example="3 l")
    density: Density | None = slot("The wax's density, for vessels given by volume", example="0.9 g/ml")
    scale_capacity: Mass | None = slot("The most that the scale can carry", example="5 kg")
    formula: FormulaName | None = slot("A formula that the group recorded", example="winter pine")

    @property
    def intent(self) -> str:
        """One name for every batch."""
        return "batch_for_vessels"
