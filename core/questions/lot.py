"""Does a poured lot keep what its label says?"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

from core.answer import Answer, Missing, Need, line
from core.book import Book
from core.compounds import Masses
from core.errors import Contradiction, OutOfRange
from core.question import Question, slot
from core.questions.checks import above_zero
from core.questions.lot_answer import averaged, judged
from core.questions.lot_sums import lot_of, verdict
from core.questions.rules import Rules, asked
from core.units import Mass

MOST_WEIGHTS = 1000
# Nobody overfills that much: then the jar was on the scale (common practice, no source).
LOOKS_GROSS = Decimal("1.25")

NEED_LABEL = Need("label_weight", line("the net weight on the label"), line("Such as “226 g” or “8 oz”."))
NEED_WEIGHTS = Need(
    "weights",
    line("the weights of several poured candles"),
    line("Weigh at least five, set hard, and take the empty vessel off (or give its weight)."),
)
NEED_VESSEL = Need(
    "weight_of_container",
    line("the weight of the empty vessel, as it was on the scale"),
    line("Weigh an empty one of the same kind. If the weights are of the candles alone, give 0 g."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LotQuestion(Question):
    """Check poured candles against the net weight on their label."""

    command: ClassVar[str] = "lot"

    label: Mass | None = slot("The net weight on the label", example="226 g")
    weights: Masses | None = slot("What the candles weigh, one after the other", example="230 g, 224 g, 228 g")
    tare: Mass | None = slot("The empty vessel, if it was on the scale too", example="320 g")
    average: bool | None = slot("Say yes for the average alone, without a label")
    rules: Rules | None = slot("Whose rules")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "lot_check"

    def answer(self, book: Book) -> Answer:
        """Worked for a label and at least two weights; Missing otherwise."""
        above_zero(weight_on_the_label=self.label)
        weights = [mass for _, mass in self.weights.items] if self.weights is not None else []
        for mass in weights:
            above_zero(weight_of_a_candle=mass)
        if (self.label is None and not self.average) or len(weights) < 2:
            return self._missing(weights)
        if len(weights) > MOST_WEIGHTS:
            raise OutOfRange(
                str(len(weights)), f"I take up to {MOST_WEIGHTS} weights at a time. Check the lot in parts."
            )
        if self.tare is not None and not 0 <= self.tare.base < min(weights).base:
            raise Contradiction("tare", "One of the weights is no more than the empty vessel. Which weight is which?")
        lot = lot_of(weights, self.tare)
        if self.label is None:
            return averaged(self, lot)
        if self.tare is None and lot.mean > self.label.base * LOOKS_GROSS:
            return self._looks_gross(Mass(lot.mean), self.label)
        found = [(rules, verdict(lot, self.label, rules)) for rules in asked(self.rules)]
        return judged(self, self.label, lot, found)

    def _looks_gross(self, mean: Mass, label: Mass) -> Missing:
        """Judging those weights as they are would pass a lot that may be short."""
        return Missing(
            intent=self.intent,
            headline=line("{0:work} on average is far more than {1:typed}: was the jar on the scale?", mean, label),
            needs=(NEED_VESSEL,),
            see=("tare", "net_weight"),
            question=self,
        )

    def _missing(self, weights: list[Mass]) -> Missing:
        needs = (*((NEED_LABEL,) if self.label is None else ()), *((NEED_WEIGHTS,) if len(weights) < 2 else ()))
        if len(weights) == 1 and self.label is not None:
            head = "One candle is no lot: I need the weights of several."
        elif len(needs) == 2:
            head = "I need the net weight on the label and the weights of the candles."
        elif self.label is None:
            head = "Which net weight does the label say?"
        else:
            head = "I need the weights of several candles of the lot."
        return Missing(intent=self.intent, headline=line(head), needs=needs, see=("net_weight",), question=self)
