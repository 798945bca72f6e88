"""What a load question was given and how it was understood."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from core.answer import Given, Line, Origin, Step, line, listed
from core.mixing import Mix, Recipe
from core.questions.steps import to_grams

if TYPE_CHECKING:
    from core.questions.load import LoadQuestion


@dataclass(frozen=True, slots=True)
class Solved:
    """The mix; the recipe it follows, None where the load itself was looked for; where the basis came from."""

    mix: Mix
    recipe: Recipe | None
    basis_from: Origin


def givens(ask: LoadQuestion, solved: Solved) -> tuple[Given, ...]:
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
        out += [Given(name, percent) for name, percent in ask.additives.named]
    return tuple(out)


def read_as(ask: LoadQuestion, recipe: Recipe | None) -> Line:
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
    for name, percent in ask.additives.named if ask.additives else ():
        parts.append(line("{0} {1:typed} of the wax", name, percent))
    if ask.density is not None:
        parts.append(line("an oil of {0:typed}", ask.density))
    return line("Read as: {}.", listed(parts))


def added_wax(ask: LoadQuestion, mix: Mix) -> tuple[Step, ...]:
    if ask.wax is None:
        return ()
    if len(ask.wax.items) == 1:
        return to_grams("wax", ask.wax.total)
    numbers = line(" + ".join(f"{{{i}:work}}" for i in range(len(ask.wax.items))), *[m for _, m in ask.wax.items])
    return (Step("all the wax", numbers, line("{0:work}", mix.wax)),)
