"""Texts about vessels and batches: the questions vessel and batch, and the weight of wax in a pot."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Fill, Fills, Load, Masses
from core.question import Question
from core.questions.batch import BatchQuestion, FillIs
from core.questions.load import LoadQuestion
from core.questions.vessel import Shape, VesselQuestion
from core.reading import asking
from core.reading.counts import MOST_COUNT, counts_vessels, kept_back, multiplier, pairs_of
from core.reading.each import TAKING, asks_for_one, plural
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.tares import weighed_along, words_around
from core.reading.wordset import wordset
from core.units import Length, Mass, Percent, Volume

Outcome = Question | Answer | None


def vessel(g: Givens) -> Outcome:
    """How much a vessel takes: by water, by its print, by its measures."""
    scan = g.scan
    if g.asks_density:
        return None
    water = scan.masses("water") or (_only_weight(g) if g.has("water") else [])
    if any(m.of == "" and m["fill"] and m.amount.value > 1 for m in scan.kind("number")):
        return asking.which_weight([m for m in scan.kind("number") if m["fill"]])
    dense = g.density()
    common = {
        "density": dense,
        "level": g.shares.level,
        "load": g.shares.load,
        "state": g.state() if dense is not None and not g.has("fill") else None,
        "material": g.material() if dense is None and not g.has("water") else None,
        "count": _count(g),
        "unit": g.wanted_volume() if dense is None and not g.wanted_mass() and "wax" not in g.asked() else "",
    }
    tare = weighed_along(g.scan)
    if tare is not None and g.has("water"):
        full, empty = tare
        return VesselQuestion(full=mass_of(full), empty=mass_of(empty), **common)  # type: ignore[arg-type]
    if len(water) == 1 and len(scan.masses()) == 1:
        return VesselQuestion(water=mass_of(water[0]), **common)  # type: ignore[arg-type]
    if (sizes := _sides(g)) is not None:
        return VesselQuestion(**sizes, **common)  # type: ignore[arg-type]
    volumes = [v for v in scan.volumes() if v.of in ("jar", "candle", "water", "pot", "bottle", "", "wax", "total")]
    if len(volumes) == 1 and not scan.masses("fragrance", "wax"):
        value = volumes[0].value
        assert isinstance(value, Volume)
        return VesselQuestion(room=value, **common)  # type: ignore[arg-type]
    ounces = [m for m in scan.masses() if m.amount.unit == "oz" and m.of in ("jar", "candle", "pot", "")]
    weighed = g.by_weight or any(m["by_weight"] for m in ounces)
    if ounces and not weighed and not volumes:
        return VesselQuestion(ounces=mass_of(ounces[0]), **common)  # type: ignore[arg-type]
    return None


def _only_weight(g: Givens) -> list[Measured]:
    """ "Water to the mark weighs 265 g": the one weight there is, where it is of nothing else."""
    masses = g.scan.masses()
    return masses if len(masses) == 1 and masses[0].of in ("", "jar") and not masses[0]["empty"] else []


def _count(g: Givens) -> int | None:
    counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle") and m.amount.value >= 2]
    if box_sides(g) is not None:
        counts = [m for m in counts if m.at + 1 < len(g.scan.marks) and g.scan.marks[m.at + 1].noun]
    return int(counts[0].amount.value) if len(counts) == 1 and counts[0].amount.value <= MOST_COUNT else None


def _sides(g: Givens) -> dict[str, object] | None:
    """The measures of a vessel: two lengths for a round one, three for a box."""
    lengths = [m for m in g.scan.found if isinstance(m.value, Length)]
    if len(lengths) == 3 and (free := _headspace(g, lengths)) is not None:
        rest = _sides(
            dataclasses.replace(g, scan=dataclasses.replace(g.scan, found=[m for m in g.scan.found if m is not free]))
        )
        return {**rest, "headspace": free.value} if rest is not None else None
    sides = box_sides(g)
    if sides is not None:
        return {"shape": Shape.BOX, "length": sides[0], "width": sides[1], "height": sides[2]}
    if len(lengths) != 2:
        return None
    wide, high = _wide_and_high(g, lengths)
    if wide is None and high is not None:
        wide = next(m for m in lengths if m is not high)
    if high is None and wide is not None:
        high = next(m for m in lengths if m is not wide)
    if wide is None or high is None:
        return None
    assert isinstance(wide.value, Length)
    diameter = wide.value * 2 if g.scan.says(("radius",)) else wide.value
    return {"shape": Shape.CYLINDER, "diameter": diameter, "height": high.value}


_FREE = wordset("leave leaving headspace free gap below headroom")


def _headspace(g: Givens, lengths: list[Measured]) -> Measured | None:
    """ "Leave 1 cm at the top"."""
    for m in lengths:
        near = (*g.scan.marks[max(0, m.at - 3) : m.at], *g.scan.marks[m.at + 1 : m.at + 4])
        if any(mark.text in _FREE for mark in near):
            return m
    return None


def _wide_and_high(g: Givens, lengths: list[Measured]) -> tuple[Measured | None, Measured | None]:
    """Which length is which: the word stands before each length, or after each."""
    words = [(i, tag) for i, mark in enumerate(g.scan.marks) for tag in ("wide", "high") if tag in mark.tags]
    if not words:
        return None, None
    before = words[0][0] < lengths[0].at
    found: dict[str, Measured] = {}
    for i, tag in words:
        near = [m for m in lengths if (m.at > i) == before]
        if near:
            found.setdefault(tag, min(near, key=lambda m: abs(m.at - i)))
    wide, high = found.get("wide"), found.get("high")
    return (wide, None) if wide is high else (wide, high)


def box_sides(g: Givens) -> tuple[Length, Length, Length] | None:
    """ "30 x 20 x 15 cm", "30 cm by 20 cm by 15 cm": three sides, the last one's unit for all that have none."""
    run: list[Measured] = []
    for m in g.scan.found:
        if isinstance(m.value, Length) or (m.kind == "number" and not m.amount.unit):
            if run and m.at - run[-1].at > 2:
                run = []
            run.append(m)
            if len(run) == 3:
                break
        else:
            run = []
    if len(run) != 3:
        return None
    unit = next((m.amount.unit for m in reversed(run) if isinstance(m.value, Length)), "")
    if not unit:
        return None
    first, second, third = (m.value if isinstance(m.value, Length) else Length.of(m.amount.value, unit) for m in run)
    return first, second, third


