"""Is this scale fine enough for this weighing, and which one would be?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Line, Missing, Need, Origin, line
from core.book import Book
from core.compounds import Basis, Load, Masses
from core.errors import Contradiction, OutOfRange
from core.mixing import Mix, Recipe
from core.question import Question, slot
from core.questions.basis import basis_of
from core.questions.cautions import too_much, too_much_answer
from core.questions.scale_answer import USUAL_ERROR, smallest_weighing, weighings_compared
from core.questions.scale_load import load_reached, scale_to_buy
from core.questions.scale_repeat import weighed_often
from core.questions.scale_sums import Readings, coarsest, step_on_sale
from core.reference.scales import Accuracy
from core.units import Density, Mass, Percent, Volume

MOST_WEIGHINGS = 20
MOST_TIMES = 10_000

NEED_STEP = Need(
    "scale_step",
    line("the scale's step: the smallest change it shows"),
    line("Add something very light until the last figure changes; it may also be printed on the scale as “d”."),
)
NEED_WEIGHING = Need("weight_to_weigh", line("the weight you want to weigh"), line("Such as “0.5 g of dye”."))


@dataclass(frozen=True, slots=True, kw_only=True)
class ScaleQuestion(Question):
    """How exact a weighing is on your scale, and which scale a recipe needs."""

    command: ClassVar[str] = "scale"

    step: Mass | None = slot("The scale's step: the smallest change it shows", example="0.1g")
    weighing: Masses | None = slot("What you weigh on it; several are compared", example="2g, 20g")
    times: int | None = slot("How many times it is weighed, one after the other", example="4")
    error: Percent | None = slot("How far off you accept the weight to be", example="1%")
    wax: Masses | None = slot("For a whole recipe: the wax, by weight", example="400g")
    load: Load | None = slot("For a whole recipe: the fragrance load", example="6%")
    fragrance: Mass | None = slot("For a whole recipe: the fragrance oil, by weight", example="24g")
    basis: Basis | None = slot("What the load is a percent of")
    readings: Readings | None = slot("How you read the scale")
    capacity: Mass | None = slot("The most the scale can take", example="5kg")
    accuracy: Accuracy | None = slot("The accuracy class printed on the scale, if any")
    volume: Volume | None = slot("The same by volume, to compare a beaker, a cylinder and a spoon", example="25ml")
    density: Density | None = slot("The density, to compare with measuring by volume", example="0.95 g/ml")
    buy: bool | None = slot("Say yes to hear which scale to buy")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "scale_resolution"

    def answer(self, book: Book) -> Answer:
        """Worked for a step with a weighing, a recipe or a wanted error, and for a scale to buy; Missing otherwise."""
        self._refuse_the_impossible()
        mix = self._mix(book)
        if isinstance(mix, Answer):
            return mix
        if self.step is None:
            return self._on_own_scale(book) or self._without_step(mix)
        if mix is not None and self.weighing is None:
            return load_reached(self, mix, self.step, book)
        if self.weighing is not None and self.times is not None and len(self.weighing.items) == 1:
            return weighed_often(self, self.weighing.total, self.times, self.step)
        if self.weighing is not None:
            return weighings_compared(self, self.weighing, self.step)
        return smallest_weighing(self, self.step)

    def _on_own_scale(self, book: Book) -> Answer | None:
        """With the step of the asker's settings, where there is one and no scale is to be bought."""
        own = book.preferences.step
        if own is None or self.buy or not (self.weighing or self.wax or self.error):
            return None
        answer = replace(self, step=Mass(own)).answer(book)
        told = line("I took the scale of your settings: {0:typed} steps.", Mass(own))
        given = tuple(replace(each, origin=Origin.RECORDED) if each.what == "step" else each for each in answer.given)
        return replace(answer, assumed=(told, *answer.assumed), given=given)

    def _mix(self, book: Book) -> Mix | Answer | None:
        """The recipe, where wax and a load or the fragrance are given; the refusal of a load that is unsafe."""
        wax = self.wax.total if self.wax is not None else None
        if wax is None or not wax:
            return None
        if self.fragrance is not None:
            mix = Mix(wax, self.fragrance)
        elif self.load is not None:
            if too_much(self.load.percent):
                return too_much_answer(self.load.percent)
            mix = Recipe(self.load.percent, basis_of(self.load, self.basis, book)[0]).of_wax(wax)
        else:
            return None
        return too_much_answer(mix.load_of_wax) if too_much(mix.load_of_wax) else mix

    def _without_step(self, mix: Mix | None) -> Answer:
        """Which scale to buy, where that is the question; else the step is missing."""
        smallest = mix.fragrance if mix is not None else None
        if self.weighing is not None:
            smallest = min(mass for _, mass in self.weighing.items)
        if smallest and (self.error is not None or self.buy):
            return scale_to_buy(self, smallest, mix)
        needs: tuple[Need, ...]
        if smallest:
            head, needs = "I need your scale's step: the smallest change it shows.", (NEED_STEP,)
        else:
            head, needs = "I need two figures: the scale's step and a weight.", (NEED_STEP, NEED_WEIGHING)
        guide: tuple[Line, ...] = ()
        if smallest:
            step = step_on_sale(coarsest(smallest, USUAL_ERROR, self.readings or Readings.SINGLE))
            guide = (line("To weigh {0:typed} to ±1 %, steps of {1:typed} or finer would do.", smallest, step),)
        return Missing(
            intent=self.intent, headline=line(head), needs=needs, guide=guide, see=("scales",), question=self
        )

    def _refuse_the_impossible(self) -> None:
        named = [("step", self.step), ("capacity", self.capacity), ("fragrance", self.fragrance)]
        named += [("weighing", mass) for _, mass in (self.weighing.items if self.weighing else ())]
        named += [("wax", mass) for _, mass in (self.wax.items if self.wax else ())]
        for what, mass in named:
            if mass is not None and mass.base <= 0:
                raise OutOfRange(
                    str(mass.base), f"The {WORDS[what]} must be more than nothing. Give it such as “{EXAMPLES[what]}”."
                )
        if self.weighing is not None and len(self.weighing.items) > MOST_WEIGHINGS:
            raise OutOfRange("weighing", f"I compare up to {MOST_WEIGHINGS} weighings at a time. Leave some out.")
        if self.times is not None and not 1 < self.times <= MOST_TIMES:
            raise OutOfRange("times", f"The number of weighings must lie between 2 and {MOST_TIMES:,}.")
        if self.error is not None and not 0 < self.error.base < 100:
            raise OutOfRange(str(self.error.base), "The error you accept must lie between 0 % and 100 %, such as 1 %.")
        if self.load is not None and self.load.percent.base <= 0:
            raise OutOfRange(str(self.load.percent.base), "A load must be more than 0 %, such as 6 %.")
        for measure in (self.volume, self.density):
            if measure is not None and measure.base <= 0:
                raise OutOfRange(str(measure.base), "A volume or a density must be more than nothing.")
        if self.step is not None and self.capacity is not None and self.step.base >= self.capacity.base:
            raise Contradiction(
                "capacity", "The step is as large as all the scale can take. Which of the two is which?"
            )


WORDS = {
    "step": "scale's step",
    "capacity": "scale's capacity",
    "fragrance": "fragrance",
    "weighing": "weight",
    "wax": "wax",
}
EXAMPLES = {"step": "0.1 g", "capacity": "5 kg", "fragrance": "24 g", "weighing": "2 g", "wax": "400 g"}
