"""Whose shelf a record stands on. Nothing of one space ever shows in another."""

from __future__ import annotations

from core.errors import BadInput

LONGEST = 60


class Space(str):
    """`guild:<id>` for a server, `user:<id>` for a person's own, `local` for the local chat."""

    __slots__ = ()

    @classmethod
    def guild(cls, guild_id: int | str) -> Space:
        """A server's shelf."""
        return cls(f"guild:{guild_id}")

    @classmethod
    def own(cls, user: str) -> Space:
        """What belongs to one person alone, wherever they ask."""
        return cls(f"user:{user}")

    @classmethod
    def checked(cls, text: str) -> Space:
        """`text` as a space; BadInput where it names none, so that a slip in an adapter can't open a shared shelf."""
        kind, _, key = text.partition(":")
        if text == LOCAL or (kind in ("guild", "user") and key and len(text) <= LONGEST and key.isprintable()):
            return cls(text)
        raise BadInput(text, "I don't know whose shelf that is.")

    @property
    def shared(self) -> bool:
        """True for a server's shelf."""
        return self.startswith("guild:")


LOCAL = Space("local")
