"""A blend of waxes or of fragrance oils: what to weigh of each, and the density of the whole."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer, Missing, Need, line
from core.book import Book
from core.compounds import Parts
from core.errors import Contradiction, OutOfRange
from core.question import Question, slot
from core.questions.blend_answer import worked
from core.questions.checks import above_zero, few_kinds
from core.questions.known_density import HEAVIEST_AT_ALL
from core.units import Mass

NEED_PARTS = Need("parts", line("the parts of the blend"), line("Such as “soy 70, coconut 30” or “60/40”."))


@dataclass(frozen=True, slots=True, kw_only=True)
class BlendQuestion(Question):
    """A blend by parts, percents or weights: what to weigh of each, and its density."""

    command: ClassVar[str] = "blend"

    parts: Parts | None = slot("The parts by weight", example="soy 70, coconut 30", required=True)
    total: Mass | None = slot("What the blend shall weigh in all", example="500 g")
    densities: Parts | None = slot(
        "Their densities in g/ml, in the same order, where not recorded", example="0.90, 0.92"
    )

    def answer(self, book: Book) -> Answer:
        """Worked: the weights of a wanted total, else the shares in percent; the density where all are known."""
        if self.parts is None or not self.parts.items:
            return Missing(
                intent=self.intent, headline=line("Which parts are in the blend?"), needs=(NEED_PARTS,), question=self
            )
        few_kinds(len(self.parts.items), "parts")
        above_zero(total=self.total)
        if any(part <= 0 for _, part in self.parts.items):
            raise OutOfRange("parts", "Every part of a blend must be more than 0. Leave out what isn't in it.")
        self._check_densities()
        return worked(self, self.parts, book)

    def _check_densities(self) -> None:
        if self.densities is None or self.parts is None:
            return
        if len(self.densities.items) != len(self.parts.items):
            raise Contradiction(
                "densities",
                f"The blend has {len(self.parts.items)} parts, but {len(self.densities.items)} got a density. "
                "Give one density for each part, in the same order.",
            )
        if any(not 0 < density <= HEAVIEST_AT_ALL for _, density in self.densities.items):
            raise OutOfRange(
                "densities", "Nothing has that density. Give them in g/ml: waxes and oils lie near 0.8 to 1.2."
            )

    @property
    def intent(self) -> str:
        """One name for every blend."""
        return "blend"
