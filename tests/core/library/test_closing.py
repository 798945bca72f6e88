"""A library that is closed while others are in the middle of it: nothing breaks, and it opens again at the next use."""

from __future__ import annotations

import threading
from pathlib import Path

from core.errors import LibraryUnavailable
from core.library import Library
from tests.core.library.shelves import GROUP, NOW, filled


def test_closed_again_and_again_while_threads_read_and_write(tmp_path: Path) -> None:
    """SQLite's connections break the whole process when one is closed under a running statement."""
    library = Library(tmp_path / "l.db")
    names = filled(library, 300)
    stop = threading.Event()
    failed: list[BaseException] = []

    def work(number: int) -> None:
        turn = 0
        while not stop.is_set():
            turn += 1
            try:
                assert library.book((GROUP,), "7").material(names[0]) is not None
                library.book((GROUP,), "7").names("material", "amber", 25)
                if turn % 5 == number:
                    library.keep_asked(f"/load wax:{number}{turn} g", NOW)
            except LibraryUnavailable as error:
                if not error.reason.startswith("locked"):  # writers may be in each other's way
                    failed.append(error)
            except BaseException as error:
                failed.append(error)

    threads = [threading.Thread(target=work, args=(number,)) for number in range(4)]
    for thread in threads:
        thread.start()
    for _ in range(150):
        library.close()
    stop.set()
    for thread in threads:
        thread.join()
    library.close()
    assert failed == []


def test_closing_inside_of_its_own_reading_waits_for_nobody(tmp_path: Path) -> None:
    library = Library(tmp_path / "l.db")
    filled(library, 2)
    with library.reading() as db:
        assert db is not None
        library.close()
    assert len(library.book((GROUP,), "7").names("material", "", 5)) == 1
    library.close()
