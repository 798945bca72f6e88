"""Formulas on the shelf: every change a version, with its date and reason."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from decimal import Decimal
from typing import Any

from core.book import FormulaRecord
from core.compounds import Basis
from core.library import records
from core.library.packing import pack, unpack
from core.library.space import Space
from core.units import Percent

KIND = "formula"


def read(
    db: sqlite3.Connection, spaces: Sequence[Space], user: str, name: str, number: int | None = None
) -> FormulaRecord | None:
    """The formula of that name: its newest version, or the one of that number."""
    kept = records.current(db, spaces, user, KIND, name, number)
    return from_data(kept) if kept is not None else None


def from_data(kept: records.Version) -> FormulaRecord:
    """The record as the answers want it."""
    data = kept.data
    load = unpack(Percent, data["load"])
    additives = ((name, unpack(Percent, packed)) for name, packed in data["additives"])
    assert load is not None
    return FormulaRecord(
        name=kept.name,
        version=kept.number,
        load=load,
        basis=Basis.TOTAL if data["basis"] == "total" else Basis.WAX,
        waxes=_parts(data["waxes"]),
        fragrances=_parts(data["fragrances"]),
        additives=tuple((name, percent) for name, percent in additives if percent is not None),
        vessel=data.get("vessel", ""),
        notes=data.get("notes", ""),
        reason=kept.reason,
        how=f"recorded by {kept.by}, {kept.at[:10]}",
    )


def _parts(packed: list[list[str]]) -> tuple[tuple[str, Decimal], ...]:
    return tuple((name, Decimal(part)) for name, part in packed)


def to_data(formula: FormulaRecord) -> dict[str, Any]:
    """What is kept of a version."""
    return {
        "load": pack(formula.load),
        "basis": formula.basis.name.casefold(),
        "waxes": [[name, format(part, "f")] for name, part in formula.waxes],
        "fragrances": [[name, format(part, "f")] for name, part in formula.fragrances],
        "additives": [[name, pack(percent)] for name, percent in formula.additives],
        "vessel": formula.vessel,
        "notes": formula.notes,
    }
