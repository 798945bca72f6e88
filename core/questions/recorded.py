"""Looking a recorded formula up: its newest version or the one named, or an error that says the way out."""

from __future__ import annotations

from core.book import Book, FormulaRecord
from core.errors import NotFound, OutOfRange


def formula_found(name: str, version: int | None, book: Book, way_out: str = "") -> FormulaRecord:
    """The recorded formula, or NotFound with near names; OutOfRange for a version there is not."""
    formula = book.formula(name, version)
    if formula is not None:
        return formula
    newest = book.formula(name) if version is not None else None
    if newest is not None:
        raise OutOfRange(str(version), f"There is no version {version} of it: the newest is {newest.version}.")
    raise NotFound("formula", name, tuple(book.names("formula", name, 3)), way_out)
