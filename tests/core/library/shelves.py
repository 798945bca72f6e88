"""Libraries for the tests: a new one in a folder, and one filled with any number of invented names."""

from __future__ import annotations

import contextlib
import random
import sqlite3
from decimal import Decimal
from pathlib import Path

from core.action import Actor
from core.library import Library, Space, formulas, materials, records
from core.library.records import Stamp
from core.units import Density

GROUP, OTHER_GROUP = Space.guild(100), Space.guild(200)
NOW = "2026-03-01T12:00:00+00:00"
ADA = Stamp("7", "Ada", NOW)

_FIRST = (
    "amber birch cedar clove copper dusk fennel ginger iris juniper kelp maple olive quartz sage thyme umber yarrow"
)
_LAST = "wax oil blend base mix drop flake pellet"


def actor(user: str = "7", *, space: str = GROUP, now: str = NOW, may_edit: bool = True, once: str = "") -> Actor:
    """Somebody in the group."""
    return Actor(
        user=user, name={"7": "Ada", "8": "Bo"}.get(user, "Cy"), space=space, now=now, may_edit=may_edit, once=once
    )


def on_day(day: int, user: str = "7") -> Actor:
    """Ada on that day of March."""
    return actor(user, now=f"2026-03-{day:02}T12:00:00+00:00")


def recorded(path: Path) -> Library:
    """A library with one material in it."""
    library = Library(path)
    with library.writing() as db:
        materials.describe(db, GROUP, "soy wax A", {"kind": "wax"}, ADA, "")
    return library


def record_another(library: Library) -> None:
    with library.writing() as db:
        materials.describe(db, GROUP, "coconut wax", {"kind": "wax"}, ADA, "")


def filled(library: Library, count: int, *, start: int = 0) -> list[str]:
    """`count` materials and formulas, every other one, on the group's shelf; their names in order."""
    draw = random.Random(start)
    first, last = _FIRST.split(), _LAST.split()
    names = [f"{draw.choice(first)} {draw.choice(first)} {draw.choice(last)} {i}" for i in range(start, start + count)]
    formula = {"load": ["8", "percent"], "basis": "wax", "waxes": [], "fragrances": [], "additives": []}
    for at in range(0, count, 5000):
        with library.writing() as db:
            for place, name in enumerate(names[at : at + 5000], at):
                if place % 2:
                    records.write(db, GROUP, formulas.KIND, name, formula, ADA)
                else:
                    materials.measure(db, GROUP, name, materials.Measurement(Density(Decimal("0.9"))), ADA)
    return names


def names_in(path: Path) -> list[str]:
    """The materials of the group in that file."""
    library = Library(path)
    found = list(library.book((GROUP,), "7").names("material", "", 10_000))
    library.close()
    return found


def older_file(path: Path) -> Path:
    """A library of the first shape at `path`, written by the bot of that time."""
    with contextlib.closing(sqlite3.connect(path)) as db:
        db.executescript(Path(__file__).with_name("first_shape.sql").read_text("utf-8"))
    return path
