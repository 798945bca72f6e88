"""Texts about packs and what to spend: the question buy."""

from __future__ import annotations

import dataclasses

from core.answer import Answer
from core.compounds import Masses, Packs
from core.question import Question
from core.questions.buying import BuyingQuestion
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.ask_cost import cost_of_used, part_of_a_pack
from core.reading.chain import chained
from core.reading.counts import counted
from core.reading.givens import Givens
from core.reading.market import (
    Market,
    Priced,
    asks_rate,
    at_hand,
    beside_size,
    is_postage,
    market,
    pack_of,
    priced_noun,
    sold_sizes,
    to_spend,
    unit_price,
)
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.periods import per_period, times
from core.units import Mass, Money

Outcome = Question | Answer | None


def buy_packs(g: Givens) -> Outcome:
    """ "How many boxes?" asked in so many words."""
    return buy(g) if g.asks_packs and not g.has("parcel") else None


def spend(g: Givens) -> Outcome:
    """ "Six pounds a kilo, what do I get for 20?": so much money, and a price."""
    return buy(g) if market(g).budget is not None else None


def buy(g: Givens) -> Outcome:
    """Packs, prices and what is needed."""
    sale = market(g)
    if not _is_shopping(g, sale) or any(m["limit"] for m in g.scan.masses()):
        return None
    oil = any(mark.noun in ("fragrance", "load") for mark in g.scan.marks)
    if g.scan.kind("percent") and not (oil and g.shares.loads) and g.shares.spare is None:
        return asking.which_percent(g.scan.kind("percent"))
    if sale.unplaced:
        return _with_postage(g, sale) or asking.which_price(sale.unplaced)
    packs = sale.packs or [(m, None) for m in sold_sizes(g)]
    sizes = {id(m) for m, _ in packs}
    rest = [m for m in g.scan.masses() if id(m) not in sizes and not unit_price(g, m)]
    pairs, lonely, _ = counted(g)
    have = at_hand(g) if len(rest) > 1 or pairs else None
    rest = [m for m in rest if m is not have]
    if (doubtful := _pounds_of_money(g)) is not None:
        return asking.which_weight([doubtful])
    plain = have is None and sale.budget is None and g.shares.spare is None
    if plain and (part := part_of_a_pack(g, sale.packs, rest, sale.off)) is not None:
        return part
    if sale.rates and not packs and sale.budget is None:
        return cost_of_used(g, sale.rates, rest)
    if _strange(g, sale, have):
        return asking.which_weight(_strange(g, sale, have))
    pairs = [(count, m) for count, m in pairs if id(m) not in sizes and isinstance(m.value, Mass)]
    if any(m is not have and id(m) not in sizes for m in lonely):
        pairs = []
    used_up = [(m, period) for m in rest if (period := per_period(g.scan, m))]
    if used_up:
        return _over_time(g, used_up, rest, _on_offer(packs), have)
    nouns = {priced_noun(g, m) for m, price in sale.packs if price is not None}
    if g.shares.loads and nouns >= {"wax", "fragrance"} and not g.asks_packs:
        return asking.which_weight([m for m, _ in sale.packs])  # both are priced for a mix: what goes into it?
    wanted = _wanted(g, rest, pairs)
    if wanted is None:
        return None
    question = BuyingQuestion(
        **wanted,  # type: ignore[arg-type]
        packs=_on_offer(packs),
        have=mass_of(have) if have is not None else None,
        extra=g.shares.spare,
        loose=sale.loose,
        off=sale.off,
        budget=sale.budget,
    )
    of_oil = any(m.of == "fragrance" for m in (*rest, *(m for _, m in pairs)))
    return _with_oil(g, question, packs) if g.shares.load is not None and not of_oil else question


def _with_postage(g: Givens, sale: Market) -> BuyingQuestion | None:
    """ "3 kg costs 21 euro, postage is 5 euro, I need 7 kg, the whole bill?": paid once, beside the packs."""
    paid = sale.unplaced[0]
    if len(sale.unplaced) != 1 or not is_postage(g, paid) or not isinstance(paid.value, Money) or sale.budget:
        return None
    left = [m for m in g.scan.found if m is not paid]
    made = buy(dataclasses.replace(g, scan=dataclasses.replace(g.scan, found=left)))
    if not isinstance(made, BuyingQuestion) or made.need is None or made.packs is None or made.loose is not None:
        return None
    g.used.add(paid.at)
    return dataclasses.replace(made, postage=paid.value)


def _over_time(
    g: Givens, used_up: list[tuple[Measured, str]], rest: list[Measured], packs: Packs | None, have: Measured | None
) -> Outcome:
    """ "340 g every day for 3 weeks": so much so often."""
    m, period = used_up[0]
    often = times(g.scan, period)
    if often is None or len(rest) != 1:
        return asking.which_weight([m])
    return BuyingQuestion(candle=mass_of(m), count=often, have=mass_of(have) if have is not None else None, packs=packs)


def _is_shopping(g: Givens, sale: Market) -> bool:
    """Whether packs or money are what the text is about."""
    if g.asks_price or g.asks_packs or sale.budget is not None or (asks_rate(g) and sale.packs):
        return True
    if _asks_money(g, [*sale.packs, *sale.rates]):
        return True
    if g.shares.loads or g.asks_percent:
        return False
    oil = any(head in ("fragrance", "load") for _, head in g.scan.heads)
    if any(price for _, price in sale.packs) and any(m["want"] for m in g.scan.masses()) and not oil:
        return True  # "2 kg is 15 euro, I need 6 kg"
    if len(sale.packs) == 1 and _needs_more_than_one(g, sale.packs[0]):
        return True
    return len(sale.packs) + len(sale.rates) >= 2 or (bool(sale.rates) and bool(sold_sizes(g)))


