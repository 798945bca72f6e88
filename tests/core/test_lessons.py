"""Lessons: their figures against outside sources, in the reader's units, and every word of them shown."""

from __future__ import annotations

from decimal import Decimal

import pytest
from CoolProp.CoolProp import PropsSI
from scipy import constants
from uncertainties import ufloat

from core import lessons
from core.answer import Choice, Lesson, results_by_name
from core.ask import answer
from core.book import EmptyBook, Preferences
from core.compounds import Basis
from core.lessons.topics import TOPICS, Topic
from core.question import Question
from core.questions.lesson import LessonQuestion
from core.reading import read
from core.units import Percent
from core.writing import Style

EMPTY = EmptyBook()
IN_OUNCES = EmptyBook(Preferences(first="oz"))
keys = tuple(TOPICS)


def figures(key: str, unit: str = "") -> dict[str, float]:
    return {name: float(value.base) for name, value in results_by_name(lessons.lesson(key, EMPTY, unit)).items()}


def text(lesson: Lesson, style: Style | None = None) -> str:
    return "\n".join(part.show(style or Style()) for part in (lesson.headline, *lesson.paragraphs))


def test_the_keys_that_answers_refer_to() -> None:
    assert keys == (
        *("why_weight", "bases", "ounces", "density", "reading_measures", "flakes"),
        *("scales", "tare", "jar_ounces", "net_weight", "fire"),
    )


@pytest.mark.parametrize("key", keys)
@pytest.mark.parametrize("unit", ["", "g", "oz"])
def test_every_lesson_is_short_and_ends_with_something_to_try(key: str, unit: str) -> None:
    lesson = lessons.lesson(key, EMPTY, unit)
    assert (lesson.key, lesson.intent) == (key, "concept")
    assert 3 <= len(lesson.paragraphs) <= 7
    shown = [part.show() for part in lesson.paragraphs]
    assert shown[-1].startswith("Try it: ask “")
    assert all(len(part) < 330 for part in shown)
    assert len(lesson.headline.show()) < 120
    assert "{" not in text(lesson)
    assert set(lesson.see) < set(keys) - {key}
    assert lesson.results


@pytest.mark.parametrize("key", ["why_weight", "bases", "tare", "net_weight", "scales"])
def test_the_examples_are_in_the_readers_units(key: str) -> None:
    assert " oz" in text(lessons.lesson(key, IN_OUNCES))
    assert text(lessons.lesson(key, IN_OUNCES)) == text(lessons.lesson(key, EMPTY, "lb"))
    assert text(lessons.lesson(key, IN_OUNCES, "g")) == text(lessons.lesson(key, EMPTY))
    assert text(lessons.lesson(key, EMPTY)) != text(lessons.lesson(key, IN_OUNCES))


def test_a_decimal_comma_reaches_the_figures() -> None:
    assert "43,5 g" in text(lessons.lesson("bases", EMPTY), Style(comma=True))


def test_one_fluid_ounce_of_three_liquids() -> None:
    # d-limonene and water from CoolProp; methyl salicylate by the VDI equation (chemicals library): 34.92 g
    fl_oz = constants.fluid_ounce_US * 1e6
    weights = figures("why_weight", "oz")
    limonene = PropsSI("D", "T", 293.15, "P", 101325, "INCOMP::TCO") / 1000
    warm = PropsSI("D", "T", 333.15, "P", 101325, "INCOMP::TCO") / 1000
    assert weights["d_limonene"] == pytest.approx(fl_oz * limonene, rel=1e-4)
    assert weights["water"] == pytest.approx(fl_oz * PropsSI("D", "T", 293.15, "P", 101325, "Water") / 1000, rel=1e-5)
    assert weights["methyl_salicylate"] == pytest.approx(34.92, abs=0.005)
    assert weights["lighter_when_warm"] == pytest.approx(100 * (1 - warm / limonene), abs=0.01)
    assert weights["heavier"] == pytest.approx(100 * (34.92 / 24.93 - 1), abs=0.1)


