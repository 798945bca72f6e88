"""How much wax a vessel takes: its room from a water weighing, a printed volume or its measures, then its weight."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from core.answer import Answer
from core.book import Book
from core.compounds import Basis, Load, Material, State, VesselName
from core.question import Question, slot
from core.questions.cautions import too_much, too_much_answer
from core.questions.checks import above_zero, few_pieces
from core.questions.filled_state import POURED
from core.questions.known_density import known_density
from core.questions.vessel_answer import (
    filling_by_record,
    filling_by_room,
    known_fill,
    no_density,
    no_room,
    room_alone,
    which_ounces,
    worked,
)
from core.questions.vessel_room import recorded_vessel, room_of
from core.questions.vessel_shape import Room, shape_of
from core.questions.vessel_shape import Shape as Shape
from core.units import VOLUME_UNITS, Density, Length, Mass, Percent, Temperature, Volume


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
    free: Volume | None = slot("The room to be left free, by volume", example="20 ml")
    takes: Mass | None = slot("Instead of its room: the wax it takes when full, by weight", example="240 g")
    density: Density | None = slot("The wax's density: the weight of one millilitre", example="0.9 g/ml")
    state: State | None = slot("Is that density of set (solid) or of molten wax?")
    material: Material | None = slot("Which wax: a recorded or a published material", example="beeswax")
    load: Load | None = slot("The fragrance load: a percent, or a rate such as 1 oz per lb", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    count: int | None = slot("How many such vessels", example="12")
    vessel: VesselName | None = slot("A vessel that the group recorded", example="amber jar")

    def answer(self, book: Book) -> Answer:
        """Worked where room and density (or a recorded fill) are known; Choice for bare ounces; Missing otherwise."""
        if self.count is not None:
            few_pieces(self.count)
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        above_zero(weight=self.ounces, wax_it_takes=self.takes, free_room=self.free, fill_level=self.level)
        if self.ounces is not None and self._nothing_else_tells_the_room():
            return which_ounces(self, self.ounces)
        if self.vessel is not None and self._nothing_else_tells_the_room() and self.unit not in VOLUME_UNITS:
            record = recorded_vessel(self.vessel, book)
            if record.fill is not None and self.level is None and self.headspace is None:
                return worked(self, filling_by_record(record, record.fill), book)
        if self.takes is not None and self._nothing_else_tells_the_room():
            return known_fill(self, self.takes, book)
        room = room_of(self, book)
        if not isinstance(room, Room):
            return no_room(self, room)
        if self.unit in VOLUME_UNITS:
            return room_alone(self, room)
        known = known_density(self.density, self.material, book, self.state or POURED)
        if known is None:
            return no_density(self, room, book)
        return worked(self, filling_by_room(self, room, known), book)

    def _nothing_else_tells_the_room(self) -> bool:
        return self.water is None and self.full is None and self.room is None and shape_of(self) is None

    @property
    def intent(self) -> str:
        """One name for every way to find the room."""
        return "vessel_fill"
