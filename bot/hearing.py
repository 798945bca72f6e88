"""Which messages are for the bot, and what of a message it looks at, told before anything is built of them.

With the messages of its servers the platform sends every message there, the bot's own answers too, each as an event.
discord.py makes objects of all of them first; most are not for the bot. With a press it sends the whole message that
was pressed, of whose embeds and buttons discord.py would make objects too.
"""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import discord

if TYPE_CHECKING:
    from bot.client import SteelyardClient

# Events that come with the messages and that nothing here listens to.
UNHEARD = ("MESSAGE_UPDATE", "MESSAGE_DELETE", "MESSAGE_DELETE_BULK")
# What is looked at of a message that was pressed, or that a menu entry was used on; the library needs the first four.
LOOKED_AT = ("id", "channel_id", "type", "content", "flags")


def listen(client: SteelyardClient) -> None:
    """Let the library see only the messages that are for the bot."""
    # No public way leads here; `parsers` is the library's table of event names (discord.py 2.7).
    parsers = client._connection.parsers
    create = parsers["MESSAGE_CREATE"]

    def message_create(data: dict[str, Any]) -> None:
        if client.user is not None and is_for(data, str(client.user.id)):
            create(data)

    interacted = parsers["INTERACTION_CREATE"]

    def interaction_create(data: dict[str, Any]) -> None:
        if "message" in data:
            data["message"] = shortened(data["message"])
        messages = (data.get("data") or {}).get("resolved", {}).get("messages", {})
        messages.update({key: shortened(message) for key, message in messages.items()})
        interacted(data)

    parsers["MESSAGE_CREATE"] = message_create
    parsers["INTERACTION_CREATE"] = interaction_create
    for event in UNHEARD:
        parsers[event] = _nothing


def is_for(data: dict[str, Any], me: str) -> bool:
    """Whether a person wrote it directly to the bot, or mentions it (a reply to it counts)."""
    if data["author"].get("bot") or data.get("webhook_id"):
        return False
    return "guild_id" not in data or any(each["id"] == me for each in data["mentions"])


def shortened(message: dict[str, Any]) -> dict[str, Any]:
    """A message's payload without what nothing here looks at."""
    return {key: message[key] for key in LOOKED_AT if key in message}


def words(message: discord.Message, me: int) -> tuple[str, bool]:
    """The text without the mentions of the bot, and whether the bot was called: a reply to it alone may be no
    question at all, such as "thanks"."""
    text = message.content
    for mention in (f"<@{me}>", f"<@!{me}>"):
        text = text.replace(mention, " ")
    return text, message.guild is None or text != message.content


def _nothing(data: Any) -> None:
    """An event nobody listens to."""
