"""Is every weight, volume and percent of a text in the question made of it? What is left over must be asked."""

from __future__ import annotations

import dataclasses
from decimal import Decimal
from itertools import combinations
from typing import Any

from core.answer import Answer
from core.question import Question
from core.questions.batch import BatchQuestion
from core.questions.buying import BuyingQuestion
from core.questions.convert import ConvertQuestion
from core.questions.label import LabelQuestion
from core.questions.load import LoadQuestion
from core.questions.parcel import ParcelQuestion
from core.questions.volume import VolumeQuestion
from core.reading.counts import counts_vessels, so_often
from core.reading.givens import Givens
from core.reading.market import unit_price
from core.reading.marks import Measured
from core.reading.remainder import asks_for_rest, some_is_gone
from core.reading.wordset import wordset
from core.units import Density, Mass, Percent, Quantity, Volume

# Things that are weighed beside a mix and are no part of it.
_BESIDE = wordset("thinned jar pot bottle lid box label wick scale measure pack candle")
ASIDE = wordset("meant limit step price compare")
_NEAR = Decimal("0.02")
MOST_LOOKED_AT = 12  # amounts; a longer list is not taken apart


def left_over(g: Givens, made: Question | Answer) -> list[Measured]:
    """The amounts of the text that are neither in `made` nor explained by what is."""
    used = _quantities(made)
    if not used:
        return []
    bases: dict[type[Quantity], list[Decimal]] = {kind: [] for kind in (Mass, Volume, Percent)}
    for quantity in used:
        for kind, found in bases.items():
            if isinstance(quantity, kind):
                found.append(quantity.base)
    given = [m for m in g.scan.found if isinstance(m.value, Mass | Volume | Percent) and m.kind != "rate"]
    given = [m for m in given if m.at not in g.used]
    derived = any(isinstance(quantity, Density) for quantity in used) and g.density() is None
    unworkable = isinstance(made, VolumeQuestion) and made.density is None and made.material is None
    if (
        len(given) > MOST_LOOKED_AT
        or derived
        or unworkable
        or (isinstance(made, ConvertQuestion) and g.has("compare", "bigger"))
    ):
        return []
    if isinstance(made, LoadQuestion) and some_is_gone(g.scan):
        return g.scan.masses()[:1]
    counts = [m.amount.value for m in g.scan.kind("number") if m.amount.value > 0]
    return [m for m in given if not _explained(g, m, made, bases, counts, given)]


def uncounted(g: Givens, made: Question | Answer) -> list[Measured]:
    """The counts beside the weight in each that a sum for one alone leaves out, and "2 of them" of any sum."""
    some = [m for m in g.scan.kind("number") if m.amount.value > 1 and not m.amount.unit and m.at not in g.used]
    if not some:
        return []
    poured = {fill.count for fill in made.fills.items} if isinstance(made, BatchQuestion) and made.fills else set()
    percents = {m.amount.value for m in g.scan.kind("percent")}  # "up to 12 %, I use 8 of those 12"
    apart = [m for m in some if _of_them(g, m) and m.amount.value not in poured | percents]
    if isinstance(made, LoadQuestion | BatchQuestion) and apart:
        return apart
    if isinstance(made, LabelQuestion) and (bare := [m for m in some if m.of in _ALONE and m.side == "left"]):
        return bare  # "the glass is 120": without its unit
    if isinstance(made, LabelQuestion) and made.count is None:
        lots = [m for m in some if m.of in ("jar", "candle") and counts_vessels(g, m)]
        told = any(m["each"] for m in g.scan.masses())
        return lots if lots and not told and made.net is None else []
    if isinstance(made, BatchQuestion) and len(poured) == 1:
        left = [m for m in some if m.of in ("jar", "candle") and m["want"] and m.amount.value not in poured]
        counts = {x.amount.value for x in some if x not in left}
        left = [m for m in left if not any(m.amount.value * count in poured for count in counts)]
        if left and not poured.isdisjoint(counts):
            return left
    plain = [m for m in some if _unscented(g, m) and m.amount.value not in poured]
    if isinstance(made, LoadQuestion | BatchQuestion) and plain and made.load is not None:
        return plain
    often = [m for m in some if so_often(g.scan.marks, m)]
    if isinstance(made, LoadQuestion) and often and made.load is not None:
        return often
    if not isinstance(made, LoadQuestion) or (made.load is None and made.fragrance is not None):
        return []
    there = [quantity.base for quantity in _quantities(made) if isinstance(quantity, Mass)]
    given = [m.value.base for m in g.scan.masses() if m.value is not None]
    if any(m.amount.value * base in there for m in some for base in given):
        return []
    return [m for m in some if m.of in ("jar", "candle") and _leads_to_each(g, m)]


_ALONE = wordset("jar lid pot")


def _of_them(g: Givens, m: Measured) -> bool:
    """ "2 of them are testers", "45 of them"."""
    return [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]] in (
        ["of", "them"],
        ["of", "those"],
        ["of", "these"],
    )


_NO_SCENT = wordset("unscented plain scentless without")


def _unscented(g: Givens, m: Measured) -> bool:
    """ "Two will be unscented", "2 without oil": so many get none."""
    for mark in g.scan.marks[m.at + 1 : m.at + 6]:
        if mark.kind in ("amount", "stop") or mark.text == ",":
            return False
        if mark.text in _NO_SCENT:
            return True
    return False


