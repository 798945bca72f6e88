"""One amount in another unit, and household measures beside each other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import HouseholdMeasure, Material, OunceKind, State, Stuff, UnitName
from core.question import Question, slot
from core.units import Density, Length, Mass, Temperature, TemperatureDifference, Volume

Convertible = Mass | Volume | Temperature | TemperatureDifference | Length


@dataclass(frozen=True, slots=True, kw_only=True)
class ConvertQuestion(Question):
    """A weight, volume, temperature or length in another unit.

    `unsure` is set by whoever read the words, where a bare "oz" may be a weight or a fluid ounce.
    """

    command: ClassVar[str] = "convert"

    amount: Convertible | None = slot("The amount to convert", example="12 oz", required=True)
    to: UnitName | None = slot("The unit wanted", example="g")
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


@dataclass(frozen=True, slots=True, kw_only=True)
class CompareMeasuresQuestion(Question):
    """A cup, pint, fluid ounce...: what it holds in the US, in Britain and elsewhere."""

    command: ClassVar[str] = "measures"

    measure: HouseholdMeasure | None = slot("Which measure", required=True)

    @property
    def intent(self) -> str:
        """A comparison of volumes."""
        return "convert_volume"
