"""One Answer in Discord's markup: the answer first, then the steps, then what was assumed, in small print; in pages."""

from __future__ import annotations

import re

from bot.outline import Part, outline, rows_as_text
from core.answer import Answer
from core.reading.visible import visible
from core.writing import Style

# Discord takes 4,096 characters in an embed. A page ends before: an answer's cautions belong on its first one.
PAGE = 2_000  # about two screens of a phone
LONGEST_TEXT = 1_000  # of somebody's words inside one sentence
MOST_PAGES = 35

# Signs that mark something up anywhere; a dash or a plus only begins a list.
_MARKS = re.compile(r"([\\*_`~|>#\[\]<]|^[-+])")


def harmless(text: str) -> str:
    """Somebody's words as they may stand in our message: no markup, no mention, no link, one line, not too long."""
    flat = " ".join(visible(text).split())
    flat = flat if len(flat) <= LONGEST_TEXT else flat[: LONGEST_TEXT - 1] + "…"
    return _MARKS.sub(r"\\\1", flat).replace("://", ":\u200b//").replace("@", "@\u200b")


SMALL = {Part.READ_AS, Part.SOURCES, Part.CHECK}
BEFORE_TABLE = {Part.HEADLINE, Part.CAUTIONS, Part.NEEDS, Part.OPTIONS, Part.STEPS, Part.BODY}


def blocks(answer: Answer, style: Style, *, steps: bool = True) -> list[list[str]]:
    """The answer's sections as lines of markup; a further answer begins with an empty line."""
    found: list[list[str]] = []
    table_due = answer.table is not None
    for section in outline(answer, style):
        if section.part is Part.STEPS and not steps:
            continue
        if table_due and section.part not in BEFORE_TABLE:
            found.append(table_lines(answer, style))
            table_due = False
        found.append([_marked(section.part, text) for text in section.lines])
    if table_due:
        found.append(table_lines(answer, style))
    for further in answer.then:
        first, *rest = blocks(further, style, steps=steps)
        found += [["", *first], *rest]
    return found


def _marked(part: Part, text: str) -> str:
    if part is Part.HEADLINE:
        return f"**{text}**"
    if part in (Part.STEPS, Part.NEEDS):
        return f"- {text}"
    if part is Part.CAUTIONS:
        head, _, rest = text.partition(" ")
        return f"**{head}** {rest}"
    return f"-# {text}" if part in SMALL else text


def table_lines(answer: Answer, style: Style) -> list[str]:
    """A table as a list, one row a line with its headings said: no columns to lose on a narrow screen."""
    rows = rows_as_text(answer, style)
    if not rows or answer.table is None:
        return []
    headings = rows[0]
    lines = [f"**{answer.table.title}**"] if answer.table.title else []
    for row in rows[1:]:
        first, *rest = row
        said = ", ".join(
            f"{heading.lower()} {cell}" if heading else cell
            for heading, cell in zip(headings[1:], rest, strict=True)
            if cell
        )
        lines.append(f"- **{first}**: {said}" if said else f"- **{first}**")
    if answer.table.note is not None:
        lines.append(answer.table.note.show(style))
    return lines


def pages(sections: list[list[str]]) -> list[str]:
    """The sections as pages, broken between two of them where that is possible, else between two lines."""
    whole = "\n".join(["\n".join(lines) for lines in sections])
    if len(whole) <= PAGE:
        return [whole]
    found: list[str] = []
    page: list[str] = []
    size = 0
    for lines in sections:
        together = sum(len(line) + 1 for line in lines)
        if page and size + together > PAGE and together <= PAGE:
            found.append("\n".join(page))
            page, size = [], 0
        for line in lines:
            if page and size + len(line) + 1 > PAGE:
                found.append("\n".join(page))
                page, size = [], 0
            page.append(line if len(line) <= PAGE else line[: PAGE - 1] + "…")
            size += min(len(line), PAGE) + 1
    return [text.strip("\n") for text in [*found, "\n".join(page)]]


def pages_of(answer: Answer, style: Style, trouble: str = "", *, steps: bool = True) -> list[str]:
    """The whole answer in as many pages as it takes; what is wrong with the library stands on the first."""
    sections = blocks(answer, style, steps=steps)
    if trouble:
        sections.insert(1, [f"-# {trouble}"])
    found = pages(sections)
    if len(found) == 1:
        return found
    found = found[:MOST_PAGES]
    return [f"{text}\n-# Page {number} of {len(found)}" for number, text in enumerate(found, 1)]
