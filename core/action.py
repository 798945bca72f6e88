"""What changes the library: declared with slots like a Question, so that every adapter offers it the same way.

Recording is not answering: a Question only reads, an Action writes, and says what it wrote.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, ClassVar

from core.answer import Answer

if TYPE_CHECKING:
    from core.library import Library


@dataclass(frozen=True, slots=True)
class Actor:
    """Who acts: `user` and `name` of the person, `space` whose shelf it is (a server's id, or "" for the person's
    own), `now` the time in ISO 8601 UTC, `may_edit` what the server's roles allow, `once` an id that makes a repeated
    delivery of the same act harmless."""

    user: str
    name: str
    space: str = ""
    now: str = ""
    may_edit: bool = True
    once: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """Something to be recorded, changed or taken back."""

    command: ClassVar[str] = ""

    def act(self, library: Library, actor: Actor) -> Answer:
        """Do it and say what was done. Raises SteelyardError where it can't be done."""
        raise NotImplementedError
