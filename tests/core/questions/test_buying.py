"""Buying: whole packs, the cheapest mix, what is left, prices by weight; densities for bottles; what cannot be."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Missing, NotUnderstood, Worked
from core.compounds import Material, Pack, Packs, Stuff
from core.questions.buying import MOST_SIZES, BuyingQuestion
from core.units import Density, Mass, Money, Number, Percent, Volume
from tests.core.questions.records import EMPTY, SHELF, cautions, needs, number, words
from tests.core.questions.workbench import shown

D = Decimal
# Exact: UK Weights and Measures Act 1985 Sch. 1 Pt V (ounce); 231 in³ to the US gallon, NIST HB 44 App. C.
OUNCE, US_FL_OZ = Fraction("28.349523125"), Fraction("29.5735295625")


def pack(size: Mass | Volume | Number, price: str | None = None, currency: str = "eur") -> Pack:
    return Pack(size, None if price is None else Money.of(price, currency))


def packs(*items: Pack) -> Packs:
    return Packs(items)


KILOS = packs(pack(Mass.of(2, "kg"), "18"), pack(Mass.of(5, "kg"), "39"))


def test_whole_packs_without_prices() -> None:
    answer = BuyingQuestion(need=Mass.of("7.3", "kg"), packs=packs(pack(Mass.of(5, "kg")))).answer(EMPTY)
    assert isinstance(answer, Worked)
    assert (number(answer, "packs"), number(answer, "left_over")) == (2, 2700)
    assert answer.headline.show() == "Buy 2 packs of 5 kg; 2.7 kg left over."
    assert "cost" not in shown(answer)


def test_the_cheapest_mix_and_each_size_alone() -> None:
    # By hand: 5 × 18 = 90, 2 × 39 = 78, 39 + 2 × 18 = 75 for exactly 9 kg.
    answer = BuyingQuestion(need=Mass.of(9, "kg"), packs=KILOS, candle=Mass.of(180)).answer(EMPTY)
    assert isinstance(answer, Worked)
    assert [number(answer, f"cost_{name}") for name in ("2kg_packs", "5kg_packs", "cheapest_mix")] == [90, 78, 75]
    assert (number(answer, "packs"), number(answer, "packs_2kg"), number(answer, "packs_5kg")) == (3, 2, 1)
    assert number(answer, "left_over") == 0
    assert answer.headline.show() == "Buy 2 packs of 2 kg and 1 pack of 5 kg, €75.00 in all; nothing left over."
    assert Fraction(number(answer, "cost_per_oz")) == Fraction(75, 9000) * OUNCE or abs(
        Fraction(number(answer, "cost_per_oz")) - Fraction(75, 9000) * OUNCE
    ) < Fraction(1, 10**30)
    assert number(answer, "cost_per_candle").quantize(D("1e-20")) == D("1.5")
    assert answer.table is not None
    assert len(answer.table.rows) == 3
    assert "€3.00 more" in words(answer)


def test_pounds_beside_kilograms_exactly() -> None:
    # 20 lb = 9071.8474 g needs five packs of 2 kg, two of 10 lb are 20 lb exactly.
    offers = packs(pack(Mass.of(2, "kg"), "18", "usd"), pack(Mass.of(10, "lb"), "42.50", "usd"))
    answer = BuyingQuestion(need=Mass.of(20, "lb"), packs=offers).answer(EMPTY)
    assert (number(answer, "cost_2kg_packs"), number(answer, "cost")) == (90, 85)
    assert number(answer, "left_over") == 0


def test_pieces() -> None:
    offers = packs(pack(Number(D(50)), "6"), pack(Number(D(100)), "10"))
    answer = BuyingQuestion(pieces=Number(D(120)), packs=offers).answer(EMPTY)
    assert (number(answer, "packs"), number(answer, "left_over"), number(answer, "cost")) == (2, 30, 16)
    assert "30 pieces left over" in shown(answer)


def test_a_bottle_in_fluid_ounces_needs_a_density() -> None:
    bottles = packs(pack(Volume.of(4, "fl_oz"), "12"), pack(Volume.of(16, "fl_oz"), "38"))
    without = BuyingQuestion(need=Mass.of(200), packs=bottles).answer(EMPTY)
    assert isinstance(without, Missing)
    assert needs(without) == ["density_of_fragrance"]
    assert not without.results
    assert "Only as a guide: 2 to 3 packs." in words(without)  # 4 fl oz: 99 g of limonene, 140 g of methyl salicylate
    assert "took the US ones" in shown(without)
    given_density = BuyingQuestion(need=Mass.of(200), packs=bottles, density=Density.of("0.95")).answer(EMPTY)
    # 4 US fl oz × 0.95 g/ml
    held = 2 * 4 * US_FL_OZ * Fraction("0.95")
    assert Fraction(number(given_density, "left_over")) == held - 200
    assert number(given_density, "cost") == 24


def test_a_recorded_density_is_used_and_named() -> None:
    answer = BuyingQuestion(
        need=Mass.of(300), packs=packs(pack(Volume.of(100), "9")), material=Material("night fig")
    ).answer(SHELF)
    assert number(answer, "packs") == 3  # 1.012 g/ml: 101.2 g each
    assert any(given.what == "density" and given.origin.value == "recorded" for given in answer.given)


def test_an_odd_density_is_questioned() -> None:
    answer = BuyingQuestion(need=Mass.of(300), packs=packs(pack(Volume.of(100), "9")), density=Density.of(9)).answer(
        EMPTY
    )
    assert cautions(answer) == {"odd_density"}


def test_priced_packs_without_a_need_are_compared() -> None:
    answer = BuyingQuestion(packs=KILOS, candle=Mass.of(200)).answer(EMPTY)
    assert answer.headline.show() == "Cheapest for its size: the 5 kg pack, €7.80 per kg."
    assert number(answer, "cost_per_g_2kg_packs") == D("0.009")
    assert number(answer, "cost_per_candle") == D("1.56")
    shown(answer)


def test_price_per_pound_and_ounce() -> None:
    # 32 ÷ 10 = 3.20 a pound, ÷ 16 = 0.20 an ounce.
    answer = BuyingQuestion(packs=packs(pack(Mass.of(10, "lb"), "32", "usd"))).answer(EMPTY)
    assert answer.headline.show() == "The 10 lb pack: $3.20 per lb."
    exact = {what: number(answer, f"cost_per_{what}").quantize(D("1e-20")) for what in ("lb", "oz")}
    assert exact == {"lb": D("3.2"), "oz": D("0.2")}
    by_ounce = BuyingQuestion(
        packs=packs(pack(Mass.of(4, "oz"), "11", "usd"), pack(Mass.of(1, "lb"), "36", "usd")), unit="oz"
    ).answer(EMPTY)
    assert by_ounce.headline.show() == "Cheapest for its size: the 1 lb pack, $2.25 per oz."
    assert number(by_ounce, "cost_per_oz_4oz_packs").quantize(D("1e-20")) == D("2.75")


def test_packs_without_a_price_stay_out_of_the_mix_and_it_says_so() -> None:
    offers = packs(pack(Mass.of(2, "kg"), "18"), pack(Mass.of(1, "kg")))
    answer = BuyingQuestion(need=Mass.of(3, "kg"), packs=offers).answer(EMPTY)
    assert (number(answer, "packs"), number(answer, "cost")) == (2, 36)
    assert "I left out the packs without a price." in words(answer)


@pytest.mark.parametrize(
    ("question", "names"),
    [
        (BuyingQuestion(), ["amount_needed", "pack_size"]),
        (BuyingQuestion(need=Mass.of(2, "kg")), ["pack_size"]),
        (BuyingQuestion(packs=packs(pack(Mass.of(5, "kg")))), ["weight_of_wax"]),
        (BuyingQuestion(packs=packs(pack(Volume.of(5))), stuff=Stuff.FRAGRANCE), ["weight_of_fragrance"]),
        (BuyingQuestion(packs=packs(pack(Number(D(50))))), ["amount_needed"]),
    ],
)
def test_what_is_missing_is_named(question: BuyingQuestion, names: list[str]) -> None:
    answer = question.answer(EMPTY)
    assert needs(answer) == names
    shown(answer)


@pytest.mark.parametrize(
    ("question", "reason", "way_out"),
    [
        (BuyingQuestion(need=Mass.of(0), packs=KILOS), "out_of_range", "more than 0"),
        (BuyingQuestion(need=Mass.of(9), packs=packs(pack(Mass.of(0)))), "out_of_range", "more than 0"),
        (BuyingQuestion(need=Mass.of(9), packs=packs(pack(Number(D(50))))), "contradiction", "the same way"),
        (BuyingQuestion(need=Mass.of(9), pieces=Number(D(3)), packs=KILOS), "contradiction", "Leave one"),
        (
            BuyingQuestion(need=Mass.of(9), packs=packs(pack(Mass.of(5), "3"), pack(Mass.of(1), "3", "usd"))),
            "contradiction",
            "in one",
        ),
        (BuyingQuestion(need=Mass.of(9), packs=packs(pack(Mass.of(5), "-3"))), "out_of_range", "minus"),
        (BuyingQuestion(need=Mass.of(2, "t"), packs=packs(pack(Mass.of(1, "mg")))), "out_of_range", "Check the units"),
        (
            BuyingQuestion(need=Mass.of(9), packs=packs(*[pack(Mass.of(1))] * (MOST_SIZES + 1))),
            "out_of_range",
            "Leave some out",
        ),
    ],
)
def test_what_cannot_be_says_the_way_out(question: BuyingQuestion, reason: str, way_out: str) -> None:
    answer = ask.answer(question, EMPTY)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == reason
    assert way_out in answer.headline.show()


@given(st.integers(1, 20_000), st.lists(st.tuples(st.integers(1, 5000), st.integers(0, 9000)), min_size=1, max_size=5))
def test_the_packs_bought_cover_the_need_and_cost_what_is_said(need: int, sizes: list[tuple[int, int]]) -> None:
    offers = packs(*(pack(Mass.of(size), str(D(cents) / 100)) for size, cents in sizes))
    answer = BuyingQuestion(need=Mass.of(need), packs=offers).answer(EMPTY)
    assert number(answer, "left_over") >= 0
    alone = [-(-need // size) * D(cents) / 100 for size, cents in sizes]
    assert number(answer, "cost") <= min(alone)
    assert number(answer, "left_over") < max(size for size, _ in sizes)


def test_the_need_is_worked_out_step_by_step() -> None:
    # 110 × 70 g = 7700 g, 10 % more = 8470 g, less 1 kg = 7470 g: three slabs of 2.5 kg
    ask_for = BuyingQuestion(
        candle=Mass.of(70),
        count=110,
        extra=Percent(D(10)),
        have=Mass.of(1, "kg"),
        packs=packs(pack(Mass.of("2.5", "kg"))),
    )
    answer = ask_for.answer(EMPTY)
    assert number(answer, "packs") == 3
    assert number(answer, "left_over") == 30
    assert len([step for step in answer.steps if "need" in step.formula]) >= 3


def test_what_is_there_may_be_enough() -> None:
    answer = BuyingQuestion(need=Mass.of(3, "kg"), have=Mass.of(5, "kg"), packs=KILOS).answer(EMPTY)
    assert number(answer, "packs") == 0
    assert "buy nothing" in answer.headline.show()


def test_money_buys_whole_packs_or_any_weight() -> None:
    bags = BuyingQuestion(budget=Money.of(60, "eur"), packs=packs(pack(Mass.of(5, "kg"), "21"))).answer(EMPTY)
    assert (number(bags, "packs"), number(bags, "money_left")) == (2, 18)
    loose = BuyingQuestion(budget=Money.of(20, "eur"), loose=packs(pack(Mass.of(1, "kg"), "6.50"))).answer(EMPTY)
    assert round(number(loose, "amount"), 1) == D("3076.9")
    short = BuyingQuestion(budget=Money.of(20, "eur"), packs=packs(pack(Mass.of(5, "kg"), "21"))).answer(EMPTY)
    assert "isn't enough" in short.headline.show()


def test_postage_is_paid_once() -> None:
    # 7 kg is 3 packs of 3 kg at 21, and 5 for the parcel
    three = packs(pack(Mass.of(3, "kg"), "21"))
    question = BuyingQuestion(need=Mass.of(7, "kg"), packs=three, postage=Money.of(5, "eur"))
    answer = question.answer(EMPTY)
    assert (number(answer, "cost"), number(answer, "in_all")) == (63, 68)
    unpriced = replace(question, packs=packs(pack(Mass.of(3, "kg")))).answer(EMPTY)
    assert isinstance(unpriced, Worked)
    assert any("left out the postage" in said.show() for said in unpriced.assumed)


def test_packs_without_a_price_take_the_price_by_weight() -> None:
    # 3 boxes of 10 kg at 4.20 a kilo; with 10 % off 126 × 0.9
    loose = packs(pack(Mass.of(1, "kg"), "4.20"))
    boxes = packs(pack(Mass.of(10, "kg")))
    question = BuyingQuestion(need=Mass.of(27, "kg"), packs=boxes, loose=loose)
    assert number(question.answer(EMPTY), "cost") == 126
    assert number(replace(question, off=Percent(D(10))).answer(EMPTY), "cost") == D("113.4")
    assert number(replace(question, packs=None).answer(EMPTY), "cost") == D("113.4")


@pytest.mark.parametrize(
    ("question", "way_out"),
    [
        (BuyingQuestion(need=Mass.of(9), count=3, candle=Mass.of(4), packs=KILOS), "Leave one"),
        (BuyingQuestion(need=Mass.of(9), have=Volume.of(4, "ml"), packs=KILOS), "both by weight"),
        (BuyingQuestion(need=Mass.of(9), off=Percent(D(100)), packs=KILOS), "such as 10 %"),
        (BuyingQuestion(need=Mass.of(9), loose=packs(pack(Mass.of(5)))), "one weight and its price"),
    ],
)
def test_what_does_not_go_together(question: BuyingQuestion, way_out: str) -> None:
    answer = ask.answer(question, EMPTY)
    assert isinstance(answer, NotUnderstood)
    assert way_out in answer.headline.show()
