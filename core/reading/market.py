"""The money of a text: which is a price by weight, which the price of a pack, which there is to spend."""

from __future__ import annotations

from dataclasses import dataclass, field

from core.compounds import Pack, Packs
from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.wordset import wordset
from core.units import Mass, Money, Percent, Volume, kind_of

Priced = list[tuple[Measured, Money | None]]

NEAR_PRICE = 5  # how many marks may part a price from the size it is of
# "per pound": counted as one pound by the amounts, but no weight of anything.
UNIT_ALONE = ("pound", "kilo", "ounce", "lb", "kg", "gram", "g", "oz", "pounds", "kilogram")
_GOODS = ("wax", "fragrance")
_COSTING = wordset("is costs cost for at = : was are")
_ONE_OF_A_UNIT = wordset("a an per each every")
_SPENDING = wordset("budget spend spending afford wallet pocket purse got have ive i've cash only")
_SPENT_AFTER = wordset("budget spend burn cash pocket wallet max maximum limit")
_OFF_THE_PRICE = wordset("voucher coupon token")
_GETTING = wordset("get buy afford stretch buys gets bring")
_BEFORE_MONEY = wordset("for with of on about only just max around like")
_FORMERLY = wordset("was instead normally usually formerly before")


@dataclass(slots=True)
class Market:
    """What is on sale. `packs` are sizes with the price beside each, `rates` prices by weight,
    `unplaced` money that nobody said what for."""

    packs: Priced
    rates: Priced = field(default_factory=list)
    budget: Money | None = None
    off: Percent | None = None
    unplaced: list[Measured] = field(default_factory=list)

    @property
    def loose(self) -> Packs | None:
        """The only price by weight, as a question takes it."""
        return Packs((pack_of(*self.rates[0]),)) if len(self.rates) == 1 else None


def market(g: Givens) -> Market:
    """The money of the text sorted out, with the sizes that stand beside it."""
    spent = _budget(g)
    off = g.scan.kind("discount")
    rates: Priced = [
        (Measured(m.amount, "mass", Mass.of(*m.amount.per), m.at), m.value)
        for m in g.scan.kind("money")
        if m.amount.per is not None and isinstance(m.value, Money) and kind_of(m.amount.per[1]) is Mass
    ]
    packs = priced_packs(g, [m for m in g.scan.kind("money") if m is spent or _off_the_price(g, m) or is_postage(g, m)])
    return Market(
        packs,
        rates,
        spent.value if spent is not None and isinstance(spent.value, Money) else None,
        Percent(off[0].amount.value) if len(off) == 1 else None,
        _unplaced(g, packs, spent),
    )


def sold_sizes(g: Givens) -> list[Measured]:
    """The sizes of the packs spoken of."""
    return [m for m in g.scan.found if m.kind in ("mass", "volume") and m.of in ("pack", "bottle", "box")]


def unit_price(g: Givens, m: Measured) -> bool:
    """ "Per pound", "a lb": one of a unit, and no weight of anything; but "a kilo costs 7.50" is a size."""
    marks = g.scan.marks
    before = marks[m.at - 1].text if m.at else ""
    alone = m.amount.text in UNIT_ALONE or m.amount.text.partition(" ")[0] in _ONE_OF_A_UNIT
    if m.amount.value != 1 or not (alone or before == "per"):
        return False
    after = m.at + 1
    while after < len(marks) and marks[after].text in _COSTING:
        after += 1
    priced = after < len(marks) and (x := marks[after].measured) is not None and x.kind in ("money", "number")
    paid = before == "for" and m.at > 1 and marks[m.at - 2].kind == "amount"
    return before == "per" or not (priced or paid)


def _names_pound(m: Measured) -> bool:
    """ "Price a pound": taken for money, but what is priced."""
    return m.amount.value == 1 and m.amount.text.partition(" ")[2] == "pound"


