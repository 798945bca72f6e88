"""What all the vessels of a batch take together: by weight, by volume through a density, or by their records."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from core.answer import Given, Line, Origin, Step, line, listed
from core.book import Book
from core.compounds import Fill, Fills
from core.questions.checks import above_zero, few_kinds, few_pieces, refuse_overfull
from core.questions.known_density import Known
from core.questions.vessel_room import recorded_vessel
from core.units import Mass, Volume
from core.writing import rounded

# More kinds than this are not spelt out one by one in a sentence.
_SPELT_OUT = 6
ZERO = Mass(Decimal(0))


class FillIs(StrEnum):
    """What the weight that a vessel takes is the weight of."""

    FINISHED = "wax and fragrance together"
    WAX = "wax alone"


# A weight that nobody named is the wax's, as a load that nobody named is of the wax; the answer says so.
UNSAID = FillIs.WAX


@dataclass(frozen=True, slots=True)
class Poured:
    """All the fills: those that are wax alone and those that are the finished mix, and how they were added up."""

    wax: Mass
    finished: Mass
    count: int
    read_as: Line
    given: tuple[Given, ...]
    steps: tuple[Step, ...]

    @property
    def all_by_weight(self) -> bool:
        """True where the asker gave every fill as a weight."""
        return all(isinstance(each.value, Mass) and each.origin is Origin.ASKED for each in self.given)

    @property
    def any_by_weight(self) -> bool:
        """True where the asker gave a fill as a weight."""
        return any(isinstance(each.value, Mass) and each.origin is Origin.ASKED for each in self.given)

    @property
    def any_by_room(self) -> bool:
        """True where a density turned room into weight."""
        return any(isinstance(each.value, Volume) for each in self.given)


@dataclass(frozen=True, slots=True)
class _One:
    """One kind of vessel: what each takes, whether that is wax alone, what to call it."""

    count: int
    each: Mass
    wax_alone: bool
    words: Line
    given: Given
    steps: tuple[Step, ...] = ()


def poured(fills: Fills, fill_is: FillIs, known: Known | None, book: Book) -> Poured | None:
    """All the vessels added up; None where one lacks its weight, or a volume lacks the density.

    Raises NotFound for a vessel that is not recorded, OutOfRange for too many, Contradiction for one too small.
    """
    few_kinds(len(fills.items), "kinds of vessels")
    for fill in fills.items:
        few_pieces(fill.count)
    few_pieces(fills.count)
    kinds: list[_One] = []
    for fill in fills.items:
        one = _one(fill, fill_is, known, book)
        if one is None:
            return None
        kinds.append(one)
    wax = _sum(one for one in kinds if one.wax_alone)
    finished = _sum(one for one in kinds if not one.wax_alone)
    steps = [step for one in kinds for step in one.steps][:_SPELT_OUT]
    steps += [
        *_adding([o for o in kinds if o.wax_alone], wax),
        *_adding([o for o in kinds if not o.wax_alone], finished),
    ]
    return Poured(wax, finished, fills.count, _read_as(kinds), tuple(one.given for one in kinds), tuple(steps))


def _one(fill: Fill, fill_is: FillIs, known: Known | None, book: Book) -> _One | None:
    above_zero(weight=fill.weight, volume=fill.volume)
    room, name = fill.volume, fill.vessel
    if name:
        record = recorded_vessel(name, book)
        room = room or record.room
        if fill.weight is None and fill.volume is None and record.fill is not None:
            source = line("“{0}”, {1}", record.name, record.how) if record.how else line("“{0}”", record.name)
            words = line("“{0}” ({1:typed} each)", record.name, record.fill)
            given = Given("fill", record.fill, Origin.RECORDED, source)
            return _One(fill.count, record.fill, False, words, given)
    if fill.weight is not None:
        refuse_overfull(fill.weight, room)
        words = line("{0:typed} each", fill.weight)
        return _One(fill.count, fill.weight, fill_is is FillIs.WAX, words, Given("fill", fill.weight))
    if room is None or known is None:
        return None
    each = known.density.mass_of(room)
    step = Step(
        "in each = room × density",
        line("{0:work} × {1}", room, known.density),
        line("{0} g", rounded(each.base, 2)),
    )
    words = line("“{0}” ({1:typed} each)", name, room) if name else line("{0:typed} each", room)
    given = Given("room", room, Origin.RECORDED, line("“{}”", name)) if name else Given("room", room)
    return _One(fill.count, each, False, words, given, (step,))


def lacks_density(fills: Fills, book: Book) -> tuple[Volume, int] | None:
    """The first fill that only a density can turn into a weight: its room and its count."""
    for fill in fills.items:
        if fill.weight is None:
            record = recorded_vessel(fill.vessel, book) if fill.vessel else None
            room = fill.volume or (record.room if record is not None and record.fill is None else None)
            if room is not None:
                return room, fill.count
    return None


def _sum(kinds: Iterator[_One]) -> Mass:
    total: Mass | None = None
    for one in kinds:
        part = one.each * one.count
        total = part if total is None else total + part
    return total if total is not None else ZERO


def _adding(kinds: list[_One], total: Mass) -> tuple[Step, ...]:
    if not kinds or (len(kinds) == 1 and kinds[0].count == 1):
        return ()
    what = "wax in all vessels" if kinds[0].wax_alone else "in all vessels"
    if len(kinds) > _SPELT_OUT:
        numbers = line(f"{len(kinds)} kinds, {sum(one.count for one in kinds):,} vessels, count × weight of each")
    else:
        terms = [line(f"{one.count:,} × {{0:work}}", one.each) for one in kinds]
        numbers = listed(terms, " + ")
    return (Step(what, numbers, line("{0:work}", total)),)


def _read_as(kinds: list[_One]) -> Line:
    terms = [line(f"{one.count:,} × {{}}", one.words) for one in kinds[:_SPELT_OUT]]
    more = f", and {len(kinds) - _SPELT_OUT} more kinds" if len(kinds) > _SPELT_OUT else ""
    return line("{}" + more, listed(terms))
