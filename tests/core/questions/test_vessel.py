"""Vessels against ISO 8655-6 (water), integrals of their shape, legal units, and the laws a filling must keep."""

from __future__ import annotations

import math
from dataclasses import replace
from decimal import Decimal

import iapws
import pytest
import scipy.constants
import scipy.integrate
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Choice, Declined, Missing, NotUnderstood, Origin, Worked, results_by_name
from core.book import EmptyBook
from core.compounds import Basis, Material, State, VesselName
from core.lessons import lesson
from core.questions.batch import BatchQuestion, FillIs
from core.questions.filled_state import state_words
from core.questions.known_density import Known
from core.questions.vessel import Shape, VesselQuestion
from core.units import Density, Length, Mass, Percent, Temperature, Volume
from tests.core.questions.records import EMPTY, number
from tests.core.questions.workbench import Workbench, load, percent, shown

BOOK = EmptyBook()
WAX = Density.of("0.9")


def figures(question: VesselQuestion) -> dict[str, Decimal]:
    answer = question.answer(Workbench())
    assert isinstance(answer, Worked), answer
    shown(answer)
    return {name: value.base for name, value in results_by_name(answer).items()}


def test_room_from_empty_and_full_weights_by_the_z_factor() -> None:
    # ISO 8655-6:2002 Annex A, 20 °C, 1013 hPa: 1.0029 ml per gram. 402.0 g − 150.0 g = 252.0 g -> 252.7 ml.
    answer = VesselQuestion(full=Mass.of("402.0"), empty=Mass.of("150.0"), at=Temperature.of(20), unit="ml").answer(
        BOOK
    )
    assert isinstance(answer, Worked)
    assert results_by_name(answer)["room"].base == Decimal("252.7308")
    assert answer.headline.show() == "Room for 252.7 ml (8.55 US fl oz)."
    shown(answer)


@pytest.mark.parametrize("celsius", range(15, 31))
def test_room_agrees_with_water_density_and_air_buoyancy(celsius: int) -> None:
    # Reference: water by IAPWS-95 (iapws library). Air of 1.2 and weights of 8000 kg/m³: conventions, from memory.
    water = iapws.IAPWS95(T=celsius + 273.15, P=0.101325).rho
    expected = 250 * (1 - 1.2 / 8000) / (water - 1.2) * 1000
    answer = VesselQuestion(water=Mass.of(250), at=Temperature.of(celsius), unit="ml").answer(BOOK)
    assert float(results_by_name(answer)["room"].base) == pytest.approx(expected, rel=1e-4)


def test_wax_is_the_filled_room_times_the_density() -> None:
    found = figures(VesselQuestion(water=Mass.of(250), at=Temperature.of(20), density=WAX))
    assert found["wax"] == Decimal("250") * Decimal("1.0029") * Decimal("0.9")


def test_printed_fluid_ounces_and_fill_level() -> None:
    # US fluid ounce: scipy.constants. Fill level 80 % of the room.
    found = figures(VesselQuestion(room=Volume.of(8, "fl_oz"), level=percent(80), density=WAX))
    expected = 8 * scipy.constants.fluid_ounce_US * 1e6
    assert float(found["room"]) == pytest.approx(expected, rel=1e-12)
    assert float(found["wax"]) == pytest.approx(expected * 0.8 * 0.9, rel=1e-12)


@pytest.mark.parametrize(
    ("top", "bottom", "height", "free"),
    [(80, 60, 90, 10), (60, 80, 90, 0), (70, 70, 80, 15), (76.2, 55.5, 101.6, 12.7)],
)
def test_round_vessels_against_the_integral_of_their_cross_section(
    top: float, bottom: float, height: float, free: float
) -> None:
    # Reference: scipy.integrate.quad of π/4 · d(h)², a solid of revolution.
    expected, _ = scipy.integrate.quad(
        lambda h: math.pi / 4 * (bottom + (top - bottom) * h / height) ** 2 / 1000, 0, height - free
    )
    found = figures(
        VesselQuestion(
            top_diameter=Length.of(str(top)),
            bottom_diameter=Length.of(str(bottom)),
            height=Length.of(str(height)),
            headspace=Length.of(str(free)) if free else None,
            density=Density.of(1),
        )
    )
    assert float(found["fill_volume"]) == pytest.approx(expected, rel=1e-12)


