"""One option's text to its typed value: what is read, what is refused, and in which words."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.compounds import Basis, Load, Material, UnitName
from core.errors import BadInput, Contradiction, OutOfRange, UnknownUnit, Unreadable, WrongKind
from core.question import slots_of
from core.questions import QUESTIONS
from core.reading.values import read_value
from core.units import (
    Density,
    Length,
    Mass,
    Money,
    Number,
    Percent,
    Quantity,
    Temperature,
    TemperatureDifference,
    Volume,
)
from core.writing import PLAIN, write


@pytest.mark.parametrize(
    ("kind", "text", "value", "unit"),
    [
        (Mass, "450g", "450", "g"),
        (Mass, "2,5 kg", "2500", "g"),
        (Mass, "1.000,5 g", "1000.5", "g"),
        (Mass, "½ oz", "0.5", "oz"),
        (Mass, "a pound and a half", "1.5", "lb"),
        (Mass, "1 lb 4 oz", "20", "oz"),
        (Mass, "1lb4oz", "20", "oz"),
        (Mass, "450 gms of soy", "450", "g"),
        (Volume, "30 mls", "30", "ml"),
        (Volume, "1 imperial fl oz", "28.4130625", "ml"),  # UK Weights and Measures Act 1985
        (Volume, "1 US fl oz", "29.5735295625", "ml"),  # NIST Handbook 44, App. C
        (Percent, "8", "8", "percent"),
        (Percent, "eight percent", "8", "percent"),
        (Density, "0.93", "0.93", "g/ml"),
        (Density, "930 kg/m3", "0.93", "g/ml"),
        (Temperature, "185F", "85", "degC"),
        (Temperature, "300 K", "26.85", "degC"),
        (TemperatureDifference, "10 °C", "10", "delta_degC"),
        (Length, "3 in", "76.2", "mm"),
        (Money, "€12.50", "12.50", "eur"),
        (Number, "a dozen", "12", "count"),
    ],
)
def test_one_quantity(kind: type[Quantity], text: str, value: str, unit: str) -> None:
    assert read_value(kind, text).to(unit) == Decimal(value)


@pytest.mark.parametrize(
    ("kind", "text", "error", "says"),
    [
        (Mass, "", Unreadable, "450 g"),
        (Mass, "nan", Unreadable, "no amount"),
        (Mass, "inf g", Unreadable, "no amount"),
        (Mass, "1e400 g", OutOfRange, "too large"),
        (Mass, "9**9**9**9", Unreadable, "Write the unit"),
        (Mass, "-5 g", OutOfRange, "less than nothing"),
        (Mass, "450", Unreadable, "Write the unit"),
        (Mass, "450 gramz", None, ""),
        (Mass, "450 flumps", UnknownUnit, "flumps"),
        (Mass, "350 ml", WrongKind, "350 ml is a volume; I need a weight"),
        (Mass, "2-3 lb", Unreadable, "range"),
        (Mass, "16 oz 900 g", Contradiction, "not the same"),
        (Volume, "3 oz", WrongKind, "3 oz is a weight"),
        (Percent, "0.5", Unreadable, "0.5 % or 50 %"),
        (Temperature, "75 degrees", WrongKind, "Celsius or Fahrenheit"),
        (int, "2.5", OutOfRange, "whole number"),
        (bool, "perhaps", Unreadable, "yes or no"),
        (Basis, "of the moon", Unreadable, "of the wax"),
        (UnitName, "blorp", UnknownUnit, "blorp"),
        (Material, "x" * 200, OutOfRange, "too long"),
        (Mass, "x" * 6000, OutOfRange, "too long"),
    ],
)
def test_what_cannot_be_read_says_the_way_out(kind: Any, text: str, error: type[BadInput] | None, says: str) -> None:
    if error is None:
        assert read_value(kind, text) is not None
        return
    with pytest.raises(error) as caught:
        read_value(kind, text)
    assert says in caught.value.sentence


def test_the_same_weight_in_two_units_is_one_weight() -> None:
    assert read_value(Mass, "16 oz (450 g)").to("oz") == 16


def test_a_union_takes_each_of_its_kinds_and_no_other() -> None:
    assert isinstance(read_value(Mass | Volume, "30 ml"), Volume)
    assert isinstance(read_value(Mass | Volume, "30 g"), Mass)
    with pytest.raises(WrongKind):
        read_value(Mass | Volume, "8 %")


def test_an_enum_by_value_name_start_and_slip() -> None:
    for text in ("of the total", "TOTAL", "total", "of teh total"):
        assert read_value(Basis, text) is Basis.TOTAL


def test_near_units_are_offered() -> None:
    with pytest.raises(UnknownUnit) as caught:
        read_value(Mass, "3 owns")
    assert all(near in caught.value.sentence for near in caught.value.near)


def test_loads() -> None:
    assert read_value(Load, "0.08").percent == Percent(Decimal(8))
    assert read_value(Load, "8 % of the total") == Load(Percent(Decimal(8)), Basis.TOTAL)
    rate = read_value(Load, "1 oz per lb")
    assert (rate.percent.base, rate.basis) == (Decimal("6.25"), Basis.WAX)
    assert read_value(Load, "12:1").basis is Basis.WAX
    with pytest.raises(Unreadable):
        read_value(Load, "0.5")
    with pytest.raises(WrongKind):
        read_value(Load, "1 oz per cup")


def test_every_slot_of_every_question_reads_its_own_example() -> None:
    read = 0
    for question in QUESTIONS:
        for slot in slots_of(question):
            if slot.example:
                assert read_value(slot.type, slot.example) is not None, (question, slot.name)
                read += 1
    assert read > 50


AMOUNT = st.decimals("0.01", "99999", places=2)


@given(AMOUNT, st.sampled_from([("g", Mass), ("kg", Mass), ("oz", Mass), ("lb", Mass), ("ml", Volume), ("l", Volume)]))
def test_what_is_printed_reads_back_to_the_same_value(number: Decimal, of: tuple[str, type[Quantity]]) -> None:
    unit, kind = of
    value = kind.of(number, unit)
    assert read_value(kind, write(value, PLAIN, "typed")) == value


@given(
    st.text(max_size=200), st.sampled_from([Mass, Volume, Percent, Density, Load, Temperature, int, Basis, UnitName])
)
def test_any_text_gives_a_value_or_a_sentence(text: str, kind: Any) -> None:
    try:
        read_value(kind, text)
        sentence = "a value came out"
    except BadInput as error:
        sentence = error.sentence
    assert sentence
    assert "Traceback" not in sentence
