"""Who and where: invented people, servers and channels, and the JSON the API shows of them."""

from __future__ import annotations

import itertools
import time
from dataclasses import dataclass, field
from typing import Any

Json = dict[str, Any]

DISCORD_EPOCH_MS = 1420070400000
_serial = itertools.count(1)

SEND_MESSAGES, VIEW_CHANNEL, EMBED_LINKS, ATTACH_FILES = 1 << 11, 1 << 10, 1 << 14, 1 << 15
USE_COMMANDS, READ_HISTORY, MANAGE_SERVER, USE_EXTERNAL_APPS = 1 << 31, 1 << 16, 1 << 5, 1 << 50
MEMBER = SEND_MESSAGES | VIEW_CHANNEL | EMBED_LINKS | ATTACH_FILES | USE_COMMANDS | READ_HISTORY | USE_EXTERNAL_APPS
MANAGER = MEMBER | MANAGE_SERVER

TEXT_CHANNEL, DIRECT, GROUP_DIRECT = 0, 1, 3


def snowflake(at: float | None = None) -> int:
    """A fresh id whose creation time is `at` (seconds since 1970), or now."""
    milliseconds = int((time.time() if at is None else at) * 1000) - DISCORD_EPOCH_MS
    return milliseconds << 22 | (next(_serial) & 0x3FFFFF)


@dataclass(frozen=True, slots=True)
class Person:
    """A member of the platform, or the bot itself."""

    name: str
    id: int = field(default_factory=snowflake)
    bot: bool = False

    def json(self) -> Json:
        return {
            "id": str(self.id),
            "username": self.name,
            "global_name": self.name.title(),
            "discriminator": "0",
            "avatar": None,
            "bot": self.bot,
            "public_flags": 0,
        }


@dataclass(frozen=True, slots=True)
class Role:
    name: str
    id: int = field(default_factory=snowflake)

    def json(self) -> Json:
        return {
            "id": str(self.id),
            "name": self.name,
            "color": 0,
            "colors": {"primary_color": 0, "secondary_color": None, "tertiary_color": None},
            "hoist": False,
            "position": 1,
            "permissions": str(MEMBER),
            "managed": False,
            "mentionable": False,
            "flags": 0,
        }


@dataclass(frozen=True, slots=True)
class Channel:
    """A text channel, or (types 1 and 3) a direct or group conversation with `people`."""

    name: str
    id: int = field(default_factory=snowflake)
    type: int = TEXT_CHANNEL
    people: tuple[Person, ...] = ()

    def json(self, server: Server | None = None, permissions: int = MEMBER) -> Json:
        if self.type != TEXT_CHANNEL:
            recipients = [person.json() for person in self.people]
            return {"id": str(self.id), "type": self.type, "recipients": recipients, "name": self.name, "flags": 0}
        found = {
            "id": str(self.id),
            "type": self.type,
            "name": self.name,
            "position": 0,
            "nsfw": False,
            "flags": 0,
            "topic": None,
            "rate_limit_per_user": 0,
            "parent_id": None,
            "last_message_id": None,
            "permission_overwrites": [],
            "permissions": str(permissions),
        }
        return found if server is None else {**found, "guild_id": str(server.id)}


@dataclass(frozen=True, slots=True)
class Upload:
    """A file an asker attaches to a slash option or a form."""

    name: str
    data: bytes
    type: str = "application/octet-stream"
    id: int = field(default_factory=snowflake)

    def json(self, base: str) -> Json:
        url = f"{base}/cdn/{self.id}/{self.name}"
        found = {"id": str(self.id), "filename": self.name, "size": len(self.data), "url": url, "proxy_url": url}
        return {**found, "content_type": self.type, "ephemeral": True}


@dataclass(frozen=True, slots=True)
class Server:
    """A guild. One that never joined the bot (user-installed use) is simply not in the stand-in's list."""

    name: str
    id: int = field(default_factory=snowflake)
    channels: tuple[Channel, ...] = field(default_factory=lambda: (Channel("general"),))
    roles: tuple[Role, ...] = ()
    locale: str = "en-US"

    def partial(self) -> Json:
        return {"id": str(self.id), "locale": self.locale, "features": []}

    def json(self, bot: Person) -> Json:
        """The whole guild, as GUILD_CREATE sends it."""
        everyone = Role("@everyone", id=self.id)
        return {
            **self.partial(),
            "name": self.name,
            "icon": None,
            "owner_id": str(self.id + 1),
            "large": False,
            "member_count": 2,
            "preferred_locale": self.locale,
            "verification_level": 0,
            "default_message_notifications": 0,
            "explicit_content_filter": 0,
            "mfa_level": 0,
            "nsfw_level": 0,
            "premium_tier": 0,
            "joined_at": "2026-01-01T00:00:00+00:00",
            "roles": [role.json() for role in (everyone, *self.roles)],
            "channels": [channel.json(self) for channel in self.channels],
            "members": [member(bot, MEMBER)],
            "emojis": [],
            "stickers": [],
            "threads": [],
            "voice_states": [],
            "presences": [],
            "stage_instances": [],
            "guild_scheduled_events": [],
            "soundboard_sounds": [],
        }


def member(person: Person, permissions: int, roles: tuple[Role, ...] = ()) -> Json:
    """A person as a server's member, with the permissions they have in the channel."""
    return {
        "user": person.json(),
        "nick": None,
        "avatar": None,
        "roles": [str(role.id) for role in roles],
        "joined_at": "2026-01-01T00:00:00+00:00",
        "premium_since": None,
        "deaf": False,
        "mute": False,
        "pending": False,
        "flags": 0,
        "communication_disabled_until": None,
        "permissions": str(permissions),
    }
