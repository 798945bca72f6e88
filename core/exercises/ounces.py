"""Exercises about ounces, grams, pounds and fluid ounces."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, line
from core.compounds import Stuff, UnitName
from core.exercises.kinds import Exercise, Level, mistake
from core.exercises.scene import Scene
from core.exercises.volumes import NOT_A_WEIGHT, sensible_density, volume_as_weight
from core.questions.convert import ConvertQuestion
from core.questions.volume import VolumeQuestion
from core.units import Mass, Number, Volume
from core.writing import rounded, significant


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
    density = sensible_density(scene)
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
            volume_as_weight(room, Mass.of(number, "oz")),
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
