"""One amount in another unit, and household measures beside each other."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Choice, Line, Missing, Need, Option, Worked, line
from core.book import Book
from core.compounds import HouseholdMeasure, Material, OunceKind, State, Stuff, UnitName
from core.errors import UnknownUnit, WrongKind
from core.question import Question, slot
from core.questions.compare_answer import amounts_compared, moved, readings_compared
from core.questions.convert_answer import (
    bounded,
    difference_worked,
    measured_worked,
    temperature_worked,
    usual_unit,
)
from core.questions.measures_answer import compared
from core.questions.volume import VolumeQuestion
from core.units import Density, Length, Mass, Temperature, TemperatureDifference, Volume, kind_of

Convertible = Mass | Volume | Temperature | TemperatureDifference | Length

NEED_AMOUNT = Need("amount", line("the amount to convert, with its unit: such as 12 oz, 30 ml or 185 °F"))
NEED_OUNCE = Need(
    "ounce_kind",
    line("which ounce is meant"),
    line("A scale shows ounces of weight; bottles and jugs are marked in fluid ounces, a measure of room."),
)
NAMES: dict[type, str] = {
    Mass: "a weight",
    Volume: "a volume",
    Length: "a length",
    Temperature: "a temperature",
    TemperatureDifference: "a change of temperature",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class ConvertQuestion(Question):
    """A weight, volume, temperature or length in another unit, or beside another one.

    `unsure` is set by whoever read the words, where a bare "oz" may be a weight or a fluid ounce.
    """

    command: ClassVar[str] = "convert"

    amount: Convertible | None = slot("The amount to convert", example="12 oz", required=True)
    to: UnitName | None = slot("The unit wanted", example="g")
    against: Convertible | None = slot("Another amount of the kind, to be compared with it", example="180 °F")
    change: TemperatureDifference | None = slot("So many degrees above it; with a minus, below", example="25 °F")
    density: Density | None = slot("The density, to go between weight and volume", example="0.93 g/ml")
    material: Material | None = slot("What it is, to go between weight and volume", example="water")
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")
    state: State | None = slot("Is the wax solid, molten, or flakes with air between them?")
    ounce: OunceKind | None = slot("Which ounce is meant: by weight, or fluid?")
    unsure: bool = False

    @property
    def intent(self) -> str:
        """By what is converted."""
        if self.unsure and self.ounce is None:
            return "ambiguous_ounces"
        if isinstance(self.amount, Mass):
            return "convert_mass"
        if isinstance(self.amount, Temperature | TemperatureDifference):
            return "convert_temperature"
        return "convert_length" if isinstance(self.amount, Length) else "convert_volume"

    def answer(self, book: Book) -> Answer:
        """Worked within a kind; between weight and volume through a density; Choice where the ounce is open."""
        if self.amount is None:
            return Missing(
                intent=self.intent,
                headline=line("What shall I convert? Give an amount with its unit."),
                needs=(NEED_AMOUNT,),
                question=self,
            )
        if self.unsure and self.ounce is None:
            return self._which_ounce(self.amount, book)
        return self._settled()._convert(book)

    def _convert(self, book: Book) -> Answer:
        amount = self.amount
        assert amount is not None
        if self.against is not None:
            return self._compare(amount, self.against)
        if self.change is not None:
            return self._moved(amount, self.change)
        to = str(self.to or usual_unit(amount))
        wanted = kind_of(to)
        if wanted is None:
            raise UnknownUnit(to)
        if isinstance(amount, Temperature) and wanted is Temperature:
            return temperature_worked(self, amount, to)
        if isinstance(amount, TemperatureDifference) and wanted in (Temperature, TemperatureDifference):
            return difference_worked(self, amount, to)
        if isinstance(amount, Mass | Volume | Length):
            bounded(amount)
            if wanted is type(amount):
                return measured_worked(self, amount, to)
            if not isinstance(amount, Length) and wanted in (Mass, Volume):
                return self._through_density(amount, to).answer(book)
        raise WrongKind(
            to,
            f"That is {NAMES[type(amount)]}, and the unit you want measures something else. "
            "Which unit of the same kind shall it be?",
        )

    def _compare(self, amount: Convertible, other: Convertible) -> Answer:
        to = str(self.to or "")
        if isinstance(amount, Temperature) and isinstance(other, Temperature):
            return readings_compared(self, amount, other, to if kind_of(to) is Temperature else "")
        to = to if kind_of(to) is type(amount) else ""
        for each in (amount, other):
            if isinstance(each, Mass | Volume | Length):
                bounded(each)
        if isinstance(amount, Mass) and isinstance(other, Mass):
            return amounts_compared(self, amount, other, to)
        if isinstance(amount, Volume) and isinstance(other, Volume):
            return amounts_compared(self, amount, other, to)
        if isinstance(amount, Length) and isinstance(other, Length):
            return amounts_compared(self, amount, other, to)
        raise WrongKind(
            str(other.unit),
            f"I can't compare {NAMES[type(amount)]} with {NAMES[type(other)]}. Give two amounts of one kind.",
        )

    def _moved(self, amount: Convertible, change: TemperatureDifference) -> Answer:
        if not isinstance(amount, Temperature):
            raise WrongKind(
                str(amount.unit), "Degrees can only be added to a temperature. Which reading shall they go on?"
            )
        to = str(self.to or "")
        return moved(self, amount, change, to if kind_of(to) is Temperature else "")

    def _through_density(self, amount: Mass | Volume, to: str) -> VolumeQuestion:
        return VolumeQuestion(
            volume=amount if isinstance(amount, Volume) else None,
            mass=amount if isinstance(amount, Mass) else None,
            density=self.density,
            material=self.material,
            stuff=self.stuff,
            state=self.state,
            unit=to,
        )

    def _settled(self) -> ConvertQuestion:
        """The same question with its ounces turned into the kind that was chosen."""
        amount, to = self.amount, self.to
        if self.ounce is OunceKind.FLUID:
            if isinstance(amount, Mass) and amount.unit == "oz":
                amount = Volume.of(amount.to("oz"), "fl_oz")
            elif to == "oz":
                to = UnitName("fl_oz")
        elif self.ounce is OunceKind.WEIGHT:
            if isinstance(amount, Volume) and amount.unit.endswith("fl_oz"):
                amount = Mass.of(amount.to(amount.unit), "oz")
            elif to is not None and to.endswith("fl_oz"):
                to = UnitName("oz")
        return replace(self, amount=amount, to=to)

    def _which_ounce(self, amount: Convertible, book: Book) -> Choice:
        """Both readings, each with what it would give."""
        options = []
        for kind, label in ((OunceKind.WEIGHT, "Ounces by weight"), (OunceKind.FLUID, "Fluid ounces")):
            chosen = replace(self, ounce=kind, unsure=False)
            options.append(Option(label, _meaning(chosen, book), chosen))
        words = " of fragrance oil" if self.stuff is Stuff.FRAGRANCE else ""
        what = line(f"{{0:typed}}{words}", amount)
        return Choice(
            intent="ambiguous_ounces",
            headline=line("Which ounces are meant: by weight, or fluid ounces? They are not the same."),
            read_as=line("Read as: {0}, wanted in {1}.", what, self.to) if self.to else line("Read as: {}.", what),
            options=tuple(options),
            needs=(NEED_OUNCE,),
            assumed=(
                line(
                    "The fluid ounce here is the US one, {0:ml}; the imperial one holds {1:ml}.",
                    Volume.of(1, "us_fl_oz"),
                    Volume.of(1, "imp_fl_oz"),
                ),
            ),
            see=("ounces",),
        )


def _meaning(chosen: ConvertQuestion, book: Book) -> Line:
    """What one reading would give: its answer, or the amount and what it would still lack."""
    answer = chosen.answer(book)
    amount = chosen._settled().amount
    if isinstance(answer, Worked):
        return answer.headline
    if isinstance(amount, Mass):
        return line("{0}. How much room that takes needs the density.", amount)
    if isinstance(amount, Volume):
        in_ml = "" if amount.unit == "ml" else " ({0:ml})"
        return line("{0:typed} of room" + in_ml + ". What that weighs needs the density.", amount)
    return answer.headline


@dataclass(frozen=True, slots=True, kw_only=True)
class CompareMeasuresQuestion(Question):
    """A cup, pint, fluid ounce...: what it holds in the US, in Britain and elsewhere."""

    command: ClassVar[str] = "measures"

    measure: HouseholdMeasure | None = slot("Which measure", required=True)

    @property
    def intent(self) -> str:
        """A comparison of volumes."""
        return "convert_volume"

    def answer(self, book: Book) -> Answer:
        """Worked: what the measure holds in each country."""
        if self.measure is None:
            return Missing(
                intent=self.intent,
                headline=line("Which measure: fluid ounce, cup, pint, quart, gallon, tablespoon or teaspoon?"),
                needs=(Need("measure", line("the measure to compare")),),
                question=self,
            )
        return compared(self, self.measure)
