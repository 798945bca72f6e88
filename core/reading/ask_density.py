"""Texts about a sample that was weighed and measured: its density, and what more or less of it weighs or takes."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer, Result, Step, line
from core.compounds import Masses, Measure, Stuff
from core.question import Question
from core.questions.density import DensityQuestion
from core.questions.load import LoadQuestion
from core.questions.volume import VolumeQuestion
from core.reading.ask_vessel import box_sides
from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.measuring import mass_of
from core.reading.sampled import Sample, sample_told, volume_in
from core.reading.tares import weighed_along
from core.reading.wordset import wordset
from core.reading.workings import Working
from core.units import Mass, Volume, kind_of

Outcome = Question | Answer | None

_MEASURES = {"cylinder": Measure.CYLINDER_B, "beaker": Measure.BEAKER, "cup": Measure.KITCHEN, "spoon": Measure.KITCHEN}
_OPENS_A_DOUBT = wordset("is does do will would should can could are if did how")
_NET = wordset("net netto inside contents content alone only itself")


def more_of_it(g: Givens) -> Outcome:
    """Another volume, or another weight, of what was weighed: "so the 16 fl oz bottle?", "how many cups is 500 g?" """
    if (poured := _load_by_volume(g)) is not None:
        return poured
    if g.has("dense", "density") or g.shares.loads or g.density() is not None or g.scan.kind("drop"):
        return None
    sample = sample_told(g)
    if sample is None:
        return None
    volumes = [m for m in g.scan.volumes() if m is not sample.volume]
    masses = [m for m in g.scan.masses() if m is not sample.mass]
    stuff = g.stuff(sample.volume)
    if len(volumes) == 1 and (volumes[0].at > max(sample.mass.at, sample.volume.at) or _told_of_one(sample)):
        return _weight_of_more(g, sample, volumes[0], masses, stuff)
    after = max(sample.mass.at, sample.volume.at)
    if len(masses) == 1 and not volumes and masses[0].at > after and not _is_more(masses[0], sample):
        return VolumeQuestion(
            mass=mass_of(masses[0]),
            density=sample.density,
            stuff=stuff,
            unit=g.wanted_volume() or sample.volume.amount.unit,
        )
    return None


def _load_by_volume(g: Givens) -> Outcome:
    """ "60 ml of my oil weighed 57 g; 500 g of wax at 7 %, how many ml?": the oil by weight, and its volume."""
    sample, unit = sample_told(g), g.wanted_volume()
    if sample is None or not sample.read or not unit or len(g.shares.loads) != 1 or len(g.scan.volumes()) != 1:
        return None
    waxes = [m for m in g.scan.masses("wax") if m is not sample.mass]
    oil = g.stuff(sample.volume) is Stuff.FRAGRANCE and sample.mass.of in ("fragrance", "")
    if not oil or len(waxes) != 1 or len(g.scan.found) != 4 or g.density() is not None:
        return None
    g.used.update((sample.volume.at, sample.mass.at))
    wax = Masses.one(mass_of(waxes[0]))
    return LoadQuestion(wax=wax, load=g.shares.loads[0], density=sample.density, unit=unit)


def _told_of_one(sample: Sample) -> bool:
    """ "3 cups of chips, one cup was 145 g": what one weighs may be told last."""
    return sample.volume.amount.value == 1 and sample.volume.at < sample.mass.at


def _weight_of_more(
    g: Givens, sample: Sample, volume: Measured, masses: list[Measured], stuff: Stuff | None
) -> Outcome:
    one = sample.volume
    if volume_in(volume) == Volume(Decimal(1)) and not masses:  # "what weighs 1 ml of it"
        g.used.add(volume.at)
        return DensityQuestion(mass=mass_of(sample.mass), volume=volume_in(one), stuff=stuff)
    named = {one.of, volume.of} - {"", "bottle", "jar", "measure", "total", "pot"}
    if len(named) > 1:
        return None
    wax: Masses | None = None
    if masses:
        if len(masses) > 1:
            return None
        if masses[0].of == "wax" and stuff is not Stuff.WAX:
            wax = Masses.one(mass_of(masses[0]))
        else:
            g.used.add(masses[0].at)
    return VolumeQuestion(
        volume=volume_in(volume),
        density=sample.density,
        stuff=Stuff.FRAGRANCE if wax is not None else stuff,
        wax=wax,
        unit=g.wanted_mass() or sample.mass.amount.unit,
    )


def _is_more(m: Measured, sample: Sample) -> bool:
    """A weight of another thing than was measured: the wax that an oil goes into."""
    return m.of in ("wax", "fragrance", "dye") and sample.volume.of in ("wax", "fragrance") and m.of != sample.volume.of


_GUESSES = wordset("isnt isn't innit")


def measured_density(g: Givens) -> Outcome:
    """A weight and a volume of the same thing, and its density is asked, or nothing else can be."""
    if g.scan.says(_GUESSES) and not g.has("dense", "density"):
        return None  # "2 tbsp is an ounce, isn't it?": a guess, nothing that was measured
    if (drawn := more_of_it(g)) is not None:
        return drawn
    sample = sample_told(g)
    if sample is not None and (per := _asked_per(g)) not in ("", "ml") and len(g.scan.found) == 2:
        one = Volume.of(1, per)
        return VolumeQuestion(volume=one, density=sample.density, stuff=g.stuff(sample.volume), unit=g.wanted_mass())
    if not g.asks_density and not _asked_per(g):
        return _told_only(g, sample)
    if (by_water := _against_water(g)) is not None:
        return by_water
    if (block := _block(g)) is not None:
        return block
    volumes = _samples_of(g, g.scan.volumes())
    masses = [m for m in g.scan.masses() if not m["step"]]
    volume = volume_in(volumes[0]) if volumes else None
    stuff = g.stuff(volumes[0] if volumes else masses[0] if masses else None)
    measure = next((kind for word, kind in _MEASURES.items() if g.scan.says((word, word + "s"))), None)
    tare = weighed_along(g.scan)
    if tare is not None:
        full, empty = tare
        return DensityQuestion(full=mass_of(full), empty=mass_of(empty), volume=volume, stuff=stuff, measure=measure)
    if len(masses) == 2 and len(volumes) < 2:
        light, heavy = sorted(masses, key=lambda m: mass_of(m).base)
        if light["empty"] or (light.of in ("measure", "bottle", "jar", "pot") and heavy.of in ("", "fragrance", "wax")):
            return DensityQuestion(
                full=mass_of(heavy), empty=mass_of(light), volume=volume, stuff=stuff, measure=measure
            )
    if len(masses) > 1 or len(volumes) > 1:
        return None
    if masses and not _by_itself(g, masses[0]) and _with_its_vessel(g, masses[0]):
        return DensityQuestion(full=mass_of(masses[0]), volume=volume, stuff=stuff, measure=measure)
    if not masses and not volumes:
        return None
    return DensityQuestion(mass=mass_of(masses[0]) if masses else None, volume=volume, stuff=stuff, measure=measure)


def _told_only(g: Givens, sample: Sample | None) -> Outcome:
    """ "3 tsp of oil read 13.9 g" and no more: what else but its density; "is 30 ml 30 g?" only asks whether."""
    first = next((mark.text for mark in g.scan.marks if mark.kind in ("word", "amount")), "")
    if sample is not None and _expected_as_much(g, sample):
        return DensityQuestion(mass=mass_of(sample.mass), volume=volume_in(sample.volume), stuff=g.stuff(sample.volume))
    if sample is None or not sample.read or len(g.scan.found) != 2 or first in _OPENS_A_DOUBT or "?" in g.scan.text:
        return None
    if (
        g.has("asks")
        or g.checks
        or g.shares.loads
        or (not _by_itself(g, sample.mass) and _with_its_vessel(g, sample.mass))
    ):
        return None
    return DensityQuestion(mass=mass_of(sample.mass), volume=volume_in(sample.volume), stuff=g.stuff(sample.volume))


def _block(g: Givens) -> Outcome:
    """ "A block of 10 x 5 x 4 cm weighs 182 g": the room is its sides multiplied."""
    sides, masses = box_sides(g), g.scan.masses()
    lengths = [m for m in g.scan.found if m.kind not in ("mass",)]
    if sides is None or len(masses) != 1 or len(lengths) != 3 or masses[0].of in ("box", "jar", "pot", "bottle"):
        return None
    long, wide, high = sides
    room = Volume(long.to("cm") * wide.to("cm") * high.to("cm"), "ml")
    step = Step("its room", line("{0:typed} × {1:typed} × {2:typed}", long, wide, high), line("{0}", room))
    g.scan.workings.append(Working(step, Result("worked_out", room)))
    g.used.update(m.at for m in lengths)
    return DensityQuestion(mass=mass_of(masses[0]), volume=room, stuff=g.stuff(masses[0]))


def _expected_as_much(g: Givens, sample: Sample) -> bool:
    """ "100 ml of oil weighed 93 g, not 100: is my scale broken?": as many grams as ml were expected."""
    extra = [m for m in g.scan.found if m not in (sample.volume, sample.mass)]
    units = (sample.volume.amount.unit, sample.mass.amount.unit) == ("ml", "g")
    if len(extra) != 1 or not units or not sample.read or extra[0].amount.value != sample.volume.amount.value:
        return False
    denied = g.scan.marks[extra[0].at - 1].text in ("not", "of", "than") and extra[0].at > sample.mass.at
    if denied and extra[0].kind in ("number", "mass"):
        g.used.add(extra[0].at)
        return True
    return False


def _samples_of(g: Givens, volumes: list[Measured]) -> list[Measured]:
    """The volumes that were filled: of "a 200 ml beaker to the 150 ml mark" the mark alone."""
    if len(volumes) == 2 and volumes[0].of == "measure" and g.has("fill"):
        g.used.add(volumes[0].at)
        return volumes[1:]
    return volumes


def _against_water(g: Givens) -> Outcome:
    """ "The jar takes 300 g water or 270 g wax": the water's weight is the room."""
    masses = g.scan.masses()
    water = [m for m in masses if m.of == "water"]
    others = [m for m in masses if m not in water]
    if len(water) != 1 or len(others) != 1 or g.scan.volumes() or others[0].of not in ("wax", "fragrance", ""):
        return None
    if not mass_of(water[0]):
        return None
    return DensityQuestion(mass=mass_of(others[0]), water=mass_of(water[0]), stuff=g.stuff(others[0]))


