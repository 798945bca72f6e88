"""Starting and stopping the Discord bot as a service, and registering its commands."""

from __future__ import annotations

import asyncio
import errno
import gc
import logging
import signal
import sys

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
    stopping: set[asyncio.Task[None]] = set()

    def stop() -> None:
        log.info(line("stopping"))
        stopping.add(loop.create_task(client.close()))

    for number in (signal.SIGTERM, signal.SIGINT):
        loop.add_signal_handler(number, stop)
    # What is there at the start stays for good: the collector need not look through it again and again.
    gc.collect()
    gc.freeze()
    gc.set_threshold(*SELDOM)
    try:
        async with served(config.health_port, client.health), client:
            await client.start(token)
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
    except (discord.HTTPException, discord.app_commands.CommandSyncFailure) as error:
        print(f"Discord did not take the commands: {str(error)[:300]}", file=sys.stderr)
        return FAILED
    print(f"Registered {len(registered)} commands{f' in server {guild}' if guild else ''}.")
    return OK
