"""Scale classes against OIML R 76-1 and NIST Handbook 44."""

from decimal import Decimal

import pytest

from core.reference import scales
from core.reference.scales import Accuracy
from core.reference.table import Status


@pytest.mark.parametrize(
    ("accuracy", "step", "n_max", "least"),
    [
        # OIML R 76-1 Table 3
        (Accuracy.I, "0.001", None, 100),
        (Accuracy.II, "0.001", 100_000, 20),
        (Accuracy.II, "0.05", 100_000, 20),
        (Accuracy.II, "0.1", 100_000, 50),
        (Accuracy.III, "0.1", 10_000, 20),
        (Accuracy.III, "2", 10_000, 20),
        (Accuracy.III, "5", 10_000, 20),
        (Accuracy.IIII, "5", 1_000, 10),
    ],
)
def test_class_table(accuracy: Accuracy, step: str, n_max: int | None, least: int) -> None:
    found = scales.scale_class(accuracy, Decimal(step))
    assert found is not None
    assert (found.n_max, found.least_load, found.status) == (n_max, least, Status.READ)
    assert scales.minimum_load(accuracy, Decimal(step)) == least * Decimal(step)


@pytest.mark.parametrize(
    ("accuracy", "step"),
    [(Accuracy.II, "0.0005"), (Accuracy.III, "0.05"), (Accuracy.IIII, "1"), (Accuracy.III, "NaN")],
)
def test_no_class_with_so_small_a_step(accuracy: Accuracy, step: str) -> None:
    assert scales.scale_class(accuracy, Decimal(step)) is None
    assert scales.minimum_load(accuracy, Decimal(step)) is None


@pytest.mark.parametrize(
    ("accuracy", "load", "divisions"),
    [
        # OIML R 76-1: twice the error of a new one (0.5, 1 and 1.5 divisions)
        (Accuracy.III, 0, 1),
        (Accuracy.III, 500, 1),
        (Accuracy.III, "500.1", 2),
        (Accuracy.III, 2000, 2),
        (Accuracy.III, 2001, 3),
        (Accuracy.III, 10_000, 3),
        (Accuracy.II, 5000, 1),
        (Accuracy.II, 5001, 2),
        (Accuracy.II, 20_001, 3),
        (Accuracy.I, 50_000, 1),
        (Accuracy.I, 200_001, 3),
    ],
)
def test_oiml_limits(accuracy: Accuracy, load: str, divisions: int) -> None:
    found = scales.tolerance(accuracy, Decimal(load))
    assert found is not None
    assert (found.divisions, found.status) == (divisions, Status.READ)


@pytest.mark.parametrize(("accuracy", "load"), [(Accuracy.III, "10001"), (Accuracy.III, "-1"), (Accuracy.III, "NaN")])
def test_no_limit_outside_the_class(accuracy: Accuracy, load: str) -> None:
    assert scales.tolerance(accuracy, Decimal(load)) is None


def test_twenty_grams_on_a_one_gram_scale() -> None:
    # OIML R 76-1 class III, e = 1 g: exactly the minimum load; ±1 g in use is 5 %
    assert scales.minimum_load(Accuracy.III, Decimal(1)) == 20
    used = scales.tolerance(Accuracy.III, Decimal(20))
    assert used is not None
    assert used.divisions / 20 == Decimal("0.05")


def test_one_ounce_on_a_tenth_ounce_scale_is_below_the_minimum_load() -> None:
    # OIML R 76-1 class III: 10 divisions of 0.1 oz are below 20; 20 of 0.05 oz are just enough
    ounce = Decimal("28.349523125")
    coarse, fine = (scales.minimum_load(Accuracy.III, Decimal(step) * ounce) for step in ("0.1", "0.05"))
    assert coarse is not None
    assert fine is not None
    assert coarse > ounce
    assert fine == ounce
