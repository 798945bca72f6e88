"""Exercises about a batch and its label."""

from __future__ import annotations

from decimal import Decimal

from core.answer import line
from core.compounds import Basis, Fill, Fills, Masses
from core.exercises.kinds import Exercise, Level, Mistake, mistake
from core.exercises.loads import TAKE_OF_WAX
from core.exercises.scene import Scene, of_wax
from core.mixing import Mix, Recipe
from core.questions.batch import BatchQuestion, FillIs
from core.questions.label import LabelQuestion
from core.questions.rules import Rules
from core.units import Mass, Percent

JAR = (100, 400, 10), ("4", "14", "0.5")


def batch(scene: Scene) -> Exercise:
    """Wax alone in each jar (easy), wax and fragrance together (medium), with some to spare (hard)."""
    count = int(scene.draw.pick([6, 8, 10, 12, 15, 20, 24]))
    each, percent = scene.mass(*JAR), scene.load()
    all_of_it = each * count
    recipe = Recipe(percent, Basis.WAX)
    share = line("{0:work} × {1:bare} ÷ 100", all_of_it, percent)
    if scene.level is Level.EASY:
        wrong = Recipe(percent, Basis.TOTAL).of_wax(all_of_it).fragrance
        numbers = line("{0:work} × {1:bare} ÷ (100 − {1:bare})", all_of_it, percent)
        return Exercise(
            task=line(
                f"{count} jars take {{0:typed}} of {{1}} each, the wax alone. {{2}} comes on top: {{3}} of the wax. "
                "How much fragrance oil is that for all of them?",
                *(each, scene.wax, scene.spoken(), percent),
            ),
            question=_batch(scene, count, each, percent, FillIs.WAX),
            wanted="fragrance",
            unit=scene.unit,
            mistakes=(
                mistake("of_the_total", wrong, numbers, "the percent is taken of the total", TAKE_OF_WAX),
                _one_only(recipe.of_wax(each).fragrance, each, percent),
            ),
            see="bases",
        )
    if scene.level is Level.MEDIUM:
        return Exercise(
            task=line(
                f"{count} jars hold {{0:typed}} each, {{1}} and fragrance together. The load is {{2}} of the wax. "
                "How much {3} is in all of them?",
                *(each, scene.wax, percent, scene.spoken()),
            ),
            question=_batch(scene, count, each, percent, FillIs.FINISHED),
            wanted="fragrance",
            unit=scene.unit,
            mistakes=(
                mistake(
                    "fill_as_wax",
                    all_of_it * percent.fraction,
                    share,
                    "what is in the jar is taken as wax alone",
                    "The jar holds wax and fragrance: its weight is 100 parts of wax and the load on top.",
                ),
                _one_only(recipe.of_total(each).fragrance, each, percent),
            ),
            see="bases",
        )
    return _with_spare(scene, count, each, percent)


def _with_spare(scene: Scene, count: int, each: Mass, percent: Percent) -> Exercise:
    spare = Percent(scene.draw.pick([Decimal(5), Decimal(10)]))
    jars = each * count
    pot = jars * (1 + spare.fraction)
    recipe = Recipe(percent, Basis.WAX)
    return Exercise(
        task=line(
            f"{count} jars hold {{0:typed}} each, {{1}} and {{2}} together, with a load of {{3}} of the wax. {{4}} "
            "more is melted for what stays in the pot. How much wax is weighed out?",
            *(each, scene.wax, scene.spoken(), percent, spare),
        ),
        question=BatchQuestion(
            fills=Fills((Fill(count, weight=each),)),
            fill_is=FillIs.FINISHED,
            load=of_wax(percent),
            spare=spare,
            unit=scene.unit,
        ),
        wanted="wax",
        unit=scene.unit,
        mistakes=(
            mistake(
                "fill_as_wax",
                pot,
                line(f"{count} × {{0:work}} + {{1}}", each, spare),
                "what is in the jars is taken as wax alone",
                "The fragrance is part of it: divide by 100 + load, times 100.",
            ),
            mistake(
                "spare_forgotten",
                recipe.of_total(jars).wax,
                line("{0:work} ÷ (100 + {1:bare}) × 100", jars, percent),
                "nothing is melted to spare",
                "Add the spare percent to what the jars hold.",
            ),
            mistake(
                "percent_taken_off",
                pot * (1 - percent.fraction),
                line("{0:work} − {1} of it", pot, percent),
                "the load is taken off the total",
                TAKE_OF_WAX,
            ),
        ),
        see="bases",
    )


