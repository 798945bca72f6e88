"""Scale classes against OIML R 76-1 and NIST Handbook 44."""

from decimal import Decimal

import pytest

from core.reference import scales
from core.reference.scales import Accuracy, Regime
from core.reference.table import Status


@pytest.mark.parametrize(
    ("accuracy", "step", "n_min", "n_max", "least"),
    [
        # OIML R 76-1 Table 3
        (Accuracy.I, "0.001", 50_000, None, 100),
        (Accuracy.II, "0.001", 100, 100_000, 20),
        (Accuracy.II, "0.05", 100, 100_000, 20),
        (Accuracy.II, "0.1", 5_000, 100_000, 50),
        (Accuracy.III, "0.1", 100, 10_000, 20),
        (Accuracy.III, "2", 100, 10_000, 20),
        (Accuracy.III, "5", 500, 10_000, 20),
        (Accuracy.IIII, "5", 100, 1_000, 10),
    ],
)
def test_class_table(accuracy: Accuracy, step: str, n_min: int, n_max: int | None, least: int) -> None:
    found = scales.scale_class(accuracy, Decimal(step))
    assert found is not None
    assert (found.n_min, found.n_max, found.least_load, found.status) == (n_min, n_max, least, Status.READ)
    assert scales.minimum_load(accuracy, Decimal(step)) == least * Decimal(step)


@pytest.mark.parametrize(
    ("accuracy", "step"),
    [(Accuracy.II, "0.0005"), (Accuracy.III, "0.05"), (Accuracy.IIII, "1"), (Accuracy.III, "NaN")],
)
def test_no_class_with_so_small_a_step(accuracy: Accuracy, step: str) -> None:
    assert scales.scale_class(accuracy, Decimal(step)) is None
    assert scales.minimum_load(accuracy, Decimal(step)) is None


@pytest.mark.parametrize(
    ("step", "n_min"),
    [("0.125", 100), ("0.25", 500)],
)
def test_steps_in_ounces(step: str, n_min: int) -> None:
    # NIST Handbook 44 s.2.20 Table 3, class III in ounces: 0.005 to 0.125 oz from 100 divisions, 0.25 oz on from 500
    found = scales.scale_class(Accuracy.III, Decimal(step) * Decimal("28.349523125"))
    assert found is not None
    assert found.n_min == n_min


@pytest.mark.parametrize(
    ("step", "capacity", "classes"),
    [
        ("1", "5000", [Accuracy.II, Accuracy.III]),
        ("1", "10000", [Accuracy.II, Accuracy.III]),
        ("1", "10001", [Accuracy.II]),
        ("0.1", "500", [Accuracy.II, Accuracy.III]),
        ("0.1", "499", [Accuracy.III]),
        ("1", "99", []),
        ("0", "500", []),
        ("NaN", "500", []),
    ],
)
def test_classes_a_scale_could_belong_to(step: str, capacity: str, classes: list[Accuracy]) -> None:
    # OIML R 76-1 Table 3: n is capacity divided by the step
    assert [each.accuracy for each in scales.possible_classes(Decimal(step), Decimal(capacity))] == classes


@pytest.mark.parametrize(
    ("accuracy", "load", "initial", "service"),
    [
        # OIML R 76-1; in service twice as much
        (Accuracy.III, 0, "0.5", 1),
        (Accuracy.III, 500, "0.5", 1),
        (Accuracy.III, "500.1", "1.0", 2),
        (Accuracy.III, 2000, "1.0", 2),
        (Accuracy.III, 2001, "1.5", 3),
        (Accuracy.III, 10_000, "1.5", 3),
        (Accuracy.II, 5000, "0.5", 1),
        (Accuracy.II, 5001, "1.0", 2),
        (Accuracy.II, 20_001, "1.5", 3),
        (Accuracy.I, 50_000, "0.5", 1),
        (Accuracy.I, 200_001, "1.5", 3),
    ],
)
def test_oiml_limits(accuracy: Accuracy, load: str, initial: str, service: int) -> None:
    for regime, expected in ((Regime.OIML_INITIAL, Decimal(initial)), (Regime.OIML_IN_SERVICE, Decimal(service))):
        found = scales.tolerance(accuracy, Decimal(load), regime)
        assert found is not None
        assert (found.divisions, found.status) == (expected, Status.READ)


@pytest.mark.parametrize(
    ("load", "acceptance", "maintenance"),
    [
        (20, "0.5", 1),  # from memory, Handbook 44 Table 6, as the rest
        (500, "0.5", 1),
        (501, "1", 2),
        (3000, "1.5", 3),  # 3 divisions in maintenance: read in a forum's copy of the table
        (4001, "2.5", 5),  # over 4000: 5 divisions, read in the same place
        (5000, "2.5", 5),  # 2.5 at acceptance where OIML has 1.5: read in a scale maker's handbook
    ],
)
def test_handbook_44_limits(load: int, acceptance: str, maintenance: int) -> None:
    found = [scales.tolerance(Accuracy.III, Decimal(load), each) for each in (Regime.ACCEPTANCE, Regime.MAINTENANCE)]
    assert [each.divisions for each in found if each is not None] == [Decimal(acceptance), maintenance]
    assert {each.status for each in found if each is not None} == {Status.MEMORY}


def test_every_limit_in_use_is_twice_the_new_one() -> None:
    # OIML R 76-1 and Handbook 44 both say so
    for (accuracy, regime), limits in scales._limits().items():
        used = {Regime.OIML_INITIAL: Regime.OIML_IN_SERVICE, Regime.ACCEPTANCE: Regime.MAINTENANCE}.get(regime)
        if used is not None:
            other = scales._limits()[accuracy, used]
            assert (other.to, other.errors) == (limits.to, tuple(2 * each for each in limits.errors))


@pytest.mark.parametrize(("accuracy", "load"), [(Accuracy.III, "10001"), (Accuracy.III, "-1"), (Accuracy.III, "NaN")])
def test_no_limit_outside_the_class(accuracy: Accuracy, load: str) -> None:
    assert scales.tolerance(accuracy, Decimal(load), Regime.OIML_INITIAL) is None


def test_no_limit_where_no_table_is_held() -> None:
    assert scales.tolerance(Accuracy.I, Decimal(10), Regime.ACCEPTANCE) is None


def test_twenty_grams_on_a_one_gram_scale() -> None:
    # OIML R 76-1 class III, e = 1 g: exactly the minimum load; ±0.5 g new is 2.5 %, ±1 g in use is 5 %
    assert scales.minimum_load(Accuracy.III, Decimal(1)) == 20
    new = scales.tolerance(Accuracy.III, Decimal(20), Regime.OIML_INITIAL)
    used = scales.tolerance(Accuracy.III, Decimal(20), Regime.OIML_IN_SERVICE)
    assert new is not None
    assert used is not None
    assert (new.divisions / 20, used.divisions / 20) == (Decimal("0.025"), Decimal("0.05"))


def test_one_ounce_on_a_tenth_ounce_scale_is_below_the_minimum_load() -> None:
    # OIML R 76-1 class III: 10 divisions of 0.1 oz are below 20; 20 of 0.05 oz are just enough
    ounce = Decimal("28.349523125")
    coarse, fine = (scales.minimum_load(Accuracy.III, Decimal(step) * ounce) for step in ("0.1", "0.05"))
    assert coarse is not None
    assert fine is not None
    assert coarse > ounce
    assert fine == ounce
