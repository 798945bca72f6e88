"""Texts about batches: so many vessels with so much in each."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Basis, Fill, Fills, Load, Masses
from core.question import Question
from core.questions.batch import BatchQuestion, FillIs
from core.questions.load import LoadQuestion
from core.questions.vessel import VesselQuestion
from core.reading import asking
from core.reading.ask_groups import beside_stock
from core.reading.ask_mix import ounces_of_a_vessel
from core.reading.chain import chained
from core.reading.counts import counted, counts_vessels, kept_back, multiplier, pairs_of
from core.reading.each import TAKING, asks_for_each, asks_for_one, plural
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.tares import words_around
from core.reading.wordset import wordset
from core.units import Mass, Percent

Outcome = Question | Answer | None


def batch(g: Givens) -> Outcome:
    """So many vessels with so much in each."""
    pairs, others = pairs_of(g), _others(g)
    beside = not pairs and others
    if beside:
        pairs = counted(g)[0]
    if not pairs:
        return _uncounted(g)
    pairs = _one_round(g, pairs)
    times = multiplier(g, pairs)
    if times is None:
        return asking.which_weight([m for m in g.scan.kind("number") if m.of in ("", "total", "box")])
    if (stray := _counted_apart(g, {count for count, _ in pairs})) is not None:
        return asking.which_number([stray])
    pairs = [(count * times, m) for count, m in pairs]
    if g.scan.masses("fragrance") and g.asks_percent:
        return None
    if any(m.of == "bottle" for _, m in pairs):
        return None
    if any(m.of in ("pack", "bottle", "measure") for m in g.scan.kind("number")) or (
        g.scan.masses("total") and not all(m.of == "total" or m["each"] for _, m in pairs)
    ):
        return None
    if any(ounces_of_a_vessel(g, m) for _, m in pairs):
        ounces = next(m for _, m in pairs if ounces_of_a_vessel(g, m))
        return VesselQuestion(
            ounces=mass_of(ounces), count=pairs[0][0], load=g.shares.load, density=g.density(), level=g.shares.level
        )
    fills = tuple(
        Fill(count, weight=m.value) if isinstance(m.value, Mass) else Fill(count, volume=m.value)  # type: ignore[arg-type]
        for count, m in pairs
    )
    given = g.shares.load
    level = g.shares.level
    if len(fills) == 1 and fills[0].volume is not None and (level or (given is None and not _speaks_of_oil(g))):
        room, count = fills[0].volume, fills[0].count
        return VesselQuestion(room=room, count=count, density=g.density(), level=level, load=given)
    fill_is = _fill_is(g, [m for _, m in pairs])
    made = BatchQuestion(
        fills=Fills(fills),
        fill_is=fill_is,
        load=given if given is not None or not unscented(g) else Load(Percent(Decimal(0))),
        spare=g.shares.spare,
        spare_weight=_kept(g),
        blend=g.shares.blend,
        additives=g.shares.added,
        waxes=g.shares.waxes,
        density=g.density(),
    )
    if fill_is is FillIs.FINISHED and given is not None and given.basis is None and len(fills) == 1:
        fill = fills[0]
        if fill.weight is not None and g.shares.spare is None:
            return asking.basis(LoadQuestion(total=fill.weight * fill.count, load=given), made)
    if others and (stocked := beside_stock(g, made, others)) is not None:
        return stocked
    if beside:
        return None
    alone = _one_alone(g, made)
    return chained(g.book, alone, made) if alone is not None else made


def _others(g: Givens) -> list[Measured]:
    """The weights that are not what goes into a vessel: what there is of oil or wax already."""
    taken = {id(m) for _, m in counted(g)[0]}
    return [m for m in g.scan.masses() if id(m) not in taken and not kept_back(g, m)] if taken else []


def _one_alone(g: Givens, batch: BatchQuestion) -> LoadQuestion | None:
    """ "How much oil sits in one of them?": that of a single one, before all of them."""
    assert batch.fills is not None
    weight = batch.fills.items[0].weight
    known = batch.fill_is in (FillIs.WAX, FillIs.FINISHED) and batch.load is not None
    if not known or weight is None or len(batch.fills.items) > 1 or not (asks_for_one(g) or asks_for_each(g)):
        return None
    total = weight if batch.fill_is is FillIs.FINISHED else None
    wax = Masses.one(weight) if total is None else None
    return LoadQuestion(wax=wax, total=total, load=batch.load, blend=batch.blend, additives=batch.additives)


def _one_round(g: Givens, pairs: list[tuple[int, Measured]]) -> list[tuple[int, Measured]]:
    """ "24 favours, the mould does 8 at once: wax for one round": so many as go in at a time."""
    marks = g.scan.marks
    asked = any(
        one.text in ("one", "a", "1", "each", "per", "every") and two.text in _ROUNDS
        for one, two in itertools.pairwise(marks)
    ) or any(mark.measured is not None and mark.text.partition(" ")[2] in _ROUNDS for mark in marks)
    fewer = [m for m in g.scan.kind("number") if [x.text for x in marks[m.at + 1 : m.at + 3]] in _AT_ONCE]
    if len(pairs) != 1 or not asked or len(fewer) != 1 or not 1 < fewer[0].amount.value < pairs[0][0]:
        return pairs
    whole = [m for m in g.scan.kind("number") if m.amount.value == pairs[0][0]]
    g.used.update(m.at for m in (*whole, fewer[0]))
    return [(int(fewer[0].amount.value), pairs[0][1])]


_ROUNDS = wordset("round rounds pour go time fill turn")
_AT_ONCE = (["at", "once"], ["at", "a"], ["a", "time"], ["in", "one"], ["per", "round"])


def _counted_apart(g: Givens, counts: set[int]) -> Measured | None:
    """ "3 candles use 540 g. 7 candles, 8 %": another number of vessels than those that are counted."""
    numbers = [
        m for m in g.scan.kind("number") if m.of in ("jar", "candle") and m.amount.value > 1 and not m.amount.unit
    ]
    if len(counts) != 1 or len(numbers) != 2 or {m.amount.value for m in numbers}.isdisjoint(counts):
        return None
    others = [
        m for m in numbers if m.amount.value not in counts and m.amount.value == m.amount.value.to_integral_value()
    ]
    parted = any(mark.kind == "stop" for mark in g.scan.marks[numbers[0].at : numbers[1].at])
    return others[0] if others and parted else None


def _kept(g: Givens) -> Mass | None:
    """What stays in the pot and is melted on top, by weight."""
    return next((mass_of(m) for m in g.scan.masses() if kept_back(g, m)), None)


def _speaks_of_oil(g: Givens) -> bool:
    return any(head in ("fragrance", "load") for _, head in g.scan.heads)


def unscented(g: Givens) -> bool:
    """ "No scent", "unscented", "without oil"."""
    marks = g.scan.marks
    return g.scan.says(("unscented",)) or any(
        one.text in ("no", "without") and two.noun in ("fragrance", "load") for one, two in itertools.pairwise(marks)
    )


def _uncounted(g: Givens) -> Outcome:
    """So much in each, but nobody said how many; or so many, but not how much in each."""
    each = [m for m in g.scan.masses("wax", "total", "", "candle", "jar") if m["each"]]
    counts = [m for m in g.scan.kind("number") if counts_vessels(g, m) and m.of in ("jar", "candle")]
    if (not counts and not g.has("jar", "candle")) or asks_for_one(g):
        return None
    each = each or [m for m in g.scan.masses("wax", "total", "", "candle", "jar") if _of_several(g, m)]
    others = [m for m in g.scan.found if m.kind in ("mass", "volume") and m not in each]
    if each and not counts and not others and g.has("jar", "candle") and g.shares.load is not None:
        return asking.vessels_missing(BatchQuestion(load=g.shares.load))
    if counts and not each and not others and g.shares.load is not None:
        return BatchQuestion(load=g.shares.load)
    return None


def _of_several(g: Givens, m: Measured) -> bool:
    """ "Jars of 200 g": several, and nobody said how many."""
    before = g.scan.marks[max(0, m.at - 2) : m.at]
    several = len(before) == 2 and before[0].noun in ("jar", "candle") and plural(before[0].text)
    if several and before[1].text in TAKING and g.scan.says(_ALL) and not m["together"]:
        return True
    return several and before[1].text in ("of", "with", "at", "holding")


_ALL = wordset("all total altogether everything together")


def _fill_is(g: Givens, found: list[Measured]) -> FillIs | None:
    if g.has("full") and any(head == "fragrance" for _, head in g.scan.heads):
        return FillIs.FINISHED  # "with the oil included"
    if any(m["without"] or _candle_of(g, m) for m in found) and not any(m.of == "wax" for m in found):
        return FillIs.FINISHED  # "candles of 140 g without the glass"
    named_wax = any(m.of == "wax" or any(mark.noun == "wax" for mark in words_around(g.scan, m)) for m in found)
    if named_wax and not any(m.of == "total" or m["finished"] for m in found):
        return FillIs.WAX
    if any(m.of == "total" or m["finished"] for m in found) or (
        g.has("finished") and not any(m.of == "wax" for m in found)
    ):
        return FillIs.FINISHED
    if g.shares.load is not None and g.shares.load.basis is Basis.TOTAL and not g.shares.load.typed:
        return FillIs.FINISHED  # a percent of the total, and that is what is told
    return None  # the batch says how it takes a weight that nobody named


def _listed(g: Givens, one: Measured, other: Measured) -> bool:
    """ "180 g, 240 g and 300 g": nothing but a comma or "and" between them."""
    between = [mark.text for mark in g.scan.marks[one.at + 1 : other.at]]
    return bool(between) and all(text in (",", "and", "+", "&", "/") for text in between)


def _candle_of(g: Givens, m: Measured) -> bool:
    """ "Candles of 140 g", "140 g candles": so much is the whole candle."""
    marks = g.scan.marks
    before = [mark.text for mark in marks[max(0, m.at - 2) : m.at]]
    after = marks[m.at + 1].text if m.at + 1 < len(marks) else ""
    weighs = before[1:] and before[1] in ("of", "weighing", "weigh", "weighs")
    return after in ("candle", "candles") or (before[:1] in (["candle"], ["candles"]) and bool(weighs))


def sum_of_moulds(g: Givens) -> Outcome:
    """ "Two moulds, one takes 1 lb of wax, the other 10 oz": the waxes add up."""
    waxes = g.scan.masses("wax", "jar", "candle", "")
    counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle") or counts_vessels(g, m)]
    if len(g.shares.loads) > 1 or len(waxes) < 2 or len(counts) != 1 or counts[0].amount.value != Decimal(len(waxes)):
        return None
    listed = all(_listed(g, one, other) for one, other in itertools.pairwise(waxes)) and counts[0].at < waxes[0].at
    named = all(m.of == "wax" for m in waxes) and g.scan.says(("other", "second", "another", "one", "first"))
    if not (named or (listed and any(m.of == "wax" for m in waxes))) or len(waxes) != len(g.scan.masses()):
        return None
    return LoadQuestion(wax=Masses(tuple(("", mass_of(m)) for m in waxes)), load=g.shares.load, unit=g.wanted_mass())
