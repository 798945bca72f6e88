"""What a volume lacks to become a weight (or a weight to become a volume), and the band of published densities."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Caution, Line, Missing, Result, Step, line
from core.book import Book
from core.compounds import Load, State, Stuff
from core.mixing import Recipe
from core.questions.basis import basis_of
from core.questions.estimates import guide_for, room_guide, weight_guide
from core.questions.household import country_assumed
from core.questions.known_density import Known, named, need_density, offered_names
from core.questions.volume_answer import givens, read_as
from core.units import Density, Mass

if TYPE_CHECKING:
    from core.questions.volume import VolumeQuestion

# A heap of flakes is lighter than this, solid wax is heavier: powders 0.54 to 0.57 (excipients handbook, from memory),
# the lightest solid wax 0.88 (museum materials database).
HEAP_MOST = Decimal("0.75")

FLAKES = line(
    "Flakes, pellets and shavings hold a lot of air, and how much depends on the pieces and on how you fill the "
    "measure: two cups never weigh quite the same. Weigh the wax itself."
)


def is_of_the_solid(density: Density) -> bool:
    """True for a density of the wax itself, not of a heap of its pieces."""
    return density.base > HEAP_MOST


def missing_density(ask: VolumeQuestion, stuff: Stuff, book: Book) -> Missing:
    """What is lacking, why, how to measure it, and the band as an estimate."""
    back = ask.volume is None
    wanted = _wanted_oil(ask, stuff, book)
    steps: tuple[Step, ...] = ()
    if wanted is not None:
        steps = (Step("fragrance that load needs", _oil_numbers(ask, wanted), line("{0:work}", wanted)),)
    return Missing(
        intent="weight_to_volume_needs_density" if back else "volume_needs_density",
        headline=_headline(ask, stuff),
        read_as=read_as(ask, None, stuff),
        given=givens(ask, None),
        steps=steps,
        results=(Result("fragrance", wanted),) if wanted is not None else (),
        needs=(need_density(stuff, ask.material),),
        body=(*_quickest(ask, stuff), *offered_names(ask.material, book), *_only_at(ask, wanted)),
        guide=_guide(ask, stuff, book),
        assumed=country_assumed(ask.volume),
        cautions=(Caution("flakes", FLAKES),) if ask.state is State.FLAKES else (),
        see=("flakes",) if ask.state is State.FLAKES else ("density",),
        question=ask,
    )


def flakes_missing(ask: VolumeQuestion, known: Known, book: Book) -> Missing:
    """Flakes by volume, and only the density of the wax itself: that would count the air as wax."""
    density = known.density
    if ask.volume is not None:
        bound = line(
            "{0:typed} of it without any air would be {1}; flakes weigh far less.",
            ask.volume,
            density.mass_of(ask.volume),
        )
    else:
        assert ask.mass is not None
        bound = line(
            "{0:typed} of it without any air takes {1}; flakes take far more room.",
            ask.mass,
            density.volume_of(ask.mass),
        )
    return Missing(
        intent="volume_needs_density" if ask.volume is not None else "weight_to_volume_needs_density",
        headline=line("Flakes hold air between them, so {} (the wax itself) doesn't fit a heap of them.", density),
        read_as=read_as(ask, known, Stuff.WAX),
        given=givens(ask, known),
        needs=(need_density(Stuff.WAX),),
        body=(bound, *_quickest(ask, Stuff.WAX)),
        guide=_guide(ask, Stuff.WAX, book),
        assumed=country_assumed(ask.volume),
        cautions=(Caution("flakes", FLAKES),),
        see=("flakes",),
        question=ask,
    )


def _headline(ask: VolumeQuestion, stuff: Stuff) -> Line:
    what = named(stuff, ask.material)
    if ask.volume is None:
        return line(
            "{0:typed} is a weight; to say how much room it takes I need its density (what 1 ml weighs).",
            ask.mass,
        )
    if ask.state is State.FLAKES:
        return line("I can't tell: {0:typed} of flakes is part wax, part air, so please weigh it.", ask.volume)
    if stuff is Stuff.WAX and ask.load is not None:
        return line(
            "I need the wax's weight first: a load is a percent by weight, and {0:typed} is only room.",
            ask.volume,
        )
    if ask.mass is not None:
        return line("That depends on its density: {0:typed} of one can weigh far more than of another.", ask.volume)
    if stuff is Stuff.OTHER and not ask.material:
        return line("{0:typed} is how much room it takes, not what it weighs: I need its density.", ask.volume)
    return line("{0:typed} of {1} is how much room it takes, not what it weighs: I need its density.", ask.volume, what)


def _quickest(ask: VolumeQuestion, stuff: Stuff) -> tuple[Line, ...]:
    if ask.volume is None:
        return (line("Quickest: leave out the measure and weigh it, straight from the bottle onto the scale."),)
    whose = {Stuff.WAX: "the wax", Stuff.FRAGRANCE: "the oil", Stuff.DYE: "the dye", Stuff.OTHER: "it"}[stuff]
    return (line(f"Quickest: put {whose} on a scale and ask again with the grams or ounces."),)


def _wanted_oil(ask: VolumeQuestion, stuff: Stuff, book: Book) -> Mass | None:
    """The weight of fragrance that the load asks for, which needs no density."""
    if stuff is not Stuff.FRAGRANCE or ask.load is None or ask.wax is None or ask.load.percent.base <= 0:
        return None
    return _recipe(ask, ask.load, book).of_wax(ask.wax.total).fragrance


def _oil_numbers(ask: VolumeQuestion, wanted: Mass) -> Line:
    assert ask.wax is not None
    assert ask.load is not None
    if wanted.base == ask.wax.total.base * ask.load.percent.fraction:
        return line("{0:work} × {1:bare} ÷ 100", ask.wax.total, ask.load.percent)
    return line("{0:work} × {1:bare} ÷ (100 − {1:bare})", ask.wax.total, ask.load.percent)


def _only_at(ask: VolumeQuestion, wanted: Mass | None) -> tuple[Line, ...]:
    """The one density at which what the asker supposes would be true."""
    supposed = ask.mass or wanted
    if ask.volume is None or supposed is None:
        return ()
    return (
        line(
            "{0:typed} weighs {1} only if its density is {2}.",
            ask.volume,
            supposed,
            Density.from_ratio(supposed, ask.volume),
        ),
    )


def _guide(ask: VolumeQuestion, stuff: Stuff, book: Book) -> tuple[Line, ...]:
    guide = guide_for(stuff, ask.material, ask.state, ask.at)
    if ask.volume is None:
        assert ask.mass is not None
        return room_guide(ask.mass, ask.unit, guide)
    carries_on = stuff is Stuff.WAX and ask.load is not None and ask.load.percent.base > 0
    return weight_guide(ask.volume, guide, _recipe(ask, ask.load, book) if carries_on and ask.load else None)


def _recipe(ask: VolumeQuestion, load: Load, book: Book) -> Recipe:
    return Recipe(load.percent, basis_of(load, ask.basis, book)[0])
