"""How much there is to buy: so many candles of so much each, the extra to be safe, less what is there already."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Result, Step, Worked, line
from core.errors import Contradiction
from core.questions.buying_words import written
from core.units import Number, Quantity

if TYPE_CHECKING:
    from core.questions.buying import BuyingQuestion


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be bought, and how it was worked out. Nothing or less: there is enough."""

    amount: Quantity
    steps: tuple[Step, ...] = ()


def wanted(ask: BuyingQuestion) -> Wanted | None:
    """The need with the extra, less what is there; None where nobody said how much is needed.

    Raises Contradiction for two needs, and for what is there in another kind of amount.
    """
    need: Quantity | None = ask.need if ask.need is not None else ask.pieces
    steps: list[Step] = []
    if ask.count is not None and ask.candle is not None:
        for_all = ask.candle * ask.count
        if need is not None and need != for_all:
            raise Contradiction("need", "Do you need that much, or so many candles' worth? Leave one of the two out.")
        if need is None:
            numbers = line("{0} × {1}", Decimal(ask.count), written(ask.candle))
            steps.append(Step("need = how many × each", numbers, written(for_all)))
        need = for_all
    if need is None:
        return None
    if ask.extra is not None and ask.extra.base:
        more = type(need)(need.base * (1 + ask.extra.fraction), need.unit)
        if isinstance(more, Number):
            more = Number(more.base.to_integral_value(rounding="ROUND_CEILING"))
        steps.append(
            Step(
                "with the extra = need × (1 + extra)", line("{0} × (1 + {1})", written(need), ask.extra), written(more)
            )
        )
        need = more
    if ask.have is not None:
        if type(ask.have) is not type(need):
            raise Contradiction(
                "have", "What you have and what you need are measured differently. Give both by weight."
            )
        rest = type(need)(need.base - ask.have.base, need.unit)
        if rest.base > 0:
            numbers = line("{0} − {1}", written(need), written(ask.have))
            steps.append(Step("still to buy = need − what you have", numbers, written(rest)))
        need = rest
    return Wanted(need, tuple(steps))


def nothing_to_buy(ask: BuyingQuestion, want: Wanted) -> Worked:
    """What is there is enough."""
    assert ask.have is not None
    left = type(want.amount)(-want.amount.base, want.amount.unit)
    need = type(want.amount)(ask.have.base - left.base, want.amount.unit)
    return Worked(
        intent=ask.intent,
        headline=line("You have enough: buy nothing; {0} stays.", written(left))
        if left.base
        else line("You have just enough: buy nothing."),
        given=(Given("have", ask.have), Given("need", need)),
        steps=(
            *want.steps,
            Step("left = what you have − need", line("{0} − {1}", written(ask.have), written(need)), written(left)),
        ),
        results=(Result("packs", Number(Decimal(0))), Result("left_over", left, left.unit)),
        question=ask,
    )
