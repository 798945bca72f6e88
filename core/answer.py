"""Answers as plain data: everything a renderer needs, nothing it has to compute.

A sentence is a `Line`: our words with exact values in them, so that each renderer can write the values in the
asker's units and make the asker's own words harmless.
"""

from __future__ import annotations

import functools
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum
from string import Formatter
from typing import TYPE_CHECKING, ClassVar

from core.units import Quantity
from core.writing import PLAIN, Style, write

if TYPE_CHECKING:
    from core.question import Question


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence: `template` with `{}` or `{0:spec}` where `values` stand (specs as in `core.writing.write`)."""

    template: str
    values: tuple[object, ...] = ()

    def show(self, style: Style = PLAIN) -> str:
        """As text in that style. A value may itself be a Line."""
        out: list[str] = []
        for words, place, spec in _taken_apart(self.template):
            out.append(words)
            if place is not None:
                value = self.values[place]
                out.append(value.show(style) if isinstance(value, Line) else write(value, style, spec))
        return "".join(out)


@functools.lru_cache(maxsize=1024)  # the templates are ours, and shown again and again
def _taken_apart(template: str) -> tuple[tuple[str, int | None, str], ...]:
    """Words, and the place and spec of the value after them (None at the end)."""
    found: list[tuple[str, int | None, str]] = []
    for words, name, spec, _ in Formatter().parse(template):
        found.append((words, None if name is None else int(name) if name else len(found), spec or ""))
    return tuple(found)


def line(template: str, *values: object) -> Line:
    """Short for `Line`. User text must be given as a value, never be part of the template."""
    return Line(template, values)


def listed(parts: Sequence[object], between: str = ", ", last: str = "") -> Line:
    """The parts in a row; `last`, where it is given, stands before the last one: "a, b and c"."""
    if last and len(parts) > 1:
        return Line("{0}" + last + "{1}", (listed(parts[:-1], between), parts[-1]))
    return Line(between.join(["{}"] * len(parts)), tuple(parts))


class Origin(StrEnum):
    """Where a figure comes from."""

    ASKED = "asked"
    RECORDED = "recorded"
    PUBLISHED = "published"
    ASSUMED = "assumed"


@dataclass(frozen=True, slots=True)
class Given:
    """A figure that went in. `source` says who recorded or published it, or why it was assumed."""

    what: str
    value: Quantity
    origin: Origin = Origin.ASKED
    source: Line | None = None


@dataclass(frozen=True, slots=True)
class Step:
    """One line of the sum: the formula in words, the numbers put in, what comes out."""

    formula: str
    numbers: Line
    result: Line

    def idle(self, style: Style) -> bool:
        """Whether both sides read the same so (18 oz = 18 oz for who weighs in ounces): nothing is worked out there."""
        return self.numbers.show(style) == self.result.show(style)


@dataclass(frozen=True, slots=True)
class Result:
    """One figure that came out. Masses are shown in grams and ounces; `unit` names one more unit asked for."""

    what: str
    value: Quantity
    unit: str = ""


@dataclass(frozen=True, slots=True)
class Need:
    """A figure that is missing: its machine name, what it is, and how to get it."""

    name: str
    what: Line
    how: Line | None = None


@dataclass(frozen=True, slots=True)
class Option:
    """One way to read the question: a short label, what it would give, and the question it stands for."""

    label: str
    means: Line
    question: Question | None = None


@dataclass(frozen=True, slots=True)
class Caution:
    """A warning with a key for machines."""

    key: str
    line: Line


@dataclass(frozen=True, slots=True)
class Table:
    """Rows for a weigh-out, a list of packs or lots. Cells are values or words; `columns` are their headings."""

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[object, ...], ...]
    note: Line | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What every answer has. `headline` is the answer itself, in one short sentence.

    `read_as` restates how the question was understood; `body` are sentences that belong to the sum; `other` gives the
    figure on the other basis; `check` goes back the other way; `see` are keys of lessons that help; `then` are the
    answers to further questions in the same message.
    """

    kind: ClassVar[str] = "answer"

    intent: str
    headline: Line
    read_as: Line | None = None
    given: tuple[Given, ...] = ()
    steps: tuple[Step, ...] = ()
    results: tuple[Result, ...] = ()
    body: tuple[Line, ...] = ()
    other: tuple[Line, ...] = ()
    assumed: tuple[Line, ...] = ()
    check: Line | None = None
    table: Table | None = None
    cautions: tuple[Caution, ...] = ()
    see: tuple[str, ...] = ()
    then: tuple[Answer, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Worked(Answer):
    """A worked answer. `question` is what was answered, so that a follow-up can change one part of it."""

    kind: ClassVar[str] = "worked"
    question: Question | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Missing(Answer):
    """What is lacking. `guide` is an estimate, marked as one. `question` is complete but for `needs`."""

    kind: ClassVar[str] = "missing"
    needs: tuple[Need, ...]
    guide: tuple[Line, ...] = ()
    question: Question | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice(Answer):
    """The words leave it open: which is meant? `needs` names what is open (`ounce_kind`, ...)."""

    kind: ClassVar[str] = "choice"
    options: tuple[Option, ...]
    needs: tuple[Need, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Lesson(Answer):
    """A short explanation with worked numbers. `key` is its name, `unit` "oz" or "g" as its examples are."""

    kind: ClassVar[str] = "lesson"
    key: str
    paragraphs: tuple[Line, ...]
    unit: str = "g"


@dataclass(frozen=True, slots=True, kw_only=True)
class Declined(Answer):
    """Not answered on purpose: `reason` key, and in `body` the safe practice or what can be asked instead."""

    kind: ClassVar[str] = "declined"
    reason: str


@dataclass(frozen=True, slots=True, kw_only=True)
class NotUnderstood(Answer):
    """The text or an option could not be used; the headline gives the way out. `reason` is an error key."""

    kind: ClassVar[str] = "not_understood"
    reason: str = "not_understood"


def results_by_name(answer: Answer) -> Mapping[str, Quantity]:
    """The results by their names, for callers that need one figure."""
    return {result.what: result.value for result in answer.results}
