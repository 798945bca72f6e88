"""The same weight of two materials: how much more room does one take?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer, Given, Line, Missing, Result, Step, Worked, line
from core.book import Book
from core.compounds import Material
from core.errors import clipped
from core.question import Question, slot
from core.questions.checks import above_zero
from core.questions.known_density import Known, known_density, need_density, offered_names, stuff_of
from core.questions.steps import to_grams
from core.units import Density, Mass, Number, Percent


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomQuestion(Question):
    """Two materials of the same weight: how much more room does one take?"""

    command: ClassVar[str] = "room"

    mass: Mass | None = slot("The weight, the same of both", example="500 g")
    first: Density | None = slot("The first one's density", example="0.90 g/ml")
    second: Density | None = slot("The second one's density", example="0.96 g/ml")
    first_material: Material | None = slot("The first one's name: recorded or published", example="my soy wax")
    second_material: Material | None = slot("The second one's name: recorded or published", example="water")

    @property
    def intent(self) -> str:
        """Worked through two densities."""
        return "density_given_conversion"

    def answer(self, book: Book) -> Answer:
        """Worked from two densities given, recorded or published; Missing where one is lacking."""
        above_zero(weight=self.mass)
        first = known_density(self.first, self.first_material, book)
        second = known_density(self.second, self.second_material, book)
        if first is None or second is None:
            return self._missing(first, second, book)
        return self._worked(first, second)

    def _names(self) -> tuple[Line, Line]:
        return (
            line("{}", clipped(self.first_material)) if self.first_material else line("the first"),
            line("{}", clipped(self.second_material)) if self.second_material else line("the second"),
        )

    def _missing(self, first: Known | None, second: Known | None, book: Book) -> Missing:
        lacking = [
            material
            for known, material in ((first, self.first_material), (second, self.second_material))
            if known is None
        ]
        return Missing(
            intent="weight_to_volume_needs_density",
            headline=line("To compare the room they take I need both densities (what 1 ml of each weighs)."),
            needs=tuple(need_density(stuff_of(None, material, book), material) for material in lacking),
            body=tuple(sentence for material in lacking for sentence in offered_names(material, book)),
            question=self,
            see=("density",),
        )

    def _worked(self, first: Known, second: Known) -> Worked:
        one, two = self._names()
        ratio = first.density.base / second.density.base
        difference = Percent(abs(ratio - 1) * 100)
        if ratio == 1:
            headline = line("The same weight of {0} and of {1} takes the same room.", two, one)
        else:
            word = "more" if ratio > 1 else "less"
            headline = line(f"The same weight of {{0}} takes {{1}} {word} room than {{2}}.", two, difference, one)
        steps: list[Step] = []
        results = [Result("ratio", Number(ratio))]
        check: Line | None = None
        if self.mass is not None:
            steps += to_grams("weight", self.mass)
            for number, known in enumerate((first, second), 1):
                volume = known.density.volume_of(self.mass)
                numbers = line("{0:work} ÷ {1:work}", self.mass, known.density)
                steps.append(
                    Step(f"room of the {'first' if number == 1 else 'second'}", numbers, line("{0:work}", volume))
                )
                results.append(Result(f"volume_{number}", volume))
            check = line(
                "Check: {0:work} × {1} = {2:work}.",
                first.density.volume_of(self.mass),
                Number(ratio),
                second.density.volume_of(self.mass),
            )
        steps.append(
            Step(
                "how many times the room",
                line("{0:work} ÷ {1:work}", first.density, second.density),
                line("{}", Number(ratio)),
            )
        )
        return Worked(
            intent=self.intent,
            headline=headline,
            read_as=line(
                "Read as: the same weight of {0} ({1:typed}) and {2} ({3:typed}).",
                one,
                first.density,
                two,
                second.density,
            ),
            given=(
                *((Given("mass", self.mass),) if self.mass is not None else ()),
                Given("first_density", first.density, first.origin, first.source),
                Given("second_density", second.density, second.origin, second.source),
            ),
            steps=tuple(steps),
            results=tuple(results),
            body=(line("By weight nothing changes: 100 g is 100 g of either."),),
            assumed=(*first.notes, *second.notes),
            check=check,
            see=("density",),
            question=self,
        )
