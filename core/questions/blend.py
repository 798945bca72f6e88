"""A blend of waxes or of fragrance oils: what to weigh of each, and the density of the whole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import Parts
from core.question import Question, slot
from core.units import Mass


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendQuestion(Question):
    """A blend by parts, percents or weights: what to weigh of each, and its density."""

    command: ClassVar[str] = "blend"

    parts: Parts | None = slot("The parts by weight", example="soy 70, coconut 30", required=True)
    total: Mass | None = slot("What the blend shall weigh in all", example="500 g")
    densities: Parts | None = slot("Their densities in g/ml, in the same order", example="0.90, 0.92")

    @property
    def intent(self) -> str:
        """One name for every blend."""
        return "blend"
