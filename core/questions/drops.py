"""Drops: no measure at all, until so many of them have been weighed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import Basis, Load, Masses
from core.question import Question, slot
from core.units import Mass, Number


@dataclass(frozen=True, slots=True, kw_only=True)
class DropsQuestion(Question):
    """Drops of fragrance oil as a weight, once some drops have been weighed."""

    command: ClassVar[str] = "drops"

    drops: Number | None = slot("How many drops", example="20")
    counted: Number | None = slot("How many drops you weighed to learn their size", example="100")
    weighed: Mass | None = slot("What those counted drops weighed together", example="2.8 g")
    wax: Masses | None = slot("The wax they go into, by weight", example="200 g")
    load: Load | None = slot("The load wanted, to learn how many drops that is", example="5%")
    basis: Basis | None = slot("What the load is a percent of")

    @property
    def intent(self) -> str:
        """Weighed drops are weights like any other."""
        return "load_from_weights" if self.counted is not None and self.weighed is not None else "volume_needs_density"
