"""What every act of recording keeps to: the right shelf, leave to write, once only, a sentence for every refusal."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from core.action import Action
from core.actions import ACTIONS, BY_COMMAND
from core.answer import Answer, Missing
from core.ask import from_error
from core.book import EmptyBook
from core.errors import LibraryUnavailable, NotAllowed, SteelyardError
from core.library import Library, Space
from core.question import description, slots_of
from core.reading.slash_form import read_form, write_form
from tests.core.library.shelves import GROUP, OTHER_GROUP, actor

WRITING = (
    "/record_density material:soy wax A density:0.9 g/ml",
    "/record_material material:soy wax A max_load:10% flash_point:93 °C notes:sheet of March",
    "/record_vessel vessel:amber tin room:250 ml fill:200 g weight:180 g how:weighed",
    "/record_formula name:winter pine load:8% waxes:soy 70, coconut 30 fragrances:pine 60, orange 40 "
    "additives:dye 0.1% vessel:amber tin notes:stir",
    "/log_test formula:winter pine observed:no soot verdict:works cure_days:14",
    "/undo formula:winter pine",
    "/delete vessel:amber tin",
)


def do(library: Library, text: str, **who: object) -> Answer:
    """The action typed, done; what it raises as the answer everybody gets."""
    asked = read_form(text, BY_COMMAND, EmptyBook())
    try:
        return asked.act(library, actor(**who))  # type: ignore[arg-type]
    except SteelyardError as error:
        return from_error(error, asked.command)


def said(answer: Answer) -> str:
    """The whole answer in plain words."""
    lines = [answer.headline, *answer.body, *(caution.line for caution in answer.cautions)]
    needs = [need.what for need in answer.needs] if isinstance(answer, Missing) else []
    return "\n".join(line.show() for line in (*lines, *needs))


@pytest.mark.parametrize("kind", ACTIONS)
def test_every_action_declares_itself_for_the_adapters(kind: type[Action]) -> None:
    assert 1 <= len(description(kind)) <= 100
    assert kind.command.isidentifier()
    assert kind.command.islower()
    assert 0 < len(slots_of(kind)) <= 25
    for slot in slots_of(kind):
        assert 1 <= len(slot.says) <= 100, slot.name


@pytest.mark.parametrize("text", WRITING)
def test_the_slash_form_reads_back_to_the_same_action(text: str) -> None:
    asked = read_form(text, BY_COMMAND, EmptyBook())
    assert read_form(write_form(asked), BY_COMMAND, EmptyBook()) == asked


def test_every_action_writes_and_says_so(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    for text in WRITING:
        answer = do(library, text)
        assert answer.kind == "worked", said(answer)
        assert answer.intent == text.split()[0][1:]
    assert library.check() == []


def test_nothing_of_one_shelf_shows_in_another(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    for text in WRITING[:4]:
        do(library, text)
    for spaces in ((OTHER_GROUP,), (Space.own("7"),), (Space("local"),), (OTHER_GROUP, Space.own("7"))):
        book = library.book(spaces, "7")
        assert book.material("soy wax A") is None
        assert book.vessel("amber tin") is None
        assert book.formula("winter pine") is None
        assert [list(book.names(kind, "")) for kind in ("material", "vessel", "formula")] == [[], [], []]
    for text in ("/log_test formula:winter pine observed:x", "/delete vessel:amber tin", "/undo formula:winter pine"):
        assert do(library, text, space=OTHER_GROUP).kind == "not_understood"
    do(library, "/record_vessel vessel:my tin room:100 ml", space="")
    assert library.book((Space.own("7"),), "7").vessel("my tin") is not None
    assert library.book((GROUP,), "7").vessel("my tin") is None
    assert library.book((GROUP, Space.own("7")), "7").vessel("my tin") is not None


@pytest.mark.parametrize("text", WRITING)
def test_without_leave_nothing_is_written(tmp_path: Path, text: str) -> None:
    library = Library(tmp_path / "l.db")
    for each in WRITING[:4]:
        do(library, each)
    with library.reading() as db:
        assert db is not None
        before = list(db.iterdump())
    asked = read_form(text, BY_COMMAND, EmptyBook())
    with pytest.raises(NotAllowed, match="directly") as refused:
        asked.act(library, actor("8", may_edit=False))
    assert refused.value.key == "not_allowed"
    with library.reading() as db:
        assert db is not None
        assert list(db.iterdump()) == before
    assert asked.act(library, actor("8", space=Space.own("8"), may_edit=False)) if text in WRITING[:4] else True


@pytest.mark.parametrize("text", WRITING)
def test_delivered_twice_written_once(tmp_path: Path, text: str) -> None:
    library = Library(tmp_path / "l.db")
    for each in WRITING[:5]:
        do(library, each)
    first = do(library, text, once="interaction 9")
    with library.reading() as db:
        assert db is not None
        before = list(db.iterdump())
    again = do(library, text, once="interaction 9")
    assert first.kind == again.kind == "worked"
    assert "done already" in said(again)
    with library.reading() as db:
        assert db is not None
        assert list(db.iterdump()) == before


@pytest.mark.parametrize("text", WRITING)
def test_a_library_that_can_not_be_written_is_said(tmp_path: Path, text: str) -> None:
    (tmp_path / "l.db").write_text("no database " * 100)
    asked = read_form(text, BY_COMMAND, EmptyBook())
    with pytest.raises(LibraryUnavailable, match="no database"):
        asked.act(Library(tmp_path / "l.db"), actor())


@pytest.mark.parametrize("kind", ACTIONS)
def test_with_nothing_given_it_asks_or_tells(tmp_path: Path, kind: type[Action]) -> None:
    answer = kind().act(Library(tmp_path / "l.db"), actor())
    assert answer.kind == ("worked" if kind.command in ("settings", "my_data") else "missing")
    assert said(answer)
    assert not (tmp_path / "l.db").exists()


@pytest.mark.parametrize(
    "name",
    ["@everyone", "<@123>", "***", "\u202e", "n" * 200, "a\x00b" * 100, "`" * 50, "😀", "'; DROP TABLE record; --"],
)
@pytest.mark.parametrize("text", ["/record_density density:0.9 g/ml material:", "/record_formula load:8% name:"])
def test_hostile_names_are_cleaned_or_refused(tmp_path: Path, text: str, name: str) -> None:
    library = Library(tmp_path / "l.db")
    sentence = ""
    try:
        sentence = said(do(library, text + name))
    except SteelyardError as error:  # refused while it is read already
        sentence = error.sentence
    assert sentence
    book = library.book((GROUP,), "7")
    for kept in (*book.names("material", ""), *book.names("formula", "")):
        assert kept in ("a b", "DROP TABLE record")
    assert library.check() == []


def test_a_hostile_persons_name_is_made_harmless(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    for name in ("@everyone", "**A**da\u202e\n<b>", "", "x" * 500):
        who = replace(actor(), name=name)
        read_form("/record_density material:soy density:0.9 g/ml", BY_COMMAND, EmptyBook()).act(library, who)
    hows = [one.how for one in library.book((GROUP,), "7").measurements("soy")]
    assert [how.removeprefix("measured by ")[:8] for how in hows] == ["somebody", "A da b, ", "somebody", "xxxxxxxx"]
