"""The sums of a parcel: what it weighs, what its size counts as, which of the two is charged."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from enum import StrEnum

from core.units import Length, Mass, Number, factor
from core.writing import rounded, to_step

# A quotient worked to 40 digits may end a hair above a whole step; that hair is not charged for.
NOISE_PLACES = 12


class DivisorUnit(StrEnum):
    """What a divisor divides and gives. The value is what a person sees."""

    CM3_KG = "cm³ per kg"
    IN3_LB = "in³ per lb"
    IN3_KG = "in³ per kg"

    @property
    def length(self) -> str:
        """The unit the sides are measured in."""
        return "cm" if self is DivisorUnit.CM3_KG else "in"

    @property
    def weight(self) -> str:
        """The unit of the weight that comes out."""
        return "lb" if self is DivisorUnit.IN3_LB else "kg"


class Sides(StrEnum):
    """How the carrier rounds the sides, to whole centimetres or inches. The value is what a person sees."""

    EXACT = "as measured"
    NEAREST = "to the nearest whole"
    UP = "up to the next whole"


@dataclass(frozen=True, slots=True)
class Box:
    """The outer sides of a parcel."""

    length: Length
    width: Length
    height: Length

    @property
    def inches(self) -> bool:
        """True where the sides were given in inches or feet."""
        return self.length.unit in ("in", "ft")

    def in_unit(self, unit: str, rounding: Sides) -> tuple[Decimal, Decimal, Decimal]:
        """The sides as numbers of `unit`, rounded as the carrier does."""
        a, b, c = (_whole(side.to(unit), rounding) for side in (self.length, self.width, self.height))
        return a, b, c


def _whole(number: Decimal, rounding: Sides) -> Decimal:
    if rounding is Sides.UP:
        return rounded(number, NOISE_PLACES).to_integral_value(ROUND_CEILING)
    return to_step(number, Decimal(1)) if rounding is Sides.NEAREST else number


def volumetric(box: Box, divisor: Number, unit: DivisorUnit, rounding: Sides) -> Mass:
    """What the size counts as: length × width × height ÷ divisor."""
    a, b, c = box.in_unit(unit.length, rounding)
    return Mass(a * b * c / divisor.base * factor(unit.weight, "g"), unit.weight)


def rounded_up(mass: Mass, step: Mass) -> Mass:
    """The next whole multiple of `step`, in its unit."""
    steps = rounded(mass.base / step.base, NOISE_PLACES).to_integral_value(ROUND_CEILING)
    return Mass(steps * step.base, step.unit)
