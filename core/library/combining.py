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


# Student's t that 95 % of the values lie within, by degrees of freedom (JCGM 100:2008, Table G.2; from memory, the
# tests hold it against scipy). Between two rows the earlier one holds; never less than the usual 2 (6.3.3).
_HUNDREDTHS = (1271, 430, 318, 278, 257, 245, 236, 231, 226, 223, 220, 218, 216, 214, 213, 212, 211, 210, 209, 209)
_ROWS = (*enumerate(_HUNDREDTHS, 1), (25, 206), (30, 204), (40, 202), (50, 201), (100, 198))
STUDENT = {freedom: Decimal(factor).scaleb(-2) for freedom, factor in _ROWS}
USUAL_COVERAGE = Decimal(2)
FEWEST_TO_TELL = 3  # values; of two nobody can tell how far they scatter


@dataclass(frozen=True, slots=True)
class Combined:
    """The combined `value`; `spread` its standard uncertainty (None where it can't be told) and `coverage` how many of
    them make 19 times in 20. `chi` is the square root of the reduced chi-squared, None where it can't be told;
    `scattered` says that the values differ more than their uncertainties allow; `weighted` whether by 1/u²; `too_few`
    that they are too few to tell how far they scatter. `outliers` are the places of values left out, `apart` says that
    two values, which have no middle, are far from each other."""

    value: Decimal
    spread: Decimal | None
    weighted: bool
    coverage: Decimal = USUAL_COVERAGE
    chi: Decimal | None = None
    scattered: bool = False
    too_few: bool = False
    outliers: tuple[int, ...] = ()
    apart: bool = False


def combine(values: Sequence[Value]) -> Combined:
    """Weighted by 1/u² where every value has its u, else the plain mean; what stands out is left out (ISO 5725-2,
    7.3.3: an outlier is discarded unless there is reason to keep it; clause from memory). There must be at least one.

    Weighted mean x = Σ(xᵢ/uᵢ²)/Σ(1/uᵢ²). Its uncertainty has two parts, u² = scatter² + tools² (JCGM 100:2008, 5.1.2):
    - scatter of the mean: s/√n (4.2.3), weighted √(Σ(wᵢ(xᵢ − x)²)/((n − 1)Σwᵢ)), which has n − 1 degrees of freedom;
    - tools: what scale and measure may be off by is off the same way each time, so it does not shrink with n: the mean
      of the uᵢ with the same weights (5.2.2, note 1: all correlated). A value without a u counts as the worst of the
      others, and where nobody said any, as what can be told at home at best.
    19 times in 20 is Student's factor for the effective degrees of freedom ν = (n − 1) u⁴/scatter⁴ (G.4.1), at least
    the usual 2. Two values without a u are too few to tell. Clauses from memory.
    """
    if len(values) == 1:
        return Combined(values[0].value, values[0].spread, weighted=False)
    outliers = standing_out(values)
    values = [value for place, value in enumerate(values) if place not in outliers]
    return replace(_together(values), outliers=outliers, apart=_apart(values))


def student(freedom: Decimal) -> Decimal:
    """Student's factor for 95 % at so many degrees of freedom (1 or more), never less than the usual 2."""
    return max(STUDENT[max(row for row in STUDENT if row <= freedom)], USUAL_COVERAGE)


def _apart(values: Sequence[Value]) -> bool:
    """Whether two values differ by more than both may be off."""
    if len(values) != 2:
        return False
    off = [value.spread or AT_HOME * value.value for value in values]
    return abs(values[0].value - values[1].value) > STANDS_OUT * sum((u**2 for u in off), Decimal(0)).sqrt()


def _together(values: Sequence[Value]) -> Combined:
    """At least two values, all of which count."""
    numbers, n = [value.value for value in values], len(values)
    said = [value.spread for value in values if value.spread]
    weighted = len(said) == n
    weights = [1 / spread**2 for spread in said] if weighted else [Decimal(1)] * n
    mean = _mean(numbers, weights)
    chi_squared = sum(((x - mean) ** 2 * weight for x, weight in zip(numbers, weights, strict=True)), Decimal(0))
    scatter = (chi_squared / ((n - 1) * sum(weights, Decimal(0)))).sqrt()
    chi = (chi_squared / (n - 1)).sqrt() if weighted else None
    too_few = n < FEWEST_TO_TELL
    if too_few and not said:
        return Combined(mean, None, weighted, too_few=True)
    worst = max(said, default=AT_HOME * mean)
    tools = _mean([value.spread or worst for value in values], weights)
    spread = (scatter**2 + tools**2).sqrt()
    coverage = student((n - 1) * (spread / scatter) ** 4) if scatter else USUAL_COVERAGE
    return Combined(mean, spread, weighted, coverage, chi, chi is not None and chi > 1, too_few)


def _mean(numbers: Sequence[Decimal], weights: Sequence[Decimal]) -> Decimal:
    return sum((x * weight for x, weight in zip(numbers, weights, strict=True)), Decimal(0)) / sum(weights, Decimal(0))


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
