"""What is done once a day and when servers come and go: what has had its time is taken away."""

from __future__ import annotations

import asyncio
import logging
from collections.abc import Callable
from typing import TYPE_CHECKING

from bot.clock import now
from bot.logs import line, where_raised
from core.errors import LibraryUnavailable
from core.library import Library, Space

if TYPE_CHECKING:
    from bot.client import SteelyardClient

log = logging.getLogger("steelyard")

KEPT_DAYS = 30  # of a server that removed the bot
A_DAY = 24 * 60 * 60.0


async def left(library: Library | None, guild_id: int) -> None:
    """A server removed the bot: what it recorded goes in 30 days."""
    if library is not None:
        await _quietly("left", library.forget_space_after, Space.guild(guild_id), KEPT_DAYS, now())


async def joined(library: Library | None, guild_id: int) -> None:
    """The bot is in the server (again): nothing is to be forgotten."""
    if library is not None:
        await _quietly("joined", library.keep_space, Space.guild(guild_id))


async def daily(client: SteelyardClient) -> None:
    """For as long as the bot runs: once a day, the first time when it knows its servers."""
    library = client.desk.library
    if library is None:
        return
    while not client.is_closed():
        await client.wait_until_ready()
        await look_over(client, library)
        await asyncio.sleep(A_DAY)


async def look_over(client: SteelyardClient, library: Library) -> None:
    """Servers that removed the bot, or took it back, while it was not running; then what has had its time."""
    try:
        known = await asyncio.to_thread(library.servers)
    except LibraryUnavailable as error:
        log.warning(line("upkeep_put_off", reason=error.reason.partition(":")[0]))
        return
    for server in known:
        if not server.isdigit() or not _ours(client, int(server)):
            continue
        if client.get_guild(int(server)) is None:
            await left(library, int(server))
        else:
            await joined(library, int(server))
    await _quietly("purged", library.purge, now())


def _ours(client: SteelyardClient, guild_id: int) -> bool:
    """Whether this process runs the shard of that server."""
    count = client.shard_count or 1
    return (guild_id >> 22) % count in client.shards if client.shards else True


async def _quietly(event: str, work: Callable[..., object], *given: object) -> None:
    """Do it in a thread; what can't be done now is done the next day."""
    try:
        await asyncio.to_thread(work, *given)
    except LibraryUnavailable as error:
        log.warning(line("upkeep_put_off", what=event, reason=error.reason.partition(":")[0]))
    except Exception as error:
        log.error(line("failed", where=f"upkeep {event}", error=where_raised(error)))
