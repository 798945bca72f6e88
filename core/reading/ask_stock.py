"""Texts about what is at hand, or on the scale with its vessel: stock and tare."""

from __future__ import annotations

from core.answer import Answer
from core.compounds import Load, Masses
from core.question import Question
from core.questions.batch import FillIs
from core.questions.cost import CostQuestion
from core.questions.load import LoadQuestion
from core.questions.stock import StockQuestion
from core.questions.tare import TareQuestion
from core.questions.vessel import VesselQuestion
from core.reading import asking
from core.reading.ask_mix import doubtful_ounces, ounces_of_a_vessel, which_ounces
from core.reading.bases import basis_words
from core.reading.chain import chained
from core.reading.counts import counted
from core.reading.each import asks_for_one
from core.reading.givens import Givens
from core.reading.marks import Mark
from core.reading.measuring import mass_of
from core.reading.netted import asks_what_counts, vessels_along
from core.reading.periods import per_period
from core.reading.tares import gross, is_wanted, taken_out, weighed_along, zeroed_first
from core.reading.weights import weights
from core.reading.wordset import wordset
from core.units import Mass, Money

Outcome = Question | Answer | None


def stock(g: Givens) -> Outcome:
    """What is at hand: what runs out first, what is left."""
    found = weights(g)
    wax, fragrance, given = found.wax, found.fragrance, g.shares.load
    if wax is None or fragrance is None or given is None or found.unclear:
        return None
    if (doubtful := doubtful_ounces(g)) is not None:
        return which_ounces(g, doubtful, LoadQuestion(wax=wax, fragrance=fragrance, load=given))
    return StockQuestion(wax=wax, fragrance=fragrance, load=given)


def how_many_candles(g: Givens) -> Outcome:
    """ "How many jars of 220 g can I pour from 5 kg of wax?" """
    if not _asks_how_many(g):
        return None
    if (made := _from_oil(g)) is not None:
        return made
    if (made := _from_both(g)) is not None:
        return made
    masses = g.scan.masses("wax", "total", "candle", "jar", "", "box", "pack")
    if len(masses) > 2:
        masses = g.unsold(masses)
    if len(masses) != 2 or len(g.scan.masses()) > 2 or g.has("parcel"):
        return None
    often = [m for m in g.scan.kind("number") if per_period(g.scan, m)]  # "I make 20 a month": no part of the sum
    if any(m.amount.value > 1 and m not in often for m in g.scan.kind("number")):
        return None
    g.used.update(m.at for m in often)
    each, stocked = sorted(masses, key=lambda m: mass_of(m).base)
    if mass_of(each).base * 2 > mass_of(stocked).base:
        return None
    finished = each.of == "total" or each["finished"]
    made = StockQuestion(
        wax=Masses.one(mass_of(stocked)),
        each=mass_of(each),
        fill_is=FillIs.FINISHED if finished else FillIs.WAX if each.of == "wax" or g.shares.load is None else None,
        load=g.shares.load,
    )
    if ounces_of_a_vessel(g, each):
        room = VesselQuestion(room=asking.fluid_ounces(mass_of(each)), load=g.shares.load, density=g.density())
        return asking.ounces(mass_of(each), made, room)
    money = [m.value for m in g.scan.kind("money") if m.amount.per is None and isinstance(m.value, Money)]
    if len(money) == 1 and len(g.scan.kind("money")) == 1 and g.has("price") and g.shares.load is None:
        one = CostQuestion(count=1, wax=mass_of(each), wax_price=money[0], wax_pack=mass_of(stocked))
        return chained(g.book, made, one)  # "and what does one cost if the bag is 72 euro"
    return made


