"""Exercises about volume, density and the two ounces."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, line
from core.compounds import Material, Stuff, UnitName
from core.exercises.kinds import Exercise, Level, Mistake, mistake
from core.exercises.scene import Scene
from core.questions.convert import ConvertQuestion
from core.questions.density import DensityQuestion
from core.questions.volume import VolumeQuestion
from core.units import Density, Mass, Number, Volume
from core.writing import rounded, significant

NOT_A_WEIGHT = "A volume says how much room, not how heavy: multiply it with the density."


def _density(scene: Scene) -> Density:
    """A sensible density of an oil, away from 1 and from what makes a fluid ounce weigh an ounce (0.96)."""
    if scene.level is Level.EASY:
        return Density(scene.draw.pick([Decimal("0.85"), Decimal("0.9"), Decimal("1.05"), Decimal("1.1")]))
    return Density(
        scene.draw.pick([scene.draw.number("0.86", "0.93", "0.01"), scene.draw.number("1.03", "1.09", "0.01")])
    )


def volume(scene: Scene) -> Exercise:
    """The weight of a volume; the hard one asks for the volume of a weight."""
    recorded = scene.density
    density = recorded or _density(scene)
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
            _volume_as_weight(room, mass),
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


def _volume_as_weight(room: Volume, mass: Mass) -> Mistake:
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
    true = _density(scene)
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


def ounces(scene: Scene) -> Exercise:
    """Ounces and grams (easy), pounds and ounces (medium), fluid ounces of an oil by weight (hard)."""
    if scene.level is Level.HARD:
        return _fluid(scene)
    if scene.level is Level.MEDIUM:
        return _pounds(scene)
    ounce, fluid = Mass.of(1, "oz"), Volume.of(1, "us_fl_oz")
    amount = (
        Mass.of(scene.draw.number(50, 600, 50), "g")
        if scene.ounces
        else Mass.of(scene.draw.number("2", "20", "0.5"), "oz")
    )
    to = "oz" if scene.ounces else "g"

    def by(grams: Decimal) -> tuple[Mass, Line]:
        number = Number(significant(grams, 4))
        if scene.ounces:
            return Mass.of(amount.base / grams, "oz"), line("{0:typed} ÷ {1}", amount, number)
        return Mass(amount.oz * grams), line("{0:typed} × {1}", amount, number)

    upside_down = (
        Mass.of(amount.base * rounded(ounce.base, 2), "oz")
        if scene.ounces
        else Mass(amount.oz / rounded(ounce.base, 2))
    )
    factors = (
        (
            "fluid_ounce",
            fluid.base,
            "the millilitres of a fluid ounce are used",
            "An ounce of weight is 28.35 g; 29.57 is the millilitres of a US fluid ounce.",
        ),
        ("thirty", Decimal(30), "an ounce is taken as 30 g", "An ounce is 28.35 g; 30 is 6 % too much."),
        ("twenty_eight", Decimal(28), "an ounce is rounded to 28 g", "Use 28.35 g and round only the result."),
    )
    return Exercise(
        task=line(
            f"A recipe says {{0:typed}} of {{1}}. What is that in {'ounces' if scene.ounces else 'grams'}?",
            amount,
            scene.wax,
        ),
        question=ConvertQuestion(amount=amount, to=UnitName(to)),
        wanted="mass",
        unit=scene.unit,
        mistakes=(
            *(mistake(name, *by(grams), when, instead) for name, grams, when, instead in factors),
            mistake(
                "upside_down",
                upside_down,
                line("{0:typed} " + ("×" if scene.ounces else "÷") + " 28.35", amount),
                "it is multiplied where it should be divided"
                if scene.ounces
                else "it is divided where it should be multiplied",
                "An ounce is the larger unit: the same weight is fewer ounces and more grams.",
            ),
        ),
        see="ounces",
        converts=True,
    )


def _pounds(scene: Scene) -> Exercise:
    pounds, rest = scene.draw.number(1, 5), scene.draw.pick([Decimal(2), Decimal(4), Decimal(6), Decimal(12)])
    amount = Mass.of(pounds * 16 + rest, "oz").in_unit("lb_oz")
    point = Mass.of(pounds + rest / (100 if rest >= 10 else 10), "lb")
    to = "oz" if scene.ounces else "g"
    return Exercise(
        task=line(
            f"A bag holds {{0:typed}} of {{1}}. What is that in {'ounces alone' if scene.ounces else 'grams'}?",
            amount,
            scene.wax,
        ),
        question=ConvertQuestion(amount=amount, to=UnitName(to)),
        wanted="mass",
        unit=scene.unit,
        mistakes=(
            mistake(
                "ounces_as_decimals",
                point,
                line("{0:typed}", point),
                "the ounces are written after the decimal point of the pounds",
                "A pound has 16 ounces, not 10: bring the pounds to ounces, then add.",
            ),
            mistake(
                "ten_ounces",
                Mass.of(pounds * 10 + rest, "oz"),
                line("{0} × 10 + {1} oz", pounds, rest),
                "a pound is taken to have 10 ounces",
                "A pound has 16 ounces.",
            ),
            mistake(
                "pounds_only",
                Mass.of(pounds, "lb"),
                line("{0} lb", pounds),
                "the ounces are left out",
                "Add the ounces to the pounds: 1 lb is 16 oz.",
            ),
        ),
        see="ounces",
        converts=True,
    )


def _fluid(scene: Scene) -> Exercise:
    density = _density(scene)
    room = Volume.of(scene.draw.number(2, 12), "us_fl_oz")
    number = room.to("us_fl_oz")
    imperial = Volume.of(number, "imp_fl_oz")
    return Exercise(
        task=line(
            f"A bottle holds {{0:typed}} of {{1}}, with a density of {{2:typed}}. What does the oil "
            f"weigh, in {'ounces' if scene.ounces else 'grams'}?",
            *(room, scene.spoken(), density),
        ),
        question=VolumeQuestion(volume=room, density=density, stuff=Stuff.FRAGRANCE, unit=scene.unit),
        wanted="mass",
        unit=scene.unit,
        mistakes=(
            _volume_as_weight(room, Mass.of(number, "oz")),
            mistake(
                "density_times_ounces",
                Mass.of(number * density.base, "oz"),
                line("{0} oz × {1:work}", number, density),
                "fluid ounces are multiplied with the density as if they were ounces of water",
                "The density counts grams in a millilitre: bring the fluid ounces to millilitres first.",
            ),
            mistake(
                "water",
                Mass(room.base),
                line("{0:ml}", room),
                "1 ml is taken to weigh 1 g",
                NOT_A_WEIGHT,
            ),
            mistake(
                "imperial",
                density.mass_of(imperial),
                line("{0:ml} × {1:work}", imperial, density),
                "British fluid ounces are used",
                "A US fluid ounce is 29.57 ml, a British one 28.41 ml.",
            ),
        ),
        see="ounces",
    )
