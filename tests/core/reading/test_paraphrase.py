"""The same question said in many ways gives the same result: units, spelling, order, filler."""

from __future__ import annotations

from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from core.units import Mass
from tests.core.reading.asked import answered, result

GRAMS = st.integers(50, 5000)
PERCENTS = st.integers(2, 20)
WAX = st.sampled_from(["wax", "soy wax", "soy", "paraffin", "beeswax", "coconut wax", "Wax", "melted wax", "parafin"])
OIL = st.sampled_from(["fragrance", "fragrance oil", "FO", "scent", "perfume oil", "fragrence", "oil"])
HELLO = st.sampled_from(["", "hi! ", "pls help: ", "hello all, newbie here. ", "so im in the kitchen and "])
BYE = st.sampled_from(["", " thanks", "?", "??", " please", " thx :)"])
PERCENT_WORD = st.sampled_from(["%", " %", " percent", " pct", "prcnt", " per cent"])
GRAM_WORD = st.sampled_from(["g", " g", " grams", " gms", "gr", " grammes"])
POUND_WORD = st.sampled_from(["lb", " lb", " lbs", " pounds"])

ORDERS = st.sampled_from(
    [
        "{hello}how much {oil} for {weight} of {wax} at {load}{bye}",
        "{hello}{weight} {wax}, {load} {oil}{bye}",
        "{hello}{load} {oil} in {weight} of {wax}{bye}",
        "{hello}i have {weight} of {wax} and want {load}. how much {oil}{bye}",
        "{hello}wax: {weight}, load: {load}{bye}",
        "{hello}my {wax} weighs {weight} and the load is {load}{bye}",
        "{hello}need {load} of {weight} {wax}{bye}",
    ]
)


@settings(max_examples=150)
@given(ORDERS, GRAMS, PERCENTS, WAX, OIL, HELLO, BYE, PERCENT_WORD, GRAM_WORD)
def test_fragrance_for_wax(
    order: str, grams: int, load: int, wax: str, oil: str, hello: str, bye: str, percent: str, unit: str
) -> None:
    text = order.format(hello=hello, bye=bye, oil=oil, wax=wax, weight=f"{grams}{unit}", load=f"{load}{percent}")
    assert result(text, "fragrance") == Decimal(grams) * load / 100, text


@given(ORDERS, st.integers(1, 40), PERCENTS, WAX, POUND_WORD)
def test_the_unit_makes_no_difference(order: str, pounds: int, load: int, wax: str, unit: str) -> None:
    said = {"hello": "", "bye": "", "oil": "fragrance", "wax": wax, "load": f"{load} %"}
    in_pounds = result(order.format(weight=f"{pounds}{unit}", **said), "fragrance")
    grams = Mass.of(pounds, "lb").base
    in_grams = result(order.format(weight=f"{grams} g", **said), "fragrance")
    assert abs(in_pounds - in_grams) < Decimal("1e-20")


@given(
    st.sampled_from(
        [
            "{o} g {oil} in {w} g {wax}, what load?",
            "what percent is {o} g of {oil} in {w} g of {wax}",
            "{wax} {w} g, {oil} {o} g. load?",
            "i put {o} g {oil} into {w} g {wax}. percentage?",
            "{oil} = {o} g, {wax} = {w} g, % = ?",
        ]
    ),
    GRAMS,
    st.integers(1, 20),
    st.sampled_from(["wax", "soy", "paraffin wax"]),
    st.sampled_from(["fragrance", "oil", "scent", "FO"]),
)
def test_load_from_weights(order: str, wax: int, percent: int, wax_word: str, oil_word: str) -> None:
    oil = Decimal(wax) * percent / 100
    text = order.format(w=wax, o=oil, wax=wax_word, oil=oil_word)
    assert abs(result(text, "load") - percent) < Decimal("1e-20"), text


@given(
    st.sampled_from(
        [
            "{v} ml of {stuff}, how many grams",
            "how heavy is {v} ml {stuff}",
            "what does {v} ml of {stuff} weigh",
            "{v} ml {stuff} at {p} %",
            "{v}ml {stuff} in g",
        ]
    ),
    st.integers(1, 5000),
    st.sampled_from(["wax", "soy wax", "fragrance oil", "FO", "melted paraffin", "wax flakes"]),
    PERCENTS,
)
def test_no_wording_gets_a_weight_from_a_volume_alone(order: str, volume: int, stuff: str, percent: int) -> None:
    answer = answered(order.format(v=volume, stuff=stuff, p=percent))
    assert answer.kind != "worked"
    assert not any(isinstance(figure.value, Mass) for figure in answer.results)


@given(st.integers(2, 40), st.integers(20, 500), PERCENTS, st.sampled_from(["jars", "tins", "candles", "votives"]))
def test_so_many_vessels(count: int, grams: int, load: int, vessel: str) -> None:
    wanted = Decimal(count) * grams
    for order in (
        "{n} {v}, {g} g wax each, {p} %",
        "{n} {v} with {g} g of wax in each at {p} percent",
        "{n} x {g}g wax, {p}% oil",
        "each of my {n} {v} takes {g} g wax, load {p} %",
    ):
        assert result(order.format(n=count, v=vessel, g=grams, p=load), "wax") == wanted