def test_the_two_ounces() -> None:
    found = figures("ounces")
    assert found["ounce"] == pytest.approx(constants.oz * 1000, rel=1e-12)
    assert found["us_fluid_ounce"] == pytest.approx(constants.fluid_ounce_US * 1e6, rel=1e-12)
    assert found["imperial_fluid_ounce"] == pytest.approx(constants.fluid_ounce_imp * 1e6, rel=1e-12)
    # 4 fl oz of an oil of 0.8429 g/ml into 50 oz of wax, by hand
    assert found["load"] == pytest.approx(4 * 29.5735295625 * 0.8429 / (50 * 28.349523125) * 100, rel=1e-9)


def test_the_two_bases() -> None:
    found = figures("bases")
    assert found["of_wax"] == 40
    assert found["of_total"] == pytest.approx(500 * 8 / 92, rel=1e-15)
    assert found["load_of_total"] == pytest.approx(40 / 540 * 100, rel=1e-15)
    assert found["load_of_wax"] == pytest.approx(8 / 92 * 100, rel=1e-15)


def test_the_usual_basis_is_the_askers() -> None:
    of_total = EmptyBook(Preferences(basis=Basis.TOTAL))
    assert "I take it as a percent of the total" in text(lessons.lesson("bases", of_total))
    found = results_by_name(lessons.lesson("tare", of_total))
    assert float(found["fragrance"].base) == pytest.approx(1500 * 6 / 94, rel=1e-15)


def test_a_measured_density_and_its_uncertainty() -> None:
    # GUM by the uncertainties library: two readings of a 0.1 g scale, ASTM E1272 class B 100 ml cylinder (±1 ml)
    weight, room = ufloat(93, 0.1 / 6**0.5), ufloat(100, 1 / 3**0.5)
    expected = weight / room
    found = figures("density")
    assert found["density"] == pytest.approx(expected.nominal_value)
    assert found["uncertainty"] == pytest.approx(expected.std_dev, rel=1e-9)
    assert "give or take 0.011 g/ml" in text(lessons.lesson("density", EMPTY))
    assert found["volume"] == pytest.approx(40 / 0.93, rel=1e-12)


def test_what_measures_cost() -> None:
    # ASTM E1272-02 table 1 class B: 100 ml ±1.0, 10 ml ±0.20; household measures ±5 %: a tablespoon 14.05 to 15.53 ml
    found = figures("reading_measures")
    assert (found["cylinder_full"], found["cylinder_small"], found["small_cylinder"]) == (1, 10, 2)
    assert found["spoon_least"] == pytest.approx(14.05, abs=0.005)
    assert found["spoon_most"] == pytest.approx(15.53, abs=0.005)
    assert (found["load_least"], found["load_most"]) == (pytest.approx(5.7), pytest.approx(6.3))


def test_air_in_flakes() -> None:
    # excipients handbook (from memory) 0.54 in a heap, chemistry handbook 0.9408 solid: 43 % of voids
    found = figures("flakes")
    assert found["air"] == pytest.approx(43, abs=0.5)
    assert found["heap"] == pytest.approx(250 * 0.54)
    assert found["molten_volume"] == pytest.approx(500 / 0.847)


def test_scales() -> None:
    # half a step of 1 g over 400, 40 and 4 g; OIML R 76-1 class III in service: 1 e up to 500 e, 2 e up to 2000 e
    found = figures("scales")
    assert [found[f"error_{i}"] for i in (1, 2, 3)] == [0.125, 1.25, 12.5]
    assert (found["class_iii_1"], found["class_iii_2"]) == (1, 2)
    assert (found["step_for_oil"], found["step_for_dye"]) == (0.2, 0.01)
    assert "a 50th of that" in text(lessons.lesson("scales", EMPTY))


def test_the_scales_lesson_uses_the_askers_own_step() -> None:
    fine = EmptyBook(Preferences(step=Decimal("0.1")))
    assert "With 0.1 g steps" in text(lessons.lesson("scales", fine), Style(step=Decimal("0.1")))
    assert results_by_name(lessons.lesson("scales", fine))["error_1"] == Percent(Decimal("0.0125"))