def remaining(g: Givens) -> Outcome:
    """ "What is left of a 10 kg bag after 45 candles of 180 g": so many poured, the rest is asked for."""
    pairs, lonely, _ = counted(g)
    if len(pairs) != 1 or len(lonely) > 1 or g.scan.masses("fragrance") or g.asks_packs or _asks_how_many(g):
        return None
    count, each = pairs[0]
    rest = [m for m in g.scan.masses() if m is not each]
    if len(rest) != 1 or not isinstance(each.value, Mass) or not _asks_rest(g):
        return None
    if mass_of(each).base >= mass_of(rest[0]).base:
        return None
    return StockQuestion(wax=Masses.one(mass_of(rest[0])), each=mass_of(each), fill_is=FillIs.WAX, count=count)


def _asks_rest(g: Givens) -> bool:
    """ "How much is left", "what remains?"; not "I have 2 kg left"."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if mark.tags & {"asks", "what"} and mark.text not in ("how many", "hw many", "how mny", "hw mny"):
            for after in marks[i : i + 8]:
                if after.kind == "stop":
                    break
                if after.tags & {"left", "left_over"}:
                    return True
    return False


def candles_from_oil(g: Givens) -> Outcome:
    """ "I have 90 g of fragrance and use 12 g a candle, how many candles?" """
    oils = g.scan.masses()
    if len(oils) != 2 or not _asks_how_many(g) or g.has("parcel", "box") or g.scan.masses("wax", "total"):
        return None
    if not any(m.of in ("fragrance", "bottle") for m in oils) or g.scan.kind("number"):
        return None
    each, stocked = sorted(oils, key=lambda m: mass_of(m).base)
    if stocked.of not in ("fragrance", "bottle") or each.of not in ("fragrance", "", "candle", "jar"):
        return None
    used = [mark.text for mark in g.scan.marks[max(0, each.at - 3) : each.at]]
    if mass_of(each).base * 2 > mass_of(stocked).base or _USING.isdisjoint(used):
        return None
    return StockQuestion(fragrance=mass_of(stocked), oil_each=mass_of(each))


_USING = wordset("use uses using needs need takes take put goes")
_COUNTED = wordset("batches batch times rounds pours portions")


_CAN_I_MAKE = [
    [can, who, do]
    for can in ("can", "do", "could", "will")
    for who in ("i", "we")
    for do in ("make", "pour", "fill", "get")
]


def _asks_how_many(g: Givens) -> bool:
    """Whether the number of candles or batches is asked for: "how many 180 g wax jars", "number of votives"."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if mark.text not in ("how many", "hw mny", "how mny", "hw many") and not (
            mark.text == "number" and i + 1 < len(marks) and marks[i + 1].text == "of"
        ):
            continue
        if [after.text for after in marks[i + 1 : i + 4]] in _CAN_I_MAKE and g.has("candle", "jar"):
            return True
        for after in marks[i + 1 : i + 7]:
            if after.kind == "stop" or after.text in ("do", "can", "does", "is", "are", "in", "for", "from"):
                break
            if after.noun in ("candle", "jar") or after.text in _COUNTED:
                return True
            if after.noun in ("pack", "bottle", "box", "pot"):
                break
        if _of_what_was_named(g, marks[i + 1 : i + 2]):
            return True
    return False


_MADE = wordset("can could do will and or would")


def _of_what_was_named(g: Givens, after: list[Mark]) -> bool:
    """ "180 g candles at 8 %, how many can I make?": the candles have been named with what each takes."""
    goes_on = not after or after[0].kind in ("stop", "sign") or after[0].text in _MADE
    return goes_on and len(g.scan.masses("candle", "jar")) == 1 and bool(g.scan.masses("wax", "fragrance"))


