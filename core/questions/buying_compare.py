"""Priced packs side by side, where no need is given: which is the cheapest for its size."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Result, Step, Table, Worked, line
from core.questions.buying_answer import MOST_STEPS, country, in_one_kind
from core.questions.buying_sums import Buy, Offer
from core.questions.buying_words import rates, size, written
from core.questions.known_density import Known
from core.units import Mass, Money, Number, Quantity, Volume, factor

if TYPE_CHECKING:
    from core.questions.buying import BuyingQuestion

PER: dict[type[Quantity], tuple[Decimal, str, str]] = {
    Mass: (Decimal(100), "100 g", "g"),
    Volume: (Decimal(100), "100 ml", "ml"),
    Number: (Decimal(1), "piece", "piece"),
}


def compared(ask: BuyingQuestion, offers: Sequence[Offer], kind: type[Quantity], known: Known | None) -> Worked:
    """The offers by their price for one gram, millilitre or piece; all have a price."""
    amount, words, unit = PER[kind]
    ones = sorted(((_one(offer), offer) for offer in offers), key=lambda pair: pair[0])
    cheapest, best = ones[0]
    buy = Buy(((best, 1),), best.size, best.price)
    rate_results, rate_lines = rates(buy, kind, ask.candle)
    formula = "price per piece = price ÷ pieces" if kind is Number else f"price per {words} = price ÷ size × 100"
    by_hundred = "" if kind is Number else " × 100"
    head = "Cheapest for its size: the {0} pack, {1} per {2}." if len(ones) > 1 else "The {0} pack: {1} per {2}."
    return Worked(
        intent=ask.intent,
        headline=line(head, size(best), cheapest * amount, line(words)),
        given=tuple(Given("pack", offer.pack.size) for _, offer in ones),
        steps=(
            *in_one_kind([offer for _, offer in ones], kind, known),
            *(
                Step(
                    formula,
                    line("{0} ÷ {1}" + by_hundred, offer.price, written(kind(offer.size))),
                    line("{0}", one * amount),
                )
                for one, offer in ones[:MOST_STEPS]
            ),
        ),
        results=(*rate_results, *(each for one, offer in ones for each in _by_unit(one, offer, kind, unit))),
        body=(*rate_lines, line("Say how much you need, and you get the cheapest way to cover it.")),
        assumed=country(offers),
        table=Table(
            "Price for the size",
            ("Pack", "Price", f"Per {words}"),
            tuple((size(offer), offer.price, one * amount) for one, offer in ones),
        )
        if len(ones) > 1
        else None,
        question=ask,
    )


def _by_unit(one: Money, offer: Offer, kind: type[Quantity], unit: str) -> tuple[Result, ...]:
    """The offer's price for one of the base unit, and by weight for an ounce, a pound and a kilogram too."""
    units = (unit, "oz", "lb", "kg") if kind is Mass else (unit,)
    return tuple(
        Result(f"cost_per_{each}_{offer.key}_packs", one * factor(each, "g") if kind is Mass else one) for each in units
    )


def _one(offer: Offer) -> Money:
    """What one gram, millilitre or piece of it costs."""
    assert offer.price is not None
    return Money(offer.price.base / offer.size, offer.price.unit)
