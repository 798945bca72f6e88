"""Amounts in running text: units, places, and what neighbouring numbers make together.

Expected values are written by hand. Unit relations (16 oz = 1 lb, 1000 g = 1 kg): NIST Handbook 44, Appendix C.
"""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.reading.amounts import Amount, amounts, pairs


def shown(amount: Amount) -> str:
    """An amount in one short line: value, range, unit, per, ratio, about."""
    text = f"{amount.value.normalize():f}"
    if amount.high is not None:
        text += f"..{amount.high.normalize():f}"
    text += f" {amount.unit}" if amount.unit else ""
    if amount.per:
        text += f" per {amount.per[0].normalize():f} {amount.per[1]}"
    if amount.ratio:
        text += " " + ":".join(f"{n:f}" for n in amount.ratio)
    return text


def read(text: str) -> list[str]:
    return [shown(amount) for amount in amounts(text)]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        # spellings
        ("450g 450 gms 450gr 450 grammes", ["450 g"] * 4),
        ("2 lb 2 lbs. 2 pounds 2# bag", ["2 lb"] * 4),
        ("3 oz 3ozs 3 oz. 3 ounces", ["3 oz"] * 4),
        ("1 kg 1 kilo 1kgs", ["1 kg"] * 3),
        ("8 fl oz, 8 fl. oz., 8floz, 8 fluid ounces, 8 oz fl", ["8 fl_oz"] * 5),
        ("30 ml 30mls 30 cc 30 cm3 30 cm³ 30 cm^3 30 mils 30 millilitres", ["30 ml"] * 8),
        ("8% 8 % 8 pct 8 per cent 8 percent 8prcnt %8 8٪", ["8 percent"] * 8),
        ("185F 185 °F 185 deg f 185 degrees Fahrenheit 185 farenheit 185℉", ["185 degF"] * 6),
        ("85C 85 °C 85º C 85 celcius 85 degrees centigrade 85℃", ["85 degC"] * 6),
        ("5 grains and 1 troy ounce, 3 drops, 2 tonnes", ["5 grain", "1 oz_t", "3 drop", "2 t"]),
        ("9 inches, 9in, 7 cm, 20mm, 2 ft", ["9 in", "9 in", "7 cm", "20 mm", "2 ft"]),
        # misspelt beyond the table
        ("5 ounzes 3 poundz 20 grahms 1 teaspon 2 killograms", ["5 oz", "3 lb", "20 g", "1 tsp", "2 kg"]),
        # whose measure
        (
            "2 US cups, 1 imperial pint, 2 gallons (US), 3 pints UK",
            ["2 us_cup", "1 imp_pint", "2 us_gallon", "3 imp_pint"],
        ),
        ("10 British fluid ounces, 1 metric cup, 4 U.S. gallons", ["10 imp_fl_oz", "1 metric_cup", "4 us_gallon"]),
        # describing words
        ("1 heaping tablespoon, 1 scant cup, 2 level tsp, 3 more ounces", ["1 tbsp", "1 cup", "2 tsp", "3 oz"]),
        # how it is joined
        ("16-ounce 8-oz 8oz wax=800g", ["16 oz", "8 oz", "8 oz", "800 g"]),
        ("wax500g soy-250g", ["500 g", "250 g"]),
        ("wax kg 0,8 oil (g): 40", ["0.8 kg", "40 g"]),
        ("3x250g 3 × 250 g", ["3", "250 g", "3", "250 g"]),
        ("1 (14.5 ounce) can", ["1", "14.5 oz"]),
        ("100g/3.5oz 16oz/450g 8 ounces (225g)", ["100 g", "3.5 oz", "16 oz", "450 g", "8 oz", "225 g"]),
    ],
)
def test_units(text: str, expected: list[str]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("a pound, half a pound, a quarter pound", ["1 lb", "0.5 lb", "0.25 lb"]),
        ("a pound and a half of wax", ["1.5 lb"]),
        ("a quart and a half, an ounce and a quarter", ["1.5 quart", "1.25 oz"]),
        ("pound and a half", ["1.5 lb"]),
        ("three quarters of an ounce", ["0.75 oz"]),
        ("two and a half pounds", ["2.5 lb"]),
        ("a dozen tins", ["12"]),
        ("about 500 g, ~5 oz, 20 g or so, 300g-ish", ["500 g", "5 oz", "20 g", "300 g"]),
        ("-5 g, minus 5 C, −10 °F", ["-5 g", "-5 degC", "-10 degF"]),
        ("soy wax -500 g", ["-500 g"]),  # a blank before the minus and none behind it
        ("soy wax - 500 g, oil- 40 g, dye-1 g", ["500 g", "40 g", "1 g"]),
        ("- 5 g dye", ["5 g"]),
        ("first line\n-5 g dye", ["5 g"]),
        ("500 g minus 20 g", ["500 g", "20 g"]),
    ],
)
def test_words_and_signs(text: str, expected: list[str]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    ("text", "parts", "total"),
    [
        ("1 lb 4 oz", ((1, "lb"), (4, "oz")), "1.25"),
        ("1lb4oz", ((1, "lb"), (4, "oz")), "1.25"),
        ("1 lb, 4 oz", ((1, "lb"), (4, "oz")), "1.25"),
        ("1 lb. 4 oz.", ((1, "lb"), (4, "oz")), "1.25"),
        ("2 lb and 3 oz", ((2, "lb"), (3, "oz")), "2.1875"),
        ("5 pounds 6 ounces", ((5, "lb"), (6, "oz")), "5.375"),
        ("1 kg 200 g", ((1, "kg"), (200, "g")), "1.2"),
        ("2 pounds and half an ounce", ((2, "lb"), (Decimal("0.5"), "oz")), "2.03125"),
        ("1 gallon 2 quarts 1 pint", ((1, "gallon"), (2, "quart"), (1, "pint")), "1.625"),
    ],
)
def test_composites_total_exactly(text: str, parts: tuple[tuple[Decimal | int, str], ...], total: str) -> None:
    (amount,) = amounts(text)
    assert (amount.value, amount.unit, amount.parts) == (Decimal(total), parts[0][1], parts)
    assert amount.text == text.rstrip(".")


