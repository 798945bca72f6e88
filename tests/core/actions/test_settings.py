"""Settings and what is kept about somebody, as actions."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from core.actions.materials import RecordDensity
from core.actions.settings import ChangeSettings, Doing, FirstUnit, MyData, Whose
from core.answer import Missing
from core.book import Preferences
from core.compounds import Basis, Material
from core.errors import BadInput, NotAllowed
from core.library import Library, Space
from core.units import Density, Mass
from tests.core.library.shelves import GROUP, actor


def test_mine_and_the_servers(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    ChangeSettings(first=FirstUnit.OZ, step=Mass.of("0.5")).act(library, actor("8", may_edit=False))
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
        ChangeSettings(step=Mass.of(0)).act(Library(tmp_path / "l.db"), actor())


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
