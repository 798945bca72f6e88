"""Formulas: every change a version, tests logged beside it, private ones private."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from core.actions.forget import ForgetRecord, UndoDelete
from core.actions.formula_files import ExportFormulas
from core.actions.formulas import LogTest, RecordFormula
from core.actions.materials import RecordMaterial
from core.answer import Answer, Declined, Missing
from core.compounds import Additives, Basis, FormulaName, Load, Material, Parts, SeenBy, Verdict, VesselName, Words
from core.errors import NotFound, OutOfRange
from core.library import Library
from core.library.portable_text import to_json
from core.units import Percent
from tests.core.library.shelves import GROUP, OTHER_GROUP, actor, on_day

PINE = FormulaName("winter pine")
FULL = RecordFormula(
    name=PINE,
    load=Load(Percent.of(8)),
    waxes=Parts((("soy wax A", Decimal(70)), ("", Decimal(30)))),
    fragrances=Parts((("pine", Decimal(60)), ("orange", Decimal(40)))),
    additives=Additives((("dye", Percent.of("0.1")),)),
    vessel=VesselName("amber tin"),
    notes=Words("stir"),
)


@pytest.fixture
def library(tmp_path: Path) -> Library:
    return Library(tmp_path / "l.db")


def record(library: Library, load: int, day: int = 1, **said: object) -> Answer:
    action = RecordFormula(name=PINE, load=Load(Percent.of(load)), **said)  # type: ignore[arg-type]
    return action.act(library, on_day(day))


def test_every_change_is_a_version_and_the_rest_stays(library: Library) -> None:
    FULL.act(library, on_day(1))
    answer = record(library, 9, 2, reason=Words("too faint"))
    assert answer.headline.show() == "Recorded: winter pine, version 2."
    book = library.book((GROUP,), "8")
    first, second = book.formula(PINE, 1), book.formula("WINTER  pine")
    assert first is not None
    assert second is not None
    assert (first.load, second.load) == (Percent.of(8), Percent.of(9))
    assert (second.version, second.reason, second.how) == (2, "too faint", "recorded by Ada, 2026-03-02")
    assert first.waxes == second.waxes == (("soy wax A", Decimal(70)), ("wax", Decimal(30)))
    assert (second.fragrances, second.vessel, second.notes) == (FULL.fragrances.items, "amber tin", "stir")  # type: ignore[union-attr]
    assert second.additives == (("dye", Percent.of("0.1")),)
    assert book.formula(PINE, 3) is None


def test_the_same_again_is_no_new_version(library: Library) -> None:
    FULL.act(library, on_day(1))
    assert "nothing has changed" in FULL.act(library, on_day(2)).headline.show()
    kept = library.book((GROUP,), "7").formula(PINE)
    assert kept is not None
    assert kept.version == 1


def test_additives_of_nothing_drop_them(library: Library) -> None:
    FULL.act(library, on_day(1))
    RecordFormula(name=PINE, additives=Additives((("dye", Percent.of(0)),))).act(library, on_day(2))
    kept = library.book((GROUP,), "7").formula(PINE)
    assert kept is not None
    assert kept.additives == ()


def test_the_basis_is_the_words_then_the_slot_then_the_groups(library: Library) -> None:
    library.set_settings(GROUP, {"basis": "total"})
    cases = {
        "a": (RecordFormula(name=FormulaName("a"), load=Load(Percent.of(8), Basis.WAX)), Basis.WAX),
        "b": (RecordFormula(name=FormulaName("b"), load=Load(Percent.of(8)), basis=Basis.WAX), Basis.WAX),
        "c": (RecordFormula(name=FormulaName("c"), load=Load(Percent.of(8))), Basis.TOTAL),
    }
    for name, (action, basis) in cases.items():
        action.act(library, actor())
        kept = library.book((GROUP,), "7").formula(name)
        assert kept is not None
        assert kept.basis is basis


def test_the_strictest_sheet_of_its_waxes_warns(library: Library) -> None:
    for name, most in (("soy wax A", 10), ("wax", 7)):
        RecordMaterial(material=Material(name), max_load=Percent.of(most)).act(library, actor())
    answer = FULL.act(library, actor())
    assert [caution.key for caution in answer.cautions] == ["over_limit"]
    assert "7 %" in answer.cautions[0].line.show()


def test_a_load_no_wax_holds_is_not_kept(library: Library) -> None:
    assert isinstance(record(library, 25), Declined)
    # 21 % of the total is 26.6 % of the wax: F = 0.21/(1 − 0.21)
    assert isinstance(record(library, 21, basis=Basis.TOTAL), Declined)
    assert library.book((GROUP,), "7").formula(PINE) is None
    assert isinstance(RecordFormula(name=PINE).act(library, actor()), Missing)


def test_tests_are_logged_with_the_version_they_were_of(library: Library) -> None:
    FULL.act(library, on_day(1))
    LogTest(formula=PINE, observed=Words("too faint"), verdict=Verdict.CHANGE, cure_days=14).act(library, on_day(2))
    record(library, 9, 3)
    LogTest(formula=PINE, observed=Words("no soot"), verdict=Verdict.WORKS).act(library, on_day(4))
    LogTest(formula=PINE, observed=Words("again"), version=1).act(library, on_day(5, "8"))
    found = library.book((GROUP,), "7").tests(PINE)
    assert [(one.number, one.version, one.cure_days, one.observed, one.verdict) for one in found] == [
        (3, 1, None, "again", ""),
        (2, 2, None, "no soot", "works"),
        (1, 1, 14, "too faint", "needs a change"),
    ]
    assert found[0].how == "tested by Bo, 2026-03-05"
    ForgetRecord(formula=PINE, number=2).act(library, on_day(6))
    assert [one.number for one in library.book((GROUP,), "7").tests(PINE)] == [3, 1]
    assert UndoDelete(formula=PINE).act(library, on_day(7)).headline.show() == "Test 2 of winter pine is back."
    assert UndoDelete(formula=PINE).act(library, on_day(8)).headline.show() == "Test 3 of winter pine is taken back."


@pytest.mark.parametrize(
    "action",
    [
        LogTest(formula=PINE, observed=Words("x"), version=9),
        LogTest(formula=PINE, observed=Words("x"), cure_days=-1),
        LogTest(formula=PINE, observed=Words("x"), cure_days=9999),
        LogTest(formula=PINE, observed=Words("x" * 501)),
        LogTest(formula=FormulaName("nowhere"), observed=Words("x")),
        ForgetRecord(formula=PINE, number=3),
    ],
)
def test_tests_that_can_not_be(library: Library, action: LogTest | ForgetRecord) -> None:
    FULL.act(library, on_day(1))
    with pytest.raises((OutOfRange, NotFound)) as refused:
        action.act(library, on_day(2))
    assert refused.value.sentence


def test_a_private_formula_is_seen_by_its_maker_alone(library: Library) -> None:
    mine = RecordFormula(name=PINE, load=Load(Percent.of(6)), seen_by=SeenBy.ME)
    answer = mine.act(library, actor("8", may_edit=False))
    assert "Only you can see it." in [line.show() for line in answer.body]
    FULL.act(library, actor("7"))
    ada, bo = library.book((GROUP,), "7"), library.book((GROUP,), "8")
    for book, load in ((ada, 8), (bo, 6)):
        kept = book.formula(PINE)
        assert kept is not None
        assert kept.load == Percent.of(load)
        assert list(book.names("formula", "win")) == ["winter pine"]
    assert library.book((OTHER_GROUP,), "8").formula(PINE) is None
    # Bo's next change is of Bo's own, and needs nobody's leave; so is its test and its deletion.
    LogTest(formula=PINE, observed=Words("fine")).act(library, actor("8", may_edit=False))
    assert (len(ada.tests(PINE)), len(bo.tests(PINE))) == (0, 1)
    ForgetRecord(formula=PINE).act(library, actor("8", may_edit=False))
    kept = bo.formula(PINE)
    assert kept is not None
    assert kept.load == Percent.of(8)
    UndoDelete(formula=PINE).act(library, actor("7"))
    assert library.book((GROUP,), "8").formula(PINE) is None


def test_a_private_name_is_no_near_miss_for_anybody_else(library: Library) -> None:
    secret = FormulaName("midnight quince")
    RecordFormula(name=secret, load=Load(Percent.of(6)), seen_by=SeenBy.ME).act(library, actor("8"))
    mine, others = library.book((GROUP,), "8"), library.book((GROUP,), "7")
    for start in ("", "mid", "midnight quince", "midnigth quince", "quince"):
        assert list(mine.names("formula", start)) == ["midnight quince"], start
        assert list(others.names("formula", start)) == [], start
    assert others.formula(secret) is None
    assert "quince" not in to_json(ExportFormulas().take(library, actor("7")).found)
    assert "quince" in to_json(ExportFormulas().take(library, actor("8")).found)
    with pytest.raises(NotFound) as refused:
        ForgetRecord(formula=FormulaName("midnigth quince")).act(library, actor("7"))
    assert refused.value.near == ()
