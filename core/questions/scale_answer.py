"""How a weighing on a scale is explained: one or several weights, or from which weight on it is exact enough."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Caution, Given, Line, Result, Step, Worked, line
from core.compounds import Masses
from core.questions.scale_compare import by_volume, class_lines, spoon_line
from core.questions.scale_sums import Readings, coarsest, half_width, share, smallest, standard, step_on_sale
from core.units import Mass, Percent

if TYPE_CHECKING:
    from core.questions.scale import ScaleQuestion

USUAL_ERROR = Percent(Decimal(1))
COARSE = Decimal(5)  # percent from which on the answer warns (common practice, no source)
ASSUMED_ERROR = line("You didn't say how exact it should be; I took ±1 % (common practice).")
STEP_ALONE = line("This counts the step alone; a worn or tilted scale is off by more. Check yours with a known weight.")


def weighings_compared(ask: ScaleQuestion, weighing: Masses, step: Mass) -> Worked:
    """The error of one weighing, or of several side by side."""
    readings = ask.readings or Readings.SINGLE
    half = half_width(step, readings)
    masses = [mass for _, mass in weighing.items]
    errors = [share(half, mass) for mass in masses]
    lightest, worst = min(masses), max(errors)
    wanted = ask.error
    results = [Result("error" if len(masses) == 1 else f"error_{i}", error) for i, error in enumerate(errors, 1)]
    if wanted is not None:
        results.append(Result("smallest", smallest(step, wanted, readings), step.unit))
    body = list(class_lines(ask.accuracy, lightest, step))
    if len(masses) == 1:
        body.insert(
            0, line("It really weighs between {0:typed} and {1:typed}.", *(end.value for end in _ends(masses, half)))
        )
    if worst > (wanted or USUAL_ERROR):
        body.insert(0, better(lightest, wanted or USUAL_ERROR, step, readings))
    table = by_volume(ask.volume, ask.density, lightest, step, half) if len(masses) == 1 else None
    if table is None and len(masses) == 1:
        body.append(spoon_line())
    return Worked(
        intent=ask.intent,
        headline=_headline(masses, errors, step, half, wanted),
        read_as=_read_as(step, readings),
        given=(Given("step", step), *(Given(name or "weighing", mass) for name, mass in weighing.items)),
        steps=(
            off_step(step, readings),
            *(
                Step("error = off ÷ weight × 100", line("{0:typed} ÷ {1:typed} × 100", half, mass), line("±{0}", error))
                for mass, error in zip(masses, errors, strict=True)
            ),
        ),
        results=(*results, *_ends(masses, half), Result("off", half), Result("uncertainty", standard(step, readings))),
        body=tuple(body),
        other=_other_readings(readings, half, lightest),
        assumed=(STEP_ALONE,),
        check=line("Check: {0} of {1:typed} is {2:typed}.", worst, lightest, half),
        table=table,
        cautions=(*capacity_caution(ask.capacity, max(masses)), *coarse_caution(lightest, worst)),
        see=("scales",),
        question=ask,
    )


def _ends(masses: Sequence[Mass], half: Mass) -> tuple[Result, ...]:
    """Between what and what a single weighing really is; a weight is never less than nothing."""
    if len(masses) != 1:
        return ()
    low, high = Mass(max(Decimal(0), masses[0].base - half.base), masses[0].unit), masses[0] + half
    return (Result("lowest", low), Result("highest", high))


def smallest_weighing(ask: ScaleQuestion, step: Mass) -> Worked:
    """From which weight on a scale is exact enough."""
    wanted = ask.error or USUAL_ERROR
    readings = ask.readings or Readings.SINGLE
    half, least = half_width(step, readings), smallest(step, wanted, readings)
    twice = smallest(step, wanted, Readings.TARED)
    other = line("If the weight is the difference of two readings: at least {0:typed}.", twice)
    return Worked(
        intent=ask.intent,
        headline=line("Weigh at least {0:typed}; then {1:typed} steps leave ±{2:typed} or less.", least, step, wanted),
        read_as=_read_as(step, readings),
        given=(Given("step", step), *((Given("error", wanted),) if ask.error else ())),
        steps=(
            off_step(step, readings),
            Step(
                "smallest weight = off ÷ error × 100",
                line("{0:typed} ÷ {1:bare} × 100", half, wanted),
                line("{0:typed}", least),
            ),
        ),
        results=(
            Result("smallest", least, step.unit),
            Result("error", wanted),
            Result("off", half),
            Result("uncertainty", standard(step, readings)),
        ),
        body=class_lines(ask.accuracy, least, step),
        other=(other,) if readings is Readings.SINGLE else (),
        assumed=(STEP_ALONE,) if ask.error else (ASSUMED_ERROR, STEP_ALONE),
        check=line("Check: {0:typed} ÷ {1:typed} × 100 = {2}.", half, least, wanted),
        cautions=capacity_caution(ask.capacity, least),
        see=("scales",),
        question=ask,
    )


def off_step(step: Mass, readings: Readings) -> Step:
    """How far the readings may be off."""
    half = half_width(step, readings)
    if readings is Readings.SINGLE:
        return Step("off by up to half a step", line("{0:typed} ÷ 2", step), line("{0:typed}", half))
    return Step(
        "off by up to half a step at each of two readings", line("2 × {0:typed} ÷ 2", step), line("{0:typed}", half)
    )


def better(weight: Mass, wanted: Percent, step: Mass, readings: Readings) -> Line:
    """What would make the weighing good enough."""
    return line(
        "For ±{0:typed} weigh at least {1:typed} on this scale, or use one with {2:typed} steps or finer.",
        *(wanted, smallest(step, wanted, readings), step_on_sale(coarsest(weight, wanted, readings))),
    )


def coarse_caution(weight: Mass, error: Percent) -> tuple[Caution, ...]:
    """A warning where the step is a large part of the weight."""
    if error.base < COARSE:
        return ()
    return (Caution("coarse_scale", line("±{0} is coarse for {1:typed}: use a finer scale for it.", error, weight)),)


def capacity_caution(capacity: Mass | None, weight: Mass) -> tuple[Caution, ...]:
    """A warning where the weight is more than the scale can take."""
    if capacity is None or weight.base <= capacity.base:
        return ()
    text = "{0:typed} is more than the scale can take ({1:typed}), and the pot or jar comes on top."
    return (Caution("over_capacity", line(text, weight, capacity)),)


def _headline(masses: list[Mass], errors: list[Percent], step: Mass, half: Mass, wanted: Percent | None) -> Line:
    light, heavy = min(masses), max(masses)
    worst, best = max(errors), min(errors)
    if wanted is not None:
        verdict = "Yes, fine enough" if worst <= wanted else "No, too coarse"
        return line(
            verdict + ": {0:typed} in {1:typed} steps is ±{2}; you want ±{3:typed}.", light, step, worst, wanted
        )
    if len(masses) == 1 or light == heavy:
        return line("±{0}: {1:typed} may really be {2:typed} more or less.", worst, light, half)
    return line("Worse for the lighter: {0:typed} is ±{1}, {2:typed} only ±{3}.", light, worst, heavy, best)


def _read_as(step: Mass, readings: Readings) -> Line:
    return line("Read as: a scale with {0:typed} steps, {1}.", step, Line(readings.value))


def _other_readings(readings: Readings, half: Mass, weight: Mass) -> tuple[Line, ...]:
    """The figure for a weight that is the difference of two readings."""
    if readings is not Readings.SINGLE:
        return ()
    return (
        line(
            "If the weight is the difference of two readings (full less empty): {0:typed} either way, ±{1}.",
            *(half * 2, share(half * 2, weight)),
        ),
    )
