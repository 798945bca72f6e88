"""Texts about money that leave a sum to be done first: a sack that is shared, a price that rose, oil by the litre."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer, Result, Step, line
from core.question import Question
from core.questions.cost import CostQuestion
from core.questions.stock import StockQuestion
from core.reading import asking
from core.reading.chain import chained
from core.reading.givens import Givens
from core.reading.market import market, priced_noun, priced_packs
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.reading.workings import Working, difference
from core.units import Density, Mass, Money, Volume

Outcome = Question | Answer | None

_TAKES = wordset("takes take took gets get got wants want keeps has had")
_MINE = wordset("i me mine rest left")
_SHARING = wordset("split splits splitting share shares sharing shared between together")
_FORMERLY = wordset("was were cost before used")
_BY_NOW = wordset("now today")
_MORE = wordset("more extra dearer difference less cheaper")


def shared_pack(g: Givens) -> Outcome:
    """ "Three of us split a 25 kg sack for 90 eur, one takes 11 kg, one 8.5 kg: what do I get and pay?"""
    money = [m for m in g.scan.kind("money") if m.amount.per is None and isinstance(m.value, Money)]
    masses = g.scan.masses()
    if len(money) != 1 or len(masses) < 2 or not g.scan.says(_SHARING) or not g.scan.says(_MINE):
        return None
    whole = max(masses, key=lambda m: mass_of(m).base)
    others = [m for m in masses if m is not whole]
    if g.scan.kind("percent") or not all(_taken(g, m) for m in others):
        return None
    people = [m for m in g.scan.kind("number") if m.amount.value != 1]
    gone = sum((mass_of(m).base for m in others), Decimal(0))
    if gone >= mass_of(whole).base or any(m.amount.value != len(others) + 1 for m in people) or len(people) > 1:
        return asking.which_weight(masses)
    mine, working = difference("what is left for you", mass_of(whole), *(mass_of(m) for m in others))
    g.scan.workings.append(working)
    g.used.update(m.at for m in (*masses, *people))
    price = money[0].value
    assert isinstance(price, Money)
    return CostQuestion(wax=mine, wax_price=price, wax_pack=mass_of(whole))


def _taken(g: Givens, m: Measured) -> bool:
    """ "One takes 11 kg, one 8.5 kg"."""
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 4) : m.at]]
    return any(word in _TAKES for word in before) or before[-1:] in (["one"], ["other"], ["another"], ["friend"])


def price_rose(g: Givens) -> Outcome:
    """ "Wax was 39 euro for 5 kg and is 45 now, how much more does one candle with 200 g cost?"""
    if not g.scan.says(_FORMERLY) or not g.scan.says(_BY_NOW) or not g.scan.says(_MORE) or g.shares.loads:
        return None
    money = [m for m in g.scan.kind("money") if m.amount.per is None]
    bare = [m for m in g.scan.kind("number") if _is_now(g, m)]
    if len(money) == 1 and len(bare) == 1 and isinstance(money[0].value, Money):
        prices = [money[0].value, Money(bare[0].amount.value, money[0].amount.unit)]
        told = [money[0], bare[0]]
    elif len(money) == 2 and not bare:
        prices = [m.value for m in money if isinstance(m.value, Money)]
        told = money
    else:
        return None
    masses = g.scan.masses()
    if len(masses) != 2 or len(prices) != 2:
        return None
    pack = min(masses, key=lambda m: abs(m.at - told[0].at))
    part = next(m for m in masses if m is not pack)
    if mass_of(part).base >= mass_of(pack).base or any(
        m.amount.value > 1 and m not in bare for m in g.scan.kind("number")
    ):
        return None
    old, new = (CostQuestion(wax=mass_of(part), wax_price=price, wax_pack=mass_of(pack)) for price in prices)
    low, high = min(prices, key=lambda p: p.base), max(prices, key=lambda p: p.base)
    more = Money((high.base - low.base) * mass_of(part).base / mass_of(pack).base, low.unit)
    word = "dearer by" if prices[1].base >= prices[0].base else "cheaper by"
    numbers = line("({0} − {1}) × {2:typed} ÷ {3:typed}", high, low, mass_of(part), mass_of(pack))
    g.scan.workings.append(Working(Step(word, numbers, line("{0}", more)), Result("worked_out", more)))
    g.used.update(m.at for m in (*told, *masses))
    return chained(g.book, old, new)


def _is_now(g: Givens, m: Measured) -> bool:
    """ "Is 45 now", "now it's 45"."""
    near = (*g.scan.marks[max(0, m.at - 3) : m.at], *g.scan.marks[m.at + 1 : m.at + 3])
    return not m.amount.unit and any(mark.text in _BY_NOW for mark in near)


