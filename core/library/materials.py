"""Materials on the shelf: what the supplier's sheet says, and the measurements the group made."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from core.book import MaterialRecord, Measured
from core.errors import NotFound, OutOfRange
from core.library import records
from core.library.combining import USUAL_COVERAGE, Combined, Value, combine
from core.library.packing import number, pack, text, unpack
from core.library.records import Stamp
from core.library.space import Space
from core.units import Density, Mass, Percent, Temperature, Volume

KIND = "material"
ROOM = Decimal(20)  # °C; what nobody said was warm or cold was measured in a room
SAME_WARMTH = Decimal(5)  # °C; a warm liquid's density changes by about 0.5 % over so much
MOST = 200  # measurements of one material that are read


@dataclass(frozen=True, slots=True)
class Measurement:
    """One density as measured or as read from a sheet. `spread` is its standard uncertainty in g/ml; `method` and
    `source` are words to be shown."""

    density: Density
    spread: Decimal | None = None
    mass: Mass | None = None
    volume: Volume | None = None
    at: Temperature | None = None
    method: str = ""
    source: str = ""


@dataclass(frozen=True, slots=True)
class Kept:
    """A measurement on the shelf: `number` counts those of the material from 1 on, gaps where one was taken out."""

    number: int
    measurement: Measurement
    by: str
    when: str


def read(db: sqlite3.Connection, spaces: Sequence[Space], user: str, name: str) -> MaterialRecord | None:
    """The material of that name, its measurements combined."""
    kept = records.current(db, spaces, user, KIND, name)
    if kept is None:
        return None
    together, apart = _together(measurements(db, kept.record))
    data: dict[str, Any] = kept.data
    found = combined(together)
    counted = [one for place, one in enumerate(together) if found is not None and place not in found.outliers]
    return MaterialRecord(
        name=kept.name,
        kind=data.get("kind", ""),
        density=Density(found.value) if found is not None else None,
        spread=found.spread if found is not None else None,
        coverage=found.coverage if found is not None else USUAL_COVERAGE,
        at=counted[-1].measurement.at if counted else None,
        max_load=unpack(Percent, data.get("max_load")),
        how=_how(found, together, apart) if found is not None else f"recorded by {kept.by}, {kept.at[:10]}",
        flash_point=unpack(Temperature, data.get("flash_point")),
        notes=data.get("notes", ""),
    )


def measured(db: sqlite3.Connection, spaces: Sequence[Space], user: str, name: str) -> list[Measured]:
    """The measurements of the material of that name, with those that stand out or were made at another warmth."""
    kept = records.current(db, spaces, user, KIND, name)
    every = measurements(db, kept.record) if kept is not None else []
    together, _ = _together(every)
    found = combined(together)
    outliers = {together[i].number for i in found.outliers} if found is not None else set()
    counted = {one.number for one in together} - outliers
    return [
        Measured(
            number=one.number,
            density=one.measurement.density,
            spread=one.measurement.spread,
            at=one.measurement.at,
            how=_words(one),
            stands_out=one.number in outliers,
            counted=one.number in counted,
        )
        for one in every
    ]


def describe(db: sqlite3.Connection, space: Space, name: str, said: dict[str, Any], stamp: Stamp, reason: str) -> str:
    """Record what is said of a material (kind, max_load, flash_point, notes), the rest as it was; its name as kept."""
    kept = records.current(db, (space,), stamp.user, KIND, name)
    data = {**(kept.data if kept is not None else {}), **said}
    if kept is not None and kept.data == data:
        return kept.name
    return records.write(db, space, KIND, name if kept is None else kept.name, data, stamp, reason=reason).name


def measure(db: sqlite3.Connection, space: Space, name: str, made: Measurement, stamp: Stamp) -> str:
    """Add a measurement, and the material where it is new; the material's name as kept."""
    kept = records.current(db, (space,), stamp.user, KIND, name)
    if kept is None:
        kept = records.write(db, space, KIND, name, {}, stamp, reason="first measurement")
    (there,) = db.execute(
        "SELECT count(*) FROM measurement WHERE record = ? AND deleted_at IS NULL", (kept.record,)
    ).fetchone()
    if there >= MOST:
        raise OutOfRange(name, f"There are {MOST} measurements of it already. Take out old ones first.")
    db.execute(
        "INSERT INTO measurement (record, number, density, spread, mass, volume, warmth, method, source, at, user, "
        "by_name) VALUES (?1, (SELECT coalesce(max(number), 0) + 1 FROM measurement WHERE record = ?1), "
        "?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        (
            kept.record,
            *(_packed(value) for value in (made.density,)),
            text(made.spread),
            _packed(made.mass),
            _packed(made.volume),
            _packed(made.at),
            made.method,
            made.source,
            stamp.at,
            stamp.user,
            stamp.name,
        ),
    )
    return kept.name


