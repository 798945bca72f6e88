"""A load found from two weights, and a load that somebody wants to have checked."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Line, Result, Step, Worked, line
from core.mixing import Mix, Recipe, shares
from core.questions.cautions import may_offer
from core.questions.load_restated import Solved, added_wax, givens, read_as
from core.questions.steps import to_grams
from core.units import Mass

if TYPE_CHECKING:
    from core.questions.load import LoadQuestion


def load_found(ask: LoadQuestion, solved: Solved) -> Worked:
    """Two weights were given and the load looked for (or, with a load too, checked)."""
    mix, recipe = solved.mix, solved.recipe
    actual = Mix(mix.wax, ask.fragrance) if ask.fragrance is not None and recipe is not None else mix
    steps = [*added_wax(ask, mix)]
    if ask.fragrance is not None:
        steps += to_grams("fragrance", ask.fragrance)
    if ask.wax is None and ask.total is not None:
        steps.append(
            Step(
                "wax = total − fragrance",
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
    if ask.blend is not None and ask.fragrance is not None:
        divided = blended(ask, actual)
        results += [Result(f"fragrance_{i}", mass) for i, (_, mass) in enumerate(divided, 1)]
        body = tuple(line("{0}: {1}.", name, mass) for name, mass in divided)
    if recipe is not None and ask.load is not None:
        wanted = mix.fragrance
        results.insert(0, Result("fragrance", wanted, ask.unit))
        gap = actual.fragrance.base - wanted.base
        other = replace(recipe, basis=recipe.basis.other)
        meets_other = may_offer(other) and _meets(actual.fragrance, other.of_wax(mix.wax).fragrance)
        headline, body = _verdict(ask, actual, wanted, gap, recipe, meets_other)
    return Worked(
        intent="load_from_weights" if recipe is None else ask.intent,
        headline=headline,
        read_as=read_as(ask, recipe),
        given=givens(ask, solved),
        steps=(*steps, of_wax, of_total),
        results=tuple(results),
        body=body,
        check=line("Check: {0:work} × {1:bare} ÷ 100 = {2:work}.", actual.wax, actual.load_of_wax, actual.fragrance),
        see=("bases",),
        question=ask,
    )


def blended(ask: LoadQuestion, mix: Mix) -> tuple[tuple[str, Mass], ...]:
    """The fragrance divided between the oils of the blend."""
    assert ask.blend is not None
    named = tuple((name or f"fragrance {i}", part) for i, (name, part) in enumerate(ask.blend.items, 1))
    return shares(mix.fragrance, named)


def _verdict(
    ask: LoadQuestion, actual: Mix, wanted: Mass, gap: Decimal, recipe: Recipe, meets_other: bool
) -> tuple[Line, tuple[Line, ...]]:
    """Is the fragrance given the one that the load asks for?"""
    load = recipe.load
    need = line("{0:typed} {1} of {2:typed} is {3}.", load, Line(recipe.basis.value), actual.wax, wanted)
    if _meets(actual.fragrance, wanted):
        return line("Yes: {0} is {1:typed} {2}.", actual.fragrance, load, Line(recipe.basis.value)), ()
    if meets_other:
        other = Line(recipe.basis.other.value)
        return line("Yes, if you mean {0:typed} {1}; {2} of the wax.", load, other, actual.load_of_wax), (need,)
    word = "more" if gap > 0 else "less"
    return (
        line("Not quite: {0:typed} {1} would be {2}.", load, Line(recipe.basis.value), wanted),
        (line("Yours is {0} {1}: a load of {2} of the wax.", Mass(abs(gap)), Line(word), actual.load_of_wax),),
    )


def _meets(weighed: Mass, wanted: Mass) -> bool:
    """As near as a rounded weight comes: within half a percent, or half a step of a 0.1 g scale."""
    return abs(weighed.base - wanted.base) <= max(wanted.base / 200, Decimal("0.05"))
