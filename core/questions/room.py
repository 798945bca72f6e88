"""The same weight of two materials: how much more room does one take?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import Material
from core.question import Question, slot
from core.units import Density, Mass


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomQuestion(Question):
    """Two materials of the same weight: how much more room does one take?"""

    command: ClassVar[str] = "room"

    mass: Mass | None = slot("The weight, the same of both", example="500 g")
    first: Density | None = slot("The first one's density", example="0.90 g/ml")
    second: Density | None = slot("The second one's density", example="0.96 g/ml")
    first_material: Material | None = slot("The first one's name: recorded or published", example="my soy wax")
    second_material: Material | None = slot("The second one's name: recorded or published", example="water")

    @property
    def intent(self) -> str:
        """Worked through two densities."""
        return "density_given_conversion"
