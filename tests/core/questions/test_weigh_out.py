"""The weigh-out: its rows lie on the scale's step and add up exactly, whatever is weighed."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Line
from core.book import EmptyBook, Preferences
from core.questions.weigh_out import cautions, step_of, table, weigh_out
from core.units import Mass

steps = st.sampled_from(
    [Mass.of(1), Mass.of("0.1"), Mass.of("0.01"), Mass.of(5), Mass.of("0.1", "oz"), Mass.of("0.05", "oz")]
)
weights = st.lists(st.decimals(min_value="0.001", max_value="20000", places=4), min_size=1, max_size=200)


def named(grams: list[Decimal]) -> list[tuple[Line, Mass]]:
    return [(Line(f"row {i}"), Mass(each)) for i, each in enumerate(grams)]


def first_number(cell: object) -> Decimal:
    assert isinstance(cell, Line)
    return Decimal(cell.show().split()[0].replace(",", ""))


@given(weights, steps)
def test_rows_add_up_exactly_to_the_rounded_total(grams: list[Decimal], step: Mass) -> None:
    out = weigh_out(named(grams), step)
    rounded_total = (sum(grams) / step.base).quantize(Decimal(1), ROUND_HALF_UP) * step.base
    assert out.total.base == sum((weighed.base for _, _, weighed in out.rows), Decimal(0)) == rounded_total
    for _, exact, weighed in out.rows:
        assert weighed.base % step.base == 0
        assert abs(weighed.base - exact.base) < step.base


@given(st.lists(weights, min_size=1, max_size=4), steps)
def test_each_group_adds_up_to_its_own_sum_as_near_as_the_whole_allows(parts: list[list[Decimal]], step: Mass) -> None:
    """Largest remainder at both levels: no row and no group is a step off, and the whole is the rounded whole."""
    grams = [each for group in parts for each in group]
    out = weigh_out(named(grams), step, tuple(map(len, parts)))
    assert out.total.base == (sum(grams) / step.base).quantize(Decimal(1), ROUND_HALF_UP) * step.base
    assert all(abs(weighed.base - exact.base) < step.base for _, exact, weighed in out.rows)
    at = 0
    for group in parts:
        assert abs(out.weighed(at, at + len(group)).base - sum(group)) < step.base
        at += len(group)


def test_a_whole_weight_of_wax_stays_whole_whatever_oils_are_weighed() -> None:
    """450 g as 70 : 40 is 286.36 + 163.64, by hand; 40.5 g of oil as 70 : 30 is 28.35 + 12.15. Over all rows alone the
    remainder of the first (0.36) would be rounded up before those of the oils, and the wax weigh 451 g."""
    rows = named([Decimal(450) * 7 / 11, Decimal(450) * 4 / 11, Decimal("28.35"), Decimal("12.15")])
    assert [weighed.base for _, _, weighed in weigh_out(rows, Mass.of(1), (2, 2)).rows] == [286, 164, 29, 12]


@given(weights, steps)
def test_the_printed_columns_add_up_and_the_reading_is_their_running_sum(grams: list[Decimal], step: Mass) -> None:
    out = weigh_out(named(grams), step)
    shown = table(out)
    *rows, last = shown.rows
    assert sum(first_number(row[1]) for row in rows) == first_number(last[1])
    assert sum(first_number(row[2]) for row in rows) == first_number(last[2])
    # The second column ends in the first one's total, brought to the other unit and rounded.
    unit, place = (Mass.of(1), "0.1") if step.unit == "oz" else (Mass.of(1, "oz"), "0.01")
    assert first_number(last[2]) == (out.total.base / unit.base).quantize(Decimal(place), ROUND_HALF_UP)
    running = Decimal(0)
    for row in rows:
        running += first_number(row[1])
        assert first_number(row[3]) == running


def test_the_other_column_is_in_the_other_unit() -> None:
    # 1000 g = 35.27 oz by the international pound, 0.45359237 kg (NIST HB 44 App. C).
    assert first_number(table(weigh_out(named([Decimal(1000)]), Mass.of(1))).rows[0][2]) == Decimal("35.27")
    ounces = table(weigh_out([(Line("wax"), Mass.of(16, "oz"))], Mass.of("0.1", "oz")))
    assert ounces.columns[2] == "in grams"
    assert [first_number(cell) for cell in ounces.rows[0][1:]] == [16, Decimal("453.6"), 16]


@pytest.mark.parametrize(
    ("said", "unit", "preferences", "expected"),
    [
        (None, "g", Preferences(), (Mass.of(1), False)),
        (None, "lb_oz", Preferences(), (Mass.of("0.1", "oz"), False)),
        (None, "lb", Preferences(first="g"), (Mass.of(1), False)),
        (None, "oz", Preferences(step=Decimal("0.5")), (Mass.of("0.5"), True)),
        (Mass.of(2), "oz", Preferences(step=Decimal("0.5")), (Mass.of(2), True)),
    ],
)
def test_the_step_is_the_askers_or_a_kitchen_scales(
    said: Mass | None, unit: str, preferences: Preferences, expected: tuple[Mass, bool]
) -> None:
    assert step_of(said, unit, EmptyBook(preferences=preferences)) == expected


@pytest.mark.parametrize(("grams", "percent"), [("2.5", "20 %"), ("9.4", "5 %"), ("0.3", "too little")])
def test_a_weighing_of_under_ten_steps_is_warned_about(grams: str, percent: str) -> None:
    # One reading of resolution d is off by up to d/2 (JCGM 100:2008, rectangular distribution).
    out = weigh_out(named([Decimal(500), Decimal(grams)]), Mass.of(1))
    (caution,) = cautions(out, None)
    assert caution.key == "too_small_to_weigh"
    assert percent in caution.line.show()


def test_no_warning_from_ten_steps_on() -> None:
    assert cautions(weigh_out(named([Decimal(10), Decimal(500)]), Mass.of(1)), None) == ()


@pytest.mark.parametrize(("capacity", "portions"), [(2000, None), (1999, "2 portions"), (700, "3 portions")])
def test_more_than_the_scale_carries(capacity: int, portions: str | None) -> None:
    found = cautions(weigh_out(named([Decimal(2000)]), Mass.of(1)), Mass.of(capacity))
    assert [caution.key for caution in found] == (["over_capacity"] if portions else [])
    assert portions is None or portions in found[0].line.show()
