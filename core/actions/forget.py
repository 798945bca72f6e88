"""Taking things off the shelf, and back again."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

from core.action import Actor
from core.actions.recording import NOT_ALLOWED, Recording, Scene
from core.answer import Answer, Missing, Need, line
from core.book import Book
from core.compounds import FormulaName, Material, VesselName
from core.errors import Contradiction, NotAllowed, OutOfRange
from core.library import formulas, lately, materials, records
from core.library.lately import Undone
from core.library.space import Space
from core.question import slot
from core.units import Number

NEED_WHICH = Need(
    "which", line("which material, vessel or formula"), line("Give its name; /shelf lists what is recorded.")
)


@dataclass(frozen=True, slots=True, kw_only=True)
class _OneRecord(Recording):
    """An act on one thing on the shelf."""

    material: Material | None = slot("A material", example="soy wax A")
    vessel: VesselName | None = slot("A vessel", example="amber tin")
    formula: FormulaName | None = slot("A formula", example="winter pine")

    def which(self) -> tuple[str, str] | None:
        """Its kind and name; None where none was given. Contradiction for more than one."""
        named = [("material", self.material), ("vessel", self.vessel), ("formula", self.formula)]
        given = [(kind, str(name)) for kind, name in named if name]
        if len(given) > 1:
            raise Contradiction("which", "One thing at a time: give a material, a vessel or a formula.")
        return given[0] if given else None

    def lacking(self, book: Book) -> Answer | None:
        """One name."""
        if self.which() is None:
            return Missing(intent=self.command, headline=line("Which one?"), needs=(NEED_WHICH,))
        return None

    def own(self, actor: Actor, space: Space) -> bool:
        """Whether it is the actor's alone is known only once it is found: see `allowed`."""
        return True

    def allowed(self, scene: Scene, record: int) -> None:
        """Raise NotAllowed where it is the group's and the actor may not change that."""
        if not scene.may_edit and records.reader(scene.db, record) != scene.user:
            raise NotAllowed(NOT_ALLOWED)


@dataclass(frozen=True, slots=True, kw_only=True)
class ForgetRecord(_OneRecord):
    """Delete a material, a vessel or a formula, or one measurement or test of it; undo within 30 days."""

    command: ClassVar[str] = "delete"

    number: int | None = slot("Only this measurement of a material, or this test of a formula", example="3")

    def write(self, scene: Scene) -> Answer:
        """Out of sight, and gone 30 days later."""
        which = self.which()
        assert which is not None
        kind, given = which
        record, name = records.need(scene.db, (scene.space,), scene.user, kind, given)
        self.allowed(scene, record)
        back = line("Kept for {} days: /undo with its name brings it back.", Number(Decimal(lately.UNDO_DAYS)))
        if self.number is None:
            records.delete(scene.db, record, scene.stamp)
            return self.said(line(f"Deleted: the {kind} {{}}.", name), back)
        if kind == "material":
            materials.take_out(scene.db, record, self.number, scene.stamp)
        elif kind == "formula":
            formulas.take_out_test(scene.db, record, self.number, scene.stamp)
        else:
            raise OutOfRange(str(self.number), "A vessel has no measurements to take out. Leave the number away.")
        what = "measurement" if kind == "material" else "test"
        return self.said(line(f"Deleted: {what} {{0}} of {{1}}.", Number(Decimal(self.number)), name), back)


SAID = {
    Undone.DELETION: "{0} is back.",
    Undone.MEASUREMENT_OUT: "Measurement {1} of {0} is back.",
    Undone.TEST_OUT: "Test {1} of {0} is back.",
    Undone.MEASUREMENT: "Measurement {1} of {0} is taken back.",
    Undone.TEST: "Test {1} of {0} is taken back.",
    Undone.RECORDING: "{0} is taken back: it is no longer recorded.",
    Undone.CHANGE: "{0} is as it was in version {1} again.",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class UndoDelete(_OneRecord):
    """Take the last change of a material, a vessel or a formula back, or a deletion of the last 30 days."""

    command: ClassVar[str] = "undo"

    def write(self, scene: Scene) -> Answer:
        """Take it back; doing it again brings the change back."""
        which = self.which()
        assert which is not None
        record, deleted = lately.to_undo(scene.db, scene.space, scene.user, *which)
        self.allowed(scene, record)
        back = lately.undo(scene.db, record, deleted, scene.stamp)
        return self.said(line(SAID[back.what], back.name, Number(Decimal(back.number))))
