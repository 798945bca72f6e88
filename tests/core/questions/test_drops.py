"""Drops: a weight only once some were weighed; the sums are by hand."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.answer import Declined, Worked
from core.ask import answer
from core.book import Preferences
from core.compounds import Load, Masses
from core.questions.drops import DropsQuestion
from core.units import Density, Mass, Number, Percent, Volume
from tests.core.questions.records import EMPTY, Shelf, cautions, needs, number, words

D = Decimal
WAX = Masses.one(Mass.of(200))
FIVE = Load(Percent(D(5)))


def count(value: int) -> Number:
    return Number(D(value))


def test_drops_that_were_weighed() -> None:
    # 28 g for 1000 drops: 0.028 g each
    found = DropsQuestion(drops=count(20), counted=count(1000), weighed=Mass.of(28)).answer(EMPTY)
    assert number(found, "fragrance") == D("0.56")
    assert cautions(found) == set()


def test_their_load_in_a_wax() -> None:
    found = DropsQuestion(drops=count(300), counted=count(1000), weighed=Mass.of(28), wax=WAX).answer(EMPTY)
    assert found.intent == "load_from_weights"
    assert (number(found, "fragrance"), number(found, "load")) == (D("8.4"), D("4.2"))


def test_how_many_drops_a_load_takes() -> None:
    found = DropsQuestion(counted=count(1000), weighed=Mass.of(28), wax=WAX, load=FIVE).answer(EMPTY)
    assert isinstance(found, Worked)
    assert round(number(found, "drops"), 2) == D("357.14")  # 10 ÷ 0.028
    assert "about 357" in found.headline.show()


@pytest.mark.parametrize(
    "ask",
    [
        DropsQuestion(drops=count(20)),
        DropsQuestion(drops=count(20), counted=count(10)),
        DropsQuestion(drops=count(20), weighed=Mass.of(1)),
        DropsQuestion(drops=count(20), wax=WAX),
        DropsQuestion(),
    ],
)
def test_drops_alone_are_no_weight(ask: DropsQuestion) -> None:
    found = ask.answer(EMPTY)
    assert needs(found) == ["drop_size", "density_of_fragrance"]
    assert found.intent == "volume_needs_density"
    assert found.results == ()


def test_what_the_wax_needs_by_weight_is_said_all_the_same() -> None:
    found = DropsQuestion(drops=count(20), wax=WAX, load=FIVE).answer(EMPTY)
    assert needs(found) == ["drop_size", "density_of_fragrance"]
    assert number(found, "fragrance") == 10
    assert "10 g" in found.headline.show()


@pytest.mark.parametrize(
    ("weighed", "step", "keys"), [("2.8", None, set()), ("1.9", None, {"few_drops"}), ("3", "1", {"few_drops"})]
)
def test_too_few_drops_for_the_scale(weighed: str, step: str | None, keys: set[str]) -> None:
    # 20 steps: two readings of d/√6 each leave about 4 % (GUM, k = 2); "2.8" was read from a 0.1 g scale
    book = Shelf(Preferences(step=D(step) if step else None))
    ask = DropsQuestion(drops=count(20), counted=count(100), weighed=Mass.of(weighed))
    assert cautions(ask.answer(book)) == keys


def test_counted_drops_alone_say_the_size_of_one() -> None:
    found = DropsQuestion(counted=count(100), weighed=Mass.of("2.8")).answer(EMPTY)
    assert needs(found) == ["drops"]
    assert "0.028 g" in words(found)


def test_a_dangerous_load_is_declined() -> None:
    assert isinstance(DropsQuestion(drops=count(5), wax=WAX, load=Load(Percent(D(40)))).answer(EMPTY), Declined)
    many = DropsQuestion(drops=count(5000), counted=count(1000), weighed=Mass.of(28), wax=WAX)
    assert isinstance(many.answer(EMPTY), Declined)


@pytest.mark.parametrize(
    "ask",
    [
        DropsQuestion(drops=count(0), counted=count(5), weighed=Mass.of(1)),
        DropsQuestion(drops=count(5), counted=count(0), weighed=Mass.of(1)),
        DropsQuestion(drops=count(5), counted=count(5), weighed=Mass.of(0)),
    ],
)
def test_the_impossible_becomes_a_sentence(ask: DropsQuestion) -> None:
    assert answer(ask, EMPTY).kind == "not_understood"


def test_drops_are_counted_for_a_weight() -> None:
    # 60 drops weigh 1.5 g: 40 drops a gram, 240 drops for 6 g.
    found = DropsQuestion(need=Mass.of(6), counted=Number(Decimal(60)), weighed=Mass.of("1.5")).answer(EMPTY)
    assert isinstance(found, Worked)
    assert [each.value.base for each in found.results if each.what == "drops"] == [240]


def test_drops_for_a_room_need_no_weight() -> None:
    # 25 drops fill 1 ml, so 5 ml take 5 × 25
    found = DropsQuestion(counted=count(25), filled=Volume.of(1, "ml"), room=Volume.of(5, "ml")).answer(EMPTY)
    assert (found.intent, number(found, "drops")) == ("convert_volume", D(125))


def test_drops_measured_by_room_are_weighed_through_the_density() -> None:
    # 25 drops fill 1 ml, which weighs 0.96 g; 4.8 g are five times as much
    asked = DropsQuestion(
        counted=count(25), filled=Volume.of(1, "ml"), density=Density(D("0.96")), need=Mass.of(D("4.8"))
    )
    found = asked.answer(EMPTY)
    assert isinstance(found, Worked)
    assert number(found, "drops") == D(125)
    assert len(found.steps) == 3


def test_room_alone_tells_no_weight() -> None:
    found = DropsQuestion(counted=count(25), filled=Volume.of(1, "ml"), drops=count(50)).answer(EMPTY)
    assert "drop_size" in needs(found)
