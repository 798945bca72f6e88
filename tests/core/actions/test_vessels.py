"""Recording vessels: figures come one by one, and none is kept that the others rule out."""

from __future__ import annotations

from pathlib import Path

import pytest

from core.actions.vessels import RecordVessel
from core.compounds import VesselName
from core.errors import Contradiction
from core.library import Library
from core.units import Mass, Volume
from tests.core.library.shelves import GROUP, actor

TIN = VesselName("amber tin")


@pytest.fixture
def library(tmp_path: Path) -> Library:
    return Library(tmp_path / "l.db")


def test_a_vessel_smaller_than_its_fill_is_not_kept(library: Library) -> None:
    """Nothing in a candle is heavier than 1.2 g/ml (methyl salicylate, the heaviest published, has 1.18)."""
    with pytest.raises(Contradiction, match="can't fit"):
        RecordVessel(vessel=TIN, room=Volume.of(100), fill=Mass.of(300)).act(library, actor())
    assert library.book((GROUP,), "7").vessel(TIN) is None
    RecordVessel(vessel=TIN, room=Volume.of(100)).act(library, actor())
    with pytest.raises(Contradiction, match="can't fit"):
        RecordVessel(vessel=TIN, fill=Mass.of(121)).act(library, actor())
    RecordVessel(vessel=TIN, fill=Mass.of(120)).act(library, actor())
    with pytest.raises(Contradiction, match="can't fit"):
        RecordVessel(vessel=TIN, room=Volume.of(99)).act(library, actor())
    kept = library.book((GROUP,), "7").vessel(TIN)
    assert kept is not None
    assert (kept.room, kept.fill) == (Volume.of(100), Mass.of(120))
