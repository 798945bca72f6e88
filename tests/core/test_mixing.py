"""The arithmetic of a mix, by its laws; the figures are worked by hand from F = w·p and F = w·p/(1 − p)."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.compounds import Additives, Basis, Load, Masses, Parts
from core.mixing import Mix, Recipe, shares
from core.units import Mass, Percent

D = Decimal
TINY = D("1e-28")  # of 40 digits, a part of a ten-thousandth leaves 32
WEIGHTS = st.decimals(min_value="0.01", max_value="100000", places=3).map(Mass)
LOADS = st.decimals(min_value="0.01", max_value="24.9", places=2).map(Percent)
BASES = st.sampled_from(Basis)
ADDITIVES = st.lists(st.decimals(min_value="0.01", max_value="5", places=2), max_size=3).map(
    lambda percents: Additives(tuple((f"additive {i}", Percent(p)) for i, p in enumerate(percents)))
)


def near(one: Decimal, other: Decimal) -> bool:
    return abs(one - other) <= max(abs(one), abs(other), D(1)) * TINY


@pytest.mark.parametrize(
    ("basis", "fragrance"),
    [(Basis.WAX, "46.5"), (Basis.TOTAL, Fraction(620 * 75, 925))],
)
def test_620_g_at_7_5_percent(basis: Basis, fragrance: str | Fraction) -> None:
    found = Recipe(Percent(D("7.5")), basis).of_wax(Mass.of(620)).fragrance
    assert abs(Fraction(found.base) - Fraction(fragrance)) < Fraction(1, 10**30)


def test_1_oz_per_pound_is_6_25_percent() -> None:
    load = Load.rate(Mass.of(1, "oz"), Mass.of(1, "lb"), "1 oz per lb")
    assert load.percent.base == D("6.25")
    assert load.basis is Basis.WAX


@given(WEIGHTS, LOADS, BASES, ADDITIVES)
def test_a_split_adds_up_to_the_last_digit(total: Mass, load: Percent, basis: Basis, additives: Additives) -> None:
    mix = Recipe(load, basis, additives).of_total(total)
    assert mix.total.base == total.base
    assert min(mix.wax.base, mix.fragrance.base, *(m.base for _, m in mix.additives)) > 0


@given(WEIGHTS, LOADS, BASES, ADDITIVES)
def test_the_load_of_the_fragrance_is_the_load_asked_for(
    wax: Mass, load: Percent, basis: Basis, additives: Additives
) -> None:
    mix = Recipe(load, basis, additives).of_wax(wax)
    assert near((mix.load_of_wax if basis is Basis.WAX else mix.load_of_total).base, load.base)


@given(WEIGHTS, LOADS, BASES, ADDITIVES)
def test_wax_fragrance_and_total_give_the_same_mix(
    wax: Mass, load: Percent, basis: Basis, additives: Additives
) -> None:
    recipe = Recipe(load, basis, additives)
    mix = recipe.of_wax(wax)
    for again in (recipe.of_fragrance(mix.fragrance), recipe.of_total(mix.total)):
        assert near(again.wax.base, wax.base)
        assert near(again.fragrance.base, mix.fragrance.base)


@given(LOADS)
def test_the_two_bases_convert_into_each_other(load: Percent) -> None:
    # p of the wax is p/(1 + p) of the total, and back p/(1 − p)
    of_wax = Recipe(load, Basis.WAX).of_wax(Mass.of(100))
    back = Recipe(of_wax.load_of_total, Basis.TOTAL).of_wax(Mass.of(100))
    assert near(of_wax.load_of_total.base, load.base / (100 + load.base) * 100)
    assert near(back.fragrance.base, of_wax.fragrance.base)


@given(WEIGHTS, LOADS, st.decimals(min_value=25, max_value=100, places=1).map(Percent), BASES)
def test_a_diluted_oil_carries_the_load_in_its_fragrance_alone(
    wax: Mass, load: Percent, strength: Percent, basis: Basis
) -> None:
    mix = Recipe(load, basis, strength=strength).of_wax(wax)
    of = wax if basis is Basis.WAX else mix.total
    assert near(mix.fragrance.base * strength.fraction / of.base * 100, load.base)


def test_no_amount_of_a_weak_oil_reaches_a_strong_load() -> None:
    assert not Recipe(Percent(D(10)), Basis.TOTAL, strength=Percent(D(10))).possible
    assert Recipe(Percent(D(10)), Basis.WAX, strength=Percent(D(10))).possible


@given(WEIGHTS, st.lists(st.decimals(min_value="0.1", max_value="100", places=1), min_size=1, max_size=12))
def test_shares_add_up_to_the_last_digit_and_keep_the_proportion(total: Mass, parts: list[Decimal]) -> None:
    out = shares(total, tuple((str(i), part) for i, part in enumerate(parts)))
    assert sum((mass.base for _, mass in out), D(0)) == total.base
    whole = sum(parts)
    assert all(near(mass.base * whole, total.base * part) for (_, mass), part in zip(out, parts, strict=True))


def test_weights_and_parts_add_up() -> None:
    masses = Masses((("soy", Mass.of(1, "lb")), ("coconut", Mass.of(50))))
    assert (masses.total.base, masses.total.unit) == (D("503.59237"), "lb")
    assert Parts((("a", D(60)), ("b", D(40)))).total == 100
    assert Additives((("dye", Percent(D("0.1"))), ("uv", Percent(D("0.3"))))).fraction == D("0.004")
    assert Mix(Mass.of(100), Mass.of(8), (("dye", Mass.of(1)),)).total.base == 109
    assert Basis.WAX.other is Basis.TOTAL
    assert Basis.TOTAL.other is Basis.WAX


def test_an_additive_is_never_taken_for_the_wax_or_another_one() -> None:
    names = ("wax", "Total", "wax 2", "dye", "DYE", "", "wax hardener", "fragrance oil", "")
    additives = Additives(tuple((name, Percent(D(1))) for name in names))
    mix = Recipe(Percent(D(8)), Basis.WAX, additives).of_wax(Mass(D(1000)))
    assert [name for name, _ in mix.additives] == [
        *("wax (additive)", "Total (additive)", "wax 2 (additive)", "dye", "DYE 2", "additive", "wax hardener"),
        *("fragrance oil (additive)", "additive 2"),
    ]
    assert [name for name, _ in Recipe(Percent(D(8)), Basis.TOTAL, additives).of_total(Mass(D(1000))).additives] == [
        name for name, _ in mix.additives
    ]
