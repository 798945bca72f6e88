"""How a measured density is explained, with its uncertainty after the GUM (JCGM 100:2008)."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Caution, Given, Line, Origin, Result, Step, Worked, line, listed
from core.book import Book
from core.compounds import Measure, Stuff
from core.questions.household import country_assumed, country_lines
from core.questions.known_density import HEAVIEST, LIGHTEST, expanded, known_density, named, stuff_of
from core.questions.steps import step_behind, to_millilitres
from core.reference.measures import CylinderClass, MeasureKind, tolerance
from core.units import Density, Mass, Percent, Volume
from core.writing import rounded, significant

if TYPE_CHECKING:
    from core.questions.density import DensityQuestion

# A limit of ±a, anything inside as likely: standard uncertainty a ÷ √3 (GUM 4.3.7, clause from memory).
RECTANGLE = Decimal(3).sqrt()
# Two readings (empty and full) of a scale with step d, each ±d/2: d ÷ √6 (the same clause, two of them).
NET_WEIGHING = Decimal(6).sqrt()

KINDS = {
    Measure.CYLINDER_A: (MeasureKind.CYLINDER, CylinderClass.A),
    Measure.CYLINDER_B: (MeasureKind.CYLINDER, CylinderClass.B),
    Measure.BEAKER: (MeasureKind.BEAKER, CylinderClass.B),
    Measure.KITCHEN: (MeasureKind.KITCHEN, CylinderClass.B),
}
# Water weighed in the measure shows what is wrong with it: further off than this is worth a word.
WATER_OFF = Decimal("0.01")


@dataclass(frozen=True, slots=True)
class Exactness:
    """Standard uncertainties: of the weight (g), the volume (ml) and the density (g/ml); where the limit comes from."""

    mass: Decimal
    volume: Decimal
    density: Decimal
    limit: Volume
    capacity: Volume
    source: str

    @property
    def vessel_dominates(self) -> bool:
        """True where the measure adds more than the scale does, each as a share of its own figure."""
        return self.volume > self.mass


def exactness(sample: Mass, volume: Volume, step: Mass, measure: Measure, capacity: Volume | None) -> Exactness | None:
    """(u(ρ)/ρ)² = (u(m)/m)² + (u(V)/V)²; the members are shares. None where no limit is published for the measure."""
    if measure not in KINDS:
        return None
    kind, cls = KINDS[measure]
    size = capacity if capacity is not None and kind is MeasureKind.CYLINDER else volume
    limit = tolerance(kind, size.base, cls)
    if limit is None:
        return None
    of_mass = step.base / NET_WEIGHING / sample.base
    of_volume = limit.plus_minus / RECTANGLE / volume.base
    relative = (of_mass**2 + of_volume**2).sqrt()
    return Exactness(
        of_mass,
        of_volume,
        relative * sample.base / volume.base,
        Volume(limit.plus_minus),
        Volume(limit.capacity),
        limit.source,
    )


def density_worked(ask: DensityQuestion, sample: Mass, volume: Volume, density: Density, book: Book) -> Worked:
    """The density, its uncertainty where the measure is known, and what decides it."""
    stuff = stuff_of(ask.stuff, ask.material, book)
    step = ask.step or step_behind(sample, book)
    exact = exactness(sample, volume, step, ask.measure, ask.capacity) if ask.measure is not None else None
    results = [Result("density", density)]
    if exact is not None:
        results += [
            Result("uncertainty", Density(exact.density)),
            Result("relative", Percent(exact.density / density.base * 100)),
        ]
    headline = line("The density is {0}: that is what 1 ml of it weighs.", density)
    if exact is not None:
        headline = line(
            "The density is {0}, give or take {1}: that is what 1 ml weighs.", density, expanded(exact.density)
        )
    return Worked(
        intent=ask.intent,
        headline=headline,
        read_as=_read_as(ask, sample, volume, stuff),
        given=_givens(ask, exact),
        steps=(*_weight_steps(ask, sample), *to_millilitres(volume), _quotient(sample, volume, density), *_u(exact)),
        results=tuple(results),
        body=(*_how_exact(ask, exact, density, step), *_water(ask, density, book), *_state(ask, stuff)),
        other=country_lines(volume, lambda each: Density.from_ratio(sample, each)),
        assumed=(*country_assumed(volume), *_assumed(ask, exact, step)),
        check=line("Check: {0:work} × {1:work} = {2} g.", volume, density, _grams(sample)),
        cautions=_cautions(density, stuff),
        see=("density", "reading_measures"),
        question=ask,
    )


def _weight_steps(ask: DensityQuestion, sample: Mass) -> tuple[Step, ...]:
    by_water: tuple[Step, ...] = ()
    if ask.volume is None and ask.water is not None and ask.room is not None:
        way = "room = grams of water × ml per gram at 20 °C"
        factor = (ask.room.base / ask.water.base).normalize()
        by_water = (Step(way, line("{0} g × {1}", _grams(ask.water), factor), line("{0:work}", ask.room)),)
    return (*by_water, *_sample_steps(ask, sample))


def _sample_steps(ask: DensityQuestion, sample: Mass) -> tuple[Step, ...]:
    if ask.mass is None and ask.full is not None and ask.empty is not None:
        numbers = line("{0} g − {1} g", _grams(ask.full), _grams(ask.empty))
        return (Step("sample = full − empty", numbers, line("{} g", _grams(sample))),)
    if sample.unit == "g":
        return ()
    return (Step("weight in g", line("{0:typed}", sample), line("{} g", _grams(sample))),)


def _quotient(sample: Mass, volume: Volume, density: Density) -> Step:
    """A density in g/ml is worked in grams, whatever the asker weighs in."""
    return Step("density = weight ÷ room", line("{0} g ÷ {1:work}", _grams(sample), volume), line("{0:work}", density))


def _grams(mass: Mass) -> Decimal:
    return significant(mass.base, 5) if mass.base < 100 else rounded(mass.base, 2)


def _u(exact: Exactness | None) -> tuple[Step, ...]:
    if exact is None:
        return ()
    return (
        Step(
            "uncertainty as a share = √(weight's² + room's²)",
            line("√({0:bare}² + {1:bare}²) %", Percent(exact.mass * 100), Percent(exact.volume * 100)),
            line("{}", Percent((exact.mass**2 + exact.volume**2).sqrt() * 100)),
        ),
    )


def _how_exact(ask: DensityQuestion, exact: Exactness | None, density: Density, step: Mass) -> tuple[Line, ...]:
    if exact is None:
        if ask.measure in KINDS:
            return (line("How exact that is I can't say: no limits are published for a cylinder that large."),)
        return (
            line(
                "How exact that is depends on the measure: tell me which you used "
                "(graduated cylinder, beaker, kitchen measure) and I can say."
            ),
        )
    low, high = (Density(significant(density.base + k * exact.density, 3)) for k in (-2, 2))
    between = line("19 times in 20 the true density lies between {0} and {1}.", low, high)
    if not exact.vessel_dominates:
        return (
            between,
            line("The scale (steps of {0:g}) decides that, not the measure. Weigh a larger sample.", step),
        )
    cylinder = ask.measure in (Measure.CYLINDER_A, Measure.CYLINDER_B)
    better = "Fill it fuller, or take a smaller cylinder." if cylinder else "A graduated cylinder is more exact."
    return (between, line(f"The measure (±{{0:ml}}) decides that, not the scale. {better}", exact.limit))


def _water(ask: DensityQuestion, density: Density, book: Book) -> tuple[Line, ...]:
    """Water tells how right the measure is."""
    if ask.material is None or "water" not in ask.material.casefold():
        return ()
    known = known_density(None, ask.material, book, at=ask.at)
    if known is None or known.origin is not Origin.PUBLISHED:
        return ()
    off = density.base / known.density.base - 1
    if abs(off) <= WATER_OFF:
        return (line("Water has {0} at {1}: your measure and scale agree with it.", known.density, known.at),)
    word = "more" if off > 0 else "less"
    return (
        line(
            f"Water has {{0}} at {{1}}: the measure holds {{2}} {word} than it says, or the scale is off.",
            known.density,
            known.at,
            Percent(abs(off) * 100),
        ),
    )


def _state(ask: DensityQuestion, stuff: Stuff) -> tuple[Line, ...]:
    if stuff is not Stuff.WAX:
        return ()
    return (line("It holds for wax in the state you measured: solid, melted and loose flakes all differ."),)


def _cautions(density: Density, stuff: Stuff) -> tuple[Caution, ...]:
    if stuff is Stuff.WAX and density.base < LIGHTEST:
        words = "{} is too light for solid or melted wax. Flakes with air between them? Then it is the heap's density."
        return (Caution("odd_density", line(words, density)),)
    if stuff in (Stuff.WAX, Stuff.FRAGRANCE) and not LIGHTEST <= density.base <= HEAVIEST:
        words = "{} is unusual for a wax or an oil (0.8 to 1.2 g/ml). Check the weight, the volume and their units."
        return (Caution("odd_density", line(words, density)),)
    return ()


def _givens(ask: DensityQuestion, exact: Exactness | None) -> tuple[Given, ...]:
    slots = ("mass", "full", "empty", "volume", "water", "step", "capacity", "at")
    out = [Given(what, getattr(ask, what)) for what in slots if getattr(ask, what) is not None]
    if exact is not None:
        out.append(Given("measure_tolerance", exact.limit, Origin.PUBLISHED, line("{}", exact.source)))
    return tuple(out)


def _read_as(ask: DensityQuestion, sample: Mass, volume: Volume, stuff: Stuff) -> Line:
    parts = [line("{0:typed} of {1} in {2:typed}", sample, named(stuff, ask.material), volume)]
    if ask.measure is not None and ask.measure is not Measure.UNKNOWN:
        parts.append(line(f"measured in a {ask.measure.value}"))
    if ask.at is not None:
        parts.append(line("at {}", ask.at))
    return line("Read as: {}.", listed(parts))


def _assumed(ask: DensityQuestion, exact: Exactness | None, step: Mass) -> tuple[Line, ...]:
    if exact is None:
        return ()
    out: list[Line] = []
    if ask.step is None:
        out.append(line("You didn't say the scale's step; I took {0:g}.", step))
    if ask.capacity is None and ask.measure in (Measure.CYLINDER_A, Measure.CYLINDER_B):
        out.append(line("You didn't say the cylinder's size; I took one of {0:ml}.", exact.capacity))
    return tuple(out)
