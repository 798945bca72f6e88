"""Exercises about volume and density."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, line
from core.compounds import Material, Stuff
from core.exercises.kinds import Exercise, Level, Mistake, mistake
from core.exercises.scene import Scene
from core.questions.density import DensityQuestion
from core.questions.volume import VolumeQuestion
from core.units import Density, Mass, Volume
from core.writing import rounded, significant

NOT_A_WEIGHT = "A volume says how much room, not how heavy: multiply it with the density."


def sensible_density(scene: Scene) -> Density:
    """A sensible density of an oil, away from 1 and from what makes a fluid ounce weigh an ounce (0.96)."""
    if scene.level is Level.EASY:
        return Density(scene.draw.pick([Decimal("0.85"), Decimal("0.9"), Decimal("1.05"), Decimal("1.1")]))
    return Density(
        scene.draw.pick([scene.draw.number("0.86", "0.93", "0.01"), scene.draw.number("1.03", "1.09", "0.01")])
    )


def volume(scene: Scene) -> Exercise:
    """The weight of a volume; the hard one asks for the volume of a weight."""
    recorded = scene.density
    density = recorded or sensible_density(scene)
    material = scene.oil if recorded is not None else None
    given = None if recorded is not None else density
    told = line("{0}, with a density of {1:typed},", scene.spoken(), density)
    if scene.level is Level.HARD:
        return _room(scene, density, given, material, told)
    room = (
        Volume.of(scene.draw.number(2, 16), "us_fl_oz")
        if scene.ounces
        else Volume.of(scene.draw.number(20, 250, 10 if scene.level is Level.EASY else 5), "ml")
    )
    mass = Mass.of(room.to(room.unit), scene.unit)
    early = Density(rounded(density.base, 1))
    return Exercise(
        task=line("What do {0:typed} of {1} weigh?", room, told),
        question=VolumeQuestion(volume=room, density=given, material=material, stuff=Stuff.FRAGRANCE, unit=scene.unit),
        wanted="mass",
        unit=scene.unit,
        mistakes=(
            volume_as_weight(room, mass),
            mistake(
                "divided",
                Mass(room.base / density.base),
                line("{0:ml} ÷ {1:work}", room, density),
                "the volume is divided by the density",
                "Weight = room × density: 1 ml weighs the density, so many millilitres weigh that many times.",
            ),
            mistake(
                "rounded_too_early",
                early.mass_of(room),
                line("{0:ml} × {1:work}", room, early),
                "the density is rounded before multiplying",
                "Keep all its digits in the sum and round only the result.",
            ),
        ),
        see="density",
    )


def volume_as_weight(room: Volume, mass: Mass) -> Mistake:
    """The mistake of reading a volume as that weight."""
    words = "1 US fl oz is taken to weigh 1 oz" if room.unit == "us_fl_oz" else "1 ml is taken to weigh 1 g"
    return mistake("volume_as_weight", mass, line("{0:typed}", room), words, NOT_A_WEIGHT)


def _room(scene: Scene, density: Density, given: Density | None, material: Material | None, told: Line) -> Exercise:
    weight = scene.mass((20, 120, 2), ("1", "6", "0.5"))
    unit = "us_fl_oz" if scene.ounces else "ml"
    same = Volume.of(weight.to(weight.unit), unit)
    multiplied = Volume(weight.base * density.base)
    return Exercise(
        task=line(
            f"{{0:typed}} of {{1}} are to be measured, not weighed. How many {'US fl oz' if scene.ounces else 'ml'} is "
            "that?",
            weight,
            told,
        ),
        question=VolumeQuestion(mass=weight, density=given, material=material, stuff=Stuff.FRAGRANCE, unit=unit),
        wanted="volume",
        unit=unit,
        mistakes=(
            mistake(
                "weight_as_volume",
                same,
                line("{0:typed}", weight),
                "1 oz is taken to fill 1 US fl oz" if scene.ounces else "1 g is taken to fill 1 ml",
                "A weight says how heavy, not how much room: divide it by the density.",
            ),
            mistake(
                "multiplied",
                multiplied,
                line("{0} g × {1:work}", significant(weight.base, 5), density),
                "the weight is multiplied with the density",
                "Room = weight ÷ density: what is denser takes less room.",
            ),
        ),
        see="density",
    )


def density(scene: Scene) -> Exercise:
    """A density from a weighing; the harder ones are weighed with the vessel, and in another size of measure."""
    true = sensible_density(scene)
    hard = scene.level is Level.HARD
    room = (
        Volume.of(scene.draw.number(2, 8), "us_fl_oz")
        if scene.ounces
        else Volume.of(scene.draw.pick([50, 60, 80, 25] if hard else [100, 50]), "ml")
    )
    places = 2 if scene.ounces else 1
    net = Mass.of(rounded(true.mass_of(room).to(scene.unit), places), scene.unit)
    empty = scene.mass((60, 180, 5), ("2", "6", "0.5"))
    full = net + empty
    found = Density.from_ratio(net, room)
    weighed = scene.level is not Level.EASY
    story = line("{0:typed} of {1} weigh {2:typed}", room, scene.spoken(), net)
    if weighed:
        story = line(
            "An empty measure weighs {0:typed}; with {1:typed} of {2} in it, {3:typed}",
            empty,
            room,
            scene.spoken(),
            full,
        )
    upside_down = mistake(
        "upside_down",
        Density(room.base / net.base),
        line("{0:work} ÷ {1} g", room, significant(net.base, 5)),
        "the volume is divided by the weight",
        "Density is what 1 ml weighs: weight ÷ volume.",
    )
    mistakes = [upside_down]
    if weighed:
        words = "Only what is in it counts: full less empty."
        mistakes = [
            mistake(
                "tare_forgotten",
                Density.from_ratio(full, room),
                line("{0} g ÷ {1:work}", significant(full.base, 5), room),
                "the empty measure is not taken off",
                words,
            ),
            upside_down,
        ]
    if scene.ounces:
        plain = Density(net.oz / room.to("us_fl_oz"))
        words = "1 oz is 28.35 g and 1 US fl oz is 29.57 ml: bring both to grams and millilitres first."
        mistakes.insert(
            0 if not weighed else 1,
            mistake(
                "ounces_by_fluid_ounces",
                plain,
                line("{0:oz} ÷ {1:us_fl_oz}", net, room),
                "ounces are divided by fluid ounces",
                words,
            ),
        )
    mistakes.append(
        mistake(
            "rounded_too_early",
            Density(rounded(found.base, 1)),
            line("one digit after the point"),
            "it is rounded to one digit",
            "Keep two digits or more after the point: 0.1 g/ml is 10 % of the weight.",
        )
    )
    return Exercise(
        task=line("{}. Which density is that, in g/ml?", story),
        question=DensityQuestion(
            mass=None if weighed else net,
            full=full if weighed else None,
            empty=empty if weighed else None,
            volume=room,
            stuff=Stuff.FRAGRANCE,
        ),
        wanted="density",
        unit="g/ml",
        mistakes=tuple(mistakes),
        see="density",
    )
