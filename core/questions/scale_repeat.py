"""A weight put together from several weighings: each may be off, so the errors may add up."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Result, Step, Worked, line
from core.questions.scale_answer import STEP_ALONE, off_step
from core.questions.scale_sums import Readings, half_width, share
from core.units import Mass

if TYPE_CHECKING:
    from core.questions.scale import ScaleQuestion


def weighed_often(ask: ScaleQuestion, one: Mass, times: int, step: Mass) -> Worked:
    """So many times the same weight against all of it in one go: the worst case of both."""
    readings = ask.readings or Readings.SINGLE
    number = Decimal(times)
    half, whole = half_width(step, readings), one * number
    worst = half * number
    often, once = share(worst, whole), share(half, whole)
    return Worked(
        intent=ask.intent,
        headline=line(
            "{0} times {1:typed}: off by up to {2:typed} in all. {3:typed} in one go: by up to {4:typed}.",
            *(number, one, worst, whole, half),
        ),
        read_as=line("Read as: {0} weighings of {1:typed} each, in {2:typed} steps.", number, one, step),
        given=(Given("step", step), Given("weighing", one)),
        steps=(
            off_step(step, readings),
            Step(
                "worst case = off × weighings",
                line("{0:typed} × {1}", half, number),
                line("{0:typed}, ±{1}", worst, often),
            ),
            Step("in one go = off ÷ weight × 100", line("{0:typed} ÷ {1:typed} × 100", half, whole), line("±{}", once)),
        ),
        results=(
            Result("off_in_all", worst),
            Result("off", half),
            Result("error_in_all", often),
            Result("error_in_one_go", once),
            Result("weight", whole),
        ),
        body=(line("Weigh in one go where you can. Most of the time the single errors partly cancel out."),),
        assumed=(STEP_ALONE,),
        check=line("Check: {0} of {1:typed} is {2:typed}.", often, whole, worst),
        see=("scales",),
        question=ask,
    )
