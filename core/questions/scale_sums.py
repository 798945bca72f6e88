"""What the step of a scale does to a weight and to a load.

One reading is off by up to half a step d either way, u = d/√12; the difference of two by up to d, u = d/√6
(JCGM 100:2008, rectangular distribution; the clauses from memory).
"""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum

from core.mixing import Mix
from core.units import Mass, Percent

# Steps that scales are sold with, in grams (common practice, no source).
STEPS_ON_SALE = tuple(Decimal(step) for step in ("10", "5", "2", "1", "0.5", "0.2", "0.1", "0.05", "0.01", "0.001"))


class Readings(StrEnum):
    """How a weight comes off the scale. The value is what a person sees."""

    SINGLE = "one reading each, from zero"
    TARED = "the difference of two readings"
    CUMULATIVE = "added to the pot without zeroing"

    @property
    def number(self) -> int:
        """How many readings a weight is made of."""
        return 1 if self is Readings.SINGLE else 2


def half_width(step: Mass, readings: Readings) -> Mass:
    """The most a weight is off, either way."""
    return Mass(step.base * readings.number / 2, step.unit)


def standard(step: Mass, readings: Readings) -> Mass:
    """The standard uncertainty of a weight."""
    return Mass(step.base / Decimal(12 // readings.number).sqrt(), step.unit)


def share(part: Mass, whole: Mass) -> Percent:
    """`part` as a percent of `whole`, which must not be zero."""
    return Percent(part.base / whole.base * 100)


def smallest(step: Mass, wanted: Percent, readings: Readings) -> Mass:
    """The least weight that the step leaves within `wanted`."""
    return Mass(half_width(step, readings).base / wanted.fraction, step.unit)


def coarsest(weight: Mass, wanted: Percent, readings: Readings) -> Mass:
    """The largest step that keeps `weight` within `wanted`."""
    return Mass(weight.base * wanted.fraction * 2 / readings.number, weight.unit)


def step_on_sale(most: Mass) -> Mass:
    """The coarsest step on sale that is not above `most`; `most` itself where none is so fine."""
    return Mass(next((step for step in STEPS_ON_SALE if step <= most.base), most.base))


def u_of_load(mix: Mix, step: Mass, readings: Readings) -> Percent:
    """The standard uncertainty of fragrance ÷ wax in percent points, from the step alone.

    Without zeroing the fragrance is the second reading less the first, which is the wax's own: the two go together.
    """
    wax, oil = mix.wax.base, mix.fragrance.base
    u = standard(step, Readings.TARED if readings is Readings.TARED else Readings.SINGLE).base
    by_wax = (wax + oil) / wax if readings is Readings.CUMULATIVE else oil / wax
    return Percent(u / wax * (1 + by_wax * by_wax).sqrt() * 100)


def u_of_total_load(mix: Mix, step: Mass, readings: Readings) -> Percent:
    """The same for fragrance ÷ (wax + fragrance): q ÷ (1 + q) changes by 1 ÷ (1 + q)² of what q does."""
    wax_share = mix.wax.base / mix.total.base
    return Percent(u_of_load(mix, step, readings).base * wax_share * wax_share)
