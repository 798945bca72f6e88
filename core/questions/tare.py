"""What is in a vessel that was weighed along: the full weight less the empty one."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer, Given, Line, Missing, Need, Result, Step, Worked, line
from core.book import Book
from core.compounds import Stuff
from core.errors import Contradiction
from core.question import Question, slot
from core.questions.checks import above_zero
from core.units import Mass

NEED_EMPTY = Need("weight_of_container", line("the weight of the empty vessel"), line("Weigh it, or one just like it."))
NEED_FULL = Need("weight_with_container", line("the weight of the vessel with its filling"), line("Weigh it as it is."))

NEXT_TIME = line("Next time set the scale to zero with the empty vessel on it (tare): then it is not counted.")


@dataclass(frozen=True, slots=True, kw_only=True)
class TareQuestion(Question):
    """What is in a pot, jar or bottle, from its weight full and empty."""

    command: ClassVar[str] = "tare"

    full: Mass | None = slot("The vessel with what is in it, by weight", example="2140 g")
    empty: Mass | None = slot("The empty vessel, by weight", example="640 g")
    zeroed: bool | None = slot("Say yes if the scale was set to zero with the empty vessel on it")
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")
    removed: Mass | None = slot("Instead of the vessel: what stood on the scale at zero and is off now", example="30 g")
    wanted: Mass | None = slot("What should be in it: I say what is missing", example="80 g")

    @property
    def intent(self) -> str:
        """What people ask it with: do I count the pot?"""
        return "concept"

    def answer(self, book: Book) -> Answer:
        """Worked from both weights; Missing without one. Contradiction where the empty vessel weighs as much."""
        above_zero(full_weight=self.full, empty_weight=self.empty, taken_off=self.removed, wanted=self.wanted)
        if self.zeroed and self.full is not None and self.removed is None:
            return self._zeroed(self.full)
        other = self.empty or self.removed
        if self.full is None or other is None:
            needs = tuple(need for need, mass in ((NEED_FULL, self.full), (NEED_EMPTY, other)) if mass is None)
            return Missing(
                intent=self.intent,
                headline=line("I need both weights: the vessel full, and the vessel empty."),
                needs=needs,
                question=self,
                see=("tare",),
            )
        return self._without(self.full, self.empty) if self.empty is not None else self._with(self.full, other)

    @property
    def _what(self) -> tuple[str, str]:
        """The result's name, and the asker's word for what is in it."""
        if self.stuff is Stuff.WAX:
            return "wax", "wax"
        return ("fragrance", "fragrance oil") if self.stuff is Stuff.FRAGRANCE else ("mass", "what is in it")

    def _without(self, full: Mass, empty: Mass) -> Worked:
        if empty.base >= full.base:
            raise Contradiction("empty", "The empty vessel weighs as much as the full one. Which weight is which?")
        inside = full - empty
        name, what = self._what
        return Worked(
            intent=self.intent,
            headline=line(f"{{}} of {what}: don't count the vessel." if self.stuff else "{} is in it.", inside),
            read_as=line("Read as: {0:typed} full, {1:typed} empty.", full, empty),
            given=(Given("full", full), Given("empty", empty), *self._given_wanted()),
            steps=(
                Step("inside = full − empty", line("{0:work} − {1:work}", full, empty), line("{0:work}", inside)),
                *self._missing_step(inside)[0],
            ),
            results=(Result(name, inside), *self._missing_step(inside)[1]),
            body=(*self._missing_step(inside)[2], NEXT_TIME),
            check=line("Check: {0:work} + {1:work} = {2:work}.", inside, empty, full),
            see=("tare",),
            question=self,
        )

    def _with(self, shown: Mass, removed: Mass) -> Worked:
        """What stood on the scale at zero and is off it now is missing from the reading."""
        inside = shown + removed
        name, what = self._what
        return Worked(
            intent=self.intent,
            headline=line(f"{{}} of {what}." if self.stuff else "{} is in it.", inside),
            read_as=line("Read as: zero with {0:typed} on the scale, then off; it shows {1:typed}.", removed, shown),
            given=(Given("full", shown), Given("removed", removed), *self._given_wanted()),
            steps=(
                Step("inside = shown + taken off", line("{0:work} + {1:work}", shown, removed), line("{}", inside)),
                *self._missing_step(inside)[0],
            ),
            results=(Result(name, inside), *self._missing_step(inside)[1]),
            body=(
                line("With it off, the scale starts {0:work} below zero, so it shows that much too little.", removed),
                *self._missing_step(inside)[2],
            ),
            check=line("Check: {0:work} − {1:work} = {2:work}.", inside, removed, shown),
            see=("tare",),
            question=self,
        )

    def _zeroed(self, shown: Mass) -> Worked:
        """The vessel is off the reading already."""
        name, what = self._what
        words = f"{{}} of {what}: the scale" if self.stuff else "{} is in it: the scale"
        return Worked(
            intent=self.intent,
            headline=line(f"{words} was at zero with the vessel on, so nothing comes off.", shown),
            read_as=line("Read as: set to zero with the vessel on, then {0:typed} shown.", shown),
            given=(Given("full", shown), *self._given_wanted()),
            steps=(Step("inside = shown", line("{0:work}", shown), line("{}", shown)), *self._missing_step(shown)[0]),
            results=(Result(name, shown), *self._missing_step(shown)[1]),
            body=self._missing_step(shown)[2],
            see=("tare",),
            question=self,
        )

    def _given_wanted(self) -> tuple[Given, ...]:
        return (Given("wanted", self.wanted),) if self.wanted is not None else ()

    def _missing_step(self, inside: Mass) -> tuple[tuple[Step, ...], tuple[Result, ...], tuple[Line, ...]]:
        """What is missing of the weight wanted, or too much."""
        if self.wanted is None:
            return (), (), ()
        more, less = max(self.wanted, inside), min(self.wanted, inside)
        gap = more - less
        short = inside.base < self.wanted.base
        word = "missing" if short else "too much"
        if not gap:
            return (), (), (line("That is what you wanted."),)
        step = Step(word, line("{0:work} − {1:work}", more, less), line("{0:work}", gap))
        return (step,), (Result("missing" if short else "excess", gap),), (line(f"{{}} {word}.", gap),)
