"""How a blend is explained: the shares, a list to weigh by, and the density of the whole as an estimate."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Origin, Result, Step, Table, Worked, line, listed
from core.book import Book
from core.compounds import Material, Parts
from core.mixing import shares
from core.questions.known_density import NEAR_ENOUGH, Known, known_density
from core.questions.steps import in_unit
from core.questions.weigh_out import cautions, step_of, table, weigh_out
from core.units import Density, Mass, Percent, Volume
from core.writing import significant

if TYPE_CHECKING:
    from core.questions.blend import BlendQuestion

_SPELT_OUT = 6
_IN_HEADLINE = 4


def worked(ask: BlendQuestion, parts: Parts, book: Book) -> Worked:
    """Weights where a total is wanted, else percents; the density where every part's is known."""
    names = [line("{}", name) if name else Line(f"part {number}") for number, (name, _) in enumerate(parts.items, 1)]
    percents = [Percent(part / parts.total * 100) for _, part in parts.items]
    known = known_densities(ask, parts, book)
    densities = Parts(tuple(("", each.density.base) for each in known)) if known else None
    density = blend_density(parts, densities) if densities is not None else None
    results: list[Result] = []
    steps: list[Step] = []
    body: list[Line] = []
    assumed: list[Line] = []
    weights: list[Mass] = []
    if ask.total is not None:
        weights = [mass for _, mass in shares(ask.total.in_unit(ask.total.unit), parts.items)]
        results += [Result(f"part_{number}", mass, ask.unit) for number, mass in enumerate(weights, 1)]
        results.append(Result("total", ask.total))
        for name, (_, part), mass in list(zip(names, parts.items, weights, strict=True))[:_SPELT_OUT]:
            numbers = line("{0}: {1:work} × {2} ÷ {3}", name, ask.total, _short(part), _short(parts.total))
            steps.append(Step("weight = total × part ÷ all parts", numbers, line("{0:work}", mass)))
            body += list(in_unit("That", mass, ask.unit))
    else:
        results += [Result(f"part_{number}", percent) for number, percent in enumerate(percents, 1)]
        for name, (_, part), percent in list(zip(names, parts.items, percents, strict=True))[:_SPELT_OUT]:
            numbers = line("{0}: {1} ÷ {2} × 100", name, _short(part), _short(parts.total))
            steps.append(Step("share = part ÷ all parts × 100", numbers, line("{}", percent)))
    if density is not None and densities is not None:
        results.append(Result("density", density))
        steps += _density_steps(parts, percents, densities, density)
        assumed.append(
            line("The density is an estimate: it holds if the volumes add up. Real mixtures differ by a few percent.")
        )
        if ask.total is not None:
            room = density.volume_of(ask.total)
            results.append(Result("volume", room))
            body.append(line("All of it takes about {}.", room))
    step, step_known = step_of(None, ask.total.unit if ask.total is not None else "", book)
    out = weigh_out(list(zip(names, weights, strict=True)), step) if weights else None
    if out is not None and not step_known:
        assumed.append(line("You didn't say your scale's step; the list is rounded to {0:typed}.", step))
    return Worked(
        intent=ask.intent,
        headline=_headline(names, weights or percents, density),
        read_as=_read_as(ask, names, parts),
        given=_givens(ask, known),
        steps=tuple(steps),
        results=tuple(results),
        body=tuple(body),
        table=table(out) if out is not None else _shares(names, percents),
        assumed=tuple(assumed),
        check=line("Check: the rows add up to {0:typed}, exactly.", out.total) if out is not None else None,
        cautions=cautions(out, None) if out is not None else (),
        see=("density",) if density is not None else (),
        question=ask,
    )


def _shares(names: list[Line], percents: list[Percent]) -> Table | None:
    """Every share, where the headline has not room for all."""
    if len(names) <= _IN_HEADLINE:
        return None
    return Table("All parts:", ("part", "share"), tuple(zip(names, percents, strict=True)))


def known_densities(ask: BlendQuestion, parts: Parts, book: Book) -> tuple[Known, ...]:
    """The density of every part, as given or by its name: recorded or published, all at about one temperature. None
    of them where one is lacking."""
    if ask.densities is not None:
        return tuple(Known(Density(each), Origin.ASKED) for _, each in ask.densities.items)
    found = [known_density(None, Material(name), book) if name else None for name, _ in parts.items]
    known = tuple(each for each in found if each is not None)
    warmths = [each.at.base for each in known if each.at is not None]
    alike = not warmths or max(warmths) - min(warmths) <= 2 * NEAR_ENOUGH
    return known if len(known) == len(parts.items) and alike else ()


def blend_density(parts: Parts, densities: Parts) -> Density:
    """Of parts by weight, volumes adding up: all weights over all volumes (1 ÷ ρ = Σ w ÷ ρ)."""
    room = sum((part / each for (_, part), (_, each) in zip(parts.items, densities.items, strict=True)), Decimal(0))
    return Density(parts.total / room)


def _density_steps(parts: Parts, percents: list[Percent], densities: Parts, density: Density) -> tuple[Step, ...]:
    rooms = [Volume(percent.base / each) for percent, (_, each) in zip(percents, densities.items, strict=True)]
    room = Volume(sum((each.base for each in rooms), Decimal(0)))
    if len(parts.items) > _SPELT_OUT:
        numbers = line(f"each of the {len(parts.items)} parts' grams ÷ its density, added up")
    else:
        terms = [
            line("{0} ÷ {1}", _short(percent.base), _short(each))
            for percent, (_, each) in zip(percents, densities.items, strict=True)
        ]
        numbers = listed(terms, " + ")
    return (
        Step("room of 100 g = grams ÷ density, added up", numbers, line("{0:work}", room)),
        Step("density = weight ÷ room", line("100 g ÷ {0:work}", room), line("{}", density)),
    )


def _short(number: Decimal) -> Decimal:
    return significant(number, 5)


def _headline(names: list[Line], figures: list[Mass] | list[Percent], density: Density | None) -> Line:
    shown = [line("{0} of {1}", figure, name) for name, figure in zip(names, figures, strict=True)][:_IN_HEADLINE]
    more = f" and {len(names) - len(shown)} more" if len(names) > len(shown) else ""
    said = line("{}" + more, listed(shown, last="" if more else " and "))
    return line("{0}; together about {1}.", said, density) if density is not None else line("{}.", said)


def _read_as(ask: BlendQuestion, names: list[Line], parts: Parts) -> Line:
    shown = [line("{0} {1}", name, _short(part)) for name, (_, part) in zip(names, parts.items, strict=True)][
        :_SPELT_OUT
    ]
    more = f", and {len(names) - len(shown)} more" if len(names) > len(shown) else ""
    said = line("{}" + more, listed(shown))
    if ask.total is None:
        return line("Read as: {} by weight.", said)
    return line("Read as: {0} by weight, {1:typed} in all.", said, ask.total)


def _givens(ask: BlendQuestion, known: tuple[Known, ...]) -> tuple[Given, ...]:
    out = [Given("total", ask.total)] if ask.total is not None else []
    return (*out, *(Given("density", each.density, each.origin, each.source) for each in known))
