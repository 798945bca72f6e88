"""No weight without a density: what is asked for, what is offered instead, what is refused."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.answer import Declined, Missing
from core.ask import answer
from core.compounds import Load, Masses, Material, State, Stuff
from core.questions.volume import VolumeQuestion
from core.units import VOLUME_UNITS, Density, Mass, Percent, Temperature, Volume
from tests.core.questions.records import EMPTY, SHELF, cautions, needs, number, words
from tests.core.questions.workbench import load

D = Decimal

TINY = D("1e-18")

FL_OZ = Volume.of(1, "us_fl_oz")


class TestMissing:
    @pytest.mark.parametrize(
        ("ask", "intent", "lacking"),
        [
            (
                VolumeQuestion(volume=Volume.of(30), stuff=Stuff.FRAGRANCE),
                "volume_needs_density",
                "density_of_fragrance",
            ),
            (VolumeQuestion(volume=Volume.of(350), load=load("6")), "volume_needs_density", "density_of_wax"),
            (VolumeQuestion(volume=Volume.of(1, "l")), "volume_needs_density", "density_of_material"),
            (
                VolumeQuestion(mass=Mass.of(40), stuff=Stuff.FRAGRANCE, unit="ml"),
                "weight_to_volume_needs_density",
                "density_of_fragrance",
            ),
            (
                VolumeQuestion(mass=Mass.of(8, "oz"), stuff=Stuff.WAX, unit="cup"),
                "weight_to_volume_needs_density",
                "density_of_wax",
            ),
            (
                VolumeQuestion(volume=Volume.of(9), material=Material("dry dye")),
                "volume_needs_density",
                "density_of_material",
            ),
        ],
    )
    def test_what_is_lacking(self, ask: VolumeQuestion, intent: str, lacking: str) -> None:
        found = ask.answer(SHELF)
        assert (found.intent, needs(found)) == (intent, [lacking])
        assert isinstance(found, Missing)
        assert found.question == ask
        assert found.needs[0].how is not None
        assert "scale" in words(found)

    def test_the_guide_is_the_published_band(self) -> None:
        # solid paraffin 0.880–0.925 g/ml (museum materials database)
        found = VolumeQuestion(volume=Volume.of(350), load=load("6"), material=Material("paraffin")).answer(EMPTY)
        assert isinstance(found, Missing)
        text = " ".join(each.show() for each in found.guide)
        assert "308 g" in text
        assert "324 g" in text
        assert "18.5 g" in text
        assert "19.4 g" in text
        assert "Only as a guide" in text
        assert "museum materials database" in text

    def test_the_guide_of_a_weight_is_room(self) -> None:
        # d-limonene 0.839 g/ml at 25 °C (CoolProp) to methyl salicylate 1.1808 at 20 °C (VDI heat atlas): 40 g ÷ each
        found = VolumeQuestion(mass=Mass.of(40), stuff=Stuff.FRAGRANCE).answer(EMPTY)
        assert isinstance(found, Missing)
        assert "33.9 ml to 47.7 ml" in found.guide[0].show()

    def test_no_guide_where_nothing_is_published(self) -> None:
        found = VolumeQuestion(volume=Volume.of(350), material=Material("unheard of")).answer(EMPTY)
        assert isinstance(found, Missing)
        assert found.guide == ()

    def test_near_names_are_offered(self) -> None:
        assert "Barn soy" in words(VolumeQuestion(volume=Volume.of(9), material=Material("barn")).answer(SHELF))
        assert "d-limonene" in words(VolumeQuestion(volume=Volume.of(9), material=Material("limonen")).answer(EMPTY))

    def test_the_weight_the_load_needs_is_still_given(self) -> None:
        ask = VolumeQuestion(volume=Volume.of(9), stuff=Stuff.FRAGRANCE, load=load("5"), wax=Masses.one(Mass.of(200)))
        found = ask.answer(EMPTY)
        assert number(found, "fragrance") == 10
        assert "1.111 g/ml" in words(found)  # 10 g in 9 ml

    @given(
        st.sampled_from(VOLUME_UNITS),
        st.sampled_from([None, *Stuff]),
        st.sampled_from([None, *State]),
        st.sampled_from([None, "soy", "paraffin", "rose", "lavender oil", "Dry dye", "vodka", "flakes", "{0}"]),
        st.sampled_from([None, "6"]),
        st.booleans(),
        st.sampled_from(["", "g", "oz", "lb", "ml", "us_cup"]),
    )
    def test_no_volume_has_a_weight_without_a_density(
        self,
        unit: str,
        stuff: Stuff | None,
        state: State | None,
        name: str | None,
        percent: str | None,
        with_wax: bool,
        wanted: str,
    ) -> None:
        ask = VolumeQuestion(
            volume=Volume.of(3, unit),
            stuff=stuff,
            state=state,
            material=Material(name) if name else None,
            load=load(percent) if percent else None,
            wax=Masses.one(Mass.of(500)) if with_wax else None,
            unit=wanted,
        )
        found = answer(ask, SHELF)
        assert isinstance(found, Missing)
        # the only weight it may hold is the one that wax and load give without any volume: 6 % of 500 g
        assert {each.value.base for each in found.results} <= {D(30)}
        assert needs(found)[0].startswith("density_of_")


class TestFlakes:
    @pytest.mark.parametrize("density", ["0.9", "0.76"])
    def test_the_density_of_solid_wax_does_not_fit_a_heap(self, density: str) -> None:
        ask = VolumeQuestion(
            volume=Volume.of(1, "cup"), stuff=Stuff.WAX, state=State.FLAKES, density=Density.of(density)
        )
        found = ask.answer(EMPTY)
        assert needs(found) == ["density_of_wax"]
        assert found.results == ()
        assert cautions(found) == {"flakes"}

    def test_the_density_of_the_heap_does(self) -> None:
        # stearic acid powder 0.54 g/ml (excipients handbook, from memory)
        ask = VolumeQuestion(volume=Volume.of(100), stuff=Stuff.WAX, state=State.FLAKES, density=Density.of("0.54"))
        assert number(ask.answer(EMPTY), "wax") == 54

    def test_how_many_cups_of_flakes_is_not_answered_either(self) -> None:
        ask = VolumeQuestion(mass=Mass.of(450), state=State.FLAKES, material=Material("Barn soy"), unit="cup")
        assert needs(ask.answer(SHELF)) == ["density_of_wax"]


class TestRefused:
    @pytest.mark.parametrize(
        "ask",
        [
            VolumeQuestion(volume=Volume.of(0), density=Density.of(1)),
            VolumeQuestion(volume=Volume.of(-5), density=Density.of(1)),
            VolumeQuestion(mass=Mass.of(0), density=Density.of(1)),
            VolumeQuestion(volume=Volume.of(5), density=Density.of(0)),
            VolumeQuestion(volume=Volume.of(5), density=Density.of(-1)),
            VolumeQuestion(volume=Volume.of(5), density=Density.of(930)),
            VolumeQuestion(volume=Volume.of("1e11"), density=Density.of(20)),
        ],
    )
    def test_the_impossible_becomes_a_sentence(self, ask: VolumeQuestion) -> None:
        found = answer(ask, EMPTY)
        assert found.kind == "not_understood"
        assert found.headline.show().endswith((".", "?"))

    @given(
        *[st.decimals(min_value="-1e12", max_value="1e12") | st.decimals(min_value=0, max_value="1e-30")] * 4,
        st.sampled_from([None, *Stuff]),
        st.sampled_from(["", "g", "us_cup"]),
    )
    def test_no_number_crashes_it(
        self, room: Decimal, grams: Decimal, density: Decimal, percent: Decimal, stuff: Stuff | None, unit: str
    ) -> None:
        rho, share = Density(density), Load(Percent(percent))
        for ask in (
            VolumeQuestion(volume=Volume(room), density=rho, stuff=stuff, load=share, unit=unit),
            VolumeQuestion(mass=Mass(grams), density=rho, stuff=stuff, unit=unit),
            VolumeQuestion(volume=Volume(room), mass=Mass(grams), stuff=stuff, unit=unit),
            VolumeQuestion(volume=Volume(room), wax=Masses.one(Mass(grams)), load=share, density=rho, unit=unit),
        ):
            found = answer(ask, EMPTY)
            assert words(found)
            assert found.kind in ("worked", "missing", "declined", "not_understood")

    def test_a_long_name_is_quoted_in_short(self) -> None:
        found = VolumeQuestion(volume=Volume.of(5), material=Material("ab " * 2000)).answer(EMPTY)
        assert len(words(found)) < 2000

    def test_a_dangerous_load_is_declined_before_anything_else(self) -> None:
        assert isinstance(VolumeQuestion(volume=Volume.of(500), load=load("30")).answer(EMPTY), Declined)

    def test_an_unusual_density_is_pointed_out(self) -> None:
        ask = VolumeQuestion(volume=Volume.of(5), stuff=Stuff.FRAGRANCE, density=Density.of("1.5"))
        assert cautions(ask.answer(EMPTY)) == {"odd_density"}

    def test_a_density_of_another_temperature_is_pointed_out(self) -> None:
        ask = VolumeQuestion(volume=Volume.of(5), material=Material("Night fig"), at=Temperature(D(60)))
        assert cautions(ask.answer(SHELF)) == {"other_temperature"}

    def test_nothing_given_is_asked_for(self) -> None:
        assert needs(VolumeQuestion().answer(EMPTY)) == ["volume"]
