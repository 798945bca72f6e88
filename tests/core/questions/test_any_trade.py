"""Whatever is given, buying, cost, label, lot, parcel and scale questions answer in words that can be shown."""

from __future__ import annotations

from decimal import Decimal
from enum import StrEnum
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core import ask
from core.answer import Missing, Worked
from core.compounds import Masses, Pack, Packs
from core.question import Question, slots_of
from core.questions.buying import BuyingQuestion
from core.questions.cost import CostQuestion
from core.questions.label import LabelQuestion
from core.questions.lot import LotQuestion
from core.questions.parcel import ParcelQuestion
from core.questions.scale import ScaleQuestion
from core.reading.values import read_value
from core.units import Mass, Money, Number, Volume
from tests.core.questions.test_any_givens import VALUES, masses, names, numbers, volumes
from tests.core.questions.workbench import Workbench, shown

KINDS = (BuyingQuestion, CostQuestion, LabelQuestion, LotQuestion, ParcelQuestion, ScaleQuestion)

money = st.builds(Money, numbers, st.sampled_from(["eur", "eur", "eur", "money", "usd"]))
pack_sizes = st.one_of(masses, masses, volumes, st.builds(Number, numbers))
packs = st.lists(st.builds(Pack, pack_sizes, st.none() | money, names), max_size=4).map(tuple).map(Packs)

TRADE: dict[Any, st.SearchStrategy[Any]] = {
    **VALUES,
    bool: st.booleans(),
    Money: money,
    Packs: packs,
    Mass | Volume: masses | volumes,
    # A lot has many weights that lie close together.
    Masses: st.lists(st.tuples(names, masses), min_size=1, max_size=6).map(tuple).map(Masses),
}


def questions(kind: type[Question]) -> st.SearchStrategy[Question]:
    def value(wanted: Any) -> st.SearchStrategy[Any]:
        enum = isinstance(wanted, type) and issubclass(wanted, StrEnum)
        return st.sampled_from(wanted) if enum else TRADE[wanted]

    slots = {slot.name: st.one_of(st.none(), value(slot.type)) for slot in slots_of(kind)}
    return st.builds(kind, unit=st.sampled_from(["", "oz", "lb", "kg", "g"]), **slots)


@pytest.mark.parametrize("kind", KINDS)
def test_every_answer_can_be_shown(kind: type[Question]) -> None:
    seen: set[type] = set()

    @settings(max_examples=200, deadline=None, suppress_health_check=list(HealthCheck))
    @given(questions(kind))
    def answered(question: Question) -> None:
        answer = ask.answer(question, Workbench())
        seen.add(type(answer))
        text = answer.headline.show()
        assert text.strip()
        assert text[-1] in ".?!"
        assert "E+" not in shown(answer)
        if isinstance(answer, Missing):
            assert answer.needs

    answered()
    assert Worked in seen


@pytest.mark.parametrize("kind", KINDS)
def test_slots_fit_their_options(kind: type[Question]) -> None:
    # An option's description holds 100 characters, a command 25 options (Discord's API reference).
    slots = slots_of(kind)
    assert len(slots) <= 25
    assert all(0 < len(slot.says) <= 100 for slot in slots)


@pytest.mark.parametrize("kind", KINDS)
def test_every_example_can_be_read(kind: type[Question]) -> None:
    for slot in slots_of(kind):
        if slot.example:
            read_value(slot.type, slot.example)


def test_packs_of_pieces_can_be_typed() -> None:
    two = read_value(Packs, "50 wicks 6 eur, 100 wicks 10 eur")
    assert [(pack.size, pack.price) for pack in two.items] == [
        (Number(Decimal(50)), Money.of(6, "eur")),
        (Number(Decimal(100)), Money.of(10, "eur")),
    ]
    assert [pack.price for pack in read_value(Packs, "50, 100").items] == [None, None]
    assert read_value(Packs, "50 = 6").items == (Pack(Number(Decimal(50)), Money.of(6)),)
