"""The sums of a load question: oil for wax, wax for oil, a total divided, and the way back."""

from __future__ import annotations

from core.answer import Line, Step, line
from core.compounds import Basis
from core.mixing import FULL, Mix, Recipe
from core.units import Mass, Percent


def oil_step(mix: Mix, recipe: Recipe) -> Step:
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


def wax_step(mix: Mix, recipe: Recipe) -> Step:
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


def split_steps(mix: Mix, recipe: Recipe) -> tuple[Step, ...]:
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


def check(mix: Mix, recipe: Recipe) -> Line:
    if recipe.strength != FULL:
        return line("Check: all parts add up to {0:work}.", mix.total)
    if recipe.basis is Basis.WAX:
        return line("Check: {0:work} ÷ {1:work} × 100 = {2}.", mix.fragrance, mix.wax, mix.load_of_wax)
    return line("Check: {0:work} ÷ {1:work} × 100 = {2}.", mix.fragrance, mix.total, mix.load_of_total)
