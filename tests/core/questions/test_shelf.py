"""What is on the shelf: bounded lists, and everything about one record, from a real library."""

from __future__ import annotations

from pathlib import Path

import pytest

from core import ask
from core.actions.formulas import LogTest, RecordFormula
from core.actions.materials import RecordDensity, RecordMaterial
from core.actions.vessels import RecordVessel
from core.answer import Answer, NotUnderstood
from core.book import EmptyBook
from core.compounds import FormulaName, Load, Material, Verdict, VesselName, Words
from core.errors import NotFound
from core.library import Library
from core.questions.shelf import KEYS, Kind, ShelfQuestion
from core.units import Density, Mass, Percent, Temperature, Volume
from tests.core.library.shelves import GROUP, filled, on_day

SOY, TIN, PINE = Material("soy wax A"), VesselName("amber tin"), FormulaName("winter pine")


def text(answer: Answer) -> str:
    """All its lines."""
    lines = [answer.headline, *answer.body]
    cells = [cell for row in answer.table.rows for cell in row] if answer.table is not None else []
    return "\n".join([line.show() for line in lines] + [cell.show() for cell in cells if hasattr(cell, "show")])


def test_an_empty_shelf_says_what_it_is_and_how_to_fill_it() -> None:
    answer = ShelfQuestion().answer(EmptyBook())
    assert answer.headline.show().startswith("Nothing is recorded yet")
    for way in ("/record_density", "/record_material", "/record_vessel", "/record_formula"):
        assert way in text(answer)


@pytest.mark.parametrize("kind", Kind)
def test_an_empty_list_says_of_what_and_how_to_add_the_first(kind: Kind) -> None:
    answer = ShelfQuestion(kind=kind).answer(EmptyBook())
    assert answer.headline.show() == f"No {kind.value} are recorded yet."
    assert f"/record_{KEYS[kind]}" in text(answer)
    start = ShelfQuestion(kind=kind, start="zz").answer(EmptyBook())
    assert start.headline.show() == f"No {kind.value} on the shelf begin with “zz”."


@pytest.mark.parametrize("name", ["material", "vessel", "formula"])
def test_what_is_not_there_says_how_to_add_it(name: str) -> None:
    with pytest.raises(NotFound, match=f"/record_{'density' if name == 'material' else name}"):
        ShelfQuestion(**{name: "winter pine"}).answer(EmptyBook())


def test_a_full_shelf_is_bounded_and_says_so(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 100)
    book = library.book((GROUP,), "7")
    answer = ShelfQuestion().answer(book)
    assert [line.show().partition(":")[0] for line in answer.body] == ["Materials", "Formulas"]
    for line in answer.body:
        assert len(line.show().split(", ")) == 25 + 1  # and the words that there are more
        assert "the first 25 are shown" in line.show()
    only = ShelfQuestion(kind=Kind.FORMULA, start="amber").answer(book)
    assert len(only.body) == 1
    assert "amber" in only.body[0].show()


def test_a_library_that_can_not_be_read_says_so(tmp_path: Path) -> None:
    (tmp_path / "l.db").write_text("words " * 1000)
    answer = ShelfQuestion().answer(Library(tmp_path / "l.db").book((GROUP,), "7"))
    assert "no database" in text(answer)


def test_everything_about_a_material(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    for day, density in enumerate(("0.900", "0.902", "0.901", "0.700"), 1):
        RecordDensity(material=SOY, density=Density.of(density), at=Temperature.of(22)).act(library, on_day(day))
    RecordMaterial(material=SOY, max_load=Percent.of(10), flash_point=Temperature.of(93)).act(library, on_day(5))
    answer = ShelfQuestion(material=SOY).answer(library.book((GROUP,), "8"))
    said = text(answer)
    for part in ("10 % fragrance", "93 °C", "number 4", "far from the others", "measured by Ada, 2026-03-04"):
        assert part in said
    assert "Version 2, 2026-03-05, Ada: from the sheet." in said
    assert answer.table is not None
    assert len(answer.table.rows) == 4


def test_a_long_history_of_measurements_is_bounded(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    for _ in range(40):
        RecordDensity(material=SOY, density=Density.of("0.9")).act(library, on_day(1))
    table = ShelfQuestion(material=SOY).answer(library.book((GROUP,), "8")).table
    assert table is not None
    assert table.note is not None
    assert (len(table.rows), table.note.show()) == (25, "15 older ones are not shown.")


def test_everything_about_a_vessel_and_a_formula(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    RecordVessel(vessel=TIN, room=Volume.of(250), weight=Mass.of(180), how=Words("weighed")).act(library, on_day(1))
    RecordVessel(vessel=TIN, fill=Mass.of(200)).act(library, on_day(2))
    said = text(ShelfQuestion(vessel=TIN).answer(library.book((GROUP,), "8")))
    for part in ("250 ml", "200 g", "180 g", "Recorded by Ada, 2026-03-02, weighed."):
        assert part in said
    RecordFormula(name=PINE, load=Load(Percent.of(8))).act(library, on_day(3))
    LogTest(formula=PINE, observed=Words("no soot"), verdict=Verdict.WORKS, cure_days=14).act(library, on_day(4))
    said = text(ShelfQuestion(formula=PINE).answer(library.book((GROUP,), "8")))
    for part in ("8 % of the wax", "no soot", "works", "14 days", "tested by Ada, 2026-03-04"):
        assert part in said


@pytest.mark.parametrize(
    ("question", "says"),
    [
        (ShelfQuestion(material=Material("soy wx")), "Did you mean soy wax A?"),
        (ShelfQuestion(vessel=TIN), "no vessel called"),
        (ShelfQuestion(formula=PINE), "no formula called"),
        (ShelfQuestion(formula=PINE, vessel=TIN), "One thing at a time"),
    ],
)
def test_what_is_not_there(tmp_path: Path, question: ShelfQuestion, says: str) -> None:
    library = Library(tmp_path / "l.db")
    RecordDensity(material=SOY, density=Density.of("0.9")).act(library, on_day(1))
    answer = ask.answer(question, library.book((GROUP,), "7"))
    assert isinstance(answer, NotUnderstood)
    assert says in answer.headline.show()


def test_a_long_history_is_bounded_and_says_so(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    for load in range(1, 9):
        RecordFormula(name=PINE, load=Load(Percent.of(load))).act(library, on_day(load))
    for day in range(1, 29):
        LogTest(formula=PINE, observed=Words(f"test {day}")).act(library, on_day(day))
    book = library.book((GROUP,), "7")
    answer = ShelfQuestion(formula=PINE).answer(book)
    lines = [line.show() for line in answer.body]
    assert len([line for line in lines if line.startswith("Version ") and "Ada" in line and ", by" not in line]) >= 5
    assert lines[-1] == "And 3 older versions."
    assert answer.table is not None
    assert len(answer.table.rows) == 25
    assert answer.table.note is not None
    assert "The newest 25 are shown" in answer.table.note.show()
