"""How a batch is answered: the weights, the list to weigh by, the load really reached, and what is missing."""

from __future__ import annotations

from decimal import ROUND_CEILING, Decimal
from typing import TYPE_CHECKING

from core.answer import Caution, Given, Line, Missing, Need, Origin, Result, Worked, line, listed
from core.book import Book, FormulaRecord
from core.compounds import Basis, State, Stuff
from core.mixing import NO_ADDITIVES, Mix, Recipe
from core.questions.basis import basis_of
from core.questions.batch_mix import Pot, Split, count_of, groups_to_weigh, rows_to_weigh
from core.questions.batch_sheets import density_lines, limit, sheet_lines, unknown_lines
from core.questions.cautions import load_cautions
from core.questions.estimates import guide_for, vessel_guide
from core.questions.fills import FillIs, Poured
from core.questions.known_density import Known, density_cautions, need_density
from core.questions.load import NEED_LOAD
from core.questions.steps import in_unit
from core.questions.weigh_out import WeighOut, step_of, table, weigh_out
from core.questions.weigh_out import cautions as scale_cautions
from core.units import Number, Percent, Volume
from core.writing import rounded

if TYPE_CHECKING:
    from core.questions.batch import BatchQuestion

# Common practice, no source: a pot is not filled further, so that stirring spills no hot wax.
_FULL_POT = Decimal("0.8")

NEED_FILL = Need(
    "fill_weight",
    line("how much goes into each one, by weight"),
    line(
        "Weigh one empty, fill it and weigh it again; or weigh the water it holds up to the line and ask “vessel”. "
        "Then ask again, such as “12 x 200 g”."
    ),
)
NEED_COUNT = Need("number_of_vessels", line("how many there are to pour"), line("Such as “12 x 200 g”."))


def no_fill(ask: BatchQuestion) -> Missing:
    """Nothing says how much goes into each, or how many there are."""
    fills = ask.fills.items if ask.fills is not None else ()
    counted = any(fill.count for fill in fills)
    sized = bool(fills) and all(fill.weight is not None or fill.volume is not None or fill.vessel for fill in fills)
    needs = (*(() if sized else (NEED_FILL,)), *(() if counted else (NEED_COUNT,)))
    if not sized and not counted:
        headline = "I need to know what you pour: how many, and how much goes into each."
    else:
        headline = (
            "A load is a percent of a weight: I need what goes into each one."
            if not sized
            else "How many do you want to pour?"
        )
    return Missing(
        intent=ask.intent,
        headline=line(headline),
        needs=needs if ask.load is not None else (*needs, NEED_LOAD),
        question=ask,
        see=("jar_ounces",),
    )


def no_density(ask: BatchQuestion, room: Volume, count: int) -> Missing:
    """A vessel is known by its room only."""
    needs = (need_density(Stuff.WAX, ask.material),)
    return Missing(
        intent=ask.intent,
        headline=line("{0:typed} is room, not weight: I need the wax's density.", room),
        needs=needs if ask.load is not None else (*needs, NEED_LOAD),
        guide=vessel_guide(room * count, None, None),
        question=ask,
        see=("density",),
    )


def no_load(ask: BatchQuestion, fills: Poured, pot: Pot) -> Missing:
    """The sum is known, its share of fragrance is not."""
    total = pot.finished + pot.wax if pot.finished else pot.wax
    if pot.wax and not pot.finished:
        headline, what = line("{} of wax in all. For the fragrance I need the load.", pot.wax), "wax"
    else:
        headline, what = line("{} in all. To divide it into wax and fragrance I need the load.", total), "total"
    results = [Result(what, total, ask.unit)] if not (pot.wax and pot.finished) else []
    return Missing(
        intent=ask.intent,
        headline=headline if results else line("For the fragrance I need the load."),
        read_as=_read_as(ask, fills, None),
        given=fills.given,
        steps=pot.steps,
        results=(*results, Result("count", Number(Decimal(fills.count)))),
        needs=(NEED_LOAD,),
        question=ask,
        see=("bases",),
    )


