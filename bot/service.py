"""Starting and stopping the Discord bot as a service, and registering its commands."""

from __future__ import annotations

import asyncio
import contextlib
import errno
import gc
import logging
import signal
import sys

import aiohttp
import discord

from bot.client import make_client
from bot.config import Config, ConfigError
from bot.health import served
from bot.logs import line, to_stderr

log = logging.getLogger("steelyard")

# It never speaks, so nobody needs to be told at every start that it can't.
discord.VoiceClient.warn_nacl = discord.VoiceClient.warn_dave = False

OK, FAILED = 0, 1
# Answers leave little behind that needs the collector: it runs after so many new objects, not after 700.
SELDOM = (20_000, 20, 20)
NO_TOKEN = "No token: set DISCORD_TOKEN in the environment, or token_file in the settings. README says how to get one."
PORT_TAKEN = "Port {} of health_port is taken by another program. Name another one in the settings."
UNREACHABLE = "Discord can't be reached. Check this machine's network, then try again."
# Seconds until logging in is tried again where Discord can't be reached: no session is used up by that.
FIRST_WAIT, LONGEST_WAIT = 5, 300
# What means that: no network, no name server, or Discord itself is down.
NOT_REACHED = (OSError, aiohttp.ClientError, TimeoutError, discord.DiscordServerError)
BAD_TOKEN = "Discord refused the token. Make a new one in the developer portal and set DISCORD_TOKEN."


def run(config: Config) -> int:
    """Run until SIGTERM or Ctrl-C; 0 after a graceful stop."""
    to_stderr(config.log_level)
    return asyncio.run(_run(config))


def sync(config: Config, guild: int | None) -> int:
    """Register the commands, in one server or everywhere, and leave."""
    to_stderr(config.log_level)
    return asyncio.run(_sync(config, guild))


def _token(config: Config) -> str:
    if config.token is None:
        raise ConfigError(NO_TOKEN)
    return config.token.reveal()


async def _run(config: Config) -> int:
    token = _token(config)
    client = make_client(config)
    loop = asyncio.get_running_loop()
    closing: set[asyncio.Task[None]] = set()
    stopping = asyncio.Event()

    def stop() -> None:
        log.info(line("stopping"))
        stopping.set()
        closing.add(loop.create_task(client.close()))

    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, stop)
    # What is there at the start stays for good: the collector need not look through it again and again.
    gc.collect()
    gc.freeze()
    gc.set_threshold(*SELDOM)
    try:
        async with served(config.health_port, client.health), client:
            if await _logged_in(client, token, stopping):
                await client.connect()
    except OSError as error:
        if config.health_port is None or error.errno != errno.EADDRINUSE:
            raise
        print(PORT_TAKEN.format(config.health_port), file=sys.stderr)
        return FAILED
    except discord.LoginFailure:
        print(BAD_TOKEN, file=sys.stderr)
        return FAILED
    finally:
        if client.desk.library is not None:
            client.desk.library.close()
    log.info(line("stopped"))
    return OK


async def _logged_in(client: discord.Client, token: str, stopping: asyncio.Event) -> bool:
    """Log in, however long Discord can't be reached; False where the bot is stopped meanwhile."""
    wait = FIRST_WAIT
    while True:
        try:
            await client.login(token)
            return not stopping.is_set()
        except NOT_REACHED as error:
            if stopping.is_set():
                return False
            log.warning(line("unreachable", again_in_s=wait, error=type(error).__name__))
        await client.http.close()
        client.http.connector = discord.utils.MISSING  # closed with its session; the next attempt makes another
        with contextlib.suppress(TimeoutError):
            await asyncio.wait_for(stopping.wait(), wait)
            return False
        wait = min(2 * wait, LONGEST_WAIT)


async def _sync(config: Config, guild: int | None) -> int:
    token = _token(config)
    client = make_client(config)
    try:
        async with client:
            await client.login(token)
            where = discord.Object(guild) if guild is not None else None
            if where is not None:
                client.tree.copy_global_to(guild=where)
            registered = await client.tree.sync(guild=where)
    except discord.LoginFailure:
        print(BAD_TOKEN, file=sys.stderr)
        return FAILED
    except NOT_REACHED:
        print(UNREACHABLE, file=sys.stderr)
        return FAILED
    except (discord.HTTPException, discord.app_commands.CommandSyncFailure) as error:
        print(f"Discord did not take the commands: {str(error)[:300]}", file=sys.stderr)
        return FAILED
    print(f"Registered {len(registered)} commands{f' in server {guild}' if guild else ''}.")
    return OK
