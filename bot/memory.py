"""What was answered last, per person and place: short, bounded, never written down."""

from __future__ import annotations

import time
from collections import OrderedDict
from collections.abc import Callable
from dataclasses import dataclass, field

from core.answer import Answer

KEPT_SECONDS = 15 * 60
KEPT_AT_MOST = 2_000


@dataclass(slots=True)
class Memory:
    """The last answer of each asker in each place, forgotten after a quarter of an hour."""

    clock: Callable[[], float] = time.monotonic
    _kept: OrderedDict[tuple[str, str], tuple[float, Answer]] = field(default_factory=OrderedDict)

    def last(self, user: str, place: str) -> Answer | None:
        """The answer a follow-up would build on."""
        found = self._kept.get((user, place))
        if found is None or self.clock() - found[0] > KEPT_SECONDS:
            return None
        return found[1]

    def keep(self, user: str, place: str, answer: Answer) -> None:
        """Remember it, and drop the oldest where there are too many."""
        self._kept[user, place] = (self.clock(), answer)
        self._kept.move_to_end((user, place))
        while len(self._kept) > KEPT_AT_MOST:
            self._kept.popitem(last=False)

    def forget(self, user: str) -> None:
        """Drop everything of one person."""
        for key in [key for key in self._kept if key[0] == user]:
            del self._kept[key]
