"""Parcels: the sum of the weights, divisors, the carrier's rounding, which of weight and size is charged."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Missing, NotUnderstood, Worked
from core.book import EmptyBook, VesselRecord
from core.compounds import VesselName
from core.questions.parcel import ParcelQuestion
from core.questions.parcel_sums import Box, DivisorUnit, Sides, rounded_up, volumetric
from core.units import Length, Mass, Number
from tests.core.questions.records import EMPTY, needs, number, words
from tests.core.questions.workbench import shown

D = Decimal
KILO, POUND = Mass.of(1, "kg"), Mass.of(1, "lb")


def box(a: str | int, b: str | int, c: str | int, unit: str) -> Box:
    return Box(Length.of(a, unit), Length.of(b, unit), Length.of(c, unit))


def sides(a: str | int, b: str | int, c: str | int, unit: str) -> dict[str, Length]:
    return dict(zip(("length", "width", "height"), (Length.of(each, unit) for each in (a, b, c)), strict=True))


def test_jar_fill_lid_and_packing() -> None:
    # (4 × (9 + 8 + 1.2) + 14) ÷ 16 = 5.425 lb
    answer = ParcelQuestion(
        vessel=Mass.of(9, "oz"),
        fill=Mass.of(8, "oz"),
        lid=Mass.of("1.2", "oz"),
        count=4,
        packing=Mass.of(14, "oz"),
        unit="lb",
    ).answer(EMPTY)
    assert isinstance(answer, Worked)
    assert answer.headline.show() == "The parcel weighs 5.425 lb (2461 g)."
    assert number(answer, "parcel") / POUND.base == D("5.425")
    assert "5 lb 6.8 oz, 2.461 kg" in words(answer)
    shown(answer)


@pytest.mark.parametrize(
    ("size", "divisor", "unit", "value", "step", "charged"),
    [
        # Published worked figures: 12 × 10 × 8 in by 139 and 166; 30 × 25 × 20 cm; 30 × 45 × 65 cm to the next 0.5 kg.
        (box(12, 10, 8, "in"), 139, DivisorUnit.IN3_LB, "6.906", POUND, "7"),
        (box(12, 10, 8, "in"), 166, DivisorUnit.IN3_LB, "5.783", POUND, "6"),
        (box(12, 12, 14, "in"), 194, DivisorUnit.IN3_LB, "10.392", POUND, "11"),
        (box(12, 12, 14, "in"), 166, DivisorUnit.IN3_LB, "12.145", POUND, "13"),
        (box(30, 25, 20, "cm"), 5000, DivisorUnit.CM3_KG, "3", Mass.of("0.5", "kg"), "3"),
        (box(30, 25, 20, "cm"), 6000, DivisorUnit.CM3_KG, "2.5", Mass.of("0.5", "kg"), "2.5"),
        (box(30, 45, 65, "cm"), 6000, DivisorUnit.CM3_KG, "14.625", Mass.of("0.5", "kg"), "15"),
    ],
)
def test_published_examples(size: Box, divisor: int, unit: DivisorUnit, value: str, step: Mass, charged: str) -> None:
    found = volumetric(size, Number(D(divisor)), unit, Sides.EXACT)
    assert found.to(unit.weight).quantize(D("0.001")) == D(value)
    assert rounded_up(found, step).to(unit.weight) == D(charged)


def test_divisors_in_inches_and_centimetres_agree() -> None:
    # 5000 cm³/kg = 138.400 in³/lb, 6000 = 166.079; by 2.54 cm to the inch and 453.59237 g to the pound.
    size = box(30, 25, 20, "cm")
    for metric, inches in (("5000", "138.400"), ("6000", "166.079")):
        a = volumetric(size, Number(D(metric)), DivisorUnit.CM3_KG, Sides.EXACT)
        b = volumetric(size, Number(D(inches)), DivisorUnit.IN3_LB, Sides.EXACT)
        assert float(a.base) == pytest.approx(float(b.base), rel=1e-5)


def test_sides_rounded_by_the_carrier() -> None:
    size = box("11.5", "10.2", "8", "in")
    assert size.in_unit("in", Sides.UP) == (12, 11, 8)
    assert size.in_unit("in", Sides.NEAREST) == (12, 10, 8)


def test_charged_by_size_or_by_weight() -> None:
    light = ParcelQuestion(
        candle=Mass.of(540), count=3, **sides(30, 25, 20, "cm"), divisor=Number(D(5000)), rounding=Mass.of("0.5", "kg")
    ).answer(EMPTY)
    assert light.headline.show() == "Charged by size: 3 kg. The parcel weighs 1.62 kg, its size counts as 3 kg."
    assert (number(light, "volumetric"), number(light, "charged")) == (3000, 3000)
    heavy = ParcelQuestion(
        candle=Mass.of(540), count=6, **sides(30, 25, 20, "cm"), divisor=Number(D(5000)), rounding=Mass.of("0.5", "kg")
    ).answer(EMPTY)
    assert heavy.headline.show().startswith("Charged by weight: 3.5 kg.")
    assert number(heavy, "charged") == 3500
    assert "I took cm³ per kg" in words(light)
    shown(light)


def test_a_recorded_vessel_gives_its_weights() -> None:
    class Jars(EmptyBook):
        def vessel(self, name: str) -> VesselRecord | None:
            records = {"tin": VesselRecord("Tin", fill=Mass.of(90), weight=Mass.of(25)), "jar": VesselRecord("Jar")}
            return records.get(name.casefold())

    answer = ParcelQuestion(jar=VesselName("Tin"), count=10, packing=Mass.of(100)).answer(Jars())
    assert number(answer, "parcel") == 10 * (90 + 25) + 100
    assert {
        given.what: given.origin.value for given in answer.given if given.what in ("vessel", "fill", "packing")
    } == {
        "vessel": "recorded",
        "fill": "recorded",
        "packing": "asked",
    }
    for name, phrase in (("Jar", "Weigh an empty one"), ("Pot", "no vessel called “Pot”")):
        unknown = ask.answer(ParcelQuestion(jar=VesselName(name), fill=Mass.of(90)), Jars())
        assert isinstance(unknown, NotUnderstood)
        assert unknown.reason == "not_found"
        assert phrase in unknown.headline.show()


def test_without_a_divisor_common_ones_are_offered_and_nothing_is_charged() -> None:
    answer = ParcelQuestion(candle=Mass.of(540), **sides(30, 25, 20, "cm")).answer(EMPTY)
    assert answer.table is not None
    assert len(answer.table.rows) >= 4
    assert [result.what for result in answer.results] == ["candle", "parcel"]
    only_size = ParcelQuestion(**sides(30, 25, 20, "cm")).answer(EMPTY)
    assert isinstance(only_size, Missing)
    assert needs(only_size) == ["divisor"]
    shown(only_size)


def test_the_size_alone() -> None:
    answer = ParcelQuestion(**sides(12, 10, 8, "in"), divisor=Number(D(139)), rounding=POUND).answer(EMPTY)
    assert answer.headline.show() == "By its size the parcel counts as 7 lb (6.906 lb before rounding up)."


@pytest.mark.parametrize(
    ("question", "names"),
    [
        (ParcelQuestion(), ["weight_of_candle"]),
        (ParcelQuestion(count=3, packing=Mass.of(5)), ["weight_of_candle"]),
        (ParcelQuestion(vessel=Mass.of(300)), ["weight_of_fill"]),
        (ParcelQuestion(fill=Mass.of(300)), ["weight_of_vessel"]),
    ],
)
def test_what_is_missing_is_named(question: ParcelQuestion, names: list[str]) -> None:
    answer = question.answer(EMPTY)
    assert isinstance(answer, Missing)
    assert needs(answer) == names
    assert not answer.results
    shown(answer)


@pytest.mark.parametrize(
    "question",
    [
        ParcelQuestion(candle=Mass.of(0)),
        ParcelQuestion(candle=Mass.of(540), count=0),
        ParcelQuestion(candle=Mass.of(540), count=10**9),
        ParcelQuestion(candle=Mass.of(540), packing=Mass.of(-1)),
        ParcelQuestion(candle=Mass.of(540), length=Length.of(3)),
        ParcelQuestion(candle=Mass.of(540), **sides(3, 3, 3, "cm"), divisor=Number(D(0))),
        ParcelQuestion(candle=Mass.of(540), rounding=Mass.of(0)),
    ],
)
def test_what_cannot_be_says_the_way_out(question: ParcelQuestion) -> None:
    answer = ask.answer(question, EMPTY)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == "out_of_range"


@given(st.integers(1, 50_000), st.integers(1, 500), st.integers(0, 5000), st.integers(1, 3000))
def test_the_charge_is_the_next_step_at_or_above_the_parcel(each: int, count: int, packing: int, step: int) -> None:
    answer = ParcelQuestion(candle=Mass.of(each), count=count, packing=Mass.of(packing), rounding=Mass.of(step)).answer(
        EMPTY
    )
    parcel, charged = number(answer, "parcel"), number(answer, "charged")
    assert parcel == each * count + packing
    assert 0 <= charged - parcel < step
    assert charged % step == 0


def test_as_many_as_the_limit_allows() -> None:
    # (2000 − 150) ÷ 480 = 3.9; 3 × 480 + 150 = 1590
    answer = ParcelQuestion(candle=Mass.of(480), packing=Mass.of(150), limit=Mass.of(2, "kg")).answer(EMPTY)
    assert (number(answer, "count"), number(answer, "parcel"), number(answer, "room_left")) == (3, 1590, 410)
    none = ParcelQuestion(candle=Mass.of(480), packing=Mass.of(150), limit=Mass.of(600)).answer(EMPTY)
    assert "Not even one" in none.headline.show()


def test_the_limit_beside_a_count_is_compared() -> None:
    question = ParcelQuestion(candle=Mass.of(480), count=4, packing=Mass.of(150), limit=Mass.of(2, "kg"))
    assert "over 2 kg" in words(question.answer(EMPTY))


def test_the_packing_of_a_whole_parcel() -> None:
    # 3400 − 6 × 480
    answer = ParcelQuestion(whole=Mass.of("3.4", "kg"), candle=Mass.of(480), count=6).answer(EMPTY)
    assert number(answer, "packing") == 520
    heavy = ask.answer(ParcelQuestion(whole=Mass.of(2, "kg"), candle=Mass.of(480), count=6), EMPTY)
    assert isinstance(heavy, NotUnderstood)


def test_one_candle_of_a_whole_parcel() -> None:
    answer = ParcelQuestion(whole=Mass.of("3.1", "kg"), packing=Mass.of(400), count=6).answer(EMPTY)
    assert number(answer, "candle") == 450
    uncounted = ParcelQuestion(whole=Mass.of("3.1", "kg"), packing=Mass.of(400)).answer(EMPTY)
    assert needs(uncounted) == ["count"]
    heavy = ask.answer(ParcelQuestion(whole=Mass.of(300), packing=Mass.of(400), count=6), EMPTY)
    assert isinstance(heavy, NotUnderstood)


@given(st.integers(1, 5000), st.integers(0, 3000), st.integers(1, 50_000))
def test_one_more_would_be_over_the_limit(candle: int, packing: int, limit: int) -> None:
    question = ParcelQuestion(candle=Mass.of(candle), packing=Mass.of(packing), limit=Mass.of(limit))
    answer = ask.answer(question, EMPTY)
    if isinstance(answer, Worked):
        parcel = number(answer, "parcel")
        assert parcel <= limit < parcel + candle
    else:
        assert packing >= limit
