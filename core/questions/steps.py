"""Lines that many answers share: a weight brought to grams, what a scale can really weigh, a weight in another unit."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, Step, line
from core.book import Book
from core.units import Mass, Percent, Volume, factor
from core.writing import rounded, to_step

KITCHEN_STEP = Decimal(1)
# Common practice, no source: what kitchen scales show when they are switched to ounces.
KITCHEN_OUNCES = Mass.of("0.1", "oz")
# What holds where no step is set, said wherever it is shown that none is.
NO_STEP = f"not set: I take a kitchen scale's, {KITCHEN_STEP} g, or {KITCHEN_OUNCES.oz} oz for a list in ounces"


def to_grams(what: str, mass: Mass) -> tuple[Step, ...]:
    """The step that brings a weight typed in another unit to the one the sum is done in; none for grams."""
    if mass.unit in ("g", ""):
        return ()
    return (Step(f"{what} in one unit", line("{0:by}", mass), line("{0:work}", mass)),)


def to_millilitres(volume: Volume) -> tuple[Step, ...]:
    """The step that brings a volume typed in another unit to millilitres; none for those."""
    if volume.unit in ("ml", ""):
        return ()
    one = rounded(factor(volume.unit, "ml"), 4)
    return (
        Step("room in ml", line("{0} × {1} ml", rounded(volume.to(volume.unit), 6), one), line("{0:work}", volume)),
    )


def scale_step(book: Book) -> Decimal:
    """The asker's scale step in grams; a kitchen scale's 1 g where none is known (common practice, no source)."""
    return book.preferences.step or KITCHEN_STEP


def step_behind(weight: Mass, book: Book) -> Mass:
    """The step of the scale a weight was read from: the asker's, else the last digit of grams typed, at most 1 g."""
    exponent = weight.base.as_tuple().exponent
    if book.preferences.step is None and weight.unit == "g" and isinstance(exponent, int) and -4 < exponent < 0:
        return Mass(Decimal(1).scaleb(exponent))
    return Mass(scale_step(book))


def on_the_scale(fragrance: Mass, wax: Mass, book: Book) -> Line | None:
    """What to weigh on the asker's scale and the load that is really reached; None where it is exact."""
    step = scale_step(book)
    weighed = Mass(to_step(fragrance.base, step))
    if weighed.base == fragrance.base or not wax:
        return None
    if not weighed:
        return (
            line(
                "A scale with {} steps can't show so little. Use one with finer steps, or make a larger batch.",
                Mass(step),
            )
            if step < KITCHEN_STEP
            else line("A scale with 1 g steps can't show so little: use one with 0.1 or 0.01 g steps.")
        )
    reached = Percent(weighed.base / wax.base * 100)
    return line("On a scale with {0:g} steps weigh {1:g}: a load of {2} of the wax.", Mass(step), weighed, reached)


def in_unit(what: str, mass: Mass, unit: str) -> tuple[Line, ...]:
    """The weight in the unit asked for, where that is neither grams nor ounces."""
    if unit not in ("kg", "lb", "mg", "grain", "oz_t", "t", "lb_oz"):
        return ()
    return (line(f"{{0}} in the unit you asked for: {{1:{unit}}}.", Line(what), mass),)
