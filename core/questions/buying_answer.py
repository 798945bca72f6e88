"""How a purchase is explained: each size alone, the cheapest mix, what is left over, the cost by weight and candle."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Missing, Result, Step, Table, Worked, line
from core.book import Book
from core.compounds import Pack, Stuff
from core.questions.buying_need import Wanted
from core.questions.buying_sums import Buy, Offer, best_mix, in_base, only, price_by_weight
from core.questions.buying_words import left_words, packs_words, rates, size, written
from core.questions.columns import column
from core.questions.estimates import guide_for
from core.questions.household import country_assumed
from core.questions.known_density import Known, density_cautions, need_density, offered_names
from core.units import Density, Mass, Money, Number, Quantity, Volume

if TYPE_CHECKING:
    from core.questions.buying import BuyingQuestion

MOST_STEPS = 6  # sizes whose sum is written out; the table has them all


def bought(ask: BuyingQuestion, want: Wanted, offers: Sequence[Offer], known: Known | None) -> Worked:
    """What to buy for a need."""
    need = want.amount
    priced = [offer for offer in offers if offer.price is not None]
    usable = priced or list(offers)
    alone = [only(offer, need.base) for offer in usable]
    best = best_mix(usable, need.base)
    several = len(usable) > 1
    rate_results, rate_lines = rates(best, type(need), ask.candle)
    assumed = list(country(usable))
    if priced and len(priced) < len(offers):
        assumed.append(line("I left out the packs without a price."))
    if several and best.cost is None:
        assumed.append(line("Without prices I took the packs that leave least over, then the fewest."))
    held = type(need)(best.held, need.unit)
    return Worked(
        intent=ask.intent,
        headline=_headline(best, need),
        read_as=line("Read as: you need {0}, whole packs only.", written(need)),
        given=_givens(ask, need, offers, known),
        steps=(
            *want.steps,
            *in_one_kind(usable, type(need), known),
            *price_steps(ask, usable),
            *_alone(need, alone),
            *(_mix_step(best, need) if several else ()),
        ),
        results=(*_results(best, alone, need), *rate_results),
        body=(*_against_budget(ask, best), *(_compared_with(best, alone) if several else ()), *rate_lines),
        assumed=tuple(assumed),
        check=line("Check: {0} = {1}; you need {2}.", packs_words(best), written(held), written(need)),
        table=_table(best, alone, need) if several else None,
        cautions=density_cautions(known, None) if known is not None and _through_density(offers, type(need)) else (),
        question=ask,
    )


def price_steps(ask: BuyingQuestion, offers: Sequence[Offer]) -> tuple[Step, ...]:
    """How a discount or a price by weight makes the prices of the packs."""
    out: list[Step] = []
    typed = {pack.size: pack.price for pack in (ask.packs.items if ask.packs is not None else ())}
    for offer in offers[:MOST_STEPS]:
        price = typed.get(offer.pack.size)
        if price is None and ask.loose is not None:
            loose = ask.loose.items[0]
            if isinstance(offer.pack.size, Mass) and isinstance(loose.size, Mass) and loose.price is not None:
                price = price_by_weight(offer.pack.size, loose.size, loose.price)
            numbers = line("{0:typed} ÷ {1:typed} × {2}", offer.pack.size, loose.size, loose.price)
            out.append(Step("a pack = its size × the price by weight", numbers, line("{0}", price)))
        if ask.off is not None and price is not None:
            numbers = line("{0} × (1 − {1})", price, ask.off)
            out.append(Step("with the discount = price × (1 − discount)", numbers, line("{0}", offer.price)))
    return tuple(out)


def _against_budget(ask: BuyingQuestion, best: Buy) -> tuple[Line, ...]:
    """Whether the money is enough, where both are given."""
    if ask.budget is None or best.cost is None:
        return ()
    left = ask.budget.base - best.cost.base
    money = Money(abs(left), best.cost.unit)
    return (line("Of your money {0} is left.", money) if left >= 0 else line("That is {0} more than you have.", money),)


def density_missing(ask: BuyingQuestion, packs: Sequence[Pack], need: Quantity | None, book: Book) -> Missing:
    """Packs by volume for a need by weight (or the other way round) take a density."""
    stuff = ask.stuff or Stuff.FRAGRANCE
    room = next((pack.size for pack in packs if isinstance(pack.size, Volume)), need)
    guide: tuple[Line, ...] = ()
    band = guide_for(stuff, ask.material, None)
    if band is not None and need is not None:
        few, many = sorted(_count_at(density, packs, need) for density in (band.low, band.high))
        count = line("{0}", few) if few == many else line("{0} to {1}", few, many)
        guide = (line("Only as a guide: {0} packs. {1}", count, band.sentence),)
    return Missing(
        intent=ask.intent,
        headline=line("{0:typed} says how much room it takes, not what it weighs: I need the density.", room),
        needs=(need_density(stuff, ask.material),),
        body=(
            line("Quickest: look for the net weight on the pack, and ask again with the grams or ounces."),
            *offered_names(ask.material, book),
        ),
        guide=guide,
        assumed=country_assumed(room) if isinstance(room, Volume) else (),
        see=("density",),
        question=ask,
    )


def in_one_kind(offers: Sequence[Offer], kind: type[Quantity], known: Known | None) -> tuple[Step, ...]:
    """Packs sold by volume as weights (or the other way round)."""
    if known is None:
        return ()
    sign = "×" if kind is Mass else "÷"
    return tuple(
        Step(
            f"what a pack {'weighs' if kind is Mass else 'holds'} = size {sign} density",
            line("{0:typed} " + sign + " {1:work}", offer.pack.size, known.density),
            line("{0:work}", kind(offer.size)),
        )
        for offer in offers[:MOST_STEPS]
        if type(offer.pack.size) is not kind
    )


def country(offers: Sequence[Offer]) -> tuple[Line, ...]:
    """Whose fluid ounces were taken, where the words left it open."""
    sizes = (offer.pack.size for offer in offers)
    return country_assumed(next((each for each in sizes if isinstance(each, Volume) and each.assumed_country), None))


def _count_at(density: Density, packs: Sequence[Pack], need: Quantity) -> Decimal:
    """How many packs it would be at that density."""
    sizes = [(pack, in_base(pack.size, type(need), density)) for pack in packs]
    offers = [Offer(pack, size, pack.price) for pack, size in sizes if size is not None]
    return Decimal(best_mix(offers, need.base).count)


def _through_density(offers: Sequence[Offer], kind: type[Quantity]) -> bool:
    return any(type(offer.pack.size) is not kind for offer in offers)


def _headline(best: Buy, need: Quantity) -> Line:
    cost = line(", {0} in all", best.cost) if best.cost is not None else line("")
    return line("Buy {0}{1}; {2}.", packs_words(best), cost, left_words(best.held - need.base, need))


def _givens(ask: BuyingQuestion, need: Quantity, offers: Sequence[Offer], known: Known | None) -> tuple[Given, ...]:
    out = [Given("need", need), *(Given("pack", offer.pack.size) for offer in offers)]
    if ask.candle is not None:
        out.append(Given("candle", ask.candle))
    if known is not None and _through_density(offers, type(need)):
        out.append(Given("density", known.density, known.origin, known.source))
    return tuple(out)


def _alone(need: Quantity, alone: Sequence[Buy]) -> list[Step]:
    """Each size for itself: how many, and what they cost."""
    out: list[Step] = []
    for buy in alone[:MOST_STEPS]:
        offer, count = buy.packs[0]
        number = Decimal(count)
        own = type(need)(offer.size, offer.pack.size.unit if type(offer.pack.size) is type(need) else "")
        if buy.cost is not None:
            numbers = line("{0} ÷ {1}, rounded up = {2}; {2} × {3}", written(need), written(own), number, offer.price)
            out.append(Step("all in one size = need ÷ size, rounded up, × price", numbers, line("{0}", buy.cost)))
        else:
            numbers = line("{0} ÷ {1}, rounded up", written(need), written(own))
            out.append(Step("packs = need ÷ size, rounded up", numbers, line("{0}", number)))
    return out


def _mix_step(best: Buy, need: Quantity) -> tuple[Step, ...]:
    if best.cost is None:
        return (Step("least left over", packs_words(best), written(type(need)(best.held, need.unit))),)
    template = " + ".join("{} × {}" for _ in best.packs)
    values = [value for offer, count in best.packs for value in (Decimal(count), offer.price)]
    return (Step("cheapest of all mixes", line(template, *values), line("{0}", best.cost)),)


def _results(best: Buy, alone: Sequence[Buy], need: Quantity) -> tuple[Result, ...]:
    out = [Result("packs", Number(Decimal(best.count)))]
    if best.cost is not None:
        out += [Result("cost", best.cost), Result("cost_cheapest_mix", best.cost)]
        # Of two packs of one size the cheaper gives the name.
        by_name = {f"cost_{buy.packs[0][0].key}_packs": buy.cost for buy in sorted(alone, key=_cost, reverse=True)}
        out += [Result(name, cost) for name, cost in by_name.items() if cost is not None]
    if len(alone) > 1:
        out += [Result(f"packs_{offer.key}", Number(Decimal(count))) for offer, count in best.packs]
    out.append(Result("need", need, need.unit))
    return (*out, Result("left_over", type(need)(best.held - need.base, need.unit), need.unit))


def _cost(buy: Buy) -> Decimal:
    return buy.cost.base if buy.cost is not None else Decimal(0)


def _compared_with(best: Buy, alone: Sequence[Buy]) -> tuple[Line, ...]:
    """What one size alone would cost, beside the best."""
    if best.cost is None:
        return ()
    cheapest = min(alone, key=_cost)
    if cheapest.cost is None or cheapest.packs == best.packs:
        return (line("No mix of these sizes is cheaper."),)
    saved = cheapest.cost - best.cost
    return (line("The cheapest single size is {0}: {1}, {2} more.", packs_words(cheapest), cheapest.cost, saved),)


def _left(buys: Sequence[Buy], need: Quantity) -> Sequence[Line]:
    """What is left over of each, in the unit of the need."""
    left = [type(need)(buy.held - need.base, need.unit) for buy in buys]
    weights = [each for each in left if isinstance(each, Mass)]
    unit = {"kg": "kg", "lb": "lb", "oz": "oz", "lb_oz": "oz"}.get(need.unit, "g")
    return column(weights, unit) if len(weights) == len(left) else [written(each) for each in left]


def _table(best: Buy, alone: Sequence[Buy], need: Quantity) -> Table:
    """Each size alone and the best mix."""
    priced = best.cost is not None
    rows = [(size(buy.packs[0][0]), buy) for buy in alone]
    if len(best.packs) > 1:
        rows.append((line("cheapest mix" if priced else "least left over"), best))
    return Table(
        "Each size alone" + (", and the best mix" if len(best.packs) > 1 else ""),
        ("Size", "Packs", *(("Cost",) if priced else ()), "Left over"),
        tuple(
            (
                name,
                Decimal(buy.count),
                *((buy.cost,) if priced else ()),
                left,
            )
            for (name, buy), left in zip(rows, _left([buy for _, buy in rows], need), strict=True)
        ),
    )
