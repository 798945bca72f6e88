"""Whatever is given, vessel, batch, stock, rescue and blend questions answer in words that can be shown."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core import ask
from core.compounds import Additives, Fill, Fills, FormulaName, Load, Masses, Material, Parts, VesselName
from core.question import Question, slots_of
from core.questions.batch import BatchQuestion
from core.questions.blend import BlendQuestion
from core.questions.rescue import RescueQuestion
from core.questions.stock import StockQuestion
from core.questions.vessel import VesselQuestion
from core.units import Density, Length, Mass, Number, Percent, Temperature, Volume
from tests.core.questions.workbench import Workbench, shown

KINDS = (VesselQuestion, BatchQuestion, StockQuestion, RescueQuestion, BlendQuestion)

# Nine in ten can be meant, the tenth can't.
EDGES = tuple(Decimal(each) for each in ("0", "-1", "1e-12", "0.3333333333", "1e12", "999999999999", "100"))
tenth = st.integers(0, 9)
numbers = tenth.flatmap(
    lambda n: st.decimals(min_value="0.1", max_value=2000, places=2) if n else st.sampled_from(EDGES)
)
few_percents = tenth.flatmap(
    lambda n: st.decimals(min_value="0.5", max_value=12, places=1) if n else st.sampled_from(EDGES)
).map(Percent)
ratios = tenth.flatmap(
    lambda n: st.decimals(min_value="0.7", max_value="1.2", places=3) if n else st.sampled_from(EDGES)
)
MEANT = ("", "soy", "amber", "tin", "pine", "house soy")
names = tenth.flatmap(lambda n: st.sampled_from(MEANT if n else ("{0}", "**x**", "@everyone", "a" * 300)))


def of(kind: Any, units: list[str]) -> st.SearchStrategy[Any]:
    def made(number: Decimal, unit: str) -> Any:
        small = number if abs(number) < 10**6 or unit in ("", "g", "ml", "mm", "degC") else Decimal(7)
        return kind.of(small, unit)

    return st.builds(made, numbers, st.sampled_from(units))


masses = of(Mass, ["g", "oz", "lb", "kg", "mg"])
volumes = of(Volume, ["ml", "fl_oz", "imp_pint", "l"])
counts = tenth.flatmap(lambda n: st.integers(1, 60) if n else st.sampled_from([-1, 0, 100_000, 100_001, 10**30]))
vessels = tenth.flatmap(lambda n: st.sampled_from(["", "", "amber", "tin"]) if n else names)
pairs = st.lists(st.tuples(names, numbers), max_size=5).map(tuple)

VALUES: dict[Any, st.SearchStrategy[Any]] = {
    Mass: masses,
    Volume: volumes,
    Length: of(Length, ["mm", "cm", "in"]),
    Temperature: of(Temperature, ["degC", "degF"]),
    Density: ratios.map(Density),
    Percent: few_percents,
    Number: st.builds(Number, numbers),
    int: counts,
    Load: st.builds(Load, few_percents),
    Masses: st.builds(Masses, st.lists(st.tuples(names, masses), min_size=1, max_size=3).map(tuple)),
    Parts: st.builds(Parts, pairs),
    Additives: st.builds(Additives, st.lists(st.tuples(names, few_percents), max_size=4).map(tuple)),
    Fills: st.builds(
        Fills,
        st.lists(st.builds(Fill, counts, st.none() | masses, st.none() | volumes, vessels), max_size=4).map(tuple),
    ),
    Material: names.map(Material),
    VesselName: vessels.map(VesselName),
    FormulaName: tenth.map(lambda n: FormulaName("pine" if n else "no such")),
}


def values(kind: Any) -> st.SearchStrategy[Any]:
    return st.sampled_from(kind) if isinstance(kind, type) and issubclass(kind, StrEnum) else VALUES[kind]


def questions(kind: type[Question]) -> st.SearchStrategy[Question]:
    # Many ways to say what a vessel holds exclude each other; the other questions need most of what they ask for.
    nothing = [st.none()] * (4 if kind is VesselQuestion else 1)
    slots = {slot.name: st.one_of(*nothing, values(slot.type), values(slot.type)) for slot in slots_of(kind)}
    return st.builds(kind, unit=st.sampled_from(["", "oz", "lb", "kg", "ml", "fl_oz", "imp_pint"]), **slots)


@pytest.mark.parametrize("kind", KINDS)
def test_every_answer_can_be_shown(kind: type[Question]) -> None:
    @settings(max_examples=150, suppress_health_check=list(HealthCheck))
    @given(questions(kind))
    def answered(question: Question) -> None:
        answer = ask.answer(question, Workbench())
        text = answer.headline.show()
        assert text.strip()
        assert text[-1] in ".?!"
        assert "E+" not in shown(answer)

    answered()


@pytest.mark.parametrize("kind", KINDS)
def test_slots_fit_their_options(kind: type[Question]) -> None:
    # An option's description holds 100 characters, a command 25 options (Discord's API reference).
    slots = slots_of(kind)
    assert len(slots) <= 25
    assert all(0 < len(slot.says) <= 100 for slot in slots)