def _batch(scene: Scene, count: int, each: Mass, percent: Percent, fill_is: FillIs) -> BatchQuestion:
    return BatchQuestion(
        fills=Fills((Fill(count, weight=each),)), fill_is=fill_is, load=of_wax(percent), unit=scene.unit
    )


def _one_only(gives: Mass, each: Mass, percent: Percent) -> Mistake:
    numbers = line("the sum for {0:typed} at {1}", each, percent)
    return mistake("one_only", gives, numbers, "it is worked out for a single jar", "Multiply with the number of jars.")


def net_weight(scene: Scene) -> Exercise:
    """From what went in (easy), from full and empty (medium), from a load (hard)."""
    rules = Rules.US if scene.ounces else Rules.EU_UK
    wax, jar = scene.mass((100, 400, 10), ("6", "9", "0.5")), scene.mass((150, 400, 10), ("5", "14", "0.5"))
    percent = scene.load()
    mix = Recipe(percent, Basis.WAX).of_wax(wax)
    if scene.ounces and scene.level is not Level.HARD:
        # In round ounces, so that a label's cut-off figure is the same.
        mix = Mix(wax, Mass.of("0.5", "oz"))
    net, full = mix.total, mix.total + jar
    with_jar = mistake(
        "jar_counted",
        full,
        line("{0:work} + {1:work}", net, jar),
        "the jar is counted",
        "Net weight is what is inside, never the vessel.",
    )
    wax_only = mistake(
        "wax_only",
        wax,
        line("the wax alone"),
        "the fragrance is left out",
        "The fragrance is part of what is inside: it counts.",
    )
    jar_only = mistake(
        "jar_itself", jar, line("the empty jar"), "the jar's own weight is named", "Full less empty is what is inside."
    )
    if scene.level is Level.EASY:
        task = line(
            "{0:typed} of {1} and {2:typed} of {3} go into a jar of {4:typed}. What is the net weight?",
            *(wax, scene.wax, mix.fragrance, scene.spoken(), jar),
        )
        question = LabelQuestion(wax=Masses.one(wax), fragrance=mix.fragrance, rules=rules, unit=scene.unit)
        mistakes: tuple[Mistake, ...] = (with_jar, wax_only)
    elif scene.level is Level.MEDIUM:
        task = line("A finished candle weighs {0:typed}, an empty jar {1:typed}. What is the net weight?", full, jar)
        question = LabelQuestion(gross=full, vessel=jar, rules=rules, unit=scene.unit)
        twice = mistake(
            "jar_added", full + jar, line("{0:work} + {1:work}", full, jar), "the jar is added", "Take the jar off."
        )
        weighed_along = mistake(
            "jar_counted",
            full,
            line("the whole weight"),
            "the jar is counted",
            "Net weight is what is inside, never the vessel.",
        )
        mistakes = (weighed_along, twice, jar_only)
    else:
        task = line(
            "{0:typed} of {1} with {2} of {3} (of the wax) go into a jar of {4:typed}. What is the net weight?",
            *(wax, scene.wax, percent, scene.spoken(), jar),
        )
        question = LabelQuestion(wax=Masses.one(wax), load=of_wax(percent), rules=rules, unit=scene.unit)
        mistakes = (wax_only, with_jar)
    return Exercise(task, question, "net", scene.unit, mistakes, "net_weight")
