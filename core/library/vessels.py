"""Vessels on the shelf: their room, what they take, what they weigh."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from core.book import VesselRecord
from core.library import records
from core.library.packing import pack, unpack
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


def to_data(room: Volume | None, fill: Mass | None, weight: Mass | None, how: str) -> dict[str, Any]:
    """What is kept of a vessel."""
    return {"room": pack(room), "fill": pack(fill), "weight": pack(weight), "how": how}
