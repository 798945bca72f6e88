"""Every limit the platform puts on what a bot sends, as one question: `violations(kind, payload)`.

Kinds: "commands" (a bulk overwrite), "command", "callback" (an interaction answer with its type), "message" (a new
message), "edit" (a changed one), "modal", "autocomplete". Limits of messages and embeds are here, those of commands and
components beside it. Source: Discord's official documentation, resources/message (read 2026-08), except where marked.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from tests.standin.breach import Breach, Json, count, text, under, wrong
from tests.standin.command_limits import CHOICES, bulk, choice_limits
from tests.standin.command_limits import one as one_command
from tests.standin.component_limits import message_components, modal

CONTENT = 2000
EMBEDS = 10
EMBED_TITLE = 256
EMBED_DESCRIPTION = 4096
EMBED_FIELDS = 25
FIELD_NAME = 256
FIELD_VALUE = 1024
FOOTER = 2048
AUTHOR = 256
EMBEDS_TOGETHER = 6000
NONCE = 25
ATTACHMENTS = 10
ALT_TEXT = 1024
MENTIONED = 100
EPHEMERAL, SECOND_GENERATION = 1 << 6, 1 << 15

MESSAGE, DEFER, DEFER_UPDATE, UPDATE, COMPLETIONS, MODAL = 4, 5, 6, 7, 8, 9
COMMAND_ASKED, COMPONENT_ASKED, AUTOCOMPLETE_ASKED, SUBMIT_ASKED = 2, 3, 4, 5
# which answers an interaction of each type may get; SUBMIT_ASKED from a component may also update its message
ANSWERS = {
    COMMAND_ASKED: {MESSAGE, DEFER, MODAL},
    COMPONENT_ASKED: {MESSAGE, DEFER, DEFER_UPDATE, UPDATE, MODAL},
    AUTOCOMPLETE_ASKED: {COMPLETIONS},
    SUBMIT_ASKED: {MESSAGE, DEFER, DEFER_UPDATE, UPDATE},
}


def violations(payload_kind: str, payload: Any) -> list[str]:
    """Sentences saying which limits `payload` breaks, none when it is good. An unknown kind raises KeyError."""
    return [str(breach) for breach in breaches(payload_kind, payload)]


def breaches(payload_kind: str, payload: Any) -> list[Breach]:
    """The same as data, from which an error body can be made."""
    return list(_WALKS[payload_kind](payload))


def answer_type(asked: int, given: int) -> list[Breach]:
    """Whether an interaction of type `asked` may be answered by a callback of type `given`."""
    if given in ANSWERS.get(asked, ()):
        return []
    return [wrong(("type",), f"callback type {given} does not answer an interaction of type {asked}")]


def open_mentions(payload: Json) -> list[str]:
    """What of a message could ping someone: anything but `{"parse": []}`."""
    mentions = payload.get("allowed_mentions")
    if mentions is None:
        return ["allowed_mentions is missing, so the message could ping"]
    return [f"allowed_mentions.{key} = {value!r} could ping" for key, value in mentions.items() if value]


def embed_text(embed: Json) -> int:
    """Characters of one embed that count towards the 6000 of the message."""
    size = len(embed.get("title") or "") + len(embed.get("description") or "")
    size += len((embed.get("footer") or {}).get("text") or "") + len((embed.get("author") or {}).get("name") or "")
    fields = embed.get("fields") or ()
    return size + sum(len(f.get("name") or "") + len(f.get("value") or "") for f in fields)


def _message(payload: Json) -> Iterator[Breach]:
    yield from _edit(payload)
    carries = ("content", "embeds", "components", "attachments", "sticker_ids", "poll")
    if not any(payload.get(key) for key in carries):
        yield wrong((), "an empty message", "CANNOT_SEND_EMPTY_MESSAGE")


def _edit(payload: Json) -> Iterator[Breach]:
    yield from text(payload, "content", 0, CONTENT)
    yield from text(payload, "nonce", 0, NONCE)
    yield from _embeds(payload)
    yield from count(payload, "attachments", 0, ATTACHMENTS)
    attachments = payload.get("attachments") or []
    for place, attachment in enumerate(attachments):
        yield from under(text(attachment, "description", 0, ALT_TEXT), "attachments", place)
    second_generation = bool((payload.get("flags") or 0) & SECOND_GENERATION)
    if second_generation:
        for key in ("content", "embeds", "poll", "sticker_ids"):
            if payload.get(key):
                yield wrong((key,), "not with components of the second generation")
    files = {a.get("filename") for a in attachments} - {None}
    yield from message_components(payload.get("components") or [], second_generation, files)
    yield from _mentions(payload.get("allowed_mentions") or {})


def _embeds(payload: Json) -> Iterator[Breach]:
    yield from count(payload, "embeds", 0, EMBEDS)
    embeds = payload.get("embeds") or []
    for place, embed in enumerate(embeds):
        yield from under(_embed(embed), "embeds", place)
    together = sum(map(embed_text, embeds))
    if together > EMBEDS_TOGETHER:
        yield wrong(
            ("embeds",), f"{together} characters together, at most {EMBEDS_TOGETHER}", "MAX_EMBED_SIZE_EXCEEDED"
        )


def _embed(embed: Json) -> Iterator[Breach]:
    yield from text(embed, "title", 0, EMBED_TITLE)
    yield from text(embed, "description", 0, EMBED_DESCRIPTION)
    yield from under(text(embed.get("footer") or {}, "text", 0, FOOTER), "footer")
    yield from under(text(embed.get("author") or {}, "name", 0, AUTHOR), "author")
    yield from count(embed, "fields", 0, EMBED_FIELDS)
    for place, field in enumerate(embed.get("fields") or ()):
        # from memory: name and value of a field must not be blank
        yield from under(text(field, "name", 1, FIELD_NAME, required=True), "fields", place)
        yield from under(text(field, "value", 1, FIELD_VALUE, required=True), "fields", place)
    if not embed_text(embed) and not any(embed.get(key) for key in ("image", "thumbnail", "url")):
        yield wrong((), "an empty embed", "BASE_TYPE_REQUIRED")


def _mentions(mentions: Json) -> Iterator[Breach]:
    strange = set(mentions.get("parse") or ()) - {"roles", "users", "everyone"}
    if strange:
        yield wrong(("allowed_mentions", "parse"), f"{sorted(strange)} cannot be parsed", "ENUM_TYPE_COERCE")
    for key in ("roles", "users"):
        yield from under(count(mentions, key, 0, MENTIONED), "allowed_mentions")
        if mentions.get(key) and key in (mentions.get("parse") or ()):
            yield wrong(("allowed_mentions", key), "either parsed or listed, not both")


def _autocomplete(payload: Json) -> Iterator[Breach]:
    yield from count(payload, "choices", 0, CHOICES, required=True)
    yield from choice_limits(payload.get("choices") or [], None, "choices")


def _callback(payload: Json) -> Iterator[Breach]:
    data = payload.get("data") or {}
    kind = payload.get("type")
    if kind in (DEFER, DEFER_UPDATE):
        if set(data) - {"flags"} or (data.get("flags") or 0) & ~EPHEMERAL:
            yield wrong(("data",), "a deferral carries nothing but the ephemeral flag")
        return
    walks = {MESSAGE: _message, UPDATE: _edit, COMPLETIONS: _autocomplete, MODAL: modal}
    if kind not in walks:
        yield wrong(("type",), f"{kind!r} is no callback type", "ENUM_TYPE_COERCE")
        return
    yield from under(walks[kind](data), "data")


_WALKS: dict[str, Callable[[Any], Iterator[Breach]]] = {
    "commands": bulk,
    "command": one_command,
    "callback": _callback,
    "message": _message,
    "edit": _edit,
    "modal": modal,
    "autocomplete": _autocomplete,
}
