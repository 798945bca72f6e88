"""Whatever is given, buying, cost, label, lot, parcel and scale questions answer in words that can be shown."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from enum import StrEnum
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from core import ask
from core.answer import Missing, Worked
from core.compounds import Masses, Pack, Packs
from core.question import Question, Slot, slots_of
from core.questions.buying import BuyingQuestion
from core.questions.cost import CostQuestion
from core.questions.label import LabelQuestion
from core.questions.lot import LotQuestion
from core.questions.parcel import ParcelQuestion
from core.questions.scale import ScaleQuestion
from core.reading.values import read_value
from core.units import Length, Mass, Money, Number, Volume
from tests.core.questions.test_any_givens import EDGES, VALUES, names
from tests.core.questions.workbench import Workbench, shown

KINDS = (BuyingQuestion, CostQuestion, LabelQuestion, LotQuestion, ParcelQuestion, ScaleQuestion)


def of(kind: Any, units: list[str], number: st.SearchStrategy[Decimal]) -> st.SearchStrategy[Any]:
    return st.builds(lambda value, unit: kind.of(min(value, Decimal(10**6)), unit), number, st.sampled_from(units))


# Many slots at once: one number in fifty can't be meant.
figures = st.integers(0, 49).flatmap(
    lambda n: st.decimals(min_value="0.1", max_value=2000, places=2) if n else st.sampled_from(EDGES)
)
weights = of(Mass, ["g", "oz", "lb", "kg"], figures)
rooms = of(Volume, ["ml", "fl_oz", "imp_pint", "l"], figures)
money = st.builds(Money, figures, st.sampled_from(["eur"] * 20 + ["money", "usd"]))
pieces = st.integers(0, 500).map(Decimal).map(Number)
pack_sizes = st.one_of(weights, weights, weights, weights, rooms, pieces)

priced = st.none() | money
# Mostly packs of one kind, as shops have them: where all kinds are mixed nearly every list is a contradiction.
pack_lists = st.one_of(
    *[st.lists(st.builds(Pack, weights, priced, names), max_size=4)] * 4,
    st.lists(st.builds(Pack, pieces, priced, names), max_size=4),
    st.lists(st.builds(Pack, pack_sizes, priced, names), max_size=4),
)

TRADE: dict[Any, st.SearchStrategy[Any]] = {
    **VALUES,
    bool: st.booleans(),
    Mass: weights,
    Volume: rooms,
    Length: of(Length, ["mm", "cm", "in"], figures),
    Number: pieces,
    Money: money,
    Packs: pack_lists.map(tuple).map(Packs),
    Mass | Volume: weights | rooms,
    Masses: st.lists(st.tuples(names, weights), min_size=1, max_size=6).map(tuple).map(Masses),
}
# Slots that exclude others, and are mostly left out of questions that are given everything.
SELDOM = ("pieces", "count", "have", "loose", "net", "gross", "panel_width", "diameter", "capacity", "fragrance")


SENSIBLE: dict[type[Question], Question] = {
    BuyingQuestion: BuyingQuestion(need=Mass.of(9, "kg"), packs=read_value(Packs, "2 kg 18 eur, 5 kg 39 eur")),
    CostQuestion: CostQuestion(
        count=24, wax=Mass.of("4.5", "kg"), wax_price=Money.of(39, "eur"), wax_pack=Mass.of(5, "kg")
    ),
    LabelQuestion: LabelQuestion(gross=Mass.of(540), vessel=Mass.of(320)),
    LotQuestion: LotQuestion(label=Mass.of(226), weights=read_value(Masses, "230 g, 224 g, 228 g")),
    ParcelQuestion: ParcelQuestion(candle=Mass.of(18, "oz"), count=4, packing=Mass.of(14, "oz")),
    ScaleQuestion: ScaleQuestion(step=Mass.of("0.1"), weighing=read_value(Masses, "2 g, 20 g")),
}


def questions(kind: type[Question]) -> st.SearchStrategy[Question]:
    """A third with about half of their slots, a third with nearly all, a third sensible but for one or two slots."""

    def value(wanted: Any) -> st.SearchStrategy[Any]:
        enum = isinstance(wanted, type) and issubclass(wanted, StrEnum)
        return st.sampled_from(wanted) if enum else TRADE[wanted]

    def built(nothing: int, something: int) -> st.SearchStrategy[Question]:
        def slot_value(slot: Slot) -> st.SearchStrategy[Any]:
            seldom = slot.name in SELDOM
            choices = [st.none()] * (6 if seldom else nothing) + [value(slot.type)] * (1 if seldom else something)
            return st.one_of(*choices) if choices[0] is not choices[-1] else choices[0]

        return st.builds(
            kind,
            unit=st.sampled_from(["", "oz", "lb", "kg", "g"]),
            **{slot.name: slot_value(slot) for slot in slots_of(kind)},
        )

    slots = {slot.name: value(slot.type) for slot in slots_of(kind)}
    few = st.lists(st.sampled_from(sorted(slots)), max_size=2, unique=True)
    changes = few.flatmap(lambda names: st.fixed_dictionaries({name: slots[name] for name in names}))
    near = changes.map(lambda changed: replace(SENSIBLE[kind], **changed))
    return built(1, 1) | built(0, 1) | near


@pytest.mark.parametrize("kind", KINDS)
def test_every_answer_can_be_shown(kind: type[Question]) -> None:
    seen: set[type] = set()

    @settings(max_examples=200, suppress_health_check=list(HealthCheck))
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
