"""What is kept about a person, shown and taken away; what goes when its time is over, and nothing before."""

from __future__ import annotations

import json
from pathlib import Path

from core.actions.forget import ForgetRecord
from core.actions.formulas import LogTest, RecordFormula
from core.actions.materials import RecordDensity
from core.compounds import FormulaName, Load, Material, SeenBy, Words
from core.library import Library, Space
from core.units import Density, Percent
from tests.core.library.shelves import GROUP, NOW, OTHER_GROUP, actor

MATERIAL, SECRET, SHARED = Material("zebra wax"), FormulaName("hidden heron"), FormulaName("open otter")
LOAD = Load(Percent.of(8))


def used(path: Path) -> Library:
    """A library in which Ada (7) and Bo (8) recorded things in two groups and for themselves."""
    library = Library(path)
    for user in ("7", "8"):
        for space in (GROUP, OTHER_GROUP, Space.own(user)):
            RecordDensity(material=MATERIAL, density=Density.of("0.9")).act(library, actor(user, space=space))
    RecordFormula(name=SECRET, load=LOAD, seen_by=SeenBy.ME, notes=Words("heronry")).act(library, actor("7"))
    RecordFormula(name=SHARED, load=LOAD).act(library, actor("7"))
    LogTest(formula=SHARED, observed=Words("no soot")).act(library, actor("7"))
    library.set_settings("user:7", {"first": "oz"})
    return library


def test_everything_that_bears_the_id_is_exported(tmp_path: Path) -> None:
    found = used(tmp_path / "l.db").export_person("7")
    assert json.loads(json.dumps(found)) == found
    assert found["settings"] == {"first": "oz"}
    assert {(row["space"], row["name"]) for row in found["versions"]} == {
        *((GROUP, MATERIAL), (OTHER_GROUP, MATERIAL), ("user:7", MATERIAL), (GROUP, SECRET), (GROUP, SHARED))
    }
    assert sorted(row["space"] for row in found["measurements"]) == [GROUP, OTHER_GROUP, "user:7"]
    assert [row["observed"] for row in found["tests"]] == ["no soot"]
    assert Library(tmp_path / "none.db").export_person("7") == {"user": "7"}


def test_a_person_is_forgotten_to_the_last_byte(tmp_path: Path) -> None:
    library = used(tmp_path / "l.db")
    library.forget_person("7")
    assert not any(library.export_person("7")[key] for key in ("settings", "versions", "measurements", "tests"))
    book = library.book((GROUP,), "7")
    assert book.formula(SECRET) is None
    shared = book.formula(SHARED)
    assert shared is not None
    assert "former member" in shared.how
    assert library.book(("user:7",), "7").material(MATERIAL) is None
    assert len(library.export_person("8")["measurements"]) == 3
    assert library.check() == []
    library.close()
    content = b"".join(one.read_bytes() for one in tmp_path.iterdir())
    for word in (b"heron", b"Ada", b"user:7"):
        assert word not in content
    assert b"otter" in content


def test_a_server_that_was_left_goes_after_its_days(tmp_path: Path) -> None:
    library = used(tmp_path / "l.db")
    library.set_settings(GROUP, {"basis": "total"})
    library.forget_space_after(GROUP, 30, NOW)  # 1 March
    library.purge("2026-03-31T11:00:00+00:00")
    assert library.book((GROUP,), "7").material(MATERIAL) is not None
    assert library.purge("2026-03-31T12:00:01+00:00") > 0
    assert library.book((GROUP,), "7").material(MATERIAL) is None
    assert library.own_settings(GROUP) == {}
    assert library.book((OTHER_GROUP,), "7").material(MATERIAL) is not None
    assert library.check() == []


def test_a_server_that_took_the_bot_back_keeps_its_shelf(tmp_path: Path) -> None:
    library = used(tmp_path / "l.db")
    library.forget_space_after(GROUP, 30, NOW)
    library.keep_space(GROUP)
    library.purge("2027-01-01T00:00:00+00:00")
    assert library.book((GROUP,), "7").material(MATERIAL) is not None


def test_what_was_deleted_goes_after_thirty_days(tmp_path: Path) -> None:
    library = used(tmp_path / "l.db")
    ForgetRecord(formula=SHARED).act(library, actor("7"))
    ForgetRecord(material=MATERIAL, number=1).act(library, actor("7"))
    assert library.purge("2026-03-31T11:00:00+00:00") == 0
    assert library.purge("2026-04-01T00:00:00+00:00") == 2
    with library.reading() as db:
        assert db is not None
        assert db.execute("SELECT count(*) FROM record WHERE name = ?", (SHARED,)).fetchone() == (0,)
        assert db.execute("SELECT count(*) FROM trial").fetchone() == (0,)
    assert library.check() == []


def test_questions_behind_buttons_are_kept_for_their_days(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    key = library.keep_asked("/load wax:450g load:8%", NOW)
    assert library.asked(key) == "/load wax:450g load:8%"
    assert library.keep_asked("/load wax:450g load:8%", NOW) == key
    library.purge("2026-03-20T00:00:00+00:00")
    assert library.asked(key) is not None
    library.keep_asked("/load wax:450g load:8%", "2026-03-20T00:00:00+00:00")  # asked again: kept longer
    library.purge("2026-04-05T00:00:00+00:00")
    assert library.asked(key) is not None
    library.purge("2026-05-01T00:00:00+00:00")
    assert library.asked(key) is None


def test_acts_are_remembered_for_two_days(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    RecordDensity(material=MATERIAL, density=Density.of("0.9")).act(library, actor(once="55"))
    library.purge("2026-03-02T00:00:00+00:00")
    assert library.seen("55")
    library.purge("2026-03-04T00:00:00+00:00")
    assert not library.seen("55")
