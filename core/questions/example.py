"""A worked example to post: a new task each time, every step, and the usual mistake beside the right way."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

import core.exercises as exercises
from core.answer import Answer, Line, Result, line
from core.book import Book
from core.compounds import Material
from core.exercises.kinds import Family, Level, Mistake, Weights, shown
from core.question import Question, slot
from core.units import Mass, Percent, Quantity, Volume
from core.writing import significant


@dataclass(frozen=True, slots=True, kw_only=True)
class ExampleQuestion(Question):
    """A worked example to post: every step, and the usual mistake beside the right way."""

    command: ClassVar[str] = "example"
    # Whoever asks without a seed is given one, so that each example is new.
    needs_seed: ClassVar[bool] = True

    family: Family | None = slot("What it is about; any if left out")
    level: Level | None = slot("How hard it shall be")
    weights: Weights | None = slot("Told in grams or in ounces")
    material: Material | None = slot("A wax or a fragrance oil to play in it", example="soy wax")
    seed: int | None = slot("A number that makes the same example again", example="7")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "worked_example"

    def answer(self, book: Book) -> Answer:
        """The task with its answer, the steps of the question it stands for, and the usual mistake."""
        found = exercises.solved(book, self.family, self.level, self.weights, self.seed, self.material)
        task, answer, unit = found.exercise, found.answer, found.exercise.unit
        asked = replace(self, unit=self.unit or ("oz" if unit in OUNCES else "g"))
        usual, *others = found.mistakes
        extra = [each for each in others if each.numbers is not None][:1]
        return replace(
            answer,
            intent=self.intent,
            headline=line("{0} Answer: {1}.", task.task, shown(found.right, unit)),
            read_as=None,
            results=(*answer.results, *(Result(f"mistake_{each.name}", each.gives) for each in (usual, *extra))),
            body=(
                line("Right: {}", answer.headline),
                told(usual, found.right, unit, "The usual mistake"),
                *(told(each, found.right, unit, "Another one") for each in extra),
            ),
            other=(),
            assumed=(
                line("To see this one again: seed {}.", exercises.FIRST_SEED if self.seed is None else self.seed),
            ),
            see=(task.see,) if task.see else (),
            question=asked,
        )


# Units that show that somebody weighs in ounces.
OUNCES = ("oz", "us_fl_oz", "lb")


def told(mistake: Mistake, right: Quantity, unit: str, heading: str) -> Line:
    """The wrong way with the size of its error, and how it is right."""
    gives = shown(mistake.gives, unit)
    sum_of_it = line("{0} = {1}", mistake.numbers, gives) if mistake.numbers is not None else gives
    return line(
        "{0}: {1}. {2}, which is {3}. {4}",
        *(Line(heading), mistake.when, sum_of_it, _error(mistake.gives, right, unit), mistake.instead),
    )


def _error(gives: Quantity, right: Quantity, unit: str) -> Line:
    """How far off, and by how many percent where that says something."""
    off = abs(gives.base - right.base)
    way = Line("too much" if gives.base > right.base else "too little")
    if isinstance(right, Percent):
        return line("{0:bare} percent points {1}", Percent(off), way)
    spec = {Mass: ":oz" if unit == "oz" else ":g", Volume: f":{unit}"}.get(type(right), "")
    share = Percent(significant(off / right.base * 100, 2))
    by_share = " ({2})" if share.base <= 100 else ""
    return line(f"{{0{spec}}} {{1}}{by_share}", type(right)(off, right.unit), way, share)