def worked(
    ask: BatchQuestion,
    fills: Poured,
    pot: Pot,
    found: Split,
    formula: FormulaRecord | None,
    known: Known | None,
    book: Book,
) -> Worked:
    """The whole batch."""
    mix = found.mix
    step, step_known = step_of(ask.step, (pot.wax or pot.finished).unit, book)
    out = weigh_out(rows_to_weigh(ask, mix), step, groups_to_weigh(ask, mix))
    load, load_of_total = _reached(ask, mix, out)
    body = [line("Together in the pot: {}.", out.total or mix.total)]
    if mix.fragrance:
        body.append(line("Weighed by this list, the load is {0} of the wax, {1} of the total.", load, load_of_total))
        if rounded(load.base, 2) != rounded(mix.load_of_wax.base, 2):
            body.append(line("Without that rounding it would be {} of the wax.", mix.load_of_wax))
    if ask.unit:
        body += in_unit("The wax", mix.wax, ask.unit)
        body += in_unit("The fragrance oil", mix.fragrance, ask.unit) if mix.fragrance else ()
    body += sheet_lines(ask, book)
    assumed = [*unknown_lines(ask, book), *found.assumed]
    if ask.fill_is is None and fills.any_by_weight:
        assumed.append(line("You didn't say what the weight of each is; I took it as the wax alone."))
    if known is not None and fills.any_by_room:
        assumed += density_lines(known)
    if not step_known:
        assumed.append(line("You didn't say your scale's step; the list is rounded to {0:typed}.", step))
    cautions = (
        *(load_cautions(mix.load_of_wax, limit(ask, book)) if mix.fragrance else ()),
        *scale_cautions(out, ask.scale_capacity),
        *_pot_cautions(ask.pot, mix),
        *(density_cautions(known, None) if known is not None and fills.any_by_room else ()),
    )
    return Worked(
        intent=ask.intent,
        headline=_headline(mix, fills.count),
        read_as=_read_as(ask, fills, formula),
        given=(*fills.given, *_density_given(fills, known), *_load_given(ask, formula)),
        steps=(*pot.steps, *found.steps),
        results=_results(ask, mix, fills, load, load_of_total),
        body=tuple(body),
        table=table(out),
        other=(*found.other, *_as_finished(ask, fills, pot, book)),
        assumed=tuple(assumed),
        check=line("Check: the rows add up to {0:typed}, exactly.", out.total),
        cautions=cautions,
        see=("tare",),
        question=ask,
    )


def _as_finished(ask: BatchQuestion, fills: Poured, pot: Pot, book: Book) -> tuple[Line, ...]:
    """The figures if the weight of each was meant with its fragrance, where nobody said."""
    if ask.load is None or not ask.load.percent or ask.fill_is is not None or not fills.all_by_weight:
        return ()
    recipe = Recipe(ask.load.percent, basis_of(ask.load, ask.basis, book)[0], ask.additives or NO_ADDITIVES)
    mix = recipe.of_total(pot.wax)
    return (
        line(
            "If the weight of each is {0}: {1} of wax and {2} of fragrance oil.",
            Line(FillIs.FINISHED.value),
            mix.wax,
            mix.fragrance,
        ),
    )


def _reached(ask: BatchQuestion, mix: Mix, out: WeighOut) -> tuple[Percent, Percent]:
    """The load of the weighed rows; the exact one where the scale shows no wax at all."""
    waxes = count_of(ask.waxes)
    wax = out.weighed(0, waxes)
    if not wax or not mix.fragrance:
        return mix.load_of_wax, mix.load_of_total
    oil = out.weighed(waxes + len(mix.additives), len(out.rows))
    return Percent(oil.base / wax.base * 100), Percent(oil.base / out.total.base * 100)


