"""Texts that ask for one amount, or several of a kind, in another unit."""

from __future__ import annotations

import itertools

from core.answer import Answer
from core.compounds import UnitName
from core.question import Question
from core.questions.convert import ConvertQuestion
from core.reading.ask_volume import unsure_of, volume_to_weight, weight_to_volume
from core.reading.chain import chained
from core.reading.givens import Givens, unit_name
from core.reading.leaning import asks_what_it_is
from core.reading.marks import Measured
from core.reading.wordset import wordset
from core.units import UNSAID, Length, Mass, Volume, kind_of

Outcome = Question | Answer | None

MOST_CONVERTED = 4


def convert(g: Givens) -> Outcome:
    """One amount in another unit, or several of a kind."""
    found = [m for m in g.scan.found if m.kind in ("mass", "volume", "length")]
    wanted = g.wanted()
    if (asked := _asked_itself(g, found, wanted) or _both_told(g, found)) is not None:
        return asked
    if several := _several(g, found, wanted):
        return several
    if len(found) != 1 or g.shares.loads or g.shares.parts:
        return None
    m = found[0]
    if _asks_of_another(g, m):
        return None
    value = m.value
    if (rest := _behind_the_point(g, m)) is not None:
        value = rest
    if isinstance(value, Mass) and _in_both(g) and not m.amount.parts and not _maybe_fluid(g, m, ""):
        return ConvertQuestion(amount=value, to=UnitName("lb_oz"))
    to = next((unit for unit in wanted if _suits(value, unit) and (unit != m.amount.unit or m.amount.parts)), "")
    if m.amount.parts:
        g.used.update(x.at for x in g.scan.kind("number") if _run_together(m, x))
    if isinstance(value, Length):
        return ConvertQuestion(amount=value, to=unit_name(to)) if to or g.has("asks", "convert", "us", "uk") else None
    if not to and isinstance(value, Mass) and asks_what_it_is(g) and not m.of:
        return ConvertQuestion(amount=value, to=UnitName("oz" if m.amount.unit in ("g", "kg", "mg") else "g"))
    if not to and not _asks_weight(g):
        return None
    if isinstance(value, Mass) and _maybe_fluid(g, m, to):
        return unsure_of(g, m, to)
    if isinstance(value, Volume) and to == "oz" and not g.by_weight and not _heavy(g):
        return ConvertQuestion(amount=value, to=UnitName("oz"), stuff=g.stuff(m), unsure=True)
    if isinstance(value, Mass) and kind_of(to) is Volume:
        return weight_to_volume(g)
    if isinstance(value, Volume) and (kind_of(to) is Mass or not to):
        return volume_to_weight(g)
    if isinstance(value, Volume) and to and (twice := _of_both_countries(g, m, value, to)) is not None:
        return twice
    if isinstance(value, Mass | Volume) and to:
        counts = [x for x in g.scan.kind("number") if x.of in ("pack", "jar", "candle", "bottle", "box", "")]
        if m["each"] and len(counts) == len(g.scan.kind("number")) == 1:
            return ConvertQuestion(amount=value * counts[0].amount.value, to=unit_name(to))
        return ConvertQuestion(amount=value, to=unit_name(to))
    return None


_REALLY = wordset("really actually then correctly in to as")


def _asked_itself(g: Givens, found: list[Measured], wanted: list[str]) -> Outcome:
    """ "I wrote 1.5 lb as 1 lb 5 oz, what is 1.5 lb really in oz": told before, and asked in so many words."""
    marks = g.scan.marks
    if len(found) < 2 or len(found) > 3 or len(found) != len(g.scan.found) or g.scan.heads:
        return None
    m, value = found[-1], found[-1].value
    before = [mark.text for mark in marks[max(0, m.at - 2) : m.at]]
    asks = before in (["what", "is"], ["how much", "is"], ["what", "are"]) or before[-1:] in (["what's"], ["whats"])
    again = any(type(x.value) is type(value) and x.value == value for x in found[:-1])
    after = marks[m.at + 1 : m.at + 5]
    unit = next((mark.unit for mark in after if mark.text not in _REALLY), "")
    if not asks or not again or unit not in wanted or kind_of(unit) is not type(value) or unit == m.amount.unit:
        return None
    if not isinstance(value, Mass | Volume | Length) or _maybe_fluid(g, m, unit):
        return None
    g.used.update(x.at for x in found)
    return ConvertQuestion(amount=value, to=unit_name(unit))


