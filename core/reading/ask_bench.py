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
from core.reading.givens import Givens, mass_of
from core.reading.scan import Mark, Measured
from core.reading.wordset import wordset
from core.units import Length, Mass, Percent, Volume

Outcome = Question | Answer | None
MOST_COUNT = 1_000_000
_LINK = 5  # how many words may part "15 tins" from "120 g wax in each"


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
    tare = g.tare()
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
        blend=g.shares.blend,
        additives=g.shares.added,
        waxes=g.shares.waxes,
        density=g.density(),
    )


def _speaks_of_oil(g: Givens) -> bool:
    return any(head in ("fragrance", "load") for _, head in g.scan.heads)


_SETS = wordset("sets set batches times rounds gifts boxes packs")


def multiplier(g: Givens, pairs: list[tuple[int, Measured]]) -> int | None:
    """ "Sets of 3 candles, I make 12 sets": how often all of it; None where a number may or may not multiply."""
    counts = {count for count, _ in pairs}
    others = [m for m in g.scan.kind("number") if m.amount.value > 1 and int(m.amount.value) not in counts]
    sets = [m for m in others if m.at + 1 < len(g.scan.marks) and g.scan.marks[m.at + 1].text in _SETS]
    if len(sets) == 1 and sets[0].amount.value == int(sets[0].amount.value):
        return int(sets[0].amount.value)
    return None if sets or any(_made_so_many(g, m) for m in others) else 1


def unscented(g: Givens) -> bool:
    """ "No scent", "unscented", "without oil"."""
    marks = g.scan.marks
    return g.scan.says(("unscented",)) or any(
        one.text in ("no", "without") and two.noun in ("fragrance", "load") for one, two in itertools.pairwise(marks)
    )


def _uncounted(g: Givens) -> Outcome:
    """So much in each, but nobody said how many; or so many, but not how much in each."""
    each = [m for m in g.scan.masses("wax", "total", "", "candle", "jar") if m["each"]]
    counts = [m for m in g.scan.kind("number") if _counts_vessels(g, m) and m.of in ("jar", "candle")]
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
    several = len(before) == 2 and before[0].noun in ("jar", "candle") and _plural(before[0].text)
    if several and before[1].text in _TAKING and g.scan.says(_ALL) and not m["together"]:
        return True
    return several and before[1].text in ("of", "with", "at", "holding")


_ALL = wordset("all total altogether everything together")


def _plural(word: str) -> bool:
    return word.endswith("s") and not word.endswith("ss")


def _ounces_of_a_vessel(g: Givens, m: Measured) -> bool:
    said = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    doubtful = m.amount.unit == "oz" and m.of in ("jar", "candle") and not m["finished"]
    return doubtful and not g.by_weight and "weight" not in said


def _fill_is(g: Givens, found: list[Measured]) -> FillIs | None:
    if g.has("full") and any(head == "fragrance" for _, head in g.scan.heads):
        return FillIs.FINISHED  # "with the oil included"
    named_wax = any(m.of == "wax" or any(mark.noun == "wax" for mark in g.around(m)) for m in found)
    if named_wax and not any(m.of == "total" or m["finished"] for m in found):
        return FillIs.WAX
    if any(m.of == "total" or m["finished"] for m in found) or (
        g.has("finished") and not any(m.of == "wax" for m in found)
    ):
        return FillIs.FINISHED
    return FillIs.WAX if g.shares.load is not None else None  # a load is of the wax unless the words say otherwise


def pairs_of(g: Givens) -> list[tuple[int, Measured]]:
    """Counts with what each of them takes, where every weight has one: "8 small @ 90 g and 4 big @ 310 g"."""
    pairs, lonely, counts = counted(g)
    if pairs and not lonely:
        return pairs
    if len(counts) == 1 and len(lonely) == 1 and not pairs and (_each(g) or _times(g, lonely[0], counts[0])):
        return [(int(counts[0].amount.value), lonely[0])]
    return []


