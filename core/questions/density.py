"""A density from a weight and a volume, and how exact it is."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.compounds import Material, Measure, Stuff
from core.question import Question, slot
from core.units import Mass, Temperature, Volume


@dataclass(frozen=True, slots=True, kw_only=True)
class DensityQuestion(Question):
    """A density from a weight and a volume, and how exact it is."""

    command: ClassVar[str] = "density"

    mass: Mass | None = slot("What the sample weighs, without its vessel", example="93.0 g")
    full: Mass | None = slot("The vessel with the sample in it, by weight", example="173.0 g")
    empty: Mass | None = slot("The empty vessel, by weight", example="80.0 g")
    volume: Volume | None = slot("The room the sample takes", example="100 ml")
    step: Mass | None = slot("The scale's step: the smallest change it shows", example="0.1 g")
    measure: Measure | None = slot("What the volume was measured with")
    capacity: Volume | None = slot("The most that the measure holds", example="100 ml")
    at: Temperature | None = slot("How warm the sample was", example="20 °C")
    material: Material | None = slot("What the sample is", example="soy wax")
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")

    @property
    def intent(self) -> str:
        """One name for every way to measure it."""
        return "density_from_measurement"
