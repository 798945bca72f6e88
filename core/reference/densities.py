"""Published densities of waxes, fragrance materials, carriers, solvents and water, each with its source."""

from __future__ import annotations

import functools
from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from rapidfuzz import fuzz, process

from core.reference import table
from core.reference.table import Row, Status, TableError

ROOM = Decimal(20)
_ROOM_SPAN = Decimal(10)  # °C either way that still is a room
LONGEST_NAME = 80  # nobody means a longer one, and comparing it would cost time
_LITRES = Decimal(1000)


class Family(StrEnum):
    """What a material is to a candle maker. No density of an additive (dye, UV inhibitor) is published here."""

    WAX = "wax"
    FRAGRANCE = "fragrance"
    ESSENTIAL_OIL = "essential oil"
    CARRIER = "carrier"
    SOLVENT = "solvent"
    LIQUID = "liquid"
    ADDITIVE = "additive"


class State(StrEnum):
    """The state a density holds for. `LOOSE` is a heap of flakes, pellets or powder with the air between them."""

    SOLID = "solid"
    MOLTEN = "molten"
    LIQUID = "liquid"
    LOOSE = "loose"


# A fragrance oil is blended from single aroma materials and essential oils, so its band spans both.
_ONE_KIND = {Family.FRAGRANCE: (Family.FRAGRANCE, Family.ESSENTIAL_OIL)}


@dataclass(frozen=True, slots=True)
class Figure:
    """One published density: from `low` to `high` g/ml (equal for a point) at `at` °C, None for room temperature."""

    state: State
    low: Decimal
    high: Decimal
    at: Decimal | None
    source: str
    status: Status

    @property
    def point(self) -> Decimal | None:
        """The one figure in g/ml, or None when a band is published."""
        return self.low if self.low == self.high else None

    @property
    def middle(self) -> Decimal:
        """The middle of the band in g/ml."""
        return (self.low + self.high) / 2

    def away_from(self, degrees: Decimal) -> Decimal:
        """How many °C the figure was taken from `degrees`."""
        return abs((ROOM if self.at is None else self.at) - degrees)


@dataclass(frozen=True, slots=True)
class Band:
    """The lowest and highest published density in g/ml of the materials named in `members` (at 10 to 30 °C unless
    molten). `lowest` and `highest` are the members at the ends; their sources stand first in `sources`.

    `status` is `read` when all figures were read, else that of the weakest figure in it.
    """

    low: Decimal
    high: Decimal
    lowest: str
    highest: str
    sources: tuple[str, ...]
    members: tuple[str, ...]
    status: Status


@dataclass(frozen=True, slots=True)
class Material:
    """A published material: `names` are the other spellings it is found under, `note` what to know before using it."""

    key: str
    names: tuple[str, ...]
    family: Family
    figures: tuple[Figure, ...]
    note: str

    @property
    def state(self) -> State | None:
        """The state at room temperature, None when nothing is published."""
        return self.figures[0].state if self.figures else None

    def figure(self, state: State | None = None, at: Decimal = ROOM) -> Figure | None:
        """The best published figure in that state (default: as at room temperature): read or computed before
        remembered, then the nearest to `at` °C. None when there is none."""
        wanted = [figure for figure in self.figures if figure.state == (state or self.state)]
        return min(wanted, key=lambda each: (each.status is Status.MEMORY, each.away_from(at)), default=None)

    def band(self, state: State | None = None) -> Band | None:
        """The band over all figures in that state (default: as at room temperature), None when there is none."""
        return _band([self], state or self.state)


def find(name: str) -> Material | None:
    """The material of that key or spelling, ignoring case and blanks; None when it is not published."""
    return _by_name().get(_folded(name))


def near(name: str, limit: int = 3) -> list[str]:
    """Up to `limit` keys of materials of the same kind whose spelling comes near `name`, the nearest first."""
    return list(_near(_folded(name), limit))


@functools.lru_cache(maxsize=1000)  # asked anew with each letter that anybody types
def _near(folded: str, limit: int) -> tuple[str, ...]:
    found = process.extract(folded, list(_by_name()), scorer=fuzz.WRatio, score_cutoff=75, limit=4 * limit)
    alike = (spelling for spelling, _, _ in found if _may_be_meant(folded, spelling))
    return tuple(dict.fromkeys(_by_name()[spelling].key for spelling in alike))[:limit]


# Words that only say which kind of thing it is: by them alone "rose oil" would come near to "coconut oil".
_WAXES = frozenset(("wax", "waxes", "flakes"))
_OILS = frozenset(("oil", "oils", "eo", "fragrance", "essential"))
_ALIKE = 60  # of 100: how near the rest of two names must come


