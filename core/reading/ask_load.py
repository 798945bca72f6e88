"""Texts about wax, fragrance, load and total by weight: the questions load and blend."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Additives, Basis, Load, Masses, Stuff
from core.question import Question
from core.questions.blend import BlendQuestion
from core.questions.load import LoadQuestion
from core.questions.rescue import RescueQuestion
from core.questions.stock import StockQuestion
from core.questions.tare import TareQuestion
from core.reading import asking
from core.reading.ask_basis import asks_both, compares_bases, of_a_total, on_both, restated, who_is_right
from core.reading.ask_mix import doubtful_ounces, load_question, which_ounces
from core.reading.ask_parts import blend_only, oils_added_up, parts_of_whole
from core.reading.ask_several import (
    MOST_LOADS,
    each_alone,
    in_proportion,
    load_for_each,
    load_of_each_oil,
    mixed,
    recipe_for_each,
    same_weight_twice,
    with_plain,
)
from core.reading.bases import basis_of
from core.reading.chain import chained
from core.reading.counts import by_vessel
from core.reading.givens import Givens
from core.reading.marks import Mark
from core.reading.measuring import mass_of
from core.reading.one_and_all import also_for
from core.reading.tares import gross, words_around
from core.reading.weights import Weights, weights
from core.reading.wordset import wordset
from core.reading.workings import difference
from core.units import Mass, Percent

Outcome = Question | Answer | None


def load(g: Givens) -> Outcome:
    """Any two of wax, fragrance, load and total."""
    if g.shares.parts:
        return parts_of_whole(g)
    if (
        early := _asked_rate(g)
        or restated(g)
        or who_is_right(g)
        or mixed(g)
        or with_plain(g)
        or in_proportion(g)
        or load_for_each(g)
        or blend_only(g)
    ) is not None:
        return early
    if (each := recipe_for_each(g) or load_of_each_oil(g)) is not None:
        return each
    if any(by_vessel(g, m) for m in g.scan.kind("number")) and not g.scan.masses("fragrance"):
        return asking.room_only(LoadQuestion(wax=g.wax(), load=g.shares.load))
    if g.shares.unclear:
        return asking.which_percent(g.shares.unclear)
    if (unweighed := _vessel_unweighed(g)) is not None:
        return unweighed
    full = [m for m in g.scan.masses("wax", "pot") if g.has("pot") and gross(g.scan, m) and not g.tared]
    if full and _with_its_pot(words_around(g.scan, full[0])):
        return asking.which_weight(full)  # with its pot, and nobody said what that weighs
    found = weights(g)
    if found.unclear:
        return each_alone(g, found) or asking.which_weight(found.unclear)
    wax, fragrance, total, loads = found.wax, found.fragrance, found.total, g.shares.loads
    if wax is None and fragrance is None and total is None and not loads:
        return None
    if g.shares.strength is not None and not loads and fragrance is not None:
        fragrance = fragrance * g.shares.strength.fraction
    if fragrance is not None and not loads and wax is None and total is None:
        if g.asks_percent:
            return asking.wax_missing(load_question(g, Weights(None, fragrance, None, []), None))
        if not g.has("wax"):
            return None
    return _built(g, Weights(wax, fragrance, total, []))


def _built(g: Givens, found: Weights) -> Outcome:
    wax, fragrance, total, loads = found.wax, found.fragrance, found.total, g.shares.loads
    if (both := same_weight_twice(g, wax)) is not None:
        return both
    if len(loads) > MOST_LOADS:
        return asking.not_understood("I see many percents that may be the load. Ask with one of them.")
    if (added := oils_added_up(g, found)) is not None:
        return added
    if not loads and _suspicious(g, wax, fragrance):
        return asking.which_weight(g.scan.masses())
    if (special := _by_purpose(g, found)) is not None:
        return special
    if (most := _the_most(g)) is not None:
        g.used.update(m.at for m in g.scan.kind("percent"))
        loads = [most]
    given, limit = g.shares.load, g.shares.limit
    if (
        most is None
        and given is not None
        and limit is not None
        and fragrance is None
        and limit.base < given.percent.base
    ):
        loads = [Load(limit, given.basis), *loads]  # "was going to do 10 % but my max is 8": the most first
    if wax is not None and fragrance is not None and len(loads) == 1 and _uses_up(g):
        return StockQuestion(wax=wax, fragrance=fragrance, load=loads[0])
    made = [load_question(g, found, each) for each in loads] or [load_question(g, found, None)]
    if total is not None and wax is None and fragrance is None:
        if (of_all := _rest_is_wax(g, total)) is not None:
            return of_all
        if len(made) == 1 and made[0].load is not None and made[0].load.basis and (more := also_for(g, made[0])):
            return chained(g.book, *made, *more)
        return _with_waxes(g, of_a_total(g, made))
    if wax is not None and total is not None and fragrance is None and loads and _unfitting(wax, total, made):
        return asking.which_weight(g.scan.masses())
    if fragrance is not None and total is not None and wax is None and len(loads) == 1:
        g.used.update(m.at for m in g.scan.kind("percent"))
        return load_question(g, found, None)  # "is 30 g in a 330 g candle 10 %?": what the load is, of both
    if fragrance is not None and (doubtful := doubtful_ounces(g)) is not None:
        return which_ounces(g, doubtful, made[0])
    if wax is not None and fragrance is None and len(made) == 1 and compares_bases(g):
        return chained(g.book, *on_both(made[0], wax)[:2])
    if wax is not None and len(wax.items) > 1 and len(made) == 1 and fragrance is None and _oil_for_each(g):
        alone = (load_question(g, Weights(Masses((item,)), None, None, []), loads[0]) for item in wax.items)
        return chained(g.book, *alone, made[0])
    if len(made) == 1 and fragrance is None and (more := also_for(g, made[0])):
        return chained(g.book, *made, *more)
    if asks_both(g) and len(made) == 1 and made[0].load is not None and wax is not None:
        return chained(g.book, *on_both(made[0], wax))
    if wax is not None and fragrance is not None and loads and fragrance.base > wax.total.base:
        return asking.which_weight(g.scan.masses())  # more oil than wax: the words were misread
    if len(made) > 1 and fragrance is not None and wax is not None:
        return load_question(g, found, None)  # "is it 8 % or 7.4?": both figures are in the answer
    if not loads and fragrance is None and total is None and g.has("already") and g.has("load", "percent_word"):
        return asking.fragrance_missing(made[0])
    if wax is not None and len(wax.items) == 1 and len(made) == 1 and g.shares.waxes is not None and not fragrance:
        return chained(g.book, made[0], BlendQuestion(parts=g.shares.waxes, total=wax.total))
    if len(made) == 2 and wax is not None and fragrance is None and g.scan.says(("difference", "differ")):
        oils = sorted((wax.total * each.percent.fraction for each in loads), key=lambda oil: oil.base)
        if not any(each.basis is Basis.TOTAL for each in loads):
            g.scan.workings.append(difference("difference", oils[1], oils[0])[1])
    return chained(g.book, *made)


def _unfitting(wax: Masses, total: Mass, made: list[LoadQuestion]) -> bool:
    """ "400 g more wax, 600 g is in, 8 %": the wax and the whole are not one mix at any of the loads."""
    wholes = [wax.total.base * (1 + each.load.percent.fraction) for each in made if each.load is not None]
    return wax.total.base != total.base and not any(abs(whole - total.base) <= whole / 50 for whole in wholes)


def _oil_for_each(g: Givens) -> bool:
    """ "Oil for each?", "how much in each?" of several weights of wax."""
    marks = g.scan.marks
    asked = any(one.text in ("for", "in") and "each" in two.tags for one, two in itertools.pairwise(marks))
    return asked and bool(g.shares.loads) and not g.scan.kind("number")


def _vessel_unweighed(g: Givens) -> TareQuestion | None:
    """ "1250 g with the pan on the scale": the pan's own weight is missing."""
    masses = g.scan.masses()
    if not g.has("pot"):
        return None
    if len(masses) != 1 or masses[0].of not in ("", "scale", "pot", "wax") or g.has("without") or g.tared:
        return None
    words = [*words_around(g.scan, masses[0]), *g.scan.marks[masses[0].at + 1 : masses[0].at + 6]]
    return TareQuestion(full=mass_of(masses[0]), stuff=Stuff.WAX) if _with_its_pot(words) else None


