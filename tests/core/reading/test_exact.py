"""Values to text and back, to the last digit: the law that lets a question be written in its slash form."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.compounds import Additives, Basis, Fill, Fills, Load, Masses, Material, Pack, Packs, Parts, UnitName
from core.reading.exact import exact
from core.reading.values import read_value
from core.units import (
    DENSITY_UNITS,
    LENGTH_UNITS,
    MASS_UNITS,
    VOLUME_UNITS,
    Density,
    Length,
    Mass,
    Money,
    Number,
    Percent,
    Temperature,
    TemperatureDifference,
    Volume,
)

NUMBERS = st.decimals("0.000001", "100000", allow_nan=False, places=6) | st.integers(1, 10**6).map(Decimal)
NAMES = st.text(
    st.sampled_from('abcdefgh éüß 0123456789-+,&"\\'), min_size=1, max_size=20
).map(str.strip).filter(lambda name: bool(name) and " ".join(name.split()) == name)  # fmt: skip
NO_NAME = st.just("")
MASSES = st.builds(Mass.of, NUMBERS, st.sampled_from(MASS_UNITS))
VOLUMES = st.builds(Volume.of, NUMBERS, st.sampled_from(VOLUME_UNITS))
PERCENTS = st.builds(Percent, NUMBERS.filter(lambda n: n <= 100))
MONEY = st.builds(Money.of, NUMBERS, st.sampled_from(["usd", "eur", "gbp", "money"]))
COUNTS = st.integers(1, 999)

VALUES: dict[Any, st.SearchStrategy[Any]] = {
    Mass: MASSES,
    Volume: VOLUMES,
    Percent: PERCENTS.filter(lambda p: p.base >= 1),
    Density: st.builds(Density.of, NUMBERS, st.sampled_from(list(DENSITY_UNITS))),
    Temperature: st.builds(Temperature.of, NUMBERS, st.sampled_from(["degC", "degF", "kelvin"])),
    TemperatureDifference: st.builds(TemperatureDifference.of, NUMBERS, st.sampled_from(["delta_degC", "delta_degF"])),
    Length: st.builds(Length.of, NUMBERS, st.sampled_from(LENGTH_UNITS)),
    Money: MONEY,
    Number: st.builds(Number, NUMBERS),
    Load: st.builds(Load, PERCENTS.filter(lambda p: p.base >= 1), st.sampled_from([None, *Basis])),
    Masses: st.builds(
        lambda items: Masses(tuple(items)), st.lists(st.tuples(NAMES | NO_NAME, MASSES), min_size=1, max_size=4)
    ),
    Parts: st.builds(
        lambda items: Parts(tuple(items)), st.lists(st.tuples(NAMES | NO_NAME, NUMBERS), min_size=1, max_size=4)
    ),
    Additives: st.builds(
        lambda items: Additives(tuple(items)), st.lists(st.tuples(NAMES, PERCENTS), min_size=1, max_size=3)
    ),
    Fills: st.builds(
        lambda items: Fills(tuple(items)),
        st.lists(
            st.builds(Fill, COUNTS, weight=MASSES)
            | st.builds(Fill, COUNTS, volume=VOLUMES)
            | st.builds(Fill, COUNTS, vessel=NAMES),
            min_size=1,
            max_size=3,
        ),
    ),
    Packs: st.builds(
        lambda items: Packs(tuple(items)),
        st.lists(st.builds(Pack, MASSES | VOLUMES, st.none() | MONEY, NAMES | NO_NAME), min_size=1, max_size=3),
    ),
    int: st.integers(0, 10**6),
    bool: st.booleans(),
    Basis: st.sampled_from(Basis),
    Material: NAMES.map(Material),
    UnitName: st.sampled_from([*MASS_UNITS, *VOLUME_UNITS]).map(UnitName),
}


@pytest.mark.parametrize("kind", VALUES, ids=lambda kind: kind.__name__)
def test_exact_reads_back_to_the_same_value(kind: Any) -> None:
    @given(VALUES[kind])
    def law(value: Any) -> None:
        assert read_value(kind, exact(value)) == value

    law()


def test_units_are_kept_where_no_digit_is_lost() -> None:
    assert exact(Mass.of(20, "oz").in_unit("lb_oz")) == "1 lb 4 oz"
    assert exact(Mass.of("2.5", "kg")) == "2.5 kg"
    assert exact(Volume.of(1, "imp_fl_oz")) == "1 imperial fl oz"
    assert exact(Load.rate(Mass.of(1, "oz"), Mass.of(1, "lb"), "1 oz per lb")) == "1 oz per lb"


def test_packs_counted_in_pieces() -> None:
    packs = Packs((Pack(Number(Decimal(50)), Money.of(12, "eur")), Pack(Number(Decimal(200)))))
    assert read_value(Packs, exact(packs)) == packs
