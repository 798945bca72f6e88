"""A whole recipe on a scale: how far the load may be off, and which scale to buy for it."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Origin, Result, Step, Worked, line
from core.book import Book
from core.mixing import Mix
from core.questions.cautions import mix_cautions
from core.questions.scale_answer import (
    ASSUMED_ERROR,
    STEP_ALONE,
    USUAL_ERROR,
    better,
    capacity_caution,
    coarse_caution,
    off_step,
)
from core.questions.scale_compare import by_volume, class_lines
from core.questions.scale_sums import (
    Readings,
    coarsest,
    half_width,
    share,
    step_on_sale,
    u_of_load,
    u_of_total_load,
)
from core.units import Mass, Percent

if TYPE_CHECKING:
    from core.questions.scale import ScaleQuestion


def load_reached(ask: ScaleQuestion, mix: Mix, step: Mass, book: Book) -> Worked:
    """How far a load may be off when wax and fragrance are weighed in such steps."""
    readings = ask.readings or Readings.SINGLE
    load, u = mix.load_of_wax, u_of_load(mix, step, readings)
    half = half_width(step, readings)
    error = share(half, mix.fragrance)
    low, high = Percent(max(Decimal(0), load.base - 2 * u.base)), Percent(load.base + 2 * u.base)
    lowest, highest = (share(Mass(max(Decimal(0), oil)), mix.wax) for oil in _ends(mix.fragrance, half))
    body = [line("By the fragrance's reading alone the load lies between {0} and {1}.", lowest, highest)]
    if ask.error is not None:
        verdict = "Yes, fine enough" if error <= ask.error else "No, too coarse"
        body.append(line(verdict + ": you accept ±{0:typed} on the fragrance, and it is ±{1}.", ask.error, error))
    if error > (ask.error or USUAL_ERROR):
        body.append(better(mix.fragrance, ask.error or USUAL_ERROR, step, readings))
    body += class_lines(ask.accuracy, mix.fragrance, step)
    return Worked(
        intent=ask.intent,
        headline=line("A load of {0} of the wax, almost always between {1} and {2}.", load, low, high),
        read_as=line(
            "Read as: {0:typed} of wax and {1} of fragrance on a scale with {2:typed} steps, {3}.",
            *(mix.wax, mix.fragrance, step, Line(readings.value)),
        ),
        given=(
            Given("step", step),
            Given("wax", mix.wax),
            *((Given("fragrance", mix.fragrance),) if ask.fragrance is not None else ()),
            *((Given("load", ask.load.percent),) if ask.load is not None else ()),
        ),
        steps=(
            Step(
                "load = fragrance ÷ wax × 100",
                line("{0:work} ÷ {1:work} × 100", mix.fragrance, mix.wax),
                line("{0}", load),
            ),
            off_step(step, readings),
            Step(
                "error of the fragrance = off ÷ weight × 100",
                line("{0:typed} ÷ {1:work} × 100", half, mix.fragrance),
                line("±{0}", error),
            ),
            Step(
                "typical error of the load (step ÷ √12 a reading)",
                line("fragrance and wax together"),
                line("{0}; almost always within twice that", u),
            ),
        ),
        results=(
            Result("error", error),
            Result("load", load),
            Result("load_lowest", lowest),
            Result("load_highest", highest),
            Result("uncertainty", u),
            Result("load_of_total", mix.load_of_total),
            Result("uncertainty_of_total", u_of_total_load(mix, step, readings)),
            Result("fragrance", mix.fragrance),
            Result("off", half),
        ),
        body=tuple(body),
        assumed=(STEP_ALONE,),
        table=by_volume(ask.volume, ask.density, mix.fragrance, step, half),
        cautions=(
            *capacity_caution(ask.capacity, mix.total),
            *coarse_caution(mix.fragrance, error),
            *mix_cautions(ask.wax, load, book),
        ),
        see=("scales", "bases"),
        question=ask,
    )


def _ends(mass: Mass, half: Mass) -> tuple[Decimal, Decimal]:
    return mass.base - half.base, mass.base + half.base


def scale_to_buy(ask: ScaleQuestion, weight: Mass, mix: Mix | None) -> Worked:
    """The coarsest step on sale that is fine enough for the lightest weighing."""
    wanted = ask.error or USUAL_ERROR
    readings = ask.readings or Readings.SINGLE
    most = coarsest(weight, wanted, readings)
    step = step_on_sale(most)
    body = [line("Weighed in such steps {0:typed} is ±{1}.", weight, share(half_width(step, readings), weight))]
    if mix is not None:
        body.append(line("It must also carry the pot and everything in it: {0} of wax and fragrance.", mix.total))
    twice = "2 × " if readings is Readings.SINGLE else ""
    return Worked(
        intent=ask.intent,
        headline=line("A scale with {0:typed} steps or finer.", step),
        read_as=line("Read as: {0:typed} is the lightest thing to weigh, to ±{1:typed}.", weight, wanted),
        given=(
            Given("fragrance" if mix is not None else "weighing", weight),
            Given("error", wanted, Origin.ASKED if ask.error else Origin.ASSUMED),
        ),
        steps=(
            Step(
                f"coarsest step = {twice}weight × error ÷ 100",
                line(twice + "{0:typed} × {1:bare} ÷ 100", weight, wanted),
                line("{0:typed}", most),
            ),
        ),
        results=(Result("step", step), Result("step_at_most", most), Result("error", wanted)),
        body=tuple(body),
        assumed=() if ask.error else (ASSUMED_ERROR,),
        check=line("Check: a step of {0:typed} is not more than {1:typed}.", step, most),
        see=("scales",),
        question=ask,
    )
