"""A formula as it travels between libraries: its versions, its tests, who may see it; checked before it is let in."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from decimal import Decimal, InvalidOperation
from typing import Any

from core.book import FormulaRecord
from core.compounds import Basis, SeenBy, Verdict
from core.errors import BadInput, OutOfRange, SteelyardError, clipped
from core.library import formulas, names
from core.units import Percent

MOST_FORMULAS = 1_000  # in one file
MOST_VERSIONS = 100  # of one formula, the newest
MOST_TESTS = 100
LONGEST_FIGURE = 40
# Between the name of who recorded something and of who brought it in with a file.
IN_A_FILE = ", in a file of "

Row = Mapping[str, Any]


@dataclass(frozen=True, slots=True)
class PortableVersion:
    """One version: what it holds, when (ISO 8601, UTC; "" for not said) and by whom."""

    formula: FormulaRecord
    at: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class PortableTest:
    """One test; `version` is the number of a version of the same formula."""

    version: int
    cure_days: int | None
    observed: str
    verdict: str
    at: str = ""
    by: str = ""


@dataclass(frozen=True, slots=True)
class Portable:
    """A formula with its versions, at least one, and its tests, the oldest first; `private` where only its owner may
    see it."""

    versions: tuple[PortableVersion, ...]
    tests: tuple[PortableTest, ...] = ()
    private: bool = False

    @property
    def name(self) -> str:
        """What it is called."""
        return self.versions[-1].formula.name


def formulas_of(rows: Sequence[Row]) -> tuple[Portable, ...]:
    """The formulas of plain rows, checked. BadInput or OutOfRange says what is wrong, and in which formula."""
    if not rows:
        raise BadInput("", "There is no formula in that file.")
    if len(rows) > MOST_FORMULAS:
        raise OutOfRange("", f"That file holds too many formulas: at most {MOST_FORMULAS:,} at a time.")
    found: dict[tuple[str, bool], Portable] = {}
    for place, row in enumerate(rows, 1):
        try:
            one = _portable(row)
            if (names.folded(one.name), one.private) in found:
                raise BadInput(one.name, f"“{one.name}” stands in it twice. Put all its versions together.")
        except SteelyardError as error:
            error.sentence = f"Formula {place} of the file: {error.sentence}"
            raise
        found[names.folded(one.name), one.private] = one
    return tuple(found.values())


def _portable(row: Row) -> Portable:
    """One formula; a row without “versions” is its only version itself."""
    name = text(row, "name")
    said = [of_type(each, dict, "each version") for each in listed(row, "versions")] if "versions" in row else [row]
    _few(said, MOST_VERSIONS, "versions")
    tests = [of_type(each, dict, "each test") for each in listed(row, "tests")]
    _few(tests, MOST_TESTS, "tests")
    if not said:
        raise BadInput(clipped(name), f"“{clipped(name)}” has no version.")
    versions = [_version(each, name, place) for place, each in enumerate(said, 1)]
    numbers = [one.formula.version for one in versions]
    if sorted(set(numbers)) != numbers:
        raise BadInput(clipped(name), "Its versions should stand in the order of their numbers, each number once.")
    return Portable(tuple(versions), tuple(_test(each, numbers) for each in tests), _private(text(row, "seen_by")))


def _few(rows: Sequence[Row], most: int, what: str) -> None:
    if len(rows) > most:
        raise OutOfRange(str(len(rows)), f"That is too many {what} of one formula: at most {most} in a file.")


def _private(said: str) -> bool:
    if said not in ("", *SeenBy):
        raise BadInput(clipped(said), f"“seen_by” is “{SeenBy.GROUP}” or “{SeenBy.ME}”.")
    return said == SeenBy.ME


def _version(row: Row, name: str, place: int) -> PortableVersion:
    basis = text(row, "basis") or "wax"
    if basis not in ("wax", "total"):
        raise BadInput(clipped(basis), "The basis is wax or total.")
    formula = FormulaRecord(
        name=name,
        version=_count(row, "version", place) or place,
        load=Percent(figure(row.get("load_percent"))),
        basis=Basis[basis.upper()],
        waxes=_items(row, "waxes", "parts"),
        fragrances=_items(row, "fragrances", "parts"),
        additives=tuple((each, Percent(number)) for each, number in _items(row, "additives", "percent")),
        vessel=text(row, "vessel"),
        notes=text(row, "notes"),
        reason=text(row, "reason"),
    )
    return PortableVersion(formulas.checked(formula), moment(text(row, "at")), _by(row))


def _test(row: Row, numbers: Sequence[int]) -> PortableTest:
    number = _count(row, "version", numbers[-1])
    if number not in numbers:
        raise BadInput(str(number), f"A test is of version {number}, which the file does not hold.")
    days = _count(row, "cure_days", -1)
    verdict = text(row, "verdict")
    if verdict not in ("", *Verdict):
        raise BadInput(clipped(verdict), f"A verdict is one of: {', '.join(Verdict)}.")
    observed = names.prose(text(row, "observed"))
    if not observed and not verdict:
        raise BadInput("", "A test needs what was observed, or a verdict.")
    if days > formulas.LONGEST_CURE:
        raise OutOfRange(str(days), formulas.CURE_RANGE)
    return PortableTest(number, days if days >= 0 else None, observed, verdict, moment(text(row, "at")), _by(row))


def _by(row: Row) -> str:
    """Who it was, without who brought it here."""
    by = text(row, "by").partition(IN_A_FILE)[0]
    return names.cleaned(by) if by.strip() else ""


def moment(said: str) -> str:
    """A time in ISO 8601 as it is kept: UTC, to the second. A time without a zone is taken as UTC."""
    if not said:
        return ""
    try:
        at = datetime.fromisoformat(said)
        at = at.replace(tzinfo=UTC) if at.tzinfo is None else at.astimezone(UTC)
    except (ValueError, OverflowError) as error:
        raise BadInput(clipped(said), f"“{clipped(said, 30)}” is no time. Write it as 2026-03-01T12:00:00Z.") from error
    return at.isoformat(timespec="seconds")


def text(row: Row, key: str) -> str:
    """The words under that key, "" where there are none."""
    return str(of_type(row.get(key, ""), str, f"“{key}”")).strip()


def listed(row: Row, key: str) -> list[Any]:
    """The list under that key, empty where there is none."""
    return list(of_type(row.get(key, []), list, f"“{key}”"))


def _items(row: Row, key: str, figures: str) -> tuple[tuple[str, Decimal], ...]:
    found = [of_type(each, dict, f"each of “{key}”") for each in listed(row, key)]
    return tuple((text(item, "name"), figure(item.get(figures))) for item in found)


_WORDS: dict[type, str] = {str: "words", list: "a list", dict: "an object"}


def of_type(value: Any, kind: Callable[..., Any], what: str) -> Any:
    """The value, where it is of that kind."""
    if not isinstance(value, kind):  # type: ignore[arg-type]
        raise BadInput(clipped(str(value)), f"{what} should be {_WORDS[kind]}.")  # type: ignore[index]
    return value


def _count(row: Row, key: str, missing: int) -> int:
    """A whole number from 0 on; `missing` where there is none."""
    if row.get(key) in (None, ""):
        return missing
    number = figure(row[key])
    if number < 0 or number != number.to_integral_value():
        raise BadInput(clipped(str(row[key])), f"“{key}” should be a whole number.")
    return int(number)


def figure(value: Any) -> Decimal:
    """A figure given as text or as a plain number, finite and of a sane length."""
    if isinstance(value, Decimal):
        return value
    if value is None:
        raise BadInput("", "A figure is missing. Each formula needs load_percent, each part its parts or percent.")
    try:
        if not isinstance(value, str) or len(value) > LONGEST_FIGURE:
            raise InvalidOperation
        number = Decimal(value.strip())
    except InvalidOperation as error:
        raise BadInput(clipped(str(value)), f"“{clipped(str(value), 30)}” is no figure, such as 8 or 7.5.") from error
    if not number.is_finite() or abs(number) > formulas.LARGEST_PART or abs(number.adjusted()) > LONGEST_FIGURE:
        raise OutOfRange(clipped(str(value)), f"“{clipped(str(value), 30)}” is outside of what a formula can hold.")
    return number
