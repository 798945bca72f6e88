"""Several measurements of one density made one figure, with how exact it is, and those that stand out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

# A robust standard deviation is 1.4826 times the median absolute deviation, and a value is looked at twice when it
# lies more than 3.5 of them from the median (NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17, after Iglewicz
# and Hoaglin 1993; both figures from memory).
MAD_TO_SIGMA = Decimal("1.4826")
STANDS_OUT = Decimal("3.5")
FEWEST_FOR_OUTLIERS = 3


@dataclass(frozen=True, slots=True)
class Value:
    """One measured value and its standard uncertainty, None where nobody said."""

    value: Decimal
    spread: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Combined:
    """The combined `value`; `spread` its standard uncertainty (None for one value without one). `chi` is the square
    root of the reduced chi-squared, None where it can't be told; `scattered` says that the values differ more than
    their uncertainties allow, so that `spread` was taken from their scatter; `weighted` whether by 1/u²."""

    value: Decimal
    spread: Decimal | None
    weighted: bool
    chi: Decimal | None = None
    scattered: bool = False
    outliers: tuple[int, ...] = ()


def combine(values: Sequence[Value]) -> Combined:
    """Weighted by 1/u² where every value has its u, else the plain mean. There must be at least one.

    Weighted mean x = Σ(xᵢ/uᵢ²)/Σ(1/uᵢ²), u = 1/√Σ(1/uᵢ²); where √(χ²/(n-1)) is above 1 (Birge's ratio), u is
    multiplied by it. Plain mean: u = s/√n (JCGM 100:2008, 4.2.3). Clause and ratio from memory.
    """
    spreads = [value.spread for value in values if value.spread]
    if len(values) == 1:
        return Combined(values[0].value, values[0].spread, weighted=False)
    outliers = standing_out(values)
    if len(spreads) == len(values):
        return _weighted([value.value for value in values], spreads, outliers)
    numbers = [value.value for value in values]
    mean = sum(numbers, Decimal(0)) / len(numbers)
    scatter = sum(((number - mean) ** 2 for number in numbers), Decimal(0)) / (len(numbers) - 1)
    return Combined(mean, (scatter / len(numbers)).sqrt() or None, weighted=False, outliers=outliers)


def _weighted(numbers: Sequence[Decimal], spreads: Sequence[Decimal], outliers: tuple[int, ...]) -> Combined:
    weights = [1 / spread**2 for spread in spreads]
    whole = sum(weights, Decimal(0))
    mean = sum((number * weight for number, weight in zip(numbers, weights, strict=True)), Decimal(0)) / whole
    chi_squared = sum(((n - mean) ** 2 * weight for n, weight in zip(numbers, weights, strict=True)), Decimal(0))
    chi = (chi_squared / (len(numbers) - 1)).sqrt()
    inner = 1 / whole.sqrt()
    scattered = chi > 1
    return Combined(mean, inner * chi if scattered else inner, True, chi, scattered, outliers)


def standing_out(values: Sequence[Value]) -> tuple[int, ...]:
    """Places of the values far from the middle one. Equal readings do not make every other one stand out: what the
    values themselves say of their uncertainty is the least that counts as near."""
    if len(values) < FEWEST_FOR_OUTLIERS:
        return ()
    middle = median([value.value for value in values])
    away = [abs(value.value - middle) for value in values]
    spreads = [value.spread for value in values if value.spread]
    sigma = max(MAD_TO_SIGMA * median(away), median(spreads) if spreads else Decimal(0))
    return tuple(i for i, distance in enumerate(away) if sigma and distance > STANDS_OUT * sigma)


def median(numbers: Sequence[Decimal]) -> Decimal:
    """The middle one, or the mean of the two in the middle. There must be at least one."""
    ordered = sorted(numbers)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2
