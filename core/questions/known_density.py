"""Where a density comes from: the asker, the group's records, then published tables; and how to get one."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.answer import Caution, Line, Need, Origin, line, listed
from core.book import Book, MaterialRecord
from core.compounds import Material, State, Stuff
from core.errors import OutOfRange, clipped
from core.reference import densities
from core.reference.densities import Family, Figure
from core.reference.table import Status
from core.units import Density, Temperature, TemperatureDifference
from core.writing import significant

# A published figure stands for temperatures this near; d-limonene changes by 0.5 % over 5 °C (terpene fit, CoolProp).
NEAR_ENOUGH = Decimal(5)
# Published figures further apart than this do not make one figure.
AGREE_WITHIN = Decimal("0.01")
# Common practice, no source: nothing that goes into a candle is lighter or heavier than this.
LIGHTEST, HEAVIEST = Decimal("0.6"), Decimal("1.4")
HEAVIEST_AT_ALL = Decimal(25)  # osmium, the densest element, has 22.6 g/ml (from memory)

STUFF = {
    Family.WAX: Stuff.WAX,
    Family.FRAGRANCE: Stuff.FRAGRANCE,
    Family.ESSENTIAL_OIL: Stuff.FRAGRANCE,
}


@dataclass(frozen=True, slots=True)
class Known:
    """A density that may be used. `spread` is its standard uncertainty in g/ml where recorded,
    `coverage` how many of it make 19 times in 20; `notes` are to be shown
    with it; `at` is the temperature it holds for, where known."""

    density: Density
    origin: Origin
    source: Line | None = None
    spread: Decimal | None = None
    at: Temperature | None = None
    notes: tuple[Line, ...] = ()
    coverage: Decimal = Decimal(2)


def expanded(spread: Decimal, coverage: Decimal = Decimal(2)) -> Density:
    """What a density may be off by, 19 times in 20 (so many times its spread), to the two digits that mean anything."""
    return Density(significant(spread * coverage, 2))


def known_density(
    given: Density | None,
    material: Material | None,
    book: Book,
    state: State | None = None,
    at: Temperature | None = None,
) -> Known | None:
    """The density given, else the one recorded, else a published point value; None where there is none of them.

    A published band is no value: mixtures differ. Raises OutOfRange for a density nothing can have.
    """
    if given is not None:
        if not 0 < given.base <= HEAVIEST_AT_ALL:
            raise OutOfRange(
                str(given.base)[:40],
                "Nothing has that density. Waxes and oils lie near 0.8 to 1.2 g/ml: check the number and its unit.",
            )
        return Known(given, Origin.ASKED)
    if material is None:
        return None
    record = book.material(material)
    if record is not None and record.density is not None:
        source = line("“{0}”, {1}", record.name, record.how) if record.how else line("“{0}”", record.name)
        return Known(record.density, Origin.RECORDED, source, record.spread, record.at, coverage=record.coverage)
    return _published(material, state, at)


def _published(material: Material, state: State | None, at: Temperature | None) -> Known | None:
    found = densities.find(material)
    if found is None:
        return None
    if found.key == "water":
        return _water(at)
    figure = found.figure(_state(state), at.base if at is not None else densities.ROOM)
    if figure is None or figure.point is None or figure.status is Status.MEMORY:
        return None
    if (at is not None and figure.away_from(at.base) > NEAR_ENOUGH) or not _agreed(found, figure):
        return None
    where = Temperature(densities.ROOM if figure.at is None else figure.at)
    notes = [line("A published density holds at {}; warmer, it is less.", where)]
    if found.note:
        notes.append(line("{}", found.note))
    return Known(
        Density(figure.point),
        Origin.PUBLISHED,
        line("{0} at {1}, {2}", found.key, where, figure.source),
        at=where,
        notes=tuple(notes),
    )


def _agreed(material: densities.Material, figure: Figure) -> bool:
    """True where the published figures near this one make one value. An essential oil varies with its harvest."""
    if material.family is Family.ESSENTIAL_OIL or figure.point is None:
        return False
    where = densities.ROOM if figure.at is None else figure.at
    beside = [
        each
        for each in material.figures
        if each.state is figure.state and each.status is not Status.MEMORY and each.away_from(where) <= NEAR_ENOUGH
    ]
    return max(e.high for e in beside) - min(e.low for e in beside) <= AGREE_WITHIN * figure.point


def _water(at: Temperature | None) -> Known | None:
    where = at or Temperature(densities.ROOM)
    if not 0 <= where.base <= 40:
        return None
    found = densities.find("water")
    assert found is not None
    notes = () if at is not None else (line("You didn't say how warm the water is; I took {}.", where),)
    source = line("water at {0}, {1}", where, found.figures[0].source)
    return Known(Density(densities.water_density(where.base)), Origin.PUBLISHED, source, at=where, notes=notes)


def _state(state: State | None) -> densities.State | None:
    return {State.MOLTEN: densities.State.MOLTEN, State.SOLID: densities.State.SOLID}.get(state) if state else None


def stuff_of(stuff: Stuff | None, material: Material | None, book: Book) -> Stuff:
    """What it is: as said, else by the material's record or the published table, else something else."""
    if stuff is not None:
        return stuff
    if material is None:
        return Stuff.OTHER
    record = book.material(material)
    if record is not None and record.kind:
        return _by_kind(record)
    found = densities.find(material)
    return STUFF.get(found.family, Stuff.OTHER) if found is not None else Stuff.OTHER


