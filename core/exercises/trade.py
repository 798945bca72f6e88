"""Exercises about a scale's step and about buying."""

from __future__ import annotations

from decimal import ROUND_CEILING, ROUND_FLOOR, Decimal

from core.answer import line
from core.compounds import Masses, Pack, Packs
from core.exercises.kinds import Exercise, Level, Mistake, mistake
from core.exercises.scene import Scene
from core.questions.buying import BuyingQuestion
from core.questions.scale import ScaleQuestion
from core.questions.scale_sums import Readings
from core.units import Mass, Money, Percent

HALF = "What a scale shows is off by up to half a step, up or down."
TWO_READINGS = "Full and empty are both off by up to half a step: together a whole one."


def scale_step(scene: Scene) -> Exercise:
    """One reading (easy), the difference of two (medium), the least to weigh (hard)."""
    step = Mass.of(scene.draw.pick(["0.1", "0.05"] if scene.ounces else ["1", "0.5", "2"]), scene.unit)
    if scene.level is Level.HARD:
        return _least(scene, step)
    weight = scene.mass((20, 120, 4), ("1", "6", "0.5"))
    tared = scene.level is Level.MEDIUM
    half, whole = (Percent(step.base * part / weight.base * 100) for part in (Decimal("0.5"), Decimal(1)))
    by_half, by_whole = (
        line("{0:typed} ÷ 2 ÷ {1:typed} × 100", step, weight),
        line("{0:typed} ÷ {1:typed} × 100", step, weight),
    )
    story = line("{0:typed} of {1} are weighed on a scale with {2:typed} steps", weight, scene.spoken(), step)
    if tared:
        story = line("{0}, as full less empty", story)
    wrong = (
        mistake("one_reading", half, by_half, "only one of the two readings is counted", TWO_READINGS)
        if tared
        else mistake("whole_step", whole, by_whole, "a whole step is counted", HALF)
    )
    return Exercise(
        task=line("{}. By how many percent can that be off, up or down?", story),
        question=ScaleQuestion(
            step=step,
            weighing=Masses.one(weight),
            readings=Readings.TARED if tared else Readings.SINGLE,
        ),
        wanted="error",
        unit="percent",
        mistakes=(
            wrong,
            mistake(
                "upside_down",
                Percent(weight.base / step.base),
                line("{0:typed} ÷ {1:typed}", weight, step),
                "the weight is divided by the step",
                "The error stands on top: error ÷ weight × 100.",
            ),
            mistake(
                "not_a_share",
                Percent(step.to(step.unit) * (1 if tared else Decimal("0.5"))),
                line("{0:typed}", step if tared else Mass(step.base / 2, step.unit)),
                "the error is not divided by the weight",
                "A percent is a share: error ÷ weight × 100.",
            ),
        ),
        see="scales",
    )


def _least(scene: Scene, step: Mass) -> Exercise:
    error = Percent(scene.draw.pick([Decimal(1), Decimal(2), Decimal("0.5")]))
    whole = Mass(step.base / error.fraction, step.unit)
    return Exercise(
        task=line(
            "A scale has {0:typed} steps. From which weight on is one reading good to {1}, up or down?", step, error
        ),
        question=ScaleQuestion(step=step, error=error),
        wanted="smallest",
        unit=scene.unit,
        mistakes=(
            mistake(
                "whole_step", whole, line("{0:typed} ÷ {1:bare} × 100", step, error), "a whole step is counted", HALF
            ),
            mistake(
                "multiplied",
                step * (error.base / 2),
                line("{0:typed} ÷ 2 × {1:bare}", step, error),
                "half a step is multiplied with the percent",
                "Divide: the finer you want it, the more you must weigh.",
            ),
        ),
        see="scales",
    )


def buying(scene: Scene) -> Exercise:
    """One pack size (easy), two (medium), three (hard): the least it costs."""
    sizes = {Level.EASY: (1,), Level.MEDIUM: (0, 1), Level.HARD: (0, 1, 2)}[scene.level]
    unit, coin = ("lb", "usd") if scene.ounces else ("kg", "eur")
    offered = (2, 5, 10) if scene.ounces else (1, 5, 10)
    each = scene.draw.number("8", "11", "0.5") / (2 if scene.ounces else 1)
    cheaper = (Decimal(1), Decimal("0.8"), Decimal("0.7"))
    packs = [
        (Decimal(offered[i]), (each * offered[i] * cheaper[i]).quantize(Decimal("0.5"), ROUND_CEILING)) for i in sizes
    ]
    need = scene.draw.number(6, 23)
    wanted = Mass.of(need, unit)
    offers = tuple(Pack(Mass.of(size, unit), Money.of(price, coin)) for size, price in packs)
    told = line(
        ", ".join(f"{{{2 * i}:typed}} for {{{2 * i + 1}}}" for i in range(len(offers))),
        *(part for offer in offers for part in (offer.size, offer.price)),
    )
    return Exercise(
        task=line(
            f"{{0:typed}} of {{1}} are needed. {'The pack' if len(offers) == 1 else 'Packs'} on sale: {{2}}. What does "
            "the cheapest purchase cost?",
            *(wanted, scene.wax, told),
        ),
        question=BuyingQuestion(need=wanted, packs=Packs(offers), unit=unit),
        wanted="cost",
        unit=coin,
        mistakes=tuple(_purchases(need, packs, coin)),
        see="",
    )


def _purchases(need: Decimal, packs: list[tuple[Decimal, Decimal]], coin: str) -> list[Mistake]:
    """What is paid by mistake, with packs as (size, price)."""
    size, price = min(packs, key=lambda pack: pack[1] / pack[0])
    up, down = ((need / size).to_integral_value(how) for how in (ROUND_CEILING, ROUND_FLOOR))
    exact = Money.of(need / size * price, coin)
    found: list[Mistake] = []
    if len(packs) > 1:
        found.append(
            mistake(
                "best_rate_only",
                Money.of(up * price, coin),
                line("{0} × {1}", up, Money.of(price, coin)),
                "only the size with the best price for its weight is bought",
                "Try smaller packs for what is left over: less may be paid for nothing.",
            )
        )
        small_size, small_price = packs[0]
        count = (need / small_size).to_integral_value(ROUND_CEILING)
        found.append(
            mistake(
                "smallest_only",
                Money.of(count * small_price, coin),
                line("{0} × {1}", count, Money.of(small_price, coin)),
                "only the smallest packs are bought",
                "Larger packs cost less for the same weight: use them for the bulk.",
            )
        )
    found.append(
        mistake(
            "part_of_a_pack",
            exact,
            line("{0} ÷ {1} × {2}", need, size, Money.of(price, coin)),
            "part of a pack is paid for",
            "Packs are sold whole: round up.",
        )
    )
    if down:
        short = line("{0} × {1}", down, Money.of(price, coin))
        instead = "That is less than is needed: round up."
        found.append(mistake("rounded_down", Money.of(down * price, coin), short, "packs are rounded down", instead))
    return found
