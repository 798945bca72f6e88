"""What is in a vessel: weighed full and empty, or on a scale that was set to zero."""

from __future__ import annotations

from core.answer import Missing, Worked, results_by_name
from core.book import EmptyBook
from core.compounds import Stuff
from core.questions.tare import TareQuestion
from core.units import Mass


def inside(question: TareQuestion) -> Mass:
    answer = question.answer(EmptyBook())
    assert isinstance(answer, Worked)
    mass = results_by_name(answer)["wax"]
    assert isinstance(mass, Mass)
    return mass


def test_the_empty_vessel_comes_off() -> None:
    weighed = TareQuestion(full=Mass.of(2140, "g"), empty=Mass.of(640, "g"), stuff=Stuff.WAX)
    assert inside(weighed).base == 2140 - 640


def test_from_zero_nothing_comes_off() -> None:
    zeroed = TareQuestion(full=Mass.of(1300, "g"), empty=Mass.of(400, "g"), zeroed=True, stuff=Stuff.WAX)
    assert inside(zeroed).base == 1300


def test_what_was_on_at_zero_and_is_off_now_is_put_back_on() -> None:
    put_back = TareQuestion(full=Mass.of(400, "g"), removed=Mass.of(30, "g"), stuff=Stuff.WAX)
    assert inside(put_back).base == 430


def test_one_weight_alone_is_not_enough() -> None:
    answer = TareQuestion(full=Mass.of(2140, "g")).answer(EmptyBook())
    assert isinstance(answer, Missing)
    assert [need.name for need in answer.needs] == ["weight_of_container"]
