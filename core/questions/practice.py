"""Practice: a task is set, and an answer to it is checked."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar, Self

import core.exercises as exercises
from core.answer import Answer, Line, Missing, Need, Result, Worked, line
from core.book import Book
from core.compounds import Material
from core.errors import BadInput, WrongKind
from core.exercises import marking
from core.exercises.kinds import Family, Level, Mistake, Solved, Weights, shown
from core.question import Question, slot
from core.questions.example import OUNCES, ExampleQuestion
from core.units import Density, Mass, Money, Number, Percent, Quantity, Volume
from core.writing import Style

EXAMPLES: dict[type[Quantity], str] = {
    Mass: "36 g or 1.27 oz",
    Volume: "40 ml or 1.35 fl oz",
    Percent: "6.5 %",
    Density: "0.93 g/ml",
    Money: "42.50",
    Number: "12",
}
KINDS: dict[type[Quantity], str] = {
    Mass: "a weight",
    Volume: "a volume",
    Percent: "a percent",
    Density: "a density",
    Money: "an amount of money",
    Number: "a number",
}
SAME_UNIT = {"g": ("g", "kg"), "oz": ("oz",)}
IN_WORDS = {"g": "grams", "oz": "ounces"}
ANY_KIND = Mass | Volume | Percent | Density | Money | Number


@dataclass(frozen=True, slots=True, kw_only=True)
class PracticeQuestion(Question):
    """Practise: you get a task, and your answer is checked."""

    command: ClassVar[str] = "practice"
    # Whoever asks without a seed is given one, so that each task is new.
    needs_seed: ClassVar[bool] = True

    family: Family | None = slot("What it is about; any if left out")
    level: Level | None = slot("How hard it shall be")
    weights: Weights | None = slot("Told in grams or in ounces")
    material: Material | None = slot("A wax or a fragrance oil to play in it", example="soy wax")
    seed: int | None = slot("A number that sets the same task again", example="7")
    your_answer: str | None = slot("Your answer, with its unit", example="36 g")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "practice"

    def with_answer(self, text: str) -> Self:
        """The same task with this answer to be checked."""
        return replace(self, your_answer=text)

    @property
    def solution(self) -> ExampleQuestion:
        """The example that shows how this task is worked."""
        return ExampleQuestion(
            family=self.family, level=self.level, weights=self.weights, material=self.material, seed=self.seed
        )

    def answer(self, book: Book) -> Answer:
        """Missing with the task until an answer is given; Worked for a right one; Missing again for a wrong one, with
        what went wrong, a first step or a hint."""
        found = exercises.solved(book, self.family, self.level, self.weights, self.seed, self.material)
        if self.your_answer is None:
            return self._once_more(found, found.exercise.task)
        try:
            given = _read(self.your_answer, type(found.right), book)
        except BadInput as error:
            return self._once_more(found, line("{}", error.sentence), (found.exercise.task,))
        if not isinstance(given, type(found.right)):
            return self._wrong_kind(found, given)
        if found.exercise.converts and given.unit not in SAME_UNIT[found.exercise.unit]:
            words = line("{0:typed}: asked for is the weight in {1}.", given, Line(IN_WORDS[found.exercise.unit]))
            return self._once_more(found, words, (found.exercise.task,))
        if marking.is_right(given, found, book.preferences.step):
            return self._right(found, book)
        mistake = marking.mistake_made(given, found)
        return self._known(found, given, mistake) if mistake is not None else self._unknown(found, given, book)

    def _unit(self, found: Solved) -> str:
        """The weights the task is told in."""
        return self.unit or ("oz" if found.exercise.unit in OUNCES else "g")

    def _once_more(
        self, found: Solved, headline: Line, body: tuple[Line, ...] = (), results: tuple[Result, ...] = ()
    ) -> Missing:
        kind = type(found.right)
        free = kind in (Mass, Volume) and not found.exercise.converts
        how = line("Such as {0}{1}.", EXAMPLES[kind], Line("; any unit will do" if free else ""))
        need = Need("your_answer", line("your answer"), how)
        return Missing(
            intent=self.intent,
            headline=headline,
            needs=(need,),
            body=(*body, *(self._way_out() if body else ())),
            results=results,
            see=(found.exercise.see,) if found.exercise.see else (),
            question=replace(self, your_answer=None, unit=self._unit(found)),
        )

    def _way_out(self) -> tuple[Line, ...]:
        seed = exercises.FIRST_SEED if self.seed is None else self.seed
        return (line("To see it worked out, type “solution”, or ask for the example of the same kind, seed {}.", seed),)

    def _right(self, found: Solved, book: Book) -> Worked:
        answer = found.answer
        return replace(
            answer,
            intent=self.intent,
            headline=line("Right: {}.", shown(found.right, found.exercise.unit)),
            read_as=None,
            body=(line("The task was: {}", found.exercise.task),),
            other=(),
            assumed=(),
            see=(),
            question=replace(self, unit=self._unit(found)),
        )

    def _wrong_kind(self, found: Solved, given: Quantity) -> Missing:
        kind = type(found.right)
        headline = line("{0:typed} is {1}; asked for is {2}.", given, Line(KINDS[type(given)]), Line(KINDS[kind]))
        help_ = (Line("A volume says how much room, not how heavy."),) if isinstance(given, Volume) else ()
        results = (Result("mistake_wrong_kind", given),)
        return self._once_more(found, headline, (*help_, found.exercise.task), results)

    def _known(self, found: Solved, given: Quantity, mistake: Mistake) -> Missing:
        return self._once_more(
            found,
            line("Not yet: {0:typed} comes out when {1}.", given, mistake.when),
            (mistake.instead, line("The task again: {}", found.exercise.task)),
            (Result(f"mistake_{mistake.name}", mistake.gives),),
        )

    def _unknown(self, found: Solved, given: Quantity, book: Book) -> Missing:
        return self._once_more(
            found,
            line("Not yet: {0:typed} is too {1}.", given, Line("much" if given.base > found.right.base else "little")),
            (self._nudge(found, book), line("The task again: {}", found.exercise.task)),
        )

    def hint(self, book: Book) -> Missing:
        """The task again with a nudge."""
        found = exercises.solved(book, self.family, self.level, self.weights, self.seed, self.material)
        return self._once_more(found, self._nudge(found, book), (line("The task again: {}", found.exercise.task),))

    def _nudge(self, found: Solved, book: Book) -> Line:
        """The first step; of a task with only one, which would be its solution, what most people miss there."""
        style = Style(first=book.preferences.first or self._unit(found))
        steps = [step for step in found.answer.steps if not step.idle(style)]
        if len(steps) > 1:
            return line("The first step: {0}: {1} = {2}.", steps[0].formula, steps[0].numbers, steps[0].result)
        return line("A hint: {}", found.exercise.mistakes[0].instead)


def _read(text: str, kind: type[Quantity], book: Book) -> Quantity:
    """The answer as an amount of the wanted kind; one of another kind as what it is."""
    # Reading knows every question, this one too, so it can only be looked up once they all exist.
    from core.reading.values import read_value

    try:
        value = read_value(kind, text, book)
    except WrongKind:
        value = read_value(ANY_KIND, text, book)
    assert isinstance(value, Quantity)
    return value
