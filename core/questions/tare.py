"""What is in a vessel that was weighed along: the full weight less the empty one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer, Given, Missing, Need, Result, Step, Worked, line
from core.book import Book
from core.compounds import Stuff
from core.errors import Contradiction
from core.question import Question, slot
from core.questions.checks import above_zero
from core.units import Mass

NEED_EMPTY = Need("weight_of_container", line("the weight of the empty vessel"), line("Weigh it, or one just like it."))
NEED_FULL = Need("weight_with_container", line("the weight of the vessel with its filling"), line("Weigh it as it is."))


@dataclass(frozen=True, slots=True, kw_only=True)
class TareQuestion(Question):
    """What is in a pot, jar or bottle, from its weight full and empty."""

    command: ClassVar[str] = "tare"

    full: Mass | None = slot("The vessel with what is in it, by weight", example="2140 g")
    empty: Mass | None = slot("The empty vessel, by weight", example="640 g")
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")

    @property
    def intent(self) -> str:
        """What people ask it with: do I count the pot?"""
        return "concept"

    def answer(self, book: Book) -> Answer:
        """Worked from both weights; Missing without one. Contradiction where the empty vessel weighs as much."""
        above_zero(full_weight=self.full, empty_weight=self.empty)
        if self.full is None or self.empty is None:
            needs = tuple(need for need, mass in ((NEED_FULL, self.full), (NEED_EMPTY, self.empty)) if mass is None)
            return Missing(
                intent=self.intent,
                headline=line("I need both weights: the vessel full, and the vessel empty."),
                needs=needs,
                question=self,
                see=("tare",),
            )
        if self.empty.base >= self.full.base:
            raise Contradiction("empty", "The empty vessel weighs as much as the full one. Which weight is which?")
        inside = self.full - self.empty
        name = {Stuff.WAX: "wax", Stuff.FRAGRANCE: "fragrance"}.get(self.stuff or Stuff.OTHER, "mass")
        what = {Stuff.WAX: "wax", Stuff.FRAGRANCE: "fragrance oil"}.get(self.stuff or Stuff.OTHER, "what is in it")
        return Worked(
            intent=self.intent,
            headline=line(f"{{}} of {what}: don't count the vessel." if self.stuff else "{} is in it.", inside),
            read_as=line("Read as: {0:typed} full, {1:typed} empty.", self.full, self.empty),
            given=(Given("full", self.full), Given("empty", self.empty)),
            steps=(
                Step(
                    "inside = full − empty",
                    line("{0:work} − {1:work}", self.full, self.empty),
                    line("{0:work}", inside),
                ),
            ),
            results=(Result(name, inside),),
            body=(line("Next time set the scale to zero with the empty vessel on it (tare): then it is not counted."),),
            check=line("Check: {0:work} + {1:work} = {2:work}.", inside, self.empty, self.full),
            see=("tare",),
            question=self,
        )
