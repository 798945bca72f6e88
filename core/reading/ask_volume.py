"""Texts about volumes, densities, drops and other units: the questions volume, density, drops, convert and measures."""

from __future__ import annotations

import dataclasses
from decimal import Decimal

from core.answer import Answer
from core.compounds import HouseholdMeasure, Measure, Stuff, UnitName
from core.question import Question
from core.questions.convert import CompareMeasuresQuestion, ConvertQuestion
from core.questions.density import DensityQuestion
from core.questions.drops import DropsQuestion
from core.questions.load import LoadQuestion
from core.questions.vessel import VesselQuestion
from core.questions.volume import VolumeQuestion
from core.reading import asking
from core.reading.ask_load import load as ask_load
from core.reading.chain import chained
from core.reading.givens import Givens, mass_of, unit_name
from core.reading.scan import Measured
from core.reading.wordset import wordset
from core.units import (
    Density,
    Length,
    Mass,
    Number,
    Temperature,
    TemperatureDifference,
    Volume,
    kind_of,
)

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
_WEIGHS = wordset("is was = came weighed weighs holds are makes gives")
MOST_CONVERTED = 4
_OTHER_SCALE = wordset("fahrenheit celsius so europe european metric thermometer other")
_MEASURES = {"cylinder": Measure.CYLINDER_B, "beaker": Measure.BEAKER, "cup": Measure.KITCHEN, "spoon": Measure.KITCHEN}


def _volume(m: Measured) -> Volume:
    assert isinstance(m.value, Volume)
    return m.value


def drops(g: Givens) -> Outcome:
    """Drops, weighed before or not."""
    found = g.scan.kind("drop")
    if g.scan.volumes():
        return _drops_of_a_volume(g, found)
    masses = g.scan.masses()
    weighed = next(((d, m) for d in found for m in masses if _weighed_together(g, d, m)), None)
    wax = g.wax()
    if weighed is not None:
        counted, mass = weighed
        others = [d for d in found if d is not counted]
        rest = [m for m in masses if m is not mass and m.of in ("wax", "")]
        return DropsQuestion(
            drops=_count(others[0]) if others else None,
            counted=_count(counted),
            weighed=mass_of(mass),
            wax=wax if any(m.of == "wax" for m in rest) else None,
            load=g.shares.load,
            unit=g.wanted_mass(),
        )
    return DropsQuestion(
        drops=_count(found[0]) if found else None, wax=wax, load=g.shares.load if wax is not None else None
    )


def _drops_of_a_volume(g: Givens, found: list[Measured]) -> Outcome:
    """ "28 drops a ml": so many drops are a volume; what they weigh takes a density."""
    dense, volumes = g.density(), g.scan.volumes()
    if dense is not None and len(volumes) == 1 and len(found) == 2 and not g.scan.masses():
        counted, others = sorted(found, key=lambda d: abs(d.at - volumes[0].at))
        if counted.amount.value and "drop" not in g.wanted():
            volume = _volume(volumes[0]) * (others.amount.value / counted.amount.value)
            return VolumeQuestion(volume=volume, density=dense, stuff=g.stuff(), unit=g.wanted_mass())
    last = found[-1] if found else None
    return DropsQuestion(drops=_count(last) if last is not None else None)


def parts_by_volume(g: Givens) -> Outcome:
    """ "1 part oil, 12 parts wax, measured by cups": parts of volume are no load until they are weighed."""
    measured = g.wanted_volume() or (g.has("volume_word") and g.scan.says(("by",)))
    if not measured or g.scan.masses() or g.density() is not None:
        return None
    return VolumeQuestion(stuff=Stuff.FRAGRANCE)


def _weighed_together(g: Givens, drop: Measured, m: Measured) -> bool:
    """ "40 drops weighed 1.1 g", "100 drops = 2.4 g"; not "50 drops in 200 g"."""
    if not 0 < m.at - drop.at <= 7 or m.of in ("wax", "total"):
        return False
    between = g.scan.marks[drop.at + 1 : m.at]
    if any(mark.kind in ("amount", "stop") or mark.text in ("in", "into", "to", "for") for mark in between):
        return False
    return any(
        mark.tags & {"weight", "by_weight"} or mark.text in ("=", ":", "is", "are", "was", "were", "at", "make")
        for mark in between
    )


def _count(m: Measured) -> Number:
    return Number(m.amount.value)


