"""What every act of recording has in common: whose shelf, who may, once only, and how to take it back."""

from __future__ import annotations

import sqlite3
from dataclasses import dataclass

from core.action import Action, Actor
from core.answer import Answer, Line, Worked, line
from core.book import Book
from core.errors import BadInput, NotAllowed
from core.library.library import AlreadyDone, Library
from core.library.names import cleaned
from core.library.records import Stamp
from core.library.space import Space

NOT_ALLOWED = (
    "Only those who manage this server, or have a role named in its settings, may change its shelf. "
    "Ask one of them, or write to me directly to keep it on your own shelf."
)


@dataclass(frozen=True, slots=True)
class Scene:
    """Where an act takes place: the open transaction, the shelf's space, who acts and when, what is there to read,
    and whether the actor may change what is the group's."""

    db: sqlite3.Connection
    space: Space
    stamp: Stamp
    book: Book
    may_edit: bool = True

    @property
    def user(self) -> str:
        """Who acts."""
        return self.stamp.user


@dataclass(frozen=True, slots=True, kw_only=True)
class Recording(Action):
    """An act that writes in one transaction, and only once however often it is delivered."""

    def act(self, library: Library, actor: Actor) -> Answer:
        """Look at what was given, then write. Raises SteelyardError where it can't be done; nothing is then written."""
        space = space_of(actor)
        book = library.book((space,), actor.user)
        lacking = self.lacking(book)
        if lacking is not None:
            return lacking
        if not actor.may_edit and not self.own(actor, space):
            raise NotAllowed(NOT_ALLOWED)
        stamp = Stamp(actor.user, shown_name(actor), actor.now)
        try:
            with library.writing(actor.once, actor.now) as db:
                return self.write(Scene(db, space, stamp, book, actor.may_edit or not space.shared))
        except AlreadyDone:
            return self.said(line("That is done already; nothing was done twice."))

    def lacking(self, book: Book) -> Answer | None:
        """What is missing or impossible before anything is written; None to go on."""
        return None

    def own(self, actor: Actor, space: Space) -> bool:
        """Whether it concerns the actor alone, so that nobody's leave is needed."""
        return not space.shared

    def write(self, scene: Scene) -> Answer:
        """Write it, and say what was written."""
        raise NotImplementedError

    def said(self, headline: Line, *body: Line) -> Worked:
        """An answer without figures."""
        return Worked(intent=self.command, headline=headline, body=body)


def space_of(actor: Actor) -> Space:
    """The shelf that is written to: the server's, or the person's own."""
    return Space.checked(actor.space) if actor.space else Space.own(actor.user)


def shown_name(actor: Actor) -> str:
    """The actor's name as it may stand in later answers."""
    try:
        return cleaned(actor.name[:80])
    except BadInput:
        return "somebody"
