"""A volume and its weight: only a density turns one into the other."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import Basis, Load, Masses, Material, State, Stuff
from core.question import Question, slot
from core.units import Density, Mass, Temperature, Volume


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
