"""Exercises about a batch, its label and blends."""

from __future__ import annotations

from decimal import Decimal

from core.answer import line
from core.compounds import Basis, Fill, Fills, Masses, Parts
from core.exercises.kinds import Exercise, Level, Mistake, mistake
from core.exercises.loads import TAKE_OF_WAX
from core.exercises.scene import WAXES, Scene, of_wax
from core.mixing import Mix, Recipe
from core.questions.batch import BatchQuestion, FillIs
from core.questions.blend import BlendQuestion
from core.questions.label import LabelQuestion
from core.questions.rules import Rules
from core.units import Density, Mass, Percent

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


def blend(scene: Scene) -> Exercise:
    """Two percents (easy), three parts (medium), the density of two (hard)."""
    if scene.level is Level.HARD:
        return _blend_density(scene)
    total = scene.wax_weight()
    one, two, three = _different(scene)
    if scene.level is Level.EASY:
        first = scene.draw.pick([Decimal(60), Decimal(70), Decimal(75), Decimal(80)])
        parts = Parts(((one, first), (two, 100 - first)))
        return Exercise(
            task=line(
                "{0:typed} of a blend shall be {1} {2} and the rest {3}. How much {2} is in it?",
                *(total, Percent(first), one, two),
            ),
            question=BlendQuestion(parts=parts, total=total, unit=scene.unit),
            wanted="part_1",
            unit=scene.unit,
            mistakes=(
                mistake(
                    "the_other_part",
                    total * (1 - first / 100),
                    line("{0:work} × {1} ÷ 100", total, 100 - first),
                    "the other part is worked out",
                    "Read again which of the two is asked for.",
                ),
                _ratio(total, first, 100 - first),
            ),
            see="why_weight",
        )
    parts_of = scene.draw.pick([(3, 2, 1), (5, 3, 2), (4, 3, 1), (6, 3, 1), (5, 4, 1)])
    first, second, third = map(Decimal, parts_of)
    whole = first + second + third
    return Exercise(
        task=line(
            "{0:typed} of a blend are {1} parts of {2}, {3} of {4} and {5} of {6}, by weight. How much {2} is in it?",
            *(total, first, one, second, two, third, three),
        ),
        question=BlendQuestion(
            parts=Parts(((one, first), (two, second), (three, third))), total=total, unit=scene.unit
        ),
        wanted="part_1",
        unit=scene.unit,
        mistakes=(
            mistake(
                "by_the_rest",
                total * (first / (second + third)),
                line("{0:work} × {1} ÷ {2}", total, first, second + third),
                "the part is divided by the other parts",
                "Divide by all the parts together, its own too.",
            ),
            mistake(
                "part_as_tenths",
                total * (first / 10),
                line("{0:work} × {1} ÷ 10", total, first),
                "parts are read as tenths",
                f"Add up the parts first: here they are {whole}.",
            ),
            mistake(
                "one_of_three",
                total * (1 / Decimal(3)),
                line("{0:work} ÷ 3", total),
                "everything is divided evenly",
                "The parts differ: each takes its own share.",
            ),
        ),
        see="why_weight",
    )


def _different(scene: Scene) -> tuple[str, str, str]:
    """Three names, the first one the scene's own wax."""
    others = [name for name in WAXES if name.casefold() != scene.wax.casefold()]
    second = scene.draw.pick(others)
    return scene.wax, second, scene.draw.pick([name for name in others if name != second])


def _ratio(total: Mass, first: Decimal, second: Decimal) -> Mistake:
    return mistake(
        "by_the_rest",
        total * (second / first),
        line("{0:work} × {1} ÷ {2}", total, second, first),
        "one part is divided by the other",
        "A share is a share of the whole: divide by 100.",
    )


def _blend_density(scene: Scene) -> Exercise:
    light, heavy = scene.draw.pick([("0.84", "1.12"), ("0.85", "1.10"), ("0.86", "1.14"), ("0.85", "1.15")])
    first = scene.draw.pick([Decimal(50), Decimal(60), Decimal(40)])
    low, high = Density(Decimal(light)), Density(Decimal(heavy))
    plain = Density((low.base * first + high.base * (100 - first)) / 100)
    middle = Density((low.base + high.base) / 2)
    turned = Density(100 / (first / high.base + (100 - first) / low.base))
    return Exercise(
        task=line(
            "{0} of an oil with {1:typed} and {2} of one with {3:typed} are blended, by weight. Which density has the "
            "blend, if the volumes add up?",
            *(Percent(first), low, Percent(100 - first), high),
        ),
        question=BlendQuestion(
            parts=Parts((("the light oil", first), ("the heavy oil", 100 - first))),
            densities=Parts((("", low.base), ("", high.base))),
        ),
        wanted="density",
        unit="g/ml",
        mistakes=(
            mistake(
                "densities_averaged",
                plain,
                line("{0:work} × {1} ÷ 100 + {2:work} × {3} ÷ 100", low, first, high, 100 - first),
                "the densities themselves are averaged by weight",
                "Volumes add up, densities don't: 100 g take so many millilitres of each; divide 100 g by their sum.",
            ),
            mistake(
                "shares_ignored",
                middle,
                line("({0:work} + {1:work}) ÷ 2", low, high),
                "the middle of the two densities is taken",
                "The shares count, and volumes add up: add the millilitres of each.",
            ),
            mistake(
                "shares_swapped",
                turned,
                line("100 ÷ ({0} ÷ {1} + {2} ÷ {3})", first, high.base, 100 - first, low.base),
                "the shares are swapped",
                "Divide each share by its own density.",
            ),
        ),
        see="density",
    )
