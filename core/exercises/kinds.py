"""What an exercise is: a task in words, the question that answers it, and the mistakes people make with it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from core.answer import Line, Worked, line, results_by_name
from core.book import Book
from core.question import Question
from core.units import Density, Mass, Percent, Quantity, Volume, factor


class Family(StrEnum):
    """Which kind of sum. The value is what a person sees."""

    LOAD = "fragrance for a wax"
    SPLIT = "a total divided into wax and fragrance"
    LOAD_FROM_WEIGHTS = "the load from two weights"
    VOLUME = "what a volume weighs"
    DENSITY = "a density from a weighing"
    OUNCES = "ounces, grams and fluid ounces"
    BATCH = "a batch of candles"
    NET_WEIGHT = "net weight"
    SCALE_STEP = "how exact a scale is"
    BLEND = "a blend"
    RESCUE = "a pot to put right"
    BUYING = "packs to buy"


class Level(StrEnum):
    """How hard."""

    EASY = "easy"
    MEDIUM = "medium"
    HARD = "hard"


class Weights(StrEnum):
    """Which weights it is told in."""

    GRAMS = "grams"
    OUNCES = "ounces"


@dataclass(frozen=True, slots=True)
class Mistake:
    """A usual mistake: its machine name, what it gives and by which sum (None for a slip of the unit), what is done (a
    clause after "when"), and how it is right."""

    name: str
    gives: Quantity
    numbers: Line | None
    when: Line
    instead: Line


@dataclass(frozen=True, slots=True)
class Exercise:
    """A task, the question it stands for, the name of the result it asks for and the unit it is wanted in, mistakes
    (the usual one first), and the key of the lesson that helps. `converts` where the unit itself is the task."""

    task: Line
    question: Question
    wanted: str
    unit: str
    mistakes: tuple[Mistake, ...]
    see: str
    converts: bool = False


# A mistake nearer to the right answer, or to another mistake, than this share can't be told from rounding.
APART = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Solved:
    """An exercise with its answer, the figure asked for, and the mistakes that can be told from it and each other."""

    exercise: Exercise
    answer: Worked
    right: Quantity
    mistakes: tuple[Mistake, ...]


def solve(exercise: Exercise, book: Book) -> Solved:
    """The question asked and answered; every exercise can be."""
    answer = exercise.question.answer(book)
    assert isinstance(answer, Worked)
    right = results_by_name(answer)[exercise.wanted]
    of_percent = isinstance(right, Percent) or getattr(exercise.question, "load", None) is not None
    kept: list[Mistake] = []
    for mistake in (*exercise.mistakes, *_slips(right, of_percent=of_percent)):
        others = (right, *(each.gives for each in kept))
        if mistake.gives.base > 0 and all(apart(mistake.gives, other) for other in others):
            kept.append(mistake)
    return Solved(exercise, answer, right, tuple(kept))


def apart(one: Quantity, other: Quantity) -> bool:
    """Whether the two differ by more than rounding."""
    return abs(one.base - other.base) > APART * max(abs(one.base), abs(other.base))


def mistake(name: str, gives: Quantity, numbers: Line | None, when: str, instead: str | Line) -> Mistake:
    """Short for a mistake whose words hold no values."""
    return Mistake(name, gives, numbers, Line(when), Line(instead) if isinstance(instead, str) else instead)


def shown(value: Quantity, unit: str) -> Line:
    """A figure as an answer in that unit: weights in both, the wanted one first."""
    if isinstance(value, Mass):
        return line("{0:oz} ({0:g})" if unit == "oz" else "{0:g} ({0:oz})", value)
    if isinstance(value, Volume):
        return line("{0:us_fl_oz} ({0:ml})" if unit == "us_fl_oz" else "{0:ml}", value)
    return line("{}", value)


PLACES = "Count the places: 1 kg is 1000 g, 1 litre is 1000 ml."
ONCE = "A percent is divided by 100 exactly once: 8 % is 8 ÷ 100 = 0.08."


def _slips(right: Quantity, *, of_percent: bool) -> Iterable[Mistake]:
    """What a wrong unit or a shifted decimal point makes of the right figure."""
    kind = type(right)
    thousand, hundred = Decimal(1000), Decimal(100)

    def slip(name: str, times: Decimal, when: str, instead: str) -> Mistake:
        return mistake(name, kind(right.base * times, right.unit), None, when, instead)

    if kind is Mass:
        ounce = factor("oz", "g")
        yield slip("ounces_for_grams", ounce, "the number of grams is written as ounces", "Look at the unit.")
        yield slip("grams_for_ounces", 1 / ounce, "the number of ounces is written as grams", "Look at the unit.")
    if kind is Volume:
        fluid = factor("us_fl_oz", "ml")
        yield slip("fl_oz_for_ml", fluid, "the number of millilitres is written as fluid ounces", "Look at the unit.")
        yield slip(
            "ml_for_fl_oz", 1 / fluid, "the number of fluid ounces is written as millilitres", "Look at the unit."
        )
    if kind in (Mass, Volume, Density):
        yield slip("thousand_too_much", thousand, "the decimal point is three places too far right", PLACES)
        yield slip("thousand_too_little", 1 / thousand, "the decimal point is three places too far left", PLACES)
    if of_percent:
        yield slip("percent_twice", 1 / hundred, "a percent is divided by 100 twice", ONCE)
        yield slip("percent_whole", hundred, "a percent is not divided by 100", ONCE)