def with_density(g: Givens) -> Outcome:
    """A density is given: it turns a volume into a weight or a weight into a volume."""
    dense = g.density()
    if dense is None:
        return None
    volumes, wax, fragrance = g.scan.volumes(), g.wax(), g.fragrance()
    load = g.shares.load
    if strange := [
        m for m in g.scan.kind("number") if m.of == "" and 0 < m.amount.value < 1 and m.value != Number(dense.base)
    ]:
        return asking.which_weight(strange)
    if len(volumes) > 1 and len({v.of for v in volumes} - {"jar", ""}) < 2 and g.has("together"):
        whole = _volume(volumes[0])
        for other in volumes[1:]:
            whole = whole + _volume(other)
        return VolumeQuestion(volume=whole, density=dense, stuff=g.stuff(volumes[0]), wax=wax, load=load)
    if len(volumes) == 1:
        volume = volumes[0]
        if g.shares.level is not None:
            return VesselQuestion(room=_volume(volume), level=g.shares.level, density=dense, load=load)
        stuff = g.stuff(volume)
        if volume.of == "jar" and wax is not None and not any(head == "fragrance" for _, head in g.scan.heads):
            return VolumeQuestion(mass=wax.total, density=dense, stuff=Stuff.WAX, unit="ml")
        if wax is not None and stuff is Stuff.WAX:
            stuff = Stuff.FRAGRANCE
        return VolumeQuestion(
            volume=_volume(volume),
            density=dense,
            stuff=stuff,
            state=g.state() if stuff is Stuff.WAX else None,
            wax=wax,
            load=load,
            unit=g.wanted_mass(),
        )
    if volumes:
        return chained(
            g.book,
            *(
                VolumeQuestion(volume=_volume(v), density=dense, stuff=g.stuff(v), unit=g.wanted_mass())
                for v in volumes[:4]
            ),
        )
    unit = g.wanted_volume() or "ml"
    loose = g.loose()
    if load is not None and (wax is not None or len(loose) == 1):
        built = ask_load(g)
        if isinstance(built, LoadQuestion):
            return _replace(built, density=dense, unit=unit)
        return built
    masses = g.scan.masses()
    if len(masses) == 1:
        stuff = g.stuff(masses[0])
        return VolumeQuestion(mass=mass_of(masses[0]), density=dense, stuff=stuff, unit=unit)
    if wax is not None and fragrance is not None:
        return LoadQuestion(wax=wax, fragrance=fragrance, load=load, density=dense, unit=unit)
    return VolumeQuestion(density=dense, stuff=g.stuff()) if not masses else None


def _replace(question: LoadQuestion, density: Density, unit: str) -> LoadQuestion:
    return dataclasses.replace(question, density=density, unit=unit)


def measured_density(g: Givens) -> Outcome:
    """A weight and a volume of the same thing: its density, or what another volume of it weighs."""
    volumes = g.scan.volumes()
    if not g.has("dense", "density") and len(volumes) == 2:
        return _second_volume(g, volumes)
    if not g.has("dense", "density") and len(volumes) == 1 and (drawn := _second_weight(g, volumes[0])) is not None:
        return drawn
    if not g.asks_density and not _asks_ratio(g):
        return None
    masses = [m for m in g.scan.masses() if not m["step"]]
    volume = _volume(volumes[0]) if volumes else None
    stuff = g.stuff(volumes[0] if volumes else masses[0] if masses else None)
    measure = next((kind for word, kind in _MEASURES.items() if g.scan.says((word, word + "s"))), None)
    tare = g.tare()
    if tare is not None:
        full, empty = tare
        return DensityQuestion(full=mass_of(full), empty=mass_of(empty), volume=volume, stuff=stuff, measure=measure)
    if len(masses) > 1 or len(volumes) > 1:
        return None
    if (masses and masses[0].of in ("bottle", "pot", "jar", "measure")) or (masses and _in_a_vessel(g, masses[0])):
        return DensityQuestion(full=mass_of(masses[0]), volume=volume, stuff=stuff, measure=measure)
    if not masses and not volumes:
        return None
    return DensityQuestion(mass=mass_of(masses[0]) if masses else None, volume=volume, stuff=stuff, measure=measure)


def _in_a_vessel(g: Givens, m: Measured) -> bool:
    """ "Bottle with 100 ml oil in it weighs 165 g": the bottle is in that weight."""
    marks = g.scan.marks
    if [mark.text for mark in marks[max(0, m.at - 2) : m.at]] == ["up", "by"]:
        return False  # "the scale went up by 1.9 oz"
    nouns = [i for i, mark in enumerate(marks[: m.at]) if mark.noun in ("bottle", "jar", "pot")]
    return bool(nouns) and any(mark.text in ("with", "plus", "and") for mark in marks[nouns[0] : m.at])


def _asks_ratio(g: Givens) -> bool:
    """ "g per ml?" without a number."""
    marks = g.scan.marks
    for one, per, other in zip(marks, marks[1:], marks[2:], strict=False):
        units = per.text in ("per", "/", "a") and one.kind == other.kind == "unit"
        if units and kind_of(one.unit) is Mass and kind_of(other.unit) is Volume:
            return True
    return False