def batch(g: Givens) -> Outcome:
    """So many vessels with so much in each."""
    pairs = pairs_of(g)
    if not pairs:
        return _uncounted(g)
    times = multiplier(g, pairs)
    if times is None:
        return asking.which_weight([m for m in g.scan.kind("number") if m.of in ("", "total", "box")])
    pairs = [(count * times, m) for count, m in pairs]
    if g.scan.masses("fragrance") and g.asks_percent:
        return None
    if any(m.of == "bottle" for _, m in pairs):
        return None
    if any(m.of in ("pack", "bottle", "measure") for m in g.scan.kind("number")) or (
        g.scan.masses("total") and not all(m.of == "total" or m["each"] for _, m in pairs)
    ):
        return None
    if any(_ounces_of_a_vessel(g, m) for _, m in pairs):
        ounces = next(m for _, m in pairs if _ounces_of_a_vessel(g, m))
        return VesselQuestion(ounces=mass_of(ounces), count=pairs[0][0], load=g.shares.load, density=g.density())
    fills = tuple(
        Fill(count, weight=m.value) if isinstance(m.value, Mass) else Fill(count, volume=m.value)  # type: ignore[arg-type]
        for count, m in pairs
    )
    given = g.shares.load
    if given is None and len(fills) == 1 and fills[0].volume is not None and not _speaks_of_oil(g):
        return VesselQuestion(room=fills[0].volume, count=fills[0].count, density=g.density(), level=g.shares.level)
    fill_is = _fill_is(g, [m for _, m in pairs])
    if fill_is is FillIs.FINISHED and given is not None and given.basis is None and len(fills) == 1:
        fill = fills[0]
        if fill.weight is not None and g.shares.spare is None:
            return asking.basis(LoadQuestion(total=fill.weight * fill.count, load=given))
    return BatchQuestion(
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
    if asks_for_one(g):
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


def _ounces_of_a_vessel(g: Givens, m: Measured) -> bool:
    said = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    doubtful = m.amount.unit == "oz" and m.of in ("jar", "candle") and not m["finished"]
    return doubtful and not g.by_weight and "weight" not in said


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
