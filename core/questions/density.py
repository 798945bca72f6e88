"""A density from a weight and a volume, and how exact it is."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import ClassVar

from core.answer import Answer, Missing, Need, line
from core.book import Book
from core.compounds import Material, Measure, Stuff
from core.errors import Contradiction, OutOfRange
from core.question import Question, slot
from core.questions.checks import above_zero
from core.questions.density_answer import density_worked
from core.reference.measures import z_factor
from core.units import Density, Mass, Temperature, Volume

NEED_WEIGHT = Need(
    "weight_of_sample",
    line("what the sample weighs"),
    line(
        "Put the empty measure on the scale, set the scale to zero, fill it to a mark and read the weight. "
        "Or weigh it empty and full, and give both."
    ),
)
NEED_VOLUME = Need(
    "volume_of_sample",
    line("how much room the sample takes"),
    line("Read it off a measure with marks, at eye level; 100 ml is a good size. A larger sample is more exact."),
)
# Water is weighed as it comes from the tap; from 15 to 30 °C its room is the same within 0.3 % (ISO 8655-6, Z factors).
ROOM_TEMPERATURE = Decimal(20)
SAMPLE_OF: dict[Stuff | None, str] = {Stuff.WAX: "wax", Stuff.FRAGRANCE: "fragrance", Stuff.DYE: "dye"}
# The lightest and heaviest solids and liquids there are: lithium 0.53, osmium 22.6 g/ml (from memory).
THINNEST, DENSEST = Density.of("0.05"), Density.of(25)


@dataclass(frozen=True, slots=True, kw_only=True)
class DensityQuestion(Question):
    """A density from a weight and a volume, and how exact it is."""

    command: ClassVar[str] = "density"

    mass: Mass | None = slot("What the sample weighs, without its vessel", example="93.0 g")
    full: Mass | None = slot("The vessel with the sample in it, by weight", example="173.0 g")
    empty: Mass | None = slot("The empty vessel, by weight", example="80.0 g")
    volume: Volume | None = slot("The room the sample takes", example="100 ml")
    water: Mass | None = slot("The water that fills the same vessel, by weight, to learn its room", example="240 g")
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

    @property
    def sample(self) -> Mass | None:
        """The weight of the sample alone, given so or as full less empty."""
        if self.mass is not None:
            return self.mass
        return self.full - self.empty if self.full is not None and self.empty is not None else None

    @property
    def room(self) -> Volume | None:
        """The room of the sample, measured or by the water that fills it at room temperature."""
        if self.volume is not None or self.water is None:
            return self.volume
        return Volume(self.water.base * z_factor(ROOM_TEMPERATURE).factor)

    def answer(self, book: Book) -> Answer:
        """Worked from a weight and a volume, with the uncertainty where the measure is known; Missing without both."""
        self._refuse_the_impossible()
        sample, volume = self.sample, self.room
        if sample is None or volume is None:
            return self._missing(sample)
        density = Density.from_ratio(sample, volume)
        if not THINNEST <= density <= DENSEST:
            raise OutOfRange(
                str(density.base)[:40],
                "Weight and volume don't fit together: nothing in a workshop is that light or heavy. "
                "Check both numbers and their units.",
            )
        return density_worked(self, sample, volume, density, book)

    def _missing(self, sample: Mass | None) -> Missing:
        needs = tuple(
            need
            for need, lacking in ((self._need_weight(), sample is None), (self._need_volume(), self.room is None))
            if lacking
        )
        if len(needs) == 2:
            head = line("A density is a weight divided by a volume: I need both, of the same sample.")
        elif sample is not None:
            head = line("{0:typed} of it takes how much room? I need the volume too.", sample)
        elif self.full is not None:
            head = line("I need the empty vessel's weight too, to know what the sample alone weighs.")
        elif self.empty is not None:
            head = line("I need the weight of the filled vessel too, to know what the sample alone weighs.")
        else:
            head = line("{0:typed} of it weighs how much? I need the weight too.", self.room)
        return Missing(intent=self.intent, headline=head, needs=needs, question=self, see=("density",))

    def _need_weight(self) -> Need:
        """The weight that is lacking, by the name of what it is of."""
        if self.full is not None and self.empty is None:
            return replace(NEED_WEIGHT, name="weight_of_container")
        return replace(NEED_WEIGHT, name=f"weight_of_{SAMPLE_OF.get(self.stuff, 'sample')}")

    def _need_volume(self) -> Need:
        return replace(NEED_VOLUME, name=f"volume_of_{SAMPLE_OF.get(self.stuff, 'sample')}")

    def _refuse_the_impossible(self) -> None:
        above_zero(
            weight=self.mass,
            full_weight=self.full,
            volume=self.volume,
            water=self.water,
            scale_step=self.step,
            capacity=self.capacity,
        )
        if self.empty is not None and self.empty.base < 0:
            raise OutOfRange(str(self.empty.base)[:40], "A vessel can't weigh less than nothing. Check the minus sign.")
        if self.full is not None and self.empty is not None:
            self._refuse_unequal_weights(self.full - self.empty)
        if self.capacity is not None and self.volume is not None and self.volume > self.capacity:
            raise Contradiction("capacity", "That is more than the measure holds. Which of the two volumes is right?")

    def _refuse_unequal_weights(self, net: Mass) -> None:
        if net.base <= 0:
            raise Contradiction(
                "full", "The full vessel weighs no more than the empty one. Which of the two weights is the full one's?"
            )
        # Half a percent is more than rounding on a kitchen scale leaves.
        if self.mass is not None and abs((self.mass - net).base) > net.base / 200:
            raise Contradiction(
                "mass", "The sample's weight is not full less empty. Weigh again, or leave one of the three out."
            )
