"""What is recorded: the names on the shelf, or everything about one of them."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from core.answer import Answer, Line, Result, Table, Worked, line, listed
from core.book import Annals, Book, Change, MaterialRecord, Measured, Tested, VesselRecord
from core.compounds import FormulaName, Material, VesselName
from core.errors import Contradiction, NotFound, clipped
from core.question import Question, slot
from core.questions.formulas import contents, formula_cautions, origin
from core.questions.known_density import expanded
from core.questions.recorded import formula_found
from core.units import Density, Quantity

MOST = 25  # names of a kind, rows of a table
MOST_CHANGES = 5  # versions of one record


class Kind(StrEnum):
    """What may be recorded."""

    MATERIAL = "materials"
    VESSEL = "vessels"
    FORMULA = "formulas"


KEYS = {Kind.MATERIAL: "material", Kind.VESSEL: "vessel", Kind.FORMULA: "formula"}
# What a kind is, and how the first one gets there.
ADD = {
    Kind.MATERIAL: line(
        "Materials are waxes and oils with their densities. Add the first one with /record_density (what you measured) "
        "or /record_material (what its sheet says)."
    ),
    Kind.VESSEL: line("Vessels are jars and tins with what they hold. Add the first one with /record_vessel."),
    Kind.FORMULA: line("Formulas are recipes with their tests. Add the first one with /record_formula."),
}
WHOSE = line("It keeps what was measured and tested: in a server for everybody there, in a direct message for you.")


@dataclass(frozen=True, slots=True, kw_only=True)
class ShelfQuestion(Question):
    """What is recorded: all names, or one material, vessel or formula with its history."""

    command: ClassVar[str] = "shelf"

    material: Material | None = slot("Everything about this material", example="soy wax A")
    vessel: VesselName | None = slot("Everything about this vessel", example="amber tin")
    formula: FormulaName | None = slot("Everything about this formula", example="winter pine")
    kind: Kind | None = slot("Only names of this kind")
    start: str | None = slot("Only names that begin so", example="soy")

    @property
    def intent(self) -> str:
        """One name for every look at the shelf."""
        return "shelf"

    def answer(self, book: Book) -> Answer:
        """Worked: names, or one record. NotFound with near names; Contradiction for two at once."""
        if sum(bool(name) for name in (self.material, self.vessel, self.formula)) > 1:
            raise Contradiction("shelf", "One thing at a time: give a material, a vessel or a formula.")
        if self.material:
            return self._material(self.material, book)
        if self.vessel:
            return self._vessel(self.vessel, book)
        return self._formula(self.formula, book) if self.formula else self._names(book)

    def _names(self, book: Book) -> Worked:
        """At most 25 names of each kind; says where there are more."""
        body: list[Line] = []
        for kind in (self.kind,) if self.kind is not None else Kind:
            names = list(book.names(KEYS[kind], self.start or "", MOST + 1))
            if names:
                more = f", and more (the first {MOST} are shown: ask with “start”)" if len(names) > MOST else ""
                body.append(line(f"{kind.value.capitalize()}: {{}}{more}.", listed(names[:MOST])))
        if not body and book.trouble:
            return self._worked(line("I can't look just now."), (line("{}", book.trouble),))
        return self._worked(line("This is on the shelf:"), tuple(body)) if body else self._empty()

    def _empty(self) -> Worked:
        """What the empty list is, and how to add the first one."""
        if self.start:
            what = self.kind.value if self.kind is not None else "names"
            head = line(f"No {what} on the shelf begin with “{{}}”.", clipped(self.start, 40))
            return self._worked(head, (line("/shelf without “start” lists all there are."),))
        if self.kind is not None:
            return self._worked(line(f"No {self.kind.value} are recorded yet."), (ADD[self.kind],))
        return self._worked(line("Nothing is recorded yet: the shelf is empty."), (WHOSE, *ADD.values()))

    def _material(self, name: str, book: Book) -> Worked:
        record = book.material(name)
        if record is None:
            raise NotFound("material", name, book.names("material", name, 3))
        measured = list(book.measurements(name)) if isinstance(book, Annals) else []
        head = (
            line("{0}: {1}.", record.name, record.density) if record.density is not None else line("{}.", record.name)
        )
        results = [Result("density", record.density)] if record.density is not None else []
        if record.spread is not None:
            results.append(Result("uncertainty", Density(record.spread)))
        return Worked(
            intent=self.intent,
            headline=head,
            results=tuple(results),
            body=(*_facts(record), *_changes(book, "material", name)),
            table=_measurements(measured),
            question=self,
        )

    def _vessel(self, name: str, book: Book) -> Worked:
        record = book.vessel(name)
        if record is None:
            raise NotFound("vessel", name, book.names("vessel", name, 3))
        return Worked(
            intent=self.intent,
            headline=line("{}.", record.name),
            results=tuple(Result(what, value) for what, _, value in _sizes(record)),
            body=(
                *(line(words, value) for _, words, value in _sizes(record)),
                line("{}.", record.how[:1].upper() + record.how[1:]),
                *_changes(book, "vessel", name),
            ),
            question=self,
        )

    def _formula(self, name: str, book: Book) -> Worked:
        formula = formula_found(name, None, book)
        tests = list(book.tests(name)) if isinstance(book, Annals) else []
        history = _changes(book, "formula", name)
        return Worked(
            intent=self.intent,
            headline=line("{0}, version {1}.", formula.name, Line(str(formula.version))),
            results=(Result("load", formula.load),),
            body=(
                *(line("{0}: {1}.", what[:1].upper() + what[1:], value) for what, value in contents(formula).items()),
                *(history or origin(formula, notes=False)),
            ),
            table=_tests(tests),
            cautions=formula_cautions(formula, book),
            question=self,
        )

    def _worked(self, head: Line, body: tuple[Line, ...]) -> Worked:
        return Worked(intent=self.intent, headline=head, body=body, question=self)


def _facts(record: MaterialRecord) -> tuple[Line, ...]:
    out = [line("{}.", record.how[:1].upper() + record.how[1:])] if record.how else []
    if record.spread is not None:
        out.append(line("Give or take {} (19 times in 20).", expanded(record.spread, record.coverage)))
    facts: tuple[tuple[str, object], ...] = (
        ("Kind: {}.", record.kind),
        ("Its sheet allows at most {} fragrance.", record.max_load),
        ("Flash point {}, by its sheet.", record.flash_point),
        ("Notes: {}", record.notes),
    )
    return (*out, *(line(words, value) for words, value in facts if value))


def _sizes(record: VesselRecord) -> list[tuple[str, str, Quantity]]:
    sizes = (
        ("room", "Room up to the fill line: {}.", record.room),
        ("fill", "It takes {} of wax and fragrance.", record.fill),
        ("weight", "Empty it weighs {}.", record.weight),
    )
    return [(what, words, value) for what, words, value in sizes if value is not None]


def _measurements(measured: list[Measured]) -> Table | None:
    if not measured:
        return None
    rows = tuple(
        (
            line("number {}", Line(str(one.number))),
            one.density,
            Line("") if one.at is None else one.at,
            line("{}", one.how),
            _remark(one),
        )
        for one in measured[-MOST:]
    )
    left = len(measured) - len(rows)
    return Table(
        title="Measurements:",
        columns=("number", "", "at", "", ""),
        rows=rows,
        note=line(f"{left} older ones are not shown.") if left else None,
    )


def _remark(one: Measured) -> Line:
    if one.stands_out:
        return line("far from the others, so left out: /delete with number {} removes it", Line(str(one.number)))
    return Line("") if one.counted else Line("at another temperature, not in the figure")


def _tests(tests: list[Tested]) -> Table | None:
    if not tests:
        return None
    rows = tuple(
        (
            line("test {}", Line(str(one.number))),
            Line(str(one.version)),
            Line("" if one.cure_days is None else f"{one.cure_days} days"),
            line("{}", one.observed),
            line("{}", one.verdict),
            line("{}", one.how),
        )
        for one in tests[:MOST]
    )
    left = len(tests) - len(rows)
    return Table(
        title="Tests:",
        columns=("test", "version", "cured", "observed", "verdict", ""),
        rows=rows,
        note=Line(f"The newest {MOST} are shown; a file of the formula (/export_formulas) has more.") if left else None,
    )


def _changes(book: Book, kind: str, name: str) -> tuple[Line, ...]:
    """The versions, the newest first, at most 5 and how many there are; nothing where there is only the first."""
    changes: list[Change] = list(book.changes(kind, name)) if isinstance(book, Annals) else []
    if len(changes) < 2:
        return ()
    shown = [
        line(
            "Version {0}, {1}, {2}{3}.",
            Line(str(change.version)),
            change.day,
            change.by,
            line(": {}", change.reason) if change.reason else Line(""),
        )
        for change in changes[:MOST_CHANGES]
    ]
    left = changes[0].version - len(shown)
    return (*shown, *((Line(f"And {_older(left)}."),) if left else ()))


def _older(left: int, what: str = "version") -> str:
    return f"{left:,} older {what}{'s' if left > 1 else ''}"