def _with_its_pot(words: list[Mark]) -> bool:
    """ "With the pan on", "pot and wax"."""
    for i, mark in enumerate(words):
        near = words[i + 1 : i + 4]
        with_pot = mark.text in ("with", "incl", "including") and any(x.noun == "pot" for x in near)
        pot_with = mark.noun == "pot" and near[:1] and near[0].text in _WITH and any(x.noun == "wax" for x in near)
        if with_pot or pot_with:
            return True
    return False


_WITH = wordset("with and + plus & n incl including")


def _by_purpose(g: Givens, found: Weights) -> Outcome:
    """Where the words say what is to become of the wax or the oil: used up, shared between pots, topped up."""
    wax, fragrance, loads = found.wax, found.fragrance, g.shares.loads
    if wax is None:
        return None
    if fragrance is not None and len(loads) == 1 and _for_all_the_oil(g):
        g.used.update(m.at for m in g.scan.masses("wax"))
        if (doubtful := doubtful_ounces(g)) is not None:
            return which_ounces(g, doubtful, load_question(g, found, loads[0]))
        return load_question(g, Weights(None, fragrance, None, []), loads[0])
    if fragrance is not None and len(loads) == 1 and g.scan.says(("rest",)) and not g.checks:
        if (doubtful := doubtful_ounces(g)) is not None:
            return which_ounces(g, doubtful, load_question(g, found, loads[0]))
        return RescueQuestion(wax=wax, fragrance=fragrance, load=loads[0], limit=g.shares.limit)
    if fragrance is None and 1 < len(loads) <= MOST_LOADS and g.has("split"):
        if not g.scan.says(_EVENLY):
            return asking.which_weight(g.scan.masses())
        g.used.update(m.at for m in g.scan.masses())
        part = Masses.one(wax.total * (Decimal(1) / len(loads)))
        return chained(g.book, *(load_question(g, Weights(part, None, None, []), each) for each in loads))
    return None


