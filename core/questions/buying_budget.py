"""What a sum of money buys: whole packs of each size, or any amount at a price by weight."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_FLOOR, Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Result, Step, Table, Worked, line
from core.questions.buying_answer import MOST_STEPS
from core.questions.buying_need import Wanted
from core.questions.buying_sums import Offer
from core.questions.buying_words import size, written
from core.units import Mass, Money, Number, Quantity

if TYPE_CHECKING:
    from core.questions.buying import BuyingQuestion


def afforded(ask: BuyingQuestion, budget: Money, offers: Sequence[Offer], kind: type[Quantity]) -> Worked:
    """So many whole packs for the money, and what is left of it; the size that gives most is said first."""
    found = [(offer, _whole(budget, offer)) for offer in offers]
    found.sort(key=lambda pair: pair[0].size * pair[1], reverse=True)
    best, count = found[0]
    assert best.price is not None
    left = budget - best.price * count
    held = kind(best.size * count, best.pack.size.unit if type(best.pack.size) is kind else "")
    head = "{0} gets you {1} packs of {2}: {3} in all, and {4} is left."
    if count < 2:
        head = (
            "{0} gets you {1} pack of {2}, and {4} is left."
            if count
            else "{0} isn't enough for a pack of {2}: {5} each."
        )
    own = best.pack.size.unit
    return Worked(
        intent=ask.intent,
        headline=line(head, budget, count, size(best), written(held), left, best.price),
        read_as=line("Read as: you can spend {0}, whole packs only.", budget),
        given=(Given("budget", budget), *(Given("pack", offer.pack.size) for offer in offers)),
        steps=(
            *(
                Step(
                    "packs = money ÷ price, rounded down",
                    line("{0} ÷ {1}, rounded down", budget, offer.price),
                    line("{0}", number),
                )
                for offer, number in found[:MOST_STEPS]
            ),
            Step("left = money − packs × price", line("{0} − {1} × {2}", budget, count, best.price), line("{0}", left)),
        ),
        results=(
            Result("packs", Number(count)),
            Result("held", held, own if type(best.pack.size) is kind else ""),
            Result("money_left", left),
            Result("cost", best.price * count),
        ),
        table=Table(
            "What the money buys in each size",
            ("Pack", "Packs", "In all", "Left of the money"),
            tuple(
                (size(offer), number, written(kind(offer.size * number)), budget - offer.price * number)
                for offer, number in found
                if offer.price is not None
            ),
        )
        if len(found) > 1
        else None,
        question=ask,
    )


def weighed_out(ask: BuyingQuestion, budget: Money, price: Money, of: Mass) -> Worked:
    """Sold loose: so much of it for the money."""
    amount = Mass(budget.base / price.base * of.base, of.unit)
    return Worked(
        intent=ask.intent,
        headline=line("{0} buys {1} ({2:g}).", budget, written(amount), amount)
        if of.unit != "g"
        else line("{0} buys {1:g}.", budget, amount),
        read_as=line("Read as: {0} to spend, at {1} for {2:typed}.", budget, price, of),
        given=(Given("budget", budget), Given("price_for", of)),
        steps=(
            *_less(ask, price),
            Step(
                "amount = money ÷ price × what it is the price of",
                line("{0} ÷ {1} × {2:typed}", budget, price, of),
                written(amount),
            ),
        ),
        results=(Result("amount", amount, of.unit),),
        assumed=(line("I took it that any amount can be weighed out at that price."),),
        question=ask,
    )


def loosely(ask: BuyingQuestion, want: Wanted, price: Money, of: Mass) -> Worked:
    """Sold loose: what the need costs."""
    need = want.amount
    cost = Money(need.base / of.base * price.base, price.unit)
    return Worked(
        intent=ask.intent,
        headline=line("{0} costs {1}.", written(need), cost),
        read_as=line("Read as: {0} needed, at {1} for {2:typed}.", written(need), price, of),
        given=(Given("need", need), Given("price_for", of)),
        steps=(
            *want.steps,
            *_less(ask, price),
            Step(
                "cost = need ÷ what it is the price of × price",
                line("{0} ÷ {1:typed} × {2}", written(need), of, price),
                line("{0}", cost),
            ),
        ),
        results=(Result("cost", cost), Result("need", need, need.unit)),
        assumed=(line("I took it that any amount can be weighed out at that price."),),
        question=ask,
    )


def _whole(budget: Money, offer: Offer) -> Decimal:
    assert offer.price is not None
    return (budget.base / offer.price.base).to_integral_value(ROUND_FLOOR)


def _less(ask: BuyingQuestion, price: Money) -> tuple[Step, ...]:
    """The discount on a price by weight."""
    full = ask.loose.items[0].price if ask.loose is not None else None
    if ask.off is None or full is None:
        return ()
    return (Step("price less the discount", line("{0} × (1 − {1})", full, ask.off), line("{0}", price)),)
