"""Lists in one option: names before or after, quotes, bounds."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.compounds import Additives, Fill, Fills, Masses, Packs, Parts
from core.errors import OutOfRange, Unreadable, WrongKind
from core.reading.values import read_value
from core.units import Mass


def names(value: Masses | Parts | Additives) -> list[str]:
    return [name for name, _ in value.items]


def test_names_before_and_after() -> None:
    assert names(read_value(Masses, "soy 450 g, coconut 100 g")) == ["soy", "coconut"]
    assert names(read_value(Masses, "450 g soy + 100 g coconut")) == ["soy", "coconut"]
    assert names(read_value(Parts, "60/40 vanilla/rose")) == ["vanilla", "rose"]
    assert names(read_value(Additives, "dye 0.1%, UV 0.3%")) == ["dye", "UV"]
    assert names(read_value(Masses, '450 g "type 123"')) == ["type 123"]
    assert names(read_value(Parts, "soy wax A 70, soy wax B 30")) == ["soy wax A", "soy wax B"]
    assert names(read_value(Parts, "70 soy wax A and 30 of a coconut")) == ["soy wax A", "coconut"]


def test_a_composite_is_one_weight_and_times_is_several() -> None:
    assert read_value(Masses, "1 lb, 4 oz").total == Mass.of(20, "oz")
    assert len(read_value(Masses, "3 x 250 g").items) == 3


def test_one_unit_at_the_end_is_that_of_all() -> None:
    assert [mass.base for _, mass in read_value(Masses, "201, 199.5, 198.55; 203 and 180 g").items] == [
        *(Decimal(201), Decimal("199.5"), Decimal("198.55"), Decimal(203), Decimal(180))
    ]
    assert read_value(Masses, "8, 8.1, 7.9 oz").total == Mass.of(24, "oz")
    # A count stays a count.
    assert len(read_value(Masses, "3 x 250 g").items) == 3
    assert read_value(Masses, "2 x 100 g, 3 x 50 g").total == Mass.of(350)
    for text in ("12, 13, 14", "12, 13, 14 ml"):
        with pytest.raises((OutOfRange, Unreadable, WrongKind)):
            read_value(Masses, text)


def test_bare_numbers_are_asked_for_their_unit() -> None:
    with pytest.raises(WrongKind, match="Which unit"):
        read_value(Masses, "201, 199, 200.5")


def test_vessels() -> None:
    assert read_value(Fills, "8 @ 90 g, 4 @ 310 g") == Fills((Fill(8, Mass.of(90, "g")), Fill(4, Mass.of(310, "g"))))
    assert read_value(Fills, "a dozen amber tins").items[0].count == 12
    assert read_value(Fills, "12 x amber tin").items[0].vessel == "amber tin"
    assert read_value(Fills, "12") == read_value(Fills, "12 x") == Fills((Fill(12),))
    assert read_value(Fills, "amber tin") == Fills((Fill(1, vessel="amber tin"),))


def test_packs_with_prices() -> None:
    packs = read_value(Packs, "2 kg 18 eur, 5 kg 39 eur").items
    assert [(pack.size.base, pack.price.base, pack.price.unit) for pack in packs] == [
        (Decimal(2000), Decimal(18), "eur"),
        (Decimal(5000), Decimal(39), "eur"),
    ]
    assert read_value(Packs, "1kg/€12").items[0].price.unit == "eur"


@pytest.mark.parametrize(
    ("kind", "text", "error"),
    [
        (Masses, "350 ml", WrongKind),
        (Masses, "none", Unreadable),
        (Masses, "2000 x 5 g", OutOfRange),
        (Parts, "60 g/40 %", Unreadable),
        (Parts, "60 + 0", OutOfRange),
        (Additives, "dye 5 g", WrongKind),
        (Additives, "dye 150 %", OutOfRange),
        (Fills, "6 x 90 g, 12", Unreadable),
        (Fills, "12, 6 x 90 g", Unreadable),
        (Fills, "12 x 8 %", WrongKind),
        (Fills, "2000000 x 200 g", OutOfRange),
        (Packs, "0 kg 5 eur", OutOfRange),
    ],
)
def test_refused(kind: type, text: str, error: type[Exception]) -> None:
    with pytest.raises(error):
        read_value(kind, text)


def test_a_long_list_is_read_to_its_end() -> None:
    assert read_value(Fills, "2x3g," * 200).count == 400
    assert len(read_value(Fills, "12 x 1 lb 4 oz, " * 200).items) == 200
    assert read_value(Masses, "3 g, " * 700).total == Mass.of(2100)
    assert len(read_value(Masses, "400 x 3 g, 400 x 4 g").items) == 800


@pytest.mark.parametrize(
    ("kind", "text", "says"),
    [
        (Fills, "2x3g," * 401, "up to 800 numbers"),
        (Masses, "3 g, " * 801, "up to 800 numbers"),
        (Masses, "600 x 3 g, 600 x 4 g", "at most 1,000 weights"),
        (Masses, "3 g, " * 1001, "under 5,000 characters"),
        (Additives, "dye 0.1%, " * 501, "under 5,000 characters"),
        (Mass, "3 g " * 251, "under 1,000 characters"),
    ],
)
def test_a_list_too_long_is_refused_not_cut(kind: type, text: str, says: str) -> None:
    with pytest.raises(OutOfRange, match=says):
        read_value(kind, text)
