"""The real bot, in this process, against the stand-in."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from pathlib import Path

from bot.client import SteelyardClient, make_client
from bot.config import Config
from tests.standin.run import running
from tests.standin.server import StandIn


@asynccontextmanager
async def steelyard(standin: StandIn, database: Path) -> AsyncIterator[SteelyardClient]:
    """The bot with its library at `database`, connected and with its commands registered."""
    async with running(make_client(Config(database)), standin) as client:
        await client.tree.sync()
        yield client
    if client.desk.library is not None:
        client.desk.library.close()
