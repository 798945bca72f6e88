"""Questions about recorded formulas: one scaled to a batch, and two side by side."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Caution, Given, Line, Missing, Need, Origin, Result, Table, Worked, line, listed
from core.book import Book, FormulaRecord
from core.compounds import Additives, Fills, FormulaName, Load, Masses, Parts
from core.errors import Contradiction, OutOfRange
from core.mixing import Mix, Recipe, shares
from core.question import Question, slot
from core.questions.batch import BatchQuestion, FillIs
from core.questions.batch_mix import in_vessel
from core.questions.cautions import load_cautions, sheet_limits, strictest
from core.questions.checks import above_zero
from core.questions.load import LoadQuestion
from core.questions.recorded import formula_found
from core.questions.weigh_out import cautions as scale_cautions
from core.questions.weigh_out import step_of, table, weigh_out
from core.units import Mass, Percent

NEED_NAME = Need("name", line("which formula"), line("Give its name; /shelf lists those that are recorded."))


@dataclass(frozen=True, slots=True, kw_only=True)
class FormulaQuestion(Question):
    """A recorded formula: what is in it, or the list to weigh it by for so much wax or so many vessels."""

    command: ClassVar[str] = "formula"

    name: FormulaName | None = slot("The formula's name", example="winter pine", required=True)
    wax: Masses | None = slot("For so much wax, by weight", example="450 g")
    total: Mass | None = slot("For so much in all, by weight", example="500 g")
    fills: Fills | None = slot("For these vessels: how many, and how much of the mix each takes", example="12 x 200g")
    version: int | None = slot("Which version (the newest if left out)", example="2")
    step: Mass | None = slot("The scale's step: the smallest change it shows", example="1 g")

    @property
    def intent(self) -> str:
        """One name for every way to scale it."""
        return "formula"

    def answer(self, book: Book) -> Answer:
        """Worked: its contents, or the weigh-out for one of wax, total and fills. NotFound, Contradiction."""
        sizes = [size for size in (self.wax, self.total, self.fills) if size is not None]
        if len(sizes) > 1:
            raise Contradiction("total", "Give one size: the wax, the total, or the vessels.")
        above_zero(wax=self.wax.total if self.wax is not None else None, total=self.total, scale_step=self.step)
        if not self.name:
            return Missing(intent=self.intent, headline=line("Which formula?"), needs=(NEED_NAME,), question=self)
        formula = formula_found(self.name, self.version, book)
        if self.fills is not None:
            return self._poured(self.fills, formula, book)
        return self._contents(formula, book) if not sizes else self._weighed(formula, book)

    def _poured(self, fills: Fills, formula: FormulaRecord, book: Book) -> Answer:
        """By the batch question, which knows about vessels and spares."""
        batch = BatchQuestion(
            fills=Fills(tuple(in_vessel(fill, formula.vessel) for fill in fills.items)) if formula.vessel else fills,
            fill_is=FillIs.FINISHED,
            load=Load(formula.load, formula.basis),
            waxes=Parts(formula.waxes) if formula.waxes else None,
            blend=Parts(formula.fragrances) if formula.fragrances else None,
            additives=Additives(formula.additives) if formula.additives else None,
            step=self.step,
            unit=self.unit,
        )
        answer = batch.answer(book)
        return replace(answer, body=(*answer.body, *origin(formula)))

    def _contents(self, formula: FormulaRecord, book: Book) -> Worked:
        rows = tuple((line("{}", what), value) for what, value in contents(formula).items())
        head = line("{0}, version {1}: {2} {3}.", formula.name, _whole(formula.version), formula.load, _basis(formula))
        return Worked(
            intent=self.intent,
            headline=head,
            results=(Result("load", formula.load),),
            body=origin(formula, notes=False),
            table=Table(title="What is in it:", columns=("what", ""), rows=rows),
            cautions=formula_cautions(formula, book),
            question=self,
        )

    def _weighed(self, formula: FormulaRecord, book: Book) -> Answer:
        """By the load question, with the list to weigh by."""
        worked = LoadQuestion(
            wax=self.wax,
            total=self.total,
            load=Load(formula.load, formula.basis),
            blend=Parts(formula.fragrances) if len(formula.fragrances) > 1 else None,
            additives=Additives(formula.additives) if formula.additives else None,
        ).answer(book)
        if not isinstance(worked, Worked):
            return worked
        mix = mix_of(formula, self.wax.total if self.wax is not None else None, self.total)
        rows = rows_of(formula, mix)
        asked = self.wax.total if self.wax is not None else mix.total
        out = weigh_out(rows, step_of(self.step, asked.unit, book)[0], groups_of(formula, len(rows)))
        head = line("{0}, version {1}: {2} in all.", formula.name, _whole(formula.version), out.total or mix.total)
        size = Given("wax", self.wax.total) if self.wax is not None else Given("total", mix.total)
        return replace(
            worked,
            intent=self.intent,
            headline=head,
            given=(size, Given("load", formula.load, Origin.RECORDED, line("“{0}”, {1}", formula.name, formula.how))),
            body=(line("{} of fragrance oil to {} of wax.", mix.fragrance, mix.wax), *origin(formula)),
            other=(),
            assumed=(),
            table=table(out),
            cautions=(*formula_cautions(formula, book), *scale_cautions(out, None)),
            question=self,
        )


def mix_of(formula: FormulaRecord, wax: Mass | None, total: Mass | None) -> Mix:
    """The mix for one of the two sizes."""
    recipe = Recipe(formula.load, formula.basis, Additives(formula.additives))
    if wax is not None:
        return recipe.of_wax(wax)
    assert total is not None
    return recipe.of_total(total)


def rows_of(formula: FormulaRecord, mix: Mix) -> list[tuple[Line, Mass]]:
    """What is weighed, in order: the waxes, the additives, the fragrance oils."""
    waxes = shares(mix.wax, formula.waxes) if formula.waxes else (("wax", mix.wax),)
    oils = shares(mix.fragrance, formula.fragrances) if formula.fragrances else (("fragrance oil", mix.fragrance),)
    return [(line("{}", name), mass) for name, mass in (*waxes, *mix.additives, *oils) if mass]


def groups_of(formula: FormulaRecord, rows: int) -> tuple[int, ...]:
    """How many of the rows are of one kind; all as one where a part of nothing left its row out."""
    groups = (max(1, len(formula.waxes)), *(1 for _ in formula.additives), max(1, len(formula.fragrances)))
    return groups if sum(groups) == rows else (rows,)


def origin(formula: FormulaRecord, *, notes: bool = True) -> tuple[Line, ...]:
    """Which version it is, by whom, why; its vessel and, where they don't stand elsewhere, its notes."""
    parts = [line("Version {0}, {1}.", _whole(formula.version), formula.how)]
    for words, text in (("Changed because: {}.", formula.reason), ("Poured into {}.", formula.vessel)):
        if text:
            parts.append(line(words, text))
    whole = listed(parts, " ")
    return (whole, line("Notes: {}", formula.notes)) if notes and formula.notes else (whole,)


