"""How a net weight is explained: the sum, the statement for each set of rules, heights and allowed shortfalls."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Origin, Result, Step, Worked, line, listed
from core.book import Book
from core.mixing import Mix, Recipe
from core.questions.cautions import may_offer, mix_cautions
from core.questions.label_statement import First, metric_figure, us_statement
from core.questions.rules import LOCAL_RULES, Rules, asked
from core.questions.vessel_shape import PI
from core.reference import labelling
from core.reference.table import Status
from core.units import Length, Mass, Number, Percent
from core.writing import rounded

if TYPE_CHECKING:
    from core.questions.label import LabelQuestion

CLOSE = Decimal("0.005")  # what rounding leaves between two statements of one weight
MOST_PLACES = 6  # of a figure as typed; what lies beyond is what a conversion leaves
SQUARE_INCH = Decimal("25.4") ** 2  # mm²


@dataclass(frozen=True, slots=True)
class Net:
    """A net weight, the sum it comes from, and the mix and recipe where it was worked from them."""

    mass: Mass
    numbers: Line
    mix: Mix | None = None
    recipe: Recipe | None = None
    basis_from: Origin = Origin.ASKED


def labelled(ask: LabelQuestion, net: Net, book: Book) -> Worked:
    """The whole answer for a net weight."""
    first = ask.first or (First.GRAMS if ask.unit in ("g", "kg") else First.OUNCES)
    wanted = asked(ask.rules)
    results = [Result("net", net.mass.in_unit("oz"), "oz"), Result("net_g", net.mass.in_unit("g"), "g")]
    body: list[Line] = []
    steps = [Step("net weight = everything but the vessel", net.numbers, line("{0}", net.mass))]
    if Rules.US in wanted:
        results += _us(ask, net.mass, first, body, steps)
    if Rules.EU_UK in wanted:
        results += _metric(net.mass, body)
    body.append(line("Jar, lid, box and wrapping never count."))
    headline = _headline(net.mass, first, wanted)
    if ask.printed is not None:
        headline = _against_print(net.mass, ask.printed)
        results.append(Result("printed", ask.printed, ask.printed.unit))
        results.append(Result("over_print", net.mass - ask.printed, ask.printed.unit))
        apart = Mass(abs(net.mass.base - ask.printed.base), ask.printed.unit)
        if apart:
            share = Percent(apart.base / ask.printed.base * 100)
            body.append(line("That is {0} of what is printed.", share))
            steps.append(
                Step("apart ÷ printed × 100", line("{0:work} ÷ {1:work}", apart, ask.printed), line("{}", share))
            )
            results.append(Result("apart", share))
    return Worked(
        intent=ask.intent,
        headline=headline,
        read_as=_read_as(ask, net),
        given=_givens(ask),
        steps=tuple(steps),
        results=tuple(results),
        body=tuple(body),
        other=_other_basis(net),
        assumed=_assumed(net),
        cautions=(LOCAL_RULES, *(mix_cautions(ask.wax, net.mix.load_of_wax, book) if net.mix is not None else ())),
        see=("net_weight",),
        question=ask,
    )


def _headline(net: Mass, first: First, wanted: tuple[Rules, ...]) -> Line:
    if Rules.US in wanted:
        return line("Net weight {0}. US label: “{1}”.", net, Line(us_statement(net).text(first)))
    return line("Net weight {0}. EU or UK label: “{1:g}”.", net, metric_figure(net))


def _against_print(net: Mass, printed: Mass) -> Line:
    """Whether the net weight is what is printed, as finely as that is written."""
    unit = printed.unit if printed.unit in ("oz", "lb", "g", "kg") else "g"
    typed = rounded(printed.to(unit), MOST_PLACES).normalize()
    places = max(0, -int(typed.as_tuple().exponent))
    found = rounded(net.to(unit), places)
    if abs(net.base - printed.base) <= net.base * CLOSE or (places and found == typed):
        return line("They agree: the net weight is {0}, and {1:typed} is printed.", net, printed)
    apart = Mass(abs(net.base - printed.base), printed.unit)
    if net > printed:
        return line("The net weight is {0}: {2} more than the {1:typed} printed.", net, printed, apart)
    return line("The net weight is {0}: {2} short of the {1:typed} printed.", net, printed, apart)


def _us(ask: LabelQuestion, net: Mass, first: First, body: list[Line], steps: list[Step]) -> list[Result]:
    """The US statement's own lines; its results."""
    statement = us_statement(net)
    steps.append(
        Step(
            "US label (16 CFR 500.19): three digits, the rest cut off so that it never promises too much",
            line("{0} oz and {1} g", rounded(net.to("oz"), 4), rounded(net.base, 2)),
            Line(f"{statement.ounces} and {statement.grams}"),
        )
    )
    share = labelling.rule("bottom share")
    area = _panel_area(ask)
    if area is None:
        body.append(line("US: the front's height and width (or diameter) would give how high the figures must be."))
        return []
    height = labelling.type_height(area.base)
    assert height is not None
    source = _source(height.source, height.status)
    body.append(
        line(
            f"US: the front counts as {{0}} in²: figures at least {height.inch} in ({{1:mm}}) high ({{2}}).",
            *(area, Length(height.mm, "mm"), source),
        )
    )
    small = labelling.rule("small panel")
    if area.base > small.value and ask.panel_height is not None:
        low = Length(ask.panel_height.base * share.value, ask.panel_height.unit)
        body.append(
            line(
                "US: put it in the lowest {0} of the front, level with its base ({1}).",
                low,
                _source(share.source, share.status),
            )
        )
    return [Result("type_height", Length(height.mm, "mm")), Result("panel_area_in2", area)]