def _packed(value: Density | Mass | Volume | Temperature | None) -> str | None:
    packed = pack(value)
    return None if packed is None else " ".join(packed)


def measurements(db: sqlite3.Connection, record: int) -> list[Kept]:
    """The measurements of that record that were not taken out, the oldest first."""
    rows = db.execute(
        "SELECT number, density, spread, mass, volume, warmth, method, source, by_name, at FROM measurement "
        "WHERE record = ? AND deleted_at IS NULL ORDER BY number LIMIT ?",
        (record, MOST),
    )
    return [_kept(row) for row in rows]


def _kept(row: tuple[Any, ...]) -> Kept:
    density = unpack(Density, row[1].split(" ", 1))
    assert density is not None
    measurement = Measurement(
        density=density,
        spread=number(row[2]),
        mass=unpack(Mass, row[3] and row[3].split(" ", 1)),
        volume=unpack(Volume, row[4] and row[4].split(" ", 1)),
        at=unpack(Temperature, row[5] and row[5].split(" ", 1)),
        method=row[6],
        source=row[7],
    )
    return Kept(row[0], measurement, row[8], row[9])


def take_out(db: sqlite3.Connection, record: int, place: int, stamp: Stamp) -> None:
    """Take one measurement out of the figure; kept until `purge` takes it. NotFound where there is none of it."""
    done = db.execute(
        "UPDATE measurement SET deleted_at = ?, deleted_by = ? WHERE record = ? AND number = ? AND deleted_at IS NULL",
        (stamp.at, stamp.user, record, place),
    )
    if not done.rowcount:
        raise NotFound("measurement", str(place), way_out="/shelf with its name lists them with their numbers.")


def put_back(db: sqlite3.Connection, record: int, since: str) -> int | None:
    """Put the measurement back that was taken out last, at `since` or later; its number, None where there is none."""
    row = db.execute(
        "UPDATE measurement SET deleted_at = NULL, deleted_by = NULL WHERE id = (SELECT id FROM measurement "
        "WHERE record = ? AND deleted_at >= ? ORDER BY deleted_at DESC, id DESC LIMIT 1) RETURNING number",
        (record, since),
    ).fetchone()
    return None if row is None else int(row[0])


def _warmth(one: Kept) -> Decimal:
    return ROOM if one.measurement.at is None else one.measurement.at.base


def _together(every: Sequence[Kept]) -> tuple[list[Kept], int]:
    """Those made as warm as the newest one, and how many were not: a density holds for its temperature only."""
    if not every:
        return [], 0
    newest = _warmth(every[-1])
    together = [one for one in every if abs(_warmth(one) - newest) <= SAME_WARMTH]
    return together, len(every) - len(together)


def combined(together: Sequence[Kept]) -> Combined | None:
    """Those measurements as one figure; None where there are none."""
    if not together:
        return None
    return combine([Value(one.measurement.density.base, one.measurement.spread) for one in together])


def _words(one: Kept) -> str:
    parts = [f"measured by {one.by}" if not one.measurement.source else one.measurement.source, one.when[:10]]
    return ", ".join(part for part in (*parts, one.measurement.method) if part)


def _how(found: Combined, together: Sequence[Kept], apart: int) -> str:
    """Who measured it, when, with what, and how well the measurements agree; in words to be shown."""
    counted = [one for place, one in enumerate(together) if place not in found.outliers]
    words = [_words(counted[-1])]
    if len(counted) > 1:
        people = list(dict.fromkeys(one.by for one in counted))
        who = " and ".join(people[:2]) + (f" and {len(people) - 2} more" if len(people) > 2 else "")
        mean = "weighted mean" if found.weighted else "mean"
        words = [f"{mean} of {len(counted)} measurements by {who}, the newest {counted[-1].when[:10]}"]
    if len(counted) > 2 and not any(one.measurement.spread for one in counted):
        words.append("nobody said how exact each is, so the tools count as good ones at home: 0.58 % off at best")
    if found.scattered:
        words.append("they differ more than each says of itself, and the uncertainty allows for it")
    if found.too_few and not found.apart:
        words.append("two are too few to tell how far they scatter: measure once more to know how exact that is")
    if found.outliers:
        places = " and ".join(str(together[i].number) for i in found.outliers)
        lies = "lies" if len(found.outliers) == 1 else "lie"
        words.append(f"number {places} {lies} far from the others and is left out")
    if found.apart:
        words.append("the two are far apart: measure once more before you rely on it")
    if apart:
        words.append(f"{apart} more at another temperature")
    return "; ".join(words)
