"""Exercises about wax, fragrance and load."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, line
from core.compounds import Basis, Masses
from core.exercises.kinds import Exercise, Level, Mistake, mistake
from core.exercises.scene import Scene, of_total, of_wax
from core.mixing import Mix, Recipe
from core.questions.load import LoadQuestion
from core.questions.rescue import RescueQuestion
from core.units import Mass, Percent
from core.writing import rounded

TAKE_OF_WAX = "Here it is a percent of the wax: take it of the wax's weight alone."


def load(scene: Scene) -> Exercise:
    """Fragrance for a wax; the hard one is of the total."""
    wax, percent = scene.wax_weight(), scene.load()
    hard = scene.level is Level.HARD
    if hard:
        wax = scene.mixed(wax)
    basis = Basis.TOTAL if hard else Basis.WAX
    other = Recipe(percent, basis.other).of_wax(wax).fragrance
    return Exercise(
        task=line(
            f"{{0:typed}} of {{1}} get {{2}} of {{3}} (a percent {basis.value}). How much fragrance oil is that?",
            *(wax, scene.wax, percent, scene.spoken()),
        ),
        question=LoadQuestion(
            wax=Masses.one(wax), load=of_total(percent) if hard else of_wax(percent), unit=scene.unit
        ),
        wanted="fragrance",
        unit=scene.unit,
        mistakes=(
            _of_the_wax(other, wax, percent) if hard else _of_the_total(other, wax, percent),
            _number_as_weight(scene, percent),
            _divided(wax, percent),
        ),
        see="bases",
    )


def _of_the_total(gives: Mass, wax: Mass, percent: Percent) -> Mistake:
    numbers = line("{0:work} × {1:bare} ÷ (100 − {1:bare})", wax, percent)
    return mistake("of_the_total", gives, numbers, "the percent is taken of the total", TAKE_OF_WAX)


def _of_the_wax(gives: Mass, wax: Mass, percent: Percent) -> Mistake:
    numbers = line("{0:work} × {1:bare} ÷ 100", wax, percent)
    instead = line("Here it is a percent of the total: the wax is only {} of it.", Percent(100 - percent.base))
    return mistake("of_the_wax", gives, numbers, "the percent is taken of the wax", instead)


def _number_as_weight(scene: Scene, percent: Percent) -> Mistake:
    return mistake(
        "percent_as_weight",
        Mass.of(percent.base, scene.unit),
        line("{}", percent),
        "the percent itself is weighed out",
        "A percent is so much for every 100: it has to be multiplied with the weight.",
    )


def _divided(wax: Mass, percent: Percent) -> Mistake:
    return mistake(
        "divided_by_percent",
        Mass(wax.base / percent.base, wax.unit),
        line("{0:work} ÷ {1:bare}", wax, percent),
        "the weight is divided by the percent",
        "Multiply with the percent and divide by 100.",
    )


def split(scene: Scene) -> Exercise:
    """A total divided; the easy one is of the total, the others of the wax, the hard one in larger units."""
    total, percent = scene.wax_weight(), scene.load()
    easy = scene.level is Level.EASY
    if scene.level is Level.HARD:
        total = scene.mixed(total)
    basis = Basis.TOTAL if easy else Basis.WAX
    mix, other = (Recipe(percent, each).of_total(total) for each in (basis, basis.other))
    if easy:
        usual = mistake(
            "of_the_wax",
            other.fragrance,
            line("{0:work} × {1:bare} ÷ (100 + {1:bare})", total, percent),
            "the percent is taken of the wax",
            "Here it is a percent of the total: take it of everything.",
        )
    else:
        usual = mistake(
            "of_the_total",
            other.fragrance,
            line("{0:work} × {1:bare} ÷ 100", total, percent),
            "the percent is taken of the total",
            "Here it is a percent of the wax: the total is 100 parts of wax and the load on top.",
        )
    return Exercise(
        task=line(
            f"{{0:typed}} of candle mix hold {{1}} of {{2}} (a percent {basis.value}); the rest is {{3}}. How much "
            "fragrance oil is in it?",
            *(total, percent, scene.spoken(), scene.wax),
        ),
        question=LoadQuestion(total=total, load=of_total(percent) if easy else of_wax(percent), unit=scene.unit),
        wanted="fragrance",
        unit=scene.unit,
        mistakes=(
            usual,
            mistake(
                "wax_for_fragrance",
                mix.wax,
                line("{0:work} − {1:work}", total, mix.fragrance),
                "the wax is named instead of the fragrance",
                "Read again which of the two is asked for.",
            ),
            mistake(
                "load_on_top",
                total * (1 + percent.fraction),
                line("{0:work} + {0:work} × {1:bare} ÷ 100", total, percent),
                "the load is added to the total",
                "The total is everything already: the fragrance is part of it.",
            ),
        ),
        see="bases",
    )


def load_from_weights(scene: Scene) -> Exercise:
    """The load that was reached; the harder ones give the total, or larger units."""
    wax = scene.wax_weight()
    aim = scene.load()
    fragrance = Mass.of(rounded(wax.to(wax.unit) * aim.fraction, 1 if scene.ounces else 0), scene.unit)
    mix = Mix(wax, fragrance)
    of_the_wax, of_the_total = mix.load_of_wax, mix.load_of_total
    hard = scene.level is Level.HARD
    tell = line(
        "{0:typed} of {1} and {2:typed} of {3}", scene.mixed(wax) if hard else wax, scene.wax, fragrance, scene.spoken()
    )
    question = LoadQuestion(wax=Masses.one(scene.mixed(wax) if hard else wax), fragrance=fragrance)
    if scene.level is Level.MEDIUM:
        question = LoadQuestion(total=mix.total, fragrance=fragrance)
        tell = line("{0:typed} in all, {1:typed} of it {2}", mix.total, fragrance, scene.spoken())
    by_wax = line("{0:work} ÷ {1:work} × 100", fragrance, wax)
    by_total = line("{0:work} ÷ {1:work} × 100", fragrance, mix.total)
    wrong = (
        mistake(
            "of_the_wax",
            of_the_wax,
            by_wax,
            "the fragrance is divided by the wax alone",
            "Asked for is the percent of the total: divide by wax and fragrance together.",
        )
        if hard
        else mistake(
            "of_the_total",
            of_the_total,
            by_total,
            "the fragrance is divided by everything together",
            "Asked for is the percent of the wax: divide by the wax alone.",
        )
    )
    return Exercise(
        task=line(
            f"A pot holds {{}}. Which load is that, as a percent {'of the total' if hard else 'of the wax'}?", tell
        ),
        question=question,
        wanted="load_of_total" if hard else "load",
        unit="percent",
        mistakes=(
            wrong,
            mistake(
                "upside_down",
                Percent(wax.base / fragrance.base * 100),
                line("{0:work} ÷ {1:work} × 100", wax, fragrance),
                "the wax is divided by the fragrance",
                "The fragrance stands on top: fragrance ÷ wax.",
            ),
        ),
        see="bases",
    )


def rescue(scene: Scene) -> Exercise:
    """Too little in the pot (easy), too much (medium), or some of it spilled (hard)."""
    wax = scene.mass((500, 1500, 100), (20, 60, 5))
    now, wanted = (
        Percent(scene.draw.pick([Decimal(3), Decimal(4), Decimal(5)])),
        Percent(scene.draw.pick([Decimal(7), Decimal(8), Decimal(9)])),
    )
    if scene.level is Level.MEDIUM:
        now, wanted = Percent(wanted.base + 3), wanted
    in_it = Recipe(now, Basis.WAX).of_wax(wax).fragrance
    should = Recipe(wanted, Basis.WAX).of_wax(wax).fragrance
    story = line("A pot holds {0:typed} of {1} and {2:typed} of {3}", wax, scene.wax, in_it, scene.spoken())
    if scene.level is Level.MEDIUM:
        return _too_much(scene, story, wax, in_it, wanted, should)
    lost = Mass(Decimal(0))
    if scene.level is Level.HARD:
        lost = scene.mass((100, 250, 50), (4, 10, 2))
        story = line("{0}; then {1:typed} of the mix are spilled", story, lost)
    share = 1 - lost.base / (wax + in_it).base
    points = Percent(wanted.base - now.base)
    whole = wax + in_it
    mistakes = [
        mistake(
            "whole_amount",
            should * share,
            line("{0:work} × {1:bare} ÷ 100", wax * share, wanted),
            "all the fragrance of the finished mix is added",
            "Some is in the pot already: take off what is in.",
        ),
        mistake(
            "of_everything",
            whole * share * points.fraction,
            line("{0:work} × {1:bare} ÷ 100", whole * share, points),
            "the missing percent is taken of wax and fragrance together",
            TAKE_OF_WAX,
        ),
    ]
    if lost:
        spilled = mistake(
            "spill_forgotten",
            should - in_it,
            line("{0:work} − {1:work}", should, in_it),
            "what was spilled is still counted",
            "Wax and fragrance were spilled together: less of both is left in the pot.",
        )
        mistakes.insert(0, spilled)
    return Exercise(
        task=line("{0}. It shall hold {1} of the wax. How much fragrance oil must be added?", story, wanted),
        question=RescueQuestion(
            wax=Masses.one(wax), fragrance=in_it, load=of_wax(wanted), lost=lost if lost else None, unit=scene.unit
        ),
        wanted="add_fragrance",
        unit=scene.unit,
        mistakes=tuple(mistakes),
        see="bases",
    )


def _too_much(scene: Scene, story: Line, wax: Mass, in_it: Mass, wanted: Percent, should: Mass) -> Exercise:
    needed = Recipe(wanted, Basis.WAX).of_fragrance(in_it).wax
    points = Percent(in_it.base / wax.base * 100 - wanted.base)
    return Exercise(
        task=line("{0}: too much. It shall hold {1} of the wax. How much wax must be added?", story, wanted),
        question=RescueQuestion(wax=Masses.one(wax), fragrance=in_it, load=of_wax(wanted), unit=scene.unit),
        wanted="add_wax",
        unit=scene.unit,
        mistakes=(
            mistake(
                "percent_more_wax",
                wax * points.fraction,
                line("{0:work} × {1:bare} ÷ 100", wax, points),
                "as many percent of wax are added as the load is too high",
                "Ask how much wax that fragrance can have in all, then take off the wax that is in.",
            ),
            mistake(
                "excess_as_wax",
                in_it - should,
                line("{0:work} − {1:work}", in_it, should),
                "as much wax is added as there is fragrance too much",
                "Every gram of fragrance needs many grams of wax.",
            ),
            mistake(
                "whole_amount",
                needed,
                line("{0:work} ÷ {1:bare} × 100", in_it, wanted),
                "all the wax of the finished mix is added",
                "Some is in the pot already: take off what is in.",
            ),
        ),
        see="bases",
    )
