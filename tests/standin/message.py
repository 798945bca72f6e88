"""A message as the stand-in keeps it: what the bot sent, what the API shows of it, and the files."""

from __future__ import annotations

import copy
import datetime
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import Any

from tests.standin.component_limits import BUTTON, SELECTS, walk
from tests.standin.limits import EPHEMERAL, SECOND_GENERATION
from tests.standin.world import Json, Person, snowflake

LOADING = 1 << 7
SHOWN = ("content", "embeds", "components", "flags")
_USER_MENTION = re.compile(r"<@!?(\d{1,20})>")


@dataclass(slots=True)
class Message:
    """`payload` is the API's view, `sent` every body the bot sent for it (creation first), `files` name to bytes."""

    payload: Json
    sent: list[Json] = field(default_factory=list)
    files: dict[str, bytes] = field(default_factory=dict)
    deleted: bool = False

    @property
    def id(self) -> int:
        return int(self.payload["id"])

    @property
    def channel_id(self) -> int:
        return int(self.payload["channel_id"])

    @property
    def ephemeral(self) -> bool:
        return bool(self.payload["flags"] & EPHEMERAL)

    @property
    def loading(self) -> bool:
        return bool(self.payload["flags"] & LOADING)

    @property
    def content(self) -> str:
        return str(self.payload["content"])

    @property
    def embeds(self) -> list[Json]:
        return list(self.payload["embeds"])

    @property
    def components(self) -> list[Json]:
        """Every component, nested ones too."""
        return list(walk(self.payload["components"]))

    @property
    def buttons(self) -> list[Json]:
        return [c for c in self.components if c["type"] == BUTTON]

    @property
    def selects(self) -> list[Json]:
        return [c for c in self.components if c["type"] in SELECTS]

    @property
    def text(self) -> str:
        """All a reader sees, in reading order, one part a line."""
        return "\n".join(part for part in _parts(self.payload) if part)

    def control(self, key: str) -> Json:
        """The button or select with that custom_id, or else with that label or placeholder. KeyError when none."""
        for names in (("custom_id",), ("label", "placeholder")):
            for component in self.components:
                if "custom_id" in component and any(component.get(name) == key for name in names):
                    return component
        known = [c.get("label") or c.get("placeholder") or c["custom_id"] for c in self.components if "custom_id" in c]
        raise KeyError(f"no button or select {key!r} on this message, only {known}")

    def apply(self, body: Json, files: dict[str, bytes], base: str) -> None:
        """Take a creation or an edit: fields that are not in `body` stay as they are."""
        self.sent.append(body)
        lasting = self.payload["flags"] & (EPHEMERAL | SECOND_GENERATION)
        for key in SHOWN:
            if key in body:
                self.payload[key] = copy.deepcopy(body[key]) or type(self.payload[key])()
        self.payload["flags"] = (self.payload["flags"] & ~LOADING) | lasting
        for embed in self.payload["embeds"]:
            embed.setdefault("type", "rich")
        if "attachments" in body or files:
            self._attach(body.get("attachments") or [], files, base)
        self._resolve(self.payload)

    def _attach(self, wanted: list[Json], files: dict[str, bytes], base: str) -> None:
        kept = {a["id"]: a for a in self.payload["attachments"]}
        found = []
        for attachment in wanted or [{"id": n, "filename": name} for n, name in enumerate(files)]:
            if str(attachment["id"]) in kept:
                found.append(kept[str(attachment["id"])])
                continue
            name = attachment["filename"]
            data = files[name]
            fresh = str(snowflake())
            url = f"{base}/cdn/{fresh}/{name}"
            made = {"id": fresh, "filename": name, "size": len(data), "url": url, "proxy_url": url}
            made["content_type"] = "application/octet-stream"
            if attachment.get("description"):
                made["description"] = attachment["description"]
            found.append(made)
        self.payload["attachments"] = found
        self.files = {a["filename"]: files.get(a["filename"], self.files.get(a["filename"], b"")) for a in found}

    def _resolve(self, payload: Json) -> None:
        """Turn attachment:// addresses of components into the ones the API gives back."""
        urls = {f"attachment://{a['filename']}": a["url"] for a in payload["attachments"]}
        for component in walk(payload["components"]):
            media = [item.get("media") for item in component.get("items") or ()]
            for found in (component.get("media"), component.get("file"), *media):
                if found:
                    found["url"] = urls.get(found["url"], found["url"])
                    found.update(proxy_url=found["url"], height=None, width=None, loading_state=2)


def new_message(author: Person, channel_id: int, flags: int = 0, message_type: int = 0, **more: Any) -> Message:
    """An empty message of `author`."""
    now = datetime.datetime.now(datetime.UTC).isoformat()
    return Message(
        {
            "id": str(snowflake()),
            "channel_id": str(channel_id),
            "type": message_type,
            "author": author.json(),
            "content": "",
            "embeds": [],
            "attachments": [],
            "components": [],
            "flags": flags,
            "mentions": [],
            "mention_roles": [],
            "mention_everyone": False,
            "pinned": False,
            "tts": False,
            "timestamp": now,
            "edited_timestamp": None,
            **more,
        }
    )


def mentioned_ids(content: str) -> set[int]:
    """Ids of the people a text mentions."""
    return {int(found) for found in _USER_MENTION.findall(content)}


def _parts(payload: Json) -> Iterator[str]:
    yield payload.get("content") or ""
    for embed in payload.get("embeds") or ():
        yield (embed.get("author") or {}).get("name") or ""
        yield embed.get("title") or ""
        yield embed.get("description") or ""
        for field_ in embed.get("fields") or ():
            yield field_["name"]
            yield field_["value"]
        yield (embed.get("footer") or {}).get("text") or ""
    for component in walk(payload.get("components") or ()):
        for key in ("content", "label", "placeholder", "description"):
            yield component.get(key) or ""
        for option in component.get("options") or ():
            yield option["label"]
