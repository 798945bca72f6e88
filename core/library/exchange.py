"""Formulas as a file of our own plain shape, JSON or CSV, written and read back to the same formulas.

JSON: `{"shape": "steelyard formulas 1", "formulas": [{"name", "load_percent", "basis": "wax" | "total",
"waxes": [{"name", "parts"}], "fragrances": [...], "additives": [{"name", "percent"}], "vessel", "notes", "reason"}]}`,
figures as text so that no digit is lost (plain numbers are read too). CSV: the same as columns, a list as
`name = figure; name = figure`.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Callable, Iterable, Sequence
from decimal import Decimal, InvalidOperation
from typing import Any

from core.book import FormulaRecord
from core.compounds import Basis
from core.errors import BadInput, OutOfRange, SteelyardError, clipped
from core.library import formulas
from core.units import Percent

SHAPE = "steelyard formulas 1"
LARGEST_FILE = 256 * 1024  # characters
MOST_FORMULAS = 500
LONGEST_FIGURE = 40
COLUMNS = ("name", "load_percent", "basis", "waxes", "fragrances", "additives", "vessel", "notes", "reason")
# A spreadsheet runs a cell that begins so as a sum; a quote before it makes it words.
_RUN_BY_SPREADSHEETS = ("=", "+", "-", "@", "\t", "\r")


def to_json(records: Iterable[FormulaRecord]) -> str:
    """The file's text."""
    rows = [
        {
            "name": one.name,
            "load_percent": format(one.load.base, "f"),
            "basis": one.basis.name.casefold(),
            "waxes": [{"name": name, "parts": format(part, "f")} for name, part in one.waxes],
            "fragrances": [{"name": name, "parts": format(part, "f")} for name, part in one.fragrances],
            "additives": [{"name": name, "percent": format(percent.base, "f")} for name, percent in one.additives],
            "vessel": one.vessel,
            "notes": one.notes,
            "reason": one.reason,
        }
        for one in records
    ]
    return json.dumps({"shape": SHAPE, "formulas": rows}, ensure_ascii=False, indent=1)


def to_csv(records: Iterable[FormulaRecord]) -> str:
    """The file's text, with a line of headings."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\r\n")
    writer.writerow(COLUMNS)
    for one in records:
        additives = [(name, percent.base) for name, percent in one.additives]
        cells = (
            *(one.name, format(one.load.base, "f"), one.basis.name.casefold()),
            *(_cell_list(items) for items in (one.waxes, one.fragrances, additives)),
            *(one.vessel, one.notes, one.reason),
        )
        writer.writerow([f"'{cell}" if cell.startswith((*_RUN_BY_SPREADSHEETS, "'")) else cell for cell in cells])
    return out.getvalue()


def _cell_list(items: Sequence[tuple[str, Decimal]]) -> str:
    return "; ".join(f"{name} = {figure:f}" for name, figure in items)


def read(text: str) -> tuple[FormulaRecord, ...]:
    """The formulas of a file's text, each `checked`. BadInput or OutOfRange says what is wrong and in which formula."""
    if len(text) > LARGEST_FILE:
        raise OutOfRange("", f"That file is too large: at most {LARGEST_FILE // 1024} KiB of formulas at a time.")
    text = text.removeprefix("\ufeff").strip()
    if not text:
        raise BadInput("", "That file is empty. Export a formula to see the shape it should have.")
    rows = _json_rows(text) if text[0] in "{[" else _csv_rows(text)
    if not rows:
        raise BadInput("", "There is no formula in that file.")
    if len(rows) > MOST_FORMULAS:
        raise OutOfRange("", f"That file holds too many formulas: at most {MOST_FORMULAS} at a time.")
    return tuple(_formula(row, place) for place, row in enumerate(rows, 1))


def _json_rows(text: str) -> list[dict[str, Any]]:
    try:
        loaded = json.loads(text, parse_float=_figure, parse_int=_figure, parse_constant=_figure)
    except (ValueError, RecursionError) as error:
        if isinstance(error, SteelyardError):
            raise
        raise BadInput("", "That is no JSON I can read. Export a formula to see the shape it should have.") from error
    if not isinstance(loaded, dict) or loaded.get("shape") != SHAPE or not isinstance(loaded.get("formulas"), list):
        raise BadInput("", f"That JSON is of another shape. I need “shape”: “{SHAPE}” and a list of “formulas”.")
    return [_of_type(row, dict, "each formula") for row in loaded["formulas"]]


def _csv_rows(text: str) -> list[dict[str, Any]]:
    try:
        lines = list(csv.reader(io.StringIO(text, newline=""), strict=True))
    except csv.Error as error:
        raise BadInput("", "That is no CSV I can read. Export a formula to see the shape it should have.") from error
    heads = [head.strip().casefold() for head in lines[0]]
    if not {"name", "load_percent"} <= set(heads):
        raise BadInput("", f"The first line must name the columns: {', '.join(COLUMNS)}.")
    rows: list[dict[str, Any]] = []
    for line in lines[1:]:
        if not any(cell.strip() for cell in line):
            continue
        row: dict[str, Any] = {head: _unquoted(cell) for head, cell in zip(heads, line, strict=False)}
        for column, figure in (("waxes", "parts"), ("fragrances", "parts"), ("additives", "percent")):
            row[column] = [_pair(item, figure) for item in str(row.get(column, "")).split(";") if item.strip()]
        rows.append(row)
    return rows


def _unquoted(cell: str) -> str:
    return cell[1:] if cell.startswith("'") else cell


def _pair(item: str, figure: str) -> dict[str, str]:
    name, equals, number = item.partition("=")
    if not equals:
        raise BadInput(clipped(item), f"“{clipped(item)}” should be a name, an equals sign and a figure.")
    return {"name": name.strip(), figure: number.strip()}


def _formula(row: dict[str, Any], place: int) -> FormulaRecord:
    """One formula; an error names its place in the file."""
    try:
        basis = _text(row, "basis") or "wax"
        if basis not in ("wax", "total"):
            raise BadInput(clipped(basis), "The basis is wax or total.")
        return formulas.checked(
            FormulaRecord(
                name=_text(row, "name"),
                version=0,
                load=Percent(_figure(row.get("load_percent"))),
                basis=Basis[basis.upper()],
                waxes=_items(row, "waxes", "parts"),
                fragrances=_items(row, "fragrances", "parts"),
                additives=tuple((name, Percent(number)) for name, number in _items(row, "additives", "percent")),
                vessel=_text(row, "vessel"),
                notes=_text(row, "notes"),
                reason=_text(row, "reason"),
            )
        )
    except SteelyardError as error:
        error.sentence = f"Formula {place} of the file: {error.sentence}"
        raise


def _text(row: dict[str, Any], key: str) -> str:
    return str(_of_type(row.get(key, ""), str, f"“{key}”"))


def _items(row: dict[str, Any], key: str, figure: str) -> tuple[tuple[str, Decimal], ...]:
    found = _of_type(row.get(key, []), list, f"“{key}”")
    return tuple((_text(_of_type(item, dict, f"each of “{key}”"), "name"), _figure(item.get(figure))) for item in found)


_WORDS: dict[type, str] = {str: "words", list: "a list", dict: "an object"}


def _of_type(value: Any, kind: Callable[..., Any], what: str) -> Any:
    if not isinstance(value, kind):  # type: ignore[arg-type]
        raise BadInput(clipped(str(value)), f"{what} should be {_WORDS[kind]}.")  # type: ignore[index]
    return value


def _figure(value: Any) -> Decimal:
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