def _of_both_countries(g: Givens, m: Measured, value: Volume, to: str) -> Outcome:
    """ "UK recipe says 2 fl oz, my spoons are American, ml for both": the measure of either country."""
    country, _, plain = value.unit.partition("_")
    plain = plain if country in ("us", "imp") else value.unit
    if plain not in UNSAID or not (
        (g.has("both") or _us_and_uk(g, m)) and (country == "us" or g.has("us")) and (country == "imp" or g.has("uk"))
    ):
        return None
    both = (Volume.of(value.to(value.unit), f"{land}_{plain}") for land in ("imp", "us"))
    return chained(g.book, *(ConvertQuestion(amount=each, to=UnitName(to)) for each in both))


def _us_and_uk(g: Givens, m: Measured) -> bool:
    """ "US and UK half pint": both countries named together."""
    marks = g.scan.marks
    after = marks[m.at + 1 : m.at + 3]
    if len(after) == 2 and after[0].text in ("and", "&", "+") and after[1].tags & {"us", "uk"}:
        return True  # "half pint american and uk": the first one is part of the amount
    triples = zip(marks, marks[1:], marks[2:], strict=False)
    return any(
        by.text in ("and", "&", "+", "/") and {"us", "uk"} <= (one.tags | two.tags) and not one.tags & two.tags
        for one, by, two in triples
    )


def _both_told(g: Givens, found: list[Measured]) -> Outcome:
    """ "His half pint is American, mine is UK, ml of both half pints": the measure of either, told before."""
    marks = g.scan.marks
    last = found[-1] if found else None
    if last is None or not isinstance(last.value, Volume) or marks[last.at - 1].text != "both":
        return None
    plain = last.value.unit.partition("_")[2] or last.value.unit
    alike = [m for m in found[:-1] if isinstance(m.value, Volume) and m.amount.value == last.amount.value]
    units = {m.value.unit for m in alike if isinstance(m.value, Volume)} & {f"us_{plain}", f"imp_{plain}"}
    to = next((m.amount.unit for m in found if m.amount.unit in ("ml", "l") and m.amount.value == 1), "")
    if len(units) != 2 or not to or g.scan.masses() or g.shares.loads:
        return None
    g.used.update(m.at for m in found)
    both = (Volume.of(last.amount.value, unit) for unit in sorted(units))
    return chained(g.book, *(ConvertQuestion(amount=each, to=UnitName(to)) for each in both))


def _behind_the_point(g: Givens, m: Measured) -> Mass | Volume | Length | None:
    """ "1.4 lb, how many ounces is the .4": the part of the amount behind its point, which is asked for."""
    if not isinstance(m.value, Mass | Volume | Length) or m.amount.value == m.amount.value.to_integral_value():
        return None
    rest = m.amount.value % 1
    for number in g.scan.kind("number"):
        own = number.amount.value == rest and number.at > m.at and not number.amount.unit
        between = itertools.pairwise(g.scan.marks[m.at : number.at])
        if own and not any(mark.unit and "asks" not in before.tags for before, mark in between):
            g.used.update((m.at, number.at))
            return type(m.value).of(rest, m.amount.unit)
    return None


def _run_together(m: Measured, number: Measured) -> bool:
    """ "3 lb 12 oz, I typed 3.12": both numbers with a point between them."""
    figures = [f"{value.normalize():f}" for value, _ in m.amount.parts]
    return len(figures) == 2 and number.amount.text.replace(",", ".") == ".".join(figures)


def _several(g: Givens, found: list[Measured], wanted: list[str]) -> Outcome:
    """A range, or several amounts of a kind, all in one other unit: "250 g and 500 g in oz"."""
    ends = [amount for m in found for amount in _ends(m)]
    if (
        not 1 < len(ends) <= MOST_CONVERTED
        or len({type(end) for end in ends}) != 1
        or g.shares.loads
        or g.has("compare", "together", "buy")
        or g.scan.kind("number")
        or any(_asks_of_another(g, m) or _maybe_fluid(g, m, "") for m in found)
    ):
        return None
    to = next((unit for unit in wanted if _suits(ends[0], unit) and unit not in {m.amount.unit for m in found}), "")
    if not to or kind_of(to) is not type(ends[0]) or (len(found) > 1 and not _listed(g, found)):
        return None
    if len(ends) == len(found) == 2 and _summed(g, found):
        one, other = ends
        if isinstance(one, Volume) and isinstance(other, Volume):
            return ConvertQuestion(amount=one + other, to=UnitName(to))
    return chained(g.book, *(ConvertQuestion(amount=end, to=UnitName(to)) for end in ends))


def _in_both(g: Givens) -> bool:
    """ "In lb and oz": pounds with ounces behind them."""
    marks = g.scan.marks
    triples = zip(marks, marks[1:], marks[2:], strict=False)
    return any(one.unit == "lb" and by.text in ("and", "&", "+") and two.unit == "oz" for one, by, two in triples)


