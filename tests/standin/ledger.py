"""What the stand-in remembers: commands, messages, replies, requests, broken limits and planned faults."""

from __future__ import annotations

from collections import defaultdict, deque
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from tests.standin.breach import Breach, error_body
from tests.standin.faults import ApiError, Fault
from tests.standin.limits import breaches, open_mentions
from tests.standin.message import Message
from tests.standin.reply import Call, Reply
from tests.standin.world import DIRECT, GROUP_DIRECT, Channel, Json, Person, Server

TOKEN = "standin.token.not-secret"
HTTP_METHODS = ("GET", "POST", "PUT", "PATCH", "DELETE")


@dataclass(frozen=True, slots=True)
class Sent:
    """A request of the bot, parsed."""

    method: str
    path: str
    match: Mapping[str, str]
    body: Any
    files: dict[str, bytes]
    query: Mapping[str, str] = field(default_factory=dict)


@dataclass(slots=True)
class Ledger:
    """One world's state. With `record` off, replies and requests are forgotten once done (for long load runs)."""

    bot: Person
    base: str = ""  # http://127.0.0.1:PORT
    check: bool = True
    record: bool = True
    servers: dict[int, Server] = field(default_factory=dict)
    people: dict[int, Person] = field(default_factory=dict)
    channels: dict[int, Channel] = field(default_factory=dict)
    places: dict[int, Server | None] = field(default_factory=dict)  # server by channel id
    direct: dict[int, Channel] = field(default_factory=dict)  # by person
    commands: dict[int | None, list[Json]] = field(default_factory=dict)  # by server, None for global
    messages: dict[int, Message] = field(default_factory=dict)
    replies: dict[str, Reply] = field(default_factory=dict)  # by interaction token
    heard: dict[int, Reply] = field(default_factory=dict)  # by message id and by channel id: plain messages
    modals: dict[str, Reply] = field(default_factory=dict)  # by the form's custom_id
    calls: list[Call] = field(default_factory=list)
    violations: list[str] = field(default_factory=list)
    faults: dict[str, deque[Fault]] = field(default_factory=lambda: defaultdict(deque))
    denied: dict[int, int] = field(default_factory=dict)  # API error code by channel id
    uploads: dict[str, bytes] = field(default_factory=dict)  # by "id/name"
    echo: Callable[[str, Json], None] = lambda event, payload: None  # tells the bot of its own messages

    def see(self, channel: Channel, server: Server | None = None) -> Channel:
        """Note a channel and its server. Where the bot is no member, its own posts are refused."""
        self.channels[channel.id] = channel
        self.places[channel.id] = server
        outside = channel.type == GROUP_DIRECT or (server is not None and server.id not in self.servers)
        if outside:
            self.denied.setdefault(channel.id, 50001)
        return channel

    def direct_channel(self, person: Person) -> Channel:
        """The direct conversation of the bot with `person`, opened when it is not there yet."""
        self.people[person.id] = person
        if person.id not in self.direct:
            self.direct[person.id] = self.see(Channel("", type=DIRECT, people=(person,)))
        return self.direct[person.id]

    def join(self, server: Server) -> None:
        self.servers[server.id] = server
        for channel in server.channels:
            self.denied.pop(channel.id, None)
            self.see(channel, server)

    def leave(self, server: Server) -> None:
        del self.servers[server.id]
        for channel in server.channels:
            self.see(channel, server)

    def command(self, name: str, kind: int, server: Server | None) -> Json | None:
        """The registered command of that name, a server's own before a global one."""
        for scope in (server.id if server else None, None):
            for command in self.commands.get(scope, ()):
                if command["name"] == name and command.get("type", 1) == kind:
                    return command
        return None

    def fault(self, where: str) -> Fault | None:
        planned = self.faults[where]
        return planned.popleft() if planned else None

    def examine(self, kind: str, payload: Any, sent: Sent, more: list[Breach] | None = None) -> None:
        """Note and refuse a payload that breaks a limit. Raises ApiError with the API's error body."""
        if not self.check:
            return
        found = [*(more or ()), *breaches(kind, payload)]
        if found:
            self.violations += [f"{sent.method} {sent.path}: {breach}" for breach in found]
            raise ApiError(400, error_body(found))

    def examine_mentions(self, body: Json, sent: Sent) -> None:
        """Note a message that could ping someone. The platform takes it, the project's rule does not."""
        if self.check:
            self.violations += [f"{sent.method} {sent.path}: {says}" for says in open_mentions(body)]

    def forget(self, reply: Reply) -> None:
        """Drop what a finished reply holds (only when not recording)."""
        self.replies.pop(reply.asked.get("token", ""), None)
        self.heard.pop(reply.id, None)
        for message in reply.messages:
            self.messages.pop(message.id, None)
