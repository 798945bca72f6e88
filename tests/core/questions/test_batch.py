"""Batches against a linear system solved elsewhere, sums in fractions, and the laws of a weigh-out."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest
import scipy.constants
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Worked, results_by_name
from core.book import EmptyBook
from core.compounds import Additives, Basis, FormulaName, Load
from core.questions.batch import BatchQuestion, FillIs
from core.units import Density, Mass, Volume
from tests.core.questions.workbench import Workbench, fills, load, parts, percent, shown

BOOK = EmptyBook()


def figures(question: BatchQuestion) -> dict[str, Decimal]:
    answer = question.answer(Workbench())
    assert isinstance(answer, Worked), answer
    shown(answer)
    return {name: value.base for name, value in results_by_name(answer).items()}


def test_wax_alone_with_spare_wax_that_takes_its_fragrance_along() -> None:
    # By hand: 20 × 60 × 1.05 = 1260; a tenth of it is 126.
    question = BatchQuestion(fills=fills((20, Mass.of(60))), fill_is=FillIs.WAX, load=load(10), spare=percent(5))
    found = figures(question)
    assert (found["wax"], found["fragrance"], found["total"], found["count"]) == (1260, 126, 1386, 20)


def test_finished_weights_and_a_load_of_the_total() -> None:
    # By hand: 24 × 55 = 1320; 7 % of it is 92.4.
    question = BatchQuestion(
        fills=fills((24, Mass.of(55))), fill_is=FillIs.FINISHED, load=load(7, Basis.TOTAL), step=Mass.of("0.1")
    )
    found = figures(question)
    assert (found["total"], found["fragrance"], found["wax"]) == (1320, Decimal("92.4"), Decimal("1227.6"))
    assert found["load_of_total"] == 7


def test_ounces_by_weight() -> None:
    found = figures(BatchQuestion(fills=fills((12, Mass.of(4, "oz"))), fill_is=FillIs.WAX, load=load(6)))
    # Avoirdupois ounce: scipy.constants.
    assert float(found["wax"]) == pytest.approx(48 * scipy.constants.oz * 1000, rel=1e-12)


@pytest.mark.parametrize("basis", list(Basis))
def test_a_mix_with_additives_solves_its_linear_system(basis: Basis) -> None:
    # Unknowns wax w, oil f, dye d, UV u: w + f + d + u = 2000, d = 0.001 w, u = 0.003 w, and the load's own row.
    of_all = 0.08 if basis is Basis.TOTAL else 0
    row = [-0.08, 1, 0, 0] if basis is Basis.WAX else [-of_all, 1 - of_all, -of_all, -of_all]
    system = np.array([[1, 1, 1, 1], [-0.001, 0, 1, 0], [-0.003, 0, 0, 1], row])
    expected = np.linalg.solve(system, np.array([2000, 0, 0, 0]))
    found = figures(
        BatchQuestion(
            fills=fills((10, Mass.of(200))),
            fill_is=FillIs.FINISHED,
            load=load(8, basis),
            additives=Additives((("dye", percent("0.1")), ("UV", percent("0.3")))),
        )
    )
    assert [float(found[name]) for name in ("wax", "fragrance", "dye", "UV")] == pytest.approx(
        list(expected), rel=1e-12
    )


def test_volumes_and_records_by_density_and_weights_mixed() -> None:
    found = figures(
        BatchQuestion(
            fills=fills((5, "amber"), (6, "tin"), (2, Volume.of(100)), (1, Mass.of(35))),
            load=load(8, Basis.TOTAL),
            density=Density.of("0.9"),
            fill_is=FillIs.FINISHED,
        )
    )
    assert found["total"] == 5 * 225 + 6 * 90 + 2 * 90 + 35
    assert found["count"] == 14


def test_wax_alone_and_finished_fills_together() -> None:
    found = figures(
        BatchQuestion(fills=fills((3, Mass.of(90)), (2, "tin")), fill_is=FillIs.WAX, load=load(8, Basis.WAX))
    )
    wax = 270 + Fraction(180) / Fraction(108, 100)  # the tins' 180 g are finished mix
    assert abs(Fraction(found["wax"]) - wax) < Fraction(1, 10**18)
    assert abs(Fraction(found["total"]) - (270 * Fraction(108, 100) + 180)) < Fraction(1, 10**18)


def test_spare_by_weight_joins_the_fills() -> None:
    both = BatchQuestion(
        fills=fills((10, Mass.of(100))), fill_is=FillIs.FINISHED, load=load(8), spare_weight=Mass.of(50)
    )
    found = figures(both)
    assert found["total"] == 1050
    wax = BatchQuestion(fills=fills((10, Mass.of(100))), fill_is=FillIs.WAX, load=load(8), spare_weight=Mass.of(50))
    assert figures(wax)["wax"] == 1050


def test_blends_divide_wax_and_fragrance() -> None:
    found = figures(
        BatchQuestion(
            fills=fills((10, Mass.of(100))),
            fill_is=FillIs.WAX,
            load=load(10),
            waxes=parts(70, 30),
            blend=parts(60, 40),
        )
    )
    assert [found[f"wax_{i}"] for i in (1, 2)] == [700, 300]
    assert [found[f"fragrance_{i}"] for i in (1, 2)] == [60, 40]


def test_the_list_is_weighed_waxes_first_and_fragrance_last() -> None:
    answer = BatchQuestion(fills=fills((5, "")), formula=FormulaName("pine"), step=Mass.of("0.1")).answer(Workbench())
    assert answer.table is not None
    names = [cell.show() for cell, *_ in answer.table.rows]  # type: ignore[attr-defined]
    assert names == ["soy", "coconut", "dye", "fir", "cedar", "all together"]
    assert results_by_name(answer)["total"].base == 450  # five of the formula's own vessel, 90 g each
    assert "version 3" in shown(answer)


def test_what_the_asker_says_goes_before_the_formula() -> None:
    question = BatchQuestion(
        fills=fills((5, Mass.of(100))), fill_is=FillIs.FINISHED, formula=FormulaName("pine"), load=load(5, Basis.TOTAL)
    )
    assert figures(question)["fragrance"] == 25


def test_the_load_really_reached_on_the_scale() -> None:
    # 1227.6 g and 92.4 g on 1 g steps are 1228 g and 92 g: 92 ÷ 1228 = 7.4919 % (by hand).
    question = BatchQuestion(
        fills=fills((24, Mass.of(55))), fill_is=FillIs.FINISHED, load=load(7, Basis.TOTAL), step=Mass.of(1)
    )
    found = figures(question)
    assert found["load"] == Decimal(9200) / Decimal(1228)
    assert found["load_of_total"] == Decimal(9200) / Decimal(1320)


def test_both_readings_of_an_unsaid_weight_are_given() -> None:
    answer = BatchQuestion(fills=fills((8, Mass.of(90)), (4, Mass.of(310))), load=load(8)).answer(BOOK)
    assert results_by_name(answer)["wax"].base == 1960
    text = shown(answer)
    assert "You didn't say what the weight of each is; I took it as the wax alone." in text
    # By hand: 1960 g ÷ 1.08 = 1814.81 g, the rest 145.19 g.
    assert "If the weight of each is wax and fragrance together: 1815 g (64.02 oz) of wax and 145 g (5.12 oz)" in text


def test_an_unscented_batch() -> None:
    question = BatchQuestion(
        fills=fills((12, Mass.of(200))),
        fill_is=FillIs.FINISHED,
        load=load(0),
        additives=Additives((("dye", percent(1)),)),
    )
    answer = question.answer(BOOK)
    found = results_by_name(answer)
    assert found["fragrance"].base == 0
    assert found["wax"].base + found["dye"].base == 2400
    assert "fragrance oil" not in answer.headline.show()
    shown(answer)


@pytest.mark.parametrize(
    ("pot", "keys"),
    [(Volume.of(4, "l"), []), (Volume.of(3, "l"), ["pot_full"]), (Volume.of(2, "l"), ["pot_too_small"])],
)
def test_the_pot_must_hold_the_molten_mix(pot: Volume, keys: list[str]) -> None:
    # 2000 g at the lightest published molten wax, 0.74 g/ml (n-alkanes at 80 °C, computed): 2.70 l.
    answer = BatchQuestion(fills=fills((10, Mass.of(200))), load=load(8), pot=pot).answer(BOOK)
    assert [caution.key for caution in answer.cautions if caution.key.startswith("pot")] == keys
    shown(answer)


def test_the_askers_words_are_shown_harmless() -> None:
    answer = BatchQuestion(
        fills=fills((2, Mass.of(90))), load=load(8), additives=Additives((("**@everyone** {0}", percent(1)),))
    ).answer(BOOK)
    assert "<**@everyone** {0}>" in shown(answer)


some_fills = st.lists(
    st.tuples(st.integers(1, 400), st.decimals(min_value="5", max_value="900", places=1)), min_size=1, max_size=8
)


@given(
    some_fills,
    st.decimals(min_value="0.5", max_value="19", places=1),
    st.sampled_from(Basis),
    st.sampled_from(FillIs),
    st.integers(0, 20),
    st.sampled_from(["1", "0.1", "5"]),
)
def test_total_is_the_sum_and_rows_add_up(
    each: list[tuple[int, Decimal]], p: Decimal, basis: Basis, fill_is: FillIs, spare: int, step: str
) -> None:
    answer = BatchQuestion(
        fills=fills(*[(count, Mass(weight)) for count, weight in each]),
        fill_is=fill_is,
        load=Load(percent(str(p)), basis),
        spare=percent(spare) if spare else None,
        step=Mass.of(step),
        blend=parts(3, 2, 2),
    ).answer(BOOK)
    assert isinstance(answer, Worked)
    found = {name: value.base for name, value in results_by_name(answer).items()}
    poured = sum(Fraction(weight) * count for count, weight in each) * Fraction(100 + spare, 100)
    hair = Fraction(1, 10**18)  # far under anything a scale shows
    kept = found["wax"] if fill_is is FillIs.WAX else found["total"]
    assert abs(Fraction(kept) - poured) <= hair
    whole = found["wax"] if basis is Basis.WAX else found["total"]
    assert abs(Fraction(found["fragrance"]) - Fraction(whole) * Fraction(p) / 100) <= hair
    assert abs(found["wax"] + found["fragrance"] - found["total"]) <= hair
    assert abs(found["fragrance_1"] + found["fragrance_2"] + found["fragrance_3"] - found["fragrance"]) <= hair
    assert answer.table is not None
    shown_weights = [Decimal(row[1].show().removesuffix(" g").replace(",", "")) for row in answer.table.rows]  # type: ignore[attr-defined]
    assert sum(shown_weights[:-1]) == shown_weights[-1]


def test_a_list_of_200_lines() -> None:
    question = BatchQuestion(
        fills=fills(*[(1 + i % 7, Volume.of(90 + i)) for i in range(200)]),
        load=load(8),
        density=Density.of("0.9"),
        additives=Additives(tuple((f"additive {i}", percent("0.1")) for i in range(198))),
    )
    answer = question.answer(BOOK)
    assert isinstance(answer, Worked)
    assert answer.table is not None
    assert len(answer.table.rows) == 201  # the wax, the oil, 198 additives and the whole
