"""Texts about labels: the net weight of one, of a set, or of what was weighed along."""

from __future__ import annotations

from core.answer import Answer
from core.compounds import Masses
from core.question import Question
from core.questions.label import LabelQuestion
from core.reading import asking
from core.reading.counts import counted
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.tares import gross, weighed_along
from core.reading.wordset import wordset
from core.reading.workings import shared
from core.units import Mass

Outcome = Question | Answer | None


SAYS = wordset("says say printed states stated declared declares reads claims label sticker labelled labeled")


def label(g: Givens) -> Outcome:
    """The net weight to print."""
    if (not g.has("label") and not g.asks_net) or _label_says(g):
        return None
    if (
        not g.asks_net
        and len(g.scan.found) == 1
        and g.wanted_mass() not in ("", *(m.amount.unit for m in g.scan.found))
    ):
        return None  # "7.1 oz, how many grams on the label"
    if (several := _several_tares(g)) is not None:
        return several
    tare = weighed_along(g.scan)
    wax, fragrance, total = g.wax(), g.fragrance(), g.total()
    if wax is None and fragrance is not None and g.shares.load is not None and "wax" in g.asked():
        return None  # "net wt 113 g on the oil bottle, 10 %: good for how much wax?"
    jars = list(g.scan.masses("jar", "pot"))
    if tare is not None and not (fragrance is not None and wax is not None):
        full, empty = tare
        lids = [m for m in g.scan.masses("lid") if m.value not in (full.value, empty.value)]
        if any(not _was_off(g, m) for m in lids):
            return asking.which_weight(lids)  # was it on the scale with the full one?
        return LabelQuestion(gross=mass_of(full), vessel=mass_of(empty), count=_weighed_together(g, full, empty))
    bare = [m for m in g.scan.masses("") if m["without"]]
    if len(bare) == 1 and wax is None and fragrance is None and g.shares.load is None:
        return LabelQuestion(net=mass_of(bare[0]))
    pairs = [(count, m) for count, m in counted(g)[0] if isinstance(m.value, Mass)]
    mixed = wax is not None or fragrance is not None or g.shares.load is not None
    if len(pairs) == 1 and _weighed_in_all(g, pairs[0][1]):
        return asking.which_weight([pairs[0][1]])
    alone = len(pairs) == 1 and (pairs[0][1].of in ("", "candle") or pairs[0][1]["each"])
    if alone and pairs[0][1].of != "jar" and not (mixed or jars or g.has("full")):
        one = mass_of(pairs[0][1])
        return LabelQuestion(net=one if _is_each_of(g, pairs[0][1]) else one * pairs[0][0])
    candles = g.scan.masses("candle")
    if len(candles) == len(jars) == 1 and wax is None and mass_of(candles[0]).base > mass_of(jars[0]).base:
        return LabelQuestion(gross=mass_of(candles[0]), vessel=mass_of(jars[0]))
    if total is not None and wax is None and fragrance is None and (made := _of_each(g, total)) is not None:
        return made
    if total is not None and wax is None and fragrance is None:
        whole = next(m for m in g.scan.masses() if m.value == total)
        in_vessel = whole.of in ("jar", "pot") and not whole.flags & {"without", "net"}
        if gross(g.scan, whole) or in_vessel or (whole.of == "candle" and _with_jar(g)):
            return LabelQuestion(gross=total)
        counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle") and m.amount.value > 1]
        shared = [m for m in counts if m.side == "right"]
        if len(shared) == 1 and not whole["each"] and (whole.of == "total" or _poured_into(g, shared[0])):
            g.used.update((shared[0].at, whole.at))
            total = total * (1 / shared[0].amount.value)
        return LabelQuestion(net=total)
    if wax is None and fragrance is None and jars and _with_jar(g):
        return LabelQuestion(gross=mass_of(jars[0]))
    loose = g.loose()
    if wax is None and fragrance is None and len(loose) == 1 and loose[0]["net"] and g.shares.load is None:
        return LabelQuestion(net=mass_of(loose[0]))
    if wax is None and len(loose) == 1:
        wax = Masses.one(mass_of(loose[0]))
    dyes = g.scan.masses("dye", "additive")
    if dyes and wax is not None:  # what is weighed in counts like wax: it is all net weight
        wax = Masses((*wax.items, *((m.name, mass_of(m)) for m in dyes)))
    together = _in_the_set(g)
    if together is not None and wax is not None:
        wax = Masses(tuple((name, mass * together.amount.value) for name, mass in wax.items))
        fragrance = fragrance * together.amount.value if fragrance is not None else None
        g.used.update((together.at, *(m.at for m in g.scan.masses())))
    return LabelQuestion(wax=wax, fragrance=fragrance, load=g.shares.load, additives=g.shares.added)


_SETS = wordset("box set pack both all gift bundle pair trio duo together")


