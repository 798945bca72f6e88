"""A weighing beside the scale's accuracy class and beside measuring the same by volume."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, Table, line
from core.questions.scale_sums import share
from core.reference.measures import MeasureKind
from core.reference.measures import tolerance as measure_tolerance
from core.reference.scales import Accuracy, minimum_load, tolerance
from core.units import Density, Mass, Percent, Volume

CLASSED_FROM = Decimal("0.1")  # grams: class III starts with this step


def class_lines(accuracy: Accuracy | None, weight: Mass, step: Mass) -> tuple[Line, ...]:
    """What the accuracy class promises for that weight; class III, where none is printed on a scale of such a step."""
    if accuracy is None and step.base < CLASSED_FROM:
        return ()
    cls = accuracy or Accuracy.III
    kind = "A class {0} scale" if accuracy else "Even a class {0} scale, as shops use,"
    least = minimum_load(cls, step.base)
    if least is None:
        return (line("No class {0} scale has steps as fine as {1:typed}; look again at what is printed.", cls, step),)
    if weight.base < least:
        return (line(kind + " is not made for less than {1:typed} in such steps.", cls, Mass(least, step.unit)),)
    limit = tolerance(cls, weight.base / step.base)
    if limit is None:
        return (line("That is more steps than a class {0} scale has.", cls),)
    off = Mass(limit.divisions * step.base, step.unit)
    text = kind + " may be off by {1:typed} here once in use: ±{2} (OIML R 76-1)."
    if accuracy is None:
        text += " Most kitchen scales carry no class at all."
    return (line(text, cls, off, share(off, weight)),)


def by_volume(volume: Volume | None, density: Density | None, weight: Mass, step: Mass, half: Mass) -> Table | None:
    """The same amount on the scale, in a cylinder, a beaker and a spoon; None where the volume isn't known."""
    if volume is None and density is not None:
        volume = density.volume_of(weight)
    if volume is None:
        return None
    rows: list[tuple[object, ...]] = [("your scale", line("{0:typed} steps", step), share(half, weight))]
    for kind, name in (
        (MeasureKind.CYLINDER, "measuring cylinder, class B"),
        (MeasureKind.BEAKER, "beaker"),
        (MeasureKind.KITCHEN, "spoon or cup"),
    ):
        found = measure_tolerance(kind, volume.base)
        if found is not None:
            size = line("{}", Volume(found.capacity)) if kind is MeasureKind.CYLINDER else line("by its marks")
            rows.append((name, size, Percent(found.plus_minus / volume.base * 100)))
    title = "The same, measured in other ways"
    note = line("By volume the density's own error comes on top of these.")
    return Table(title, ("With", "Size", "Plus or minus"), tuple(rows), note)


def spoon_line() -> Line:
    """What a measure instead of a scale would do."""
    beaker = measure_tolerance(MeasureKind.BEAKER, Decimal(1))
    assert beaker is not None
    assert beaker.share is not None
    return line(
        "A beaker, spoon or cup is about ±{0}, before the density's own error. Give a density to compare them.",
        Percent(beaker.share * 100),
    )
