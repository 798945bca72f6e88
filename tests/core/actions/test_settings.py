"""Settings and what is kept about somebody, as actions."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from core.actions import BY_COMMAND
from core.actions.materials import RecordDensity
from core.actions.settings import ChangeSettings, Doing, FirstUnit, MyData, Whose
from core.answer import Missing
from core.book import EmptyBook, Preferences
from core.compounds import Basis, Material, ScaleStep
from core.errors import BadInput, NotAllowed
from core.library import Library, Space
from core.questions.steps import NO_STEP, scale_step
from core.questions.weigh_out import step_of
from core.reading.slash_form import read_form
from core.units import Density, Mass
from tests.core.library.shelves import GROUP, actor


def test_mine_and_the_servers(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    ChangeSettings(first=FirstUnit.OZ, step=ScaleStep(Mass.of("0.5"))).act(library, actor("8", may_edit=False))
    with pytest.raises(NotAllowed):
        ChangeSettings(basis=Basis.TOTAL, whose=Whose.SERVER).act(library, actor("8", may_edit=False))
    answer = ChangeSettings(basis=Basis.TOTAL, whose=Whose.SERVER).act(library, actor())
    assert [line.show() for line in answer.body] == ["A load is a percent of the total."]
    book = library.book((GROUP,), "8")
    assert book.preferences == Preferences("oz", Decimal("0.5"), False, Basis.TOTAL)
    assert library.book((GROUP,), "7").preferences == Preferences(basis=Basis.TOTAL)
    ChangeSettings(first=FirstUnit.QUESTION).act(library, actor("8"))
    assert library.book((GROUP,), "8").preferences.first == ""
    with pytest.raises(BadInput, match="no server"):
        ChangeSettings(basis=Basis.TOTAL, whose=Whose.SERVER).act(library, actor(space=Space.own("7")))


def test_asked_with_nothing_it_says_what_is_set(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    assert ChangeSettings().act(library, actor()).headline.show() == "Nothing is set: all as usual."
    ChangeSettings(comma=True).act(library, actor())
    answer = ChangeSettings().act(library, actor())
    assert [line.show() for line in answer.body] == ["Decimal comma: yes."]


def test_a_step_no_scale_has(tmp_path: Path) -> None:
    with pytest.raises(BadInput):
        ChangeSettings(step=ScaleStep(Mass.of(0))).act(Library(tmp_path / "l.db"), actor())


def test_what_is_kept_is_shown_and_deleted_when_sure(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    RecordDensity(material=Material("soy"), density=Density.of("0.9")).act(library, actor())
    ChangeSettings(comma=True).act(library, actor())
    assert MyData().act(library, actor()).headline.show() == "Kept about you: 3 things."
    assert MyData().act(library, actor("8")).headline.show() == "Nothing is kept about you."
    assert isinstance(MyData(what=Doing.DELETE).act(library, actor()), Missing)
    assert MyData().act(library, actor()).headline.show() == "Kept about you: 3 things."
    MyData(what=Doing.DELETE, sure=True).act(library, actor())
    assert MyData().act(library, actor()).headline.show() == "Nothing is kept about you."
    assert library.book((GROUP,), "7").material("soy") is not None


def test_the_step_can_be_unset_and_what_then_holds_is_what_answers_do(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    read_form("/settings step:0.1 g", BY_COMMAND, EmptyBook()).act(library, actor())
    assert library.book((GROUP,), "7").preferences.step == Decimal("0.1")
    for words in ("none", "not set", "off"):
        asked = read_form(f"/settings step:{words}", BY_COMMAND, EmptyBook())
        assert asked == ChangeSettings(step=ScaleStep(None))
        answer = asked.act(library, actor())
    assert library.book((GROUP,), "7").preferences.step is None
    assert answer.headline.show() == "Nothing is set: all as usual."
    assert answer.body[0].show() == f"The scale's step is {NO_STEP}."
    # What is said is what is done, in grams and in ounces.
    book = library.book((GROUP,), "7")
    assert f"{scale_step(book)} g" in NO_STEP
    assert (step_of(None, "g", book)[0], step_of(None, "oz", book)[0].oz) == (Mass.of(1), Decimal("0.1"))
    assert "0.1 oz for a list in ounces" in NO_STEP
