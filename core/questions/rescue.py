"""Rescue of a pot that has too much or too little fragrance in it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer, Missing, Need, line
from core.book import Book
from core.compounds import Basis, Load, Masses
from core.errors import Contradiction, OutOfRange
from core.mixing import FULL, Recipe
from core.question import Question, slot
from core.questions.basis import basis_of
from core.questions.cautions import too_much, too_much_answer
from core.questions.checks import above_zero, few_kinds
from core.questions.load import NEED_LOAD, NEED_WAX
from core.questions.rescue_answer import NEED_IN_POT, mixed, no_load, pot_now, worked
from core.units import Mass, Percent


@dataclass(frozen=True, slots=True, kw_only=True)
class RescueQuestion(Question):
    """Too much or too little fragrance in the pot: what to add to reach the load you want."""

    command: ClassVar[str] = "rescue"

    wax: Masses | None = slot("The wax in the pot, by weight; several add up", example="900 g")
    fragrance: Mass | None = slot("The fragrance oil already in it, by weight", example="90 g")
    load: Load | None = slot("The load you want: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    lost: Mass | None = slot("How much of the mix was poured off or spilled, by weight", example="120 g")
    second_wax: Masses | None = slot("The wax in a second pot that is mixed in, by weight", example="500 g")
    second_fragrance: Mass | None = slot("The fragrance oil in that second pot, by weight", example="20 g")
    strength: Percent | None = slot("How much of a diluted oil is fragrance", example="25%")
    limit: Percent | None = slot("The most the wax's own sheet allows", example="10%")

    def answer(self, book: Book) -> Answer:
        """Worked for a pot of known wax and fragrance and a wanted load, or for two pots mixed; Missing otherwise."""
        self._refuse_the_impossible()
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        needs = self._needs()
        if needs:
            headline = "To rescue a pot I need its wax and the fragrance that is already in it, by weight."
            return Missing(intent=self.intent, headline=line(headline), needs=needs, question=self, see=("bases",))
        pot = pot_now(self)
        if self.load is None:
            return mixed(self, pot, book) if self.second_wax is not None else no_load(self, pot)
        recipe = Recipe(self.load.percent, basis_of(self.load, self.basis, book)[0], strength=self.strength or FULL)
        if not recipe.possible:
            raise Contradiction(
                "strength", "An oil of that strength can't reach that load, however much you add. Use a stronger oil."
            )
        return worked(self, pot, recipe, book)

    def _needs(self) -> tuple[Need, ...]:
        needs: list[Need] = []
        if self.wax is None or not self.wax.total or (self.second_wax is None and self.second_fragrance is not None):
            needs.append(NEED_WAX)
        if self.fragrance is None:
            needs.append(NEED_IN_POT)
        if needs and self.load is None:
            needs.append(NEED_LOAD)
        return tuple(needs)

    def _refuse_the_impossible(self) -> None:
        for masses in (self.wax, self.second_wax):
            few_kinds(len(masses.items) if masses is not None else 0, "weights of wax")
        weights = [self.fragrance, self.lost, self.second_fragrance]
        weights += [mass for masses in (self.wax, self.second_wax) if masses is not None for _, mass in masses.items]
        if any(mass is not None and mass.base < 0 for mass in weights):
            raise OutOfRange("weight", "A weight can't be less than nothing. Check the minus sign.")
        above_zero(load=self.load.percent if self.load is not None else None, strength=self.strength, limit=self.limit)
        if self.strength is not None and self.strength.base > 100:
            raise OutOfRange(str(self.strength.base), "The strength of an oil lies above 0 % and up to 100 %.")

    @property
    def intent(self) -> str:
        """One name for every rescue."""
        return "rescue"