def test_a_straight_cylinder_is_the_tapered_one_with_equal_ends() -> None:
    height = Length.of(8, "cm")
    straight = figures(VesselQuestion(diameter=Length.of(7, "cm"), height=height, density=WAX))
    width = Length.of(7, "cm")
    tapered = figures(VesselQuestion(top_diameter=width, bottom_diameter=width, height=height, density=WAX))
    assert straight == tapered
    assert float(straight["room"]) == pytest.approx(math.pi / 4 * 7 * 7 * 8, rel=1e-12)


def test_a_box_and_its_walls() -> None:
    inches = figures(
        VesselQuestion(
            length=Length.of(6, "cm"), width=Length.of(6, "cm"), height=Length.of(10, "cm"), density=Density.of("0.96")
        )
    )
    assert inches["wax"] == Decimal("345.6")  # 6 × 6 × 10 cm³, 1 cm³ = 1 ml by definition of the litre (SI)
    walled = figures(
        VesselQuestion(
            shape=Shape.BOX,
            length=Length.of(66),
            width=Length.of(66),
            height=Length.of(103),
            wall=Length.of(3),
            density=Density.of("0.96"),
        )
    )
    assert walled["wax"] == Decimal("345.6")


def test_free_height_above_a_weighed_room() -> None:
    # The disc that stays free: π/4 · 7² · 1 cm³ (elementary geometry).
    found = figures(
        VesselQuestion(
            room=Volume.of(250), headspace=Length.of(1, "cm"), diameter=Length.of(7, "cm"), density=Density.of(1)
        )
    )
    assert float(found["fill_volume"]) == pytest.approx(250 - math.pi / 4 * 49, rel=1e-12)
    straight = figures(
        VesselQuestion(room=Volume.of(250), headspace=Length.of(1, "cm"), height=Length.of(10, "cm"), density=WAX)
    )
    assert straight["fill_volume"] == 225


def test_count_and_load_carry_on() -> None:
    answer = VesselQuestion(
        room=Volume.of(250), density=WAX, count=12, load=load(8, Basis.TOTAL), level=percent(100)
    ).answer(BOOK)
    found = results_by_name(answer)
    assert found["total"].base == 2700
    assert found["total_each"].base == 225
    assert found["fragrance"].base == 216
    assert found["wax"].base == 2484
    shown(answer)


def test_solid_or_molten_is_said_and_the_weight_follows_the_density_given() -> None:
    def words(state: State | None) -> str:
        answer = VesselQuestion(room=Volume.of(250), density=WAX, state=state).answer(BOOK)
        assert results_by_name(answer)["wax"].base == 225
        return shown(answer)

    assert "melted wax, as it is poured" in words(None)
    assert "stands higher" in words(State.SOLID)
    assert "sinks as it sets" in words(State.MOLTEN)


def test_without_a_density_the_room_is_given_and_the_weight_is_not() -> None:
    answer = VesselQuestion(room=Volume.of(9, "fl_oz"), material=Material("soy wax")).answer(BOOK)
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == ["density_of_wax"]
    assert set(results_by_name(answer)) == {"room", "fill_volume"}
    assert answer.guide
    assert answer.question == VesselQuestion(room=Volume.of(9, "fl_oz"), material=Material("soy wax"))
    shown(answer)


@pytest.mark.parametrize(("warm", "said"), [(20, "set (solid) wax"), (70, "melted wax"), (None, "as it is poured")])
def test_a_recorded_density_is_said_to_be_of_the_state_it_was_measured_in(warm: int | None, said: str) -> None:
    at = Temperature.of(warm, "degC") if warm is not None else None
    known = Known(WAX, Origin.RECORDED, at=at)
    assert said in state_words(known, None).show()