def _leads_to_each(g: Givens, m: Measured) -> bool:
    """ "8 jars with 190 g": the very next amount is what each takes."""
    for mark in g.scan.marks[m.at + 1 : m.at + 5]:
        if mark.kind == "amount":
            return mark.measured is not None and mark.measured.kind == "mass"
        if mark.kind == "stop" or mark.text in (",", "from", "and", "total", "altogether"):
            return False
    return False


_FIELDS: dict[type[Any], tuple[str, ...]] = {}


def field_names(kind: type[Any]) -> tuple[str, ...]:
    """The fields of a dataclass, found once; none of anything else."""
    found = _FIELDS.get(kind)
    if found is None:
        fields = dataclasses.fields(kind) if dataclasses.is_dataclass(kind) else ()
        found = _FIELDS[kind] = tuple(field.name for field in fields)
    return found


def _explained(
    g: Givens,
    m: Measured,
    made: Question | Answer,
    bases: dict[type[Quantity], list[Decimal]],
    counts: list[Decimal],
    given: list[Measured],
) -> bool:
    assert m.value is not None
    kind = type(m.value)
    there, base = bases[kind], m.value.base
    if base in there or _times(base, there, counts) or m.flags & ASIDE or (kind is not Percent and g.sold(m)):
        return True
    if m.kind == "discount" and not isinstance(made, BuyingQuestion):
        return True
    if g.scan.kind("money") and unit_price(g, m):
        return True
    if kind is Percent:
        if _joined(m, given, there) or _worked_in(base, bases[Mass]):
            return True
        return base == 100 or 100 - base in there or len(g.shares.parts) > 0 or _shared(g, m)
    if m.of in ("dye", "additive") and isinstance(made, LoadQuestion) and made.load is None:
        return True  # "wax 50 g, oil 4 g, dye 0.1 g: load?"
    beside = m.of in _BESIDE and not (m.of in ("pack", "bottle") and asks_for_rest(g.scan))
    if (beside and not isinstance(made, ParcelQuestion)) or _joined(m, given, there):
        return True
    if isinstance(m.value, Volume):
        return bool(g.scan.kind("density")) or bool(bases[Volume]) or m.amount.value == 1
    if m["net"] or _in_a_rate(m, given, bases[Percent]) or _diluted(g, base, there):
        return True
    return _stated(m, given, bases[Percent]) or m.amount.text in (
        "pound",
        "kilo",
        "ounce",
        "lb",
        "kg",
        "gram",
        "oz",
        "g",
    )


def _times(base: Decimal, there: list[Decimal], counts: list[Decimal]) -> bool:
    """So many of it, or a part of it."""
    return any(
        base * count in there or (value and abs(base * count - value) < Decimal("0.001"))
        for count in counts
        for value in there
    )


def _joined(m: Measured, given: list[Measured], there: list[Decimal]) -> bool:
    """Its sum with, or difference from, another weight of the text is in the question."""
    assert m.value is not None
    others = [x.value.base for x in given if x is not m and type(x.value) is type(m.value) and x.value is not None]
    sums = {m.value.base + other for other in others} | {abs(m.value.base - other) for other in others}
    sums |= {m.value.base + one + two for one, two in combinations(others, 2)}
    whole = m.value.base + sum(others, Decimal(0))
    return any(value in there for value in sums) or whole in there


def _worked_in(percent: Decimal, masses: list[Decimal]) -> bool:
    """ "5 % is in it": the question holds so much fragrance instead."""
    return any(one * percent / 100 == other for one in masses for other in masses)


def _in_a_rate(m: Measured, given: list[Measured], percents: list[Decimal]) -> bool:
    """ "40 g of oil to 500 g of wax": the two are a load."""
    assert m.value is not None
    for other in given:
        if other is m or not isinstance(other.value, Mass) or not other.value or not m.value:
            continue
        if m.value.base / other.value.base * 100 in percents or other.value.base / m.value.base * 100 in percents:
            return True
    return False


def _diluted(g: Givens, base: Decimal, there: list[Decimal]) -> bool:
    """A diluted oil stands in the question by its fragrance alone."""
    return g.shares.strength is not None and base * g.shares.strength.fraction in there


def _stated(m: Measured, given: list[Measured], percents: list[Decimal]) -> bool:
    """ "8 % of 500 g = 40 g": the asker's own result."""
    assert m.value is not None
    for other in given:
        if other is m or not isinstance(other.value, Mass):
            continue
        for percent in percents:
            wanted = other.value.base * percent / 100
            if wanted and abs(m.value.base - wanted) <= wanted * _NEAR:
                return True
    return False


def _shared(g: Givens, m: Measured) -> bool:
    """A share of the oil or the wax, kept as parts."""
    shares = [part for parts in (g.shares.blend, g.shares.waxes) if parts is not None for _, part in parts.items]
    return m.amount.value in shares or g.shares.strength is not None


def _quantities(made: Any) -> list[Quantity]:
    """Every quantity inside a question, or inside the questions of an answer."""
    found: list[Quantity] = []
    _collect(made, found)
    return found


def _collect(made: Any, found: list[Quantity]) -> None:
    if isinstance(made, Quantity):
        found.append(made)
    elif isinstance(made, Answer):
        for each in (made, *made.then):
            _collect(getattr(each, "question", None), found)
    elif isinstance(made, tuple):
        for each in made:
            _collect(each, found)
    else:
        for name in field_names(type(made)):
            if (value := getattr(made, name)) is not None:
                _collect(value, found)
