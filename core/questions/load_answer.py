"""How a load question is explained: the answer, the other basis, what the scale can show."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from core.answer import Caution, Line, Origin, Result, Step, Worked, line, listed
from core.book import Book
from core.compounds import Basis
from core.mixing import Mix, Recipe
from core.questions.cautions import USUAL_MOST, load_cautions, may_offer, names_in, sheet_limits, sheet_words, strictest
from core.questions.load_found import blended, load_found
from core.questions.load_restated import Solved, added_wax, givens, read_as
from core.questions.load_steps import check, oil_step, split_steps, wax_step
from core.questions.steps import in_unit, on_the_scale, to_grams

if TYPE_CHECKING:
    from core.questions.load import LoadQuestion


def worked(ask: LoadQuestion, solved: Solved, book: Book) -> Worked:
    """The whole answer for a solved question."""
    mix, recipe = solved.mix, solved.recipe
    reached = mix.load_of_wax
    limits = sheet_limits((ask.material or "", *names_in(ask.wax)), book)
    cautions = load_cautions(reached, strictest(ask.limit, limits))
    if recipe is None or (ask.wax is not None and ask.fragrance is not None):
        answer = load_found(ask, solved)
    else:
        answer = _weights_found(ask, solved, recipe, book)
    if ask.strength is not None and reached.base > USUAL_MOST:
        cautions += (
            Caution(
                "much_liquid", line("That is {} of liquid in the wax, carrier and all: more than most hold.", reached)
            ),
        )
    return replace(answer, body=(*answer.body, *sheet_words(limits)), cautions=cautions)


def _weights_found(ask: LoadQuestion, solved: Solved, recipe: Recipe, book: Book) -> Worked:
    """The load was given, weights looked for."""
    mix = solved.mix
    oil = "oil" if ask.strength is not None else "fragrance oil"
    steps: tuple[Step, ...]
    if ask.wax is not None:
        headline = line("{} of {}.", mix.fragrance, Line(oil))
        steps = (*added_wax(ask, mix), oil_step(mix, recipe))
    elif ask.fragrance is not None:
        headline = line("{} of wax.", mix.wax)
        steps = (*to_grams("fragrance", mix.fragrance), wax_step(mix, recipe))
    else:
        headline = _split_headline(mix, oil)
        steps = (*to_grams("total", mix.total), *split_steps(mix, recipe))
    results = _results(ask, mix)
    body: list[Line] = []
    if ask.additives is not None and ask.wax is not None:
        body += [line("{0}: {1}.", name, mass) for name, mass in mix.additives]
    if ask.blend is not None:
        body += [line("{0}: {1}.", name, mass) for name, mass in blended(ask, mix)]
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
        read_as=read_as(ask, recipe),
        given=givens(ask, solved),
        steps=steps,
        results=results,
        body=(*body, scale) if scale is not None and ask.strength is None else tuple(body),
        other=_other_basis(ask, solved, recipe),
        assumed=_assumed(ask, solved, recipe),
        check=check(mix, recipe),
        see=("bases",),
        question=ask,
    )


def _split_headline(mix: Mix, oil: str) -> Line:
    parts = [line("{} of wax", mix.wax), line("{} of {}", mix.fragrance, Line(oil))]
    parts += [line("{1} of {0}", name, mass) for name, mass in mix.additives]
    return line("{}.", listed(parts, last=" and "))


def _results(ask: LoadQuestion, mix: Mix) -> tuple[Result, ...]:
    unit = ask.unit
    out = [Result("fragrance", mix.fragrance, unit), Result("wax", mix.wax, unit), Result("total", mix.total)]
    if ask.wax is None and ask.fragrance is not None:
        out[0], out[1] = out[1], out[0]
    out += [Result(name, mass) for name, mass in mix.additives]
    if ask.blend is not None:
        out.append(Result("fragrance_total", mix.fragrance))
        out += [Result(f"fragrance_{i}", mass) for i, (_, mass) in enumerate(blended(ask, mix), 1)]
    if ask.strength is not None:
        out[0] = Result("fragrance", mix.fragrance * ask.strength.fraction)
        out.append(Result("mix", mix.fragrance))
    out += [Result("load", mix.load_of_wax), Result("load_of_total", mix.load_of_total)]
    return tuple(out)


def _other_basis(ask: LoadQuestion, solved: Solved, recipe: Recipe) -> tuple[Line, ...]:
    """The figure if the recipe meant the other basis."""
    other = Recipe(recipe.load, recipe.basis.other, recipe.additives, recipe.strength)
    words = Line(recipe.basis.other.words)
    if (ask.load is not None and ask.load.typed) or not may_offer(other):
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
