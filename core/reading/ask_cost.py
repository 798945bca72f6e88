"""Texts about what a mix or a part of a pack costs: the question cost."""

from __future__ import annotations

import dataclasses

from core.answer import Answer, Result, Step, line
from core.question import Question
from core.questions.cost import CostQuestion
from core.reading import asking
from core.reading.counts import pairs_of
from core.reading.givens import Givens
from core.reading.market import Priced, market, priced_noun
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.reading.workings import Working
from core.units import Mass, Money, Percent

Outcome = Question | Answer | None


_EACH = {"jar": "vessel", "wick": "wick", "lid": "lid", "label": "label", "box": "packing"}


def sheet(g: Givens) -> Outcome:
    """ "Jar 1.20, wick 10 cents, 180 g of wax at 9 euro a kilo: what does one cost?": pieces beside the materials."""
    pieces = _pieces(g)
    if not pieces or not g.asks_price:
        return None
    at = {m.at for m, _ in pieces.values()}
    left = [m for m in g.scan.found if m.at not in at]
    rest = dataclasses.replace(g, scan=dataclasses.replace(g.scan, found=left))
    made = cost(rest, whole=True)
    if not isinstance(made, CostQuestion):
        return asking.which_price([m for m, _ in pieces.values()])
    g.used.update(at)
    priced = {name: price for name, (_, price) in pieces.items()}
    return dataclasses.replace(made, count=made.count or 1, **priced)  # type: ignore[arg-type]


def _pieces(g: Givens) -> dict[str, tuple[Measured, Money]]:
    """Prices of a vessel, a wick, a lid, a label or a box: the price stands right behind the word."""
    out: dict[str, tuple[Measured, Money]] = {}
    marks = g.scan.marks
    currency = next((m.amount.unit for m in g.scan.kind("money") if m.amount.unit != "money"), "money")
    for m in g.scan.found:
        if m.kind not in ("money", "number") or m.amount.per is not None or m.amount.high is not None:
            continue
        i = m.at - 1
        while i >= 0 and marks[i].text in _COSTS:
            i -= 1
        if i > 0 and marks[i - 1].kind == "amount" and marks[i - 1].measured not in g.scan.kind("number"):
            continue  # "a 10 lb box for $32" is a pack
        noun = marks[i].noun if i >= 0 else ""
        name = "label" if i >= 0 and "label" in marks[i].tags else _EACH.get(noun, "")
        pointed = m.kind == "money" or m.amount.text[-3:-2] in (".", ",")
        if name and pointed and name not in out:
            out[name] = (m, m.value if isinstance(m.value, Money) else Money(m.amount.value, currency))
    return out


_COSTS = wordset("costs cost is are at for : = each a")


def cost(g: Givens, *, whole: bool = False) -> Outcome:
    """What a mix costs: prices by the pack of wax or of oil, and how much of each goes in.

    `whole` where one price is enough: the rest of the sheet is known.
    """
    if not (g.asks_price or _priced_part(g)):
        return None
    sale = market(g)
    sizes = {id(m) for m, _ in sale.packs}
    priced: dict[str, tuple[Mass, Money]] = {}
    for m, price in (*sale.packs, *sale.rates):
        of = priced_noun(g, m)
        if of in priced or of not in ("wax", "fragrance") or not isinstance(m.value, Mass) or price is None:
            return None
        priced[of] = (m.value, price)
    pairs = [(count, m) for count, m in pairs_of(g) if id(m) not in sizes and isinstance(m.value, Mass)]
    poured = pairs[0] if len(pairs) == 1 and pairs[0][1].of in ("", "wax") else None
    used = {m.of: mass_of(m) for m in g.scan.masses("wax", "fragrance") if id(m) not in sizes}
    if poured is not None:
        used["wax"] = mass_of(poured[1])
    candles = [m for m in g.scan.masses("candle") if id(m) not in sizes and "wax" in m.name.split()]
    if not used and len(candles) == 1:
        used["wax"] = mass_of(candles[0])  # "an 8 oz wax candle"
    if not used or not priced or sale.budget is not None or sale.off is not None or sale.unplaced:
        return None
    if len(priced) == 1 and not whole and not ("fragrance" in priced and g.shares.load is not None and _of_one(g)):
        return None  # packs to buy, or a part of one
    wax, oil = priced.get("wax"), priced.get("fragrance")
    return CostQuestion(
        count=poured[0] if poured is not None else _one(g),
        wax=used.get("wax") if poured is None else None,
        candle=used["wax"] if poured is not None else None,
        fragrance=used.get("fragrance"),
        load=g.shares.load,
        wax_price=wax[1] if wax else None,
        wax_pack=wax[0] if wax else None,
        fragrance_price=oil[1] if oil else None,
        fragrance_pack=oil[0] if oil else None,
    )


