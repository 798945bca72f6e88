"""Log lines for machines: key=value, one line each. What people type never gets into them, not even by an error."""

from __future__ import annotations

import logging
import sys
import time
import traceback

LEAST_QUIET = ("discord.http", "discord.gateway", "discord.client", "discord.webhook.async_", "asyncio")


class Lines(logging.Formatter):
    """Time, level, logger and the message on one line; of an exception its kind and where it was raised.

    An exception's own words are left out: they may quote what somebody typed.
    """

    _second = -1
    _stamp = ""

    def format(self, record: logging.LogRecord) -> str:
        """The record on one line."""
        second = int(record.created)
        if second != self._second:  # once a second, not once a line
            self._second, self._stamp = second, time.strftime("%Y-%m-%dT%H:%M:%S", time.gmtime(second))
        text = record.getMessage()
        if not text.isprintable():
            text = " ".join(text.split())
        text = f"ts={self._stamp}.{int(record.msecs):03d}Z level={record.levelname} logger={record.name} {text}"
        if record.exc_info and record.exc_info[1] is not None:
            text = f"{text} error={where_raised(record.exc_info[1])}"
        return text


def line(event: str, **values: object) -> str:
    """`event=... key=value ...`; values without blanks."""
    return " ".join([f"event={event}", *(f"{key}={_plain(value)}" for key, value in values.items() if value != "")])


def _plain(value: object) -> str:
    text = f"{value:.2f}" if isinstance(value, float) else str(value)
    return text if " " not in text else '"' + text.replace('"', "'") + '"'


def where_raised(error: BaseException) -> str:
    """The kind of an exception and the places it came through, innermost first: `KeyError@bot/x.py:12<bot/y.py:4`."""
    frames = traceback.extract_tb(error.__traceback__)[-6:]
    places = "<".join(f"{'/'.join(f.filename.split('/')[-2:])}:{f.lineno}" for f in reversed(frames))
    code = getattr(error, "code", "")
    return f"{type(error).__name__}{f'({code})' if isinstance(code, int) else ''}@{places}"


def to_stderr(level: str) -> None:
    """All logging to the standard error stream, in lines."""
    number = logging.getLevelName(level)
    # What no line shows need not be found out for each (logging's own documentation, "Optimization").
    logging._srcfile = None
    logging.logThreads = logging.logProcesses = logging.logMultiprocessing = False
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(Lines())
    root = logging.getLogger()
    root.handlers[:] = [handler]
    root.setLevel(number)
    # These print what people write when they are talkative.
    for name in LEAST_QUIET:
        logging.getLogger(name).setLevel(max(logging.WARNING, number))
