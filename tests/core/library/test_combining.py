"""Combined measurements against scipy: a least-squares constant, the standard error of a mean, the MAD."""

from __future__ import annotations

from decimal import Decimal

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy import optimize, stats

from core.library.combining import (
    AT_HOME,
    STANDS_OUT,
    STUDENT,
    USUAL_COVERAGE,
    Value,
    combine,
    median,
    standing_out,
    student,
)

DENSITIES = st.decimals(min_value="0.6", max_value="1.4", places=4)
SPREADS = st.decimals(min_value="0.0005", max_value="0.02", places=4)
MEASURED = st.lists(st.tuples(DENSITIES, SPREADS), min_size=2, max_size=12)


def fitted(values: list[tuple[Decimal, Decimal]], *, absolute: bool) -> tuple[float, float]:
    """A constant fitted to the values by scipy: its value and its standard uncertainty."""
    x, u = np.array(values, dtype=float).T
    found, covariance = optimize.curve_fit(lambda at, c: c + 0 * at, x, x, [1.0], u, absolute_sigma=absolute)
    return float(found[0]), float(np.sqrt(covariance[0][0]))


def together(scatter: float, tools: float, n: int) -> tuple[float, float]:
    """Standard uncertainty and what is claimed 19 times in 20, by scipy's t for the freedom rounded down."""
    u = float(np.hypot(scatter, tools))
    freedom = (n - 1) * (u / scatter) ** 4 if scatter else np.inf
    return u, u * max(2.0, float(stats.t.ppf(0.975, np.floor(freedom))))


@given(MEASURED)
def test_weighted_mean_is_the_least_squares_constant(values: list[tuple[Decimal, Decimal]]) -> None:
    """scipy.optimize.curve_fit: without `absolute_sigma` it gives the scatter of the mean; the tools' own uncertainty,
    the same each time, is added as a square (JCGM 100:2008, 5.1.2)."""
    found = combine([Value(*value) for value in values])
    values = [value for place, value in enumerate(values) if place not in found.outliers]
    mean, inner = fitted(values, absolute=True)
    _, outer = fitted(values, absolute=False)
    assert found.weighted
    assert float(found.value) == pytest.approx(mean, rel=1e-6)
    assert found.spread is not None
    own = np.array([float(u) for _, u in values])
    tools = float(np.average(own, weights=own**-2))
    u, _ = together(outer, tools, len(values))
    assert float(found.spread) == pytest.approx(u, rel=1e-4)
    assert float(found.spread) >= tools * 0.999999
    assert tools >= min(own) * 0.999999
    assert found.chi is not None
    assert float(found.chi) == pytest.approx(outer / inner, rel=1e-4, abs=1e-6)
    assert found.scattered == (found.chi > 1)


@given(st.lists(DENSITIES, min_size=2, max_size=12))
@example([Decimal("1.3147"), Decimal("1.3070"), Decimal("1.3017")])  # just past a row of the table
def test_plain_mean_where_nobody_said_how_exact(numbers: list[Decimal]) -> None:
    """scipy.stats.sem is s/√n; nobody's tools at home are better than the best that is known. Two can't be told."""
    found = combine([Value(number) for number in numbers])
    numbers = [number for place, number in enumerate(numbers) if place not in found.outliers]
    assert not found.weighted
    assert float(found.value) == pytest.approx(np.mean([float(n) for n in numbers]))
    if len(numbers) == 2:
        assert found.too_few
        assert found.spread is None
        return
    u, wide = together(float(stats.sem([float(n) for n in numbers])), float(AT_HOME * found.value), len(numbers))
    assert float(found.spread or 0) == pytest.approx(u)
    # Between two rows of the table the earlier, wider one holds: but for its rounding never narrower.
    assert wide * 0.997 <= float((found.spread or 0) * found.coverage) <= wide * 1.05


def test_students_factor_is_that_of_the_published_table() -> None:
    """JCGM 100:2008, Table G.2, against scipy.stats.t."""
    for freedom, factor in STUDENT.items():
        assert float(factor) == pytest.approx(stats.t.ppf(0.975, freedom), abs=0.006)
        assert student(Decimal(freedom) + Decimal("0.9")) in (factor, STUDENT.get(freedom + 1), USUAL_COVERAGE)
    assert student(Decimal(1)) == Decimal("12.71")
    assert student(Decimal(10**9)) == USUAL_COVERAGE


