"""Published bands of densities: what bounds an answer that cannot be worked, always marked as an estimate."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.answer import Line, line, listed
from core.compounds import Material, State, Stuff
from core.mixing import Recipe
from core.reference import densities
from core.reference.densities import Band, Family
from core.reference.table import Status
from core.units import VOLUME_UNITS, Density, Mass, Percent, Temperature, Volume
from core.writing import significant

# Above this a wax is taken to be molten (paraffin melts at 46 to 68 °C, occupational database).
MOLTEN_FROM = Decimal(60)
# How full a jar is filled (common practice, no source).
USUAL_LEVEL = Percent(Decimal(85))
FAMILIES = {Stuff.WAX: Family.WAX, Stuff.FRAGRANCE: Family.FRAGRANCE}


@dataclass(frozen=True, slots=True)
class Guide:
    """Published densities that only bound an answer. `of` says of what."""

    band: Band
    of: Line

    @property
    def low(self) -> Density:
        """The lightest."""
        return Density(self.band.low)

    @property
    def high(self) -> Density:
        """The heaviest."""
        return Density(self.band.high)

    @property
    def source(self) -> Line:
        """Where the ends of the band come from."""
        ends = list(dict.fromkeys(self.band.sources[:2]))
        note = " (from memory)" if self.band.status is Status.MEMORY else ""
        return line("{}" + note, listed(ends, "; "))

    @property
    def sentence(self) -> Line:
        """The band, what it is of and where it comes from."""
        if self.low == self.high:
            return line("Published density: {0} for {1} ({2}).", self.low, self.of, self.source)
        return line("Published densities: {0} to {1} for {2} ({3}).", self.low, self.high, self.of, self.source)


def guide_for(
    stuff: Stuff, material: Material | None, state: State | None, at: Temperature | None = None
) -> Guide | None:
    """The published band for that material, else for its kind; None where nothing is published."""
    molten = state is State.MOLTEN or (state is None and at is not None and at.base >= MOLTEN_FROM)
    loose = state is State.FLAKES
    found = densities.find(material) if material is not None else None
    solid = densities.State.LOOSE if loose else densities.State.MOLTEN if molten else densities.State.SOLID
    if found is not None:
        wanted = solid if found.family is Family.WAX else None
        own = found.band(wanted)
        if own is not None:
            return Guide(own, line(f"{{}}{' (a heap, air included)' if loose else ''}", found.key))
    family = FAMILIES.get(stuff)
    if family is None:
        return None
    band = densities.band(family, solid if family is Family.WAX else densities.State.LIQUID)
    if band is None:
        return None
    words = "loose flakes and powders of waxes" if loose else "molten waxes" if molten else "solid waxes"
    return Guide(
        band,
        line(
            f"{words if family is Family.WAX else 'fragrance materials and essential oils'}, from {{0}} to {{1}}",
            band.lowest,
            band.highest,
        ),
    )


def weight_guide(volume: Volume, guide: Guide | None, recipe: Recipe | None = None) -> tuple[Line, ...]:
    """The band of weights of a volume and its source; with a recipe, of a wax and the fragrance for it."""
    if guide is None:
        return ()
    light, heavy = guide.low.mass_of(volume), guide.high.mass_of(volume)
    if recipe is None:
        return (line(f"Only as a guide, not to weigh out by: {_span('', 0, guide)}.", light, heavy), guide.sentence)
    oils = (recipe.of_wax(each).fragrance for each in (light, heavy))
    words = f"{_span('', 0, guide)} of wax, which would take {_span('', 2, guide)} of fragrance oil"
    return (line(f"Only as a guide, not to weigh out by: {words}.", light, heavy, *oils), guide.sentence)


def vessel_guide(
    room: Volume, material: Material | None, state: State | None, *, to_the_brim: bool = False
) -> tuple[Line, ...]:
    """The band of weights that fill a vessel: of melted wax, as it is poured, unless another state is asked for.
    `to_the_brim` where nobody said how full it shall be: then that of the usual level too."""
    guide = guide_for(Stuff.WAX, material, state or State.MOLTEN)
    if guide is None:
        return ()
    out = list(weight_guide(room, guide))
    if to_the_brim:
        filled = Volume(room.base * USUAL_LEVEL.fraction)
        ends = (guide.low.mass_of(filled), guide.high.mass_of(filled))
        out.insert(1, line(f"Filled to {{2:typed}}, as is usual: {_span('', 0, guide)}.", *ends, USUAL_LEVEL))
    if state in (None, State.MOLTEN):
        out.append(line("That is for melted wax, as it is poured: it sinks as it sets, the weight stays the same."))
    return tuple(out)


def room_guide(mass: Mass, unit: str, guide: Guide | None) -> tuple[Line, ...]:
    """The band of room that a weight takes, in a volume unit (ml where none was asked for), and its source."""
    if guide is None:
        return ()
    unit = unit if unit in VOLUME_UNITS else "ml"
    ends = (Volume.of(significant(density.volume_of(mass).to(unit), 3), unit) for density in (guide.high, guide.low))
    return (line(f"Only as a guide, not to measure by: {_span(':unit', 0, guide)}.", *ends), guide.sentence)


def _span(spec: str, first: int, guide: Guide) -> str:
    """`x to y`, or `about x` where the band is one figure."""
    low, high = f"{{{first}{spec}}}", f"{{{first + 1}{spec}}}"
    return f"about {low}" if guide.low == guide.high else f"{low} to {high}"