def test_the_guide_for_a_jar_is_by_melted_wax_and_agrees_with_the_lesson() -> None:
    """By hand: 8 US fl oz = 236.588 ml; molten waxes 0.74 to 0.9193 g/ml: 175 to 217.5 g, at 85 % 149 to 185 g."""
    answer = VesselQuestion(room=Volume.of(8, "us_fl_oz")).answer(BOOK)
    assert isinstance(answer, Missing)
    text = "\n".join(each.show() for each in answer.guide)
    assert "175 g (6.18 oz) to 218 g" in text
    assert "Filled to 85 %, as is usual: 149 g (5.25 oz) to 185 g" in text
    assert "melted wax, as it is poured" in text
    told = lesson("jar_ounces", BOOK)
    assert "149 to 185" in told.headline.show().replace(" g", "")
    level = VesselQuestion(room=Volume.of(8, "us_fl_oz"), level=Percent(Decimal(85))).answer(BOOK)
    assert isinstance(level, Missing)
    assert "149 g" in level.guide[0].show()
    assert not any("as is usual" in each.show() for each in level.guide)
    solid = VesselQuestion(room=Volume.of(8, "us_fl_oz"), state=State.SOLID).answer(BOOK)
    assert isinstance(solid, Missing)
    assert "208 g" in solid.guide[0].show()  # 0.88 g/ml, set paraffin (museum database)


def test_recorded_density_brings_its_spread_and_its_source() -> None:
    answer = VesselQuestion(room=Volume.of(250), material=Material("House soy")).answer(Workbench())
    assert results_by_name(answer)["wax"].base == Decimal("226.25")
    text = shown(answer)
    assert "± 1 g" in text  # 0.004 g/ml × 250 ml (GUM 5.1.2: one factor, relative spreads are equal)
    assert "weighed by Ada on 3 May" in text


def test_recorded_vessels_by_room_and_by_fill() -> None:
    assert figures(VesselQuestion(vessel=VesselName("amber"), density=WAX))["wax"] == 225
    assert figures(VesselQuestion(vessel=VesselName("tin"), count=3))["wax"] == 270
    answer = ask.answer(VesselQuestion(vessel=VesselName("ambre"), density=WAX), Workbench())
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == "not_found"
    assert "Amber" in answer.headline.show()


def test_an_ounce_jar_is_asked_back_with_both_readings_complete() -> None:
    answer = VesselQuestion(ounces=Mass.of(8, "oz"), density=WAX, load=load(8), count=6).answer(BOOK)
    assert isinstance(answer, Choice)
    assert answer.intent == "ambiguous_ounces"
    assert [need.name for need in answer.needs] == ["ounce_kind"]
    fluid, weight = (option.question for option in answer.options)
    assert isinstance(fluid, VesselQuestion)
    assert isinstance(weight, BatchQuestion)
    # 8 US fl oz (scipy.constants) of 0.9 g/ml, six times; 8 avoirdupois ounces (scipy.constants), six times.
    by_room = results_by_name(fluid.answer(BOOK))["total"].base
    assert float(by_room) == pytest.approx(6 * 8 * scipy.constants.fluid_ounce_US * 1e6 * 0.9, rel=1e-12)
    assert weight.fill_is is FillIs.FINISHED
    by_weight = results_by_name(weight.answer(BOOK))["total"].base
    assert float(by_weight) == pytest.approx(6 * 8 * scipy.constants.oz * 1000, rel=1e-12)
    shown(answer)


def test_an_ounce_jar_whose_water_was_weighed_needs_no_choice() -> None:
    answer = VesselQuestion(ounces=Mass.of(8, "oz"), water=Mass.of(230), density=WAX).answer(BOOK)
    assert isinstance(answer, Worked)


