"""Materials on the shelf: what the supplier's sheet says, and the measurements the group made."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from typing import Any

from core.book import MaterialRecord
from core.library import records
from core.library.packing import unpack
from core.library.space import Space
from core.units import Percent

KIND = "material"


def read(db: sqlite3.Connection, spaces: Sequence[Space], user: str, name: str) -> MaterialRecord | None:
    """The material of that name, its measurements combined."""
    kept = records.current(db, spaces, user, KIND, name)
    if kept is None:
        return None
    data: dict[str, Any] = kept.data
    return MaterialRecord(
        name=kept.name,
        kind=data.get("kind", ""),
        max_load=unpack(Percent, data.get("max_load")),
        how=f"recorded by {kept.by}, {kept.at[:10]}",
    )