def test_tare() -> None:
    found = figures("tare")
    assert (found["wax"], found["fragrance"], found["fragrance_with_pot_counted"]) == (1500, 90, pytest.approx(128.4))
    assert found["load_with_pot_counted"] == pytest.approx(128.4 / 1500 * 100)


def test_the_ounces_of_a_jar() -> None:
    # 85 % of 8 US fl oz, times the published band of molten waxes: paraffin from 0.74 g/ml (n-alkanes, computed) to
    # coconut oil, 0.908 to 0.921 of water's density at 20 °C (Codex standard 210): 0.9193 g/ml, as in an answer
    found = figures("jar_ounces")
    room = 8 * constants.fluid_ounce_US * 1e6
    assert found["room"] == pytest.approx(room)
    assert found["wax_least"] == pytest.approx(room * 0.85 * 0.74)
    assert found["wax_most"] == pytest.approx(room * 0.85 * 0.9193, rel=1e-4)
    # ISO 8655-6: 1.0029 ml of room for each gram of water at 20 °C
    assert found["room_from_water"] == pytest.approx(201 * 1.0029)


def test_net_weight() -> None:
    # 16 CFR 500: cut off, never rounded up; Directive 76/211/EEC: 9 g for 200 to 300 g
    assert "“Net Wt 216 g (7.61 oz)”" in text(lessons.lesson("net_weight", EMPTY))
    assert "“Net Wt 7.56 oz (214 g)”" in text(lessons.lesson("net_weight", EMPTY, "oz"))
    assert figures("net_weight")["tne"] == 9


def test_fire_says_what_to_do_and_never_water() -> None:
    lesson = lessons.lesson("fire", EMPTY)
    said = text(lesson)
    # substance data sheets: alpha-pinene 33 °C, d-limonene 48 °C; paraffin 190 °C or above (three databases)
    found = figures("fire")
    assert (found["alpha_pinene_flash"], found["d_limonene_flash"], found["paraffin_flash_at_least"]) == (33, 48, 190)
    for words in (
        "never water",
        "lid",
        "emergency number",
        "local codes",
        "Suppliers' sheets",
        "don't peel",
        "never leave",
    ):
        assert words in said
    assert [caution.key for caution in lesson.cautions] == ["wax_fire"]


def test_published_figures_name_their_sources() -> None:
    for key in keys:
        for given in lessons.lesson(key, EMPTY).given:
            assert given.source is not None
            assert given.source.show()


@pytest.mark.parametrize("topic", Topic)
def test_a_lesson_is_asked_for_by_topic(topic: Topic) -> None:
    found = answer(LessonQuestion(topic=topic, unit="oz"), EMPTY)
    assert found == lessons.lesson(topic.key, EMPTY, "oz")


def test_without_a_topic_all_are_offered() -> None:
    found = answer(LessonQuestion(), EMPTY)
    assert isinstance(found, Choice)
    assert [option.label for option in found.options] == list(TOPICS.values())
    for option in found.options:
        assert isinstance(option.question, Question)
        assert isinstance(answer(option.question, EMPTY), Lesson)


@pytest.mark.parametrize("key", keys)
@pytest.mark.parametrize("unit", ["g", "oz"])
def test_what_to_try_is_understood(key: str, unit: str) -> None:
    tried = lessons.lesson(key, EMPTY, unit).paragraphs[-1].show().partition("“")[2].partition("”")[0]
    understood = read(tried, EMPTY).asked
    found = answer(understood, EMPTY) if isinstance(understood, Question) else understood
    # flakes are asked back about, 30 % is declined, a jar's ounces are offered as a choice; the others are worked
    expected = {"flakes": "missing", "fire": "declined", "jar_ounces": "choice"}.get(key, "worked")
    assert found.kind == expected, found.headline.show()


def test_an_unknown_key_is_a_key_error() -> None:
    with pytest.raises(KeyError):
        lessons.lesson("soap", EMPTY)
