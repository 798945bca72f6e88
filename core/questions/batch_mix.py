"""What goes into the pot for a batch: the fills added up, the spare on top, divided by the load; and the sum of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from core.answer import Answer, Line, Step, Worked, line
from core.book import Book, FormulaRecord
from core.compounds import Additives, Fill, Fills, Load, Masses, Parts
from core.errors import Contradiction, OutOfRange
from core.mixing import NO_ADDITIVES, Mix, Recipe, shares
from core.questions.basis import basis_of
from core.questions.checks import few_kinds
from core.questions.fills import ZERO, Poured
from core.questions.load import LoadQuestion
from core.questions.recorded import formula_found
from core.units import Mass

if TYPE_CHECKING:
    from core.questions.batch import BatchQuestion

_SPELT_OUT = 6


@dataclass(frozen=True, slots=True)
class Pot:
    """Wax alone and finished mix to be melted, spare included, and the steps to them."""

    wax: Mass
    finished: Mass
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Split:
    """The mix, its steps, and what the load question had to say on the way."""

    mix: Mix
    steps: tuple[Step, ...]
    other: tuple[Line, ...] = ()
    assumed: tuple[Line, ...] = ()


def with_formula(ask: BatchQuestion, book: Book) -> tuple[BatchQuestion, FormulaRecord | None]:
    """The question with what the named formula says wherever the asker said nothing."""
    if ask.formula is None:
        if ask.version is not None:
            raise OutOfRange(str(ask.version), "A version is of a formula: give the formula's name too.")
        return ask, None
    record = formula_found(ask.formula, ask.version, book, "Leave it out and give the load instead.")
    fills = ask.fills
    if fills is not None and record.vessel:
        fills = Fills(tuple(in_vessel(fill, record.vessel) for fill in fills.items))
    filled = replace(
        ask,
        fills=fills,
        load=ask.load or Load(record.load, record.basis),
        waxes=ask.waxes or (Parts(record.waxes) if record.waxes else None),
        blend=ask.blend or (Parts(record.fragrances) if record.fragrances else None),
        additives=ask.additives or (Additives(record.additives) if record.additives else None),
    )
    return filled, record


def in_vessel(fill: Fill, vessel: str) -> Fill:
    """The formula's own vessel where nothing else was said of the fill."""
    if fill.weight is None and fill.volume is None and not fill.vessel:
        return replace(fill, vessel=vessel)
    return fill


def check_lists(ask: BatchQuestion) -> None:
    """Raise for lists that are too long, and for parts or percents that can't be."""
    lists = ((ask.waxes, "waxes"), (ask.blend, "fragrance oils"), (ask.additives, "additives"))
    for each, words in lists:
        if each is not None:
            few_kinds(len(each.items), words)
    for parts in (ask.waxes, ask.blend):
        if parts is not None and any(part <= 0 for _, part in parts.items):
            raise OutOfRange("parts", "Every part of a blend must be more than 0. Leave out what isn't in it.")
    if ask.additives is not None and any(percent.base <= 0 for _, percent in ask.additives.items):
        raise OutOfRange("additives", "Every additive must be more than 0 %. Leave out what isn't in it.")
    if ask.additives is not None and ask.additives.fraction > 1:
        raise Contradiction(
            "additives", "Those additives weigh more than the wax. Check the percents: of the wax each."
        )
    if ask.load is not None and ask.load.percent.base < 0:
        raise OutOfRange("load", "A load can't be less than 0 %. Which percent did you mean, such as 6 %?")
    for mass in (ask.spare_weight, ask.spare):
        if mass is not None and mass.base < 0:
            raise OutOfRange("spare", "The spare can't be less than nothing. Check the minus sign.")
    if ask.spare is not None and ask.spare.base > 100:
        raise OutOfRange("spare", "More than 100 % spare would be a second batch. Ask for a larger batch instead.")


def pot_of(ask: BatchQuestion, fills: Poured) -> Pot:
    """The spare put on top of the fills. Spare wax takes its fragrance with it."""
    wax, finished = fills.wax, fills.finished
    steps = list(fills.steps)
    if ask.spare:
        factor = 1 + ask.spare.fraction
        for before in (wax, finished):
            if before:
                steps.append(
                    Step(
                        "with the spare",
                        line("{0:work} × (100 + {1:bare}) ÷ 100", before, ask.spare),
                        line("{0:work}", before * factor),
                    )
                )
        wax, finished = wax * factor, finished * factor
    if ask.spare_weight:
        before = finished or wax
        after = before + ask.spare_weight
        steps.append(
            Step("with the spare", line("{0:work} + {1:work}", before, ask.spare_weight), line("{0:work}", after))
        )
        wax, finished = (wax, after) if finished else (after, finished)
    return Pot(wax, finished, tuple(steps))


