"""Prices by weight without a currency ("8.40 a kilo"), where money is spoken of; and percents that are discounts."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.reading.marks import Mark, Measured
from core.reading.measuring import measured_from
from core.units import Mass, kind_of

_ONE = Decimal(1)
_PER = frozenset({"a", "an", "per", "each", "every", "the", "one"})
_PRICING = frozenset({"price", "buy"})


def bare_prices(marks: list[Mark], found: list[Measured]) -> None:
    """Give such figures the currency spoken of; the "kilo" they are the price of is then no weight of anything."""
    currencies = [m.amount.unit for m in found if m.kind == "money"]
    if not currencies and not any(mark.tags & _PRICING for mark in marks) and not _asks_how_much_for(marks):
        return
    currency = currencies[0] if currencies else "money"
    for i, mark in enumerate(marks[:-2]):
        m = mark.measured
        the = marks[i + 1].text == "the" and marks[i + 2].kind == "unit" and kind_of(marks[i + 2].unit) is Mass
        if m is not None and m.kind == "money" and m.amount.per is None and the:
            _take_for_price(m, m.amount.unit, (_ONE, marks[i + 2].unit))  # "6.25 euro the kilo"
            marks[i + 2].kind, marks[i + 2].unit = "word", ""
    for i, mark in enumerate(marks):
        m = mark.measured
        if m is None or m.amount.unit or m.amount.high is not None or m.amount.ratio or m.amount.value <= 0:
            continue
        if m.kind == "rate" and m.amount.per is not None and kind_of(m.amount.per[1]) is Mass:
            _take_for_price(m, currency, m.amount.per)
        elif m.kind == "number" and i + 1 < len(marks) and (after := _one_of_a_unit(marks[i + 1])) is not None:
            _take_for_price(m, currency, (_ONE, after.amount.unit))
            found.remove(after)
            marks[i + 1].kind, marks[i + 1].measured = "word", None


def _asks_how_much_for(marks: list[Mark]) -> bool:
    """ "8.40 a kilo, how much for 3.5 kg": figures to the cent are prices."""
    cents = any(mark.measured is not None and mark.measured.amount.text[-3:-2] in (".", ",") for mark in marks)
    asked = any(one.text == "how much" and two.text in ("for", "is", "are") for one, two in itertools.pairwise(marks))
    return cents and asked


def _one_of_a_unit(mark: Mark) -> Measured | None:
    """ "A kilo", "the pound"."""
    m = mark.measured
    named = m is not None and m.kind == "mass" and m.amount.value == 1 and m.amount.text.partition(" ")[0] in _PER
    return m if named else None


def _take_for_price(m: Measured, currency: str, per: tuple[Decimal, str]) -> None:
    fresh = measured_from(dataclasses.replace(m.amount, unit=currency, per=per), m.at)
    m.amount, m.kind, m.value = fresh.amount, fresh.kind, fresh.value


_REDUCTION = frozenset({"discount", "rebate", "reduction", "voucher", "cheaper", "sale", "vat", "tax"})


def discounts(marks: list[Mark], found: list[Measured]) -> None:
    """ "10 % off", "a discount of 15 %": a percent of a price is no load."""
    money = any(m.kind == "money" for m in found)
    for m in found:
        if m.kind != "percent":
            continue
        after = [mark.text for mark in marks[m.at + 1 : m.at + 3]]
        before = [mark.text for mark in marks[max(0, m.at - 3) : m.at]]
        said = not _REDUCTION.isdisjoint(after) or (not _REDUCTION.isdisjoint(before) and before[-1] in _LEADING)
        if said or (money and (after[:1] == ["off"] or "reduced" in before)):
            m.kind = "discount"


_LEADING = frozenset({"of", "is", "by", "discount", "at", ":", "get", "a"})
