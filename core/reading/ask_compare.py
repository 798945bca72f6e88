"""Texts that set two amounts of a kind beside each other, or the same measure of two countries."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import HouseholdMeasure
from core.question import Question
from core.questions.convert import CompareMeasuresQuestion, ConvertQuestion
from core.reading import asking
from core.reading.givens import Givens, unit_name
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import UNSAID, Length, Mass, Volume, kind_of

Outcome = Question | Answer | None

_HOUSEHOLD = {
    "fl_oz": HouseholdMeasure.FL_OZ,
    "cup": HouseholdMeasure.CUP,
    "pint": HouseholdMeasure.PINT,
    "quart": HouseholdMeasure.QUART,
    "gallon": HouseholdMeasure.GALLON,
    "tbsp": HouseholdMeasure.TBSP,
    "tsp": HouseholdMeasure.TSP,
}
_COMPARING = wordset("than equal equals same also vs versus =")
_MIX = ("percent", "rate", "ratio", "part", "drop", "density", "money")
# A rate between these is no load: "is 450 g a pound?" tells one unit in another.
LEAST_EQUAL, MOST_EQUAL = Decimal("0.8"), Decimal("1.25")


def compare(g: Givens) -> Outcome:
    """Two amounts of one kind in different units: "is 500 g more than a pound?", "a US cup or half a UK pint?" """
    if any(g.scan.kind(kind) for kind in _MIX) or g.shares.loads or g.asks_percent:
        return None
    if (judged := _which_is_right(g)) is not None:
        return judged
    short = g.scan.says(_SHORTED)
    if not (
        short or g.has("compare", "bigger") or g.scan.says(_COMPARING) or _doubts(g) or _whether_one_is_the_other(g)
    ):
        return None
    values = _amounts(g)
    if len(values) != 2 or type(values[0]) is not type(values[1]):
        return None
    one, other = values
    wanted = [unit for unit in g.wanted() if kind_of(unit) is not None]
    if any(kind_of(unit) is not type(one) for unit in wanted):
        return None
    if {one.unit, other.unit} == {"oz"}:
        return asking.unsure_ounces(one, "", None) if isinstance(one, Mass) else None
    alike = UNSAID.get(one.unit, one.unit) == UNSAID.get(other.unit, other.unit)
    if alike and not short and (one.base != other.base or isinstance(one, Volume) or not g.has("us", "uk")):
        return None
    heads = {head for _, head in g.scan.heads} & {"wax", "fragrance", "total", "dye", "water"}
    named = {m.of for m in g.scan.found if m.kind in ("mass", "volume")} & heads
    if len(named) > 1:
        return None
    for m in g.scan.kind("number"):
        if any(m.amount.value == value.to(value.unit) for value in values):
            g.used.add(m.at)
    to = next(iter(wanted), "") or ("g" if alike else "")
    return ConvertQuestion(amount=one, against=other, to=unit_name(to))


_SHORTED = wordset(
    "short shorted shortchanged missing cheat cheated cheating rob robbed ripped scammed underweight underfilled"
)


def _whether_one_is_the_other(g: Givens) -> bool:
    """ "Is 16 oz of wax always 1 pound": two weights of about one size in different units, and no more."""
    values = _amounts(g)
    if len(values) != 2 or len(g.scan.found) != 2 or g.scan.marks[0].text not in ("is", "are"):
        return False
    if any(m.amount.unit == "oz" and m.of not in ("", "wax") for m in g.scan.found) or g.has("liquid"):
        return False  # "is a 4 oz tin 113 g": that ounce may be fluid
    one, other = values
    return type(one) is type(other) and LEAST_EQUAL <= one.base / (other.base or 1) <= MOST_EQUAL


def _which_is_right(g: Givens) -> Outcome:
    """ "Is a pound 454 g or 450 g?": the one unit in the other."""
    found = [m for m in g.scan.found if m.kind in ("mass", "volume", "length")]
    either = "or" in g.scan.words or any(" or " in m.amount.text for m in found)
    if not either or not found or len(found) != len(g.scan.found) or len(found) > 3:
        return None
    whole, *guesses = found
    ends = {x for m in guesses for x in (m.amount.value, m.amount.high) if x is not None}
    value = whole.value
    asked = whole.amount.value == 1 or g.scan.marks[0].text in ("is", "are")
    if not isinstance(value, Mass | Volume | Length) or not asked or len(ends) != 2 or not value:
        return None
    unit = guesses[0].amount.unit
    if len({m.amount.unit for m in guesses}) != 1 or unit == whole.amount.unit or kind_of(unit) is not type(value):
        return None
    near = all if whole.amount.value == 1 else any
    if not near(LEAST_EQUAL <= type(value).of(x, unit).base / value.base <= MOST_EQUAL for x in ends):
        return None
    g.used.update(m.at for m in guesses)
    return ConvertQuestion(amount=value, to=unit_name(unit))


def _amounts(g: Givens) -> list[Mass | Volume | Length]:
    """What is compared, each once; a measure of a country named without a number counts as one."""
    out: list[Mass | Volume | Length] = []
    again = False
    for mark in g.scan.marks:
        value = mark.measured.value if mark.measured is not None else None
        if value is None and mark.kind == "unit" and mark.unit.partition("_")[0] in ("us", "imp", "metric"):
            value = Volume.of(1, mark.unit)
        if not isinstance(value, Mass | Volume | Length):
            continue
        if any(type(value) is type(x) and value.base == x.base and value.unit == x.unit for x in out):
            again = True
        else:
            out.append(value)
    return out * 2 if len(out) == 1 and again else out


def _doubts(g: Givens) -> bool:
    """ "... right?", "... or not": an equation of two units to be judged."""
    words = g.scan.words
    texts = [mark.text for mark in g.scan.marks]
    is_that = any(pair in (("is", "that"), ("is", "it")) for pair in itertools.pairwise(texts))
    return not words.isdisjoint(("right", "true", "correct")) or {"or", "not"} <= words or is_that


def equation(g: Givens) -> Outcome:
    """ "450 g a pound or not": nothing is mixed, one unit is told in another."""
    rates = g.scan.kind("rate")
    if len(rates) != 1 or len(g.scan.found) != 1 or g.scan.heads:
        return None
    amount = rates[0].amount
    if amount.per is None or amount.high is not None:
        return None
    value, unit = amount.per
    if kind_of(amount.unit) is not kind_of(unit) or kind_of(unit) not in (Mass, Volume) or not value:
        return None
    kind = Mass if kind_of(unit) is Mass else Volume
    one, other = kind.of(amount.value, amount.unit), kind.of(value, unit)
    if not LEAST_EQUAL <= one.base / other.base <= MOST_EQUAL:
        return None
    assert isinstance(one, Mass | Volume)
    assert isinstance(other, Mass | Volume)
    return ConvertQuestion(amount=one, against=other)


def same_ounces(g: Givens) -> Outcome:
    """ "Is the 10 oz on a jar the same as the 10 oz on a bag?" """
    found = g.scan.masses()
    if len(found) == 2 and all(m.amount.unit == "oz" for m in found) and any(m.of in ("jar", "bottle") for m in found):
        return asking.unsure_ounces(mass_of(found[0]), "", None)
    return None


def compare_measures(g: Givens) -> Outcome:
    """US or imperial? asked of a household measure without a weight."""
    units = [mark.unit for mark in g.scan.marks if mark.kind == "unit"]
    units += [m.amount.unit for m in g.scan.volumes()]
    bare = [
        unit.removeprefix("us_").removeprefix("imp_").removeprefix("metric_").removeprefix("label_") for unit in units
    ]
    known = [unit for unit in bare if unit in _HOUSEHOLD]
    large = [m for m in g.scan.volumes() if m.amount.value != Decimal(1)]
    if not known or large or g.scan.masses() or g.has("wax", "fragrance", "dye"):
        return None
    return CompareMeasuresQuestion(measure=_HOUSEHOLD[known[0]])