def _panel_area(ask: LabelQuestion) -> Number | None:
    """The display panel in square inches (16 CFR 500.21): height × width, or 40 % of height × circumference."""
    if ask.panel_height is None:
        return None
    if ask.panel_width is not None:
        return Number(ask.panel_height.base * ask.panel_width.base / SQUARE_INCH)
    if ask.diameter is None:
        return None
    share = labelling.rule("cylinder panel share").value
    return Number(share * PI * ask.diameter.base * ask.panel_height.base / SQUARE_INCH)


def _metric(net: Mass, body: list[Line]) -> list[Result]:
    """The metric statement's own lines; its results."""
    nominal = metric_figure(net)
    height = labelling.eu_figure_height(nominal.base)
    if height is not None:
        body.append(
            line(
                "EU and UK: “{0:g}” first, ounces only after it and no larger; figures at least {1:mm} high ({2}).",
                *(nominal, Length(height.mm, "mm"), _source(height.source, height.status)),
            )
        )
    found = labelling.tne(nominal.base)
    if found is None:
        body.append(line("EU and UK: the average-weight rules cover 5 g to 10 kg (UK: 25 kg), so not this one."))
        return []
    tne, t1, t2 = (Mass(grams) for grams in (found.grams, found.t1, found.t2))
    body.append(
        line(
            "EU and UK: a batch must average {0:g}. Allowed shortfall {1:typed}: few may lie below {2:typed}, none "
            "below {3:typed} ({4}).",
            *(nominal, tne, t1, t2, _source(found.source, found.status)),
        )
    )
    return [Result("t1", t1), Result("t2", t2), Result("tne", tne), Result("nominal", nominal)]


def _source(source: str, status: Status) -> Line:
    return line("{0}" if status is not Status.MEMORY or "memory" in source else "{0}, from memory", source)


def _read_as(ask: LabelQuestion, net: Net) -> Line:
    parts: list[Line] = []
    if net.mix is not None:
        parts.append(line("{0:typed} of wax", net.mix.wax))
        if net.recipe is not None:
            parts.append(line(f"{{0:typed}} fragrance {net.recipe.basis.words}", net.recipe.load))
        else:
            parts.append(line("{0:typed} of fragrance", net.mix.fragrance))
    elif ask.net is not None:
        parts.append(line("{0:typed} of net weight", ask.net))
    else:
        parts.append(line("filled {0:typed}, empty {1:typed}", ask.gross, ask.vessel))
    return line("Read as: {}, in one candle.", listed(parts))


def _givens(ask: LabelQuestion) -> tuple[Given, ...]:
    out = [Given(name or "wax", mass) for name, mass in (ask.wax.items if ask.wax else ())]
    for what in ("fragrance", "net", "gross", "vessel", "panel_height", "panel_width", "diameter"):
        value = getattr(ask, what)
        if value is not None:
            out.append(Given(what, value))
    if ask.load is not None:
        out.append(Given("load", ask.load.percent))
    out += [Given(name, percent) for name, percent in (ask.additives.named if ask.additives else ())]
    return tuple(out)


def _other_basis(net: Net) -> tuple[Line, ...]:
    if net.recipe is None or net.mix is None or not net.recipe.load:
        return ()
    other = replace(net.recipe, basis=net.recipe.basis.other)
    if not may_offer(other):
        return ()
    words = Line(other.basis.words)
    return (line("If your recipe means {0:typed} {1}: net {2}.", other.load, words, other.of_wax(net.mix.wax).total),)


def _assumed(net: Net) -> tuple[Line, ...]:
    if net.basis_from is not Origin.ASSUMED or net.recipe is None:
        return ()
    return (line(f"You didn't say what the percent is of; I took it as a percent {net.recipe.basis.value}."),)
