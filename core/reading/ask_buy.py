"""Texts about packs, prices and costs: the questions buy and cost."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer
from core.compounds import Masses, Pack, Packs
from core.question import Question
from core.questions.buying import BuyingQuestion
from core.questions.cost import CostQuestion
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.chain import chained
from core.reading.counts import pairs_of
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass, Money, Volume, kind_of

Outcome = Question | Answer | None

_NEAR_PRICE = 5


# "per pound": counted as one pound by the amounts, but no weight of anything.
UNIT_ALONE = ("pound", "kilo", "ounce", "lb", "kg", "gram", "g", "oz", "pounds", "kilogram")


def cost(g: Givens) -> Outcome:
    """What a mix costs: prices by the pack of wax and of oil, and how much of each goes in."""
    if not g.asks_price:
        return None
    packs = _packs(g)
    sizes = {id(m) for m, _ in packs}
    priced: dict[str, tuple[Mass, Money | None]] = {}
    for m, price in packs:
        of = _priced_noun(g, m)
        if of in priced or of not in ("wax", "fragrance") or not isinstance(m.value, Mass):
            return None
        priced[of] = (m.value, price)
    used = {m.of: mass_of(m) for m in g.scan.masses("wax", "fragrance") if id(m) not in sizes}
    if set(priced) != {"wax", "fragrance"} or not used:
        return None
    return CostQuestion(
        count=1,
        wax=used.get("wax"),
        fragrance=used.get("fragrance"),
        load=g.shares.load,
        wax_price=priced["wax"][1],
        wax_pack=priced["wax"][0],
        fragrance_price=priced["fragrance"][1],
        fragrance_pack=priced["fragrance"][0],
    )


def _priced_noun(g: Givens, m: Measured) -> str:
    """The wax or oil spoken of right before a pack or its price."""
    if m.of in ("wax", "fragrance"):
        return m.of
    i = m.at - 1
    while i >= 0 and g.scan.marks[i].kind != "stop":
        if g.scan.marks[i].noun in ("wax", "fragrance"):
            return g.scan.marks[i].noun
        i -= 1
    return ""


def buy_packs(g: Givens) -> Outcome:
    """ "How many boxes?" asked in so many words."""
    sizes = (*g.scan.masses("pack"), *g.scan.masses("bottle"))
    if g.shares.loads and g.has("buy") and len({m.of for m in sizes}) == 2:
        return asking.which_weight(sizes)  # bags of wax and bottles of oil at once: one need at a time
    return buy(g) if g.asks_packs and not g.has("parcel") else None


def buy(g: Givens) -> Outcome:
    """Packs, prices and what is needed."""
    priced = _packs(g)
    if (percents := g.scan.kind("percent")) and g.scan.kind("money") and g.scan.says(_REDUCED):
        return asking.which_percent(percents)
    if not (g.asks_price or g.asks_packs or _asks_money(g, priced)) and (
        len(priced) < 2 or g.shares.loads or g.asks_percent
    ):
        return None
    packs = _packs(g)
    sizes = {id(m) for m, _ in packs}
    if not packs:
        sold = [m for m in g.scan.found if m.kind in ("mass", "volume") and m.of in ("pack", "bottle", "box")]
        packs = [(m, None) for m in sold]
        sizes = {id(m) for m in sold}
    rest = [m for m in g.scan.masses() if id(m) not in sizes and not _unit_price(g, m)]
    single = _single_pack(g, priced, rest)
    if single is not None:
        return single
    if any(p.amount.per is not None for p in g.scan.kind("money")):
        return _cost_of_used(g, priced, rest)
    candle = [m for m in rest if m["each"] or m.of == "candle" or _per_candle(g, m)]
    needs = [m for m in rest if m not in candle]
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar", "total") and m.amount.value > 1]
    if len(needs) == 1 and needs[0]["each"] and not candle:
        candle = needs
    need: Mass | None = mass_of(needs[0]) if len(needs) == 1 else None
    strange = [
        m for m in g.scan.kind("number") if m.of in ("", "pack", "bottle") and m.amount.value > 1 and not _told(g, m)
    ]
    if strange and (priced or g.asks_price):
        return asking.which_weight(strange)
    if pairs := [(count, m) for count, m in pairs_of(g) if id(m) not in sizes and isinstance(m.value, Mass)]:
        need = Mass(sum((mass_of(m).base * count for count, m in pairs), Decimal(0)), "g")
        candle, needs = [], []
    if candle and counts and need is None:
        need = mass_of(candle[0]) * counts[0].amount.value
    if len(needs) > 1:
        return None
    if need is not None and g.shares.load is not None and any(mark.noun == "fragrance" for mark in g.scan.marks):
        mix = LoadQuestion(wax=Masses.one(need), load=g.shares.load)
        need = need * g.shares.load.percent.fraction
        return chained(g.book, mix, BuyingQuestion(need=need, packs=Packs(tuple(_pack(m, p) for m, p in packs))))
    return BuyingQuestion(
        need=need,
        packs=Packs(tuple(_pack(m, price) for m, price in packs)) if packs else None,
        candle=mass_of(candle[0]) if len(candle) == 1 and not counts else None,
    )


def _unit_price(g: Givens, m: Measured) -> bool:
    """ "Per pound": one of a unit, and no weight of anything."""
    before = g.scan.marks[m.at - 1].text if m.at else ""
    return m.amount.text in UNIT_ALONE or (before == "per" and m.amount.value == 1)


_REDUCED = wordset("off discount rebate reduction reduced cheaper")


def packs_for_need(g: Givens) -> Outcome:
    """ "I need 4.2 lb, slabs of 1 lb": a need, and the one size it is sold in."""
    masses = g.scan.masses()
    sizes = [m for m in masses if m.of in ("pack", "bottle") and m.name.endswith("s")]
    needs = [m for m in masses if m not in sizes and m["want"]]
    if len(masses) != 2 or len(sizes) != len(needs) != 1 or len(needs) != 1 or g.shares.loads:
        return None
    if mass_of(needs[0]).base <= mass_of(sizes[0]).base:
        return None
    return BuyingQuestion(need=mass_of(needs[0]), packs=Packs((_pack(sizes[0], None),)))


def _single_pack(g: Givens, priced: list[tuple[Measured, Money | None]], rest: list[Measured]) -> Outcome:
    """One price for one pack: what a part of it costs, or one of the candles it gives."""
    if (
        len(priced) != 1
        or priced[0][1] is None
        or not isinstance(priced[0][0].value, Mass)
        or g.asks_packs
        or g.shares.loads
    ):
        return None
    size, price = priced[0][0].value, priced[0][1]
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar") and m.amount.value > 1]
    if not rest and len(counts) == 1 and counts[0].amount.value == int(counts[0].amount.value):
        return CostQuestion(count=int(counts[0].amount.value), wax=size, wax_price=price, wax_pack=size)
    if len(rest) == 1 and mass_of(rest[0]).base < size.base and not counts:
        before = g.scan.marks[rest[0].at - 1].text if rest[0].at else ""
        if not g.has("want") or before in ("per", "for", "of"):
            return CostQuestion(count=1, wax=mass_of(rest[0]), wax_price=price, wax_pack=size)
    return None


def _cost_of_used(g: Givens, priced: list[tuple[Measured, Money | None]], rest: list[Measured]) -> Outcome:
    """A price by weight, and so much used of it."""
    if len(priced) != 1 or len(rest) != 1:
        return None
    size, price = priced[0]
    if not isinstance(size.value, Mass):
        return None
    return CostQuestion(count=1, wax=mass_of(rest[0]), wax_price=price, wax_pack=size.value)


def _asks_money(g: Givens, priced: list[tuple[Measured, Money | None]]) -> bool:
    """ "How much is 3 kg if 5 kg is 40 eur?": one price, one other weight, and nothing about a mix."""
    oil = any(head in ("fragrance", "load") for _, head in g.scan.heads)
    by_weight = len(priced) == 1 and priced[0][0].amount.per is not None
    return len(priced) == 1 and (g.has("asks") or by_weight) and not oil and not g.shares.loads


def _told(g: Givens, m: Measured) -> bool:
    """Whether the number is known to be a price or a count."""
    return m["price"] or _beside_size(g, m) or any(m.amount is price.amount for price in g.scan.kind("money"))


def _pack(m: Measured, price: Money | None) -> Pack:
    assert isinstance(m.value, Mass | Volume)
    return Pack(m.value, price)


def _per_candle(g: Givens, m: Measured) -> bool:
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 5]]
    return any(word in after for word in ("candle", "jar", "each", "melt"))


def _packs(g: Givens) -> list[tuple[Measured, Money | None]]:
    """Pack sizes with the price that stands nearest to each."""
    prices = [m for m in g.scan.found if m.kind == "money"]
    if not prices and g.asks_price:  # "1 kg 9.50, 5 kg 39.90": figures with two decimals beside sizes
        prices += [
            m for m in g.scan.kind("number") if m.amount.text[-3:-2] in (".", ",") and m.amount.text[-2:].isdecimal()
        ]
    prices += [m for m in g.scan.kind("number") if m["price"] or (prices and m.of == "" and _beside_size(g, m))]
    out: list[tuple[Measured, Money | None]] = []
    taken: set[int] = set()
    currency = next((m.amount.unit for m in prices if m.kind == "money"), "money")
    sizes = [m for m in g.scan.found if m.kind in ("mass", "volume") and m.amount.text not in UNIT_ALONE]
    price_first = bool(prices and sizes) and min(m.at for m in prices) < sizes[0].at
    for price in sorted(prices, key=lambda m: m.at):
        money = price.value if isinstance(price.value, Money) else Money(price.amount.value, currency)
        if price.amount.per is not None:
            value, unit = price.amount.per
            if kind_of(unit) is Mass:
                out.append((Measured(price.amount, "mass", Mass.of(value, unit), price.at), money))
            continue
        free = [m for m in sizes if id(m) not in taken and abs(m.at - price.at) <= _NEAR_PRICE]
        if free:
            nearest = min(free, key=lambda m: ((m.at < price.at) == price_first, abs(m.at - price.at)))
            taken.add(id(nearest))
            out.append((nearest, money))
    for m in g.scan.masses("pack"):
        if id(m) not in taken and not out:
            out.append((m, None))
    return out


def _beside_size(g: Givens, m: Measured) -> bool:
    near = g.scan.marks[m.at + 1 : m.at + 4]
    before = g.scan.marks[max(0, m.at - 3) : m.at]
    return any(
        mark.kind == "amount" and mark.measured and mark.measured.kind in ("mass", "volume") for mark in near
    ) or any(mark.text in ("costs", "cost", "for", "=") for mark in before)
