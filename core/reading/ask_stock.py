"""Texts about what is in the pot already, at hand, or on the scale with its vessel: rescue, stock and tare."""

from __future__ import annotations

from core.answer import Answer
from core.compounds import Basis, Load, Masses
from core.mixing import Recipe
from core.question import Question
from core.questions.batch import FillIs
from core.questions.load import LoadQuestion
from core.questions.rescue import RescueQuestion
from core.questions.stock import StockQuestion
from core.questions.tare import TareQuestion
from core.reading import asking
from core.reading.ask_mix import doubtful_ounces, which_ounces
from core.reading.bases import basis_words
from core.reading.counts import counted
from core.reading.each import asks_for_one
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.netted import asks_what_counts, vessels_along
from core.reading.tares import weighed_along
from core.reading.weights import weights
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None


def rescue(g: Givens) -> Outcome:
    """Too much or too little is in the pot already."""
    if _two_recipes(g) or _only_checks(g):
        return None
    if (kept := _more_wax(g)) is not None:
        return kept
    found = weights(g)
    given = g.shares.load
    if given is None and not g.shares.loads and g.shares.limit is not None:
        given = Load(g.shares.limit)  # "the most is 8 %": what is wanted is the limit
    if len(g.shares.loads) == 2 and found.fragrance is None and not found.unclear:
        if any(g.scan.marks[m.at - 1].text in _MORE for m in g.scan.kind("percent") if m.at):
            return asking.which_percent(g.scan.kind("percent"))  # "add 2 %": to it, or of what is there?
        g.used.update(m.at for m in g.scan.kind("percent"))
        now, given = _now_and_wanted(g)  # "10 % by accident, I want 7 %"
        if found.total is not None and found.wax is None:
            mix = Recipe(now.percent, now.basis or Basis.WAX).of_total(found.total)
            g.used.update(m.at for m in g.scan.masses())
            found.wax, found.fragrance = Masses.one(mix.wax), mix.fragrance
        elif found.wax is not None and _is_mix(g):
            mix = Recipe(now.percent, now.basis or Basis.WAX).of_total(found.wax.total)
            g.used.update(m.at for m in g.scan.masses())
            found.wax, found.fragrance = Masses.one(mix.wax), mix.fragrance
        elif found.wax is not None:
            found.fragrance = found.wax.total * now.percent.fraction
    if found.unclear or found.wax is None or found.fragrance is None or given is None:
        return None
    if (doubtful := doubtful_ounces(g)) is not None:
        return which_ounces(g, doubtful, LoadQuestion(wax=found.wax, fragrance=found.fragrance, load=given))
    if found.fragrance.base >= found.wax.total.base:
        return None
    return RescueQuestion(
        wax=found.wax, fragrance=found.fragrance, load=given, strength=g.shares.strength, limit=g.shares.limit
    )


_MORE = wordset("add adding another extra")
_MORE_WAX = wordset("more another extra fresh plain unscented new additional add adding added plus")


def _more_wax(g: Givens) -> RescueQuestion | None:
    """ "500 g of wax at 6 %, now 250 g more: how much more oil so that it stays 6 %?": the first has its oil."""
    waxes, loads = g.scan.masses("wax", ""), g.shares.loads
    if len(waxes) != 2 or len(g.scan.masses()) != 2 or len(loads) not in (1, 2):
        return None
    first, second = waxes
    near = (*g.scan.marks[max(0, second.at - 2) : second.at], *g.scan.marks[second.at + 1 : second.at + 3])
    percents = [m for m in g.scan.kind("percent") if m.amount.value == loads[0].percent.base]
    told = any(first.at < m.at < second.at or m.at < first.at for m in percents)
    if first.of != "wax" or not told or not any(mark.text in _MORE_WAX for mark in near) or not _asks_more(g):
        return None
    if not (g.scan.says(_KEEPS) or len(loads) == 2 or len(g.scan.kind("percent")) == 2):
        return None
    pot = Recipe(loads[0].percent, loads[0].basis or Basis.WAX).of_wax(mass_of(first))
    g.used.update(m.at for m in g.scan.found)
    waxes_now = Masses((("", pot.wax), ("added", mass_of(second))))
    return RescueQuestion(wax=waxes_now, fragrance=pot.fragrance, load=loads[-1], limit=g.shares.limit)


