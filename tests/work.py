"""How much work something takes, counted instead of timed: a count is the same on every machine."""

from __future__ import annotations

import sqlite3
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from types import FrameType


def lines_run(work: Callable[[], object]) -> int:
    """How many lines of Python run while `work` does."""
    count = 0

    def trace(frame: FrameType, event: str, _: object) -> object:
        nonlocal count
        count += event == "line"
        return trace

    before = sys.gettrace()
    sys.settrace(trace)  # type: ignore[arg-type]
    try:
        work()
    finally:
        sys.settrace(before)
    return count


@contextmanager
def steps(db: sqlite3.Connection) -> Iterator[list[int]]:
    """An entry for every hundred steps that SQLite takes on this connection meanwhile."""
    taken: list[int] = []
    db.set_progress_handler(lambda: taken.append(1), 100)
    try:
        yield taken
    finally:
        db.set_progress_handler(None, 100)
