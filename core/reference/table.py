"""Reading the data files beside this module: checked field by field, every record with its source."""

from __future__ import annotations

import tomllib
from bisect import bisect_left
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from importlib import resources

from core.errors import OutOfRange


class Status(StrEnum):
    """How far a figure may be trusted: read at its source, computed from a published equation, or remembered."""

    READ = "read"
    COMPUTED = "computed"
    MEMORY = "from memory"


class TableError(ValueError):
    """A data file is wrong: `place` is the file and record, the message says what to mend."""

    def __init__(self, place: str, trouble: str) -> None:
        super().__init__(f"{place}: {trouble}")
        self.place = place


class Row:
    """One record of a data file. Each field is taken once; `end` complains about any that nobody asked for."""

    def __init__(self, place: str, fields: dict[str, object], sources: dict[str, str]) -> None:
        self.place, self._fields, self._sources = place, dict(fields), sources

    def __contains__(self, key: str) -> bool:
        return key in self._fields

    def _take(self, key: str) -> object:
        if key not in self._fields:
            raise TableError(self.place, f"the field {key!r} is missing")
        return self._fields.pop(key)

    def text(self, key: str, default: str | None = None) -> str:
        """A text field."""
        value = self._take(key) if default is None or key in self else default
        if not isinstance(value, str):
            raise TableError(self.place, f"{key!r} must be a text, not {value!r}")
        return value

    def texts(self, key: str) -> tuple[str, ...]:
        """A list of texts; none when the field is left out."""
        value = self._take(key) if key in self else []
        if not isinstance(value, list) or not all(isinstance(each, str) for each in value):
            raise TableError(self.place, f"{key!r} must be a list of texts, not {value!r}")
        return tuple(value)

    def number(self, key: str) -> Decimal:
        """A number, written as one or as a text."""
        return self._number(key, self._take(key))

    def optional_number(self, key: str) -> Decimal | None:
        """A number, or None when the field is left out."""
        return self._number(key, self._take(key)) if key in self else None

    def numbers(self, key: str) -> tuple[Decimal, ...]:
        """A list of numbers."""
        value = self._take(key)
        if not isinstance(value, list):
            raise TableError(self.place, f"{key!r} must be a list of numbers, not {value!r}")
        return tuple(self._number(key, each) for each in value)

    def _number(self, key: str, value: object) -> Decimal:
        try:
            if isinstance(value, (int, str, Decimal)) and not isinstance(value, bool):
                return Decimal(value)
        except ArithmeticError:
            pass
        raise TableError(self.place, f"{key!r} must be a number, not {value!r}")

    def source(self) -> str:
        """The full words of the source the record names."""
        key = self.text("source")
        if key not in self._sources:
            raise TableError(self.place, f"no source called {key!r} is listed in [sources]")
        return self._sources[key]

    def status(self) -> Status:
        """How far the record may be trusted."""
        word = self.text("status")
        try:
            return Status(word)
        except ValueError:
            raise TableError(self.place, f"unknown status {word!r}; use one of {', '.join(Status)}") from None

    def rows(self, key: str) -> Iterator[Row]:
        """The records inside this one; none when the field is left out."""
        value = self._take(key) if key in self else []
        yield from _rows(self.place, key, value, self._sources)

    def end(self) -> None:
        """Raise TableError for a field that was not asked for: a misspelt key must not pass in silence."""
        if self._fields:
            raise TableError(self.place, f"unknown field {', '.join(sorted(self._fields))}")


def _rows(place: str, key: str, value: object, sources: dict[str, str]) -> Iterator[Row]:
    if not isinstance(value, list) or not all(isinstance(each, dict) for each in value):
        raise TableError(place, f"{key!r} must be a list of records")
    for number, fields in enumerate(value, 1):
        yield Row(f"{place}, {key} {number} ({fields.get('key', '-')})", fields, sources)


@dataclass(frozen=True, slots=True)
class Table:
    """A data file: its sources by key and its sections of records."""

    name: str
    sources: dict[str, str]
    sections: dict[str, object]

    def rows(self, section: str) -> Iterator[Row]:
        """The records of a section, in the order of the file."""
        yield from _rows(self.name, section, self.sections[section], self.sources)


def read(name: str, *sections: str) -> Table:
    """The data file `name`.toml, which must have [sources] and exactly these sections. Decimals stay exact."""
    content = tomllib.loads(text_of(name), parse_float=Decimal)
    sources = content.pop("sources", None)
    if not isinstance(sources, dict) or not all(isinstance(text, str) and text for text in sources.values()):
        raise TableError(name, "[sources] must give each source in words")
    if wrong := set(content) ^ set(sections):
        raise TableError(name, f"unknown or missing section {', '.join(sorted(wrong))}")
    return Table(name, sources, content)


def text_of(name: str) -> str:
    """The data file as it stands."""
    return resources.files("core.reference").joinpath(f"{name}.toml").read_text("utf-8")


def interpolate(points: Sequence[tuple[Decimal, Decimal]], x: Decimal, what: str, unit: str) -> Decimal:
    """The value at `x` on straight lines between `points` (rising in x). Raises OutOfRange outside them."""
    first, last = points[0][0], points[-1][0]
    if not x.is_finite() or not first <= x <= last:
        raise OutOfRange(
            f"{x} {unit}", f"The published {what} runs from {first} to {last} {unit}. Give a figure between them."
        )
    right = max(1, bisect_left(points, x, key=lambda point: point[0]))
    (x0, y0), (x1, y1) = points[right - 1], points[right]
    return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
