"""The list to weigh by: rows on the scale's step that add up to the rounded total, in order of weighing."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal
from itertools import accumulate

from core.answer import Caution, Line, Table, line
from core.book import Book
from core.questions.columns import MOST_AT_ALL, adds_up, column
from core.questions.steps import KITCHEN_OUNCES, KITCHEN_STEP
from core.units import Mass, Percent
from core.writing import significant

# Common practice, no source: under ten steps of the scale a weighing is off by up to 5 % and more.
_FEWEST_STEPS = 10
_OUNCES = ("oz", "lb", "lb_oz")
_OUNCE_PLACES = Mass.of("0.01", "oz").base
_GRAM_PLACES = Decimal("0.1")


@dataclass(frozen=True, slots=True)
class WeighOut:
    """`rows` are names with the exact and the weighed mass, in order of weighing; `step` is the scale's step; `groups`
    how many rows in a row are of one kind (waxes, an additive, fragrance oils)."""

    rows: tuple[tuple[Line, Mass, Mass], ...]
    step: Mass
    groups: tuple[int, ...] = ()

    @property
    def total(self) -> Mass:
        """What all rows weigh together, on the scale's step."""
        return Mass(sum((weighed.base for _, _, weighed in self.rows), Decimal(0)), self.step.unit)

    def weighed(self, first: int, last: int) -> Mass:
        """What the rows from `first` up to but not `last` weigh together."""
        return Mass(sum((weighed.base for _, _, weighed in self.rows[first:last]), Decimal(0)), self.step.unit)


def step_of(said: Mass | None, first_unit: str, book: Book) -> tuple[Mass, bool]:
    """The scale's step, and whether it is known: as said, as recorded, else a kitchen scale's in the asker's unit."""
    if said is not None:
        return said, True
    if book.preferences.step is not None:
        return Mass(book.preferences.step), True
    in_ounces = (book.preferences.first or first_unit) in _OUNCES
    return (KITCHEN_OUNCES if in_ounces else Mass(KITCHEN_STEP)), False


def weigh_out(rows: list[tuple[Line, Mass]], step: Mass, groups: tuple[int, ...] = ()) -> WeighOut:
    """The rows rounded to the scale's step so that they add up to their rounded total, each group to its own."""
    rounded = adds_up([mass.base for _, mass in rows], step.base, groups)
    return WeighOut(
        tuple((name, mass, Mass(weight, step.unit)) for (name, mass), weight in zip(rows, rounded, strict=True)),
        step,
        groups,
    )


def table(out: WeighOut) -> Table:
    """The weigh-out as a table: what, how much, the same in the other unit, and what the scale shows after it."""
    in_ounces = out.step.unit in _OUNCES
    other, heading = (_GRAM_PLACES, "in grams") if in_ounces else (_OUNCE_PLACES, "in ounces")
    weights = [weighed.base for _, _, weighed in out.rows]
    others = adds_up(weights, other, out.groups)
    own, unit = "oz" if out.step.unit == "lb_oz" else out.step.unit, "g" if in_ounces else "oz"
    # The readings end with the total, so the weights and they have their decimals from one column.
    weighed = column([Mass(weight) for weight in (*weights, *accumulate(weights))], own, MOST_AT_ALL)
    beside = column([Mass(weight) for weight in (*others, sum(others, Decimal(0)))], unit)
    names = (*(name for name, _, _ in out.rows), Line("all together"))
    readings = (*weighed[len(weights) :], None)
    rows = list(zip(names, (*weighed[: len(weights)], weighed[-1]), beside, readings, strict=True))
    return Table(
        title="Weigh in this order:",
        columns=("what", "weigh", heading, "scale then shows"),
        rows=tuple(rows),
        note=line("“Scale then shows” holds if you start at 0 with the empty pot on the scale and never press tare."),
    )


def cautions(out: WeighOut, capacity: Mass | None) -> tuple[Caution, ...]:
    """What this scale is too coarse or too small for."""
    found: list[Caution] = []
    small = [
        (name, exact, weighed)
        for name, exact, weighed in out.rows
        if exact and weighed.base < out.step.base * _FEWEST_STEPS
    ]
    for name, exact, weighed in small[:3]:
        if weighed:
            off = Percent(significant(out.step.base / 2 / exact.base * 100, 1))
            words = line(
                "{0} ({1:first}) can be off by about {2} on a scale with {3:typed} steps.", name, exact, off, out.step
            )
        else:
            words = line("{0} ({1:first}) is too little for a scale with {2:typed} steps.", name, exact, out.step)
        found.append(Caution("too_small_to_weigh", line("{} Use a finer scale, or make a larger batch.", words)))
    if len(small) > 3:
        found.append(Caution("too_small_to_weigh", line(f"So can {len(small) - 3} more rows of the list.")))
    if capacity is not None and out.total.base > capacity.base:
        portions = (out.total.base / capacity.base).quantize(Decimal(1), ROUND_CEILING)
        found.append(
            Caution(
                "over_capacity",
                line(
                    f"That is more than the scale carries ({{0:typed}}, the pot counts too): weigh it in at least "
                    f"{portions:,} portions.",
                    capacity,
                ),
            )
        )
    return tuple(found)
