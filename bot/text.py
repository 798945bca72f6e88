"""An answer as a page of plain text, for the terminal, for `ask` and for the `text` of the JSON form."""

from __future__ import annotations

import textwrap

from bot.carry import keeping, typed_out
from bot.outline import Part, outline, rows_as_text, style_for
from core.answer import Answer, Missing, Worked
from core.book import Preferences
from core.writing import Style

INDENTED = {Part.STEPS, Part.OPTIONS, Part.NEEDS}


def page(answer: Answer, preferences: Preferences, width: int = 0) -> str:
    """The whole answer; `width` wraps the lines, 0 leaves them whole. Further answers follow after a blank line."""
    style = style_for(answer, preferences)
    lines: list[str] = []
    for section in outline(answer, style):
        indent = "  " if section.part in INDENTED else ""
        for text in section.lines:
            lines += _wrapped(f"{indent}{text}", width, indent + "  ")
        if section.part is Part.BODY:
            lines += _table(answer, style)
    if answer.table is not None and not any(section.part is Part.BODY for section in outline(answer, style)):
        lines += _table(answer, style)
    if isinstance(answer, Worked | Missing):
        for carry in keeping(answer):
            lines += _wrapped(f"{carry.label}: type “{typed_out(carry, answer)}”.", width, "  ")
    if answer.see:
        lines.append(f"More: type “lesson {answer.see[0]}”.")
    return "\n\n".join(["\n".join(lines), *(page(further, preferences, width) for further in answer.then)])


def _wrapped(text: str, width: int, hanging: str) -> list[str]:
    if not width:
        return [text]
    return textwrap.wrap(text, max(width, 30), subsequent_indent=hanging, break_long_words=False) or [""]


def _table(answer: Answer, style: Style) -> list[str]:
    """Columns padded to their widest cell, words to the left, figures to the right."""
    rows = rows_as_text(answer, style)
    if not rows or answer.table is None:
        return []
    widths = [max(len(row[i]) for row in rows) for i in range(len(rows[0]))]
    out = [answer.table.title] if answer.table.title else []
    for row in rows:
        cells = (
            cell.rjust(width) if cell[:1].isdigit() else cell.ljust(width)
            for cell, width in zip(row, widths, strict=True)
        )
        out.append(f"  {'  '.join(cells)}".rstrip())
    if answer.table.note is not None:
        out.append(answer.table.note.show(style))
    return out
