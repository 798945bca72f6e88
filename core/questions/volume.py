"""A volume and its weight: only a density turns one into the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer, Missing, Need, line
from core.book import Book
from core.compounds import Basis, Load, Masses, Material, State, Stuff
from core.errors import OutOfRange
from core.question import Question, slot
from core.questions.cautions import too_much, too_much_answer
from core.questions.known_density import known_density, stuff_of
from core.questions.load import LoadQuestion
from core.questions.volume_answer import volume_worked, weight_worked
from core.questions.volume_missing import flakes_missing, is_of_the_solid, missing_density
from core.units import Density, Mass, Temperature, Volume

NEED_VOLUME = Need("volume", line("the volume, to learn its weight; or the weight, to learn its volume"))


@dataclass(frozen=True, slots=True, kw_only=True)
class VolumeQuestion(Question):
    """A volume as a weight, or a weight as a volume, through the density."""

    command: ClassVar[str] = "volume"

    volume: Volume | None = slot("The room it takes", example="350 ml")
    mass: Mass | None = slot("Its weight, to learn how much room it takes", example="40 g")
    material: Material | None = slot("Its name: a recorded or a published material", example="paraffin")
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")
    state: State | None = slot("Is the wax solid, molten, or flakes with air between them?")
    density: Density | None = slot("Its density: the weight of one millilitre", example="0.93 g/ml")
    at: Temperature | None = slot("How warm it is", example="60 °C")
    wax: Masses | None = slot("The wax that a fragrance oil goes into, by weight", example="450 g")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")

    @property
    def intent(self) -> str:
        """Worked through a density, whichever way round."""
        return "density_given_conversion"

    def answer(self, book: Book) -> Answer:
        """Worked through a density given, recorded or published; Missing without one, never a bare weight."""
        self._refuse_the_impossible()
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        stuff = self.kind(book)
        if self.volume is None and self.mass is None:
            return self._without_either(book)
        known = known_density(self.density, self.material, book, self.state, self.at)
        if known is None:
            return missing_density(self, stuff, book)
        if self.state is State.FLAKES and is_of_the_solid(known.density):
            return flakes_missing(self, known, book)
        return weight_worked(self, known, stuff, book) if self.volume else volume_worked(self, known, stuff)

    def kind(self, book: Book) -> Stuff:
        """What it is; a fragrance where wax is named beside it, wax where only a load is."""
        stuff = stuff_of(self.stuff, self.material, book)
        if stuff is Stuff.OTHER and self.stuff is None:
            if self.wax is not None:
                return Stuff.FRAGRANCE
            if self.load is not None:
                return Stuff.WAX
        return stuff

    def _without_either(self, book: Book) -> Answer:
        """With wax and a load this is a load question that ends in a volume; else the amount is lacking."""
        if self.wax is not None and self.load is not None:
            unit = self.unit or "ml"
            ask = LoadQuestion(wax=self.wax, load=self.load, basis=self.basis, density=self.density, unit=unit)
            return ask.answer(book)
        return Missing(
            intent="volume_needs_density",
            headline=line("How much of it? Give a volume such as 350 ml, or a weight such as 40 g."),
            needs=(NEED_VOLUME,),
            question=self,
            see=("density",),
        )

    def _refuse_the_impossible(self) -> None:
        for amount in (self.volume, self.mass):
            if amount is not None and amount.base <= 0:
                raise OutOfRange(str(amount.base)[:40], "An amount must be more than nothing. Check the number.")