def asks_rate(g: Givens) -> bool:
    """ "Per lb?", "price a kilo": what one of a unit costs is asked for."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        before = marks[i - 1].text if i else ""
        if mark.kind == "unit" and before in ("per", "a", "each", "/") and mark.unit and kind_of(mark.unit) is Mass:
            return True
        m = mark.measured
        if m is not None and m.kind == "mass" and unit_price(g, m) and g.scan.kind("money"):
            return True
    return False


def priced_noun(g: Givens, m: Measured) -> str:
    """The wax or oil that a pack or its price is said to be of."""
    if m.of in ("wax", "fragrance"):
        return m.of
    if m.of == "bottle":
        return "fragrance"
    after = g.scan.marks[m.at + 1 : m.at + 4]
    if after and after[0].text in ("for", "of") and (named := [x.noun for x in after if x.noun in _GOODS]):
        return named[0]  # "8 euro a kilo for wax"
    i = m.at - 1
    while i >= 0 and g.scan.marks[i].kind != "stop":
        if g.scan.marks[i].noun in _GOODS:
            return g.scan.marks[i].noun
        i -= 1
    return ""


def _budget(g: Givens) -> Measured | None:
    """The money there is to spend, where another one is a price."""
    money = g.scan.kind("money")
    if len(money) < 2:
        return None
    spent = [m for m in money if m.amount.per is None and to_spend(g, m)]
    return spent[0] if len(spent) == 1 else None


def to_spend(g: Givens, m: Measured) -> bool:
    """Whether the amount of money is what there is to spend: "a budget of 60", "what do I get for 60"."""
    marks = g.scan.marks
    before = _same_part(marks, m.at, -1)
    after = _same_part(marks, m.at, 1)
    if after and (after[0].noun in ("pack", "bottle", "box") or _off_the_price(g, m)):
        return False  # "a 20 euro bag"
    nouns = {mark.noun for mark in before}
    if not nouns & {"pack", "bottle", "box"} and any(mark.text in _SPENDING for mark in before):
        return True
    if any(mark.text in _SPENT_AFTER for mark in after[:3]):
        return True
    i = m.at - 1
    while i >= 0 and marks[i].text in _BEFORE_MONEY:
        i -= 1
    if i == m.at - 1 or marks[i].kind == "amount":
        return False  # "5 kg for 20 euro" is a price
    told = [mark for mark in marks[max(0, i - 8) : i + 1] if mark.kind != "amount"]
    if marks[i + 1].text == "with":
        told += marks[m.at + 1 : m.at + 8]
    getting = any(mark.text in _GETTING or mark.text in ("how many", "how much") for mark in told)
    return getting and not any(mark.kind == "stop" for mark in marks[i : m.at])


def _off_the_price(g: Givens, m: Measured) -> bool:
    """ "A 10 euro voucher"."""
    return any(mark.text in _OFF_THE_PRICE for mark in _same_part(g.scan.marks, m.at, 1)[:1])


def is_postage(g: Givens, m: Measured) -> bool:
    """ "Shipping 8 eur": no price of what is shipped."""
    return any(mark.text in _SENDING for mark in _same_part(g.scan.marks, m.at, -1)[:2])


_SENDING = wordset("shipping postage delivery freight")


def _same_part(marks: list[Mark], at: int, way: int) -> list[Mark]:
    """The words beside an amount, up to four, not beyond another amount or a comma; the nearest first."""
    out: list[Mark] = []
    i = at + way
    while 0 <= i < len(marks) and len(out) < 4 and marks[i].kind in ("word", "unit"):
        out.append(marks[i])
        i += way
    return out


def _unplaced(g: Givens, packs: Priced, spent: Measured | None) -> list[Measured]:
    """Money that is neither a price nor to be spent, nor what something cost formerly."""
    prices = [price for _, price in packs]
    out = [m for m in g.scan.kind("money") if m.amount.per is None and m is not spent and m.value not in prices]
    out = [m for m in out if not _names_pound(m)]
    return [m for m in out if not any(mark.text in _FORMERLY for mark in _same_part(g.scan.marks, m.at, -1)[:2])]


def priced_packs(g: Givens, no_prices: list[Measured]) -> Priced:
    """Pack sizes with the price that stands nearest to each."""
    prices = [m for m in g.scan.found if m.kind == "money" and m not in no_prices]
    if not prices and g.asks_price:  # "1 kg 9.50, 5 kg 39.90": figures with two decimals beside sizes
        prices += [
            m for m in g.scan.kind("number") if m.amount.text[-3:-2] in (".", ",") and m.amount.text[-2:].isdecimal()
        ]
    prices += [m for m in g.scan.kind("number") if m["price"] or (prices and m.of == "" and beside_size(g, m))]
    out: Priced = []
    taken: set[int] = set()
    currency = next((m.amount.unit for m in prices if m.kind == "money"), "money")
    sizes = [m for m in g.scan.found if m.kind in ("mass", "volume") and not unit_price(g, m)]
    price_first = bool(prices and sizes) and min(m.at for m in prices) < sizes[0].at
    reach = NEAR_PRICE if len(prices) > 1 or len(sizes) > 1 else len(g.scan.marks)
    for price in sorted(prices, key=lambda m: m.at):
        money = price.value if isinstance(price.value, Money) else Money(price.amount.value, currency)
        if price.amount.per is not None:
            continue
        free = [m for m in sizes if id(m) not in taken and abs(m.at - price.at) <= reach]
        if free:
            nearest = min(free, key=lambda m: ((m.at < price.at) == price_first, abs(m.at - price.at)))
            taken.add(id(nearest))
            out.append((nearest, money))
    return out


def beside_size(g: Givens, m: Measured) -> bool:
    """Whether a bare number stands beside a size, as its price does."""
    near = g.scan.marks[m.at + 1 : m.at + 4]
    before = g.scan.marks[max(0, m.at - 3) : m.at]
    return any(
        mark.kind == "amount" and mark.measured and mark.measured.kind in ("mass", "volume") for mark in near
    ) or any(mark.text in ("costs", "cost", "for", "=", "is", "at") for mark in before)


def pack_of(m: Measured, price: Money | None) -> Pack:
    """A size and its price as a pack on sale."""
    assert isinstance(m.value, Mass | Volume)
    return Pack(m.value, price)


def at_hand(g: Givens) -> Measured | None:
    """ "I have 900 g", "900 g left", "got 900 g already": what is there, and need not be bought."""
    found = [m for m in g.scan.masses() if _is_there(g, m)]
    return found[0] if len(found) == 1 else None


_HAVING = wordset("have got ive i've we've own leftover stock already")
_STILL = wordset("left already leftover remaining here stock")
_USED = wordset("used poured spent gave sold melted friend")
_OBLIGED = wordset("to must need needs should")


def _is_there(g: Givens, m: Measured) -> bool:
    marks = g.scan.marks
    before = _same_part(marks, m.at, -1)
    after = _same_part(marks, m.at, 1)
    words = [mark.text for mark in reversed(before)]
    for k, word in enumerate(words):
        beside = (*words[max(0, k - 1) : k], *words[k + 1 : k + 2])
        if (
            word in _HAVING
            and _USED.isdisjoint(words)
            and _OBLIGED.isdisjoint(beside)
            and not any(mark.noun == "pack" for mark in before)
        ):
            return not any(w in ("want", "need", "needs") for w in words[k + 1 :])
    return any(mark.text in _STILL for mark in after[:3]) and _USED.isdisjoint(words)
