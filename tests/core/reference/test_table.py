"""The data files: complete, sourced, and refused when misspelt."""

import re
import subprocess
import sys
import tomllib
from collections.abc import Callable, Iterator
from decimal import Decimal
from importlib import resources

import pytest

from core.errors import OutOfRange
from core.reference import densities, hazards, labelling, measures, parcels, scales, table
from core.reference.table import Row, Status, TableError

MODULES = {
    "densities": densities,
    "hazards": hazards,
    "labelling": labelling,
    "measures": measures,
    "parcels": parcels,
    "scales": scales,
}

LOADERS: dict[str, tuple[Callable[[], object], ...]] = {
    "densities": (densities._water, densities.materials, densities._by_name),
    "hazards": (hazards._flash_points, hazards._cautions),
    "labelling": (
        labelling._factors,
        labelling._rules,
        labelling._type_heights,
        labelling._tne_steps,
        labelling._figure_heights,
        labelling._mav,
    ),
    "measures": (measures._cylinders, measures._shares, measures._z_factors),
    "parcels": (parcels.common_divisors,),
    "scales": (scales._classes, scales._limits),
}


def load_all(name: str) -> None:
    for load in LOADERS[name]:
        load()


def forget(name: str) -> None:
    for member in vars(MODULES[name]).values():
        if hasattr(member, "cache_clear"):
            member.cache_clear()


@pytest.fixture
def fresh(request: pytest.FixtureRequest) -> Iterator[str]:
    """A data file's name, its cache emptied before and after."""
    forget(request.param)
    yield request.param
    forget(request.param)


every_file = pytest.mark.parametrize("fresh", sorted(MODULES), indirect=True)


def test_every_data_file_is_known_here() -> None:
    files = {path.name for path in resources.files("core.reference").iterdir() if path.name.endswith(".toml")}
    assert files == {f"{name}.toml" for name in MODULES}


def leaves(content: object) -> Iterator[dict[str, object]]:
    """The innermost records."""
    if isinstance(content, dict):
        inner = [
            value for value in content.values() if isinstance(value, list) and value and isinstance(value[0], dict)
        ]
        if inner:
            for value in inner:
                yield from leaves(value)
        else:
            yield content
    elif isinstance(content, list):
        for value in content:
            yield from leaves(value)


@every_file
def test_every_row_has_a_status_and_a_source_in_words(fresh: str) -> None:
    content = tomllib.loads(table.text_of(fresh))
    sources = content.pop("sources")
    text = table.text_of(fresh)
    used = set(re.findall(r'(?<![-\w])source = "([^"]+)"', text))
    assert used == set(sources), "a source is used that is not listed, or listed and not used"
    rows = [row for section in content.values() for row in leaves(section)]
    # a material without figures (soy wax) says so in its note; cylinder limits take their standard's source
    bare = [row for row in rows if "status" not in row]
    assert all(row.get("note") and row["family"] in ("wax", "liquid") for row in bare)
    assert {row["status"] for row in rows if "status" in row} <= set(Status)
    assert all("source" in row or "capacity" in row for row in rows if "status" in row)


@every_file
def test_memory_is_admitted_in_the_source_of_trade_facts(fresh: str) -> None:
    for line in re.findall(r'.*source = "no-source".*(?:\n.*)?', table.text_of(fresh)):
        assert "from memory" in line


@every_file
def test_a_misspelt_field_is_refused(fresh: str, monkeypatch: pytest.MonkeyPatch) -> None:
    original = table.text_of(fresh)
    headers = [match.end() for match in re.finditer(r"^\[\[\w+\]\]$", original, re.M)]
    for end in (headers[0], headers[len(headers) // 2], headers[-1]):
        text = original[:end] + "\nsuprise = 1" + original[end:]
        monkeypatch.setattr(table, "text_of", lambda _name, text=text: text)
        forget(fresh)
        with pytest.raises(TableError, match="unknown field suprise"):
            load_all(fresh)


@every_file
def test_an_unknown_section_is_refused(fresh: str, monkeypatch: pytest.MonkeyPatch) -> None:
    text = table.text_of(fresh) + "\n[[suprise]]\nkey = 'x'\n"
    monkeypatch.setattr(table, "text_of", lambda _name: text)
    with pytest.raises(TableError, match="section suprise"):
        load_all(fresh)


@every_file
def test_a_file_that_is_loaded_is_not_read_again(fresh: str, monkeypatch: pytest.MonkeyPatch) -> None:
    load_all(fresh)

    def refuse(name: str) -> str:
        raise AssertionError(f"{name} is read again")

    monkeypatch.setattr(table, "text_of", refuse)
    load_all(fresh)


def test_importing_reads_no_data_file() -> None:
    code = (
        "import sys, tomllib\n"
        "def refuse(*a, **k): raise SystemExit('read on import')\n"
        "tomllib.loads = refuse\n"
        f"from core.reference import {', '.join(sorted(MODULES))}\n"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert (done.returncode, done.stderr) == (0, "")


def row(**fields: object) -> Row:
    return Row("here", fields, {"book": "a book"})


@pytest.mark.parametrize(
    ("take", "says"),
    [
        (lambda: row().text("key"), "'key' is missing"),
        (lambda: row(key=1).text("key"), "must be a text"),
        (lambda: row(key="x").texts("key"), "must be a list of texts"),
        (lambda: row(key=True).number("key"), "must be a number"),
        (lambda: row(key="4x").number("key"), "must be a number"),
        (lambda: row(key=0.1).number("key"), "must be a number"),  # a float is never exact
        (lambda: row(key=1).numbers("key"), "must be a list of numbers"),
        (lambda: row(source="novel").source(), "no source called 'novel'"),
        (lambda: row(status="sure").status(), "unknown status 'sure'"),
        (lambda: list(row(figures=[1]).rows("figures")), "must be a list of records"),
        (lambda: row(extra=1).end(), "unknown field extra"),
    ],
)
def test_a_wrong_field_is_named(take: Callable[[], object], says: str) -> None:
    with pytest.raises(TableError, match=says) as caught:
        take()
    assert caught.value.place == "here"
    assert str(caught.value).startswith("here: ")


def test_interpolation_hits_the_points_and_the_middle() -> None:
    points = [(Decimal(0), Decimal(1)), (Decimal(2), Decimal(5)), (Decimal(3), Decimal(4))]
    found = [table.interpolate(points, Decimal(x), "things", "m") for x in ("0", "1", "2", "2.5", "3")]
    assert found == [1, 3, 5, Decimal("4.5"), 4]


@pytest.mark.parametrize("x", ["-0.1", "3.1", "NaN", "inf"])
def test_nothing_is_extrapolated(x: str) -> None:
    points = [(Decimal(0), Decimal(1)), (Decimal(3), Decimal(4))]
    with pytest.raises(OutOfRange, match="things runs from 0 to 3 m"):
        table.interpolate(points, Decimal(x), "table of things", "m")
