"""Several weights, loads or oils in one text: each worked out, or all in proportion."""

from __future__ import annotations

import dataclasses
from decimal import Decimal

from core.answer import Answer
from core.compounds import Additives, Basis, Fill, Fills, Load, Masses, Parts
from core.question import Question
from core.questions.batch import BatchQuestion, FillIs
from core.questions.blend import BlendQuestion
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.ask_mix import doubtful_ounces, load_question
from core.reading.chain import chained
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.weights import Weights, weights
from core.reading.wordset import wordset
from core.units import Percent

Outcome = Question | Answer | None

MOST_LOADS = 4


_OTHER_SIZE = wordset("same now recipe only last then takes took time if")


def dye_only(g: Givens) -> Outcome:
    """ "How much dye for 3 lb at 0.1 %": an additive and no fragrance at all."""
    heads = [head for _, head in g.scan.heads]
    if "fragrance" in heads or "load" in heads or not {"dye", "additive"} & set(heads):
        return None
    found = weights(g)
    percents = [m for m in g.scan.kind("percent") if m.of != "wax"]
    if (strong := _strong_dye(g, found, percents)) is not None:
        return strong
    if found.wax is None or found.unclear or not percents:
        return None
    name = next(head for head in heads if head in ("dye", "additive"))
    named = Additives(
        tuple((m.name if m.of in ("dye", "additive") else name, Percent(m.amount.value)) for m in percents)
    )
    fill = Fill(1, weight=found.wax.total)
    return BatchQuestion(
        fills=Fills((fill,)), fill_is=FillIs.WAX, load=Load(Percent(Decimal(0))), additives=named, unit=g.wanted_mass()
    )


_PURE = wordset("pure real actual true neat itself")


def _strong_dye(g: Givens, found: Weights, percents: list[Measured]) -> Outcome:
    """ "Chips are 10 % colour, I need 0.05 % pure colour in 2 kg": as much more of the chips as they are weaker."""
    if len(percents) != 2 or found.wax is None or found.unclear:
        return None
    strength, wanted = sorted((m.amount.value for m in percents), reverse=True)
    if not g.scan.says(_PURE) or not 0 < wanted * 5 <= strength <= 100:
        return None
    g.used.update(m.at for m in percents)
    made = [
        BatchQuestion(
            fills=Fills((Fill(1, weight=found.wax.total),)),
            fill_is=FillIs.WAX,
            load=Load(Percent(Decimal(0))),
            additives=Additives(((name, Percent(share)),)),
            unit=g.wanted_mass(),
        )
        for name, share in (("dye of that strength", wanted / strength * 100), ("pure colour", wanted))
    ]
    return chained(g.book, *made)


_MIXING = wordset("together tipped mixed combined combine one same tip now")


def mixed(g: Givens) -> LoadQuestion | None:
    """ "100 g of wax at 6 % and 100 g at 10 % in one pot: what is it now?": wax and oil of both, added up."""
    shares = g.scan.kind("percent")
    masses = [m for m in g.scan.masses() if m.of in ("wax", "")]
    pours = g.has("together") or g.scan.says(("poured", "tipped", "mixed", "combined", "pour", "mix", "combine", "tip"))
    asks = g.has("what", "percent_word", "load") and not g.has("asks", "want")
    if not pours or not asks or not g.scan.says(_MIXING) or len(shares) != 2 or len(masses) < 2:
        return None
    two, percents = masses[:2], [m.amount.value for m in shares]
    again = all(any(mass_of(m).base == mass_of(x).base for x in two) for m in masses[2:])
    paired = (two[0].at < shares[0].at < two[1].at) == (two[1].at < shares[1].at)
    if not again or not paired or len(masses) != len(g.scan.masses()) or max(percents) > 30:
        return None
    if any(load.basis is Basis.TOTAL for load in g.shares.loads):
        return None
    g.used.update(m.at for m in g.scan.found)
    oils = [mass_of(m) * (percent / 100) for m, percent in zip(two, percents, strict=True)]
    return LoadQuestion(wax=Masses(tuple(("", mass_of(m)) for m in two)), fragrance=oils[0] + oils[1])


