"""Tolerances of measures and Z factors against the standards' tables."""

from decimal import Decimal

import iapws
import pytest

from core.errors import OutOfRange
from core.reference import measures
from core.reference.measures import CylinderClass, CylinderStandard, MeasureKind
from core.reference.table import Status

CYLINDER, BEAKER, KITCHEN = MeasureKind.CYLINDER, MeasureKind.BEAKER, MeasureKind.KITCHEN

# ASTM E1272-02(2012) Table 1, ± ml: capacity, class A, class B
ASTM_ROWS = [
    ("5", "0.05", "0.10"),
    ("10", "0.10", "0.20"),
    ("25", "0.17", "0.34"),
    ("50", "0.25", "0.50"),
    ("100", "0.50", "1.00"),
    ("250", "1.00", "2.00"),
    ("500", "2.00", "4.00"),
]


@pytest.mark.parametrize(("capacity", "a", "b"), ASTM_ROWS)
def test_cylinders_by_the_astm_table(capacity: str, a: str, b: str) -> None:
    for cls, limit in ((CylinderClass.A, a), (CylinderClass.B, b)):
        found = measures.tolerance(CYLINDER, Decimal(capacity), cls)
        assert found is not None
        assert (found.plus_minus, found.capacity, found.status) == (Decimal(limit), Decimal(capacity), Status.READ)
        assert "E1272" in found.source
        assert found.share is None


def test_class_b_is_twice_class_a() -> None:
    # ASTM E1272 says so; ISO 4788 (from memory) keeps to it
    for standard in CylinderStandard:
        for limit in measures._cylinders()[standard]:
            assert limit.by_class[CylinderClass.B] == 2 * limit.by_class[CylinderClass.A]


@pytest.mark.parametrize(
    ("volume", "capacity"), [("1", 5), ("5.01", 10), ("80", 100), ("100", 100), ("100.1", 250), ("501", 1000)]
)
def test_a_volume_takes_the_smallest_cylinder_that_holds_it(volume: str, capacity: int) -> None:
    found = measures.tolerance(CYLINDER, Decimal(volume))
    assert found is not None
    assert found.capacity == capacity


def test_ten_millilitres_in_a_large_cylinder_are_ten_percent_off() -> None:
    # ASTM E1272: the limit holds at any mark, so ±1.0 ml of 10 ml in a 100 ml class B cylinder
    found = measures.tolerance(CYLINDER, Decimal(100))
    assert found is not None
    assert found.plus_minus / 10 == Decimal("0.1")


def test_iso_and_astm_differ_where_they_do_and_iso_is_marked_as_remembered() -> None:
    # from memory: ISO 4788
    differ = []
    for capacity in (5, 10, 25, 50, 100, 250, 500, 1000):
        astm = measures.tolerance(CYLINDER, Decimal(capacity))
        iso = measures.tolerance(CYLINDER, Decimal(capacity), standard=CylinderStandard.ISO)
        assert astm is not None
        assert iso is not None
        assert iso.status is Status.MEMORY
        if astm.plus_minus != iso.plus_minus:
            differ.append(capacity)
    assert differ == [25, 50, 500, 1000]


@pytest.mark.parametrize(
    ("capacity", "low", "high"), [("14.78676478125", "14.05", "15.53"), ("236.5882365", "224.8", "248.4")]
)
def test_kitchen_measures_are_five_percent_either_way(capacity: str, low: str, high: str) -> None:
    # housewares trade reference page: ±5 % of each marked capacity (US tablespoon and cup)
    found = measures.tolerance(KITCHEN, Decimal(capacity))
    assert found is not None
    assert (found.share, found.widest, found.status) == (Decimal("0.05"), None, Status.READ)
    places = -Decimal(low).as_tuple().exponent  # type: ignore[operator]
    assert round(Decimal(capacity) - found.plus_minus, places) == Decimal(low)
    assert round(Decimal(capacity) + found.plus_minus, places) == Decimal(high)


def test_beakers_are_five_percent_and_some_ten() -> None:
    # from memory: ASTM E960, ISO 3819
    found = measures.tolerance(BEAKER, Decimal(400))
    assert found is not None
    assert (found.plus_minus, found.widest, found.status) == (20, 40, Status.MEMORY)


@pytest.mark.parametrize("kind", MeasureKind)
@pytest.mark.parametrize("capacity", ["0", "-1", "NaN", "inf"])
def test_no_limit_for_no_measure(kind: MeasureKind, capacity: str) -> None:
    assert measures.tolerance(kind, Decimal(capacity)) is None


def test_no_limit_beyond_the_largest_cylinder() -> None:
    assert measures.tolerance(CYLINDER, Decimal("1000.1")) is None
    assert measures.tolerance(CYLINDER, Decimal("2000"), standard=CylinderStandard.ISO) is not None
    assert measures.tolerance(CYLINDER, Decimal("2000.1"), standard=CylinderStandard.ISO) is None


# ---- Z factors

# ISO 8655-6:2002 Annex A / ISO 4787, column 1013 hPa
Z_ROWS = {
    15: "1.0020",
    16: "1.0021",
    17: "1.0023",
    18: "1.0025",
    19: "1.0027",
    20: "1.0029",
    21: "1.0031",
    22: "1.0033",
    23: "1.0035",
    24: "1.0038",
    25: "1.0040",
    26: "1.0043",
    27: "1.0045",
    28: "1.0048",
    29: "1.0051",
    30: "1.0054",
}


def z_by_equation(degrees: float, pressure: float = 1013.0, humidity: float = 50.0) -> float:
    """Z by water from iapws and the air density of ISO 8655-6 (constants from memory), weights of 8000 kg/m³."""
    air = (0.34844 * pressure + humidity * (-0.00252 * degrees + 0.020582)) / (degrees + 273.15)
    water = iapws.IAPWS95(T=273.15 + degrees, P=0.101325).rho
    return 1000 * (1 - air / 8000) / (water - air)


@pytest.mark.parametrize(("degrees", "factor"), Z_ROWS.items())
def test_z_factors_by_the_standard_and_by_its_equation(degrees: int, factor: str) -> None:
    found = measures.z_factor(Decimal(degrees))
    assert (found.factor, found.status) == (Decimal(factor), Status.READ)
    assert float(found.factor) == pytest.approx(z_by_equation(degrees), abs=6e-5)


def test_between_degrees_on_a_straight_line() -> None:
    assert measures.z_factor(Decimal("20.5")).factor == Decimal("1.0030")


def test_a_jar_of_water() -> None:
    # 402.0 g full less 150.0 g empty at 20 °C: 252.0 g × 1.0029 = 252.7 ml
    assert round((Decimal("402.0") - Decimal("150.0")) * measures.z_factor(Decimal(20)).factor, 1) == Decimal("252.7")


@pytest.mark.parametrize("degrees", ["14.9", "30.1", "NaN"])
def test_z_outside_the_table_is_refused_with_the_range(degrees: str) -> None:
    with pytest.raises(OutOfRange, match="15 to 30 °C"):
        measures.z_factor(Decimal(degrees))
