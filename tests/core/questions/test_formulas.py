"""Recorded formulas scaled and compared, against sums in fractions; from a real library."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.actions.formulas import RecordFormula
from core.answer import Answer, Missing, NotUnderstood, Worked, results_by_name
from core.book import Book, EmptyBook, FormulaRecord
from core.compounds import Additives, Basis, Fill, Fills, FormulaName, Load, Masses, Parts
from core.library import Library
from core.questions.formulas import CompareFormulas, FormulaQuestion, mix_of, rows_of
from core.units import Mass, Percent
from core.writing import PLAIN, write
from tests.core.library.shelves import GROUP, on_day

PINE, ROSE = FormulaName("winter pine"), FormulaName("rose")
PARTS = Parts((("soy", Decimal(70)), ("coconut", Decimal(30))))


@pytest.fixture
def book(tmp_path: Path) -> Book:
    """Two formulas, one of them in two versions."""
    library = Library(tmp_path / "l.db")
    first = RecordFormula(
        name=PINE,
        load=Load(Percent.of(8)),
        waxes=PARTS,
        fragrances=Parts((("pine", Decimal(3)), ("orange", Decimal(1)))),
        additives=Additives((("dye", Percent.of("0.5")),)),
    )
    first.act(library, on_day(1))
    RecordFormula(name=PINE, load=Load(Percent.of(10))).act(library, on_day(2))
    RecordFormula(name=ROSE, load=Load(Percent.of(6), Basis.TOTAL)).act(library, on_day(3))
    return library.book((GROUP,), "7")


def cells(answer: Answer) -> list[tuple[str, ...]]:
    """The table as shown."""
    assert answer.table is not None
    return [tuple("" if cell is None else _cell(cell) for cell in row) for row in answer.table.rows]


def _cell(cell: object) -> str:
    return cell.show() if hasattr(cell, "show") else write(cell, PLAIN)


def test_scaled_to_so_much_wax(book: Book) -> None:
    """By hand: 1000 g of wax, 700 + 300; dye 0.5 % is 5 g; 10 % is 100 g, 75 + 25; 1105 g together."""
    answer = FormulaQuestion(name=PINE, wax=Masses.one(Mass.of(1000))).answer(book)
    assert [row[:2] for row in cells(answer)] == [
        ("soy", "700 g"),
        ("coconut", "300 g"),
        ("dye", "5 g"),
        ("pine", "75 g"),
        ("orange", "25 g"),
        ("all together", "1105 g"),
    ]
    results = results_by_name(answer)
    assert (results["wax"].base, results["fragrance"].base, results["total"].base) == (1000, 100, 1105)
    assert answer.headline.show() == "winter pine, version 2: 1105 g (38.98 oz) in all."


def test_scaled_to_a_total_in_an_older_version(book: Book) -> None:
    """1085 g in all at 8 % of the wax and 0.5 % of dye is 1000 g of wax: 1085/1.085."""
    answer = FormulaQuestion(name=PINE, total=Mass.of(1085), version=1).answer(book)
    results = results_by_name(answer)
    assert (results["wax"].base, results["fragrance"].base) == (1000, 80)
    assert "version 1" in answer.headline.show()


def test_poured_into_vessels_by_the_batch(book: Book) -> None:
    """12 × 200 g at 6 % of the total: 144 g of oil to 2256 g of wax."""
    answer = FormulaQuestion(name=ROSE, fills=Fills((Fill(12, Mass.of(200)),))).answer(book)
    results = results_by_name(answer)
    assert (results["fragrance"].base, results["wax"].base) == (144, 2256)
    assert "rose" not in answer.headline.show()
    assert "recorded by Ada, 2026-03-03" in answer.body[-1].show()


def test_what_is_in_it(book: Book) -> None:
    answer = FormulaQuestion(name=FormulaName("Winter PINE")).answer(book)
    assert answer.headline.show() == "winter pine, version 2: 10 % of the wax."
    assert cells(answer) == [
        ("load", "10 % of the wax"),
        ("wax: soy", "70 %"),
        ("wax: coconut", "30 %"),
        ("fragrance: pine", "75 %"),
        ("fragrance: orange", "25 %"),
        ("additive: dye", "0.5 % of the wax"),
    ]


@given(
    load=st.decimals("0.1", "18", places=1),
    basis=st.sampled_from(Basis),
    parts=st.lists(st.integers(1, 99), min_size=1, max_size=5),
    dye=st.decimals("0", "2", places=2),
    total=st.integers(50, 50_000),
)
def test_the_rows_are_the_whole(load: Decimal, basis: Basis, parts: list[int], dye: Decimal, total: int) -> None:
    """In fractions: the rows add up to the total, the oil is its percent, each wax its share."""
    named = tuple((f"w{i}", Decimal(part)) for i, part in enumerate(parts))
    additives = (("dye", Percent(dye)),) if dye else ()
    formula = FormulaRecord("f", 1, Percent(load), basis, named, (), additives)
    mix = mix_of(formula, None, Mass.of(total))
    rows = rows_of(formula, mix)
    assert sum(mass.base for _, mass in rows) == total
    wax, oil = Fraction(mix.wax.base), Fraction(mix.fragrance.base)
    of = wax if basis is Basis.WAX else Fraction(total)
    assert abs(oil / of - Fraction(load) / 100) < Fraction(1, 10**30)
    for (_, mass), part in zip(rows, parts, strict=False):
        assert abs(Fraction(mass.base) / wax - Fraction(part, sum(parts))) < Fraction(1, 10**30)


def test_versions_side_by_side(book: Book) -> None:
    answer = CompareFormulas(name=PINE).answer(book)
    assert answer.headline.show() == "winter pine, version 2, and winter pine, version 1: 1 thing differs."
    assert cells(answer) == [("load", "10 % of the wax", "8 % of the wax")]
    assert CompareFormulas(name=PINE, version=1).answer(book).headline.show().startswith("winter pine, version 1, and")
    same = CompareFormulas(name=PINE, version=1, other_version=1).answer(book)
    assert "the same in everything" in same.headline.show()
    assert same.table is None


def test_two_formulas_side_by_side(book: Book) -> None:
    answer = CompareFormulas(name=PINE, other=ROSE).answer(book)
    assert cells(answer)[0] == ("load", "10 % of the wax", "6 % of the total")
    assert ("wax: soy", "70 %", "none") in cells(answer)
    results = results_by_name(answer)
    assert (results["load"].base, results["other_load"].base) == (10, 6)


@pytest.mark.parametrize(
    ("question", "says"),
    [
        (FormulaQuestion(name=FormulaName("winter pin")), "Did you mean winter pine?"),
        (FormulaQuestion(name=PINE, version=7), "the newest is 2"),
        (FormulaQuestion(name=PINE, wax=Masses.one(Mass.of(0))), "more than 0"),
        (FormulaQuestion(name=PINE, wax=Masses.one(Mass.of(5)), total=Mass.of(9)), "one size"),
        (CompareFormulas(name=ROSE), "one version so far"),
        (CompareFormulas(name=PINE, other=FormulaName("@everyone")), "no formula called"),
    ],
)
def test_what_can_not_be_answered(book: Book, question: FormulaQuestion | CompareFormulas, says: str) -> None:
    answer = ask.answer(question, book)
    assert isinstance(answer, NotUnderstood)
    assert says in answer.headline.show()


@pytest.mark.parametrize("question", [FormulaQuestion(), CompareFormulas()])
def test_without_a_name_it_asks_for_one(question: FormulaQuestion | CompareFormulas) -> None:
    answer = question.answer(EmptyBook())
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == ["name"]


def test_an_answer_can_be_changed_in_one_part(book: Book) -> None:
    answer = FormulaQuestion(name=PINE, total=Mass.of(500)).answer(book)
    assert isinstance(answer, Worked)
    assert answer.question is not None
    again = replace(answer.question, total=Mass.of(1000)).answer(book)  # type: ignore[call-arg]
    assert results_by_name(again)["total"].base == 1000
