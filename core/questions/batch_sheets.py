"""What is recorded of a batch's materials: the density, the most the wax's sheet allows, the oil's flash point."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from core.answer import Line, line
from core.book import Book
from core.compounds import Material, Parts
from core.questions.cautions import sheet_limits, sheet_words, strictest
from core.questions.filled_state import AS_DENSE, POURED, state_words
from core.questions.known_density import Known, known_density
from core.reference import densities
from core.units import Percent

if TYPE_CHECKING:
    from core.questions.batch import BatchQuestion

_SPELT_OUT = 6


def wax_density(ask: BatchQuestion, book: Book) -> Known | None:
    """The density said, else that of the wax by its name; of several waxes only where they have one name."""
    names = _waxes(ask)
    return known_density(ask.density, Material(names[0]) if len(names) == 1 else None, book, POURED)


def density_lines(known: Known) -> tuple[Line, ...]:
    """How a density was used for vessels known by their room."""
    return (*known.notes, state_words(known, None), AS_DENSE)


def limit(ask: BatchQuestion, book: Book) -> Percent | None:
    """The most fragrance that the strictest sheet of its waxes allows."""
    return strictest(None, sheet_limits(_waxes(ask), book))


def sheet_lines(ask: BatchQuestion, book: Book) -> tuple[Line, ...]:
    """What the sheets say, as the group recorded it."""
    out = [*sheet_words(sheet_limits(_waxes(ask), book))]
    for name in _oils(ask):
        record = book.material(name)
        if record is not None and record.flash_point is not None:
            out.append(
                line("The sheet of {0} gives a flash point of {1}, as recorded.", record.name, record.flash_point)
            )
    left = len(out) - _SPELT_OUT
    return (*out[:_SPELT_OUT], *((Line(f"And {left} more such figures, on the shelf."),) if left > 0 else ()))


def unknown_lines(ask: BatchQuestion, book: Book) -> tuple[Line, ...]:
    """Names that were said and of which nothing is known."""
    out: list[Line] = []
    for name in (ask.material, ask.oil):
        if not name or book.material(name) is not None:
            continue
        near = list(book.names("material", name, 3))
        if near or densities.find(name) is None:
            hint = f" Did you mean {' or '.join('{}' for _ in near)}?" if near else ""
            out.append(line(f"Nothing is recorded of {{}}: no sheet, no density.{hint}", name, *near))
    return tuple(out)


def _waxes(ask: BatchQuestion) -> list[str]:
    return [ask.material] if ask.material else _named(ask.waxes)


def _oils(ask: BatchQuestion) -> list[str]:
    return [ask.oil] if ask.oil else _named(ask.blend)


def _named(parts: Parts | None) -> list[str]:
    items: Iterable[tuple[str, object]] = parts.items if parts is not None else ()
    return list(dict.fromkeys(name for name, _ in items if name))
