"""The corpus as data: its rows, how they are loaded, and when two amounts are the same."""

import json
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from tests.corpus.arithmetic import CONSTANTS

HERE = Path(__file__).parent
DEV = HERE / "questions_dev.jsonl"
# split -> its file
FILES = {path.stem.removeprefix("questions_"): path for path in sorted(HERE.glob("questions_*.jsonl"))}

# unit -> (dimension, size in grams or mL); units that are not here are only ever compared by name
SIZES: dict[str, tuple[str, float]] = {
    "g": ("mass", 1.0),
    "kg": ("mass", 1000.0),
    "oz": ("mass", CONSTANTS["OZ"]),
    "lb": ("mass", CONSTANTS["LB"]),
    "ml": ("volume", 1.0),
    "cl": ("volume", 10.0),
    "l": ("volume", 1000.0),
    "fl_oz": ("volume", CONSTANTS["FLOZ"]),
    "cup": ("volume", CONSTANTS["CUP"]),
    "tbsp": ("volume", CONSTANTS["TBSP"]),
    "tsp": ("volume", CONSTANTS["TSP"]),
    "pint": ("volume", CONSTANTS["PINT"]),
    "quart": ("volume", CONSTANTS["QUART"]),
    "gallon": ("volume", CONSTANTS["GALLON"]),
}
NAMED_ONLY = {"percent", "degC", "degF", "g/ml", "count", "eur", "usd", "gbp"}


@dataclass(frozen=True, slots=True)
class Wanted:
    """A number an answer must hold: its value in `unit`, right within `tol` of that unit."""

    what: str
    value: float
    unit: str
    tol: float
    calc: str


@dataclass(frozen=True, slots=True)
class Amount:
    """An amount that stands in a text. `parts` are the pieces of a composite, which count as well."""

    value: float
    unit: str
    optional: bool = False
    parts: tuple[tuple[float, str], ...] = ()


@dataclass(frozen=True, slots=True)
class Row:
    """One question of the corpus and the outcome it must have."""

    id: str
    text: str
    intent: str
    answerable: bool
    missing: tuple[str, ...]
    numbers: tuple[Wanted, ...]
    alternatives: tuple[tuple[str, tuple[Wanted, ...]], ...]
    note: str
    given: tuple[Amount, ...]

    @property
    def wanted(self) -> tuple[Wanted, ...]:
        """All numbers a right answer holds: of every reading, when no single one was asked for."""
        return self.numbers or tuple(number for _, numbers in self.alternatives for number in numbers)


def load(path: Path) -> list[Row]:
    """The rows of a corpus file, in its order."""
    return [_row(json.loads(line)) for line in path.read_text(encoding="utf-8").splitlines()]


def same_unit_amount(value: float, unit: str, other_unit: str) -> float | None:
    """`value` of `unit`, told in `other_unit`; None when the two do not measure the same thing."""
    if unit == other_unit:
        return value
    here, there = SIZES.get(unit), SIZES.get(other_unit)
    if here is None or there is None or here[0] != there[0]:
        return None
    return value * here[1] / there[1]


def _row(raw: dict[str, Any]) -> Row:
    expect = raw["expect"]
    return Row(
        id=raw["id"],
        text=raw["text"],
        intent=raw["intent"],
        answerable=expect["answerable"],
        missing=tuple(expect["missing"]),
        numbers=tuple(Wanted(**number) for number in expect["numbers"]),
        alternatives=tuple(
            (each["if"], tuple(Wanted(**number) for number in each["numbers"]))
            for each in expect.get("alternatives", ())
        ),
        note=expect["note"],
        given=tuple(
            Amount(
                each["value"],
                each["unit"],
                each.get("optional", False),
                tuple((part["value"], part["unit"]) for part in each.get("parts", ())),
            )
            for each in raw["given"]
        ),
    )