def _from_both(g: Givens) -> Outcome:
    """ "2.3 kg wax, 150 g oil, candles of 180 g finished at 8 %: how many till one of them is empty?" """
    wax, oil = g.scan.masses("wax"), g.scan.masses("fragrance")
    each = [m for m in g.scan.masses() if m not in wax and m not in oil]
    if not len(wax) == len(oil) == len(each) == 1 or doubtful_ounces(g) is not None:
        return None
    alone = each[0]
    load = g.shares.load
    if load is None:  # "2400 g wax and 192 g fragrance, how many 200 g candles": all of both goes in
        if mass_of(oil[0]).base * 2 > mass_of(wax[0]).base or alone.of == "":
            return None
        load = Load.rate(mass_of(oil[0]), mass_of(wax[0]), f"{oil[0].amount.text} per {wax[0].amount.text}")
    if alone.of not in ("candle", "jar", "total", "") or mass_of(alone).base * 2 > mass_of(wax[0]).base:
        return None
    finished = alone.of in ("total", "candle") or bool(alone.flags & {"finished", "without"})
    return StockQuestion(
        wax=Masses.one(mass_of(wax[0])),
        fragrance=mass_of(oil[0]),
        load=load,
        each=mass_of(alone),
        fill_is=FillIs.FINISHED if finished else None,
    )


def _from_oil(g: Givens) -> Outcome:
    """ "How many 100 g melts at 10 % from 90 g of oil?" """
    each = [m for m in g.scan.masses("candle", "jar", "total", "") if not m["have"]]
    alone = [m for m in g.scan.masses("wax") if m["each"] or asks_for_one(g)]
    oil = g.fragrance()
    if oil is None or len(each) + len(alone) != 1 or len(g.scan.masses()) != 2 or g.shares.load is None:
        return None
    if doubtful_ounces(g) is not None:
        return None
    return StockQuestion(
        fragrance=oil,
        load=g.shares.load,
        each=mass_of((each or alone)[0]),
        fill_is=FillIs.FINISHED if each else FillIs.WAX,
    )


def wax_for_unknown_oil(g: Givens) -> Outcome:
    """ "How much wax for an 8 % load?" with neither weight: the fragrance's is what is missing."""
    if g.scan.masses() or g.scan.volumes() or g.shares.load is None:
        return None
    if len(basis_words(g.scan)) == 2 and g.asks_percent:
        return None  # "10 % of the wax is how much percent of the total?"
    return StockQuestion(load=g.shares.load)


def weighed_wrong(g: Givens) -> Outcome:
    """What is in it where the scale was zeroed with something on it that is off now, and what is missing of the
    weight that was wanted where the vessel was weighed along."""
    if (off := taken_out(g.scan)) is not None and not g.asks_percent:
        g.used.update(m.at for m in off)
        return TareQuestion(full=mass_of(off[0]), removed=mass_of(off[1]), stuff=g.stuff())
    made = tare(g)
    return made if isinstance(made, TareQuestion) and made.wanted is not None else None


def tare(g: Givens) -> Outcome:
    """ "The pot weighs 640 g, with wax 2140: do I count the pot?" """
    along = vessels_along(g.scan)
    pair = (along[0].full, along[0].empty) if len(along) == 1 else weighed_along(g.scan)
    zeroed = zeroed_first(g.scan)
    if zeroed and pair is not None and gross(g.scan, pair[0]) and pair[0].of != "wax":
        return None  # the vessel is off the reading already, and yet it is said to be in it
    asks_load = g.asks_percent and not asks_what_counts(g.scan)
    if pair is None or asks_load or g.has("water", "net", "label", "dense", "density"):
        return None
    told = {mass_of(m).base for m in pair}
    others = [m for m in g.scan.masses() if mass_of(m).base not in told]
    wanted = [m for m in others if is_wanted(g.scan, m)]
    if others and (len(others) > 1 or not wanted):
        return None
    g.used.update(m.at for m in g.scan.kind("number") if m.amount.value in {x.amount.value for x in pair})
    full, empty = (mass_of(m) for m in pair)
    aim = mass_of(wanted[0]) if wanted else None
    if zeroed:
        g.used.add(pair[1].at)
        return TareQuestion(full=full, zeroed=True, stuff=g.stuff(), wanted=aim)
    return TareQuestion(full=full, empty=empty, stuff=g.stuff(), wanted=aim)
