"""How packs, amounts and prices by weight are worded."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, Result, line
from core.questions.buying_sums import Buy, Offer
from core.units import Mass, Money, Number, Quantity, Volume, factor

UNITS_SHOWN = ("kg", "lb", "lb_oz")


def written(amount: Quantity) -> Line:
    """An amount in the unit it came in, rounded to what matters when buying."""
    if isinstance(amount, Mass) and amount.unit in UNITS_SHOWN:
        return line(f"{{0:{amount.unit}}}", amount)
    if isinstance(amount, Number):
        return line("{0} pieces" if amount.base != 1 else "1 piece", amount)
    if isinstance(amount, Volume):
        return line("{0:unit}", amount)
    return line("{0:oz}" if amount.unit == "oz" else "{0:g}", amount)


def size(offer: Offer) -> Line:
    """One pack's size as typed, with its name if it has one."""
    words = line("{0:typed}", offer.pack.size)
    return line("{0} {1}", offer.pack.name, words) if offer.pack.name else words


def packs_words(buy: Buy) -> Line:
    """`1 pack of 5 kg and 2 packs of 2 kg`."""
    parts = [
        line("{0} pack of {1}" if count == 1 else "{0} packs of {1}", Decimal(count), size(offer))
        for offer, count in buy.packs
    ]
    template = "{}" if len(parts) == 1 else ", ".join("{}" for _ in parts[:-1]) + " and {}"
    return line(template, *parts)


def left_words(left: Decimal, need: Quantity) -> Line:
    """What is left over, in the unit of the need."""
    return line("{0} left over", written(type(need)(left, need.unit))) if left else line("nothing left over")


def rates(buy: Buy, kind: type[Quantity], candle: Mass | None) -> tuple[tuple[Result, ...], tuple[Line, ...]]:
    """The price of what is bought by weight, by volume or by piece, and of one candle."""
    if buy.cost is None:
        return (), ()
    one = Money(buy.cost.base / buy.held, buy.cost.unit)
    if kind is Number:
        return (Result("cost_per_piece", one),), (line("That is {0} for one piece.", one),)
    if kind is Volume:
        ounce = one * factor("us_fl_oz", "ml")
        results = (Result("cost_per_ml", one), Result("cost_per_fl_oz", ounce))
        return results, (line("That is {0} per 100 ml, or {1} per US fl oz.", one * 100, ounce),)
    ounce = one * factor("oz", "g")
    results = (Result("cost_per_g", one), Result("cost_per_oz", ounce))
    sentences = (line("That is {0} per 100 g, or {1} per oz.", one * 100, ounce),)
    if candle is None:
        return results, sentences
    each = one * candle.base
    own = line("One candle with {0} of it: {1}.", written(candle), each)
    return (*results, Result("cost_per_candle", each)), (*sentences, own)