def _priced_part(g: Givens) -> bool:
    """ "100 g of oil costs 7.50, how much is the oil in one candle": asked of what has a price."""
    marks = g.scan.marks
    for i, mark in enumerate(marks[:-3]):
        is_the = mark.text in ("how much", "what") and marks[i + 1].text in ("is", "are") and marks[i + 2].text == "the"
        if is_the and marks[i + 3].noun == "fragrance" and len(g.scan.kind("money")) == 1:
            behind = [x.text for x in marks[i + 4 : i + 8]]
            return "in" in behind and any(x.noun in ("candle", "jar") for x in marks[i + 4 : i + 9])
    return False


def _one(g: Givens) -> int | None:
    """One candle's worth, where a candle is spoken of; else just so much of the material."""
    return 1 if any(head in ("candle", "jar") for _, head in g.scan.heads) else None


def _of_one(g: Givens) -> bool:
    """ "Scent cost per candle": what is used is priced, and no whole packs."""
    return not g.asks_packs and not g.scan.masses("bottle", "pack")


def part_of_a_pack(g: Givens, packs: Priced, rest: list[Measured], off: Percent | None = None) -> Outcome:
    """One price for one pack: what a part of it costs, or one of the candles it gives."""
    if len(packs) != 1 or packs[0][1] is None or not isinstance(packs[0][0].value, Mass):
        return None
    if g.asks_packs or g.shares.loads:
        return None
    size, price = packs[0][0].value, packs[0][1]
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar") and m.amount.value > 1]
    if off is not None:
        price = price * (1 - off.fraction)
    if not rest and len(counts) == 1 and counts[0].amount.value == int(counts[0].amount.value):
        return CostQuestion(count=int(counts[0].amount.value), wax=size, wax_price=price, wax_pack=size)
    if len(rest) == 1 and mass_of(rest[0]).base < size.base and not counts:
        before = g.scan.marks[rest[0].at - 1].text if rest[0].at else ""
        if not g.has("want") or before in ("per", "for", "of"):
            if off is not None:
                step = Step("price less the discount", line("{0} − {1:typed}", packs[0][1], off), line("{}", price))
                g.scan.workings.append(Working(step, Result("worked_out", price)))
            return CostQuestion(count=_one(g), wax=mass_of(rest[0]), wax_price=price, wax_pack=size)
    return None


def cost_of_used(g: Givens, rates: Priced, rest: list[Measured]) -> Outcome:
    """A price by weight, and so much used of it, or so much in each of several."""
    if len(rates) != 1 or len(rest) != 1:
        return None
    size, price = rates[0]
    if not isinstance(size.value, Mass):
        return None
    pairs = pairs_of(g)
    if len(pairs) == 1 and pairs[0][1] is rest[0]:
        return CostQuestion(count=pairs[0][0], candle=mass_of(rest[0]), wax_price=price, wax_pack=size.value)
    return CostQuestion(count=_one(g), wax=mass_of(rest[0]), wax_price=price, wax_pack=size.value)
