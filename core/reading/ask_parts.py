"""Texts about the parts of a mix: shares of the whole, of the oils or the waxes, dye alone, a part and the rest."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Additives, Basis, Fill, Fills, Load, Masses, Parts
from core.question import Question
from core.questions.batch import BatchQuestion, FillIs
from core.questions.blend import BlendQuestion
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.ask_mix import load_question
from core.reading.chain import chained
from core.reading.counts import counts_vessels
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.weights import Weights, weights
from core.reading.wordset import wordset
from core.units import Density, Mass, Percent

Outcome = Question | Answer | None


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


def blend_only(g: Givens) -> Outcome:
    """Shares of waxes alone, or of oils alone: "three parts soy, one part paraffin, 1.6 kg in all"."""
    heads = {head for _, head in g.scan.heads}
    if g.shares.blend is not None and not g.has("wax_itself"):
        heads.discard("wax")  # "a blend of 60 % amber and 40 % vanilla"
    waxes = g.shares.waxes is not None and not heads & {"fragrance", "load"}
    parts = g.shares.waxes if waxes else g.shares.blend if not heads & {"wax", "load"} else None
    masses = g.scan.masses()
    if parts is None or g.shares.loads or len(masses) != 1:
        return None
    return BlendQuestion(parts=parts, total=mass_of(masses[0]))


def blend_density(g: Givens) -> Outcome:
    """ "The density of 60 % of an oil of 0.8 g/ml and 40 % of one of 1.2 g/ml": by shares, or half and half."""
    dense = [m for m in g.scan.kind("density") if isinstance(m.value, Density)]
    if len(dense) < 2 or g.scan.volumes() or not (g.scan.says(_BLENDED) or g.has("half")):
        return None
    percents, masses = g.scan.kind("percent"), g.scan.masses()
    ratios = [m.amount.ratio for m in g.scan.kind("ratio")]
    if len(percents) == len(dense) and not masses:
        shares = [m.amount.value for m in percents]
    elif len(masses) == len(dense) and not percents:
        shares = [mass_of(m).base for m in masses]
    elif len(ratios) == 1 and len(ratios[0]) == len(dense) and not (percents or masses):
        shares = list(ratios[0])
    elif (g.has("half") or g.scan.says(_EQUAL)) and not (percents or masses or ratios):
        shares = [Decimal(1)] * len(dense)
    else:
        return None
    densities = tuple(("", m.value.base) for m in dense if m.value is not None)
    return BlendQuestion(parts=Parts(tuple(("", share) for share in shares)), densities=Parts(densities))


_BLENDED = wordset("blend blended mix mixed mixture together combined mixing")
_EQUAL = wordset("half equal equally same even evenly")


def oils_added_up(g: Givens, found: Weights) -> Outcome:
    """ "6 % rose and 2 % musk": the loads of several oils in one wax."""
    named = [m for m in g.scan.kind("percent") if m.of == "fragrance"]
    summed = g.scan.kind("percent")
    if found.wax is not None and found.fragrance is None and _joined_by_plus(g, summed):
        percent = Percent(sum((m.amount.value for m in summed), Decimal(0)))
        blend = Parts(tuple((m.name if m.of == "fragrance" else "", m.amount.value) for m in summed))
        return dataclasses.replace(load_question(g, found, Load(percent, g.shares.loads[0].basis)), blend=blend)
    if found.wax is None or found.fragrance is not None or len(named) < 2 or len(named) != len(g.shares.loads):
        return None
    names = [m.name for m in named]
    if len(set(names)) != len(names) or g.scan.says(("or", "vs", "versus")) or g.shares.blend is not None:
        return None
    percent = Percent(sum((m.amount.value for m in named), Decimal(0)))
    blend = Parts(tuple((m.name, m.amount.value) for m in named))
    made = load_question(g, found, Load(percent, g.shares.loads[0].basis))
    return dataclasses.replace(made, blend=blend)


def _joined_by_plus(g: Givens, percents: list[Measured]) -> bool:
    """ "6 % + 2 % + 1 %": one load of three oils."""
    if len(percents) < 2 or len(percents) != len(g.shares.loads):
        return False
    pairs = itertools.pairwise(percents)
    return all(any(x.text in ("+", "plus") for x in g.scan.marks[one.at + 1 : two.at][-2:]) for one, two in pairs)


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


_EQUALLY = wordset("equal equally evenly even same half halves each")


def _vessels_of(g: Givens, m: Measured) -> bool:
    """ "In two pots", "into 2 batches"."""
    after = g.scan.marks[m.at + 1] if m.at + 1 < len(g.scan.marks) else None
    named = after is not None and (after.noun in ("pot", "jar") or after.text in ("batches", "lots", "parts", "halves"))
    return named and g.scan.marks[m.at - 1].text in ("in", "into", "between", "over")


_REST = wordset("rest remaining remainder other")


def part_and_rest(g: Givens) -> Outcome:
    """ "A third of 1.5 kg gets 6 % and the rest 8 %", "half with 6 %, half with 10 %": each part with its own load."""
    masses, loads = g.scan.masses(), g.shares.loads
    if len(masses) != 1 or len(loads) != 2 or masses[0].of not in ("wax", "", "pack") or g.has("already", "wrong"):
        return None
    if any(m.amount.value > 1 and counts_vessels(g, m) and not _vessels_of(g, m) for m in g.scan.kind("number")):
        return None  # the weight may be that of each
    parts = [m for m in g.scan.kind("number") if m.of == "part" and 0 < m.amount.value < 1]
    halves = sum(mark.text == "half" for mark in g.scan.marks)
    pots = [m for m in g.scan.kind("number") if m.amount.value == 2 and _vessels_of(g, m) and m.at > masses[0].at]
    if pots and not halves and not parts:
        if not g.scan.says(_EQUALLY):
            return asking.which_weight(masses)  # "800 g in two pots, one at 6 %, one at 8 %"
        halves = 2
        g.used.update(m.at for m in pots)
    mass = mass_of(masses[0])
    if len(parts) == 1 and g.scan.says(_REST):
        whole = Mass(mass.base / parts[0].amount.value, mass.unit)
        shares = [mass, whole - mass]
    elif halves == 2 or (halves == 1 and g.scan.says(_REST)):
        shares = [mass * Decimal("0.5")] * 2
    else:
        return None
    g.used.update(m.at for m in g.scan.found)
    return chained(
        g.book,
        *(
            LoadQuestion(wax=Masses.one(share), load=each, unit=g.wanted_mass())
            for share, each in zip(shares, loads, strict=True)
        ),
    )
