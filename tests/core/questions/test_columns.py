"""Columns: rows that add up, and the same decimals all the way down."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Line
from core.ask import answer
from core.book import EmptyBook
from core.questions import BY_COMMAND
from core.questions.columns import adds_up, column, column_as_asked
from core.reading.slash_form import read_form
from core.units import Mass
from core.writing import Style, to_step

D = Decimal


@given(
    st.lists(st.decimals(min_value=0, max_value=5000, places=4), min_size=1, max_size=30),
    st.sampled_from(["0.1", "1", "5"]),
)
def test_a_rounded_table_adds_up_to_its_rounded_total(parts: list[Decimal], step: str) -> None:
    size = D(step)
    out = adds_up(parts, size)
    assert sum(out) == to_step(sum(parts, D(0)), size)
    assert all(part % size == 0 for part in out)
    assert all(abs(shown - part) < size for shown, part in zip(out, parts, strict=True))


@pytest.mark.parametrize(
    ("grams", "unit", "shown"),
    [
        (["6.1", "70.55"], "g", ["6.10 g", "70.55 g"]),
        (["6", "70"], "g", ["6 g", "70 g"]),
        (["1000", "71.85"], "kg", ["1.000 kg", "0.072 kg"]),
        (["28.349523125", "14.1747615625"], "oz", ["1.0 oz", "0.5 oz"]),  # 1 oz = 28.349523125 g, exactly
        (["0"], "oz", ["0 oz"]),
        ([], "g", []),
    ],
)
def test_all_rows_have_the_decimals_of_the_one_that_needs_most(grams: list[str], unit: str, shown: list[str]) -> None:
    assert [cell.show() for cell in column([Mass(D(each)) for each in grams], unit)] == shown


def test_the_readers_unit_decides() -> None:
    cells = column_as_asked([Mass(D("28.349523125")), Mass(D("7.087380781250"))])
    assert [cell.show() for cell in cells] == ["28.35 g", "7.09 g"]
    assert [cell.show(Style(first="oz", comma=True)) for cell in cells] == ["1,00 oz", "0,25 oz"]


@pytest.mark.parametrize(
    "asked",
    [
        "/batch fills:12 x 8oz, 6 x 4.5 oz load:8% additives:dye 0.1%, UV 0.3%",
        "/batch fills:12 x 200 g load:7.5% step:0.1 g spare:3%",
        "/batch fills:3 x 1 lb 3 oz load:6% step:0.01 lb",
        "/lot label:200 g weights:201.2 g, 199 g, 198.55 g, 180 g",
        "/buy need:9 kg packs:2 kg 18 eur, 5 kg 39 eur, 8 oz 3.5 eur",
        "/buy need:20 lb packs:5 lb 18 eur, 2.5 kg 39 eur, 8 oz 3.5 eur",
    ],
)
def test_no_column_of_a_table_mixes_decimals(asked: str) -> None:
    table = answer(read_form(asked, BY_COMMAND, EmptyBook()), EmptyBook()).table
    assert table is not None
    for place, heading in enumerate(table.columns[1:], 1):
        cells = [row[place] for row in table.rows if isinstance(row[place], Line)]
        figures = [str(cell.show()).partition(" ") for cell in cells if isinstance(cell, Line)]
        assert len({len(number.partition(".")[2]) for number, _, _ in figures}) <= 1, (heading, figures)
        assert len({unit for _, _, unit in figures}) <= 1, heading