def in_proportion(g: Givens) -> Outcome:
    """ "500 g of wax took 40 g of oil; how much for 1250 g?": the first two weights are a rate."""
    masses = [m for m in g.scan.masses() if m.of in ("wax", "fragrance", "")]
    oils = [m for m in masses if m.of == "fragrance"]
    if not oils and len(masses) == 3 and _takes(g, masses[0], masses[1]):
        oils = [masses[1]]
    if g.shares.loads or len(masses) != 3 or len(oils) != 1 or g.asks_percent:
        return None
    if not (g.scan.says(_OTHER_SIZE) or g.has("asks")):
        return None
    if oils[0] is masses[2]:
        return _told_last(g, masses)
    if g.scan.marks[masses[2].at - 1].text in ("and", "+", "&", "plus"):
        return None  # "1 lb soy, 2 oz oil and 3 lb paraffin" is one pot
    base = next(m for m in masses if m is not oils[0])
    if doubtful_ounces(g) is not None or not mass_of(base):
        return None
    typed = f"{oils[0].amount.text} per {base.amount.text}"
    rate = Load.rate(mass_of(oils[0]), mass_of(base), typed)
    return LoadQuestion(wax=Masses.one(mass_of(masses[2])), load=rate, unit=g.wanted_mass())


_SMALL = wordset("small smaller little first old")
_LARGE = wordset("big bigger large larger second")


def _told_last(g: Givens, masses: list[Measured]) -> Outcome:
    """ "From 1.5 kg to 4 kg of wax, 105 g of oil in the small one, same strength": which of the two has the oil."""
    one, other, oil = masses
    after = {mark.text for mark in g.scan.marks[oil.at + 1 : oil.at + 8]}
    moved = g.scan.marks[one.at - 1].text == "from" and g.scan.marks[other.at - 1].text in ("to", "up")
    if not g.scan.says(("same",)) or not mass_of(one) or not mass_of(other) or doubtful_ounces(g) is not None:
        return None
    small, large = sorted((one, other), key=lambda m: mass_of(m).base)
    if after & _SMALL and not after & _LARGE:
        base = small
    elif after & _LARGE and not after & _SMALL:
        base = large
    elif moved:
        base = one
    else:
        return None
    wanted = other if base is one else one
    rate = Load.rate(mass_of(oil), mass_of(base), f"{oil.amount.text} per {base.amount.text}")
    return LoadQuestion(wax=Masses.one(mass_of(wanted)), load=rate, unit=g.wanted_mass())


def _takes(g: Givens, wax: Measured, oil: Measured) -> bool:
    """ "1000 g takes 80 g": of the second far less than of the first."""
    between = {mark.text for mark in g.scan.marks[wax.at + 1 : oil.at]}
    return (
        bool(between & {"takes", "took", "gets", "needs", "got", "needed"})
        and mass_of(oil).base * 4 < mass_of(wax).base
    )


def recipe_for_each(g: Givens) -> Outcome:
    """ "I put 80 g to 920 g of wax, my friend 80 g to 1000 g": two loads."""
    masses = g.scan.masses("wax", "fragrance")
    order = [m.of for m in masses]
    if (
        order not in (["fragrance", "wax"] * 2, ["wax", "fragrance"] * 2)
        or g.has("together")
        or len(g.scan.masses()) != 4
    ):
        return None
    asked = g.has("compare", "percent_word", "both", "what") or g.checks or g.scan.kind("percent")
    if not asked or doubtful_ounces(g) is not None:
        return None
    g.used.update(m.at for m in g.scan.kind("percent"))
    pots = (sorted(masses[i : i + 2], key=lambda m: m.of) for i in (0, 2))
    return chained(g.book, *(LoadQuestion(fragrance=mass_of(oil), wax=Masses.one(mass_of(wax))) for oil, wax in pots))


def load_for_each(g: Givens) -> Outcome:
    """ "6 % in 400 g and 8 % in 600 g": as many loads as weights, one after the other."""
    shares = [m for m in g.scan.kind("percent") if m.of not in ("dye", "additive")]
    masses = [m for m in g.scan.masses() if m.of in ("wax", "", "fragrance")]
    if len(shares) < 2 or len(shares) != len(masses) or len(g.shares.loads) < 2 or len(shares) > MOST_LOADS:
        return None
    order = [m.kind for m in sorted((*shares, *masses), key=lambda m: m.at)]
    if g.scan.says(("mix", "mixed", "combine", "combined", "tip", "tipped")):
        return asking.which_percent(shares)  # each may hold that much already: is it to be added, or in there?
    if g.asks_load or order not in (["percent", "mass"] * len(shares), ["mass", "percent"] * len(shares)):
        return None
    if any(m.of == "fragrance" and m.side == "right" for m in masses):
        return None
    paired = list(zip(shares, masses, strict=True))
    alone = [
        LoadQuestion(wax=Masses.one(mass_of(m)), load=Load(Percent(share.amount.value)), unit=g.wanted_mass())
        for share, m in paired
    ]
    return chained(g.book, *([_all_of_them(g, paired)] if _asks_the_sum(g) else []), *alone)


def _asks_the_sum(g: Givens) -> bool:
    """ "Oil for both together", "how much in total"."""
    return g.has("together") or g.scan.says(("total", "sum", "overall", "altogether"))


