"""Divisors in common use, in both systems."""

from decimal import Decimal

import pytest

from core.reference import parcels, table
from core.reference.parcels import Divisor
from core.reference.table import TableError
from core.units import factor


def cm3_per_kg(each: Divisor) -> Decimal:
    centimetres = factor("in", "cm") ** 3 if each.volume == "in3" else Decimal(1)
    return each.value * centimetres / factor(each.weight, "kg")


@pytest.mark.parametrize(
    ("value", "volume", "metric"),
    [
        (139, "in3", "5021.69"),
        (166, "in3", "5997.13"),
        (194, "in3", "7008.69"),
        (6000, "cm3", "6000.00"),
        (5000, "cm3", "5000.00"),
    ],
)
def test_in_metric(value: int, volume: str, metric: str) -> None:
    # an inch is 2.54 cm (16 CFR 500.19), a pound 453.59237 g: 139 in³/lb = 5021.69 cm³/kg, and so on
    (found,) = [each for each in parcels.common_divisors() if (each.value, each.volume) == (value, volume)]
    assert round(cm3_per_kg(found), 2) == Decimal(metric)


def test_the_air_freight_figures_are_one_rule() -> None:
    # air freight explainers: 6000 cm³/kg = 366 in³/kg = 166 in³/lb
    air = [cm3_per_kg(each) for each in parcels.common_divisors() if each.key.startswith("air freight")]
    assert len(air) == 3
    assert all(abs(each / 6000 - 1) < Decimal("0.001") for each in air)


def test_every_divisor_has_a_source_and_its_own_key() -> None:
    found = parcels.common_divisors()
    assert all(each.source and each.status for each in found)
    assert len({each.key for each in found}) == len(found)


def test_an_unknown_unit_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    text = table.text_of("parcels").replace('volume = "in3"', 'volume = "ft3"', 1)
    monkeypatch.setattr(table, "text_of", lambda _name: text)
    parcels.common_divisors.cache_clear()
    with pytest.raises(TableError, match="ft3 per kg"):
        parcels.common_divisors()
    parcels.common_divisors.cache_clear()
