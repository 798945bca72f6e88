"""How a load question is explained: givens, steps, the other basis, the way back, what the scale can show."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Caution, Given, Line, Origin, Result, Step, Worked, line
from core.book import Book
from core.compounds import Basis
from core.mixing import FULL, Mix, Recipe, shares
from core.questions.cautions import load_cautions
from core.questions.steps import in_unit, on_the_scale, to_grams
from core.units import Mass, Percent

if TYPE_CHECKING:
    from core.questions.load import LoadQuestion


@dataclass(frozen=True, slots=True)
class Solved:
    """The mix; the recipe it follows, None where the load itself was looked for; where the basis came from."""

    mix: Mix
    recipe: Recipe | None
    basis_from: Origin


def worked(ask: LoadQuestion, solved: Solved, book: Book) -> Worked:
    """The whole answer for a solved question."""
    mix, recipe = solved.mix, solved.recipe
    reached = mix.load_of_wax
    cautions = load_cautions(reached, ask.limit)
    if recipe is None or (ask.wax is not None and ask.fragrance is not None):
        answer = _load_found(ask, solved)
    else:
        answer = _weights_found(ask, solved, recipe, book)
    if ask.strength is not None and reached.base > 12:
        cautions += (
            Caution(
                "much_liquid", line("That is {} of liquid in the wax, carrier and all: more than most hold.", reached)
            ),
        )
    return replace(answer, cautions=cautions)


def _givens(ask: LoadQuestion, solved: Solved) -> tuple[Given, ...]:
    out: list[Given] = []
    if ask.wax is not None:
        out += [Given("wax" if len(ask.wax.items) == 1 else name or "wax", mass) for name, mass in ask.wax.items]
    for what in ("fragrance", "total", "strength", "limit"):
        value = getattr(ask, what)
        if value is not None:
            out.append(Given(what, value))
    if ask.load is not None:
        out.append(
            Given("load", ask.load.percent, Origin.ASKED, line("{}", ask.load.typed) if ask.load.typed else None)
        )
    if ask.additives is not None:
        out += [Given(name, percent) for name, percent in ask.additives.items]
    return tuple(out)


def _read_as(ask: LoadQuestion, recipe: Recipe | None) -> Line:
    """What was understood, so that a misreading shows."""
    parts: list[Line] = []
    if ask.wax is not None:
        if len(ask.wax.items) > 1:
            template = " + ".join(f"{{{2 * i}:typed}} {{{2 * i + 1}}}" for i in range(len(ask.wax.items)))
            values = [v for name, mass in ask.wax.items for v in (mass, name or "wax")]
            parts.append(line(template + " of wax together", *values))
        else:
            parts.append(line("{0:typed} of wax", ask.wax.total))
    if ask.fragrance is not None:
        parts.append(line("{0:typed} of fragrance oil", ask.fragrance))
    if ask.total is not None:
        parts.append(line("{0:typed} in all", ask.total))
    if ask.load is not None and recipe is not None:
        typed = f" (“{'{1}'}”)" if ask.load.typed else ""
        parts.append(line("{0:typed}" + typed + f" {recipe.basis.words}", ask.load.percent, ask.load.typed))
    if ask.strength is not None:
        parts.append(line("an oil that is {0:typed} fragrance", ask.strength))
    for name, percent in ask.additives.items if ask.additives else ():
        parts.append(line("{0} {1:typed} of the wax", name, percent))
    if ask.density is not None:
        parts.append(line("an oil of {0:typed}", ask.density))
    return line("Read as: " + ", ".join("{}" for _ in parts) + ".", *parts)


def _added_wax(ask: LoadQuestion, mix: Mix) -> tuple[Step, ...]:
    if ask.wax is None:
        return ()
    if len(ask.wax.items) == 1:
        return to_grams("wax", ask.wax.total)
    numbers = line(" + ".join(f"{{{i}:work}}" for i in range(len(ask.wax.items))), *[m for _, m in ask.wax.items])
    return (Step("all the wax", numbers, line("{0:work}", mix.wax)),)


def _load_found(ask: LoadQuestion, solved: Solved) -> Worked:
    """Two weights were given and the load looked for (or, with a load too, checked)."""
    mix, recipe = solved.mix, solved.recipe
    actual = Mix(mix.wax, ask.fragrance) if ask.fragrance is not None and recipe is not None else mix
    steps = [*_added_wax(ask, mix)]
    if ask.fragrance is not None:
        steps += to_grams("fragrance", ask.fragrance)
    if ask.wax is None and ask.total is not None:
        steps.append(
            Step(
                "wax = total - fragrance".replace("-", "−"),
                line("{0:work} − {1:work}", ask.total, actual.fragrance),
                line("{0:work}", actual.wax),
            )
        )
    of_wax = Step(
        "load of the wax = fragrance ÷ wax × 100",
        line("{0:work} ÷ {1:work} × 100", actual.fragrance, actual.wax),
        line("{}", actual.load_of_wax),
    )
    of_total = Step(
        "load of the total = fragrance ÷ (wax + fragrance) × 100",
        line("{0:work} ÷ {1:work} × 100", actual.fragrance, actual.total),
        line("{}", actual.load_of_total),
    )
    results = [
        Result("load", actual.load_of_wax),
        Result("load_of_total", actual.load_of_total),
        Result("wax", actual.wax),
        Result("total", actual.total),
    ]
    headline = line("A load of {} of the wax ({} of the total).", actual.load_of_wax, actual.load_of_total)
    body: tuple[Line, ...] = ()
    if recipe is not None and ask.load is not None:
        wanted = mix.fragrance
        results.insert(0, Result("fragrance", wanted, ask.unit))
        gap = actual.fragrance.base - wanted.base
        other = replace(recipe, basis=recipe.basis.other)
        meets_other = other.possible and abs(other.of_wax(mix.wax).fragrance.base - actual.fragrance.base) < Decimal(
            "0.5"
        )
        headline, body = _verdict(ask, actual, wanted, gap, recipe, meets_other)
    return Worked(
        intent="load_from_weights" if recipe is None else ask.intent,
        headline=headline,
        read_as=_read_as(ask, recipe),
        given=_givens(ask, solved),
        steps=(*steps, of_wax, of_total),
        results=tuple(results),
        body=body,
        check=line("Check: {0:work} × {1:bare} ÷ 100 = {2:work}.", actual.wax, actual.load_of_wax, actual.fragrance),
        see=("bases",),
        question=ask,
    )


def _verdict(
    ask: LoadQuestion, actual: Mix, wanted: Mass, gap: Decimal, recipe: Recipe, meets_other: bool
) -> tuple[Line, tuple[Line, ...]]:
    """Is the fragrance given the one that the load asks for?"""
    load = recipe.load
    need = line("{0:typed} {1} of {2:typed} is {3}.", load, Line(recipe.basis.value), actual.wax, wanted)
    if abs(gap) <= max(wanted.base / 200, Decimal("0.05")):
        return line("Yes: {0} is {1:typed} {2}.", actual.fragrance, load, Line(recipe.basis.value)), ()
    if meets_other:
        other = Line(recipe.basis.other.value)
        return line("Yes, if you mean {0:typed} {1}; {2} of the wax.", load, other, actual.load_of_wax), (need,)
    word = "more" if gap > 0 else "less"
    return (
        line("Not quite: {0:typed} {1} would be {2}.", load, Line(recipe.basis.value), wanted),
        (line("Yours is {0} {1}: a load of {2} of the wax.", Mass(abs(gap)), Line(word), actual.load_of_wax),),
    )


def _weights_found(ask: LoadQuestion, solved: Solved, recipe: Recipe, book: Book) -> Worked:
    """The load was given, weights looked for."""
    mix = solved.mix
    oil = "oil" if ask.strength is not None else "fragrance oil"
    steps: tuple[Step, ...]
    if ask.wax is not None:
        headline = line("{} of {}.", mix.fragrance, Line(oil))
        steps = (*_added_wax(ask, mix), _oil_step(mix, recipe))
    elif ask.fragrance is not None:
        headline = line("{} of wax.", mix.wax)
        steps = (*to_grams("fragrance", mix.fragrance), _wax_step(mix, recipe))
    else:
        headline = _split_headline(mix, oil)
        steps = (*to_grams("total", mix.total), *_split_steps(mix, recipe))
    results = _results(ask, mix)
    body: list[Line] = []
    if ask.additives is not None and ask.wax is not None:
        body += [line("{0}: {1}.", name, mass) for name, mass in mix.additives]
    if ask.blend is not None:
        body += [line("{0}: {1}.", name, mass) for name, mass in _blend(ask, mix)]
    if ask.strength is not None:
        body.append(line("Of it, {} is fragrance.", mix.fragrance * ask.strength.fraction))
    body.append(line("Together in the pot: {}.", mix.total))
    if ask.unit:
        looked_for = mix.wax if ask.wax is None else mix.fragrance
        body += in_unit("That", looked_for, ask.unit)
    scale = on_the_scale(mix.fragrance, mix.wax, book)
    return Worked(
        intent=ask.intent,
        headline=headline,
        read_as=_read_as(ask, recipe),
        given=_givens(ask, solved),
        steps=steps,
        results=results,
        body=(*body, scale) if scale is not None and ask.strength is None else tuple(body),
        other=_other_basis(ask, solved, recipe),
        assumed=_assumed(ask, solved, recipe),
        check=_check(mix, recipe),
        see=("bases",),
        question=ask,
    )


def _oil_step(mix: Mix, recipe: Recipe) -> Step:
    result = line("{0:work}", mix.fragrance)
    if recipe.strength != FULL:
        if recipe.basis is Basis.WAX:
            return Step(
                "oil = wax × load ÷ strength",
                line("{0:work} × {1:bare} ÷ {2:bare}", mix.wax, recipe.load, recipe.strength),
                result,
            )
        return Step(
            "oil = wax × load ÷ (strength − load)",
            line("{0:work} × {1:bare} ÷ ({2:bare} − {1:bare})", _pot(mix), recipe.load, recipe.strength),
            result,
        )
    if recipe.basis is Basis.WAX:
        return Step("fragrance = wax × load ÷ 100", line("{0:work} × {1:bare} ÷ 100", mix.wax, recipe.load), result)
    name = (
        "fragrance = (wax + additives) × load ÷ (100 − load)"
        if mix.additives
        else ("fragrance = wax × load ÷ (100 − load)")
    )
    return Step(name, line("{0:work} × {1:bare} ÷ (100 − {1:bare})", _pot(mix), recipe.load), result)


def _pot(mix: Mix) -> Mass:
    """Everything but the oil."""
    return mix.total - mix.fragrance


def _wax_step(mix: Mix, recipe: Recipe) -> Step:
    result = line("{0:work}", mix.wax)
    if recipe.basis is Basis.WAX and recipe.strength == FULL:
        return Step(
            "wax = fragrance ÷ load × 100", line("{0:work} ÷ {1:bare} × 100", mix.fragrance, recipe.load), result
        )
    if recipe.strength == FULL and not mix.additives:
        return Step(
            "wax = fragrance × (100 − load) ÷ load",
            line("{0:work} × (100 − {1:bare}) ÷ {1:bare}", mix.fragrance, recipe.load),
            result,
        )
    return Step(
        "wax = oil ÷ (oil to 1 of wax)",
        line("{0:work} ÷ {1}", mix.fragrance, Percent(recipe.oil_per_wax * 100)),
        result,
    )


def _split_headline(mix: Mix, oil: str) -> Line:
    parts = [line("{} of wax", mix.wax), line("{} of {}", mix.fragrance, Line(oil))]
    parts += [line("{1} of {0}", name, mass) for name, mass in mix.additives]
    return line(", ".join("{}" for _ in parts[:-1]) + " and {}.", *parts)


def _split_steps(mix: Mix, recipe: Recipe) -> tuple[Step, ...]:
    total = mix.total
    if recipe.basis is Basis.TOTAL and recipe.strength == FULL and not mix.additives:
        return (
            Step(
                "fragrance = total × load ÷ 100",
                line("{0:work} × {1:bare} ÷ 100", total, recipe.load),
                line("{0:work}", mix.fragrance),
            ),
            Step(
                "wax = total − fragrance", line("{0:work} − {1:work}", total, mix.fragrance), line("{0:work}", mix.wax)
            ),
        )
    extra = " + additives" if mix.additives else ""
    percents = [Percent(recipe.oil_per_wax * 100), *(Percent(m.base / mix.wax.base * 100) for _, m in mix.additives)]
    return (
        Step(
            f"wax = total ÷ (100 + load{extra}) × 100",
            line(
                "{0:work} ÷ (100" + "".join(f" + {{{i + 1}:bare}}" for i in range(len(percents))) + ") × 100",
                total,
                *percents,
            ),
            line("{0:work}", mix.wax),
        ),
        Step(
            "fragrance = what is left",
            line("{0:work} − {1:work}", total, total - mix.fragrance),
            line("{0:work}", mix.fragrance),
        ),
    )


def _blend(ask: LoadQuestion, mix: Mix) -> tuple[tuple[str, Mass], ...]:
    assert ask.blend is not None
    named = tuple((name or f"fragrance {i}", part) for i, (name, part) in enumerate(ask.blend.items, 1))
    return shares(mix.fragrance, named)


def _results(ask: LoadQuestion, mix: Mix) -> tuple[Result, ...]:
    unit = ask.unit
    out = [Result("fragrance", mix.fragrance, unit), Result("wax", mix.wax, unit), Result("total", mix.total)]
    if ask.wax is None and ask.fragrance is not None:
        out[0], out[1] = out[1], out[0]
    out += [Result(name, mass) for name, mass in mix.additives]
    if ask.blend is not None:
        out.append(Result("fragrance_total", mix.fragrance))
        out += [Result(f"fragrance_{i}", mass) for i, (_, mass) in enumerate(_blend(ask, mix), 1)]
    if ask.strength is not None:
        out[0] = Result("fragrance", mix.fragrance * ask.strength.fraction)
        out.append(Result("mix", mix.fragrance))
    out += [Result("load", mix.load_of_wax), Result("load_of_total", mix.load_of_total)]
    return tuple(out)


def _other_basis(ask: LoadQuestion, solved: Solved, recipe: Recipe) -> tuple[Line, ...]:
    """The figure if the recipe meant the other basis."""
    other = replace(recipe, basis=recipe.basis.other)
    words = Line(recipe.basis.other.words)
    if (ask.load is not None and ask.load.typed) or not other.possible:
        return ()
    if ask.wax is not None:
        return (
            line(
                "If your recipe means {0:typed} {1}: {2}.", recipe.load, words, other.of_wax(solved.mix.wax).fragrance
            ),
        )
    if ask.fragrance is not None:
        wax = other.of_fragrance(solved.mix.fragrance).wax
        return (line("If your recipe means {0:typed} {1}: {2} of wax.", recipe.load, words, wax),)
    mix = other.of_total(solved.mix.total)
    return (
        line(
            "If your recipe means {0:typed} {1}: {2} of wax and {3} of fragrance oil.",
            recipe.load,
            words,
            mix.wax,
            mix.fragrance,
        ),
    )


def _assumed(ask: LoadQuestion, solved: Solved, recipe: Recipe) -> tuple[Line, ...]:
    if solved.basis_from is not Origin.ASSUMED:
        return ()
    usual = "of the wax" if recipe.basis is Basis.WAX else "of the total"
    return (line(f"You didn't say what the percent is of; I took it as a percent {usual}."),)


def _check(mix: Mix, recipe: Recipe) -> Line:
    if recipe.strength != FULL:
        return line("Check: all parts add up to {0:work}.", mix.total)
    if recipe.basis is Basis.WAX:
        return line("Check: {0:work} ÷ {1:work} × 100 = {2}.", mix.fragrance, mix.wax, mix.load_of_wax)
    return line("Check: {0:work} ÷ {1:work} × 100 = {2}.", mix.fragrance, mix.total, mix.load_of_total)