def counted(g: Givens) -> tuple[list[tuple[int, Measured]], list[Measured], list[Measured]]:
    """The counts with what each takes; the weights without a count; all the counts."""
    several = any(m.amount.value > 1 and _counts_vessels(g, m) for m in g.scan.kind("number"))
    counts: list[Measured] = []
    pairs: list[tuple[int, Measured]] = []
    waiting: Measured | None = None
    lonely: list[Measured] = []
    for m in g.scan.found:
        if m.kind == "number" and m.amount.value == 1 and several:
            continue  # "in one jar"
        if m.kind == "number" and _counts_vessels(g, m):
            if waiting is not None and _multiplied(g, waiting, m):
                m = dataclasses.replace(
                    m, amount=dataclasses.replace(m.amount, value=m.amount.value * waiting.amount.value)
                )
            waiting = m
            counts.append(m)
        elif m.kind in ("mass", "volume") and not _whole(m) and _fills(m, waiting):
            if waiting is not None and _linked(g, waiting, m):
                pairs.append((int(waiting.amount.value), m))
                waiting = None
            else:
                lonely.append(m)
    return pairs, lonely, counts


def _multiplied(g: Givens, one: Measured, other: Measured) -> bool:
    """ "3 trays of 6 melts": three times six."""
    between = [mark.text for mark in g.scan.marks[one.at + 1 : other.at]]
    return 0 < len(between) <= 3 and between[-1] in ("of", "x", "×", "*", "with")


def _fills(m: Measured, counted: Measured | None) -> bool:
    """Whether the amount may be what one of the counted takes."""
    if m.of == "pack":
        return counted is not None
    if m.of == "bottle":
        return counted is not None and counted.of == m.of
    if m.of == "fragrance":
        return counted is not None and counted.of not in ("jar", "candle")
    return m.of not in ("dye", "water", "box", "lid", "scale")


def _whole(m: Measured) -> bool:
    """Whether the amount is said to be the total, not what goes into each."""
    said = m.of == "total" and any(word in m.name for word in ("total", "altogether", "batch", "everything", "whole"))
    return (said or m["together"]) and not m["each"]


_SIZED = wordset("@ with x big small large of at medium tall short mini tiny little huge wide")


def _counts_vessels(g: Givens, m: Measured) -> bool:
    value = m.amount.value
    if m.amount.unit or value != value.to_integral_value() or not 1 <= value <= MOST_COUNT:
        return False
    if m.of in ("jar", "candle", "pack", "bottle", "measure"):
        return True
    if _made_so_many(g, m):
        return True
    after = g.scan.marks[m.at + 1] if m.at + 1 < len(g.scan.marks) else None
    before = g.scan.marks[m.at - 1] if m.at else None
    if after is not None and after.measured is not None and after.measured.kind == "mass" and after.gap == " ":
        beyond = g.scan.marks[m.at + 2 : m.at + 10]
        if value > 1 and any(mark.noun in ("candle", "jar") for mark in beyond if mark.kind == "word"):
            return True
    shots = g.scan.marks[m.at + 1 : m.at + 4]
    if (
        value > 1
        and len(shots) == 3
        and shots[0].kind == "word"
        and shots[1].text == "of"
        and shots[2].kind == "amount"
    ):
        return True
    signs = ("x", "@", "*", "×")
    if m.of == "" and value > 1 and after is not None and after.noun in ("jar", "candle") and after.gap == " ":
        return True  # "two candles 3 oz each": the noun went to the weight
    second = g.scan.marks[m.at + 2] if m.at + 2 < len(g.scan.marks) else None
    if m.of == "pot" and value > 1 and second is not None and second.text in ("@", "at", "x", "of", "with"):
        return True
    if (after is not None and after.text in signs) or (before is not None and before.text in signs):
        return True
    nearby = g.scan.marks[m.at + 1 : m.at + 4]
    return value > 1 and any(mark.text in _SIZED for mark in nearby) and m.of in ("", "wax")


_NOT_EACH = wordset("from altogether total using")
_MAKING = wordset("make making makes pour pouring need want do")


def _made_so_many(g: Givens, m: Measured) -> bool:
    """ "I make 4", "I want 15 of them"."""
    marks = g.scan.marks
    before = marks[m.at - 1] if m.at else None
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    ends = after is None or after.kind in ("stop", "sign") or after.text in ("of", "pieces", "pcs")
    return before is not None and before.text in _MAKING and ends and m.of == "" and m.amount.value > 1


