"""Names on the shelf: made harmless, found by their beginning and by what comes near, each space for itself."""

from __future__ import annotations

import unicodedata
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.errors import BadInput, OutOfRange
from core.library import Library, Space, materials, names
from tests.core.library.shelves import ADA, GROUP, OTHER_GROUP, filled


@pytest.mark.parametrize(
    ("typed", "kept"),
    [
        ("  soy   wax A ", "soy wax A"),
        ("**bold** `wax`", "bold wax"),
        ("~~wax~~ ||hidden||", "wax hidden"),
        ("[wax](https://example.org)", "wax (https //example.org)"),
        ("wax:450g", "wax 450g"),
        ("evil\u202exaw", "evil xaw"),
        ("zero\u200bwidth\x00wax\n2", "zero width wax 2"),
        ("=SUM(1)", "SUM(1)"),
        ("Wachs № 4, „grün“", "Wachs № 4, grün"),
        ("大豆ワックス", "大豆ワックス"),
    ],
)
def test_cleaned(typed: str, kept: str) -> None:
    assert names.cleaned(typed) == kept


@pytest.mark.parametrize(
    "typed", ["@everyone", "x @Here", "<@123>", "<@&1> wax", "<#55>", "", " ", "***", "\u200b", "-"]
)
def test_names_that_are_refused(typed: str) -> None:
    with pytest.raises(BadInput) as refused:
        names.cleaned(typed)
    assert refused.value.sentence.endswith("plain words.")


def test_a_name_that_is_too_long() -> None:
    assert names.cleaned("w" * 80) == "w" * 80
    with pytest.raises(OutOfRange, match="80 characters"):
        names.cleaned("w" * 81)


@given(st.text(max_size=90))
def test_a_cleaned_name_is_harmless_and_stays_as_it_is(typed: str) -> None:
    try:
        kept = names.cleaned(typed)
    except (BadInput, OutOfRange):
        return
    assert not set(kept) & set('`*~|<>@\\[]{}:;="\n')
    assert all(unicodedata.category(sign)[0] != "C" for sign in kept)
    assert names.cleaned(kept) == kept
    assert len(kept) <= 80


def test_found_by_the_beginning_in_order_then_by_what_comes_near(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    with library.writing() as db:
        for name in ("Soy wax B", "soy wax A", "Soybean oil", "paraffin", "Sunflower wax", "beeswax"):
            materials.describe(db, GROUP, name, {"kind": "wax"}, ADA, "")
    book = library.book((GROUP,), "8")
    assert list(book.names("material", "SOY  w"))[:2] == ["soy wax A", "Soy wax B"]
    assert list(book.names("material", "")) == [
        *("beeswax", "paraffin", "soy wax A", "Soy wax B", "Soybean oil", "Sunflower wax")
    ]
    assert list(book.names("material", "", 2)) == ["beeswax", "paraffin"]
    assert next(iter(book.names("material", "sunflwer wax"))) == "Sunflower wax"
    assert list(book.names("material", "parafin")) == ["paraffin"]
    assert list(book.names("vessel", "soy")) == []
    assert list(book.names("material", "x' OR 1=1 --")) == []
    found = book.material("  SOY wax   a")
    assert found is not None
    assert found.name == "soy wax A"
    assert library.book((OTHER_GROUP,), "7").material("soy wax A") is None
    assert list(library.book((OTHER_GROUP, Space.own("7")), "7").names("material", "soy")) == []


def test_a_typing_slip_is_found_among_thousands(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    kept = filled(library, 3000)[::2]
    book = library.book((GROUP,), "7")
    slipped = [name[:4] + "x" + name[5:] for name in kept[::50]]
    found = [name in book.names("material", slip) for name, slip in zip(kept[::50], slipped, strict=True)]
    assert sum(found) / len(found) >= 0.95


def test_lookups_walk_an_index_and_read_a_bounded_number_of_rows(tmp_path: Path) -> None:
    """The steps of SQLite's virtual machine do not grow with the shelf: a prefix and a lookup cost the same."""
    library = Library(tmp_path / "l.db")

    def steps(start: str) -> int:
        count = 0

        def tick() -> int:
            nonlocal count
            count += 1
            return 0

        with library.reading() as db:
            assert db is not None
            db.set_progress_handler(tick, 10)
            names.suggest(db, (GROUP,), "7", "material", start, 25)
            names.find(db, (GROUP,), "7", "material", start)
            db.set_progress_handler(None, 0)
        return count

    filled(library, 500)
    few, few_near = steps("amber"), steps("amxer birhc")
    filled(library, 4500, start=500)
    assert steps("amber") <= few * 1.5 + 5
    assert steps("amxer birhc") <= max(few_near * 8, 3000)


@pytest.mark.parametrize("space", ["", "guild:", "group:1", "guild:1\n", "local2", "user:" + "9" * 90])
def test_what_is_no_space(space: str, tmp_path: Path) -> None:
    with pytest.raises(BadInput):
        Library(tmp_path / "l.db").book((space,), "7")
