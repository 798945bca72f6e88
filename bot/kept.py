"""Questions too long for a button: known at once under a short key, written down after the answer has gone out."""

from __future__ import annotations

import asyncio
import logging
from collections import OrderedDict
from dataclasses import dataclass, field

from bot.state import GONE, OldButton, width
from core.errors import LibraryUnavailable
from core.library import Library
from core.library.odds import asked_id

log = logging.getLogger("steelyard")

KEY = "#"
IN_MEMORY = 1_000
UNWRITTEN = 200


@dataclass(slots=True)
class Kept:
    """The library's kept texts, with the newest in memory: those work even where the library can't be written."""

    library: Library | None
    _recent: OrderedDict[str, str] = field(default_factory=OrderedDict)
    _unwritten: OrderedDict[str, str] = field(default_factory=OrderedDict)
    _saving: asyncio.Lock = field(default_factory=asyncio.Lock)
    _posted: OrderedDict[int, None] = field(default_factory=OrderedDict)

    def short(self, text: str, room: int) -> str:
        """The text itself where it fits into `room` characters, else the key it is kept under."""
        return text if width(text) <= room and not text.startswith(KEY) else self.keep(text)

    def keep(self, text: str) -> str:
        """The key the text is kept under. It is written down by the next `save`."""
        key = asked_id(text)
        if key not in self._recent:
            self._unwritten[key] = text
            while len(self._unwritten) > UNWRITTEN:
                self._unwritten.popitem(last=False)
        self._recent[key] = text
        self._recent.move_to_end(key)
        while len(self._recent) > IN_MEMORY:
            self._recent.popitem(last=False)
        return KEY + key

    def find(self, state: str) -> str:
        """The text of a state. OldButton where it is no longer kept, LibraryUnavailable where it can't be read."""
        if not state.startswith(KEY):
            return state
        text = self._recent.get(state[1:])
        if text is None and self.library is not None:
            text = self.library.asked(state[1:])
        if text is None:
            raise OldButton(GONE)
        return text

    @property
    def waiting(self) -> bool:
        """True where something is still to be written down."""
        return bool(self._unwritten)

    def posted(self, message_id: int) -> bool:
        """Whether that answer was posted to its channel, or is on its way there."""
        return message_id in self._posted

    def mark_posted(self, message_id: int, there: bool) -> None:
        """It is (or after all is not) on its way to the channel."""
        if there:
            self._posted[message_id] = None
            while len(self._posted) > IN_MEMORY:
                self._posted.popitem(last=False)
        else:
            self._posted.pop(message_id, None)

    async def save(self, now: str) -> None:
        """Write down what is not yet. What the library does not take now is tried again at the next `save`."""
        async with self._saving:  # one at a time: who comes second finds nothing left to write
            while self._unwritten and self.library is not None:
                key, text = next(iter(self._unwritten.items()))
                try:
                    await asyncio.to_thread(self.library.keep_asked, text, now)
                except LibraryUnavailable as error:
                    log.warning("event=not_kept reason=%s", error.reason.partition(":")[0])
                    return
                self._unwritten.pop(key, None)
