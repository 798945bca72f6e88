"""Priced packs side by side, where no need is given: which is the cheapest for its size."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Step, Table, Worked, line
from core.questions.buying_answer import MOST_STEPS, country, in_one_kind, price_steps
from core.questions.buying_sums import Buy, Offer
from core.questions.buying_words import prices, rates, size, written
from core.questions.known_density import Known
from core.units import Money, Number, Quantity, Volume, factor

if TYPE_CHECKING:
    from core.questions.buying import BuyingQuestion


def _per(ask: BuyingQuestion, best: Offer, kind: type[Quantity]) -> tuple[Decimal, str]:
    """For how much the price is said, in base units, and in words: as asked, else as the pack is sold."""
    if kind is Number:
        return Decimal(1), "piece"
    if kind is Volume:
        return Decimal(100), "100 ml"
    unit = ask.unit if ask.unit in ("kg", "lb", "oz") else best.pack.size.unit
    unit = {"lb_oz": "lb", "kg": "kg", "lb": "lb", "oz": "oz"}.get(unit, "100 g")
    return (Decimal(100) if unit == "100 g" else factor(unit, "g")), unit


def compared(ask: BuyingQuestion, offers: Sequence[Offer], kind: type[Quantity], known: Known | None) -> Worked:
    """The offers by their price for one gram, millilitre or piece; all have a price."""
    ones = sorted(((_one(offer), offer) for offer in offers), key=lambda pair: pair[0])
    cheapest, best = ones[0]
    amount, words = _per(ask, best, kind)
    buy = Buy(((best, 1),), best.size, best.price)
    rate_results, rate_lines = rates(buy, kind, ask.candle)
    times = f" × {words}" if amount == 100 else ""
    unit = words if words in ("kg", "lb", "oz") else ""
    head = "Cheapest for its size: the {0} pack, {1} per {2}." if len(ones) > 1 else "The {0} pack: {1} per {2}."
    return Worked(
        intent=ask.intent,
        headline=line(head, size(best), cheapest * amount, line(words)),
        given=tuple(Given("pack", offer.pack.size) for _, offer in ones),
        steps=(
            *in_one_kind([offer for _, offer in ones], kind, known),
            *price_steps(ask, [offer for _, offer in ones]),
            *(
                Step(
                    f"price per {words} = price ÷ size{times}",
                    line("{0} ÷ {1}" + times, offer.price, written(kind(offer.size, unit))),
                    line("{0}", one * amount),
                )
                for one, offer in ones[:MOST_STEPS]
            ),
        ),
        results=(*rate_results, *(each for one, offer in ones for each in prices(one, kind, f"_{offer.key}_packs"))),
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


def _one(offer: Offer) -> Money:
    """What one gram, millilitre or piece of it costs."""
    assert offer.price is not None
    return Money(offer.price.base / offer.size, offer.price.unit)
