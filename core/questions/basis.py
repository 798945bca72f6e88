"""Which basis a load is read on: what was said with it, what was said apart, else the group's usual one."""

from __future__ import annotations

from core.answer import Origin
from core.book import Book
from core.compounds import Basis, Load


def basis_of(load: Load | None, basis: Basis | None, book: Book) -> tuple[Basis, Origin]:
    """The basis and where it comes from."""
    if load is not None and load.basis is not None:
        return load.basis, Origin.ASKED
    if basis is not None:
        return basis, Origin.ASKED
    return book.preferences.basis, Origin.ASSUMED