@pytest.mark.parametrize(
    "text",
    [
        "1 lb wax, 4 oz oil",
        "1 lb 20 oz",
        "wax 1 lb, 4 oz oil",
        "1 lb and 4 oz fragrance",
        "4 oz 1 lb",
        "1 lb\n4 oz",
        "1 lb plus 4 oz",
        "1.5 lb 4 oz",
    ],
)
def test_neighbours_that_are_no_composite(text: str) -> None:
    assert [bool(amount.parts) for amount in amounts(text)] == [False, False]


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2-3 cups, 50g-60g, 50–60g, 50 to 60 g", ["2..3 cup", "50..60 g", "50..60 g", "50..60 g"]),
        ("between 5 and 6 %, 8 or 10 oz", ["5..6 percent", "8..10 oz"]),
        ("½-¾ cup, 1 to 1 1/2 lb", ["0.5..0.75 cup", "1..1.5 lb"]),
        ("3- to 4-pound, 5-to-6-pound, 12-15-ounce", ["3..4 lb", "5..6 lb", "12..15 oz"]),
        ("-20 to -10 °C", ["-20..-10 degC"]),
        ("half to three quarters of an ounce", ["0.5..0.75 oz"]),
        ("from 80 to 60 C", ["80 degC", "60 degC"]),
        ("8 and 12 oz jars", ["8 oz", "12 oz"]),
        ("3 - 250 g candles", ["3", "250 g"]),
        ("1-1/2 cups", ["1.5 cup"]),
    ],
)
def test_ranges(text: str, expected: list[str]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("1 oz per lb", ["1 oz per 1 lb"]),
        ("1.5oz/lb", ["1.5 oz per 1 lb"]),
        ("1 oz to the pound", ["1 oz per 1 lb"]),
        ("an ounce a pound", ["1 oz per 1 lb"]),
        ("3 g for every 100 g", ["3 g per 100 g"]),
        ("5g/100g", ["5 g per 100 g"]),
        ("1 oz of fragrance oil per pound of wax", ["1 oz per 1 lb"]),
        ("1-2 oz per lb", ["1..2 oz per 1 lb"]),
        ("0.93 g/ml", ["0.93 g per 1 ml"]),
        ("0.9 kg per litre", ["0.9 kg per 1 l"]),
        ("900 kg/m3", ["900 kg per 1 m3"]),
        ("7.5 lb per US gallon", ["7.5 lb per 1 us_gallon"]),
        ("12 euro a kilo, $3.10 per lb, €12/5kg", ["12 eur per 1 kg", "3.1 usd per 1 lb", "12 eur per 5 kg"]),
        ("30ml oil for 1lb wax", ["30 ml", "1 lb"]),
        ("46g of oil. g per ml?", ["46 g"]),
        ("weigh 500 g to the gram", ["500 g"]),
        ("how much fragrance per pound of wax", ["1 lb"]),
        ("cheaper per kg", []),
    ],
)
def test_rates(text: str, expected: list[str]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("60/40 split", ["60 ratio 60:40"]),
        ("40/60", ["40 ratio 40:60"]),
        ("12:1 by weight", ["12 ratio 12:1"]),
        ("2:1:1", ["2 ratio 2:1:1"]),
        ("10 to 1", ["10 ratio 10:1"]),
        ("50-50 mix", ["50 ratio 50:50"]),
        ("a 1:10 dilution", ["1 ratio 1:10"]),
        ("10 parts wax 1 part oil", ["10 part", "1 part"]),
        ("poured at 10:30", []),
        ("1/2", ["0.5"]),
    ],
)
def test_ratios(text: str, expected: list[str]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("$12, 12 euro, £3.50, 8 quid, 12 bucks, 50p", ["12 usd", "12 eur", "3.5 gbp", "8 gbp", "12 usd", "0.5 gbp"]),
        ("it cost 5 pounds", ["5 gbp"]),
        ("paid 20 pounds for 5 pounds of wax", ["20 gbp", "5 lb"]),
        ("5 pounds of wax cost 20 pounds", ["5 lb", "20 gbp"]),
        ("the price of 3 pounds", ["3 lb"]),
        ("costs five dollars a pound", ["5 usd per 1 lb"]),
        ("200 pounds sterling", ["200 gbp"]),
        ("2 $5 bags", ["2", "5 usd"]),
    ],
)
def test_money_and_weight_told_apart(text: str, expected: list[str]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2 c flour, 2 c. sugar, 1/2 C milk", ["2 cup", "2 cup", "0.5 cup"]),
        ("65C, 20 c, pour at 5 C", ["65 degC", "20 degC", "5 degC"]),
        ("2 T butter, 1 t salt, 10 t of steel", ["2 tbsp", "1 tsp", "10 t"]),
        ("10 °C warmer, cooled by 15 °F, 10 degrees hotter", ["10 delta_degC", "15 delta_degF", "10 delta_deg"]),
        ("heat to 185 degrees", ["185 deg"]),
        ("seat 13F and row 14C", []),
        ("my 5G phone, 5G of dye", ["5", "5 g"]),
        ("3 in tall, put 5 in the pot", ["3 in", "5"]),
        ("8 pc scent, 12 pc set", ["8 percent", "12"]),
    ],
)
def test_letters_by_their_surroundings(text: str, expected: list[str]) -> None:
    assert read(text) == expected


