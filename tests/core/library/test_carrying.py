"""Formulas carried from one library to another: versions, tests and who may see them; nothing is overwritten."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from core.actions.forget import UndoDelete
from core.actions.formula_files import ExportFormulas, ImportFormulas, told
from core.actions.formulas import LogTest, RecordFormula
from core.answer import Answer
from core.book import FormulaRecord
from core.compounds import Additives, Basis, FormulaName, Load, Parts, SeenBy, Verdict, Words
from core.errors import BadInput, NotAllowed, NotFound, OutOfRange
from core.library import Library, formulas, portable_text, records
from core.library.portable import Portable
from core.library.portable_text import to_csv, to_json
from core.units import Percent
from tests.core.library.shelves import ADA, GROUP, OTHER_GROUP, actor, on_day
from tests.work import steps

PINE = FormulaName("winter pine")
AGAIN = "2026-04-01T12:00:00+00:00"


@pytest.fixture
def library(tmp_path: Path) -> Library:
    """Two versions of a formula of the group with two tests, and one that only Bo sees."""
    made = Library(tmp_path / "from.db")
    first = RecordFormula(
        name=PINE,
        load=Load(Percent.of("7.5"), Basis.TOTAL),
        waxes=Parts((("soy wax A", Decimal(70)), ("coconut", Decimal(30)))),
        additives=Additives((("dye", Percent.of("0.1")),)),
        notes=Words("stir"),
    )
    first.act(made, on_day(1))
    LogTest(formula=PINE, observed=Words("too faint"), verdict=Verdict.CHANGE, cure_days=14).act(made, on_day(15, "8"))
    RecordFormula(name=PINE, load=Load(Percent.of(9)), reason=Words("too faint")).act(made, on_day(16, "8"))
    LogTest(formula=PINE, observed=Words("no soot"), verdict=Verdict.WORKS).act(made, on_day(20))
    secret = RecordFormula(name=FormulaName("quince"), load=Load(Percent.of(6)), seen_by=SeenBy.ME)
    secret.act(made, on_day(2, "8"))
    return made


@pytest.fixture
def other(tmp_path: Path) -> Library:
    return Library(tmp_path / "to.db")


def taken(library: Library, user: str = "8", **which: FormulaName) -> tuple[Portable, ...]:
    return ExportFormulas(**which).take(library, actor(user)).found


def put(library: Library, text: str, who: str = "8", **more: object) -> Answer:
    action = ImportFormulas(data=text.encode(), seen_by=more.pop("seen_by", None))  # type: ignore[arg-type]
    return action.act(library, actor(who, now=AGAIN, **more))  # type: ignore[arg-type]


def said(answer: Answer) -> str:
    return "\n".join(line.show() for line in (answer.headline, *answer.body))


@pytest.mark.parametrize("shape", [to_json, to_csv])
def test_everything_arrives_and_goes_out_again_the_same(library: Library, other: Library, shape: object) -> None:
    assert callable(shape)
    assert "2 versions and 2 tests, of 1 formula" in said(put(other, shape(taken(library, formula=PINE)), who="8"))
    (before,), (after,) = taken(library, formula=PINE), taken(other, formula=PINE)
    assert [each.formula for each in before.versions] == [each.formula for each in after.versions]
    assert [each.at for each in before.versions] == [each.at for each in after.versions]
    # Bo brought it: what is Bo's stays Bo's, what was Ada's is told from what Ada did here.
    assert [each.by for each in after.versions] == ["Ada, in a file of Bo", "Bo"]
    keys = ("version", "cure_days", "observed", "verdict", "at")
    for one, two in zip(before.tests, after.tests, strict=True):
        assert [getattr(one, key) for key in keys] == [getattr(two, key) for key in keys]
    book = other.book((GROUP,), "7")
    newest = book.formula(PINE)
    assert newest is not None
    assert (newest.version, newest.reason, newest.how) == (2, "too faint", "recorded by Bo, 2026-03-16")
    assert [(one.version, one.observed) for one in book.tests(PINE)] == [(2, "no soot"), (1, "too faint")]
    assert portable_text.read(to_json(taken(other)).encode()) == portable_text.read(to_csv(taken(other)).encode())


def test_the_same_file_again_adds_nothing(library: Library, other: Library) -> None:
    text = to_json(taken(library))
    put(other, text)
    assert "Nothing new: 2 formulas were recorded just so already." in said(put(other, text))
    assert "Nothing new" in said(put(library, text))
    (pine,) = taken(other, formula=PINE)
    assert (len(pine.versions), len(pine.tests)) == (2, 2)


def test_only_what_is_new_is_added(library: Library, other: Library) -> None:
    put(other, to_json(taken(library)))
    RecordFormula(name=PINE, load=Load(Percent.of(8))).act(library, on_day(25))
    LogTest(formula=PINE, observed=Words("just right"), verdict=Verdict.WORKS).act(library, on_day(26))
    answer = said(put(other, to_json(taken(library))))
    assert "1 version and 1 test, of 1 formula" in answer
    assert "1 formula was recorded just so already." in answer
    book = other.book((GROUP,), "7")
    kept = book.formula(PINE)
    assert kept is not None
    assert (kept.version, kept.load) == (3, Percent.of(8))
    assert book.tests(PINE)[0].version == 3


def test_changed_in_both_places_nothing_is_lost(library: Library, other: Library) -> None:
    put(other, to_json(taken(library)))
    RecordFormula(name=PINE, load=Load(Percent.of(5))).act(other, actor("7", now="2026-04-02T12:00:00+00:00"))
    for day, load in ((25, 8), (26, 10)):
        RecordFormula(name=PINE, load=Load(Percent.of(load))).act(library, on_day(day))
        LogTest(formula=PINE, observed=Words(f"{load} per cent")).act(library, on_day(day))
    answer = said(put(other, to_json(taken(library))))
    assert "Changed here too" in answer
    assert "1 test was left out" in answer  # of 8 %, which is not here
    (pine,) = taken(other, formula=PINE)
    assert [each.formula.load.base for each in pine.versions] == [Decimal("7.5"), 9, 5, 10]
    assert pine.tests[-1].observed == "10 per cent"
    # What came later stands later, whatever its date in the file: an undo takes back what came last.
    assert [each.at for each in pine.versions] == sorted(each.at for each in pine.versions)
    UndoDelete(formula=PINE).act(other, actor("7", now="2026-04-03T12:00:00+00:00"))
    assert taken(other, formula=PINE)[0].tests[-1].observed == "no soot"


def test_who_may_see_them_goes_along(library: Library, other: Library) -> None:
    assert [one.private for one in taken(library)] == [True, False]  # quince, winter pine
    assert [one.name for one in taken(library, "7")] == ["winter pine"]
    put(other, to_csv(taken(library)))
    assert other.book((GROUP,), "8").formula("quince") is not None
    assert other.book((GROUP,), "7").formula("quince") is None
    assert other.book((GROUP,), "7").formula(PINE) is not None
    # Said otherwise, it is otherwise.
    put(other, to_csv(taken(library)), space=OTHER_GROUP, seen_by=SeenBy.GROUP)
    assert other.book((OTHER_GROUP,), "7").formula("quince") is not None


def test_from_ones_own_shelf_to_a_group_they_stay_private_unless_said(tmp_path: Path, other: Library) -> None:
    own = Library(tmp_path / "own.db")
    RecordFormula(name=PINE, load=Load(Percent.of(8))).act(own, actor("8", space=""))
    (one,) = ExportFormulas().take(own, actor("8", space="")).found
    put(other, to_json([one]), may_edit=False)  # nobody's leave is needed for that
    assert other.book((GROUP,), "7").formula(PINE) is None
    with pytest.raises(NotAllowed):
        put(other, to_json([one]), may_edit=False, seen_by=SeenBy.GROUP)
    assert other.book((GROUP,), "7").formula(PINE) is None
    put(other, to_json([one]), seen_by=SeenBy.GROUP)
    assert other.book((GROUP,), "7").formula(PINE) is not None


def test_a_date_in_the_future_is_the_day_it_came(other: Library) -> None:
    text = "name,load_percent,at,by\na,8,2099-01-01,Ada\n"
    put(other, text)
    assert [(each.at, each.by) for each in taken(other)[0].versions] == [(AGAIN, "Ada, in a file of Bo")]


def test_one_bad_formula_and_nothing_is_taken_in(other: Library) -> None:
    for bad, kind in (("bad,22,total", OutOfRange), ("bad,x,wax", BadInput), ("@everyone,8,wax", BadInput)):
        with pytest.raises(kind):
            put(other, f"name,load_percent,basis\ngood,8,wax\n{bad}\n")
        assert taken(other) == ()
    assert "empty" in said(put(other, " \n"))


def test_a_file_delivered_twice_is_taken_in_once(library: Library, other: Library) -> None:
    text = to_json(taken(library, formula=PINE)).encode()
    who = actor("8", now=AGAIN, once="interaction 1")
    ImportFormulas(data=text).act(other, who)
    assert "done already" in said(ImportFormulas(data=text).act(other, who))


def test_one_formula_alone_or_none_of_that_name(library: Library) -> None:
    assert [one.name for one in taken(library, formula=FormulaName("WINTER  pine"))] == ["winter pine"]
    with pytest.raises(NotFound) as refused:
        ExportFormulas(formula=FormulaName("winter pin")).take(library, actor())
    assert refused.value.near == ("winter pine",)


def test_nothing_recorded_is_said(tmp_path: Path) -> None:
    empty = Library(tmp_path / "none.db")
    assert "no formula to export" in said(told(ExportFormulas().take(empty, actor())))


def many(library: Library, count: int, versions: int = 1, notes: str = "") -> None:
    with library.writing() as db:
        for number in range(count):
            for load in range(1, versions + 1):
                one = FormulaRecord(f"formula {number:05}", 0, Percent(Decimal(load) / 10), Basis.WAX, notes=notes)
                records.write(db, GROUP, formulas.KIND, one.name, formulas.to_data(one), ADA)


def test_more_than_fit_into_one_file_go_on_in_the_next(tmp_path: Path, other: Library) -> None:
    large = Library(tmp_path / "large.db")
    many(large, 1700, notes="n" * 400)
    after, files = None, 0
    while files == 0 or after:
        out = ExportFormulas(after=after).take(large, actor())
        for text in (to_json(out.found), to_csv(out.found)):
            assert len(text.encode()) <= portable_text.LARGEST_FILE
        put(other, to_csv(out.found))
        after, files = FormulaName(out.after), files + 1
        assert bool(out.after) == ("go on with" in said(told(out)))
    assert files == 2
    with other.reading() as db:
        assert db is not None
        assert db.execute("SELECT count(*) FROM record").fetchone() == (1700,)


def test_a_formula_too_long_for_a_file_is_cut_at_its_oldest_end_and_that_is_said(tmp_path: Path) -> None:
    library = Library(tmp_path / "long.db")
    many(library, 1, versions=240, notes="ß" * 500)
    out = ExportFormulas().take(library, actor())
    (one,) = out.found
    assert [each.formula.version for each in one.versions] == list(range(141, 241))
    assert "without the oldest versions" in said(told(out))
    # Taken in again where it came from, it is known all the same.
    assert "Nothing new" in said(put(library, to_json(out.found)))


def test_twice_as_many_formulas_are_twice_the_work_to_take_in(tmp_path: Path) -> None:
    """Counted in steps of SQLite; for each formula to go through all that are there would be four times."""

    def work(count: int) -> int:
        large, fresh = Library(tmp_path / f"from{count}.db"), Library(tmp_path / f"to{count}.db")
        many(large, count)
        text = to_json(ExportFormulas().take(large, actor()).found)
        with fresh.writing():
            pass  # the file is made
        with fresh.reading() as db:
            assert db is not None
        with steps(db) as ran:  # of this thread's one connection
            assert f"of {count} formulas" in said(put(fresh, text))
        return len(ran)

    assert work(200) <= 2.5 * work(100)
