"""Recording a formula, and what a test of it showed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import ClassVar

from core.action import Actor
from core.actions.materials import taken_back
from core.actions.recording import NOT_ALLOWED, Recording, Scene
from core.answer import Answer, Line, Missing, Need, Result, line, listed
from core.book import Book, FormulaRecord
from core.compounds import Additives, Basis, FormulaName, Load, Parts, SeenBy, Verdict, VesselName, Words
from core.errors import NotAllowed, OutOfRange
from core.library import formulas, records
from core.library.names import prose
from core.library.space import Space
from core.question import slot
from core.questions.cautions import too_much, too_much_answer
from core.questions.formulas import formula_cautions, of_wax
from core.units import Number

NEED_NAME = Need("name", line("what you call it"), line("Such as “winter pine”."))
NEED_LOAD = Need("load_percent", line("the load: how many percent fragrance"), line("Such as 8 %."))


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordFormula(Recording):
    """Record a formula, or a new version of it: say only what changes."""

    command: ClassVar[str] = "record_formula"

    name: FormulaName | None = slot("What you call it", example="winter pine", required=True)
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    waxes: Parts | None = slot("The waxes, by parts", example="soy 70, coconut 30")
    fragrances: Parts | None = slot("The fragrance oils, by parts", example="pine 60, orange 40")
    additives: Additives | None = slot("Dye, UV inhibitor...: percents of the wax (0% drops all)", example="dye 0.1%")
    vessel: VesselName | None = slot("The vessel it is poured into", example="amber tin")
    notes: Words | None = slot("Wick, temperatures from the sheet, anything else", example="wick 8, stir two minutes")
    reason: Words | None = slot("Why it changed", example="scent was too faint")
    seen_by: SeenBy | None = slot("Who may see it")

    def lacking(self, book: Book) -> Answer | None:
        """A name; for a new formula a load too."""
        if not self.name:
            head = line("What is the formula called?")
            return Missing(intent=self.command, headline=head, needs=(NEED_NAME,))
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        if self.load is None and book.formula(self.name) is None:
            head = line("What load has {}? A formula needs one, such as 8 %.", self.name)
            return Missing(intent=self.command, headline=head, needs=(NEED_LOAD,))
        return None

    def own(self, actor: Actor, space: Space) -> bool:
        """A formula only the actor sees needs nobody's leave."""
        return not space.shared or self.seen_by is SeenBy.ME

    def write(self, scene: Scene) -> Answer:
        """Keep it as a new version; what was not said stays as it was."""
        assert self.name
        reader = self._reader(scene)
        there = records.exactly(scene.db, scene.space, formulas.KIND, self.name, reader)
        before = formulas.from_data(there) if there is not None else None
        wanted = formulas.checked(self._filled(before, scene.book))
        if too_much(of_wax(wanted)):
            return too_much_answer(of_wax(wanted))
        kept, changed = formulas.write(scene.db, scene.space, wanted, scene.stamp, reader=reader)
        if not changed:
            return self.said(line("{} is recorded just so already; nothing has changed.", kept.name))
        head = line("Recorded: {0}, version {1}.", kept.name, Number(Decimal(kept.version)))
        body = [contents(kept)]
        if reader:
            body.append(line("Only you can see it."))
        answer = self.said(head, *body, taken_back())
        return replace(answer, results=(Result("load", kept.load),), cautions=formula_cautions(kept, scene.book))

    def _reader(self, scene: Scene) -> str:
        """Who alone sees it: as said, else as it is now."""
        if not scene.space.shared or self.seen_by is SeenBy.GROUP:
            return ""
        mine = records.exactly(scene.db, scene.space, formulas.KIND, self.name or "", scene.user)
        return scene.user if self.seen_by is SeenBy.ME or mine is not None else ""

    def _filled(self, before: FormulaRecord | None, book: Book) -> FormulaRecord:
        """The record with what was said in place of what it was."""
        assert self.name
        said_basis = self.basis or (self.load.basis if self.load is not None else None)
        if before is None:
            assert self.load is not None
            basis = said_basis or book.preferences.basis
            before = FormulaRecord(name=self.name, version=0, load=self.load.percent, basis=basis)
        return replace(
            before,
            load=self.load.percent if self.load is not None else before.load,
            basis=said_basis or before.basis,
            waxes=self.waxes.items if self.waxes is not None else before.waxes,
            fragrances=self.fragrances.items if self.fragrances is not None else before.fragrances,
            additives=self.additives.items if self.additives is not None else before.additives,
            vessel=self.vessel or before.vessel,
            notes=self.notes or before.notes,
            reason=self.reason or "",
        )


def contents(formula: FormulaRecord) -> Line:
    """What is in it, in one sentence."""
    lists = [("wax", formula.waxes), ("fragrance", formula.fragrances)]
    parts = [line("load {0} {1}", formula.load, Line(formula.basis.value))]
    for what, items in lists:
        if items:
            shares = [line("{0} {1}", name, part) for name, part in items]
            parts.append(line(what + " {}", listed(shares, " + ")))
    parts += [line("{0} {1}", name, percent) for name, percent in formula.additives]
    if formula.vessel:
        parts.append(line("poured into {}", formula.vessel))
    return line("Holds: {}.", listed(parts))


@dataclass(frozen=True, slots=True, kw_only=True)
class LogTest(Recording):
    """Log what a test of a formula showed: days of cure, what you saw, the verdict."""

    command: ClassVar[str] = "log_test"

    formula: FormulaName | None = slot("Which formula", example="winter pine", required=True)
    observed: Words | None = slot("What you saw", example="full melt pool after 2 h, no soot", required=True)
    verdict: Verdict | None = slot("What it came to")
    cure_days: int | None = slot("Days of cure before the test", example="14")
    version: int | None = slot("Which version (the newest if left out)", example="2")

    def lacking(self, book: Book) -> Answer | None:
        """A formula, and something observed or a verdict."""
        if self.cure_days is not None and not 0 <= self.cure_days <= formulas.LONGEST_CURE:
            raise OutOfRange(str(self.cure_days), formulas.CURE_RANGE)
        if not self.formula:
            head = line("Which formula did you test?")
            return Missing(intent=self.command, headline=head, needs=(replace(NEED_NAME, name="formula"),))
        if not self.observed and self.verdict is None:
            need = Need("observed", line("what you saw"), line("Such as “full melt pool after 2 h, no soot”."))
            return Missing(intent=self.command, headline=line("What did the test show?"), needs=(need,))
        return None

    def own(self, actor: Actor, space: Space) -> bool:
        """Whether the formula is the actor's alone is known only once it is found: see `write`."""
        return True

    def write(self, scene: Scene) -> Answer:
        """Add it to the log of that version."""
        record, name = records.need(scene.db, (scene.space,), scene.user, formulas.KIND, self.formula or "")
        if not scene.may_edit and records.reader(scene.db, record) != scene.user:
            raise NotAllowed(NOT_ALLOWED)
        version = records.version(scene.db, record, self.version)
        if version is None:
            raise OutOfRange(
                str(self.version), "There is no such version. /shelf with its name lists the versions of a formula."
            )
        verdict = self.verdict.value if self.verdict is not None else ""
        number = formulas.log_test(scene.db, version, self.cure_days, prose(self.observed or ""), verdict, scene.stamp)
        head = line(
            "Logged: test {0} of {1}, version {2}.", Number(Decimal(number)), name, Number(Decimal(version.number))
        )
        return self.said(head, taken_back())
