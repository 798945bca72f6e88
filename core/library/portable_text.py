"""Formulas as the text of a file of our own plain shape, JSON or CSV, read back to the same formulas.

JSON: `{"shape": "steelyard formulas 1", "formulas": [{"name", "seen_by", "versions": [{"version", "at", "by",
"load_percent", "basis": "wax" | "total", "waxes": [{"name", "parts"}], "fragrances": [...], "additives": [{"name",
"percent"}], "vessel", "notes", "reason"}], "tests": [{"version", "at", "by", "cure_days", "observed", "verdict"}]}]}`,
figures as text so that no digit is lost (plain numbers are read too). A formula without "versions" is its only version.
CSV: a line for each version and each test, which of them stands under `row`; a list as `name = figure; name = figure`.
"""

from __future__ import annotations

import csv
import io
import json
from collections.abc import Iterable, Sequence
from decimal import Decimal
from typing import Any

from core.book import FormulaRecord
from core.compounds import SeenBy
from core.errors import BadInput, OutOfRange, SteelyardError, clipped
from core.library import names
from core.library.portable import Portable, PortableTest, PortableVersion, figure, formulas_of, of_type

SHAPE = "steelyard formulas 1"
LARGEST_FILE = 1024 * 1024  # bytes of UTF-8
COLUMNS = (
    *("name", "seen_by", "row", "version", "at", "by", "load_percent", "basis", "waxes", "fragrances", "additives"),
    *("vessel", "notes", "reason", "cure_days", "observed", "verdict"),
)
NEEDED = {"name", "load_percent"}
LISTS = (("waxes", "parts"), ("fragrances", "parts"), ("additives", "percent"))
VERSION, TEST = "version", "test"
DELIMITERS = ",;\t"  # a spreadsheet saves with any of them
# A spreadsheet runs a cell that begins so as a sum; a quote before it makes it words.
RUN_BY_SPREADSHEETS = ("=", "+", "-", "@", "\t", "\r")


def to_json(found: Iterable[Portable]) -> str:
    """The file's text."""
    return json.dumps({"shape": SHAPE, "formulas": [json_row(one) for one in found]}, ensure_ascii=False, indent=1)


def json_row(one: Portable) -> dict[str, Any]:
    """One formula as plain JSON."""
    return {
        "name": one.name,
        "seen_by": _seen_by(one),
        "versions": [
            {
                **_when(version),
                **_holds(version.formula),
                **{
                    key: [{"name": name, what: format(number, "f")} for name, number in items]
                    for (key, what), items in zip(LISTS, _lists(version.formula), strict=True)
                },
            }
            for version in one.versions
        ],
        "tests": [{**_when(test), **_showed(test)} for test in one.tests],
    }