def split(ask: BatchQuestion, pot: Pot, book: Book) -> Split | Answer:
    """The pot divided by the load; the load question's own answer where it declines."""
    assert ask.load is not None
    additives = ask.additives or NO_ADDITIVES
    recipe = Recipe(ask.load.percent, basis_of(ask.load, ask.basis, book)[0], additives)
    by_wax, by_total = recipe.of_wax(pot.wax), _of_total(recipe, pot.finished)
    mix = _together(by_wax, by_total)
    steps: list[Step] = []
    other: tuple[Line, ...] = ()
    assumed: tuple[Line, ...] = ()
    if ask.load.percent:
        for wax, total in ((pot.wax, ZERO), (ZERO, pot.finished)):
            if not wax and not total:
                continue
            part = LoadQuestion(
                wax=Masses.one(wax.in_unit("g")) if wax else None,
                total=total.in_unit("g") if total else None,
                load=ask.load,
                basis=ask.basis,
                additives=ask.additives,
            ).answer(book)
            if not isinstance(part, Worked):
                return part
            steps += part.steps
            assumed = part.assumed
            other = part.other if not (pot.wax and pot.finished) else ()
    elif pot.finished and mix.additives:
        steps.append(
            Step(
                "wax = total ÷ (100 + additives) × 100",
                line("{0:work} ÷ (100 + {1}) × 100", pot.finished, additives.fraction * 100),
                line("{0:work}", mix.wax),
            )
        )
    if pot.wax and pot.finished:
        both = [("all the wax", by_wax.wax, by_total.wax)]
        if mix.fragrance:
            both.append(("all the fragrance", by_wax.fragrance, by_total.fragrance))
        steps += [
            Step(what, line("{0:work} + {1:work}", one, two), line("{0:work}", one + two)) for what, one, two in both
        ]
    return Split(mix, (*steps, *_additive_steps(additives, mix)), other, assumed)


def _of_total(recipe: Recipe, total: Mass) -> Mix:
    """The mix that weighs `total`. Without fragrance nothing is left over for it, not even a last digit."""
    mix = recipe.of_total(total)
    return mix if recipe.load else Mix(mix.wax + mix.fragrance, ZERO, mix.additives)


def _together(one: Mix, two: Mix) -> Mix:
    additives = tuple((name, mass + more) for (name, mass), (_, more) in zip(one.additives, two.additives, strict=True))
    return Mix(one.wax + two.wax, one.fragrance + two.fragrance, additives)


def _additive_steps(additives: Additives, mix: Mix) -> tuple[Step, ...]:
    if len(additives.items) > _SPELT_OUT:
        return ()
    return tuple(
        Step(
            "additive = wax × percent ÷ 100",
            line("{0}: {1:work} × {2:bare} ÷ 100", name, mix.wax, percent),
            line("{0:work}", mass),
        )
        for (_, percent), (name, mass) in zip(additives.items, mix.additives, strict=True)
    )


def rows_to_weigh(ask: BatchQuestion, mix: Mix) -> list[tuple[Line, Mass]]:
    """Everything to weigh, in order: waxes, then what melts into them, the fragrance last."""
    rows = _divided(mix.wax, ask.waxes, "wax", ask.material)
    rows += [(line("{}", name), mass) for name, mass in mix.additives]
    return rows + (_divided(mix.fragrance, ask.blend, "fragrance oil", ask.oil) if mix.fragrance else [])


def groups_to_weigh(ask: BatchQuestion, mix: Mix) -> tuple[int, ...]:
    """How many of those rows are of one kind: the waxes, each additive, the fragrance oils."""
    return (count_of(ask.waxes), *(1 for _ in mix.additives), *((count_of(ask.blend),) if mix.fragrance else ()))


def _divided(whole: Mass, parts: Parts | None, what: str, name: str | None) -> list[tuple[Line, Mass]]:
    if parts is None or not parts.items:
        return [(line("{}", name) if name else Line(what), whole)]
    named = [line("{}", own) if own else Line(f"{what} {number}") for number, (own, _) in enumerate(parts.items, 1)]
    return [(name, mass) for name, (_, mass) in zip(named, shares(whole, parts.items), strict=True)]


def count_of(parts: Parts | None) -> int:
    """Into how many rows a wax or a fragrance divides."""
    return len(parts.items) if parts is not None and parts.items else 1
