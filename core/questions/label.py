"""The net weight on a label: wax, fragrance and additives, never the vessel."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import ClassVar

from core.answer import Answer, Line, Missing, Need, line, listed
from core.book import Book
from core.compounds import Additives, Basis, Load, Masses
from core.errors import Contradiction, OutOfRange
from core.mixing import NO_ADDITIVES, Mix, Recipe
from core.question import Question, slot
from core.questions.basis import basis_of
from core.questions.cautions import too_much, too_much_answer
from core.questions.checks import above_zero, few_pieces
from core.questions.label_answer import Net, labelled
from core.questions.label_statement import First
from core.questions.load import NEED_LOAD
from core.questions.rules import Rules
from core.units import Length, Mass

LEAST = Mass.of(1)  # no figure of less can be printed without rounding it to nothing

NEED_WAX = Need(
    "weight_of_wax",
    line("the weight of the wax in one candle"),
    line("Weigh it, or the filled jar less the empty one."),
)
NEED_VESSEL = Need(
    "weight_of_container",
    line("the weight of the empty vessel, with its lid if that was on the scale"),
    line("Weigh an empty one of the same kind."),
)


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelQuestion(Question):
    """The net weight for a label, in ounces and grams, and what the rules ask of it."""

    command: ClassVar[str] = "label"

    wax: Masses | None = slot("The wax in one candle, by weight", example="200g")
    fragrance: Mass | None = slot("The fragrance oil in one candle, by weight", example="20g")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="10%")
    basis: Basis | None = slot("What the load is a percent of")
    additives: Additives | None = slot("Dye, UV inhibitor...: percents of the wax", example="dye 0.1%")
    net: Mass | None = slot("The net weight itself, if you know it", example="8 oz")
    gross: Mass | None = slot("The filled candle with its vessel, by weight", example="540g")
    vessel: Mass | None = slot("The empty vessel, by weight", example="320g")
    count: int | None = slot("How many were on the scale at once, where it was more than one", example="12")
    printed: Mass | None = slot("What is printed on the label already, to be checked", example="8 oz")
    rules: Rules | None = slot("Whose rules")
    first: First | None = slot("Which unit stands first on a US label")
    panel_height: Length | None = slot("How high the front of the label or jar is", example="3.5 in")
    panel_width: Length | None = slot("How wide the front is, where it is flat", example="2 in")
    diameter: Length | None = slot("The diameter, where the jar is round", example="3 in")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "label_weight"

    def answer(self, book: Book) -> Answer:
        """Worked where the net weight is given or follows from the weights; Missing otherwise."""
        self._refuse_the_impossible()
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        found = [net for net in (self._said(), self._weighed(), self._mixed(book)) if net is not None]
        if not found:
            return self._missing()
        for mix in (net.mix for net in found if net.mix is not None):
            if too_much(mix.load_of_wax):
                return too_much_answer(mix.load_of_wax)
        if found[0].mass.base < LEAST.base:
            raise OutOfRange(
                str(found[0].mass.base)[:40], "A net weight below 1 g can't be labelled. Check the numbers."
            )
        least, most = min(net.mass for net in found), max(net.mass for net in found)
        # Half a percent is more than rounding on a label or a kitchen scale leaves.
        if (most - least).base > most.base / 200:
            raise Contradiction(
                "net",
                "Those weights don't fit together: the net weight should be wax, fragrance and additives, without the "
                "vessel. Weigh again, or leave one of them out.",
            )
        return labelled(self, found[0], book)

    def _said(self) -> Net | None:
        return Net(self.net, line("net weight, as given")) if self.net is not None else None

    def _weighed(self) -> Net | None:
        """Filled less empty."""
        if self.gross is None or self.vessel is None:
            return None
        if self.vessel.base >= self.gross.base:
            raise Contradiction("vessel", "The empty vessel weighs as much as the filled one. Which weight is which?")
        inside = self.gross - self.vessel
        numbers = line("{0:typed} filled − {1:typed} empty", self.gross, self.vessel)
        if self.count is None:
            return Net(inside, numbers)
        one = Mass(inside.base / self.count, inside.unit)
        return Net(one, line("({0}) ÷ {1}", numbers, Decimal(self.count)))

    def _mixed(self, book: Book) -> Net | None:
        """Wax, fragrance and additives together."""
        if self.wax is None:
            return None
        wax = self.wax.total
        if self.load is not None:
            basis, origin = basis_of(self.load, self.basis, book)
            recipe = Recipe(self.load.percent, basis, self.additives or NO_ADDITIVES)
            if self.fragrance is None:
                mix = recipe.of_wax(wax)
                return Net(mix.total, self._sum(mix), mix, recipe, origin)
        if self.fragrance is None:
            return None
        extra = tuple((name, wax * percent.fraction) for name, percent in (self.additives or NO_ADDITIVES).named)
        mix = Mix(wax, self.fragrance, extra)
        return Net(mix.total, self._sum(mix), mix)

    def _sum(self, mix: Mix) -> Line:
        parts = [
            line("{0:work} wax", mix.wax),
            line("{0:work} fragrance", mix.fragrance),
            *(line("{0:work} {1}", mass, name) for name, mass in mix.additives),
        ]
        return listed(parts, " + ")

    def _missing(self) -> Missing:
        needs: tuple[Need, ...]
        guide: tuple[Line, ...] = ()
        if self.gross is not None:
            head, needs = "I need the empty vessel's weight: it never counts as net weight.", (NEED_VESSEL,)
        elif self.wax is not None:
            head, needs = "How much fragrance is in it? It counts towards the net weight.", (NEED_LOAD,)
            guide = (line("Without fragrance the wax is all there is: {0}.", self.wax.total),)
        elif self.load is not None or self.fragrance is not None:
            head, needs = "I need the weight of the wax in one candle.", (NEED_WAX,)
        else:
            head, needs = "I need what goes into one candle, by weight: the wax and the load.", (NEED_WAX, NEED_LOAD)
        return Missing(
            intent=self.intent, headline=line(head), needs=needs, guide=guide, see=("net_weight",), question=self
        )

    def _refuse_the_impossible(self) -> None:
        above_zero(net_weight=self.net, filled_weight=self.gross, weight_of_the_vessel=self.vessel)
        above_zero(weight_on_the_label=self.printed)
        if self.count is not None:
            few_pieces(self.count)
        above_zero(height=self.panel_height, width=self.panel_width, diameter=self.diameter)
        if self.wax is not None:
            above_zero(weight_of_the_wax=self.wax.total)
        if self.fragrance is not None and self.fragrance.base < 0:
            raise OutOfRange(str(self.fragrance.base), "A weight can't be less than nothing. Check the minus sign.")
        if self.load is not None and self.load.percent.base < 0:
            raise OutOfRange(str(self.load.percent.base), "A load can't be less than 0 %. Check the minus sign.")
        if self.diameter is not None and self.panel_width is not None:
            raise Contradiction(
                "diameter", "Is the jar round or flat in front? Give the diameter or the width, not both."
            )
