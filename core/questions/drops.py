"""Drops: no measure at all, until so many of them have been weighed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Caution, Given, Line, Missing, Need, Result, Step, Worked, line
from core.book import Book
from core.compounds import Basis, Load, Masses, Stuff
from core.question import Question, slot
from core.questions.cautions import too_much, too_much_answer
from core.questions.checks import above_zero
from core.questions.known_density import need_density
from core.questions.load import LoadQuestion
from core.questions.steps import step_behind
from core.units import Density, Mass, Number, Volume
from core.writing import rounded

NEED_DROP = Need(
    "drop_size",
    line("the size of your drops: it changes with the oil, the pipette and how you hold it"),
    line("Count 100 drops into a cup on the scale and give both: the count and what they weigh together."),
)
# Two readings of the scale add d/√6; fewer steps than this leave more than about 4 % in doubt (GUM, k = 2).
STEPS_ENOUGH = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class DropsQuestion(Question):
    """Drops of fragrance oil as a weight, once some drops have been weighed."""

    command: ClassVar[str] = "drops"

    drops: Number | None = slot("How many drops", example="20")
    counted: Number | None = slot("How many drops you weighed to learn their size", example="100")
    weighed: Mass | None = slot("What those counted drops weighed together", example="2.8 g")
    filled: Volume | None = slot("What those counted drops filled, where they were not weighed", example="1 ml")
    room: Volume | None = slot("The room to fill, to learn how many drops that is", example="5 ml")
    density: Density | None = slot("The oil's density, to go from room to weight", example="0.96 g/ml")
    need: Mass | None = slot("The fragrance oil wanted, by weight, to learn how many drops that is", example="6 g")
    wax: Masses | None = slot("The wax they go into, by weight", example="200 g")
    load: Load | None = slot("The load wanted, to learn how many drops that is", example="5%")
    basis: Basis | None = slot("What the load is a percent of")

    @property
    def intent(self) -> str:
        """Weighed drops are weights like any other."""
        if self.counted is not None and self.filled is not None and self.room is not None:
            return "convert_volume"
        if self.counted is None or self.weighed is None:
            return "volume_needs_density"
        if self.wax is None:
            return "density_given_conversion"
        return "load_from_weights" if self.drops is not None else "fragrance_for_wax"

    def answer(self, book: Book) -> Answer:
        """Worked from drops that were counted and weighed; Missing without them."""
        above_zero(
            number_of_drops=self.drops,
            number_of_counted_drops=self.counted,
            weight_of_the_drops=self.weighed,
            weight_wanted=self.need,
        )
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        above_zero(room_of_the_drops=self.filled, room=self.room, density=self.density)
        if self.counted is not None and self.filled is not None:
            if self.room is not None:
                return self._to_fill(self.room, self.counted, self.filled)
            if self.density is not None and self.weighed is None:
                return self._through_density(self.counted, self.filled, self.density, book)
        wanted = self._wanted(book)
        if self.counted is None or self.weighed is None:
            return self._missing(wanted)
        one = Mass(self.weighed.base / self.counted.base)
        if self.drops is None and self.need is not None:
            return self._count_for(self.need, self.counted, self.weighed, one, book)
        if self.drops is not None:
            return self._weight(self.drops, self.counted, self.weighed, one, book)
        if wanted is None:
            return self._nothing_asked(one)
        return self._count(wanted, self.counted, self.weighed, one, book)

    def _to_fill(self, room: Volume, counted: Number, filled: Volume) -> Worked:
        """Room to room: no weight comes into it."""
        drops = Number(counted.base * room.base / filled.base)
        return Worked(
            intent=self.intent,
            headline=line("{0:typed} is about {1} of your drops.", room, rounded(drops.base, 0)),
            read_as=line("Read as: {0:typed}, where {1} drops fill {2:typed}.", room, counted, filled),
            given=(Given("room", room), Given("counted", counted), Given("filled", filled)),
            steps=(
                Step(
                    "drops = counted × room ÷ room of those",
                    line("{0} × {1:work} ÷ {2:work}", counted, room, filled),
                    line("{}", drops),
                ),
            ),
            results=(Result("drops", drops),),
            body=(line("What they weigh is another matter: that takes the oil's density, or a scale."),),
            question=self,
        )

    def _through_density(self, counted: Number, filled: Volume, density: Density, book: Book) -> Answer:
        """The counted drops' weight from their room, and on as if they had been weighed."""
        weighed = density.mass_of(filled)
        answer = replace(self, weighed=weighed, filled=None, density=None).answer(book)
        if not isinstance(answer, Worked):
            return answer
        step = Step(
            "weight of the counted drops = room × density",
            line("{0:work} × {1:work}", filled, density),
            line("{0:work}", weighed),
        )
        return replace(
            answer,
            given=(*answer.given, Given("filled", filled), Given("density", density)),
            steps=(step, *answer.steps),
            question=self,
        )

    def _wanted(self, book: Book) -> Worked | None:
        """The fragrance that wax and load ask for, worked by weight."""
        if self.wax is None or self.load is None:
            return None
        answer = LoadQuestion(wax=self.wax, load=self.load, basis=self.basis).answer(book)
        return answer if isinstance(answer, Worked) else None

    def _calibration(self, counted: Number, weighed: Mass, one: Mass) -> Step:
        return Step("one drop", line("{0:work} ÷ {1}", weighed, counted), line("{0:work}", one))

    def _weight(self, drops: Number, counted: Number, weighed: Mass, one: Mass, book: Book) -> Answer:
        oil = Mass(one.base * drops.base)
        headline = line("{0} drops weigh {1}.", drops, oil)
        steps = (
            self._calibration(counted, weighed, one),
            Step("fragrance = drops × one drop", line("{0} × {1:work}", drops, one), line("{0:work}", oil)),
        )
        given = (Given("drops", drops), Given("counted", counted), Given("weighed", weighed))
        cautions = self._few(weighed, book)
        read_as = line("Read as: {0} drops, where {1} drops weigh {2:typed}.", drops, counted, weighed)
        if self.wax is None:
            return Worked(
                intent=self.intent,
                headline=headline,
                read_as=read_as,
                given=given,
                steps=steps,
                results=(Result("fragrance", oil, self.unit), Result("mass", oil, self.unit)),
                body=(line("One drop weighs {0:work}.", one),),
                check=line("Check: {0:work} ÷ {1:work} = {2} drops.", oil, one, drops),
                cautions=cautions,
                question=self,
            )
        ask = LoadQuestion(wax=self.wax, fragrance=oil, load=self.load, basis=self.basis)
        answer = ask.answer(book)
        if not isinstance(answer, Worked):
            return answer
        return replace(
            answer,
            intent=self.intent,
            read_as=line("{0} Into {1:typed} of wax.", read_as, self.wax.total),
            given=(*given, *(each for each in answer.given if each.what != "fragrance")),
            steps=(*steps, *answer.steps),
            results=(Result("fragrance", oil), *(each for each in answer.results if each.what != "fragrance")),
            body=(headline, *answer.body),
            cautions=(*answer.cautions, *cautions),
            question=self,
        )

    def _count(self, wanted: Worked, counted: Number, weighed: Mass, one: Mass, book: Book) -> Answer:
        (oil,) = (each.value for each in wanted.results if each.what == "fragrance")
        assert isinstance(oil, Mass)
        drops = Number(oil.base / one.base)
        return replace(
            wanted,
            headline=line("{0} of fragrance oil: about {1} of your drops.", oil, rounded(drops.base, 0)),
            given=(*wanted.given, Given("counted", counted), Given("weighed", weighed)),
            steps=(
                *wanted.steps,
                self._calibration(counted, weighed, one),
                Step("drops = fragrance ÷ one drop", line("{0:work} ÷ {1:work}", oil, one), line("{}", drops)),
            ),
            results=(*wanted.results, Result("drops", drops)),
            body=(line("On a scale it is quicker and more exact: weigh the oil instead of counting."), *wanted.body),
            cautions=(*wanted.cautions, *self._few(weighed, book)),
            question=self,
        )

    def _count_for(self, need: Mass, counted: Number, weighed: Mass, one: Mass, book: Book) -> Worked:
        drops = Number(need.base / one.base)
        return Worked(
            intent=self.intent,
            headline=line("{0:typed} is about {1} of your drops.", need, rounded(drops.base, 0)),
            read_as=line("Read as: {0:typed}, where {1} drops weigh {2:typed}.", need, counted, weighed),
            given=(Given("need", need), Given("counted", counted), Given("weighed", weighed)),
            steps=(
                self._calibration(counted, weighed, one),
                Step("drops = weight ÷ one drop", line("{0:work} ÷ {1:work}", need, one), line("{}", drops)),
            ),
            results=(Result("drops", drops),),
            body=(line("On a scale it is quicker and more exact: weigh the oil instead of counting."),),
            cautions=self._few(weighed, book),
            question=self,
        )

    def _few(self, weighed: Mass, book: Book) -> tuple[Caution, ...]:
        """A few drops are too light for the scale to tell their weight."""
        step = step_behind(weighed, book)
        if weighed.base >= STEPS_ENOUGH * step.base:
            return ()
        words = (
            "So few drops are hard to weigh on a scale with {0:g} steps: count enough of them to weigh {1:g} or more."
        )
        return (Caution("few_drops", line(words, step, step * STEPS_ENOUGH)),)

    def _nothing_asked(self, one: Mass) -> Missing:
        return Missing(
            intent=self.intent,
            headline=line("One of your drops weighs {0:work}. How many drops, or how much wax at which load?", one),
            needs=(Need("drops", line("the number of drops; or the wax's weight and the load in percent")),),
            question=self,
        )

    def _missing(self, wanted: Worked | None) -> Missing:
        """A drop has no fixed size; what the wax needs by weight can be said all the same."""
        head: Line = line("Drops are no measure: I can't say what they weigh without weighing some of yours.")
        if wanted is not None:
            (oil,) = (each.value for each in wanted.results if each.what == "fragrance")
            head = line("{0} of fragrance oil; how many drops that is depends on your drops. Weigh it.", oil)
        return Missing(
            intent=self.intent,
            headline=head,
            read_as=line("Read as: {} drops.", self.drops) if self.drops is not None else None,
            given=(Given("drops", self.drops),) if self.drops is not None else (),
            steps=wanted.steps if wanted is not None else (),
            results=wanted.results if wanted is not None else (),
            needs=(NEED_DROP, need_density(Stuff.FRAGRANCE)),
            body=(
                line(
                    "Quickest: put the cup on the scale, set it to zero, and drop the oil in until it shows the grams."
                ),
            ),
            see=("density",),
            question=self,
        )
