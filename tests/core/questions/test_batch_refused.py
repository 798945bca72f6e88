"""Batches that lack something or can not be: named, or refused with a sentence."""

from __future__ import annotations

import pytest

from core import ask
from core.answer import Declined, Missing, NotUnderstood, results_by_name
from core.book import EmptyBook
from core.compounds import Additives, Fill, Fills, FormulaName
from core.questions.batch import BatchQuestion, FillIs
from core.units import Mass, Volume
from tests.core.questions.workbench import Workbench, fills, load, parts, percent, shown

BOOK = EmptyBook()


@pytest.mark.parametrize(
    ("question", "needs"),
    [
        (BatchQuestion(), ["fill_weight", "number_of_vessels", "load_percent"]),
        (BatchQuestion(load=load(7)), ["fill_weight", "number_of_vessels"]),
        (BatchQuestion(load=load(7), fills=Fills((Fill(20),))), ["fill_weight"]),
        (BatchQuestion(load=load(7), fills=fills((0, Mass.of(55)))), ["number_of_vessels"]),
        (BatchQuestion(fills=fills((12, Mass.of(200)))), ["load_percent"]),
        (BatchQuestion(load=load(8), fills=fills((12, Volume.of(250)))), ["density_of_wax"]),
        (BatchQuestion(load=load(8), fills=fills((12, "amber"))), ["density_of_wax"]),
    ],
)
def test_what_is_missing_is_named(question: BatchQuestion, needs: list[str]) -> None:
    answer = question.answer(Workbench())
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == needs
    assert answer.question == question
    shown(answer)


def test_without_a_load_the_sum_is_given_all_the_same() -> None:
    answer = BatchQuestion(fills=fills((12, Mass.of(200))), fill_is=FillIs.WAX).answer(BOOK)
    assert isinstance(answer, Missing)
    assert results_by_name(answer)["wax"].base == 2400


@pytest.mark.parametrize(
    ("question", "reason"),
    [
        (BatchQuestion(fills=fills((100_001, Mass.of(200))), load=load(8)), "out_of_range"),
        (BatchQuestion(fills=fills((60_000, Mass.of(1)), (60_000, Mass.of(2))), load=load(8)), "out_of_range"),
        (BatchQuestion(fills=fills((-1, Mass.of(200))), load=load(8)), "out_of_range"),
        (BatchQuestion(fills=fills(*[(1, Mass.of(200))] * 201), load=load(8)), "out_of_range"),
        (BatchQuestion(fills=fills((1, Mass.of(-200))), load=load(8)), "out_of_range"),
        (BatchQuestion(fills=Fills((Fill(3, Mass.of(500), Volume.of(250)),)), load=load(8)), "contradiction"),
        (BatchQuestion(fills=fills((5, "no such")), load=load(8)), "not_found"),
        (BatchQuestion(fills=fills((5, Mass.of(9))), formula=FormulaName("none")), "not_found"),
        (BatchQuestion(fills=fills((5, Mass.of(9))), load=load(-1)), "out_of_range"),
        (BatchQuestion(fills=fills((5, Mass.of(9))), load=load(8), spare=percent(-5)), "out_of_range"),
        (BatchQuestion(fills=fills((5, Mass.of(9))), load=load(8), spare=percent(101)), "out_of_range"),
        (BatchQuestion(fills=fills((5, Mass.of(9))), load=load(8), blend=parts(1, 0)), "out_of_range"),
        (BatchQuestion(fills=fills((5, Mass.of(9))), load=load(8), step=Mass.of(0)), "out_of_range"),
        (
            BatchQuestion(fills=fills((5, Mass.of(9))), load=load(8), additives=Additives((("x", percent(101)),))),
            "contradiction",
        ),
    ],
)
def test_impossible_givens_get_a_sentence(question: BatchQuestion, reason: str) -> None:
    answer = ask.answer(question, BOOK)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == reason
    assert answer.headline.show().endswith((".", "?"))


def test_a_load_no_wax_holds_is_declined() -> None:
    assert isinstance(BatchQuestion(fills=fills((5, Mass.of(9))), load=load(25)).answer(BOOK), Declined)
