"""The file itself: made late, refused with a sentence, never a traceback; once only, from several threads."""

from __future__ import annotations

import contextlib
import os
import sqlite3
import subprocess
import sys
import tempfile
import textwrap
from pathlib import Path

import pytest

from core.book import Preferences
from core.errors import LibraryUnavailable
from core.library import Library, migrations
from tests.core.library.shelves import GROUP, record_another, recorded

ROOT = Path(__file__).parents[3]


def test_reading_makes_no_file_and_writing_makes_folder_and_file(tmp_path: Path) -> None:
    path = tmp_path / "a" / "b" / "library.db"
    library = Library(path)
    book = library.book((GROUP,), "7")
    assert book.material("soy wax A") is None
    assert book.preferences == Preferences()
    assert list(book.names("material", "s")) == []
    assert (book.trouble, library.check(), library.asked("x"), library.seen("1")) == ("", [], None, False)
    assert not path.parent.exists()
    assert recorded(path).book((GROUP,), "7").material("soy wax A") is not None
    assert path.exists()


def test_a_file_that_is_used_keeps_a_log_beside_it(tmp_path: Path) -> None:
    recorded(tmp_path / "l.db")
    with contextlib.closing(sqlite3.connect(tmp_path / "l.db")) as db:
        assert db.execute("PRAGMA journal_mode").fetchone() == ("wal",)


@pytest.mark.parametrize(
    ("content", "says"),
    [(b"this is no database, only words\n" * 100, "no database"), (b"SQLite format 3\x00" + b"\xff" * 5000, "")],
)
def test_a_file_that_is_no_database(tmp_path: Path, content: bytes, says: str) -> None:
    path = tmp_path / "l.db"
    path.write_bytes(content)
    library = Library(path)
    book = library.book((GROUP,), "7")
    assert book.material("soy wax A") is None
    assert book.trouble
    assert says in book.trouble
    assert library.check() == [book.trouble]
    with pytest.raises(LibraryUnavailable):
        record_another(library)
    assert path.read_bytes() == content


def test_a_damaged_file_is_noticed(tmp_path: Path) -> None:
    path = tmp_path / "l.db"
    library = recorded(path)
    library.close()
    content = bytearray(path.read_bytes())
    for page in range(2, len(content) // 4096):
        content[page * 4096 : page * 4096 + 200] = b"\x5a" * 200
    path.write_bytes(bytes(content))
    library = Library(path)
    book = library.book((GROUP,), "7")
    assert book.material("soy wax A") is None
    assert "damaged" in book.trouble
    assert any("damaged" in line for line in library.check())
    with pytest.raises(LibraryUnavailable, match="damaged"):
        record_another(library)


def test_a_database_of_something_else_is_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "l.db"
    with contextlib.closing(sqlite3.connect(path)) as other:
        other.execute("CREATE TABLE bills (id)")
        other.commit()
    library = Library(path)
    assert "something else" in library.book((GROUP,), "7").trouble
    with pytest.raises(LibraryUnavailable, match="something else"):
        record_another(library)


def test_a_newer_file_is_refused(tmp_path: Path) -> None:
    path = tmp_path / "l.db"
    recorded(path).close()
    with contextlib.closing(sqlite3.connect(path)) as db:
        db.execute(f"PRAGMA user_version = {migrations.NEWEST + 1}")
    library = Library(path)
    assert library.book((GROUP,), "7").material("soy wax A") is None
    assert "newer" in library.book((GROUP,), "7").trouble
    with pytest.raises(LibraryUnavailable, match="newer"):
        record_another(library)


def test_a_folder_that_can_not_be(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("in the way")
    library = Library(tmp_path / "file" / "l.db")
    assert "folder" in library.book((GROUP,), "7").trouble
    assert len(library.check()) == 1
    with pytest.raises(LibraryUnavailable, match="folder"):
        record_another(library)


def test_a_folder_in_place_of_the_file(tmp_path: Path) -> None:
    library = Library(tmp_path)
    assert library.book((GROUP,), "7").trouble
    with pytest.raises(LibraryUnavailable):
        record_another(library)


READ_ONLY = """
    import os, sys
    from pathlib import Path
    from core.errors import LibraryUnavailable
    from core.library import Library, materials
    from core.library.records import Stamp
    if os.getuid() == 0:  # root may write anywhere
        os.setgid(65534), os.setuid(65534)
    library = Library(Path(sys.argv[1]))
    book = library.book(("guild:100",), "7")
    print(book.material("soy wax A") is not None, book.trouble)
    try:
        with library.writing() as db:
            materials.describe(db, "guild:100", "x", {}, Stamp("7", "Ada", ""), "")
    except LibraryUnavailable as error:
        print(error.sentence)
    print(library.check())
"""


@pytest.mark.parametrize("log_left", [False, True])
def test_a_write_protected_file_is_read_and_says_so_when_written(log_left: bool) -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        library = recorded(folder / "l.db")
        if not log_left:
            library.close()
        for one in folder.iterdir():
            one.chmod(0o444)
        folder.chmod(0o555)
        done = subprocess.run(
            [sys.executable, "-c", textwrap.dedent(READ_ONLY), str(folder / "l.db")],
            capture_output=True,
            text=True,
            check=False,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        folder.chmod(0o755)
    assert done.stderr == ""
    read, written, checked = done.stdout.splitlines()
    assert read == "True "
    assert "write-protected" in written
    assert "write-protected" in checked


def test_closed_and_used_again(tmp_path: Path) -> None:
    library = recorded(tmp_path / "l.db")
    library.close()
    assert [one.name for one in tmp_path.iterdir()] == ["l.db"]
    assert library.book((GROUP,), "7").material("soy wax A") is not None


def test_answering_needs_no_sqlite_utils(tmp_path: Path) -> None:
    """It takes tens of megabytes; only the making of a file and its upgrades import it."""
    recorded(tmp_path / "l.db").close()
    code = (
        "import sys; from pathlib import Path; from core.library import Library; import core.actions;"
        "book = Library(Path(sys.argv[1])).book(('guild:100',), '7'); book.preferences;"
        "print(book.material('soy wax A').name, 'sqlite_utils' in sys.modules)"
    )
    done = subprocess.run(
        [sys.executable, "-c", code, str(tmp_path / "l.db")],
        capture_output=True,
        text=True,
        check=True,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    assert done.stdout.strip() == "soy wax A False"