def _by_itself(g: Givens, m: Measured) -> bool:
    """ "Inside are 96 g", "141 g net", "without the jar": the vessel is in that weight no more."""
    marks = g.scan.marks
    near = [mark.text for mark in (*marks[max(0, m.at - 3) : m.at], *marks[m.at + 1 : m.at + 4])]
    if m["full"] and m["empty"]:
        return True  # "full minus empty = 3.85 oz"
    return m["net"] or m["without"] or not _NET.isdisjoint(near) or g.tared


def _with_its_vessel(g: Givens, m: Measured) -> bool:
    """ "Bottle with 100 ml oil in it weighs 165 g": the bottle is in that weight; "5 ml in a syringe is 4.8 g": not."""
    marks = g.scan.marks
    if [mark.text for mark in marks[max(0, m.at - 2) : m.at]] == ["up", "by"]:
        return False  # "the scale went up by 1.9 oz"
    nouns = [i for i, mark in enumerate(marks[: m.at]) if mark.noun in ("bottle", "jar", "pot", "measure")]
    if nouns and _drawn_into(marks, nouns[0]):
        return False
    if nouns and m["full"]:
        return True
    if m.of in ("bottle", "pot", "jar", "measure"):
        return True
    kinds = [i for i in nouns if marks[i].noun != "measure"]
    return bool(kinds) and any(mark.text in ("with", "plus", "and") for mark in marks[kinds[0] : m.at])


def _drawn_into(marks: list[Mark], i: int) -> bool:
    """ "5 ml in a syringe", "with my pipette": the measure holds what is spoken of and is not the thing weighed."""
    before = [mark.text for mark in marks[max(0, i - 2) : i]]
    measured = any(mark.measured is not None and mark.measured.kind == "volume" for mark in marks[max(0, i - 6) : i])
    return measured and not {"in", "into", "with", "by"}.isdisjoint(before) and marks[i].noun == "measure"


def _asked_per(g: Givens) -> str:
    """The measure of "g per ml?", "grams per tsp?" without a number; "" where none is asked for."""
    if len(g.wanted()) < 2:
        return ""
    marks = g.scan.marks
    for one, per, other in zip(marks, marks[1:], marks[2:], strict=False):
        units = per.text in ("per", "/", "a") and one.kind == other.kind == "unit"
        if units and kind_of(one.unit) is Mass and kind_of(other.unit) is Volume:
            return other.unit
    return ""