def _second_volume(g: Givens, volumes: list[Measured]) -> Outcome:
    """ "A fluid ounce of it weighs 1.5 oz, so 5 fl oz is what?" """
    masses = g.scan.masses()
    if len(masses) != 1:
        return None
    first, second = volumes
    mass = masses[0]
    if not first.at < mass.at < second.at or not _volume(first) or (first.of and second.of and first.of != second.of):
        return None
    between = g.scan.marks[first.at + 1 : mass.at]
    if not any(
        mark.tags & {"weight", "by_weight"} or mark.text in ("is", "was", "=", "came", "weighed") for mark in between
    ):
        return None
    return VolumeQuestion(
        volume=_volume(second),
        density=Density.from_ratio(mass_of(mass), _volume(first)),
        stuff=g.stuff(second),
        unit=g.wanted_mass() or mass.amount.unit,
    )


def _second_weight(g: Givens, volume: Measured) -> Outcome:
    """ "10 ml of it weighed 9.2 g; I need 46 g, how many ml?" """
    masses = g.scan.masses()
    if len(masses) != 2 or not volume.at < masses[0].at < masses[1].at or not _volume(volume) or g.has("wax"):
        return None
    between = g.scan.marks[volume.at + 1 : masses[0].at]
    weighed = any(mark.tags & {"weight", "by_weight"} or mark.text in _WEIGHS for mark in between)
    if not weighed or not mass_of(masses[0]) or any(mark.text in ("in", "into") for mark in between):
        return None
    density = Density.from_ratio(mass_of(masses[0]), _volume(volume))
    return VolumeQuestion(
        mass=mass_of(masses[1]), density=density, stuff=g.stuff(volume), unit=g.wanted_volume() or "ml"
    )


def volume_to_weight(g: Givens) -> Outcome:
    """A volume whose weight, or whose load, is asked: only a density can tell."""
    volumes = g.scan.volumes()
    if not volumes:
        return None
    wax, load = g.wax(), g.shares.load
    waxes = [v for v in volumes if v.of == "wax"]
    chosen = waxes[0] if waxes and wax is None else next((v for v in volumes if v.of == "fragrance"), volumes[0])
    stuff = g.stuff(chosen)
    if wax is not None and load is None and chosen.of in ("", "wax") and g.has("compare", "convert"):
        return VolumeQuestion(volume=_volume(chosen), stuff=Stuff.WAX, state=g.state(), unit=g.wanted_mass())
    if chosen.of == "jar" and wax is not None and not any(mark.noun == "fragrance" for mark in g.scan.marks):
        return VolumeQuestion(mass=wax.total, stuff=Stuff.WAX, state=g.state(), unit="ml")
    if chosen.of in ("bottle", "measure", "jar", "pot", "", "total") and wax is not None:
        stuff = Stuff.FRAGRANCE
    if chosen.of in ("pot",) and wax is None:
        stuff = Stuff.WAX
    if chosen.of == "bottle":
        stuff = Stuff.FRAGRANCE
    volume = _volume(chosen)
    count = next((m for m in g.scan.kind("number") if m.of == "measure" and 1 < m.amount.value <= 100), None)
    if count is not None:
        volume = volume * count.amount.value
    material = g.material(chosen)
    return VolumeQuestion(
        volume=volume,
        stuff=None if material == "water" else stuff,
        state=g.state() if stuff is Stuff.WAX else None,
        material=material,
        wax=wax if stuff is not Stuff.WAX else None,
        load=load,
        unit=g.wanted_mass(),
    )


def weight_to_volume(g: Givens) -> Outcome:
    """A weight that is to be measured by volume."""
    masses = g.scan.masses()
    if not masses:
        return None
    if "drop" in g.wanted():
        return DropsQuestion(wax=g.wax(), load=g.shares.load)
    unit = g.wanted_volume() or ("" if not g.scan.volumes() else "ml")
    if (
        not unit
        and not g.has("measure")
        and not g.scan.says(("bucket", "spoons", "spoon", "fit", "fits", "line", "syringe"))
    ):
        return None
    load = g.shares.load
    if load is not None:
        built = ask_load(g)
        return _with_unit(built, unit or "ml")
    if len(masses) > 1 and g.scan.volumes():
        return None
    m = masses[0]
    if m.amount.unit == "oz" and g.stuff(m) is not Stuff.WAX and not g.by_weight and not g.said_weight(m):
        return _unsure(g, m, unit or "ml")
    stuff = g.stuff(m)
    return VolumeQuestion(
        mass=mass_of(m),
        stuff=stuff,
        state=g.state() if stuff is Stuff.WAX else None,
        material=g.material(m),
        unit=unit or "ml",
    )


def _with_unit(built: Outcome, unit: str) -> Outcome:
    return dataclasses.replace(built, unit=unit) if isinstance(built, LoadQuestion) else built


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
        return _unsure(g, m, to)
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


def _unsure(g: Givens, m: Measured, to: str) -> Question:
    return asking.unsure_ounces(mass_of(m), to, g.stuff(m))


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