def _the_most(g: Givens) -> Load | None:
    """The limit as the load, where the most is asked for: "I wanted 6 % but the bottle says at most 5 %", "max 6 %
    of the candle, 850 g of wax, how much can I put in at most?" """
    given, limit = g.shares.load, g.shares.limit
    if limit is None or (g.shares.loads and (given is None or limit.base >= given.percent.base)):
        return None
    if given is not None:
        return Load(limit, given.basis) if g.scan.says(("most", "maximum", "highest")) else None
    if not (g.has("asks") or g.scan.says(_MOST)):
        return None
    said = [m for m in g.scan.kind("percent") if m["limit"] or m.amount.value == limit.base]
    return Load(limit, basis_of(g.scan, said[0])) if len(said) == 1 and limit.base == said[0].amount.value else None


_MOST = wordset("most maximum max highest biggest limit")


def _uses_up(g: Givens) -> bool:
    """ "How much of the wax can I scent with it?" """
    return ("wax" in g.asked() and not g.checks) or g.scan.says(("far",)) or g.has("runs_out", "left_over")


_EVENLY = wordset("equal equally evenly half halves even")


def _for_all_the_oil(g: Givens) -> bool:
    """ "How much wax would I need to use all the oil?" """
    return (
        "wax" in g.asked() and g.scan.says(("need", "needed")) and g.scan.says(("use",)) and g.scan.says(("all", "up"))
    )


def _suspicious(g: Givens, wax: Masses | None, fragrance: Mass | None) -> bool:
    """A load far beyond any recipe from weights that only their order told apart: rather a misreading."""
    if wax is None or fragrance is None or not wax.total or fragrance.base * 4 < wax.total.base:
        return False
    return not all(m.sure for m in g.scan.masses())


def _asked_rate(g: Givens) -> LoadQuestion | None:
    """ "1 oz per pound is what percent?": a rate or ratio by itself is two weights."""
    given = g.shares.load
    if [m.kind for m in g.scan.found] == ["rate", "percent"] and len(g.shares.loads) == 2:
        given = g.shares.loads[0]  # "an ounce to the pound is ten percent, true?"
        g.used.update(m.at for m in g.scan.kind("percent"))
    alone = given is not g.shares.load or (len(g.scan.found) == 1 and not (g.has("asks") and g.wanted_mass()))
    if given is None or not given.typed or not (g.asks_percent or alone) or g.scan.masses():
        return None
    for m in g.scan.kind("rate"):
        if m.amount.per is not None:
            value, unit = m.amount.per
            return LoadQuestion(fragrance=Mass.of(m.amount.value, m.amount.unit), wax=Masses.one(Mass.of(value, unit)))
    return LoadQuestion(fragrance=Mass(given.percent.base), wax=Masses.one(Mass(Decimal(100))))


def _with_waxes(g: Givens, made: Outcome) -> Outcome:
    """ "80/20 soy to beeswax, 10 % of the total, 1000 g in all": the wax is shared out as well."""
    if not isinstance(made, LoadQuestion) or g.shares.waxes is None or made.total is None or made.load is None:
        return made
    share = made.load.percent.fraction
    of_total = made.load.basis is Basis.TOTAL and not made.load.typed
    wax = made.total * (1 - share) if of_total else Mass(made.total.base / (1 + share), made.total.unit)
    return chained(g.book, made, BlendQuestion(parts=g.shares.waxes, total=wax))


def _rest_is_wax(g: Givens, total: Mass) -> LoadQuestion | None:
    """ "4 % fragrance and 0.5 % dye of 2.5 kg, the rest is wax": every percent is of the whole."""
    given = g.shares.load
    if given is None or given.typed or given.basis is Basis.WAX or not g.shares.additives:
        return None
    rest = Decimal(100) - given.percent.base - sum((share.base for _, share in g.shares.additives), Decimal(0))
    if not g.scan.says(("rest", "remaining", "remainder")) or rest <= 0:
        return None
    g.used.update(m.at for m in g.scan.kind("percent"))
    additives = Additives(tuple((name, Percent(share.base / rest * 100)) for name, share in g.shares.additives))
    return LoadQuestion(total=total, load=Load(given.percent, Basis.TOTAL), additives=additives, unit=g.wanted_mass())


def nothing_given(g: Givens) -> Outcome:
    """ "How much oil goes into my wax?": neither weight nor percent."""
    if g.shares.loads or g.scan.kind("temperature"):
        return None
    return LoadQuestion()
