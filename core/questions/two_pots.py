"""Two pots of different load: how much of each reaches a load between theirs, with nothing added."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Line, line
from core.mixing import Mix, Recipe
from core.units import Mass

if TYPE_CHECKING:
    from core.questions.rescue import RescueQuestion


def without_adding(ask: RescueQuestion, first: Mix, recipe: Recipe) -> tuple[Line, ...]:
    """The sentence that says so; none where the wanted load doesn't lie between the two."""
    if ask.second_wax is None:
        return ()
    second = Mix(ask.second_wax.total, ask.second_fragrance or Mass(Decimal(0)))
    share = share_of_second(first, second, recipe)
    if share is None:
        return ()
    if share <= 1:
        take, of = second.total * share, "all of the first pot with {} of the second"
    else:
        take, of = first.total * (1 / share), "all of the second pot with {} of the first"
    return (line(f"Without adding anything: {of} reaches it too.", take),)


def share_of_second(first: Mix, second: Mix, recipe: Recipe) -> Decimal | None:
    """How many times the second pot goes into all of the first: (F + y·f) ÷ (W + y·w) is the wanted oil per wax.

    None unless one pot has more than that and the other less.
    """
    wanted = recipe.oil_per_wax
    lacks = wanted * first.wax.base - first.fragrance.base
    gives = second.fragrance.base - wanted * second.wax.base
    return lacks / gives if lacks * gives > 0 else None
