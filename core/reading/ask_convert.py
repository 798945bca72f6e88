"""Texts that ask for one amount in another unit, or compare household measures."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer
from core.compounds import HouseholdMeasure, UnitName
from core.question import Question
from core.questions.convert import CompareMeasuresQuestion, ConvertQuestion
from core.reading import asking
from core.reading.ask_volume import unsure_of, volume_to_weight, weight_to_volume
from core.reading.chain import chained
from core.reading.givens import Givens, unit_name
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Length, Mass, Temperature, TemperatureDifference, Volume, kind_of

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


_MOVING = wordset("down warmer cooler hotter colder difference drop rise")


MOST_CONVERTED = 4


_OTHER_SCALE = wordset("fahrenheit celsius so europe european metric thermometer other")


def convert(g: Givens) -> Outcome:
    """One amount in another unit."""
    found = [m for m in g.scan.found if m.kind in ("mass", "volume", "temperature", "difference", "length", "degrees")]
    wanted = g.wanted()
    if several := _several(g, found, wanted):
        return several
    if len(found) == 2 and len({m.kind for m in found}) == 1 and found[0].amount.value != 0:
        return _pair(g, found, wanted)
    falls = [m for m in found if m.kind == "difference"]
    if len(falls) == 1 and {m.kind for m in found} <= {"difference", "temperature"}:
        found = falls  # "from 75 C it fell 12 C, how much is the fall in F"
    if len(found) != 1 or g.shares.loads or g.shares.parts:
        return None
    m = found[0]
    if m.kind == "degrees":
        return asking.which_degrees(m)
    if _asks_of_another(g, m):
        return None
    value = m.value
    if isinstance(value, Temperature) and _moves_by(g, m):
        value = TemperatureDifference.of(m.amount.value, "delta_degF" if m.amount.unit == "degF" else "delta_degC")
    to = next((unit for unit in wanted if _suits(value, unit) and unit != m.amount.unit), "")
    if isinstance(value, TemperatureDifference) and to in ("degC", "degF"):
        to = f"delta_{to}"
    if not to and not _asks_weight(g) and not isinstance(value, Temperature):
        return None
    if isinstance(value, Temperature | TemperatureDifference | Length):
        if not to and not (g.has("asks", "convert", "us", "uk") or g.scan.says(_OTHER_SCALE)):
            return None
        return ConvertQuestion(amount=value, to=unit_name(to))
    if isinstance(value, Mass) and _maybe_fluid(g, m, to):
        return unsure_of(g, m, to)
    if isinstance(value, Volume) and to == "oz" and not g.by_weight and not _heavy(g):
        return ConvertQuestion(amount=value, to=UnitName("oz"), stuff=g.stuff(m), unsure=True)
    if isinstance(value, Mass) and kind_of(to) is Volume:
        return weight_to_volume(g)
    if isinstance(value, Volume) and (kind_of(to) is Mass or not to):
        return volume_to_weight(g)
    if isinstance(value, Mass | Volume) and to:
        return ConvertQuestion(amount=value, to=unit_name(to))
    return None


def _several(g: Givens, found: list[Measured], wanted: list[str]) -> Outcome:
    """A range, or several amounts of a kind, all in one other unit: "65-70 C in F"."""
    ends = [amount for m in found for amount in _ends(m)]
    if (
        not 1 < len(ends) <= MOST_CONVERTED
        or len({type(end) for end in ends}) != 1
        or g.shares.loads
        or g.has("compare")
    ):
        return None
    if isinstance(ends[0], Mass | Volume) and (
        len(found) > 1 or _asks_of_another(g, found[0]) or _maybe_fluid(g, found[0], "")
    ):
        return None
    to = next((unit for unit in wanted if _suits(ends[0], unit) and unit not in {m.amount.unit for m in found}), "")
    if not to or (isinstance(ends[0], Mass | Volume) and kind_of(to) is not type(ends[0])):
        return None
    return chained(g.book, *(ConvertQuestion(amount=end, to=UnitName(to)) for end in ends))


def _ends(m: Measured) -> list[Mass | Volume | Temperature | Length]:
    """The amount, or both ends of its range."""
    values = [m.value]
    if m.amount.high is not None and m.value is not None:
        values.append(type(m.value).of(m.amount.high, m.amount.unit))
    return [value for value in values if isinstance(value, Mass | Volume | Temperature | Length)]


def _moves_by(g: Givens, m: Measured) -> bool:
    """ "Cool 20 degrees down", "10 C warmer": a difference; "cool to 60 C" is a reading."""
    before = g.scan.marks[m.at - 1].text if m.at else ""
    return g.scan.says(_MOVING) and before not in ("to", "at", "from", "is", "was", "below", "above")


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
    if isinstance(value, Temperature | TemperatureDifference):
        return kind in (Temperature, TemperatureDifference)
    return kind in (Mass, Volume) if isinstance(value, Mass | Volume) else kind is type(value)


def _maybe_fluid(g: Givens, m: Measured, to: str) -> bool:
    """Whether the "oz" of a liquid, or of a bottle of it, may be fluid."""
    if m.amount.unit != "oz" or m.amount.parts or g.by_weight or g.said_weight(m) or g.shares.loads:
        return False
    if m.of in ("bottle", "jar", "fragrance", "water") or kind_of(to) is Volume:
        return True
    return m.of != "wax" and g.has("liquid")


def _pair(g: Givens, found: list[Measured], wanted: list[str]) -> Outcome:
    """Two amounts of a kind: "is 500 g more than a pound?", "is a UK fluid ounce bigger than a US one?" """
    one, other = found
    if (not g.has("compare", "bigger", "convert") and not g.scan.says(("than", "equal"))) or g.asks_percent:
        return None
    if one.kind == "mass" and one.amount.unit == other.amount.unit == "oz":
        return asking.unsure_ounces(mass_of(one), "", g.stuff(one))
    if one.kind in ("mass", "volume") and one.amount.unit != other.amount.unit and not g.shares.loads:
        value = one.value
        if isinstance(value, Mass | Volume):
            return ConvertQuestion(amount=value, to=UnitName(other.amount.unit))
    return None


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


def one_in_another(g: Givens) -> Outcome:
    """ "How many teaspoons in a tablespoon?": both units without a number."""
    if g.scan.found:
        return None
    wanted = g.wanted()
    kinds = [kind_of(unit) for unit in wanted]
    if len(wanted) != 2 or kinds[0] is not kinds[1] or kinds[0] not in (Mass, Volume):
        return None
    whole = (Mass if kinds[1] is Mass else Volume).of(1, wanted[1])
    assert isinstance(whole, Mass | Volume)
    return ConvertQuestion(amount=whole, to=UnitName(wanted[0]))