def test_three_that_scatter_widely_claim_four_standard_uncertainties_not_two() -> None:
    """By hand: 0.90, 0.93, 0.96 scatter by s = 0.03, s/√3 = 0.01732; the tools are 0.0058 × 0.93 = 0.005394; together
    0.018141. Freedom 2 × (0.018141/0.01732)⁴ = 2.4, so Student's factor of 2 holds: 4.30."""
    found = combine([Value(Decimal(x)) for x in ("0.90", "0.93", "0.96")])
    assert float(found.spread or 0) == pytest.approx(0.018141, abs=1e-6)
    assert found.coverage == Decimal("4.30")


def test_equal_readings_claim_no_less_than_the_tools_allow() -> None:
    same = combine([Value(Decimal("0.93"), Decimal("0.004"))] * 5)
    assert same.spread == Decimal("0.004")
    assert same.coverage == 2
    mixed = combine([Value(Decimal("0.93"), Decimal("0.004")), Value(Decimal("0.93")), Value(Decimal("0.93"))])
    assert mixed.spread == Decimal("0.004")


@given(st.lists(DENSITIES, min_size=3, max_size=15))
def test_outliers_by_the_median_absolute_deviation(numbers: list[Decimal]) -> None:
    """scipy.stats.median_abs_deviation(scale="normal") divides by 0.67449 where the rule multiplies by 1.4826."""
    away = np.abs(np.array(numbers, dtype=float) - np.median(np.array(numbers, dtype=float)))
    sigma = stats.median_abs_deviation(np.array(numbers, dtype=float), scale="normal")
    sigma = max(sigma, float(AT_HOME) * float(np.median(np.array(numbers, dtype=float))))
    sure = {i for i, d in enumerate(away) if sigma > 0 and d > float(STANDS_OUT) * sigma * 1.0001}
    perhaps = {i for i, d in enumerate(away) if sigma > 0 and d > float(STANDS_OUT) * sigma * 0.9999}
    assert sure <= set(standing_out([Value(number) for number in numbers])) <= perhaps


def test_one_measurement_stays_as_it_is() -> None:
    assert combine([Value(Decimal("0.91"))]).spread is None
    assert combine([Value(Decimal("0.91"), Decimal("0.004"))]).spread == Decimal("0.004")


def test_equal_readings_do_not_make_a_near_one_stand_out() -> None:
    u = Decimal("0.002")
    values = [Value(Decimal(x), u) for x in ("0.900", "0.900", "0.900", "0.901")]
    assert standing_out(values) == ()
    assert standing_out([*values, Value(Decimal("0.950"), u)]) == (4,)


@given(st.lists(DENSITIES, min_size=3, max_size=15))
def test_what_stands_out_is_left_out_and_two_always_stay(numbers: list[Decimal]) -> None:
    found = combine([Value(number) for number in numbers])
    kept = [number for place, number in enumerate(numbers) if place not in found.outliers]
    assert len(kept) >= 2
    assert min(kept) <= found.value <= max(kept)


def test_a_slip_of_the_pen_does_not_move_the_figure() -> None:
    """0.39 for 0.93; the mean of the others by hand: (0.93 + 0.932 + 0.935) ÷ 3 = 0.93233…"""
    found = combine([Value(Decimal(x)) for x in ("0.93", "0.932", "0.935", "0.39")])
    assert found.outliers == (3,)
    assert float(found.value) == pytest.approx(0.932333, abs=1e-6)


def test_two_that_agree_by_luck_do_not_make_a_good_third_one_stand_out() -> None:
    assert combine([Value(Decimal(x)) for x in ("0.930", "0.930", "0.938")]).outliers == ()


def test_two_far_apart_are_said_to_be_so() -> None:
    assert combine([Value(Decimal("0.93")), Value(Decimal("0.39"))]).apart
    assert not combine([Value(Decimal("0.93")), Value(Decimal("0.935"))]).apart


def test_median_of_an_even_number() -> None:
    assert median([Decimal(4), Decimal(1), Decimal(3), Decimal(2)]) == Decimal("2.5")
