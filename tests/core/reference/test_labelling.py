"""Label figures against the rules they were read in."""

from decimal import Decimal
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import units
from core.reference import labelling
from core.reference.table import Status

# ---- 16 CFR 500.19(a)


@pytest.mark.parametrize(
    ("unit", "to", "printed"),
    [
        ("oz", "g", "28.3495"),
        ("g", "oz", "0.0352740"),
        ("kg", "lb", "2.20462"),
    ],
)
def test_factors_of_the_rule(unit: str, to: str, printed: str) -> None:
    # 16 CFR 500.19(a); each is the exact factor cut to its digits, so it lies within 2e-6 of it
    found = labelling.legal_factor(unit, to)
    assert found is not None
    assert (found.factor, found.status) == (Decimal(printed), Status.READ)
    assert abs(found.factor / units.factor(unit, to) - 1) < Decimal("2e-6")


def test_no_factor_that_the_rule_does_not_give() -> None:
    assert labelling.legal_factor("cup", "ml") is None
    assert labelling.legal_factor("oz", "ml") is None


# ---- type heights


@pytest.mark.parametrize(
    ("area", "inch", "mm"),
    [
        ("0.1", "1/16", "1.6"),  # read in 16 CFR 500.21(b)
        ("2.513", "1/16", "1.6"),
        ("5", "1/16", "1.6"),
        # from memory: the other rows
        ("5.01", "1/8", "3.2"),
        ("13.195", "1/8", "3.2"),
        ("25.0", "1/8", "3.2"),
        ("25.01", "3/16", "4.8"),
        ("25.133", "3/16", "4.8"),
        ("80.425", "3/16", "4.8"),
        ("100", "3/16", "4.8"),
        ("100.1", "1/4", "6.4"),
        ("400", "1/4", "6.4"),
        ("400.1", "1/2", "12.7"),
        ("1e6", "1/2", "12.7"),
    ],
)
def test_type_heights(area: str, inch: str, mm: str) -> None:
    found = labelling.type_height(Decimal(area))
    assert found is not None
    assert (found.inch, found.mm) == (inch, Decimal(mm))
    assert found.status is (Status.READ if Decimal(area) <= 5 else Status.MEMORY)


def test_heights_in_millimetres_are_those_in_inches() -> None:
    # 7 CFR 51.322 gives 1.6, 3.2, 4.8, 6.4 and 12.7 mm for the same fractions; an inch is 25.4 mm
    for _, height in labelling._type_heights():
        assert round(height.inches * Decimal("25.4"), 1) == height.mm


@pytest.mark.parametrize("area", ["0", "-1", "NaN", "inf"])
def test_no_height_for_no_panel(area: str) -> None:
    assert labelling.type_height(Decimal(area)) is None


def test_single_figures() -> None:
    assert labelling.rule("cylinder panel share").value == Decimal("0.4")  # 16 CFR 500.21(a), read
    assert labelling.rule("bottom share").status is Status.MEMORY  # 16 CFR 500.6, from memory
    with pytest.raises(KeyError):
        labelling.rule("no such rule")


# ---- tolerable negative error


@pytest.mark.parametrize(
    ("nominal", "error", "t1", "t2"),
    [
        ("30", "2.7", "27.3", "24.6"),
        ("35", "3.2", "31.8", "28.6"),  # 3.15 rounded up
        ("50", "4.5", "45.5", "41"),
        ("75", "4.5", "70.5", "66.0"),
        ("100", "4.5", "95.5", "91"),
        ("120", "5.4", "114.6", "109.2"),
        ("165", "7.5", "157.5", "150.0"),  # 7.425 rounded up
        ("180", "8.1", "171.9", "163.8"),
        ("200", "9", "191", "182"),
        ("220", "9", "211", "202"),
        ("300", "9", "291", "282"),
        ("310", "9.3", "300.7", "291.4"),
        ("400", "12", "388", "376"),
        ("500", "15", "485", "470"),
        ("750", "15", "735", "720"),
        ("1000", "15", "985", "970"),
        ("1500", "22.5", "1477.5", "1455"),
        ("10000", "150", "9850", "9700"),
        ("12000", "150", "11850", "11700"),
        ("20000", "200", "19800", "19600"),
    ],
)
def test_tolerable_negative_error(nominal: str, error: str, t1: str, t2: str) -> None:
    # UK government guidance on packaged goods (SI 2006/659 Sch. 3) and Directive 76/211/EEC Annex I 2.4
    found = labelling.tne(Decimal(nominal))
    assert found is not None
    assert (found.grams, found.t1, found.t2) == (Decimal(error), Decimal(t1), Decimal(t2))
    assert found.where == ("UK" if Decimal(nominal) > 10_000 else "EU and UK")


