"""Why to weigh, which scale, and how to leave the pot out of it."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Lesson, Line, Result, line
from core.book import Book
from core.lessons.topics import Topic
from core.lessons.units import ROOM_TEMPERATURE, Units, density_of, published
from core.mixing import Mix, Recipe
from core.questions.basis import basis_of
from core.questions.scale_sums import Readings, coarsest, half_width, share, step_on_sale
from core.reference.measures import MeasureKind
from core.reference.measures import tolerance as measure_tolerance
from core.reference.scales import Accuracy, tolerance
from core.units import Mass, Percent, Temperature
from core.writing import rounded

WARM = Temperature(Decimal(60))
USUAL_STEP = Mass(Decimal(1))
USUAL_ERROR = Percent(Decimal(1))


def why_weight(book: Book, units: Units) -> Lesson:
    """Room changes, weight does not."""
    room = units.room("30", "1")
    (light, light_from), (water, water_from), (heavy, heavy_from) = (
        density_of(name) for name in ("d-limonene", "water", "methyl salicylate")
    )
    warm, warm_from = density_of("d-limonene", at=WARM)
    weights = [density.mass_of(room) for density in (light, water, heavy)]
    more = Percent((heavy.base / light.base - 1) * 100)
    less = Percent((1 - warm.base / light.base) * 100)
    spoon = measure_tolerance(MeasureKind.KITCHEN, room.base)
    assert spoon is not None
    assert spoon.share is not None
    of_spoon = Percent(spoon.share * 100)
    oil, wax = units.mass("40", "1.5"), units.mass("500", "16")
    scale = share(half_width(USUAL_STEP, Readings.SINGLE), oil)
    return Lesson(
        intent="concept",
        key=Topic.WHY_WEIGHT.key,
        headline=line(
            "Weigh it: the same spoonful of one oil can weigh {} more than of another.",
            Percent(rounded(more.base, 0)),
        ),
        paragraphs=(
            line(
                "A scale tells how much is there. A spoon or a cup only tells how much room it takes. A fragrance load "
                "is a share of the weight, so room alone can't tell it."
            ),
            line(
                "Take {0:typed} of three liquids at {1}. D-limonene (most of orange oil) weighs {2}, water {3}, methyl "
                "salicylate (wintergreen) {4}.",
                *(room, units.degrees(ROOM_TEMPERATURE), *map(units.both, weights)),
            ),
            line(
                "Warmth changes room too: at {0} the same spoonful of d-limonene weighs {1} less. Weight stays: {2} of "
                "wax is {2} cold, hot or melted.",
                *(units.degrees(WARM), less, units.said(wax)),
            ),
            line(
                "And spoons differ: a kitchen spoon or cup may hold {0} more or less than it says. A kitchen scale "
                "with {1:g} steps is off by half a step at most: for {2} of oil that is ±{3}.",
                *(of_spoon, USUAL_STEP, units.said(oil), scale),
            ),
            line("Try it: ask “what does {0:typed} of water weigh?”", room),
        ),
        given=(
            *(light_from, warm_from, water_from, heavy_from),
            published("tolerance of a kitchen measure", of_spoon, spoon.source, spoon.status),
        ),
        results=(
            Result("d_limonene", weights[0]),
            Result("water", weights[1]),
            Result("methyl_salicylate", weights[2]),
            Result("heavier", more),
            Result("lighter_when_warm", less),
            Result("spoon_error", of_spoon),
            Result("scale_error", scale),
        ),
        see=(Topic.DENSITY.key, Topic.OUNCES.key),
    )


def scales(book: Book, units: Units) -> Lesson:
    """The step of a scale against the smallest weighing."""
    step = Mass(book.preferences.step or USUAL_STEP.base)
    weights = [units.mass("400", "14"), units.mass("40", "1.4"), units.mass("4", "0.14")]
    errors = [share(half_width(step, Readings.SINGLE), weight) for weight in weights]
    oil, dye = units.mass("24", "1"), units.mass("0.5", "0.02")
    for_oil, for_dye = (step_on_sale(coarsest(weight, USUAL_ERROR, Readings.SINGLE)) for weight in (oil, dye))
    fiftieth = 1 / coarsest(Mass(Decimal(1)), USUAL_ERROR, Readings.SINGLE).base
    small, large = Mass(Decimal(500)), Mass(Decimal(2000))
    limits = [tolerance(Accuracy.III, load.base / USUAL_STEP.base) for load in (small, large)]
    allowed = [(Mass(each.divisions * USUAL_STEP.base), each) for each in limits if each is not None]
    return Lesson(
        intent="concept",
        key=Topic.SCALES.key,
        headline=line(
            "Choose a scale by your smallest weighing: its step should be a {0}th of that, for ±{1}.",
            *(fiftieth, USUAL_ERROR),
        ),
        paragraphs=(
            line(
                "The step is the smallest change a scale shows. What it shows is off by up to half a step, so the less "
                "you weigh, the more that matters. With {0:typed} steps: {1} is ±{2}, {3} is ±{4}, {5} is ±{6}.",
                *(step, *(part for pair in zip(map(units.said, weights), errors, strict=True) for part in pair)),
            ),
            line(
                "For ±{0}, {1} of fragrance oil takes steps of {2:typed} or finer; {3} of dye takes {4:typed}.",
                *(USUAL_ERROR, units.said(oil), for_oil, units.said(dye), for_dye),
            ),
            line(
                "It must carry everything that stands on it, the pot too. A scale fine enough for dye mostly can't "
                "carry a full pot, so many makers have two (common practice)."
            ),
            line(
                "Check it now and then. Level on a hard table, at 0, set something of known weight on it (a check "
                "weight, a sealed pack), in the middle and at each corner. It should show the same each time, and 0 "
                "again after (common practice)."
            ),
            line(
                "Shop scales (class III) with {0:typed} steps may be off by {1:typed} up to {2:typed}, then by "
                "{3:typed} up to {4:typed}, once in use. Kitchen scales mostly promise nothing.",
                *(USUAL_STEP, allowed[0][0], small, allowed[1][0], large),
            ),
            line("Try it: ask “is a scale with {0:typed} steps good enough for {1}?”", step, units.said(oil)),
        ),
        given=(published("limit of a class III scale", allowed[0][0], allowed[0][1].source, allowed[0][1].status),),
        results=(
            *(Result(f"error_{i}", error) for i, error in enumerate(errors, 1)),
            Result("step_for_oil", for_oil),
            Result("step_for_dye", for_dye),
            *(Result(f"class_iii_{i}", mass) for i, (mass, _) in enumerate(allowed, 1)),
        ),
        see=(Topic.TARE.key, Topic.READING_MEASURES.key),
    )


def tare(book: Book, units: Units) -> Lesson:
    """The pot never counts."""
    pot, both = units.mass("640", "20"), units.mass("2140", "70")
    wax = both - pot
    load = Percent(Decimal(6))
    basis, _ = basis_of(None, None, book)
    recipe = Recipe(load, basis)
    mix, wrong = recipe.of_wax(wax), recipe.of_wax(both)
    too_much = wrong.fragrance - mix.fragrance
    reached = Mix(wax, wrong.fragrance)
    got = reached.load_of_wax if basis is basis.WAX else reached.load_of_total
    return Lesson(
        intent="concept",
        key=Topic.TARE.key,
        headline=line("Don't count the pot: tare sets the scale to 0 with the empty pot on it."),
        paragraphs=(
            line(
                "Put the empty pot on the scale and press “tare” (or “zero”). It shows 0, and from then on only what "
                "you pour in."
            ),
            line(
                "Is the wax in already? Take off what the empty pot weighs: {0} with wax − {1} empty = {2} of wax.",
                *map(units.said, (both, pot, wax)),
            ),
            line(
                "The usual mistake is to count the pot as wax. At {0} {1} that gives {2} of fragrance oil, where {3} "
                "is right: {4} too much, a load of {5}.",
                load,
                Line(basis.value),
                *map(units.one, (wrong.fragrance, mix.fragrance, too_much)),
                got,
            ),
            line(
                "One after the other: press tare again after the wax and pour oil until it shows {0}. Or leave the "
                "scale alone and pour until it shows both: {1} + {0} = {2}.",
                *map(units.one, (mix.fragrance, wax, mix.total)),
            ),
            line(
                "Weigh small amounts (dye, a test batch) alone in a light cup on a finer scale. Write down what your "
                "pots weigh empty: some scales switch off and forget the tare (common practice)."
            ),
            line(
                "Try it: ask “pot {0} empty, {1} with wax, {2}, how much fragrance?”",
                *(units.said(pot), units.said(both), load),
            ),
        ),
        results=(
            Result("wax", wax),
            Result("fragrance", mix.fragrance),
            Result("total", mix.total),
            Result("fragrance_with_pot_counted", wrong.fragrance),
            Result("too_much", too_much),
            Result("load_with_pot_counted", got),
        ),
        see=(Topic.SCALES.key, Topic.BASES.key),
    )
