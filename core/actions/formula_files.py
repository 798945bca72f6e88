"""Formulas as files: taken out of a library with their versions and tests, and taken in, all of a file or nothing.

What a file is (a path, an attachment) is the adapters' business: here it is its bytes.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import ClassVar

from core.action import Action, Actor
from core.actions.materials import taken_back
from core.actions.recording import NOT_ALLOWED, Recording, Scene, space_of
from core.answer import Answer, Line, Missing, Need, Worked, line, listed
from core.book import Book
from core.compounds import FormulaName, SeenBy
from core.errors import NotAllowed, NotFound, OutOfRange
from core.library import Library, carrying, names, portable_text
from core.library.carrying import PutIn, TakenOut
from core.library.formulas import KIND
from core.library.space import Space
from core.question import slot
from core.questions.cautions import too_much
from core.questions.formulas import of_wax
from core.units import Number

NEED_FILE = Need("file", line("a file of formulas, JSON or CSV"), line("Export one to see the shape it should have."))
MOST_NAMED = 5  # names in one sentence


@dataclass(frozen=True, slots=True, kw_only=True)
class ExportFormulas(Action):
    """Your formulas as files, JSON and CSV: every version, every test, who may see them."""

    command: ClassVar[str] = "export_formulas"

    formula: FormulaName | None = slot("Only this one", example="winter pine")
    after: FormulaName | None = slot("Only those after this one in the alphabet, to go on", example="winter pine")

    def take(self, library: Library, actor: Actor) -> TakenOut:
        """What the actor may see of the shelf, as much as one file takes. NotFound, LibraryUnavailable."""
        space = space_of(actor)
        with library.reading() as db:
            if db is None:
                return TakenOut(())
            found = carrying.take_out(db, space, actor.user, only=self.formula or "", after=self.after or "")
            if self.formula and not found.found:
                near = names.suggest(db, (space,), actor.user, KIND, self.formula, 3)
                raise NotFound(KIND, self.formula, near)
        return found


def told(out: TakenOut, *, more: bool = True) -> Worked:
    """What a file holds; with `more`, how to go on where it does not hold all."""
    if not out.found:
        return Worked(intent=ExportFormulas.command, headline=line("There is no formula to export here yet."))
    counts = (
        _count(len(out.found), "formula"),
        _count(sum(len(one.versions) for one in out.found), "version"),
        _count(sum(len(one.tests) for one in out.found), "test"),
    )
    body = []
    if out.after and more:
        body.append(line("There are more than fit into one file: go on with “after” and {}.", out.after))
    if out.cut:
        body.append(line("Too long for a file, so without the oldest versions or tests: {}.", _names(out.cut)))
    head = line("Exported: {}, {} and {}.", *counts)
    return Worked(intent=ExportFormulas.command, headline=head, body=tuple(body))


def _count(number: int, what: str) -> Line:
    return line(f"{{}} {what}{'' if number == 1 else 's'}", Number(Decimal(number)))


def _names(found: tuple[str, ...]) -> Line:
    more = f" and {len(found) - MOST_NAMED:,} more" if len(found) > MOST_NAMED else ""
    return line("{}" + more, listed(found[:MOST_NAMED]))


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportFormulas(Recording):
    """Record the formulas of a file that was exported here: all of it or nothing."""

    command: ClassVar[str] = "import_formulas"

    data: bytes = b""
    seen_by: SeenBy | None = slot("Who may see them (as the file says, if left out)")

    def lacking(self, book: Book) -> Answer | None:
        """Something in the file."""
        if not self.data.strip():
            return Missing(intent=self.command, headline=line("That file is empty."), needs=(NEED_FILE,))
        return None

    def own(self, actor: Actor, space: Space) -> bool:
        """Whether all of them are the actor's alone is known only from the file: see `write`."""
        return True

    def write(self, scene: Scene) -> Answer:
        """What is new of each becomes versions and tests; what is there stays."""
        found = portable_text.read(self.data)
        if self.seen_by is not None:
            found = tuple(replace(one, private=self.seen_by is SeenBy.ME) for one in found)
        if not scene.may_edit and not all(one.private for one in found):
            raise NotAllowed(NOT_ALLOWED)
        came: list[tuple[str, PutIn]] = []
        for one in found:
            if any(too_much(of_wax(version.formula)) for version in one.versions):
                raise OutOfRange(one.name, f"“{one.name}” has a load that no wax holds, so nothing was taken in.")
            reader = scene.user if one.private and scene.space.shared else ""
            came.append((one.name, carrying.put_in(scene.db, scene.space, one, scene.stamp, reader)))
        return self._told(came)

    def _told(self, came: list[tuple[str, PutIn]]) -> Answer:
        new = [one for _, one in came if one.versions or one.tests]
        if not new:
            return self.said(line("Nothing new: {} recorded just so already.", _were(len(came))))
        head = line(
            "Taken in: {} and {}, of {}.",
            _count(sum(one.versions for one in new), "version"),
            _count(sum(one.tests for one in new), "test"),
            _count(len(new), "formula"),
        )
        body = []
        if len(new) < len(came):
            body.append(line("{} recorded just so already.", _were(len(came) - len(new))))
        apart = tuple(name for name, one in came if one.apart)
        if apart:
            words = "Changed here too, so the file's newest became a new version, and what was here stays: {}."
            body.append(line(words, _names(apart)))
        left = sum(one.left_out for _, one in came)
        if left:
            body.append(line("{} left out: of versions that are not here.", _were(left, "test")))
        return self.said(head, *body, taken_back())


def _were(number: int, what: str = "formula") -> Line:
    return line("{} {}", _count(number, what), Line("was" if number == 1 else "were"))