def _headline(mix: Mix, count: int) -> Line:
    parts = [line("{} of wax", mix.wax)]
    if mix.fragrance:
        parts.append(line("{} of fragrance oil", mix.fragrance))
    parts += [line("{1} of {0}", name, mass) for name, mass in mix.additives[:3]]
    if len(mix.additives) > 3:
        more = len(mix.additives) - 3
        parts.append(Line(f"{more} more additive{'s' if more > 1 else ''}"))
    return line("{}" + (f", enough for {count:,}." if count > 1 else "."), listed(parts, last=" and "))


def _read_as(ask: BatchQuestion, fills: Poured, formula: FormulaRecord | None) -> Line:
    parts = [fills.read_as]
    if fills.wax and not fills.finished:
        parts.append(Line(FillIs.WAX.value))
    elif fills.finished and not fills.wax:
        parts.append(Line(FillIs.FINISHED.value))
    if ask.load is not None and not ask.load.percent:
        parts.append(Line("no fragrance"))
    elif ask.load is not None:
        basis = ask.load.basis or ask.basis
        parts.append(
            line("{0:typed}" + (f" {basis.value}" if isinstance(basis, Basis) else " fragrance"), ask.load.percent)
        )
    if ask.spare:
        parts.append(line("{0:typed} spare", ask.spare))
    if ask.spare_weight:
        parts.append(line("{0:typed} spare", ask.spare_weight))
    if formula is not None:
        parts.append(line("formula “{0}”, version {1}", formula.name, Decimal(formula.version)))
    return line("Read as: {}.", listed(parts))


def _density_given(fills: Poured, known: Known | None) -> tuple[Given, ...]:
    return (
        (Given("density", known.density, known.origin, known.source),)
        if known is not None and fills.any_by_room
        else ()
    )


def _load_given(ask: BatchQuestion, formula: FormulaRecord | None) -> tuple[Given, ...]:
    if ask.load is None:
        return ()
    if formula is not None and ask.load.percent == formula.load:
        source = line("“{0}”, {1}", formula.name, formula.how) if formula.how else line("“{}”", formula.name)
        return (Given("load", ask.load.percent, Origin.RECORDED, source),)
    return (Given("load", ask.load.percent),)


def _results(ask: BatchQuestion, mix: Mix, fills: Poured, load: Percent, load_of_total: Percent) -> tuple[Result, ...]:
    unit = ask.unit
    out = [Result("total", mix.total, unit), Result("wax", mix.wax, unit), Result("fragrance", mix.fragrance, unit)]
    out += [Result(name, mass) for name, mass in mix.additives]
    rows = rows_to_weigh(ask, mix)
    waxes = count_of(ask.waxes)
    if waxes > 1:
        out += [Result(f"wax_{number}", mass) for number, (_, mass) in enumerate(rows[:waxes], 1)]
    if count_of(ask.blend) > 1 and mix.fragrance:
        oils = rows[waxes + len(mix.additives) :]
        out += [Result(f"fragrance_{number}", mass) for number, (_, mass) in enumerate(oils, 1)]
    out += [Result("count", Number(Decimal(fills.count))), Result("load", load), Result("load_of_total", load_of_total)]
    return tuple(out)


def _pot_cautions(pot: Volume | None, mix: Mix) -> tuple[Caution, ...]:
    """Does it fit, molten? The lightest molten wax that is published takes the most room."""
    guide = guide_for(Stuff.WAX, None, State.MOLTEN)
    if pot is None or guide is None:
        return ()
    room = guide.low.volume_of(mix.total)
    if room.base <= pot.base * _FULL_POT:
        return ()
    if room.base <= pot.base:
        words = line(
            "Molten it can take {0}: that fills the pot to the top, and hot wax spills. Use a larger pot.", room
        )
        return (Caution("pot_full", words),)
    pots = (room.base / (pot.base * _FULL_POT)).quantize(Decimal(1), ROUND_CEILING)
    words = line(f"Molten it can take {{0}}: more than the pot's {{1:typed}}. Melt it in {pots:,} portions.", room, pot)
    return (Caution("pot_too_small", words),)