def to_csv(found: Iterable[Portable]) -> str:
    """The file's text, with a line of headings."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, restval="", lineterminator="\r\n")
    writer.writeheader()
    for one in found:
        writer.writerows({key: _safe(cell) for key, cell in row.items()} for row in csv_rows(one))
    return out.getvalue()


def csv_rows(one: Portable) -> list[dict[str, str]]:
    """One formula as the lines of a table."""
    name = {"name": one.name, "seen_by": _seen_by(one)}
    rows = [
        {**name, "row": VERSION, **_when(version), **_holds(version.formula)}
        | {
            key: "; ".join(f"{part} = {number:f}" for part, number in items)
            for (key, _), items in zip(LISTS, _lists(version.formula), strict=True)
        }
        for version in one.versions
    ]
    return rows + [{**name, "row": TEST, **_when(test), **_showed(test)} for test in one.tests]


def _seen_by(one: Portable) -> str:
    return SeenBy.ME.value if one.private else SeenBy.GROUP.value


def _when(one: PortableVersion | PortableTest) -> dict[str, str]:
    number = one.version if isinstance(one, PortableTest) else one.formula.version
    return {"version": str(number), "at": one.at, "by": one.by}


def _holds(formula: FormulaRecord) -> dict[str, str]:
    return {
        "load_percent": format(formula.load.base, "f"),
        "basis": formula.basis.name.casefold(),
        "vessel": formula.vessel,
        "notes": formula.notes,
        "reason": formula.reason,
    }


def _lists(formula: FormulaRecord) -> tuple[Sequence[tuple[str, Decimal]], ...]:
    return formula.waxes, formula.fragrances, [(name, percent.base) for name, percent in formula.additives]


def _showed(test: PortableTest) -> dict[str, str]:
    days = "" if test.cure_days is None else str(test.cure_days)
    return {"cure_days": days, "observed": test.observed, "verdict": test.verdict}


def _safe(cell: str) -> str:
    return f"'{cell}" if cell.startswith((*RUN_BY_SPREADSHEETS, "'")) else cell


# ---- and back


def read(data: bytes) -> tuple[Portable, ...]:
    """The formulas of a file, checked. BadInput or OutOfRange says what is wrong and in which formula."""
    if len(data) > LARGEST_FILE:
        raise OutOfRange("", f"That file is too large: at most {LARGEST_FILE // 1024:,} KiB of formulas at a time.")
    try:
        text = data.decode("utf-8-sig").strip()
    except UnicodeDecodeError as error:
        raise BadInput(
            "", "That file is no text in UTF-8. Send the JSON or CSV as it was exported; save a table as “CSV UTF-8”."
        ) from error
    if not text:
        raise BadInput("", "That file is empty. Export a formula to see the shape it should have.")
    return formulas_of(_json_rows(text) if text[0] in "{[" else _csv_rows(text))


def _json_rows(text: str) -> list[dict[str, Any]]:
    try:
        loaded = json.loads(text, parse_float=figure, parse_int=figure, parse_constant=figure)
    except (ValueError, RecursionError) as error:
        if isinstance(error, SteelyardError):
            raise
        raise BadInput("", "That is no JSON I can read. Export a formula to see the shape it should have.") from error
    if not isinstance(loaded, dict) or loaded.get("shape") != SHAPE or not isinstance(loaded.get("formulas"), list):
        raise BadInput("", f"That JSON is of another shape. I need “shape”: “{SHAPE}” and a list of “formulas”.")
    return [of_type(row, dict, "each formula") for row in loaded["formulas"]]


def _csv_rows(text: str) -> list[dict[str, Any]]:
    """The lines of a table, those of one formula put together."""
    heading = text.partition("\n")[0].casefold()
    delimiter = max(DELIMITERS, key=heading.count)
    try:
        lines = list(csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True))
    except csv.Error as error:
        raise BadInput("", "That is no CSV I can read. Export a formula to see the shape it should have.") from error
    heads = [head.strip().casefold() for head in lines[0]]
    if not set(heads) >= NEEDED:
        raise BadInput("", f"The first line must name the columns: {', '.join(COLUMNS)}.")
    found: dict[tuple[str, str], dict[str, Any]] = {}
    for place, line in enumerate(lines[1:], 2):
        if not any(cell.strip() for cell in line):
            continue
        row = {head: cell.removeprefix("'") for head, cell in zip(heads, line, strict=False)}
        key = names.folded(row.get("name", "")), row.get("seen_by", "").strip()
        formula = found.setdefault(key, {"name": row.get("name", ""), "seen_by": key[1], "versions": [], "tests": []})
        kind = row.get("row", "").strip().casefold() or VERSION
        if kind not in (VERSION, TEST):
            raise BadInput(clipped(kind), f"Line {place} of the file: “row” is {VERSION} or {TEST}.")
        formula["versions" if kind == VERSION else "tests"].append(_with_lists(row) if kind == VERSION else row)
    return list(found.values())


def _with_lists(row: dict[str, str]) -> dict[str, Any]:
    lists = {key: [_pair(item, what) for item in row.get(key, "").split(";") if item.strip()] for key, what in LISTS}
    return {**row, **lists}


def _pair(item: str, what: str) -> dict[str, str]:
    name, equals, number = item.rpartition("=")
    if not equals:
        raise BadInput(clipped(item), f"“{clipped(item)}” should be a name, an equals sign and a figure.")
    return {"name": name.strip(), what: number.strip()}