def _by_kind(record: MaterialRecord) -> Stuff:
    kind = record.kind.casefold()
    if "wax" in kind:
        return Stuff.WAX
    return Stuff.FRAGRANCE if "fragrance" in kind or "oil" in kind else Stuff.OTHER


def named(stuff: Stuff, material: Material | None) -> Line:
    """What it is called in a sentence: the asker's own name for it, or its kind."""
    if material:
        return line("{}", clipped(material))
    return line({Stuff.WAX: "wax", Stuff.FRAGRANCE: "fragrance oil", Stuff.DYE: "dye", Stuff.OTHER: "it"}[stuff])


SUFFIX = {Stuff.WAX: "wax", Stuff.FRAGRANCE: "fragrance", Stuff.DYE: "dye", Stuff.OTHER: "material"}
HOW_COLD = line(
    "Put an empty measure on the scale, set the scale to zero, fill in 100 ml and divide the grams by 100: "
    "93 g would be 0.93 g/ml. Or look for “density” or “specific gravity” on its data sheet."
)
HOW_WAX = line(
    "Put an empty heat-proof measure on the scale, set the scale to zero, pour in melted wax to the 100 ml mark and "
    "divide the grams by 100: 80 g would be 0.8 g/ml, for melted wax. Hot wax burns: go slowly, wear gloves."
)


def need_density(stuff: Stuff, material: Material | None = None) -> Need:
    """The density as the thing that is lacking, with the way to measure it."""
    whose = {
        Stuff.WAX: "the wax",
        Stuff.FRAGRANCE: "the fragrance oil",
        Stuff.DYE: "the dye",
        Stuff.OTHER: "it",
    }[stuff]
    of = line("{}", clipped(material)) if material else line(whose)
    how = HOW_WAX if stuff is Stuff.WAX else HOW_COLD
    return Need(f"density_of_{SUFFIX[stuff]}", line("the density of {}: what 1 ml of it weighs", of), how)


def offered_names(material: Material | None, book: Book) -> tuple[Line, ...]:
    """A sentence about the name: nothing found, what comes near, what the table notes."""
    if material is None:
        return ()
    found = densities.find(material)
    if found is not None:
        return (line("{}", found.note),) if found.note and not found.figures else ()
    if book.material(material) is not None:
        return (line("“{}” is recorded without a density.", clipped(material)),)
    near = list(dict.fromkeys([*book.names("material", material, 3), *densities.near(material, 3)]))[:3]
    if not near:
        return (line("I have no density of “{}”, neither recorded nor published.", clipped(material)),)
    return (line("I have no density of “{}”. Did you mean {}?", clipped(material), listed(near, " or ")),)


def density_cautions(known: Known, at: Temperature | None, stuff: Stuff = Stuff.WAX) -> tuple[Caution, ...]:
    """Cautions about a density that looks wrong, or holds for another temperature."""
    out: list[Caution] = []
    if (
        stuff in (Stuff.WAX, Stuff.FRAGRANCE)
        and known.origin is Origin.ASKED
        and not LIGHTEST <= known.density.base <= HEAVIEST
    ):
        out.append(
            Caution(
                "odd_density",
                line(
                    "{} is unusual: waxes and oils lie near 0.8 to 1.2 g/ml. Check the number and its unit.",
                    known.density,
                ),
            )
        )
    if at is not None and known.at is not None and abs(at.base - known.at.base) > 2 * NEAR_ENOUGH:
        away = TemperatureDifference(abs(at.base - known.at.base))
        out.append(
            Caution(
                "other_temperature",
                line(
                    "That density was measured {0} away from {1}. Warm liquids take more room: about 1 % for 10 °C.",
                    away,
                    at,
                ),
            )
        )
    return tuple(out)
