"""Prices, packs and what there is to spend, in plain words. The sums beside the rows are done by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.answer import Worked
from core.units import Money
from tests.core.reading.asked import answered, result

D = Decimal


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        # sold loose, by weight: 15 ÷ 7 kg, 45 ÷ 8.40 kg, 30 ÷ 4.25 lb of 453.59237 g
        ("wax 7 a kilo, what can i get for 15 euro", "amount", "2142.857"),
        ("i've got £45, soy is 8.40 per kg. how much wax is that", "amount", "5357.143"),
        ("Soy costs $4.25/lb. How many pounds can I buy with $30?", "amount", "3201.829"),
        # whole packs for the money: 4 × 23 = 92 of 100; 3 × 24 = 72 of 75; 2 × 21 = 42 of 60
        ("5 kg sacks cost 23 eur. budget 100 eur. how many", "money_left", "8"),
        ("budget of $75, 10 lb boxes at $24 each - how many boxes and how much change", "money_left", "3"),
        ("my nan gave me 60 euro to spend. a 5 kg bag is 21 euro, how many can i get", "packs", "2"),
        # a price by weight, but whole packs: 3 × 25 kg at 3.80; 4 × 10 lb at 3.10
        ("price 3,80 EUR/kg, sack 25 kg, brauche 60 kg", "cost", "285"),
        ("wax is $3.10 a lb, only in 10 lb cases. i need 34 lb, total?", "cost", "124"),
        # less what is there: 8.5 kg of 5 kg bags; 5.5 kg of 1 kg; 3600 − 1200 g; 2 lb = 32 oz of 12 oz
        ("need 12 kg of wax but already got 3.5 kg, bags 5 kg", "packs", "2"),
        ("we've 2 kg left and need 7.5 kg, sold in 1 kg slabs", "packs", "6"),
        ("i have 1.2 kg wax at home, 40 candles need 90 g each, bags of 1 kg how many to buy", "packs", "3"),
        ("recipe takes 3 lb, I own 1 lb already. 12 oz blocks. how many blocks", "packs", "3"),
        ("need 3 kg, I have 5 kg, bags of 1 kg", "packs", "0"),
        # so many candles, the extra on top: 80 × 120 × 1.05 = 10080 g of 4 kg sacks; 18 × 150 = 2700 g
        ("80 candles at 120 g wax, 5% spare, sacks of 4 kg, how many sacks", "packs", "3"),
        ("18 students each make a 150 g candle, wax in 1 kg bags, how many bags", "packs", "3"),
        # a discount: 60 × 0.8 ÷ 45 lb = 1.0667; 3 × 50 × 0.85
        ("20% off a $60 case of 45 lb, price per lb", "cost_per_lb", "1.0667"),
        ("sack 20 kg was 50 euro now 15% off. i need 55 kg, what do i pay", "cost", "127.5"),
        # the price of one of a unit: 66 ÷ 22; 70 ÷ 20; 49 ÷ 5
        ("22 lb is $66, what's that a pound", "cost_per_lb", "3"),
        ("20 kg box 70 quid. per kilo?", "cost_per_kg", "3.5"),
        ("1 kg 12 eur, 5 kg 49 eur, per kilo?", "cost_per_kg", "9.8"),
        # what is used of it: 180 g × 9 % = 16.2 g at 80 a kilo; 45 × 210 g at 6.20 a kilo
        ("oil is 80 euro a kilo. 9% in 180 g wax, what does the oil cost in one candle", "cost_total", "1.296"),
        # 200 g at 8 a kilo + 16 g at 50 a kilo; 180 g at 6 + 12.6 g at 45
        (
            "I poured 12 jars with 200 g each, I paid 8 euro/kg for wax, 50 euro/kg for oil at 8%. cost per candle",
            "cost_per_candle",
            "2.4",
        ),
        ("40 jars 180 g wax, 7%. wax 6 eur/kg, oil 45 eur/kg. what does one cost", "cost_per_candle", "1.647"),
        ("wax 6.20 a kilo. 45 candles with 210 g wax each, what does the wax cost", "cost_total", "58.59"),
    ],
)
def test_what_it_comes_to(text: str, what: str, value: str) -> None:
    assert float(result(text, what)) == pytest.approx(float(value), rel=1e-4)


def test_bags_of_wax_and_bottles_of_oil_in_one_order() -> None:
    # 50 × 200 g = 10 kg of wax: 2 sacks of 5 kg; 6 % of it is 600 g: 2 bottles of 500 g
    text = "50 jars 200 g wax and 6% oil. wax in 5 kg sacks, oil in 500 g bottles. how many of each"
    packs = [each.value.base for order in answered(text).then for each in order.results if each.what == "packs"]
    assert packs == [D(2), D(2)]


@pytest.mark.parametrize(
    "text",
    [
        "with 50 pounds how many 2kg bags at 11.50 a bag",  # pounds of money, or of wax?
        "price went up 10% from 20 euro for 5 kg, per kilo?",
        "each bag costs 12 euro and has 2 kg, i need 9 kg and have a 10 euro voucher",
        "my friend has 2 kg of wax, i need 5 kg, bags of 1 kg",  # not the asker's own
        "5 kg bags. we used 2 kg already, how many bags for 12 kg",  # is it still to be covered?
    ],
)
def test_what_is_not_sure_is_asked(text: str) -> None:
    assert not isinstance(answered(text), Worked)


@pytest.mark.parametrize(
    ("text", "what", "value"),
    [
        ("I get 10% discount on oil, 8% load in 500 g wax, how much oil", "fragrance", "40"),
        ("I bought a 5 kg sack for 23 euro and put 6% in 500 g, how much oil", "fragrance", "30"),
        ("6% of 900 g wax, wax costs 7 a kilo", "fragrance", "54"),
        ("12 people come, i make 3 kg wax with 8%", "fragrance", "240"),
        ("5 kg wax for 20 euro, how many 200 g candles", "count", "25"),
    ],
)
def test_prices_and_people_beside_another_question(text: str, what: str, value: str) -> None:
    assert result(text, what) == D(value)


def test_a_price_without_a_currency_has_none() -> None:
    cost = next(each.value for each in answered("wax 6.20 a kilo, i need 3 kg. price?").results)
    assert cost == Money(D("18.6"), "money")


@pytest.mark.parametrize(
    ("text", "packs"),
    [
        # 12 × 1.5 = 18 kg of 5 kg; 8 × 200 = 1600 g of 1 kg; 21 × 340 = 7140 g of 5 kg; 4 × 2.3 = 9.2 kg of 3 kg
        ("we use 1.5 kg a day, open 12 days, bags 5 kg. how many bags", 4),
        ("burn 200 g weekly for 8 weeks, sacks 1 kg how many sacks", 2),
        ("340 g wax every day for 3 weeks, sacks of 5kg, how many sacks", 2),
        ("i go through two point three kilos of wax a week, 4 weeks til the fair. boxes are 3 kg. how many boxes", 4),
        ("I need 5 kg by day 12, bags of 2 kg", 3),  # a date is no time to cover
    ],
)
def test_what_is_used_up_over_time(text: str, packs: int) -> None:
    assert result(text, "packs") == packs


@pytest.mark.parametrize(
    "text",
    [
        "two pounds of soy per week for 3 months, 10 lb boxes, how many",  # months are not whole weeks
        "we use 1.5 kg a day, bags 5 kg. how many bags",  # for how long?
    ],
)
def test_a_time_that_is_not_told_is_asked(text: str) -> None:
    assert not isinstance(answered(text), Worked)