def part_of_a_volume(g: Givens) -> Outcome:
    """ "42 euro for a litre, density 0.95, so 30 g costs": so much by weight of what is sold by volume."""
    dense, masses, volumes = g.density(), g.scan.masses(), g.scan.volumes()
    if dense is None or len(masses) != 1 or len(volumes) != 1 or g.asks_packs or g.shares.loads:
        return None
    room, money = volumes[0].value, g.scan.kind("money")
    rates = [m for m in money if m.amount.per is not None]
    if len(money) != 1 or not isinstance(money[0].value, Money) or not isinstance(room, Volume) or rates:
        return None
    if (g.scan.kind("number") and any(m.amount.value > 2 for m in g.scan.kind("number"))) or market(
        g
    ).budget is not None:
        return None
    g.used.update(m.at for m in (*masses, *volumes))
    if dense.mass_of(room).base < mass_of(masses[0]).base:  # "1 kg is 55 euro, what is 10 ml?"
        part, working = _weight_of(room, dense)
        g.scan.workings.append(working)
        return CostQuestion(fragrance=part, fragrance_price=money[0].value, fragrance_pack=mass_of(masses[0]))
    return CostQuestion(
        fragrance=mass_of(masses[0]), fragrance_price=money[0].value, fragrance_pack=room, density=dense
    )


_TIMES_OF = wordset("batches batch candles candle jars tins times pours")


def batches_of_a_bottle(g: Givens) -> Outcome:
    """ "A 250 ml bottle of oil of 0.96 g/ml, I use 40 g a batch: how many batches?"""
    dense, masses, volumes = g.density(), g.scan.masses(), g.scan.volumes()
    if dense is None or len(masses) != 1 or len(volumes) != 1 or g.shares.loads or g.scan.kind("money"):
        return None
    room = volumes[0].value
    after = [mark.text for mark in g.scan.marks[masses[0].at + 1 : masses[0].at + 4]]
    each = masses[0]["each"] or (after[:1] in (["a"], ["per"], ["in"], ["for"], ["each"]))
    if not each or not _asks_how_often(g) or not isinstance(room, Volume) or volumes[0].of not in _OIL_IN:
        return None
    if any(m.amount.value >= 2 for m in g.scan.kind("number")):
        return None
    oil, working = _weight_of(room, dense)
    g.scan.workings.append(working)
    g.used.update(m.at for m in (*masses, *volumes))
    return StockQuestion(fragrance=oil, oil_each=mass_of(masses[0]))


_OIL_IN = ("bottle", "fragrance", "")


def _weight_of(room: Volume, dense: Density) -> tuple[Mass, Working]:
    mass = dense.mass_of(room)
    step = Step("weight = volume × density", line("{0:typed} × {1:typed}", room, dense), line("{0}", mass))
    return mass, Working(step, Result("worked_out", mass))


def _asks_how_often(g: Givens) -> bool:
    """ "How many batches", or just "batches?" at the end."""
    marks = [mark for mark in g.scan.marks if mark.kind == "word"]
    if g.scan.says(("how many",)) and any(mark.text in _TIMES_OF for mark in marks):
        return True
    return bool(marks) and marks[-1].text in _TIMES_OF and marks[-1].text.endswith("s")


def both_at_rates(g: Givens) -> Outcome:
    """Both materials at their prices by weight, where nothing is left open."""
    made = both_materials(g) if len(market(g).rates) == 2 else None
    return made if isinstance(made, CostQuestion) else None


def both_materials(g: Givens) -> Outcome:
    """ "500 g of oil at 60 euro a kilo and 5 kg of wax at 8: total?": what both cost; else which price is of which."""
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar") and m.amount.value > 1]
    if g.shares.loads or g.asks_percent or len(counts) > 1 or any(m not in counts for m in g.scan.kind("number")):
        return None
    money = g.scan.kind("money")
    packs = [(m, price) for m, price in priced_packs(g, []) if price is not None]
    rates = market(g).rates
    sizes = {id(m) for m, _ in packs}
    used = {m.of: mass_of(m) for m in g.scan.masses("wax", "fragrance") if id(m) not in sizes}
    if len(rates) != 2 or packs or set(used) != {"wax", "fragrance"}:
        return asking.which_price(money) if g.scan.masses("wax") and g.scan.masses("fragrance") else None
    priced = {priced_noun(g, m): (m.value, price) for m, price in rates}
    if set(priced) != {"wax", "fragrance"} or len(g.scan.masses()) != 2:
        return asking.which_price(money)
    (wax_pack, wax_price), (oil_pack, oil_price) = priced["wax"], priced["fragrance"]
    assert isinstance(wax_pack, Mass)
    assert isinstance(oil_pack, Mass)
    g.used.update(m.at for m in counts)
    return CostQuestion(
        count=int(counts[0].amount.value) if counts else None,
        wax=used["wax"],
        fragrance=used["fragrance"],
        wax_price=wax_price,
        wax_pack=wax_pack,
        fragrance_price=oil_price,
        fragrance_pack=oil_pack,
    )
