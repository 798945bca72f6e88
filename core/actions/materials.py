"""Recording what is known of a material: a measured density, and what the supplier's sheet says."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import Any, ClassVar

from core.actions.recording import Recording, Scene
from core.answer import Answer, Caution, Line, Missing, Need, Result, line, results_by_name
from core.book import Book
from core.compounds import Material, Measure, Stuff, Words
from core.errors import OutOfRange
from core.library import materials
from core.library.materials import Measurement
from core.library.names import prose
from core.library.packing import pack
from core.question import slot
from core.questions.density import NEED_VOLUME, NEED_WEIGHT, DensityQuestion
from core.questions.known_density import HEAVIEST, HEAVIEST_AT_ALL, LIGHTEST, expanded
from core.units import Density, Mass, Percent, Temperature, Volume

NEED_NAME = Need("material", line("what it is called"), line("Such as “soy wax A” or “rose oil”."))
NEED_FACT = Need(
    "fact", line("something the sheet says"), line("Such as max_load: 10 %, flash_point: 93 °C, or notes.")
)
# A temperature outside of these is a slip: nothing in a workshop flashes or is measured there (common practice).
COLDEST, HOTTEST = -50, 400


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordDensity(Recording):
    """Record a density you measured, so that later answers use it."""

    command: ClassVar[str] = "record_density"

    material: Material | None = slot("What it is called", example="soy wax A", required=True)
    density: Density | None = slot("The density, or give weight and volume", example="0.93 g/ml")
    mass: Mass | None = slot("What the sample weighs, without its vessel", example="93.0 g")
    volume: Volume | None = slot("The room the sample takes", example="100 ml")
    at: Temperature | None = slot("How warm the sample was", example="20 °C")
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")
    step: Mass | None = slot("The scale's step: the smallest change it shows", example="0.1 g")
    measure: Measure | None = slot("What the volume was measured with")
    capacity: Volume | None = slot("The most that the measure holds", example="100 ml")
    give_or_take: Density | None = slot("How far it may be off, 19 times in 20", example="0.004 g/ml")
    how: Words | None = slot("How you measured it", example="melted, poured to the mark")
    source: Words | None = slot("Where it comes from, if you didn't measure it", example="supplier's data sheet")

    def lacking(self, book: Book) -> Answer | None:
        """A name, and a density or what it is worked out from."""
        refuse_odd_temperature(self.at)
        if not self.material:
            head = line("What is it called? A density needs the name of its material.")
            return Missing(intent=self.command, headline=head, needs=(NEED_NAME,))
        if self.density is None:
            if self.mass is None and self.volume is None:
                head = line("I need the density of {}, or a weight and a volume of it.", self.material)
                return Missing(intent=self.command, headline=head, needs=(NEED_WEIGHT, NEED_VOLUME))
            answer = self._question().answer(book)
            return answer if isinstance(answer, Missing) else None
        if not 0 < self.density.base <= HEAVIEST_AT_ALL:
            raise OutOfRange(
                str(self.density.base)[:40],
                "Nothing has that density. Waxes and oils lie near 0.8 to 1.2 g/ml: check the number and its unit.",
            )
        if self.give_or_take is not None and not 0 < self.give_or_take.base < self.density.base:
            raise OutOfRange("give_or_take", "What it may be off by lies above nothing and below the density itself.")
        return None

    def _question(self) -> DensityQuestion:
        return DensityQuestion(
            mass=self.mass,
            volume=self.volume,
            step=self.step,
            measure=self.measure,
            capacity=self.capacity,
            at=self.at,
            material=self.material,
            stuff=self.stuff,
        )

    def _measurement(self, book: Book) -> Measurement:
        density, spread = self.density, None
        if density is None:
            results = results_by_name(self._question().answer(book))
            found, uncertainty = results["density"], results.get("uncertainty")
            density, spread = Density(found.base), uncertainty.base if uncertainty is not None else None
        if self.give_or_take is not None:
            spread = self.give_or_take.base / 2  # a coverage factor of 2 (JCGM 100:2008, 6.3.3; clause from memory)
        tool = self.measure.value if self.measure not in (None, Measure.UNKNOWN) else ""
        return Measurement(
            density=density,
            spread=spread,
            mass=self.mass,
            volume=self.volume,
            at=self.at,
            method=", ".join(part for part in (tool, prose(self.how or "")) if part),
            source=prose(self.source or ""),
        )

    def write(self, scene: Scene) -> Answer:
        """Add the measurement; with more than one, say what they come to together."""
        made = self._measurement(scene.book)
        assert self.material
        name = materials.measure(scene.db, scene.space, self.material, made, scene.stamp)
        if self.stuff is not None:
            said = {"kind": self.stuff.value}
            materials.describe(scene.db, scene.space, name, said, scene.stamp, "what it is")
        now = materials.read(scene.db, (scene.space,), scene.user, name)
        assert now is not None
        assert now.density is not None
        body = [line("Now: {0}, {1}.", now.density, now.how)] if now.density != made.density else []
        if made.spread is not None:
            body.insert(0, line("Give or take {} (19 times in 20).", expanded(made.spread)))
        results = [Result("density", made.density)]
        if made.spread is not None:
            results.append(Result("uncertainty", Density(made.spread)))
        answer = self.said(line("Recorded: {0} has a density of {1}.", name, made.density), *body, taken_back())
        return replace(answer, results=tuple(results), cautions=_cautions(made.density))


def _cautions(density: Density) -> tuple[Caution, ...]:
    if LIGHTEST <= density.base <= HEAVIEST:
        return ()
    words = "{} is unusual: waxes and oils lie near 0.8 to 1.2 g/ml. Check it, and take it back if it was a slip."
    return (Caution("odd_density", line(words, density)),)


@dataclass(frozen=True, slots=True, kw_only=True)
class RecordMaterial(Recording):
    """Record what a supplier's sheet says of a wax or a fragrance oil."""

    command: ClassVar[str] = "record_material"

    material: Material | None = slot("What it is called", example="soy wax A", required=True)
    stuff: Stuff | None = slot("Is it wax, fragrance oil or something else?")
    max_load: Percent | None = slot("The most fragrance the sheet allows, in percent of the wax", example="10%")
    flash_point: Temperature | None = slot("The flash point on the sheet", example="93 °C")
    notes: Words | None = slot("Anything else worth keeping", example="sheet of March, lot 12")

    def lacking(self, book: Book) -> Answer | None:
        """A name and at least one fact."""
        refuse_odd_temperature(self.flash_point)
        if self.max_load is not None and not 0 <= self.max_load.base <= 100:
            raise OutOfRange("max_load", "The most that a wax can hold lies between 0 and 100 %.")
        needs = tuple(
            need for need, there in ((NEED_NAME, bool(self.material)), (NEED_FACT, bool(self._said()))) if not there
        )
        if not needs:
            return None
        return Missing(intent=self.command, headline=line("I need a name and what the sheet says."), needs=needs)

    def _said(self) -> dict[str, Any]:
        said = {
            "kind": self.stuff.value if self.stuff is not None else None,
            "max_load": pack(self.max_load),
            "flash_point": pack(self.flash_point),
            "notes": prose(self.notes) if self.notes else None,
        }
        return {key: value for key, value in said.items() if value is not None}

    def write(self, scene: Scene) -> Answer:
        """Keep what was said beside what is known already."""
        assert self.material
        name = materials.describe(scene.db, scene.space, self.material, self._said(), scene.stamp, "from the sheet")
        body = []
        if self.max_load is not None:
            body.append(line("At most {} fragrance, by the sheet.", self.max_load))
        if self.flash_point is not None:
            body.append(line("Flash point {}. Keep well below it, and away from any flame.", self.flash_point))
        return self.said(line("Recorded what the sheet says of {}.", name), *body, taken_back())


def refuse_odd_temperature(at: Temperature | None) -> None:
    """Raise OutOfRange for a temperature that no workshop has."""
    if at is not None and not COLDEST <= at.base <= HOTTEST:
        raise OutOfRange(str(at.base)[:40], "That temperature can't be right. Check the number and °C or °F.")


def taken_back() -> Line:
    """How to take it back."""
    return line("A slip? /undo with its name takes it back.")