def _is_each_of(g: Givens, m: Measured) -> bool:
    """ "5 candles of 180 g each": the label is on each, unless they are sold as one."""
    return m["each"] and g.scan.words.isdisjoint(_SETS | {"altogether"}) and not g.has("together")


def _in_the_set(g: Givens) -> Measured | None:
    """ "2 candles, each 140 g: net weight of the box?": how many are sold together."""
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar") and 1 < m.amount.value <= MOST_IN_A_SET]
    marks = g.scan.marks
    asked = any(
        "net" in mark.tags and any(after.text in _SETS for after in marks[i + 1 : i + 7])
        for i, mark in enumerate(marks)
    )
    each = any(m["each"] for m in g.scan.masses())
    return counts[0] if asked and each and len(counts) == 1 else None


MOST_IN_A_SET = 100
_TARES = ("jar", "lid", "pot", "wick", "box", "label")


def _several_tares(g: Givens) -> LabelQuestion | None:
    """ "Whole thing 540 g, jar is 310 and lid 20": all that is no candle, taken off together."""
    units = {m.amount.unit for m in g.scan.masses()}
    if len(units) != 1 or g.scan.kind("percent") or g.scan.kind("rate") or g.scan.masses("wax", "fragrance"):
        return None
    unit = units.pop()
    tares = [m for m in g.scan.masses(*_TARES) if not gross(g.scan, m)]
    if any(m.of == "lid" and _was_off(g, m) for m in tares):
        return None
    bare = [m for m in g.scan.kind("number") if m.of in _TARES and m.side == "left" and not m.amount.unit]
    wholes = [m for m in g.scan.masses() if m not in tares]
    if len(tares) + len(bare) < 2 or len({m.of for m in (*tares, *bare)}) < 2 or len(wholes) != 1:
        return None
    if wholes[0].of not in ("total", "candle", "jar", "", "scale"):
        return None
    vessel = mass_of(tares[0]) if tares else Mass.of(0, unit)
    for m in tares[1:]:
        vessel = vessel + mass_of(m)
    for m in bare:
        vessel = vessel + Mass.of(m.amount.value, unit)
    g.used.update(m.at for m in (*tares, *bare))
    if vessel.base >= mass_of(wholes[0]).base:
        return None
    return LabelQuestion(gross=mass_of(wholes[0]), vessel=vessel)


def _poured_into(g: Givens, m: Measured) -> bool:
    """ "1 kg of mix in 5 jars"."""
    before = g.scan.marks[m.at - 1].text if m.at else ""
    return before in ("in", "into", "between", "over", "among", "across")


def _was_off(g: Givens, m: Measured) -> bool:
    """ "The lid is 22 g and was off", "filled without lid": it was not on the scale."""
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 5]]
    return g.scan.says(("without",)) or any(text in ("off", "apart") for text in after)


def _of_each(g: Givens, total: Mass) -> Outcome:
    """ "8 candles, 1640 g poured in total, net for each?"""
    counts = [m for m in g.scan.kind("number") if m.of in ("candle", "jar") and m.amount.value > 1]
    if len(counts) != 1 or len(g.scan.masses()) != 1 or g.has("full") or g.shares.loads:
        return None
    if not g.has("each") and not g.scan.says(("per", "one")):
        return None
    one, working = shared("net in each", total, counts[0].amount.value)
    g.scan.workings.append(working)
    g.used.update((counts[0].at, *(m.at for m in g.scan.masses())))
    return LabelQuestion(net=one)


def _weighed_in_all(g: Givens, m: Measured) -> bool:
    """ "12 candles weigh 3.6 kg": all of them, or each?"""
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 2) : m.at]]
    return not m["each"] and m.of != "wax" and any(word in ("weigh", "weighed", "together") for word in before)


def _with_jar(g: Givens) -> bool:
    return any(mark.noun in ("jar", "pot") for mark in g.scan.marks) and not g.has("without")


def _weighed_together(g: Givens, full: Measured, empty: Measured) -> int | None:
    """ "All 12 full are 6.6 kg, the twelve empties 4.2 kg": how many stood on the scale at once."""
    counts = [m for m in g.scan.kind("number") if m.amount.value > 1 and m.amount.value == int(m.amount.value)]
    if not counts or len({m.amount.value for m in counts}) > 1:
        return None
    by_full = any(m.at < full.at and full.at - m.at <= 8 for m in counts)
    by_empty = any(m.at < empty.at and empty.at - m.at <= 5 for m in counts)
    return int(counts[0].amount.value) if by_full and by_empty else None


def _label_says(g: Givens) -> bool:
    """ "The label of the oil says 8 %": somebody else's label tells a load."""
    for m in g.scan.kind("percent"):
        before = g.scan.marks[max(0, m.at - 7) : m.at]
        told = any(mark.text in ("says", "say", "said", "reads", "allows", "recommends") for mark in before)
        if told and any("label" in mark.tags for mark in before):
            return True
    return False
