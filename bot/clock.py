"""The time that is written down with what is recorded; core has no clock."""

from __future__ import annotations

from datetime import UTC, datetime


def now() -> str:
    """The time in ISO 8601, UTC."""
    return datetime.now(UTC).isoformat(timespec="seconds")
