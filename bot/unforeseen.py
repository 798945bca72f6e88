"""What happens when something fails that nobody foresaw: a sentence with a reference for the asker, one in the log."""

from __future__ import annotations

import logging
import secrets

from bot import logs
from bot.desk import Asker, Desk
from core.answer import Answer, NotUnderstood, line

log = logging.getLogger("steelyard")


def ours(reference: str) -> str:
    """What the asker is told; the log has the same reference."""
    return (
        f"Something went wrong on my side, not yours. Try again; if it stays, tell whoever runs the bot: {reference}."
    )


def new_reference() -> str:
    """A reference that nothing else has."""
    return secrets.token_hex(4)


def answered(desk: Desk, text: str, asker: Asker, now: str) -> Answer:
    """The desk's answer in the console, where no other adapter catches what is unforeseen. Never raises."""
    try:
        return desk.text(text, asker, now)
    except Exception as error:
        reference = new_reference()
        log.error(logs.line("failed", where="console", ref=reference, error=logs.where_raised(error)))
        return NotUnderstood(intent="not_understood", headline=line("{}", ours(reference)), reason="failed")
