"""One Answer as a Discord embed: the answer first, then the steps, then what was assumed, in small print."""

from __future__ import annotations

import re

import discord

from bot.outline import Part, outline, rows_as_text, style_for
from core.answer import Answer
from core.book import Preferences
from core.writing import Style

# Discord's limits for one embed, with room left for the line that says something was left out.
DESCRIPTION = 4096
ROOM = DESCRIPTION - 120
CLIPPED = "-# More than fits here was left out; ask for less at a time."

_MARKS = re.compile(r"([\\*_`~|>#\[\]()<@:-])")


def harmless(text: str) -> str:
    """Somebody's words as they may stand in our message: no markup, no mention, no link, one line, not too long."""
    flat = " ".join(text.replace("\u200b", "").split())
    flat = flat if len(flat) <= 100 else flat[:99] + "…"
    return _MARKS.sub(r"\\\1", flat).replace("://", ":\u200b//").replace("@", "@\u200b")


SMALL = {Part.READ_AS, Part.SOURCES, Part.CHECK}


def markdown(answer: Answer, style: Style, *, steps: bool = True) -> list[str]:
    """The answer's lines in Discord's markup, further answers after an empty line."""
    lines: list[str] = []
    table_due = answer.table is not None
    for section in outline(answer, style):
        if section.part is Part.STEPS and not steps:
            continue
        if table_due and section.part not in (Part.HEADLINE, Part.NEEDS, Part.OPTIONS, Part.STEPS, Part.BODY):
            lines += table_lines(answer, style)
            table_due = False
        for text in section.lines:
            lines.append(_marked(section.part, text))
    if table_due:
        lines += table_lines(answer, style)
    for further in answer.then:
        lines += ["", *markdown(further, style, steps=steps)]
    return lines


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


def embed_of(answer: Answer, preferences: Preferences, trouble: str = "", *, steps: bool = True) -> discord.Embed:
    """The whole answer in one embed, cut at a line's end where it would not fit."""
    lines = markdown(answer, style_for(answer, preferences, harmless), steps=steps)
    if trouble:
        lines.append(f"-# {trouble}")
    return discord.Embed(description=fitted(lines))


def fitted(lines: list[str]) -> str:
    """The lines as one text within the limit; says so where some were left out."""
    text = "\n".join(lines)
    if len(text) <= DESCRIPTION:
        return text
    kept: list[str] = []
    size = 0
    for one in lines:
        if size + len(one) + 1 > ROOM:
            break
        kept.append(one)
        size += len(one) + 1
    return "\n".join([*kept, CLIPPED]) if kept else text[:ROOM] + "…\n" + CLIPPED
