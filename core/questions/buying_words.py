"""How packs, amounts and prices by weight are worded."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Line, Result, line, listed
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
    if isinstance(offer.pack.size, Number) and offer.pack.name:
        return line("{0} {1}", words, offer.pack.name)
    return line("{0} {1}", offer.pack.name, words) if offer.pack.name else words


def packs_words(buy: Buy) -> Line:
    """`1 pack of 5 kg and 2 packs of 2 kg`."""
    parts = [
        line("{0} pack of {1}" if count == 1 else "{0} packs of {1}", Decimal(count), size(offer))
        for offer, count in buy.packs
    ]
    return listed(parts, last=" and ")


def left_words(left: Decimal, need: Quantity) -> Line:
    """What is left over, in the unit of the need."""
    return line("{0} left over", written(type(need)(left, need.unit))) if left else line("nothing left over")


# By which units a price is given, and the machine names of these: the first two are said.
BY_WEIGHT = (("kg", "kg"), ("lb", "lb"), ("oz", "oz"), ("g", "g"))
BY_VOLUME = (("l", "litre"), ("us_fl_oz", "US fl oz"), ("ml", "ml"))
NAMES = {"us_fl_oz": "fl_oz"}


def prices(one: Money, kind: type[Quantity], end: str = "") -> tuple[Result, ...]:
    """The price for one of each unit, from that of a gram, millilitre or piece; `end` ends the machine names."""
    if kind is Number:
        return (Result(f"cost_per_piece{end}", one),)
    units, base = (BY_VOLUME, "ml") if kind is Volume else (BY_WEIGHT, "g")
    return tuple(Result(f"cost_per_{NAMES.get(unit, unit)}{end}", one * factor(unit, base)) for unit, _ in units)


def rates(buy: Buy, kind: type[Quantity], candle: Mass | None) -> tuple[tuple[Result, ...], tuple[Line, ...]]:
    """The price of what is bought by weight, by volume or by piece, and of one candle."""
    if buy.cost is None:
        return (), ()
    one = Money(buy.cost.base / buy.held, buy.cost.unit)
    results = prices(one, kind)
    costs = [result.value for result in results]
    if kind is Number:
        return results, (line("That is {0} for one piece.", one),)
    if kind is Volume:
        return results, (line("That is {0} per litre or {1} per US fl oz.", *costs[:2]),)
    sentences = (line("That is {0} per kg, {1} per lb, {2} per oz or {3} per g.", *costs),)
    if candle is None:
        return results, sentences
    each = one * candle.base
    own = line("One candle with {0} of it: {1}.", written(candle), each)
    return (*results, Result("cost_per_candle", each)), (*sentences, own)
