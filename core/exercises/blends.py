"""Exercises about blends."""

from __future__ import annotations

from decimal import Decimal

from core.answer import line
from core.compounds import Parts
from core.exercises.kinds import Exercise, Level, Mistake, mistake
from core.exercises.scene import WAXES, Scene
from core.questions.blend import BlendQuestion
from core.units import Density, Mass, Percent


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
