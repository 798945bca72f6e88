"""What came of one thing asked of the bot."""

from __future__ import annotations

import asyncio
import time
from collections.abc import Callable
from dataclasses import dataclass, field

from tests.standin.limits import COMPLETIONS, MODAL
from tests.standin.message import Message
from tests.standin.world import Json


class NotAnsweredError(AssertionError):
    """The bot stayed silent, or did not do what was waited for, within the time given."""


@dataclass(frozen=True, slots=True)
class Call:
    """One request of the bot. `refused` is the API error code, 0 when it was taken or has none."""

    method: str
    path: str
    body: Json
    files: dict[str, bytes]
    status: int
    refused: int
    at: float


@dataclass(slots=True)
class Reply:
    """The bot's answer to one interaction or message, growing as it arrives.

    `asked` is the event's payload; `callback` the accepted callback with its type; `message` the message that answers
    (for an update: the one updated), `messages` all it made, `modal` a form it opened, `choices` its completions.
    Times are seconds: `acknowledged_after`, `answered_after`.
    """

    asked: Json
    original: Message | None = None  # the message a button or select was used on
    deadline: float = 3.0
    sent_at: float = field(default_factory=time.perf_counter)
    callback: Json | None = None
    calls: list[Call] = field(default_factory=list)
    messages: list[Message] = field(default_factory=list)
    answering: Message | None = None  # what @original stands for
    edits: int = 0
    expired: bool = False
    acknowledged_after: float | None = None
    answered_after: float | None = None
    _waiting: list[asyncio.Future[None]] = field(default_factory=list)

    @property
    def id(self) -> int:
        return int(self.asked["id"])

    @property
    def answered(self) -> bool:
        return self.answered_after is not None

    @property
    def type(self) -> int | None:
        """The callback's type, None before there is one (and always for a plain message)."""
        return None if self.callback is None else int(self.callback["type"])

    @property
    def data(self) -> Json:
        """The data of the first callback."""
        return dict((self.callback or {}).get("data") or {})

    @property
    def message(self) -> Message:
        """The answering message. NotAnsweredError when there is none."""
        found = self.answering or (self.messages[0] if self.messages else None)
        if found is None:
            raise NotAnsweredError(f"no message answers this; the callback was {self.callback}")
        return found

    @property
    def modal(self) -> Json:
        """The form that was opened. NotAnsweredError when none was."""
        if self.type != MODAL:
            raise NotAnsweredError(f"no form was opened; the callback was {self.callback}")
        return self.data

    @property
    def choices(self) -> list[Json]:
        """Completions offered. NotAnsweredError when none were sent (an empty list is an answer)."""
        if self.type != COMPLETIONS:
            raise NotAnsweredError(f"no completions came; the callback was {self.callback}")
        return list(self.data["choices"])

    @property
    def text(self) -> str:
        """All a reader sees in the answer: every message made, or the one changed."""
        seen = self.messages or [self.message]
        return "\n".join(message.text for message in seen if not message.deleted)

    @property
    def ephemeral(self) -> bool:
        return self.message.ephemeral

    @property
    def files(self) -> dict[str, bytes]:
        return {name: data for message in self.messages or [self.message] for name, data in message.files.items()}

    @property
    def statuses(self) -> list[int]:
        """HTTP statuses of all requests that belong to this, in order; 0 for a connection that was cut."""
        return [call.status for call in self.calls]

    def mark(self, answered: bool) -> None:
        """Note the time of an acknowledgement or an answer, and wake who waits."""
        after = time.perf_counter() - self.sent_at
        if self.acknowledged_after is None:
            self.acknowledged_after = after
        if answered and self.answered_after is None:
            self.answered_after = after
        self.wake()

    def wake(self) -> None:
        waiting, self._waiting = self._waiting, []
        for waiter in waiting:
            if not waiter.done():
                waiter.set_result(None)

    async def until(self, holds: Callable[[Reply], bool], seconds: float = 3.0) -> Reply:
        """Wait until `holds(self)`; NotAnsweredError when that takes longer than `seconds`."""
        try:
            async with asyncio.timeout(seconds):
                while not holds(self):
                    waiter = asyncio.get_running_loop().create_future()
                    self._waiting.append(waiter)
                    await waiter
        except TimeoutError:
            raise NotAnsweredError(f"nothing within {seconds} s; requests so far: {self.statuses}") from None
        return self

    async def more(self, messages: int, seconds: float = 3.0) -> Reply:
        """Wait until the bot has made that many messages."""
        return await self.until(lambda reply: len(reply.messages) >= messages, seconds)

    async def edited(self, times: int = 1, seconds: float = 3.0) -> Reply:
        """Wait until the answer has been edited that often."""
        return await self.until(lambda reply: reply.edits >= times, seconds)