def _needs_more_than_one(g: Givens, pack: tuple[Measured, Money | None]) -> bool:
    """ "Oil is 28 dollars for a one pound bottle, I need 2.5 lb": a price, a need beyond it, and no wax for a mix."""
    needs = [m for m in g.scan.masses() if m is not pack[0]]
    of_wax = any(mark.noun in ("wax", "candle", "jar", "load") for mark in g.scan.marks)
    priced = pack[1] is not None and isinstance(pack[0].value, Mass) and not of_wax
    return priced and len(needs) == 1 and needs[0]["want"] and mass_of(needs[0]).base > mass_of(pack[0]).base


def _asks_money(g: Givens, priced: Priced) -> bool:
    """ "How much is 3 kg if 5 kg is 40 eur?": one price, one other weight, and nothing about a mix."""
    oil = any(head in ("fragrance", "load") for _, head in g.scan.heads)
    by_weight = len(priced) == 1 and priced[0][0].amount.per is not None
    return len(priced) == 1 and (g.has("asks") or by_weight) and not oil and not g.shares.loads


def _pounds_of_money(g: Givens) -> Measured | None:
    """ "With 50 pounds how many 2 kg bags": pounds that may be money."""
    marks = g.scan.marks
    for m in g.scan.masses(""):
        of = m.at + 1 < len(marks) and marks[m.at + 1].text in ("of", "wax", "needed")
        if m.amount.text.endswith(("pound", "pounds")) and not of and not m["want"] and to_spend(g, m):
            return m
    return None


def _strange(g: Givens, sale: Market, have: Measured | None) -> list[Measured]:
    """Numbers beside prices that may be anything."""
    if not (sale.packs or g.asks_price) or not any(price for _, price in sale.packs):
        return []
    return [
        m
        for m in g.scan.kind("number")
        if m.of in ("", "pack", "bottle") and m.amount.value > 1 and not m["price"] and not beside_size(g, m)
    ]


def _wanted(g: Givens, rest: list[Measured], pairs: list[tuple[int, Measured]]) -> dict[str, object] | None:
    """The need, or so many candles of so much; None where two weights may be the need."""
    each = [m for m in rest if m["each"] or m.of == "candle" or _per_candle(g, m)]
    needs = [m for m in rest if m not in each]
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar", "total") and m.amount.value > 1]
    if len(pairs) == 1:
        return {"candle": mass_of(pairs[0][1]), "count": pairs[0][0]}
    if pairs:
        need = mass_of(pairs[0][1]) * pairs[0][0]
        for count, m in pairs[1:]:
            need = need + mass_of(m) * count
        return {"need": need}
    if len(needs) > 1:
        return None
    if each and counts and not needs:
        return {"candle": mass_of(each[0]), "count": int(counts[0].amount.value)}
    out: dict[str, object] = {"need": mass_of(needs[0])} if needs else {}
    return {**out, "candle": mass_of(each[0])} if len(each) == 1 and not counts else out


def _on_offer(packs: Priced) -> Packs | None:
    return Packs(tuple(pack_of(m, price) for m, price in packs)) if packs else None


def _with_oil(g: Givens, question: BuyingQuestion, packs: Priced) -> Outcome:
    """With a load the packs of oil cover the oil of the mix, and packs of wax its wax: one answer after the other."""
    assert g.shares.load is not None
    need = question.need if isinstance(question.need, Mass) else None
    if need is None and question.candle is not None and question.count is not None:
        need = question.candle * question.count
    by_noun: dict[str, Priced] = {}
    for m, price in packs:
        by_noun.setdefault(priced_noun(g, m), []).append((m, price))
    spoken = any(mark.noun == "fragrance" for mark in g.scan.marks)
    if (
        need is None
        or not (spoken or "fragrance" in by_noun)
        or question.have is not None
        or question.extra is not None
    ):
        return question
    if set(by_noun) == {"", "fragrance"} and any(m.of == "bottle" for m, _ in packs):
        by_noun["wax"] = by_noun.pop("")  # bags beside bottles of oil
    oil = need * g.shares.load.percent.fraction
    needs = {"wax": need, "fragrance": oil}
    if len(by_noun) == 1:
        noun = "wax" if set(by_noun) == {"wax"} else "fragrance"
        by_noun = {noun: packs}
    if "" in by_noun:
        return asking.which_weight([m for m, _ in by_noun[""]])
    mix = LoadQuestion(wax=Masses.one(need), load=g.shares.load)
    orders = [
        BuyingQuestion(need=needs[noun], packs=_on_offer(by_noun[noun]), off=question.off)
        for noun in ("wax", "fragrance")
        if noun in by_noun
    ]
    return chained(g.book, mix, *orders)


def packs_for_need(g: Givens) -> Outcome:
    """ "I need 4.2 lb, slabs of 1 lb": a need, and the one size it is sold in."""
    if g.shares.loads or any(m["limit"] for m in g.scan.masses()):
        return None
    have = at_hand(g)
    masses = [m for m in g.scan.masses() if m is not have]
    sizes = [m for m in masses if m.of in ("pack", "bottle", "box") and m.name.endswith("s")]
    needs = [m for m in masses if m not in sizes and (m["want"] or have is not None)]
    if len(masses) != 2 or len(sizes) != 1 or len(needs) != 1:
        return None
    if mass_of(needs[0]).base <= mass_of(sizes[0]).base:
        return None
    return BuyingQuestion(
        need=mass_of(needs[0]),
        have=mass_of(have) if have is not None else None,
        extra=g.shares.spare,
        packs=Packs((pack_of(sizes[0], None),)),
    )


def _per_candle(g: Givens, m: Measured) -> bool:
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 5]]
    return any(word in after for word in ("candle", "jar", "each", "melt"))