@pytest.mark.parametrize("boundary", [50, 100, 200, 300, 500, 1000, 10_000, 15_000])
def test_the_error_is_continuous_where_the_steps_meet(boundary: int) -> None:
    # the same source: which side of a boundary is taken does not matter
    sides = [labelling.tne(Decimal(boundary) + Decimal(away)) for away in ("-0.01", "0", "0.01")]
    grams = [side.grams for side in sides if side is not None]
    assert len(grams) == 3
    assert max(grams) - min(grams) <= Decimal("0.1")  # no more than the rounding up


@given(st.decimals(min_value=5, max_value=25_000, places=1))
def test_the_error_rises_with_the_nominal_weight_and_is_whole_tenths(nominal: Decimal) -> None:
    smaller, larger = labelling.tne(nominal), labelling.tne(min(Decimal(25_000), nominal * Decimal("1.01")))
    assert smaller is not None
    assert larger is not None
    assert smaller.grams <= larger.grams
    assert smaller.grams % Decimal("0.1") == 0
    assert Decimal("0.009") * nominal <= smaller.grams <= Decimal("0.09") * nominal + Decimal("0.1")


@pytest.mark.parametrize("nominal", ["4.9", "0", "-5", "25000.1", "NaN", "inf"])
def test_no_error_outside_the_system(nominal: str) -> None:
    assert labelling.tne(Decimal(nominal)) is None


@pytest.mark.parametrize(("nominal", "mm"), [("50", 2), ("51", 3), ("200", 3), ("201", 4), ("1000", 4), ("1001", 6)])
def test_figure_heights(nominal: str, mm: int) -> None:
    # Directive 76/211/EEC Annex I 3.1; from memory
    found = labelling.eu_figure_height(Decimal(nominal))
    assert found is not None
    assert (found.mm, found.status) == (mm, Status.MEMORY)
    assert labelling.eu_figure_height(Decimal(0)) is None


# ---- maximum allowable variation


@pytest.mark.parametrize(
    ("pounds", "lb", "g", "oz"),
    [
        ("0.1875", "0.016", "7.2", "1/4"),  # 3 oz -> 1/4 oz: read, quoted from Handbook 133
        ("0.125", "0.012", "5.4", "3/16"),  # 2 oz; from memory, as the rest
        ("0.25", "0.016", "7.2", "1/4"),  # 4 oz, 113 g -> 7 g: read in a metric labelling discussion
        ("0.5", "0.028", "12.7", "7/16"),
        ("1", "0.044", "19.9", "11/16"),
        ("1.08", "0.044", "19.9", "11/16"),  # the row's end at 17.28 oz: read, quoted from Handbook 133
        ("1.0801", "0.048", "21.7", "3/4"),
        ("3", "0.094", "42.6", "1 1/2"),
        ("3.2", "0.094", "42.6", "1 1/2"),
    ],
)
def test_allowed_shortfall(pounds: str, lb: str, g: str, oz: str) -> None:
    found = labelling.mav(Decimal(pounds))
    assert found is not None
    assert (found.lb, found.g, found.oz, found.status) == (
        Decimal(lb),
        Decimal(g),
        labelling.inches_of(oz),
        Status.MEMORY,
    )


def test_the_three_columns_say_the_same() -> None:
    # the pound is 453.59237 g and 16 oz (UK Weights and Measures Act 1985 Sch. 1): columns are its roundings,
    # the ounces to the nearest sixteenth
    for row in labelling._mav().rows:
        assert abs(row.lb * units.factor("lb", "g") - row.g) < Decimal("0.12")
        assert abs(row.lb * 16 - row.oz) < Decimal(1) / 32


def test_the_allowed_shortfall_never_falls() -> None:
    rows = labelling._mav().rows
    assert all(a.lb < b.lb and a.g < b.g and a.oz < b.oz for a, b in pairwise(rows))
    assert list(labelling._mav().over) == sorted(labelling._mav().over)


def test_a_tenth_below_the_table() -> None:
    # from memory: Handbook 133, packages under 0.08 lb
    found = labelling.mav(Decimal("0.0625"))
    assert found is not None
    assert (found.lb, found.oz) == (Decimal("0.00625"), Decimal("0.1"))
    assert found.g == Decimal("0.00625") * Decimal("453.59237")
    edge = labelling.mav(Decimal("0.08"))
    above = labelling.mav(Decimal("0.0801"))
    assert edge is not None
    assert above is not None
    assert edge.lb == above.lb == Decimal("0.008")


@pytest.mark.parametrize("pounds", ["0", "-1", "3.21", "NaN", "inf"])
def test_no_shortfall_outside_the_table(pounds: str) -> None:
    assert labelling.mav(Decimal(pounds)) is None


@pytest.mark.parametrize(("text", "inches"), [("1/16", "0.0625"), ("1", "1"), ("1 1/8", "1.125"), ("15/16", "0.9375")])
def test_printed_fractions(text: str, inches: str) -> None:
    assert labelling.inches_of(text) == Decimal(inches)
