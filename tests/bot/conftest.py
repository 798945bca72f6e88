"""The bot every test of the Discord side talks to."""

from __future__ import annotations

from collections.abc import AsyncIterator
from pathlib import Path

import pytest

from bot.client import SteelyardClient
from tests.bot.bots import steelyard
from tests.standin.server import StandIn


@pytest.fixture
def database(tmp_path: Path) -> Path:
    """Where this test's library lies."""
    return tmp_path / "library.db"


@pytest.fixture
async def client(standin: StandIn, database: Path) -> AsyncIterator[SteelyardClient]:
    """The bot, connected."""
    async with steelyard(standin, database) as made:
        yield made
