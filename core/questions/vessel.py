"""How much wax a vessel takes: its room from a water weighing, a printed volume or its measures, then its weight."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import ClassVar

from core.compounds import Basis, Load, Material, State, VesselName
from core.question import Question, slot
from core.units import Density, Length, Mass, Percent, Temperature, Volume


class Shape(StrEnum):
    """The inside of a vessel, as far as its room goes."""

    CYLINDER = "cylinder"
    TAPERED = "tapered round"
    BOX = "box"


@dataclass(frozen=True, slots=True, kw_only=True)
class VesselQuestion(Question):
    """How much wax fills a vessel: from its weight full of water, a printed volume or its measures."""

    command: ClassVar[str] = "vessel"

    water: Mass | None = slot("The water it holds to the fill line, by weight", example="252 g")
    empty: Mass | None = slot("The empty vessel, by weight", example="150 g")
    full: Mass | None = slot("The vessel with water up to the fill line, by weight", example="402 g")
    at: Temperature | None = slot("How warm that water was", example="20 °C")
    room: Volume | None = slot("The room it has: what is printed on it", example="250 ml")
    ounces: Mass | None = slot("The ounces it is sold by, where nobody said which ounces", example="8 oz")
    shape: Shape | None = slot("Its shape inside, to work from measures")
    diameter: Length | None = slot("How wide a straight round vessel is", example="7 cm")
    top_diameter: Length | None = slot("How wide a tapered round vessel is at the top", example="8 cm")
    bottom_diameter: Length | None = slot("How wide a tapered round vessel is at the bottom", example="6 cm")
    height: Length | None = slot("How high it is, or how high the wax shall stand", example="9 cm")
    length: Length | None = slot("How long a box is", example="10 cm")
    width: Length | None = slot("How wide a box is", example="6 cm")
    wall: Length | None = slot("How thick wall and bottom are, if the measures are of the outside", example="3 mm")
    level: Percent | None = slot("How full it shall be: percent of its room", example="85%")
    headspace: Length | None = slot("The free height above the wax", example="1 cm")
    density: Density | None = slot("The wax's density: the weight of one millilitre", example="0.9 g/ml")
    state: State | None = slot("Is that density of set (solid) or of molten wax?")
    material: Material | None = slot("Which wax: a recorded or a published material", example="beeswax")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    count: int | None = slot("How many such vessels", example="12")
    vessel: VesselName | None = slot("A vessel that the group recorded", example="amber jar")

    @property
    def intent(self) -> str:
        """One name for every way to find the room."""
        return "vessel_fill"
