"""One question, one answer, printed; or a question a line in and a JSON object a line out."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TextIO

from bot.clock import now
from bot.desk import LOCAL, Desk
from bot.record import dumps
from bot.text import page
from bot.unforeseen import answered


def ask_once(question: str, desk: Desk, out: TextIO) -> int:
    """Print the answer; always 0, for a question that can't be answered is answered too."""
    book = desk.book(LOCAL)
    out.write(page(answered(desk, question, LOCAL, now()), book.preferences) + "\n")
    if book.trouble:
        out.write(book.trouble + "\n")
    return 0


def ask_json(lines: Iterable[str], desk: Desk, out: TextIO) -> int:
    """One object a line, flushed, so that a program can talk to it. Each line stands alone: nothing is remembered."""
    for number, text in enumerate(lines):
        question = text.rstrip("\r\n")
        asker = replace(LOCAL, place=f"line {number}")
        given = answered(desk, question, asker, now())
        book = desk.book(asker)
        out.write(dumps(question, given, book.preferences, book.trouble) + "\n")
        out.flush()
    return 0