@pytest.mark.parametrize(
    ("question", "needs"),
    [
        (VesselQuestion(), ["volume_of_vessel"]),
        (VesselQuestion(full=Mass.of(400)), ["weight_of_container"]),
        (VesselQuestion(diameter=Length.of(70)), ["height_of_vessel"]),
        (VesselQuestion(length=Length.of(70)), ["width_of_vessel", "height_of_vessel"]),
        (
            VesselQuestion(shape=Shape.TAPERED, height=Length.of(9)),
            ["top_diameter_of_vessel", "bottom_diameter_of_vessel"],
        ),
        (VesselQuestion(water=Mass.of(250), headspace=Length.of(9), density=WAX), ["height_of_vessel"]),
    ],
)
def test_what_is_missing_is_named_with_a_way_to_measure_it(question: VesselQuestion, needs: list[str]) -> None:
    answer = question.answer(BOOK)
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == needs
    assert all(need.how is not None for need in answer.needs)
    shown(answer)


@pytest.mark.parametrize(
    ("question", "reason"),
    [
        (VesselQuestion(full=Mass.of(150), empty=Mass.of(402)), "contradiction"),
        (VesselQuestion(water=Mass.of(250), room=Volume.of(100), density=WAX), "contradiction"),
        (VesselQuestion(room=Volume.of(250), level=percent(110)), "out_of_range"),
        (VesselQuestion(room=Volume.of(250), level=percent(0)), "out_of_range"),
        (VesselQuestion(room=Volume.of(0)), "out_of_range"),
        (VesselQuestion(room=Volume.of(250), level=percent(80), headspace=Length.of(5)), "contradiction"),
        (VesselQuestion(diameter=Length.of(70), height=Length.of(80), headspace=Length.of(80)), "contradiction"),
        (VesselQuestion(diameter=Length.of(70), height=Length.of(80), wall=Length.of(35)), "contradiction"),
        (VesselQuestion(diameter=Length.of(-70), height=Length.of(80)), "out_of_range"),
        (VesselQuestion(water=Mass.of(250), at=Temperature.of(45)), "out_of_range"),
        (VesselQuestion(room=Volume.of(250), density=WAX, count=0), "out_of_range"),
        (VesselQuestion(room=Volume.of(250), density=WAX, count=100_001), "out_of_range"),
        (VesselQuestion(ounces=Mass.of(-8, "oz")), "out_of_range"),
    ],
)
def test_impossible_givens_get_a_sentence(question: VesselQuestion, reason: str) -> None:
    answer = ask.answer(question, BOOK)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason == reason
    assert answer.headline.show().endswith((".", "?"))


def test_a_load_no_wax_holds_is_declined() -> None:
    assert isinstance(VesselQuestion(room=Volume.of(250), density=WAX, load=load(30)).answer(BOOK), Declined)


amounts = st.decimals(min_value="0.1", max_value="5000", places=1)


@given(amounts, amounts, st.integers(1, 500))
def test_weight_is_proportional_to_water_density_and_count(water: Decimal, more: Decimal, count: int) -> None:
    one = figures(VesselQuestion(water=Mass(water), density=WAX))["wax"]
    two = figures(VesselQuestion(water=Mass(more), density=WAX))["wax"]
    both = figures(VesselQuestion(water=Mass(water + more), density=WAX, count=count))["wax"]
    assert abs(both - (one + two) * count) <= both * Decimal("1e-30")


@given(st.decimals(min_value="1", max_value="100", places=1), amounts)
def test_a_level_never_takes_more_than_the_room(level: Decimal, room: Decimal) -> None:
    found = figures(VesselQuestion(room=Volume(room), level=percent(str(level)), density=WAX))
    assert found["fill_volume"] <= found["room"] == room


def test_a_part_of_what_it_takes_full() -> None:
    answer = VesselQuestion(takes=Mass.of(240), level=Percent(Decimal(75)), count=3).answer(EMPTY)
    assert (number(answer, "wax"), number(answer, "wax_each")) == (540, 180)


def test_a_volume_left_free() -> None:
    # (300 − 20) × 0.9
    question = VesselQuestion(room=Volume.of(300, "ml"), free=Volume.of(20, "ml"), density=Density(Decimal("0.9")))
    assert number(question.answer(EMPTY), "wax") == 252
    refused = ask.answer(replace(question, free=Volume.of(300, "ml")), EMPTY)
    assert isinstance(refused, NotUnderstood)
