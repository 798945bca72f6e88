"""Formulas taken out of a library with all their versions and tests, and put into one; nothing there is overwritten."""

from __future__ import annotations

import json
import sqlite3
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from core.library import formulas, names, records
from core.library.portable import (
    IN_A_FILE,
    MOST_FORMULAS,
    MOST_TESTS,
    MOST_VERSIONS,
    Portable,
    PortableTest,
    PortableVersion,
)
from core.library.portable_text import LARGEST_FILE, csv_rows, json_row
from core.library.records import Stamp
from core.library.space import Space

MARGIN = 1024  # of a file, for its first and last lines
ALL = -1  # as a limit of SQLite


@dataclass(frozen=True, slots=True)
class TakenOut:
    """The formulas of one file; `after` the name to go on from, "" when those were all; `cut` the names of those whose
    oldest versions or tests did not fit."""

    found: tuple[Portable, ...]
    after: str = ""
    cut: tuple[str, ...] = ()


def take_out(db: sqlite3.Connection, space: Space, user: str, *, only: str = "", after: str = "") -> TakenOut:
    """What `user` may see of that shelf by name, as much of it as one file takes; `only` one, or those `after` one."""
    found: list[Portable] = []
    cut: list[str] = []
    room = LARGEST_FILE - MARGIN
    for name, record, private in _records(db, space, user, only, after):
        one, whole = _fitting(_portable(db, record, private or not space.shared))
        room -= _size(one)
        if room < 0 or len(found) == MOST_FORMULAS:
            # The group's and the user's own of one name stay together: the next file begins after a name.
            while len(found) > 1 and names.folded(found[-1].name) == names.folded(name):
                found.pop()
            return TakenOut(tuple(found), found[-1].name, tuple(cut))
        found.append(one)
        cut += [] if whole else [name]
    return TakenOut(tuple(found), "", tuple(cut))


def _records(db: sqlite3.Connection, space: Space, user: str, only: str, after: str) -> Iterator[tuple[str, int, bool]]:
    """Name, id and whether it is the user's alone; those of one name come together."""
    begin, end = (names.folded(only), names.folded(only)) if only else (names.folded(after), "\U0010ffff")
    for shelf in names.shelves(db, (space,), formulas.KIND):
        yield from (
            (name, record, bool(reader))
            for name, record, reader, folded in db.execute(
                "SELECT name, id, reader, folded FROM record WHERE shelf = ? AND reader IN ('', ?) "
                "AND folded BETWEEN ? AND ? AND deleted_at IS NULL ORDER BY folded, reader LIMIT ?",
                (shelf, user, begin, end, MOST_FORMULAS + 2),
            )
            if only or folded != begin
        )


def _portable(db: sqlite3.Connection, record: int, private: bool) -> Portable:
    versions = records.history(db, record, MOST_VERSIONS + 1)
    tests = db.execute(
        "SELECT version, cure_days, observed, verdict, at, by_name FROM trial "
        "WHERE record = ? AND deleted_at IS NULL ORDER BY number DESC LIMIT ?",
        (record, MOST_TESTS + 1),
    ).fetchall()
    return Portable(
        tuple(PortableVersion(replace(formulas.from_data(v), how=""), v.at, v.by) for v in reversed(versions)),
        tuple(PortableTest(*row) for row in reversed(tests)),
        private,
    )


