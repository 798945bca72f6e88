"""What each amount is of: the nearest noun, either side, shared out over all amounts at once."""

from __future__ import annotations

import pytest

from core.reading.marks import Scan
from core.reading.roles import assign
from core.reading.scan import scan


def marked(text: str) -> Scan:
    scanned = scan(text)
    assign(scanned)
    return scanned


@pytest.mark.parametrize(
    ("text", "of"),
    [
        ("500 g wax 30 g fragrance", ["wax", "fragrance"]),
        ("wax 320 grams fragrance 24 grams percent", ["wax", "fragrance"]),
        ("fragrance 25g + wax 225g", ["fragrance", "wax"]),
        ("wax=800g load=0.08", ["wax", "load"]),
        ("30g in 470g of wax", ["fragrance", "wax"]),
        ("how much oil for 300 g at 5%", ["", ""]),
        ("to scent 2.2 kg of wax at 7 percent", ["wax", ""]),
        ("my jar holds 250 g of water", ["water"]),
        ("a dozen tins holding 4 oz by weight of wax each", ["jar", "wax"]),
        ("jar 9oz, wax and oil 8 oz, lid 1.2 oz, 14oz packing", ["jar", "total", "lid", "box"]),
        ("500 g of wax and oil", ["total"]),
        ("500 g wax and 40 g oil", ["wax", "fragrance"]),
        ("Got 900g in the pot", [""]),
        ("scented wax 800 g", ["total"]),
        ("I melt 3 lb today", [""]),
        ("1.75oz dye chips", ["dye"]),
        ("a 50 g bottle of oil", ["bottle"]),
        ("put 40g to 640g wax", ["fragrance", "wax"]),
    ],
)
def test_of(text: str, of: list[str]) -> None:
    assert [m.of for m in marked(text).found] == of


@pytest.mark.parametrize(
    ("text", "flag", "which"),
    [
        ("55 grams each and 7%", "each", 0),
        ("jar empty 212 g, full of water 470 g", "full", 1),
        ("jar empty 212 g, full of water 470 g", "empty", 0),
        ("supplier says max 10% but i want 6%", "limit", 0),
        ("8 % oil plus 5 % extra for spillage", "spare", 1),
        ("poured 52 g instead of 36 g", "meant", 1),
    ],
)
def test_flags(text: str, flag: str, which: int) -> None:
    found = marked(text).found
    assert flag in found[which].flags
    assert all(flag not in m.flags for i, m in enumerate(found) if i != which)


def test_thousands_with_a_point_are_meant_for_wax_alone() -> None:
    assert marked("wax 1.200 g bitte").found[0].value == marked("wax 1200 g").found[0].value
    assert marked("dye 1.200 g").found[0].amount.value < 2


def test_one_unit_goes_with_all_the_numbers() -> None:
    assert [m.kind for m in marked("soy 450; paraffin 150 (grams)").found] == ["mass", "mass"]
    assert [m.kind for m in marked("jars hold 150, 200 and 250 ml").found] == ["volume"] * 3