@pytest.mark.parametrize(
    "text",
    [
        "poured 2024-05-01 and 12/05/2024 and 1.5.2024",
        "at 10:30 or 2pm or 2 pm",
        "call 1-800-555-0199 or 555-0142",
        "a QX-12 or V8 with h2o",
        "no. 5, step 3, version 3.10.2",
        "see https://example.org/5kg/8% or www.example.org/8oz",
        "mail a.5g@example.org, <@123456789012345678>, <:wax5g:1234567>",
        "340 m/s² and 30 minutes and 5 stars and 12.8 TeV",
        "few grams, several pounds, a few hundred grams",
        "NaN g, inf oz",
        "a gal, a mil, a part of it, a degree of care",
        "which one is it, that one or the other one",
        "30 miles per gallon",
    ],
)
def test_what_is_no_amount_of_ours(text: str) -> None:
    assert [amount for amount in amounts(text) if amount.unit] == []


def test_figures_inside_names_are_not_even_numbers() -> None:
    assert amounts("a QX-12 or V8 wick, h2o and covid19, no. 5") == []


@pytest.mark.parametrize(
    "text",
    [
        "20 pounds per square inch",
        "5 kg/h",
        "3 gallons per minute",
        "100 lb of thrust",
        "20 lb-ft",
        "2.5 g/m²",
        "10 graham crackers",
        "12 liners",
        "5 points",
        "14 pt font",
        "1 pound cake",
    ],
)
def test_other_measures_are_bare_numbers(text: str) -> None:
    assert {amount.unit for amount in amounts(text)} == {""}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("2-3 cups", [("2", "cup"), ("3", "cup")]),
        ("1lb 4oz", [("1.25", "lb")]),
        ("1 oz per pound", [("1", "oz"), ("1", "lb")]),
        ("density 0.93 g/ml", []),
        ("3 imperial pints, 60/40, $12, 9 cm, 24 jars", [("3", "pint")]),
        ("10 °C warmer", [("10", "degC")]),
        ("how much per pound", []),
    ],
)
def test_pairs(text: str, expected: list[tuple[str, str]]) -> None:
    assert pairs(text) == [(Decimal(value), unit) for value, unit in expected]