def _all_of_them(g: Givens, paired: list[tuple[Measured, Measured]]) -> LoadQuestion:
    """All the wax with all the oil that the batches take one by one."""
    waxes = Masses(tuple(("", mass_of(m)) for _, m in paired))
    oil = mass_of(paired[0][1]) * (paired[0][0].amount.value / 100)
    for share, m in paired[1:]:
        oil = oil + mass_of(m) * (share.amount.value / 100)
    typed = " + ".join(f"{share.amount.text} of {m.amount.text}" for share, m in paired)
    return LoadQuestion(wax=waxes, load=Load.rate(oil, waxes.total, typed), unit=g.wanted_mass())


def blend_only(g: Givens) -> Outcome:
    """Shares of waxes alone, or of oils alone: "three parts soy, one part paraffin, 1.6 kg in all"."""
    heads = {head for _, head in g.scan.heads}
    waxes = g.shares.waxes is not None and not heads & {"fragrance", "load"}
    parts = g.shares.waxes if waxes else g.shares.blend if not heads & {"wax", "load"} else None
    masses = g.scan.masses()
    if parts is None or g.shares.loads or len(masses) != 1:
        return None
    return BlendQuestion(parts=parts, total=mass_of(masses[0]))


def oils_added_up(g: Givens, found: Weights) -> Outcome:
    """ "6 % rose and 2 % musk": the loads of several oils in one wax."""
    named = [m for m in g.scan.kind("percent") if m.of == "fragrance"]
    if found.wax is None or found.fragrance is not None or len(named) < 2 or len(named) != len(g.shares.loads):
        return None
    names = [m.name for m in named]
    if len(set(names)) != len(names) or g.scan.says(("or", "vs", "versus")) or g.shares.blend is not None:
        return None
    percent = Percent(sum((m.amount.value for m in named), Decimal(0)))
    blend = Parts(tuple((m.name, m.amount.value) for m in named))
    made = load_question(g, found, Load(percent, g.shares.loads[0].basis))
    return dataclasses.replace(made, blend=blend)


def each_alone(g: Givens, found: Weights) -> Outcome:
    """ "For 1 lb, 2 lb and 5 lb at 6 %": several weights without a name, each worked out for itself."""
    loose, given = g.loose(), g.shares.load
    if (
        found.unclear != loose
        or given is None
        or len(loose) < 2
        or found.total
        or found.fragrance
        or len(loose) > MOST_LOADS
    ):
        return None
    if g.has("together", "compare") or g.checks or (found.wax is not None and len(found.wax.items) > 1):
        return None
    alone = [*([found.wax.total] if found.wax is not None else []), *(mass_of(m) for m in loose)]
    listed = all(g.scan.marks[m.at - 1].text in (",", "and", "or", "&") for m in loose[1:])
    if not listed:
        return None
    return chained(g.book, *(LoadQuestion(wax=Masses.one(mass), load=given, unit=g.wanted_mass()) for mass in alone))


def same_weight_twice(g: Givens, wax: Masses | None) -> Outcome:
    """ "Is 6 % of 1000 g wax the same as 6 % of a 1000 g candle?": both are worked out."""
    wholes = g.scan.masses("total", "candle")
    given = g.shares.load
    if wax is None or given is None or len(wholes) != 1 or not g.has("compare", "same"):
        return None
    return chained(
        g.book,
        LoadQuestion(wax=wax, load=given),
        LoadQuestion(total=mass_of(wholes[0]), load=Load(given.percent, given.basis or Basis.WAX)),
    )


def parts_of_whole(g: Givens) -> Outcome:
    """ "94 % wax, 6 % fragrance of 350 g": percents of the whole that add up to 100."""
    parts = g.shares.parts
    oil = sum((value for _, of, value in parts if of == "fragrance"), Decimal(0))
    wax = sum((value for _, of, value in parts if of in ("wax", "total", "")), Decimal(0))
    extra = [(name, value) for name, of, value in parts if of in ("dye", "additive")]
    masses = [m for m in g.scan.masses() if m.of not in ("wax", "fragrance") or m.side == "left"]
    if not oil or not wax:
        return None
    whole = mass_of(masses[0]) if len(masses) == 1 else None
    waxes = [(name, value) for name, of, value in parts if of == "wax"]
    if len(waxes) > 1 and whole is not None:
        return BlendQuestion(parts=Parts(tuple((name, value) for name, _, value in parts)), total=whole)
    additives = Additives(tuple((name, Percent(value / wax * 100)) for name, value in extra)) if extra else None
    given = g.wax() if whole is None else None
    of_all = Load(Percent(oil), Basis.TOTAL)
    return LoadQuestion(total=whole, wax=given, load=of_all, additives=additives, unit=g.wanted_mass())
