"""The room of equal weights: V = m ÷ ρ, so the ratio is ρ₁ ÷ ρ₂; worked by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Worked
from core.ask import answer
from core.compounds import Material
from core.questions.room import RoomQuestion
from core.units import Density, Mass
from tests.core.questions.records import EMPTY, SHELF, needs, number, words

D = Decimal


def test_room_and_ratio() -> None:
    found = RoomQuestion(mass=Mass.of(480), first=Density.of("0.8"), second=Density.of("0.96")).answer(EMPTY)
    assert (number(found, "volume_1"), number(found, "volume_2")) == (600, 500)
    assert "16.67 % less room" in found.headline.show()


def test_wax_that_melts() -> None:
    # paraffin 0.90 solid and 0.77 molten: 16.9 % more room (computed from published bands)
    found = RoomQuestion(first=Density.of("0.90"), second=Density.of("0.77")).answer(EMPTY)
    assert round(number(found, "ratio"), 3) == D("1.169")
    assert "16.88 % more room" in found.headline.show()
    assert {each.what for each in found.results} == {"ratio"}


def test_equal_densities() -> None:
    assert "the same room" in RoomQuestion(first=Density.of(1), second=Density.of(1)).answer(EMPTY).headline.show()


def test_recorded_and_published_densities_say_where_they_come_from() -> None:
    found = RoomQuestion(first_material=Material("barn soy"), second_material=Material("water")).answer(SHELF)
    assert isinstance(found, Worked)
    assert [each.origin.value for each in found.given] == ["recorded", "published"]
    assert "barn soy" in words(found)


def test_what_is_lacking() -> None:
    ask = RoomQuestion(mass=Mass.of(5), first_material=Material("soy wax"), second_material=Material("barn"))
    found = ask.answer(SHELF)
    assert needs(found) == ["density_of_wax", "density_of_material"]
    assert "Barn soy" in words(found)


@pytest.mark.parametrize(
    "ask",
    [
        RoomQuestion(mass=Mass.of(0), first=Density.of(1), second=Density.of(1)),
        RoomQuestion(first=Density.of(0), second=Density.of(1)),
        RoomQuestion(first=Density.of(1), second=Density.of(900)),
    ],
)
def test_the_impossible_becomes_a_sentence(ask: RoomQuestion) -> None:
    assert answer(ask, EMPTY).kind == "not_understood"


DENSITIES = st.decimals(min_value="0.5", max_value="2", places=3).map(Density)


@given(st.decimals(min_value=1, max_value=10000, places=1).map(Mass), DENSITIES, DENSITIES)
def test_swapping_the_two_turns_the_ratio_over(mass: Mass, one: Density, other: Density) -> None:
    there = RoomQuestion(mass=mass, first=one, second=other).answer(EMPTY)
    back = RoomQuestion(mass=mass, first=other, second=one).answer(EMPTY)
    assert abs(number(there, "ratio") * number(back, "ratio") - 1) < D("1e-30")
    assert abs(number(there, "volume_1") * one.base - mass.base) < D("1e-25")
