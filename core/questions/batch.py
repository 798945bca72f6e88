"""A batch: what goes into the pot for any mix of vessels, and in which order it is weighed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer
from core.book import Book
from core.compounds import Additives, Basis, Fills, FormulaName, Load, Material, Parts
from core.question import Question, slot
from core.questions.batch_answer import no_density, no_fill, no_load, worked
from core.questions.batch_mix import Split, check_lists, pot_of, split, with_formula
from core.questions.batch_sheets import wax_density
from core.questions.cautions import too_much, too_much_answer
from core.questions.checks import above_zero
from core.questions.fills import UNSAID, lacks_density, poured
from core.questions.fills import FillIs as FillIs
from core.units import Density, Mass, Percent, Volume


@dataclass(frozen=True, slots=True, kw_only=True)
class BatchQuestion(Question):
    """A whole batch: total, wax, fragrance and a list to weigh by, for any mix of vessels."""

    command: ClassVar[str] = "batch"

    fills: Fills | None = slot("The vessels: how many, and what each takes", example="12 x 200g, 6 x 90g")
    fill_is: FillIs | None = slot("Is that weight wax and fragrance together, or the wax alone?")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb (0% for none)", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    spare: Percent | None = slot("How much more to melt for what stays in the pot, in percent", example="5%")
    spare_weight: Mass | None = slot("How much more to melt for what stays in the pot, by weight", example="50 g")
    blend: Parts | None = slot("How the fragrance divides between several oils", example="60/40")
    additives: Additives | None = slot("Dye, UV inhibitor...: percents of the wax", example="dye 0.1%, UV 0.3%")
    waxes: Parts | None = slot("How the wax divides between several waxes", example="soy 70, coconut 30")
    step: Mass | None = slot("The scale's step: the smallest change it shows", example="1 g")
    pot: Volume | None = slot("The room in the pot", example="3 l")
    density: Density | None = slot("The wax's density, for vessels given by volume", example="0.9 g/ml")
    scale_capacity: Mass | None = slot("The most that the scale can carry", example="5 kg")
    formula: FormulaName | None = slot("A formula that the group recorded", example="winter pine")
    version: int | None = slot("Which version of the formula (the newest if left out)", example="2")
    material: Material | None = slot(
        "The wax's name: its recorded density and the most its sheet allows", example="soy wax A"
    )
    oil: Material | None = slot("The fragrance oil's name: what its sheet says, as recorded", example="rose oil")

    def answer(self, book: Book) -> Answer:
        """Worked with its weigh-out; Missing without fills, load or a needed density; Declined at 25 % and more.

        A load of 0 % is an unscented batch.
        """
        ask, formula = with_formula(self, book)
        above_zero(scale_step=ask.step, room_in_the_pot=ask.pot, scale_capacity=ask.scale_capacity)
        check_lists(ask)
        if ask.load is not None and too_much(ask.load.percent):
            return too_much_answer(ask.load.percent)
        if ask.fills is None or not ask.fills.items or any(not fill.count for fill in ask.fills.items):
            return no_fill(ask)
        known = wax_density(ask, book)
        fills = poured(ask.fills, ask.fill_is or UNSAID, known, book)
        if fills is None:
            room = lacks_density(ask.fills, book)
            return no_fill(ask) if room is None else no_density(ask, *room)
        pot = pot_of(ask, fills)
        if ask.load is None:
            return no_load(ask, fills, pot)
        found = split(ask, pot, book)
        return worked(ask, fills, pot, found, formula, known, book) if isinstance(found, Split) else found

    @property
    def intent(self) -> str:
        """One name for every batch."""
        return "batch_for_vessels"
