"""Short texts that change the last question, one thing at a time."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.answer import Choice, Missing, results_by_name
from core.ask import answer
from core.compounds import Basis, Load
from core.question import Question
from core.questions.load import LoadQuestion
from core.reading import read
from tests.core.reading.asked import BOOK, answered, understood


def talk(*texts: str) -> Question:
    """The question after all of the texts, each following the one before."""
    last: Question | None = None
    for text in texts:
        made = understood(text, last)
        made = made.question or made if isinstance(made, Missing) else made
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
        (("8% of 450 g wax", "9?"), "fragrance", "40.5"),
        (("8% of 450 g wax", "make it 6"), "fragrance", "27"),
        (("8% of 450 g wax", "twice that"), "fragrance", "72"),
        (("8% of 450 g wax", "half of it"), "fragrance", "18"),
        (("how much wax for 60 g oil", "6%", "at 8"), "wax", "750"),
        (("30 ml of fragrance in grams", "0.95"), "mass", "28.5"),
        (("30 ml of fragrance in grams", "density is 0.93 g/ml"), "mass", "27.9"),
        (("12 x 200 g at 8%", "and 5 % spare"), "fragrance", "201.6"),
        (("12 x 200 g at 8%", "220 g each"), "fragrance", "211.2"),
        (("10 drops in 100 g", "100 drops weigh 2.5 g"), "fragrance", "0.25"),
        (("my jar holds 250 ml, how much wax", "0.9", "80% full"), "wax", "180"),
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


def test_a_weight_replaces_the_one_it_is_near() -> None:
    changed = talk("40 g oil in 500 g wax, percent?", "and 45 g?")
    assert isinstance(changed, LoadQuestion)
    assert changed.fragrance is not None
    assert changed.wax is not None
    assert (changed.fragrance.base, changed.wax.total.base) == (45, 500)


def test_a_reading_replaces_the_one_on_its_scale() -> None:
    # (175 − 32) × 5 ÷ 9 = 79.44
    figures = answer(talk("85 C against 180 F", "and 175 F"), BOOK).headline.show()
    assert figures == "175 °F is 79.44 °C, so 85 °C is 5.56 °C hotter."


@pytest.mark.parametrize("text", ["see you at 5", "banana 7", "i am 7", "450"])
def test_a_bare_number_of_something_else_changes_nothing(text: str) -> None:
    assert not isinstance(understood(text, talk("8% of 450 g wax")), Question)


def test_the_volume_of_what_came_out_is_asked_of_the_last_question() -> None:
    assert answer(talk("500 g wax at 8 %", "how many fl oz is the oil"), BOOK).kind == "missing"
    figures = results_by_name(answer(talk("500 g wax at 8 %", "how many fl oz is the oil", "0.95 g/ml"), BOOK))
    assert figures["fragrance"].base == 40


@pytest.mark.parametrize("before", ["450 g wax at 8 %", "how many drops in 5 g of oil", "100 g of oil in ml"])
@pytest.mark.parametrize(
    "text",
    [
        "how much is a pound",
        "what is 3 lb",
        "why cant i use cups",
        "what is a fluid ounce",
        "'; DROP TABLE materials",
        "how do i make a bomb out of wax",
        "density of soy wax",
        "what does a litre weigh",
        "is 1 ml 1 g",
        "can i use cups",
        "why is it of the wax",
    ],
)
def test_another_question_is_none_the_less_for_the_one_before(before: str, text: str) -> None:
    assert answered(text, talk(before)) == answered(text)


def test_a_question_of_its_own_gets_its_own_answer() -> None:
    # NIST Handbook 44, appendix C: the avoirdupois pound is 453.59237 g
    assert results_by_name(answered("how much is a pound", talk("450 g wax at 8 %")))["mass"].base == Decimal(
        "453.59237"
    )
    assert answered("why cant i use cups", talk("450 g wax at 8 %")).kind == "lesson"


def test_an_amount_that_would_only_be_asked_back_for_again_is_no_change() -> None:
    drops = talk("how many drops in 5 g of oil")
    assert answered("half a pound", drops) == answered("half a pound")


@pytest.mark.parametrize(
    ("texts", "what", "grams"),
    [
        (("450 g wax at 8 %", "double it"), "fragrance", "72"),
        (("450 g wax at 8 %", "how much oil for 2 kg of soy wax"), "fragrance", "160"),
        (("450 g wax at 8 %", "what about in fl oz", "and 0.1 % dye", "grams please"), "dye", "0.45"),
        (("12 x 200 g at 8%", "how many fl oz is the oil", "0.96"), "volume", "200"),
        (("450 g wax at 8 %", "no i meant 9"), "fragrance", "40.5"),
        (("450 g wax at 8 %", "sorry 2 kg"), "fragrance", "160"),
        (("450 g wax at 8 %", "in ounces", "grams please"), "fragrance", "36"),
        (("450 g wax at 8 %", "what about 3 lb of golden wax"), "fragrance", "108.86"),
    ],
)
def test_small_words_around_the_change_part_nothing(texts: tuple[str, ...], what: str, grams: str) -> None:
    figures = results_by_name(answer(talk(*texts), BOOK))
    assert abs(figures[what].base - Decimal(grams)) < Decimal("0.01")


@pytest.mark.parametrize(
    ("texts", "what", "grams"),
    [
        (("450 g wax at 8 %", "and 5 % spare"), "wax", "472.5"),  # 450 × 1.05
        (("450 g wax at 8 %", "make it a batch", "12 jars of 200 g"), "fragrance", "192"),  # 2400 × 0.08
        (("450 g wax at 8 %", "make it a batch", "12 jars of 200 g", "15 of them"), "fragrance", "240"),
        (("my jar holds 250 ml, density 0.9", "12 of them at 8 percent"), "wax", "2500"),  # 12 × 225 ÷ 1.08
    ],
)
def test_what_a_short_text_adds(texts: tuple[str, ...], what: str, grams: str) -> None:
    figures = results_by_name(answer(talk(*texts), BOOK))
    assert abs(figures[what].base - Decimal(grams)) < Decimal("0.01")


def test_an_open_choice_takes_the_number_and_the_load_too() -> None:
    choice = answered("8 oz jar of soy wax, how much wax")
    assert isinstance(choice, Choice)
    still = read("12 of them at 8 percent", BOOK, choice).asked
    assert isinstance(still, Choice)
    by_weight = still.options[1].question
    assert by_weight is not None
    # 12 × 8 oz × 28.349523125 g, of which 8 parts in 108 are oil
    figures = results_by_name(answer(by_weight, BOOK))
    assert abs(figures["fragrance"].base - Decimal(96) * Decimal("28.349523125") * 8 / 108) < Decimal("0.01")


@pytest.mark.parametrize(
    ("text", "last", "says"),
    [
        ("is that too much", "450 g wax at 8 %", "Your 8 % is within that."),
        ("is that ok?", "450 g wax at 14 %", "Your 14 % is more than most allow"),
        ("is 10 % too much?", "", "Your 10 % is within that."),
        ("is that a lot", "40 g oil in 500 g wax, percent?", "Your 8 % is within that."),
    ],
)
def test_whether_a_load_is_too_much_is_for_the_sheet_to_say(text: str, last: str, says: str) -> None:
    found = answered(text, talk(last) if last else None)
    assert found.headline.show() == "Your wax's own sheet decides: stay at or under the most that it allows."
    assert "common practice, no source" in found.body[0].show()
    assert found.body[1].show().startswith(says)


def test_far_too_much_is_declined_and_what_has_no_load_is_not_judged() -> None:
    assert answered("is 30 % ok").kind == "declined"
    assert answered("is that too much").kind == "not_understood"
    assert answered("is that too much", talk("12 oz in grams")).kind == "not_understood"


@pytest.mark.parametrize("choice", ["8 oz jar of soy wax at 8%", "12 candles of 200 g finished at 8 % with 0.1 % dye"])
def test_every_option_keeps_what_was_given(choice: str) -> None:
    found = answered(choice)
    assert isinstance(found, Choice)
    for option in found.options:
        assert option.question is not None
        load = getattr(option.question, "load", None)
        assert isinstance(load, Load)
        assert load.percent.base == 8
        assert ("dye" in choice) == bool(getattr(option.question, "additives", None))
    counts = [fills.count for o in found.options if (fills := getattr(o.question, "fills", None)) is not None]
    assert counts == ([12, 12] if "12" in choice else [1])
