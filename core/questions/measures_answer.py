"""One household measure in each country, side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from core.answer import Line, Result, Step, Table, Worked, line
from core.compounds import HouseholdMeasure
from core.units import Mass, Percent, Volume, kind_of

if TYPE_CHECKING:
    from core.questions.convert import CompareMeasuresQuestion

KEYS = {
    HouseholdMeasure.FL_OZ: "fl_oz",
    HouseholdMeasure.CUP: "cup",
    HouseholdMeasure.PINT: "pint",
    HouseholdMeasure.QUART: "quart",
    HouseholdMeasure.GALLON: "gallon",
    HouseholdMeasure.TBSP: "tbsp",
    HouseholdMeasure.TSP: "tsp",
}
# Country, and where its size comes from.
COUNTRIES = {
    "us": ("US", "NIST Handbook 44: the gallon is 231 cubic inches"),
    "imp": ("imperial (British)", "UK Weights and Measures Act 1985: the gallon is 4.54609 L"),
    "label": ("US nutrition label", "US rule 21 CFR 101.9(b)(5)(viii)"),
    "metric": ("metric", "common practice, no source"),
}
NAMES = {"us": "us", "imp": "imperial", "label": "label", "metric": "metric"}


def compared(ask: CompareMeasuresQuestion, measure: HouseholdMeasure) -> Worked:
    """The US and the imperial size, and the label's and metric ones where there are such."""
    key = KEYS[measure]
    sizes = {c: Volume.of(1, f"{c}_{key}") for c in COUNTRIES if kind_of(f"{c}_{key}") is Volume}
    us, imperial = sizes["us"], sizes["imp"]
    bigger = imperial > us
    off = Percent(abs(imperial.base / us.base - 1) * 100)
    word = "larger" if bigger else "smaller"
    return Worked(
        intent=ask.intent,
        headline=line(
            f"The imperial (British) {measure.value} is {word}: {{0:work}}, against {{1:work}} for the US one.",
            imperial,
            us,
        ),
        read_as=line(f"Read as: the {measure.value} in each country."),
        steps=(
            Step(
                "imperial ÷ US",
                line("{0:work} ÷ {1:work} = {2} of it", imperial, us, Percent(imperial.base / us.base * 100)),
                line(f"{{0}} {word}", off),
            ),
        ),
        results=tuple(Result(NAMES[country], size) for country, size in sizes.items()),
        table=Table(
            f"One {measure.value}:",
            ("Whose", "Holds", "By"),
            tuple((Line(COUNTRIES[c][0]), line("{0:work}", size), Line(COUNTRIES[c][1])) for c, size in sizes.items()),
        ),
        body=_body(measure),
        see=("ounces",) if measure is HouseholdMeasure.FL_OZ else ("density",),
        question=ask,
    )


def _body(measure: HouseholdMeasure) -> tuple[Line, ...]:
    if measure is HouseholdMeasure.FL_OZ:
        return (line("An ounce of weight is the same in both countries: {0:g}.", Mass.of(1, "oz")),)
    return (line("All of them measure room, not weight: for a candle, weigh instead."),)
