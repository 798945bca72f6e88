"""A whole answer as files: its table for a spreadsheet, all of it as a page of text to print."""

from __future__ import annotations

import csv
import io
import re

import discord

from bot.outline import rows_as_text, style_for
from bot.text import page
from core.answer import Answer
from core.book import Preferences
from core.library.portable_text import RUN_BY_SPREADSHEETS

_FIGURE = re.compile(r"[-+][0-9][0-9A-Za-z., ()%/]*")
PRINTED_WIDTH = 78


def files_of(answer: Answer, preferences: Preferences) -> list[discord.File]:
    """`table.csv` of every part that has a table (numbered from the second on), and `answer.txt`."""
    tables = [part for part in (answer, *answer.then) if part.table is not None]
    found = [
        _file(f"table{number if number > 1 else ''}.csv", csv_of(part, preferences), "The table, one row a line")
        for number, part in enumerate(tables[:8], 1)
    ]
    return [*found, _file("answer.txt", page(answer, preferences, PRINTED_WIDTH) + "\n", "The whole answer as text")]


def csv_of(answer: Answer, preferences: Preferences) -> str:
    """The table with its headings; commas between, or semicolons where the comma is the decimal sign."""
    out = io.StringIO()
    writer = csv.writer(out, delimiter=";" if preferences.comma else ",", lineterminator="\r\n")
    for row in rows_as_text(answer, style_for(answer, preferences)):
        writer.writerow([_safe(cell) for cell in row])
    return out.getvalue()


def _safe(cell: str) -> str:
    return f"'{cell}" if cell.startswith(RUN_BY_SPREADSHEETS) and not _FIGURE.fullmatch(cell) else cell


def _file(name: str, text: str, description: str) -> discord.File:
    # The byte order mark tells spreadsheets that it is UTF-8.
    data = text.encode("utf-8-sig" if name.endswith(".csv") else "utf-8")
    return discord.File(io.BytesIO(data), name, description=description)
