"""The most that a recorded sheet allows is warned by wherever a load comes out, and nothing unsafe is offered."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.actions import BY_COMMAND as ACTIONS
from core.answer import Answer, Choice, Declined, Worked
from core.ask import answer
from core.book import Book, EmptyBook
from core.compounds import Basis, Load, Masses
from core.library import Library
from core.questions import BY_COMMAND
from core.questions.load import LoadQuestion
from core.reading import read
from core.reading.slash_form import read_form
from core.units import Mass, Percent
from tests.core.library.shelves import GROUP, actor
from tests.core.questions.records import EMPTY, cautions, words

RECORDED = (
    "/record_material material:soy max_load:6%",
    "/record_material material:golden hill wax A max_load:10%",
    "/record_material material:palm stuff:wax",
)


@pytest.fixture(scope="module")
def book(tmp_path_factory: pytest.TempPathFactory) -> Book:
    made = Library(tmp_path_factory.mktemp("sheets") / "l.db")
    for text in RECORDED:
        read_form(text, ACTIONS, EmptyBook()).act(made, actor())
    return made.book((GROUP,), "7")


def asked(text: str, book: Book) -> Answer:
    if text.startswith("/"):
        return answer(read_form(text, BY_COMMAND, book), book)
    return read(text, book).answered(book)


@pytest.mark.parametrize(
    "text",
    [
        "450 g of soy at 8%",
        "450 g soy wax at 8%",
        "8% in 1 lb of soy",
        "450 g of wax, soy, at 8%",
        "36 g of oil at 8%, how much soy?",
        "10 g fragrance in 100 g soy",
        "450 g of golden hill wax A at 12%",
        "450 g of wax at 12%, it's golden hill wax A",
        "/load wax:450 g soy load:8%",
        "/load wax:450 g load:8% material:soy",
        "/load wax:450 g soy load:12% limit:10%",
        "/load wax:300 g palm + 150 g soy load:8%",
        "/load wax:450 g soy fragrance:36 g",
        "/rescue wax:450 g soy fragrance:20 g load:8%",
        "/stock wax:450 g soy load:8%",
        "/scale step:1 g wax:450 g soy load:8%",
        "/label wax:200 g soy load:8%",
        "/vessel room:250 ml density:0.8 g/ml load:8% material:soy",
        "/volume volume:500 ml density:0.8 g/ml material:soy stuff:wax load:8%",
    ],
)
def test_over_the_recorded_most_is_warned_about(text: str, book: Book) -> None:
    assert "over_limit" in cautions(asked(text, book)), words(asked(text, book))


@pytest.mark.parametrize(
    "text",
    [
        "450 g of soy at 6%",
        "450 g of golden hill wax A at 8%",
        "450 g of coconut at 8%",
        "450 g of palm at 8%",
        "/load wax:450 g golden hill wax A load:10%",
    ],
)
def test_no_warning_at_or_under_it_or_where_nothing_is_recorded(text: str, book: Book) -> None:
    found = asked(text, book)
    assert isinstance(found, Worked)
    assert not found.cautions


def test_the_record_is_named_and_the_lower_of_said_and_recorded_holds(book: Book) -> None:
    found = asked("/load wax:450 g golden hill wax A load:12% limit:11%", book)
    assert "The sheet of golden hill wax A allows at most 10 %, as recorded." in words(found)
    assert "over the 10 %" in words(found)
    assert "over the 11 %" in words(asked("/load wax:450 g golden hill wax A load:12% limit:11%", EMPTY))


def test_which_of_the_two_bases_keeps_the_wax(book: Book) -> None:
    found = asked("I have 1 kg of finished mix with soy at 8%", book)
    assert isinstance(found, Choice)
    for option in found.options:
        assert option.question is not None
        assert "over_limit" in cautions(answer(option.question, book))


@pytest.mark.parametrize("percent", range(1, 25))
@pytest.mark.parametrize("size", ["wax", "fragrance", "total"])
def test_no_other_reading_is_offered_that_would_be_refused(percent: int, size: str) -> None:
    """F / w of a load p of the total is p / (1 - p): 20 % of the total are 25 % of the wax, by hand."""
    weights = {"wax": Masses.one(Mass.of(450)), "fragrance": Mass.of(36), "total": Mass.of(500)}
    made = {size: weights[size], "load": Load(Percent(Decimal(percent)))}
    offered = bool(answer(LoadQuestion(**made), EMPTY).other)  # type: ignore[arg-type]
    refused = isinstance(answer(LoadQuestion(**made, basis=Basis.TOTAL), EMPTY), Declined)  # type: ignore[arg-type]
    assert refused == (percent >= 20)
    assert offered != refused


def test_a_finished_weight_is_no_choice_where_one_reading_would_be_refused() -> None:
    found = read("1 kg of finished mix at 24%", EMPTY).answered(EMPTY)
    assert isinstance(found, Worked)
    assert "142" not in words(read("450 g wax at 24%", EMPTY).answered(EMPTY))
    assert isinstance(read("1 kg of finished mix at 30%", EMPTY).answered(EMPTY), Declined)


@pytest.mark.parametrize(
    "text",
    [
        "20 g fragrance in 100 g wax",
        "450 g wax and 90 g oil, what load",
        "450 g wax 90 g oil",
        "450 g wax at 20%",
        "/stock wax:450 g load:20%",
        "/scale step:1 g wax:450 g fragrance:90 g",
        "/label wax:200 g fragrance:40 g",
        "/cost wax:450 g wax_pack:1 kg wax_price:9 eur fragrance:90 g fragrance_pack:100 g fragrance_price:9 eur",
        "/drops drops:500 counted:100 weighed:3 g wax:75 g",
        "/rescue wax:450 g fragrance:20 g load:20%",
        "/batch fills:3 x 150 g load:20%",
    ],
)
def test_a_high_load_is_warned_about_wherever_it_comes_out(text: str) -> None:
    assert "over_usual" in cautions(asked(text, EMPTY)), words(asked(text, EMPTY))
