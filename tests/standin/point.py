"""Turn discord.py's addresses to a stand-in, and back."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

import yarl
from discord.asset import Asset
from discord.gateway import DiscordWebSocket
from discord.http import Route


def point_at(base: str) -> tuple[str, yarl.URL, str]:
    """Set the three class attributes that hold addresses; gives what they were."""
    before = Route.BASE, DiscordWebSocket.DEFAULT_GATEWAY, Asset.BASE
    Route.BASE = f"{base}/api/v10"
    DiscordWebSocket.DEFAULT_GATEWAY = yarl.URL(base.replace("http", "ws", 1) + "/gw/")
    Asset.BASE = f"{base}/cdn"
    return before


@contextmanager
def pointed_at(base: str) -> Iterator[None]:
    """The same for a while."""
    before = point_at(base)
    try:
        yield
    finally:
        Route.BASE, DiscordWebSocket.DEFAULT_GATEWAY, Asset.BASE = before
