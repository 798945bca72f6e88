"""One order for every answer, as sections of finished lines: the page of text and the Discord reply only lay it out."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from enum import Enum
from typing import NamedTuple

from core.answer import Answer, Choice, Lesson, Line, Missing, Need, Origin, Step, Worked
from core.book import Preferences
from core.units import Mass
from core.writing import Style, write


class Part(Enum):
    """What a section is for; a renderer may set it off, never reorder it."""

    HEADLINE = "headline"
    NEEDS = "needs"
    OPTIONS = "options"
    STEPS = "steps"
    BODY = "body"
    TABLE = "table"
    GUIDE = "guide"
    OTHER = "other"
    CHECK = "check"
    READ_AS = "read as"
    SOURCES = "sources"
    CAUTIONS = "cautions"


class Section(NamedTuple):
    """Lines that belong together."""

    part: Part
    lines: tuple[str, ...]


# Below a longer table nobody would read a caution: it may stand on another page.
LONG_TABLE = 15
OUNCE_UNITS = ("oz", "lb", "lb_oz")


def style_for(answer: Answer, preferences: Preferences, escape: Callable[[str], str] | None = None) -> Style:
    """The asker's wish first, then the unit asked for, then the unit of the first weight that was given."""
    first = preferences.first
    if not first:
        asked = answer.question.unit if isinstance(answer, Worked | Missing) and answer.question else ""
        asked = answer.unit if isinstance(answer, Lesson) else asked
        if asked not in OUNCE_UNITS and asked not in ("g", "kg"):
            weights = (g.value.unit for g in answer.given if isinstance(g.value, Mass) and g.origin is Origin.ASKED)
            asked = next(weights, "g")
        first = "oz" if asked in OUNCE_UNITS else "g"
    if escape is None:
        return Style(first=first, step=preferences.step, comma=preferences.comma)
    return Style(first=first, step=preferences.step, comma=preferences.comma, escape=escape)


def outline(answer: Answer, style: Style) -> tuple[Section, ...]:
    """The sections of an answer that have anything in them, in reading order."""
    found = [Section(Part.HEADLINE, (answer.headline.show(style),))]

    def add(part: Part, lines: Iterable[str]) -> None:
        shown = tuple(lines)
        if shown:
            found.append(Section(part, shown))

    def told(part: Part, lines: tuple[Line, ...]) -> None:
        if lines:
            found.append(Section(part, tuple([line.show(style) for line in lines])))

    early = answer.table is not None and len(answer.table.rows) > LONG_TABLE
    if early:
        add(Part.CAUTIONS, _cautions(answer, style))
    if isinstance(answer, Lesson):
        told(Part.BODY, answer.paragraphs)
    elif isinstance(answer, Missing):
        add(Part.NEEDS, (_need(need, style) for need in answer.needs))
    elif isinstance(answer, Choice):
        add(Part.OPTIONS, (f"{n}. {o.label}: {o.means.show(style)}" for n, o in enumerate(answer.options, 1)))
    if answer.steps:
        add(Part.STEPS, _steps(answer.steps, style))
    told(Part.BODY, answer.body)
    if isinstance(answer, Missing):
        told(Part.GUIDE, answer.guide)
    told(Part.OTHER, answer.other)
    if answer.check is not None:
        told(Part.CHECK, (answer.check,))
    if answer.read_as is not None:
        told(Part.READ_AS, (answer.read_as,))
    add(Part.SOURCES, (*[line.show(style) for line in answer.assumed], *_sources(answer, style)))
    if not early:
        add(Part.CAUTIONS, _cautions(answer, style))
    return tuple(found)


def _cautions(answer: Answer, style: Style) -> list[str]:
    told = [caution.line for caution in answer.cautions if caution.line != answer.headline]
    return [f"Caution: {caution.show(style)}" for caution in told]


def _need(need: Need, style: Style) -> str:
    return f"{_sentence(need.what.show(style))}{' ' + need.how.show(style) if need.how else ''}"


def _steps(steps: tuple[Step, ...], style: Style) -> Iterator[str]:
    """Each step on one line: the formula in words, then the numbers, then what comes out; an idle one is left out."""
    for step in steps:
        numbers, result = step.numbers.show(style), step.result.show(style)
        if numbers != result:
            yield f"{step.formula}: {numbers} = {result}"


def _sentence(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!", "…")) else f"{text}."


WORDS_FOR_ORIGIN = {Origin.RECORDED: "recorded by the group", Origin.PUBLISHED: "published", Origin.ASSUMED: "assumed"}


def _sources(answer: Answer, style: Style) -> Iterator[str]:
    """Every figure that is not the asker's own says where it comes from, unless a line of what was assumed did."""
    for figure in answer.given:
        told = figure.origin is Origin.ASSUMED and figure.source is None and answer.assumed
        if figure.origin is Origin.ASKED or told:
            continue
        source = f": {figure.source.show(style)}" if figure.source else ""
        what = figure.what.replace("_", " ")
        yield f"{what[:1].upper()}{what[1:]} {write(figure.value, style)}, {WORDS_FOR_ORIGIN[figure.origin]}{source}."


def rows_as_text(answer: Answer, style: Style) -> tuple[tuple[str, ...], ...]:
    """The table's cells as text, headings first; empty where there is none."""
    table = answer.table
    if table is None:
        return ()
    return (table.columns, *(tuple(cell_text(cell, style) for cell in row) for row in table.rows))


def cell_text(cell: object, style: Style) -> str:
    """One cell: a Line, a value, or nothing."""
    return "" if cell is None else cell.show(style) if isinstance(cell, Line) else write(cell, style)
