"""Density, and what reading a volume costs."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Given, Lesson, Origin, Result, line
from core.book import Book
from core.compounds import Basis, Material, Measure, State, Stuff
from core.lessons.topics import Topic
from core.lessons.units import ROOM_TEMPERATURE, Units, density_of, published
from core.mixing import Mix, Recipe
from core.questions.density_answer import exactness
from core.questions.estimates import Guide, guide_for
from core.questions.scale_sums import Readings, half_width, share
from core.reference.measures import MeasureKind, Tolerance, tolerance
from core.units import Density, Mass, Percent, Volume
from core.writing import significant

SAMPLE = Mass(Decimal("93.0"))
CYLINDER = Volume(Decimal(100))
FINE_STEP = Mass(Decimal("0.1"))


def density(book: Book, units: Units) -> Lesson:
    """Weight by room, measured with a scale."""
    oil = Density.from_ratio(SAMPLE, CYLINDER)
    (water, water_from), (light, light_from) = density_of("water"), density_of("d-limonene")
    solid, molten = _paraffin(State.SOLID), _paraffin(State.MOLTEN)
    exact = exactness(SAMPLE, CYLINDER, FINE_STEP, Measure.CYLINDER_B, CYLINDER)
    assert exact is not None
    twice = Density(significant(exact.density * 2, 2))
    room, wanted = units.room("30", "1"), units.mass("40", "1.5")
    weight, needed = oil.mass_of(room), oil.volume_of(wanted)
    beside = " ({4:us_fl_oz})" if units.ounces else ""
    return Lesson(
        intent="concept",
        key=Topic.DENSITY.key,
        headline=line("Density is what 1 ml of something weighs. You measure it with a scale: weight ÷ room."),
        paragraphs=(
            line(
                "Water has {0} at {1}, nearly 1. D-limonene (most of orange oil) has {2}, set paraffin {3} to {4}. "
                "What has less than water is lighter than the same room of water, and mostly floats on it.",
                *(water, units.degrees(ROOM_TEMPERATURE), light, solid.low, solid.high),
            ),
            line(
                "Measure yours: put a dry, empty measure on the scale, press tare, pour in {0:ml} and read the grams. "
                "Say it shows {1:typed}: {1:typed} ÷ {0:ml} = {2}.",
                *(CYLINDER, SAMPLE, oil),
            ),
            line(
                "Now a volume has a weight: {0:typed} × {1} = {2}. And a weight has a volume: {3} ÷ {1} = {4:ml}"
                f"{beside}.",
                *(room, oil, units.both(weight), units.said(wanted), needed),
            ),
            line(
                "How exact is that? In a {0:ml} cylinder of class B, on a scale with {1:typed} steps: {2}, give or "
                "take {3}. The cylinder decides it, not the scale. A beaker or a spoon is far worse.",
                *(CYLINDER, FINE_STEP, oil, twice),
            ),
            line(
                "It holds for one state and warmth: molten paraffin has only {0} to {1}. For melted wax use a "
                "heat-proof measure and gloves; hot wax burns.",
                *(molten.low, molten.high),
            ),
            line("Try it: ask “{0:ml} of my oil weighs {1:typed}, what is its density?”", CYLINDER, SAMPLE),
        ),
        given=(
            *(water_from, light_from),
            *(
                Given(f"density of {state} paraffin, from", guide.low, Origin.PUBLISHED, guide.source)
                for state, guide in ((State.SOLID, solid), (State.MOLTEN, molten))
            ),
            published("tolerance of the cylinder", exact.limit, exact.source),
        ),
        results=(
            Result("density", oil),
            Result("uncertainty", Density(exact.density)),
            Result("water", water),
            Result("mass", weight),
            Result("volume", needed),
        ),
        see=(Topic.READING_MEASURES.key, Topic.WHY_WEIGHT.key),
    )


def _paraffin(state: State) -> Guide:
    guide = guide_for(Stuff.WAX, Material("paraffin"), state)
    assert guide is not None
    return guide


def reading_measures(book: Book, units: Units) -> Lesson:
    """What cylinder, beaker and spoon cost in error."""
    small, spoon = Volume(Decimal(10)), Volume.of(1, "us_tbsp")
    cylinder, finer = _tolerance(MeasureKind.CYLINDER, CYLINDER), _tolerance(MeasureKind.CYLINDER, small)
    beaker, kitchen = _tolerance(MeasureKind.BEAKER, CYLINDER), _tolerance(MeasureKind.KITCHEN, spoon)
    at_full, at_small = (Percent(cylinder.plus_minus / each.base * 100) for each in (CYLINDER, small))
    in_small = Percent(finer.plus_minus / small.base * 100)
    of_beaker = Percent(beaker.plus_minus / CYLINDER.base * 100)
    low, high = (Volume(spoon.base + sign * kitchen.plus_minus) for sign in (-1, 1))
    wax, load = units.mass("400", "16"), Percent(Decimal(6))
    mix = Recipe(load, Basis.WAX).of_wax(wax)
    loads = [Mix(wax, mix.fragrance * (1 + sign * of_beaker.fraction)).load_of_wax for sign in (-1, 1)]
    on_scale = share(half_width(FINE_STEP, Readings.SINGLE), mix.fragrance)
    return Lesson(
        intent="concept",
        key=Topic.READING_MEASURES.key,
        headline=line(
            "Read at eye level, at the bottom of the curve: a cylinder is good to ±{0} when full, a beaker only to "
            "about ±{1}.",
            *(at_full, of_beaker),
        ),
        paragraphs=(
            line(
                "Liquid creeps up the wall, so its top is a curve. Put the measure on a level table, bring your eye "
                "down to it and read the lowest point (ISO 4787 and ASTM E542, from memory)."
            ),
            line(
                "A {0:ml} cylinder of class B may be off by {1:ml} at every mark. Full that is ±{2}; for only {3:ml} "
                "in it, ±{4}. In a {3:ml} cylinder it would be ±{5}: take the smallest that holds it.",
                *(CYLINDER, Volume(cylinder.plus_minus), at_full, small, at_small, in_small),
            ),
            line("The marks on a beaker are only a rough help, about ±{0}. Some are worse.", of_beaker),
            line(
                "A US tablespoon, {0:ml}, may hold {1:ml} to {2:ml}, and more heaped above the rim or left sticking to "
                "it.",
                *(spoon, low, high),
            ),
            line(
                "What that costs: a load of {0} measured with a beaker ends anywhere from {1} to {2}. The same {3} of "
                "oil on a scale with {4:typed} steps is good to ±{5}, and needs no density.",
                *(load, *loads, units.one(mix.fragrance), FINE_STEP, on_scale),
            ),
            line("Try it: ask “{0:typed} in a {1:ml} beaker, what is the density?”", SAMPLE, CYLINDER),
        ),
        given=(
            published("tolerance of the cylinder", Volume(cylinder.plus_minus), cylinder.source, cylinder.status),
            published("tolerance of a beaker", of_beaker, beaker.source, beaker.status),
            published(
                "tolerance of a spoon", Percent((kitchen.share or Decimal(0)) * 100), kitchen.source, kitchen.status
            ),
        ),
        results=(
            Result("cylinder_full", at_full),
            Result("cylinder_small", at_small),
            Result("small_cylinder", in_small),
            Result("beaker", of_beaker),
            Result("spoon_least", low),
            Result("spoon_most", high),
            Result("load_least", loads[0]),
            Result("load_most", loads[1]),
            Result("scale_error", on_scale),
        ),
        see=(Topic.WHY_WEIGHT.key, Topic.SCALES.key),
    )


def _tolerance(kind: MeasureKind, volume: Volume) -> Tolerance:
    found = tolerance(kind, volume.base)
    assert found is not None
    return found
