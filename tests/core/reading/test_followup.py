"""Short texts that change the last question, one thing at a time."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.answer import results_by_name
from core.ask import answer
from core.compounds import Basis
from core.question import Question
from core.questions.load import LoadQuestion
from tests.core.reading.asked import BOOK, answered, understood


def talk(*texts: str) -> Question:
    """The question after all of the texts, each following the one before."""
    last: Question | None = None
    for text in texts:
        made = understood(text, last)
        assert isinstance(made, Question), text
        last = made
    assert last is not None
    return last


@pytest.mark.parametrize(
    ("texts", "what", "grams"),
    [
        (("8% of 450 g wax", "and at 10 %?"), "fragrance", "45"),
        (("8% of 450 g wax", "of the total I meant"), "fragrance", "39.13"),
        (("8% of 450 g wax", "what about 3 lb"), "fragrance", "108.86"),
        (("8% of 450 g wax", "and at 10 %?", "of the total I meant", "what about 900 g"), "fragrance", "100"),
        (("how much fragrance for 2 lb wax", "8%"), "fragrance", "72.57"),
        (("8% load", "450g"), "fragrance", "36"),
        (("350 ml of wax at 6 %", "0.9 g/ml"), "fragrance", "18.9"),
        (("30 ml of fragrance in grams", "0.95 g/ml", "and 50 ml"), "mass", "47.5"),
        (("12 jars 200 g wax each 8%", "what about 15 jars"), "fragrance", "240"),
        (("jar 8 fl oz, wax density 0.9", "fill 80%"), "wax", "170.34"),
    ],
)
def test_one_thing_changes(texts: tuple[str, ...], what: str, grams: str) -> None:
    figures = results_by_name(answer(talk(*texts), BOOK))
    assert abs(figures[what].base - Decimal(grams)) < Decimal("0.01")


def test_only_the_unit_changes() -> None:
    before, after = talk("8% of 450 g wax"), talk("8% of 450 g wax", "in ounces")
    assert after.unit == "oz"
    assert isinstance(before, LoadQuestion)
    assert isinstance(after, LoadQuestion)
    assert (after.wax, after.load) == (before.wax, before.load)


def test_the_basis_said_before_stays() -> None:
    changed = talk("8% of the total in 460 g wax", "and at 10 %?")
    assert isinstance(changed, LoadQuestion)
    assert changed.load is not None
    assert changed.load.basis is Basis.TOTAL


def test_a_whole_question_starts_anew() -> None:
    asked = talk("8% of 450 g wax")
    assert understood("how many grams is 30 ml of fragrance oil?", asked) == understood(
        "how many grams is 30 ml of fragrance oil?"
    )


def test_thanks_and_nonsense_change_nothing() -> None:
    asked = talk("8% of 450 g wax")
    for text in ("ok thanks", "lol", "?"):
        assert not isinstance(understood(text, asked), Question)
    assert answered("wax on fire, water?", asked).kind == "declined"