def _summed(g: Givens, found: list[Measured]) -> bool:
    """ "2 cups plus 3 tbsp"."""
    return any(mark.text in ("plus", "+") for mark in g.scan.marks[found[0].at + 1 : found[1].at])


def _listed(g: Givens, found: list[Measured]) -> bool:
    """Whether the amounts stand in a row, each like the others: "250g in oz and 500g in oz"."""
    marks = g.scan.marks
    for one, other in itertools.pairwise(found):
        between = marks[one.at + 1 : other.at]
        if any(mark.kind == "word" and mark.text not in _IN_A_ROW and not mark.noun for mark in between):
            return False
    return len({m.of for m in found}) == 1


_IN_A_ROW = wordset("plus and or in to into also plus then of wax oil")


def _ends(m: Measured) -> list[Mass | Volume | Length]:
    """The amount, or both ends of its range."""
    values = [m.value]
    if m.amount.high is not None and m.value is not None:
        values.append(type(m.value).of(m.amount.high, m.amount.unit))
    return [value for value in values if isinstance(value, Mass | Volume | Length)]


def _asks_of_another(g: Givens, m: Measured) -> bool:
    """Whether the unit asked for is of another thing than the amount: "how many oz of scent for 2 lb of wax"."""
    heads = {head for _, head in g.scan.heads if head in ("wax", "fragrance", "dye")}
    if len(heads) > 1 and m.kind == "mass" and m.of in heads:
        return True
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if "asks" in mark.tags:
            asked = next((x.noun for x in marks[i + 1 : i + 6] if x.noun or x.kind in ("amount", "stop")), "")
            if asked in ("wax", "fragrance", "dye") and m.of in ("wax", "fragrance", "total") and asked != m.of:
                return True
    return False


def _heavy(g: Givens) -> bool:
    """Whether a weight is asked for in so many words."""
    return g.has("weight")


def _asks_weight(g: Givens) -> bool:
    return g.has("asks", "weight", "convert", "what")


def _suits(value: object, unit: str) -> bool:
    kind = kind_of(unit)
    return kind in (Mass, Volume) if isinstance(value, Mass | Volume) else kind is type(value)


_DRY = wordset("powder powdered solid mica chip chips")


def _maybe_fluid(g: Givens, m: Measured, to: str) -> bool:
    """Whether the "oz" of a liquid, or of a bottle of it, may be fluid."""
    if (
        m.amount.unit != "oz"
        or m.amount.parts
        or g.scan.says(_DRY)
        or (g.by_weight and not (m.of == "jar" and not _weighed_beside(g, m)))
        or g.said_weight(m)
        or g.shares.loads
    ):
        return False
    if m.of in ("bottle", "jar", "fragrance", "water") or kind_of(to) is Volume:
        return True
    return m.of != "wax" and g.has("liquid")


def _weighed_beside(g: Givens, m: Measured) -> bool:
    """ "The jar says 12 oz, how many grams of wax by weight": the jar's ounces are none of the weight asked for."""
    wanted = next((i for i, mark in enumerate(g.scan.marks) if "asks" in mark.tags), len(g.scan.marks))
    said = [i for i, mark in enumerate(g.scan.marks) if "by_weight" in mark.tags or mark.text.startswith("weigh")]
    return not said or any(i < wanted or m.at > wanted for i in said)


def one_in_another(g: Givens) -> Outcome:
    """ "How many teaspoons in a tablespoon?": both units without a number."""
    if g.scan.found:
        return None
    wanted = g.wanted()
    kinds = [kind_of(unit) for unit in wanted]
    if len(wanted) != 2 or wanted[0] == wanted[1] or kinds[0] is not kinds[1] or kinds[0] not in (Mass, Volume):
        return None
    one, other = wanted
    kind = Mass if kinds[1] is Mass else Volume
    larger = kind.of(1, one).base > kind.of(1, other).base
    if not g.has("asks") and (larger or _leads_to(g, other)):
        one, other = other, one  # "quart to ml", "tbsp in ml"
    whole = kind.of(1, other)
    assert isinstance(whole, Mass | Volume)
    return ConvertQuestion(amount=whole, to=UnitName(one))


def _leads_to(g: Givens, unit: str) -> bool:
    """Whether "to", "into" or an arrow stands right before the unit."""
    marks = g.scan.marks
    return any(
        mark.unit == unit and i > 0 and marks[i - 1].text in ("to", "into", "as", ">", "→", "=")
        for i, mark in enumerate(marks)
    )
