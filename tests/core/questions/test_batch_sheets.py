"""A batch whose wax, oil, vessel and formula are on the shelf: it uses what is recorded and says whose figure it is."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.actions import BY_COMMAND as ACTIONS
from core.answer import Answer, Missing, Origin, Worked, results_by_name
from core.ask import answer, from_error
from core.book import EmptyBook
from core.errors import SteelyardError
from core.library import Library
from core.questions import BY_COMMAND
from core.reading.slash_form import read_form
from tests.core.library.shelves import GROUP, actor
from tests.core.questions.records import cautions, words

RECORDED = (
    "/record_material material:soy wax A stuff:wax max_load:7%",
    "/record_density material:soy wax A density:0.9 g/ml at:20 °C",
    "/record_density material:palm B density:0.8 g/ml at:75 °C",
    "/record_material material:coconut max_load:9%",
    "/record_material material:rose oil flash_point:93 °C",
    "/record_vessel vessel:amber tin room:250 ml",
    "/record_formula name:pine load:6% waxes:soy wax A 70, coconut 30 fragrances:rose oil 2, cedar 1",
    "/record_formula name:pine load:10% reason:too faint",
)


@pytest.fixture(scope="module")
def library(tmp_path_factory: pytest.TempPathFactory) -> Library:
    made = Library(tmp_path_factory.mktemp("shelf") / "l.db")
    for text in RECORDED:
        read_form(text, ACTIONS, EmptyBook()).act(made, actor())
    return made


def batch(library: Library, text: str) -> Answer:
    book = library.book((GROUP,), "7")
    try:
        return answer(read_form(f"/batch {text}", BY_COMMAND, book), book)
    except SteelyardError as error:
        return from_error(error)


def test_the_recorded_density_fills_vessels_known_by_their_room(library: Library) -> None:
    found = batch(library, "fills:12 x amber tin load:8% material:soy wax A oil:rose oil")
    # By hand: 12 × 250 ml × 0.9 g/ml = 2700 g, of which the wax is 100 / 108.
    assert results_by_name(found)["total"].base == 2700
    assert results_by_name(found)["wax"].base.quantize(Decimal("0.01")) == Decimal("2500.00")
    (density,) = [given for given in found.given if given.what == "density"]
    assert density.origin is Origin.RECORDED
    assert density.source is not None
    assert "measured by Ada" in density.source.show()
    assert found.table is not None
    assert [row[0].show() for row in found.table.rows] == ["soy wax A", "rose oil", "all together"]  # type: ignore[attr-defined]


def test_the_sheet_as_recorded_warns_and_is_named(library: Library) -> None:
    over = batch(library, "fills:12 x 200 g load:8% material:soy wax A oil:rose oil")
    assert "over_limit" in cautions(over)
    assert "The sheet of soy wax A allows at most 7 %, as recorded." in words(over)
    assert "The sheet of rose oil gives a flash point of 93 °C, as recorded." in words(over)
    within = batch(library, "fills:12 x 200 g load:6.5% material:soy wax A")
    assert "over_limit" not in cautions(within)
    # Without a sheet the usual most is the measure (12 %, common practice).
    assert "over_usual" in cautions(batch(library, "fills:12 x 200 g load:13%"))
    # Of several waxes the strictest sheet counts.
    assert "over_limit" in cautions(batch(library, "fills:12 x 200 g load:8% waxes:soy wax A 10, coconut 90"))
    assert "over_limit" not in cautions(batch(library, "fills:12 x 200 g load:8% waxes:coconut 90, other 10"))


def test_a_density_measured_hot_is_said_to_be_one(library: Library) -> None:
    hot = batch(library, "fills:10 x 100 ml load:6% material:palm B")
    assert results_by_name(hot)["total"].base == 800  # 10 × 100 ml × 0.8 g/ml
    assert "measured at 75 °C" in words(hot)
    assert "melted wax" in words(hot)
    assert "set (solid)" not in words(hot)


def test_a_name_nothing_is_known_of_is_said(library: Library) -> None:
    assert "Nothing is recorded of soi wax A" in words(batch(library, "fills:2 x 200 g load:6% material:soi wax A"))
    assert "Did you mean soy wax A?" in words(batch(library, "fills:2 x 200 g load:6% material:soy wax"))
    lacking = batch(library, "fills:2 x 200 ml load:6% material:soy wax C")
    assert isinstance(lacking, Missing)
    assert "The density of soy wax C" in f"The {words(lacking)[words(lacking).index('density of') :]}"


@pytest.mark.parametrize(("version", "load", "number"), [("", 10, 2), (" version:2", 10, 2), (" version:1", 6, 1)])
def test_any_version_of_a_formula_is_poured(library: Library, version: str, load: int, number: int) -> None:
    found = batch(library, f"fills:10 x 100 g formula:pine{version}")
    assert isinstance(found, Worked)
    assert results_by_name(found)["fragrance"].base == 10 * load  # of 1000 g of wax
    assert f"formula “pine”, version {number}" in words(found)
    assert ("over_limit" in cautions(found)) == (load > 7)  # the sheet of soy wax A


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("fills:10 x 100 g formula:pine version:3", "the newest is 2"),
        ("fills:10 x 100 g load:6% version:1", "give the formula's name too"),
        ("fills:10 x 100 g formula:pin", "Did you mean pine?"),
    ],
)
def test_a_version_or_formula_there_is_not(library: Library, text: str, says: str) -> None:
    found = batch(library, text)
    assert found.kind == "not_understood"
    assert says in found.headline.show()
