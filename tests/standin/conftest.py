"""The client the stand-in is proved with."""

from __future__ import annotations

from collections.abc import AsyncIterator

import pytest

from tests.standin.run import running
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn


@pytest.fixture
async def bot(standin: StandIn) -> AsyncIterator[SampleBot]:
    """The sample client, connected and with its commands registered."""
    async with running(SampleBot(), standin) as client:
        await client.tree.sync()
        yield client