def _may_be_meant(name: str, spelling: str) -> bool:
    """Whether both are wax or both oil, as far as they say so, and their own words come near each other."""
    said, there = set(name.split()), {*spelling.split(), *_by_name()[spelling].key.split()}
    if (said & _WAXES and not there & _WAXES and there & _OILS) or (said & _OILS and there & _WAXES):
        return False
    own, other = (" ".join(w for w in text.split() if w not in _WAXES | _OILS) for text in (name, spelling))
    if not own or not other:
        return not own
    return fuzz.ratio(own, other) >= _ALIKE or other.startswith(own) or any(w in own.split() for w in other.split())


def band(family: Family, state: State) -> Band | None:
    """The band over the published densities of that kind of material; figures from memory count only where nothing
    better is known. None when nothing is published."""
    families = _ONE_KIND.get(family, (family,))
    return _band((each for each in materials() if each.family in families), state)


def water_density(degrees: Decimal) -> Decimal:
    """Water's density in g/ml at 0 to 40 °C (IAPWS-95, straight lines between whole degrees: within 3e-6).

    Raises OutOfRange outside the table.
    """
    points, _, _ = _water()
    return table.interpolate(points, degrees, "table of water's density", "°C")


@functools.cache
def materials() -> tuple[Material, ...]:
    """All published materials, in the order of the data file."""
    return tuple(_material(row) for row in _table().rows("material"))


@functools.cache
def _table() -> table.Table:
    return table.read("densities", "water", "material")


@functools.cache
def _water() -> tuple[tuple[tuple[Decimal, Decimal], ...], str, Status]:
    (row,) = _table().rows("water")
    degrees, densities = row.numbers("at"), row.numbers("density")
    if len(degrees) != len(densities) or list(degrees) != sorted(set(degrees)):
        raise TableError(row.place, "needs one density for each temperature, temperatures rising")
    source, status = row.source(), row.status()
    row.end()
    return tuple(zip(degrees, (density / _LITRES for density in densities), strict=True)), source, status


@functools.cache
def _by_name() -> dict[str, Material]:
    names: dict[str, Material] = {}
    for material in materials():
        for name in (material.key, *material.names):
            if names.setdefault(_folded(name), material) is not material:
                raise TableError("densities", f"{name!r} is a name of two materials")
    return names


def _folded(name: str) -> str:
    return " ".join(name[: 2 * LONGEST_NAME].casefold().replace("’", "'").split())[:LONGEST_NAME]


def _material(row: Row) -> Material:
    key = row.text("key")
    figures = tuple(_figure(each) for each in row.rows("figures"))
    if key == "water":
        points, source, status = _water()
        figures = tuple(Figure(State.LIQUID, density, density, at, source, status) for at, density in points)
    material = Material(key, row.texts("names"), Family(row.text("family")), figures, row.text("note", ""))
    row.end()
    return material


def _figure(row: Row) -> Figure:
    point = row.optional_number("point")
    low, high = (row.number("low"), row.number("high")) if point is None else (point, point)
    if not 0 < low <= high:
        raise TableError(row.place, "low must be above 0 and not above high")
    relative_to = row.optional_number("relative_to")
    if relative_to is not None:
        water = water_density(relative_to)
        low, high = low * water, high * water
    figure = Figure(State(row.text("state")), low, high, row.optional_number("at"), row.source(), row.status())
    row.end()
    return figure


def _weight(status: Status) -> int:
    """0 for read, 1 for computed, 2 for remembered."""
    return list(Status).index(status)


def _band(members: Iterable[Material], state: State | None) -> Band | None:
    found = [(each.key, figure) for each in members for figure in each.figures if figure.state == state]
    if state is not State.MOLTEN:
        found = [(key, figure) for key, figure in found if figure.away_from(ROOM) <= _ROOM_SPAN]
    sound = [pair for pair in found if pair[1].status is not Status.MEMORY] or found
    if not sound:
        return None
    lowest = min(sound, key=lambda pair: pair[1].low)
    highest = max(sound, key=lambda pair: pair[1].high)
    return Band(
        low=lowest[1].low,
        high=highest[1].high,
        lowest=lowest[0],
        highest=highest[0],
        sources=tuple(dict.fromkeys(figure.source for _, figure in (lowest, highest, *sound))),
        members=tuple(dict.fromkeys(key for key, _ in sound)),
        status=max((figure.status for _, figure in sound), key=_weight),
    )
