"""Any text at all as amounts: numbers of any size and any count, laws, and how the work grows."""

from __future__ import annotations

import json
from decimal import Decimal
from pathlib import Path

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from core.errors import OutOfRange
from core.reading.amounts import MOST_NUMBERS, amounts, pairs
from tests.work import lines_run

CASES = [json.loads(line) for line in Path(__file__).with_name("amount_cases.jsonl").read_text("utf-8").splitlines()]


def test_places_are_those_of_the_text_as_given() -> None:
    """Invisible marks and characters read as several others do not shift the places."""
    text = "\u202ewax\u200b: 5\u200b00 ㎖ and ½ oz"
    found = amounts(text)
    assert [(a.value, a.unit, a.text) for a in found] == [
        (Decimal(500), "ml", "5\u200b00 ㎖"),
        (Decimal("0.5"), "oz", "½ oz"),
    ]
    assert all(text[a.start : a.end] == a.text for a in found)


def test_hand_made_texts() -> None:
    """F1 over the texts of `amount_cases.jsonl`, whose values were set down by hand."""
    found = missed = extra = 0
    for case in CASES:
        left = [(value, unit) for value, unit in pairs(case["text"]) if unit not in ("t", "mg")]
        for wanted in case["expect"]:
            value = Decimal(wanted["value"])
            hit = next((p for p in left if p[1] == wanted["unit"] and abs(p[0] - value) <= abs(value) / 200), None)
            if hit:
                left.remove(hit)
                found += 1
            elif not wanted.get("optional"):
                missed += 1
        extra += len(left)
    assert len(CASES) >= 250
    assert found >= 400
    assert 2 * found / (2 * found + missed + extra) >= 0.98


def test_numbers_of_any_size_are_returned_and_harm_nothing() -> None:
    assert [a.value for a in amounts("1e400 g")] == [Decimal("1e400")]
    assert [a.value for a in amounts("9" * 6000 + " g")] == [Decimal("9" * 6000)]
    assert [a.value for a in amounts("9**9**9**9")] == [9, 9, 9, 9]
    assert amounts("1e999999999999 g") == []


def test_more_numbers_than_any_question_holds_are_refused_not_left_out() -> None:
    assert len(amounts("1 g, " * MOST_NUMBERS)) == MOST_NUMBERS
    for text in ("1 g, " * (MOST_NUMBERS + 1), "1:1:1:1:1:1:1:1 " * 40):
        with pytest.raises(OutOfRange, match="up to 300 numbers"):
            amounts(text)


WORDS = (
    "1 2 1/2 ½ 1,000 2,5 .5 12:1 60/40 lb oz g kg % fl oz cup C F T c. in # $ £ € per / a an half and to - – "
    "of the degrees pounds one hundred point dozen between or , . ( ) \n \u200b 2024-05-01 <@1> x10-3 ^3 minus"
)

SNIPPETS = st.sampled_from(WORDS.split(" "))

TEXTS = st.one_of(
    st.text(), st.lists(SNIPPETS, max_size=30).map(" ".join), st.lists(SNIPPETS, max_size=30).map("".join)
)


@given(TEXTS)
@example("")
@example("\x00\ud800")
@example("1/0 g")
def test_any_text_is_read(text: str) -> None:
    """Places lie inside the text, in order, apart; `text` is what stands there."""
    end = 0
    for amount in amounts(text):
        assert end <= amount.start < amount.end <= len(text)
        assert amount.text == text[amount.start : amount.end]
        assert amount.value.is_finite()
        end = amount.end
    assert all(unit for _, unit in pairs(text))


FORMS = st.sampled_from(["{v}{u}", "{v} {u}", "{v}-{u}", "of {v} {u} of wax", "({v} {u})", "wax={v}{u}", "{v}{u}?"])

UNITS = {
    "g": ["g", "gms", "grams", "gr", "grammes", "GRAMS"],
    "oz": ["oz", "ozs", "ounces", "Oz"],
    "lb": ["lb", "lbs", "pounds", "LBS"],
    "ml": ["ml", "mls", "millilitres", "cc"],
    "percent": ["%", "pct", "percent", "per cent"],
}


@given(st.data(), st.sampled_from(sorted(UNITS)), st.decimals("0.01", "999", places=2), FORMS)
def test_any_form_of_an_amount_reads_the_same(data: st.DataObject, unit: str, value: Decimal, form: str) -> None:
    spelling = data.draw(st.sampled_from(UNITS[unit]))
    number = data.draw(st.sampled_from([str(value), str(value).replace(".", ","), f"{value:f}0"]))
    (amount,) = amounts(form.format(v=number, u=spelling))
    assert (amount.value, amount.unit) == (value, unit)


WALLS = [
    "1 ",
    "1/",
    "a ",
    "and ",
    "½",
    "1,",
    ".",
    "(",
    "1:",
    "1-",
    "1g",
    "w1",
    "one ",
    "1 lb 4 oz ",
    "<@",
    "a@b.c ",
    "1x10",
]


@pytest.mark.parametrize("wall", WALLS)
def test_ten_times_the_text_is_ten_times_the_work(wall: str) -> None:
    """Squared would be a hundred times."""

    def work(length: int) -> int:
        text = (wall * length)[:length]
        return lines_run(lambda: amounts(text, most=length))

    assert work(6_000) <= 15 * work(600)
