"""Wax, fragrance, total and load: give two of them and get the rest."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Missing, Need, Origin, line
from core.book import Book
from core.compounds import Additives, Basis, Load, Masses, Material, Parts
from core.errors import Contradiction, OutOfRange
from core.mixing import FULL, NO_ADDITIVES, Mix, Recipe
from core.question import Question, slot
from core.questions.basis import basis_of
from core.questions.cautions import too_much, too_much_answer
from core.questions.load_answer import worked
from core.questions.load_restated import Solved
from core.questions.load_volume import by_volume, wants_volume
from core.units import Density, Mass, Percent

NEED_LOAD = Need(
    "load_percent",
    line("the load: how many percent fragrance"),
    line("The wax's own sheet says how much it can hold. Ask again with it, such as “8 %”."),
)
NEED_WAX = Need(
    "weight_of_wax",
    line("the weight of the wax"),
    line("Put it on a scale, in grams or ounces, without the pot (set the scale to zero with the empty pot on it)."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadQuestion(Question):
    """Fragrance, wax, total or load, by weight: give two of them and get the rest."""

    command: ClassVar[str] = "load"

    wax: Masses | None = slot("The wax, by weight; several add up", example="450g")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="8%")
    fragrance: Mass | None = slot("The fragrance oil, by weight", example="36g")
    total: Mass | None = slot("Everything in the pot together, by weight", example="500g")
    basis: Basis | None = slot("What the load is a percent of")
    blend: Parts | None = slot("How the fragrance divides between several oils", example="60/40")
    additives: Additives | None = slot("Dye, UV inhibitor...: percents of the wax", example="dye 0.1%, UV 0.3%")
    strength: Percent | None = slot("How much of a diluted oil is fragrance", example="25%")
    limit: Percent | None = slot("The most the wax's own sheet allows", example="10%")
    material: Material | None = slot("Which wax: a recorded one, for the most its sheet allows", example="soy wax A")
    density: Density | None = slot("The fragrance oil's density, to measure it by volume", example="0.93 g/ml")

    def answer(self, book: Book) -> Answer:
        """Worked for any two of wax, load, fragrance and total; Missing otherwise; Declined at 25 % and more."""
        self._refuse_the_impossible()
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        basis, origin = basis_of(self.load, self.basis, book)
        solved = self._solve(basis, origin)
        if solved is None:
            return self._missing()
        if self.strength is None and too_much(solved.mix.load_of_wax):
            return too_much_answer(solved.mix.load_of_wax)
        if wants_volume(self):
            weighed = worked(replace(self, unit=""), solved, book)
            oil = self.fragrance if self.fragrance is not None else solved.mix.fragrance
            return by_volume(self, weighed, oil, book)
        return worked(self, solved, book)

    @property
    def intent(self) -> str:
        """Which of the four ways round this is."""
        if self.load is None and (self.fragrance is not None or (self.wax is not None and self.total is not None)):
            return "load_from_weights"
        if self.wax is not None:
            return "fragrance_for_wax"
        if self.fragrance is not None:
            return "wax_for_fragrance"
        return "split_total" if self.total is not None else "fragrance_for_wax"

    def _solve(self, basis: Basis, origin: Origin) -> Solved | None:
        """The mix and what was looked for; None where something is missing."""
        wax = self.wax.total if self.wax is not None else None
        if (wax is not None and not wax) or (self.total is not None and not self.total):
            return None
        if self.load is None:
            mix = self._weighed(wax)
            return Solved(mix, None, origin) if mix is not None else None
        recipe = Recipe(self.load.percent, basis, self.additives or NO_ADDITIVES, self.strength or FULL)
        if not recipe.possible:
            raise Contradiction(
                "strength", "An oil of that strength can't reach that load, however much you add. Use a stronger oil."
            )
        if wax is not None:
            return Solved(recipe.of_wax(wax), recipe, origin)
        if self.fragrance:
            return Solved(recipe.of_fragrance(self.fragrance), recipe, origin)
        return Solved(recipe.of_total(self.total), recipe, origin) if self.total is not None else None

    def _weighed(self, wax: Mass | None) -> Mix | None:
        """The mix known from two weights."""
        if wax is not None and self.fragrance is not None:
            return Mix(wax, self.fragrance)
        if self.total is not None and self.fragrance is not None:
            return Mix(self.total - self.fragrance, self.fragrance)
        return Mix(wax, self.total - wax) if self.total is not None and wax is not None else None

    def _missing(self) -> Missing:
        """Which of the figures is lacking; nothing is guessed."""
        needs: tuple[Need, ...]
        if self.wax is not None and not self.wax.total:
            head, needs = "With 0 g of wax there is nothing to take a percent of: I need the wax's weight.", (NEED_WAX,)
        elif self.load is None and (self.wax or self.total or self.fragrance):
            head, needs = "I need the load: how many percent fragrance?", (NEED_LOAD,)
        elif self.load is not None:
            head, needs = "A percent needs a weight: how much wax is it?", (NEED_WAX,)
        else:
            head, needs = "I need two figures: the wax's weight and the load in percent.", (NEED_WAX, NEED_LOAD)
        return Missing(intent=self.intent, headline=line(head), needs=needs, question=self, see=("bases",))

    def _refuse_the_impossible(self) -> None:
        for mass in (self.fragrance, self.total, *(m for _, m in (self.wax.items if self.wax else ()))):
            if mass is not None and mass.base < 0:
                raise OutOfRange(str(mass.base), "A weight can't be less than nothing. Check the minus sign.")
        if self.load is not None and self.load.percent.base <= 0:
            raise OutOfRange(
                str(self.load.percent.base), "A load must be more than 0 %. Which percent did you mean, such as 6 %?"
            )
        if self.strength is not None and not 0 < self.strength.base <= 100:
            raise OutOfRange(str(self.strength.base), "The strength of an oil lies above 0 % and up to 100 %.")
        if self.total is not None and self.fragrance is not None:
            self._refuse_unequal_sums(self.total, self.fragrance)
        if self.wax is not None and self.total is not None and self.wax.total.base > self.total.base:
            raise Contradiction("total", "The wax weighs more than the whole. Which of the two weights is the total?")

    def _refuse_unequal_sums(self, total: Mass, fragrance: Mass) -> None:
        if self.wax is None and fragrance.base >= total.base:
            raise Contradiction("total", "The fragrance weighs as much as the whole. Which weight is the wax's?")
        # Half a percent is more than rounding on a label or a kitchen scale leaves.
        if self.wax is not None and abs((total - fragrance - self.wax.total).base) > total.base / 200:
            raise Contradiction(
                "total",
                "Those weights don't fit together: wax and fragrance should add up to the total. "
                "Weigh again, or leave one of the three out.",
            )