def _told(formula: FormulaRecord, which: str) -> tuple[Line, ...]:
    """Which of two it is, and where it comes from."""
    return tuple(line("{0}: {1}", which, each) for each in origin(formula, notes=False))


def _whole(number: int) -> Line:
    return Line(str(number))


def _basis(formula: FormulaRecord) -> Line:
    return Line(formula.basis.value)


def of_wax(formula: FormulaRecord) -> Percent:
    """The formula's load as a percent of the wax."""
    return Percent(Recipe(formula.load, formula.basis, Additives(formula.additives)).oil_per_wax * 100)


def formula_cautions(formula: FormulaRecord, book: Book) -> tuple[Caution, ...]:
    """Over what the sheets of its waxes allow, the strictest of them."""
    limits = sheet_limits((name for name, _ in formula.waxes), book)
    return load_cautions(of_wax(formula), strictest(None, limits))


def contents(formula: FormulaRecord) -> dict[str, object]:
    """Everything in it by a name to be shown: the load, each part as a percent of its blend, each additive."""
    out: dict[str, object] = {"load": line("{0} {1}", formula.load, _basis(formula))}
    for what, items in (("wax", formula.waxes), ("fragrance", formula.fragrances)):
        whole = sum(part for _, part in items)
        for name, part in items:
            out[f"{what}: {name}"] = Percent(part / whole * 100)
    for name, percent in formula.additives:
        out[f"additive: {name}"] = line("{} of the wax", percent)
    if formula.vessel:
        out["vessel"] = formula.vessel
    if formula.notes:
        out["notes"] = formula.notes
    return out


@dataclass(frozen=True, slots=True, kw_only=True)
class CompareFormulas(Question):
    """Two recorded formulas, or two versions of one, side by side."""

    command: ClassVar[str] = "compare"

    name: FormulaName | None = slot("The formula's name", example="winter pine", required=True)
    other: FormulaName | None = slot("The other formula (the same one if left out)", example="summer pine")
    version: int | None = slot("Which version of the first (the newest if left out)", example="2")
    other_version: int | None = slot("Which version of the other (the one before, if it is the same)", example="1")

    @property
    def intent(self) -> str:
        """One name for every comparison."""
        return "compare_formulas"

    def answer(self, book: Book) -> Answer:
        """Worked: what differs, as a table. NotFound, OutOfRange."""
        if not self.name:
            return Missing(intent=self.intent, headline=line("Which formulas?"), needs=(NEED_NAME,), question=self)
        first = formula_found(self.name, self.version, book)
        second = formula_found(self.other or self.name, self.other_version or self._beside(first, book), book)
        rows = tuple(_differing(first, second))
        head = line(
            "{0}, version {1}, and {2}, version {3}: {4}.",
            first.name,
            _whole(first.version),
            second.name,
            _whole(second.version),
            _differ(len(rows)),
        )
        columns = ("what", "first", "second")
        return Worked(
            intent=self.intent,
            headline=head,
            results=(Result("load", first.load), Result("other_load", second.load)),
            body=(*_told(first, "First"), *_told(second, "Second")),
            table=Table(title="What differs:", columns=columns, rows=rows) if rows else None,
            cautions=tuple(dict.fromkeys((*formula_cautions(first, book), *formula_cautions(second, book)))),
            question=self,
        )

    def _beside(self, first: FormulaRecord, book: Book) -> int | None:
        """Without another formula: the newest version, or for that one the version before."""
        if self.other is not None:
            return None
        newest = formula_found(first.name, None, book).version
        if newest == 1:
            raise OutOfRange("1", f"“{first.name}” has one version so far. Name another formula to compare it with.")
        return newest if newest != first.version else newest - 1


def _differ(count: int) -> Line:
    return Line("the same in everything" if not count else f"{count} thing{'s differ' if count > 1 else ' differs'}")


def _differing(first: FormulaRecord, second: FormulaRecord) -> Iterator[tuple[object, ...]]:
    one, two = contents(first), contents(second)
    for what in dict.fromkeys((*one, *two)):
        if one.get(what) != two.get(what):
            yield line("{}", what), one.get(what, Line("none")), two.get(what, Line("none"))
