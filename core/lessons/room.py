"""Room and weight: the two ounces, the ounces of a jar, flakes with air between them."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Given, Lesson, Origin, Result, line
from core.book import Book
from core.compounds import Basis, State, Stuff
from core.lessons.topics import Topic
from core.lessons.units import ROOM_TEMPERATURE, Units, density_of, published
from core.mixing import Mix, Recipe
from core.questions.estimates import USUAL_LEVEL, guide_for
from core.reference import densities
from core.reference.measures import z_factor
from core.units import Mass, Number, Percent, Volume
from core.writing import rounded

LOAD = Percent(Decimal(8))


def ounces(book: Book, units: Units) -> Lesson:
    """A weight and a room with the same name."""
    ounce, us, british = Mass.of(1, "oz"), Volume.of(1, "us_fl_oz"), Volume.of(1, "imp_fl_oz")
    names = ("d-limonene", "water", "methyl salicylate")
    found = [density_of(name) for name in names]
    weights = [density.mass_of(us) for density, _ in found]
    recipe, wanted = Recipe(LOAD, Basis.WAX), Mass.of(4, "oz")
    mix = recipe.of_fragrance(wanted)
    poured = found[0][0].mass_of(Volume.of(4, "us_fl_oz"))
    reached = Mix(mix.wax, poured).load_of_wax
    return Lesson(
        intent="concept",
        key=Topic.OUNCES.key,
        headline=line("An ounce (oz) is a weight, a fluid ounce (fl oz) is room: they are not the same."),
        paragraphs=(
            line("An ounce is what a scale shows: 1 oz is {0} g, of anything.", rounded(ounce.base, 2)),
            line(
                "A fluid ounce is a mark on a jug: a US one is {0:ml} of room, a British one {1:ml}.",
                *(us, british),
            ),
            line(
                "What 1 US fl oz weighs depends on what is in it. At {0}: d-limonene (most of orange oil) {1:oz}, "
                "water {2:oz}, methyl salicylate (wintergreen) {3:oz}. Not even for water is it 1 oz.",
                *(units.degrees(ROOM_TEMPERATURE), *weights),
            ),
            line(
                "So it goes wrong like this: {0:typed} of oil belong into {1:typed} of wax ({2}). You pour 4 fl oz of "
                "an oil as light as d-limonene: only {3:oz} go in, a load of {4}.",
                *(wanted, mix.wax, LOAD, poured, reached),
            ),
            line(
                "Which is meant? Beside “g” or “lb” an oz is a weight; beside “ml” it is room. Where it could be "
                "either, I ask back. Grams and millilitres don't share a name, so they can't be mixed up like that."
            ),
            line("Try it: ask “4 US fl oz of oil at 0.93 g/ml, how many ounces by weight?”"),
        ),
        given=tuple(given for _, given in found),
        results=(
            Result("ounce", ounce),
            Result("us_fluid_ounce", us),
            Result("imperial_fluid_ounce", british),
            *(
                Result(name.replace("-", "_").replace(" ", "_"), mass)
                for name, mass in zip(names, weights, strict=True)
            ),
            Result("poured", poured),
            Result("load", reached),
        ),
        see=(Topic.DENSITY.key, Topic.JAR_OUNCES.key),
    )


def jar_ounces(book: Book, units: Units) -> Lesson:
    """A jar is sold by its room."""
    printed = Decimal(8)
    room, british = Volume.of(printed, "us_fl_oz"), Volume.of(printed, "imp_fl_oz")
    filled = Volume(room.base * USUAL_LEVEL.fraction)
    guide = guide_for(Stuff.WAX, None, State.MOLTEN)
    assert guide is not None
    light, heavy = guide.low.mass_of(filled), guide.high.mass_of(filled)
    z = z_factor(ROOM_TEMPERATURE.base)
    water = Mass(rounded(filled.base / z.factor, 0))
    from_water = Volume(water.base * z.factor)
    return Lesson(
        intent="concept",
        key=Topic.JAR_OUNCES.key,
        headline=line(
            "An “8 oz jar” has room for 8 fluid ounces. Of wax it takes less: about {0} to {1} oz ({2:g} to {3:g}).",
            *(rounded(light.oz, 1), rounded(heavy.oz, 1), light, heavy),
        ),
        paragraphs=(
            line(
                "Jars are mostly sold by the room in them, to the brim: 8 US fl oz are {0:ml}, 8 British ones {1:ml}. "
                "That says nothing about weight yet.",
                *(room, british),
            ),
            line(
                "Nobody fills to the brim. Filled to {0} (common practice): {2:ml} × {0:bare} ÷ 100 = {1:ml}.",
                *(USUAL_LEVEL, filled, room),
            ),
            line(
                "Wax is lighter than water. Melted, as it is poured, waxes have {0} to {1}, so {2:ml} weigh {3} to "
                "{4}. Only as a guide: your wax may differ. It sinks as it sets; the weight stays the same.",
                *(guide.low, guide.high, filled, units.both(light), units.both(heavy)),
            ),
            line(
                "Better, measure your jar: put it empty on the scale, press tare, fill in water up to where the wax "
                "shall stand. {0:g} of water × {1} = {2:ml} of room. Room × the wax's density is the weight.",
                *(water, z.factor.normalize(), from_water),
            ),
            line("Best: fill one jar with wax on the scale, write down what went in, and plan by that weight."),
            line("Try it: ask “how much wax goes into an 8 oz jar?”"),
        ),
        given=(
            Given("density of melted wax, from", guide.low, Origin.PUBLISHED, guide.source),
            published("ml of room for 1 g of water", Number(z.factor), z.source, z.status),
        ),
        results=(
            Result("room", room),
            Result("imperial_room", british),
            Result("fill_volume", filled),
            Result("wax_least", light),
            Result("wax_most", heavy),
            Result("water", water),
            Result("room_from_water", from_water),
        ),
        see=(Topic.OUNCES.key, Topic.DENSITY.key),
    )


def flakes(book: Book, units: Units) -> Lesson:
    """A heap is part wax, part air."""
    found = [density_of("stearic acid", s) for s in (densities.State.LOOSE, densities.State.SOLID)]
    (loose, loose_from), (solid, solid_from) = found
    molten, molten_from = density_of("stearic acid", densities.State.MOLTEN)
    air = Percent((1 - loose.base / solid.base) * 100)
    cup = Volume.of(1, "us_cup") if units.ounces else Volume.of(250, "ml")
    heap, full = loose.mass_of(cup), solid.mass_of(cup)
    bag = units.mass("500", "16")
    before, after = loose.volume_of(bag), molten.volume_of(bag)
    return Lesson(
        intent="concept",
        key=Topic.FLAKES.key,
        headline=line(
            "A cup of flakes is part wax, part air: {} of the room in a heap can be air.", Percent(rounded(air.base, 0))
        ),
        paragraphs=(
            line(
                "Flakes and pellets touch only here and there. 1 ml of solid stearic acid, say, weighs {0} g; 1 ml of "
                "a heap of it only {1} g. The rest is air.",
                *(solid.base, loose.base),
            ),
            line(
                "So {0:typed} of that heap weighs {1}, and {0:typed} of the solid would weigh {2}.",
                *(cup, units.both(heap), units.both(full)),
            ),
            line("No two cups are the same: shake it and the pieces settle; take larger pieces and more air stays."),
            line(
                "The weight is sure: {0} of flakes gives {0} of melted wax. Only the room shrinks, here from {1:ml} to "
                "{2:ml}. A pot must take the heap, or you add the last part later.",
                *(units.said(bag), before, after),
            ),
            line(
                "“8 oz of wax” in a recipe means on the scale. The 8 oz line of a measuring cup means fluid ounces, "
                "which is room; with flakes that is far too little wax."
            ),
            line("Try it: ask “2 cups of soy flakes at 8 %, how much fragrance?” and see what I ask back."),
        ),
        given=(solid_from, loose_from, molten_from),
        results=(
            Result("air", air),
            Result("heap", heap),
            Result("solid", full),
            Result("heap_volume", before),
            Result("molten_volume", after),
        ),
        see=(Topic.WHY_WEIGHT.key, Topic.DENSITY.key),
    )