def _fitting(one: Portable) -> tuple[Portable, bool]:
    """The formula as far back as it fits into a file, and whether that is all of it."""
    whole = len(one.versions) <= MOST_VERSIONS and len(one.tests) <= MOST_TESTS
    one = replace(one, versions=one.versions[-MOST_VERSIONS:], tests=one.tests[-MOST_TESTS:])
    while _size(one) > LARGEST_FILE - MARGIN:
        one, whole = replace(one, versions=one.versions[len(one.versions) // 2 :]), False
    kept = {version.formula.version for version in one.versions}
    tests = tuple(test for test in one.tests if test.version in kept)
    return replace(one, tests=tests), whole and len(tests) == len(one.tests)


def _size(one: Portable) -> int:
    """The most bytes that it takes in either file."""
    table = sum(len(cell.encode()) + 3 for row in csv_rows(one) for cell in row.values()) + 16 * len(csv_rows(one))
    quotes = sum(cell.count('"') for row in csv_rows(one) for cell in row.values())
    return max(len(json.dumps(json_row(one), ensure_ascii=False, indent=3).encode()) + 16, table + quotes)


# ---- and in again


@dataclass(frozen=True, slots=True)
class PutIn:
    """What came of one formula: versions and tests added, tests left out because their version is not here; `apart`
    where it had been changed here too, so that of what differs only the file's newest version was added."""

    versions: int
    tests: int
    left_out: int = 0
    apart: bool = False


def put_in(db: sqlite3.Connection, space: Space, one: Portable, stamp: Stamp, reader: str) -> PutIn:
    """Add what is not there yet. Times are kept, but none is later than `stamp` or earlier than what is there."""
    there = records.exactly(db, space, formulas.KIND, one.name, reader)
    known = list(reversed(records.history(db, there.record, ALL))) if there is not None else []
    came = [formulas.to_data(version.formula) for version in one.versions]
    same = 0
    while same < min(len(came), len(known)) and came[same] == known[same].data:
        same += 1
    apart = same < min(len(came), len(known))
    here = {one.versions[place].formula.version: known[place].number for place in range(same)}
    latest = _latest(db, there.record) if there is not None else ""
    added = 0
    for place in range(same, len(came)):
        version = one.versions[place]
        alike = [each.number for each in known if each.data == came[place]] if apart else []
        if alike:
            here[version.formula.version] = alike[-1]
        elif not apart or place == len(came) - 1:
            own = _stamp(version, stamp, latest)
            reason = version.formula.reason or ("" if version.at or version.by else "imported")
            kept = records.write(db, space, formulas.KIND, one.name, came[place], own, reason=reason, reader=reader)
            here[version.formula.version], latest, added = kept.number, own.at, added + 1
    newest = records.exactly(db, space, formulas.KIND, one.name, reader)
    assert newest is not None
    tests = _put_in_tests(db, newest.record, one.tests, here, stamp, latest if known else "")
    return PutIn(added, *tests, apart and bool(added))


def _put_in_tests(
    db: sqlite3.Connection, record: int, tests: Sequence[PortableTest], here: dict[int, int], stamp: Stamp, latest: str
) -> tuple[int, int]:
    """Add those that are not logged yet; how many were, and how many are of a version that is not here."""
    logged = Counter(
        db.execute(
            "SELECT version, cure_days, observed, verdict FROM trial WHERE record = ? AND deleted_at IS NULL", (record,)
        ).fetchall()
    )
    added = 0
    for test in tests:
        version = records.version(db, record, here.get(test.version, 0))
        if version is None:
            continue
        alike = (version.number, test.cure_days, test.observed, test.verdict)
        if logged[alike]:
            logged[alike] -= 1
            continue
        own = _stamp(test, stamp, latest)
        formulas.log_test(db, version, test.cure_days, test.observed, test.verdict, own)
        added += 1
    return added, sum(test.version not in here for test in tests)


def _stamp(one: PortableVersion | PortableTest, stamp: Stamp, latest: str) -> Stamp:
    """Who made it and when, as the file says, and who brought it here."""
    at = max(min(one.at, stamp.at) if one.at and stamp.at else stamp.at, latest)
    return replace(stamp, at=at, name=stamp.name if one.by in ("", stamp.name) else f"{one.by}{IN_A_FILE}{stamp.name}")


def _latest(db: sqlite3.Connection, record: int) -> str:
    """When the record was changed last."""
    row = db.execute(
        "SELECT max(at) FROM (SELECT at FROM version WHERE record = ?1 "
        "UNION ALL SELECT at FROM trial WHERE record = ?1 UNION ALL SELECT deleted_at FROM trial WHERE record = ?1)",
        (record,),
    ).fetchone()
    return str(row[0] or "")