def _linked(g: Givens, count: Measured, m: Measured) -> bool:
    """Whether the amount is what each of the counted takes."""
    between = g.scan.marks[count.at + 1 : m.at]
    if len(between) > _LINK + 4 or any(mark.kind == "amount" or mark.text in _NOT_EACH for mark in between):
        return False
    stops = [mark for mark in between if mark.kind == "stop" or mark.text == "."]
    if stops:
        return _each(g) and (m["each"] or m.of in ("wax", "total", ""))
    if any(mark.text in ("and", "but") for mark in between):
        return _each(g)
    return len(between) <= _LINK or _each(g)


def asks_for_one(g: Givens) -> bool:
    """ "How much oil in one?", "per candle?": the sum for a single one is asked for."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if "asks" in mark.tags:
            rest = marks[i + 1 :]
            if any(
                after.kind == "amount" and after.measured is not None and after.measured.amount.value != 1
                for after in rest
            ):
                continue
            words = [after.text for after in rest]
            return any(
                one in ("in", "for", "per") and two in ("one", "each", "candle", "jar")
                for one, two in itertools.pairwise(words)
            )
    return False


def asks_for_each(g: Givens) -> bool:
    """ "How much of each?", "both?" at the end: two figures are asked for."""
    marks = g.scan.marks
    if any("each" in mark.tags and _asked_each(marks, i) for i, mark in enumerate(marks)):
        return True
    last = next((mark for mark in reversed(marks) if mark.kind == "word"), None)
    return (
        last is not None
        and last.text in ("each", "both", "respectively")
        and not any(m["each"] for m in g.scan.masses())
    )


def _asked_each(marks: list[Mark], i: int) -> bool:
    """ "How much wax in each?", "grams each": it is asked for, not given."""
    for mark in reversed(marks[max(0, i - 6) : i]):
        if mark.kind in ("amount", "stop"):
            return False
        if "asks" in mark.tags:
            return True
        if mark.kind == "unit" or mark.text in (",", "weights", "amounts", "both"):
            return not any(after.kind in ("word", "amount") for after in marks[i + 1 :])
    return False


_TAKING = wordset("takes take holds hold gets get weighs weigh needs eats")


def gives_each(g: Givens) -> bool:
    """Whether "each" or "apiece" is said of what is given, not of what is asked."""
    marks = g.scan.marks
    return any("each" in mark.tags and not _asked_each(marks, i) for i, mark in enumerate(marks))


def _each(g: Givens) -> bool:
    """ "Each", "per jar", "one takes", "a candle": so much goes into every one."""
    marks = g.scan.marks
    if gives_each(g):
        return True
    for i, mark in enumerate(marks[:-1]):
        if mark.noun in ("jar", "candle") and marks[i + 1].text in _TAKING:
            return True
        if mark.kind == "amount" and mark.text == "one" and marks[i + 1].noun in ("jar", "candle"):
            return True
        if mark.text in ("per", "one", "a", "every", "in") and mark.kind == "word":
            after = marks[i + 1]
            if (
                after.tags & {"holds"}
                or after.text in ("takes", "gets", "needs", "eats", "weighs")
                or (mark.text in ("per", "a", "every") and after.noun in ("jar", "candle") and not _plural(after.text))
            ):
                return True
    return False


def _times(g: Givens, m: Measured, count: Measured) -> bool:
    between = g.scan.marks[min(m.at, count.at) + 1 : max(m.at, count.at)]
    return any(mark.text in ("x", "@", "×", "*") for mark in between)


def sum_of_moulds(g: Givens) -> Outcome:
    """ "Two moulds, one takes 1 lb of wax, the other 10 oz": the waxes add up."""
    waxes = g.scan.masses("wax")
    counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle")]
    if len(waxes) < 2 or len(counts) != 1 or counts[0].amount.value != Decimal(len(waxes)):
        return None
    if not g.scan.says(("other", "second", "another", "one", "first")):
        return None
    return LoadQuestion(wax=Masses(tuple(("", mass_of(m)) for m in waxes)), load=g.shares.load, unit=g.wanted_mass())
