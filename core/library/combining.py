"""Several measurements of one density made one figure, with how exact it is, and those that stand out."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

# A robust standard deviation is 1.4826 times the median absolute deviation, and a value is looked at twice when it
# lies more than 3.5 of them from the median (NIST/SEMATECH e-Handbook of Statistical Methods 1.3.5.17, the modified
# z-score; both figures from memory).
MAD_TO_SIGMA = Decimal("1.4826")
STANDS_OUT = Decimal("3.5")
FEWEST_FOR_OUTLIERS = 3
# Nobody's measurement at home is closer than this share of the density: a class B cylinder of 100 ml may be off by 1 ml
# (ASTM E1272), as a standard uncertainty 1 % ÷ √3 (JCGM 100:2008, 4.3.7; clause from memory). Without it two readings
# that agree by luck would make a good third one stand out.
AT_HOME = Decimal("0.0058")


@dataclass(frozen=True, slots=True)
class Value:
    """One measured value and its standard uncertainty, None where nobody said."""

    value: Decimal
    spread: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Combined:
    """The combined `value`; `spread` its standard uncertainty (None for one value without one). `chi` is the square
    root of the reduced chi-squared, None where it can't be told; `scattered` says that the values differ more than
    their uncertainties allow, so that `spread` was taken from their scatter; `weighted` whether by 1/u². `outliers` are
    the places of values left out, `apart` says that two values, which have no middle, are far from each other."""

    value: Decimal
    spread: Decimal | None
    weighted: bool
    chi: Decimal | None = None
    scattered: bool = False
    outliers: tuple[int, ...] = ()
    apart: bool = False


def combine(values: Sequence[Value]) -> Combined:
    """Weighted by 1/u² where every value has its u, else the plain mean; what stands out is left out (ISO 5725-2,
    7.3.3: an outlier is discarded unless there is reason to keep it; clause from memory). There must be at least one.

    Weighted mean x = Σ(xᵢ/uᵢ²)/Σ(1/uᵢ²), u = 1/√Σ(1/uᵢ²); where √(χ²/(n-1)) is above 1, u is
    multiplied by it. Plain mean: u = s/√n (JCGM 100:2008, 4.2.3). Clause and factor from memory.
    """
    if len(values) == 1:
        return Combined(values[0].value, values[0].spread, weighted=False)
    outliers = standing_out(values)
    values = [value for place, value in enumerate(values) if place not in outliers]
    return replace(_together(values), outliers=outliers, apart=_apart(values))


def _apart(values: Sequence[Value]) -> bool:
    """Whether two values differ by more than both may be off."""
    if len(values) != 2:
        return False
    off = [value.spread or AT_HOME * value.value for value in values]
    return abs(values[0].value - values[1].value) > STANDS_OUT * sum((u**2 for u in off), Decimal(0)).sqrt()


def _together(values: Sequence[Value]) -> Combined:
    """At least two values, all of which count."""
    spreads = [value.spread for value in values if value.spread]
    if len(spreads) == len(values):
        return _weighted([value.value for value in values], spreads)
    numbers = [value.value for value in values]
    mean = sum(numbers, Decimal(0)) / len(numbers)
    scatter = sum(((number - mean) ** 2 for number in numbers), Decimal(0)) / (len(numbers) - 1)
    return Combined(mean, (scatter / len(numbers)).sqrt() or None, weighted=False)


def _weighted(numbers: Sequence[Decimal], spreads: Sequence[Decimal]) -> Combined:
    weights = [1 / spread**2 for spread in spreads]
    whole = sum(weights, Decimal(0))
    mean = sum((number * weight for number, weight in zip(numbers, weights, strict=True)), Decimal(0)) / whole
    chi_squared = sum(((n - mean) ** 2 * weight for n, weight in zip(numbers, weights, strict=True)), Decimal(0))
    chi = (chi_squared / (len(numbers) - 1)).sqrt()
    inner = 1 / whole.sqrt()
    scattered = chi > 1
    return Combined(mean, inner * chi if scattered else inner, True, chi, scattered)


def standing_out(values: Sequence[Value]) -> tuple[int, ...]:
    """Places of the values far from the middle one. Equal readings do not make every other one stand out: what the
    values themselves say of their uncertainty, else what can be told at home, is the least that counts as near. At
    least two values never stand out."""
    if len(values) < FEWEST_FOR_OUTLIERS:
        return ()
    middle = median([value.value for value in values])
    away = [abs(value.value - middle) for value in values]
    spreads = [value.spread for value in values if value.spread]
    sigma = max(MAD_TO_SIGMA * median(away), median(spreads) if spreads else AT_HOME * middle)
    return tuple(i for i, distance in enumerate(away) if sigma and distance > STANDS_OUT * sigma)


def median(numbers: Sequence[Decimal]) -> Decimal:
    """The middle one, or the mean of the two in the middle. There must be at least one."""
    ordered = sorted(numbers)
    half = len(ordered) // 2
    return ordered[half] if len(ordered) % 2 else (ordered[half - 1] + ordered[half]) / 2