def _asks_more(g: Givens) -> bool:
    """ "How much more oil", "how much oil to add", "how much extra": only what is lacking is asked for."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if "asks" in mark.tags:
            for after in marks[i + 1 : i + 6]:
                if after.kind in ("amount", "stop"):
                    break
                if after.text in ("more", "extra", "add", "another"):
                    return True
    return False


_KEEPS = wordset("stay stays keep keeps kept same still again remain remains staying keeping")
_MIXED = wordset("premixed premix prescented remelt remelted")


def _is_mix(g: Givens) -> bool:
    """ "Premixed wax with 3 % in, I have 1030 g of it": the weight has the oil in it."""
    if g.scan.says(_MIXED) or g.scan.says(("pre",)):
        return True
    plain = any(m.of == "wax" and m.sure and m.side == "right" for m in g.scan.masses())  # "1.5 kg wax a batch"
    return not plain and any(head == "total" for _, head in g.scan.heads)


def _now_and_wanted(g: Givens) -> tuple[Load, Load]:
    """The load that is in the pot and the one that is wanted: the first and the second, unless the words turn them."""
    first, second = g.shares.loads
    percents = {m.amount.value: m for m in g.scan.kind("percent")}
    one, other = percents.get(first.percent.base), percents.get(second.percent.base)
    if one is None or other is None or _was(g, one) or _said_now(g, other):
        return first, second
    turned = (one["want"] and not other["want"]) or _was(g, other)
    return (second, first) if turned else (first, second)


def _was(g: Givens, m: Measured) -> bool:
    """ "Was 6 %", "from 6 %": what it had before."""
    return bool(m.at) and g.scan.marks[m.at - 1].text in ("was", "from", "had")


def _said_now(g: Givens, m: Measured) -> bool:
    return bool(m.at) and g.scan.marks[m.at - 1].text in ("now", "to")


def _only_checks(g: Givens) -> bool:
    """ "Is 50 g too much for 900 g of wax when I want 5 %?": nothing is in a pot yet that could be mended."""
    first = next((mark.text for mark in g.scan.marks if mark.text not in _OPENERS), "")
    return first in _CHECKS and not g.has("already", "top_up", "add") and len(g.scan.kind("percent")) == 1


_OPENERS = wordset("so hi hey hello and pls please ok um well")
_CHECKS = wordset("is are will would isnt isn't would wouldnt")


def _two_recipes(g: Givens) -> bool:
    """ "I put 80 g to 920 g of wax, my friend 80 g to 1000 g": two pots, of which neither is to be changed."""
    order = [m.of for m in g.scan.masses("wax", "fragrance")]
    return order in (["fragrance", "wax"] * 2, ["wax", "fragrance"] * 2)


def stock(g: Givens) -> Outcome:
    """What is at hand: what runs out first, what is left."""
    wax, fragrance, given = g.wax(), g.fragrance(), g.shares.load
    if wax is None or fragrance is None or given is None:
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
    if any(m.kind == "number" and m.amount.value > 1 for m in g.scan.found):
        return None
    each, stocked = sorted(masses, key=lambda m: mass_of(m).base)
    if mass_of(each).base * 2 > mass_of(stocked).base:
        return None
    finished = each.of == "total" or each["finished"]
    return StockQuestion(
        wax=Masses.one(mass_of(stocked)),
        each=mass_of(each),
        fill_is=FillIs.FINISHED if finished else FillIs.WAX if each.of == "wax" or g.shares.load is None else None,
        load=g.shares.load,
    )


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


def _asks_how_many(g: Givens) -> bool:
    """Whether the number of candles or batches is asked for: "how many 180 g wax jars", "number of votives"."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if mark.text not in ("how many", "hw mny", "how mny", "hw many") and not (
            mark.text == "number" and i + 1 < len(marks) and marks[i + 1].text == "of"
        ):
            continue
        for after in marks[i + 1 : i + 7]:
            if after.kind == "stop" or after.text in ("do", "can", "does", "is", "are", "in", "for", "from"):
                break
            if after.noun in ("candle", "jar") or after.text in _COUNTED:
                return True
            if after.noun in ("pack", "bottle", "box", "pot"):
                break
    return False


def _from_both(g: Givens) -> Outcome:
    """ "2.2 kg of wax and 150 g of oil at 8 %, how many 190 g candles?" """
    wax, oil, each = g.scan.masses("wax"), g.scan.masses("fragrance"), g.scan.masses("candle", "jar")
    if not len(wax) == len(oil) == len(each) == 1 or len(g.scan.masses()) != 3 or g.shares.load is None:
        return None
    if doubtful_ounces(g) is not None or mass_of(each[0]).base >= mass_of(wax[0]).base:
        return None
    stocked = Masses.one(mass_of(wax[0]))
    return StockQuestion(wax=stocked, fragrance=mass_of(oil[0]), load=g.shares.load, each=mass_of(each[0]))


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


def tare(g: Givens) -> Outcome:
    """ "The pot weighs 640 g, with wax 2140: do I count the pot?" """
    along = vessels_along(g.scan)
    pair = (along[0].full, along[0].empty) if len(along) == 1 else weighed_along(g.scan)
    if (
        pair is None
        or (g.asks_percent and not asks_what_counts(g.scan))
        or g.has("water", "net", "label", "dense", "density")
    ):
        return None
    told = {mass_of(m).base for m in pair}
    if any(mass_of(m).base not in told for m in g.scan.masses()):
        return None
    g.used.update(m.at for m in g.scan.kind("number") if m.amount.value in {x.amount.value for x in pair})
    return TareQuestion(full=mass_of(pair[0]), empty=mass_of(pair[1]), stuff=g.stuff())
