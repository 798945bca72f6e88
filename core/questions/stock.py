"""What the wax and the fragrance at hand give: how many candles, what runs out first, what is left."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_FLOOR
from typing import ClassVar

from core.answer import Answer, Missing, Need, Step, Worked, line
from core.book import Book
from core.compounds import Basis, Load, Masses
from core.errors import OutOfRange
from core.mixing import Mix, Recipe
from core.question import Question, slot
from core.questions.basis import basis_of
from core.questions.cautions import too_much, too_much_answer
from core.questions.checks import above_zero, few_kinds, few_pieces
from core.questions.fills import FillIs
from core.questions.load import NEED_LOAD, NEED_WAX, LoadQuestion
from core.questions.stock_answer import HAIR, Outcome, after_pouring, count_of_oil, plain_count, worked
from core.units import Mass

NEED_FRAGRANCE = Need(
    "weight_of_fragrance",
    line("or the weight of the fragrance oil at hand"),
    line("Put the bottle on the scale, and take off what an empty bottle weighs."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class StockQuestion(Question):
    """How far the wax and fragrance at hand go: which runs out first, and what is left."""

    command: ClassVar[str] = "stock"

    wax: Masses | None = slot("The wax at hand, by weight; several add up", example="2.4 kg")
    fragrance: Mass | None = slot("The fragrance oil at hand, by weight", example="100 g")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    each: Mass | None = slot("What goes into one candle, by weight", example="200 g")
    count: int | None = slot("How many are poured, to see what is left of the wax", example="45")
    oil_each: Mass | None = slot("Instead: the fragrance oil in one candle, by weight", example="12 g")
    fill_is: FillIs | None = slot("Is that wax and fragrance together, or the wax alone?")

    def answer(self, book: Book) -> Answer:
        """Worked from a load and one of the two stocks, or from wax and its weight in each; Missing otherwise."""
        few_kinds(len(self.wax.items) if self.wax else 0, "weights of wax")
        wax = self.wax.total if self.wax is not None else None
        above_zero(weight_of_the_wax=wax, weight_of_the_fragrance_oil=self.fragrance, weight_of_each_one=self.each)
        above_zero(fragrance_in_one=self.oil_each)
        if self.count is not None:
            few_pieces(self.count)
        if self.oil_each is not None and self.fragrance is not None and wax is None and self.each is None:
            return count_of_oil(self, self.fragrance, self.oil_each, _whole(self.fragrance, self.oil_each))
        if self.load is None:
            if self.count is not None and wax is not None and self.each is not None:
                return after_pouring(self, wax, self.each, self.count)
            plain = self.fragrance is None and self.fill_is is not FillIs.FINISHED
            if plain and wax is not None and self.each is not None:
                return plain_count(self, wax, self.each, _whole(wax, self.each))
            return self._missing((NEED_LOAD,), "I need the load: how many percent fragrance?")
        if too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        if self.load.percent.base <= 0:
            raise OutOfRange("load", "A load must be more than 0 %. Which percent did you mean, such as 6 %?")
        if wax is None and self.fragrance is None:
            return self._missing((NEED_WAX, NEED_FRAGRANCE), "A percent needs a weight: what is there to use up?")
        return self._use_up(self.load, wax, book)

    def _missing(self, needs: tuple[Need, ...], headline: str) -> Missing:
        return Missing(intent=self.intent, headline=line(headline), needs=needs, question=self, see=("bases",))

    def _use_up(self, load: Load, wax: Mass | None, book: Book) -> Answer:
        """The most that can be made, in all and in whole candles."""
        recipe = Recipe(load.percent, basis_of(load, self.basis, book)[0])
        mixes = [recipe.of_wax(wax)] if wax is not None else []
        mixes += [recipe.of_fragrance(self.fragrance)] if self.fragrance is not None else []
        most = min(mixes, key=lambda mix: mix.wax.base)
        first_out = ""
        if len(mixes) == 2:
            gap = mixes[0].wax.base - mixes[1].wax.base
            first_out = "both" if abs(gap) <= most.wax.base * HAIR else "wax" if gap < 0 else "fragrance"
        by = Masses.one(wax.in_unit("g")) if wax is not None else None
        sums = [LoadQuestion(wax=by, load=load, basis=self.basis).answer(book)] if by is not None else []
        if self.fragrance is not None:
            sums.append(LoadQuestion(fragrance=self.fragrance.in_unit("g"), load=load, basis=self.basis).answer(book))
        count: int | None = None
        used = most
        each: Mix | None = None
        if self.each is not None:
            alone = self.fill_is is FillIs.WAX
            count = _whole(most.wax if alone else most.total, self.each)
            of = recipe.of_wax if alone else recipe.of_total
            each, used = of(self.each), of(self.each * count)
            if not alone:
                sums.append(LoadQuestion(total=self.each.in_unit("g"), load=load, basis=self.basis).answer(book))
        worked_sums = [each_sum for each_sum in sums if isinstance(each_sum, Worked)]
        if len(worked_sums) < len(sums):
            return next(each_sum for each_sum in sums if not isinstance(each_sum, Worked))
        steps: list[Step] = []
        for each_sum in worked_sums:
            steps += (step for step in each_sum.steps if step not in steps)
        return worked(self, Outcome(most, used, each, count, first_out, tuple(steps), worked_sums[0].assumed), book)

    @property
    def intent(self) -> str:
        """One name for every way round."""
        return "wax_for_fragrance"


def _whole(stock: Mass, each: Mass) -> int:
    """How many whole ones the stock gives."""
    ratio = stock.base / each.base
    return int((ratio + ratio * HAIR).to_integral_value(ROUND_FLOOR))
