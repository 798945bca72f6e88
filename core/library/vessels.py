"""Vessels on the shelf: their room, what they take, what they weigh."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from core.book import VesselRecord
from core.library import records
from core.library.packing import pack, unpack
from core.library.records import Stamp
from core.library.space import Space
from core.units import Mass, Volume

KIND = "vessel"


def read(db: sqlite3.Connection, spaces: Sequence[Space], user: str, name: str) -> VesselRecord | None:
    """The vessel of that name."""
    kept = records.current(db, spaces, user, KIND, name)
    return from_data(kept) if kept is not None else None


def from_data(kept: records.Version) -> VesselRecord:
    """The record as the answers want it."""
    data = kept.data
    words = f"recorded by {kept.by}, {kept.at[:10]}" + (f", {data['how']}" if data.get("how") else "")
    return VesselRecord(
        name=kept.name,
        room=unpack(Volume, data.get("room")),
        fill=unpack(Mass, data.get("fill")),
        weight=unpack(Mass, data.get("weight")),
        how=words,
    )


def record(
    db: sqlite3.Connection,
    space: Space,
    name: str,
    room: Volume | None,
    fill: Mass | None,
    weight: Mass | None,
    how: str,
    stamp: Stamp,
) -> VesselRecord:
    """Keep what is given (at least one figure), the rest as it was; the vessel as it is now."""
    there = records.current(db, (space,), stamp.user, KIND, name)
    said = {"room": pack(room), "fill": pack(fill), "weight": pack(weight), "how": how or None}
    data: dict[str, Any] = {**(there.data if there is not None else {})}
    data.update({key: value for key, value in said.items() if value is not None})
    if there is not None and there.data == data:
        return from_data(there)
    return from_data(records.write(db, space, KIND, name if there is None else there.name, data, stamp))
