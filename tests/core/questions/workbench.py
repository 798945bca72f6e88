"""A workshop's invented vessels and formulas, and a walk over everything an answer would show."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from core.answer import Answer, Choice, Line, Missing
from core.book import EmptyBook, FormulaRecord, MaterialRecord, VesselRecord
from core.compounds import Basis, Fill, Fills, Load, Parts
from core.units import Density, Mass, Percent, Volume
from core.writing import Style, write


def percent(value: str | int) -> Percent:
    return Percent(Decimal(value))


def load(value: str | int, basis: Basis | None = None) -> Load:
    return Load(percent(value), basis)


def parts(*numbers: str | int, names: Sequence[str] = ()) -> Parts:
    labels = names or [""] * len(numbers)
    return Parts(tuple((name, Decimal(number)) for name, number in zip(labels, numbers, strict=True)))


SOY = MaterialRecord("House soy", "wax", Density.of("0.905"), Decimal("0.004"), how="weighed by Ada on 3 May")
VESSELS = (
    VesselRecord("Amber", room=Volume.of(250), how="weighed by Ada on 3 May"),
    VesselRecord("Tin", fill=Mass.of(90), how="weighed by Bo on 1 May"),
)
PINE = FormulaRecord(
    "Pine",
    3,
    percent(8),
    Basis.TOTAL,
    waxes=(("soy", Decimal(70)), ("coconut", Decimal(30))),
    fragrances=(("fir", Decimal(3)), ("cedar", Decimal(1))),
    additives=(("dye", percent("0.1")),),
    vessel="tin",
)


@dataclass(frozen=True)
class Workbench(EmptyBook):
    """A book of these records, found by name whatever the case."""

    def material(self, name: str) -> MaterialRecord | None:
        return SOY if name.casefold() == SOY.name.casefold() else None

    def vessel(self, name: str) -> VesselRecord | None:
        return next((each for each in VESSELS if each.name.casefold() == name.casefold()), None)

    def formula(self, name: str, version: int | None = None) -> FormulaRecord | None:
        return PINE if name.casefold() == PINE.name.casefold() else None

    def names(self, kind: str, start: str, limit: int = 25) -> Sequence[str]:
        known = {"material": [SOY.name], "vessel": [each.name for each in VESSELS], "formula": [PINE.name]}[kind]
        return [name for name in known if name[:2].casefold() == start[:2].casefold()][:limit]


STYLES = (Style(), Style(first="oz", comma=True), Style(step=Decimal("0.1"), escape=lambda text: f"<{text}>"))


def shown(answer: Answer) -> str:
    """Everything the answer would show, in several styles: a template that lost its values fails here."""
    return "\n".join(text for style in STYLES for text in _texts(answer, style))


def _texts(answer: Answer, style: Style) -> Iterator[str]:
    lines: list[Line | None] = [answer.headline, answer.read_as, *answer.body, *answer.other, *answer.assumed]
    lines += [answer.check, *(given.source for given in answer.given), *(caution.line for caution in answer.cautions)]
    for step in answer.steps:
        yield step.formula
        lines += [step.numbers, step.result]
    if isinstance(answer, Missing):
        lines += [*answer.guide, *(need.what for need in answer.needs), *(need.how for need in answer.needs)]
    if isinstance(answer, Choice):
        lines += [option.means for option in answer.options]
    for row in answer.table.rows if answer.table is not None else ():
        lines += [cell for cell in row if isinstance(cell, Line)]
    yield from (each.show(style) for each in lines if each is not None)
    yield from (write(result.value, style) for result in answer.results)


def fills(*each: tuple[int, Mass | Volume | str]) -> Fills:
    out = []
    for count, what in each:
        if isinstance(what, Mass):
            out.append(Fill(count, weight=what))
        elif isinstance(what, Volume):
            out.append(Fill(count, volume=what))
        else:
            out.append(Fill(count, vessel=what))
    return Fills(tuple(out))
