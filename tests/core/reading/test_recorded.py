"""Recorded formulas and vessels named in plain words."""

from __future__ import annotations

from dataclasses import dataclass, field

import pytest

from core.answer import Answer
from core.compounds import Fill, Fills, FormulaName, Masses, Material, VesselName
from core.question import Question
from core.questions.batch import BatchQuestion
from core.questions.formulas import CompareFormulas, FormulaQuestion
from core.questions.load import LoadQuestion
from core.questions.vessel import VesselQuestion
from core.reading import read
from core.units import Mass
from tests.core.questions.workbench import PINE, Workbench


class Bench(Workbench):
    """With a second formula, of two words."""

    def formula(self, name: str, version: int | None = None) -> object:  # type: ignore[override]
        return PINE if name.casefold() in ("pine", "winter pine") else None

    def names(self, kind: str, start: str, limit: int = 25) -> list[str]:
        return ["Pine", "Winter  PINE"] if kind == "formula" else ["Amber", "Tin"]


BENCH = Bench()
WINTER = FormulaName("winter pine")


def asked(text: str) -> Question | Answer:
    return read(text, BENCH).asked


@pytest.mark.parametrize(
    ("text", "question"),
    [
        ("winter pine for 2 kg wax", FormulaQuestion(name=WINTER, wax=Masses.one(Mass.of(2, "kg")))),
        ("winter pine, 500 g in all", FormulaQuestion(name=WINTER, total=Mass.of(500))),
        ("make 500 g of winter pine", FormulaQuestion(name=WINTER, total=Mass.of(500))),
        ("what is in winter pine", FormulaQuestion(name=WINTER)),
        ("what is in winter pine version 2", FormulaQuestion(name=WINTER, version=2)),
        (
            "winter pine for 12 jars of 180 g",
            FormulaQuestion(name=WINTER, fills=Fills((Fill(12, weight=Mass.of(180)),))),
        ),
        ("winter pine in 12 tins", FormulaQuestion(name=WINTER, fills=Fills((Fill(12, vessel="tin"),)))),
        (
            "how much house soy fits in the amber",
            VesselQuestion(vessel=VesselName("amber"), material=Material("house soy")),
        ),
        ("compare winter pine v1 and v3", CompareFormulas(name=WINTER, version=1, other_version=3)),
        ("the pine recipe for 1 kg wax", FormulaQuestion(name=FormulaName("pine"), wax=Masses.one(Mass.of(1, "kg")))),
        ("how much wax does a tin take", VesselQuestion(vessel=VesselName("tin"))),
    ],
)
def test_recorded_names_are_understood(text: str, question: Question) -> None:
    assert asked(text) == question


def test_a_number_of_a_recorded_vessel_is_a_batch() -> None:
    made = asked("12 tins at 8 %, how much wax and oil")
    assert isinstance(made, BatchQuestion)
    assert made.fills == Fills((Fill(12, vessel="tin"),))


@pytest.mark.parametrize(
    "text",
    [
        "10 g of pine oil in oz",
        "30 ml of pine in grams",
        "500 g wax and 8 % pine, how much oil",
        "12 tins of 90 g at 8 %",
        "winter pine at 9 % for 1 kg wax",
    ],
)
def test_a_scent_of_that_name_is_no_formula(text: str) -> None:
    made = asked(text)
    assert not isinstance(made, FormulaQuestion | CompareFormulas | VesselQuestion)
    assert not (isinstance(made, BatchQuestion) and made.fills is not None and any(f.vessel for f in made.fills.items))


@dataclass(frozen=True)
class Counting(Bench):
    """Keeps what is looked up; with as many more formulas as are asked for."""

    more: int = 0
    looked_up: list[str] = field(default_factory=list)

    def formula(self, name: str, version: int | None = None) -> object:  # type: ignore[override]
        self.looked_up.append(name)
        return Bench.formula(self, name, version)

    def names(self, kind: str, start: str, limit: int = 25) -> list[str]:
        return [*Bench.names(self, kind, start, limit), *(f"blend {n}" for n in range(self.more))][:limit]


def test_only_recorded_names_are_looked_up_where_they_are_few() -> None:
    few = Counting(more=5)
    assert isinstance(read("450 g of soy wax at 8 %, how much fragrance?", few).asked, LoadQuestion)
    assert few.looked_up == []
    assert read("winter pines for 2 kg wax", few).asked == read("winter pines for 2 kg wax", BENCH).asked
    assert few.looked_up == ["winter pine"]


def test_of_many_recorded_names_each_run_of_words_is_looked_up() -> None:
    many = Counting(more=500)
    assert read("winter pine for 2 kg wax", many).asked == read("winter pine for 2 kg wax", BENCH).asked
    assert "winter pine for" in many.looked_up
