"""How a volume and its weight are explained once the density is known; a load is carried on from the weight."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Answer, Given, Line, Result, Step, Worked, line, listed
from core.book import Book
from core.compounds import Masses, State, Stuff
from core.questions.household import country_assumed, country_lines
from core.questions.known_density import Known, density_cautions, named
from core.questions.load import LoadQuestion
from core.questions.steps import in_unit, to_grams, to_millilitres
from core.questions.volume_steps import density_step, from_millilitres
from core.units import DENSITY_UNITS, VOLUME_UNITS, Density, Mass, Percent, Volume, kind_of

if TYPE_CHECKING:
    from core.questions.volume import VolumeQuestion

ALIAS = {Stuff.WAX: ("wax", "wax_volume"), Stuff.FRAGRANCE: ("fragrance", "fragrance_volume")}
# Rounding of a spoken figure: "is 1 tsp 5 g?" is a yes within this.
SAME_WITHIN = Decimal("0.01")


def weight_worked(ask: VolumeQuestion, known: Known, stuff: Stuff, book: Book) -> Answer:
    """From the volume to its weight, and on to the load where one was asked for."""
    assert ask.volume is not None
    mass = known.density.mass_of(ask.volume)
    steps = (
        *to_millilitres(ask.volume),
        *density_step(known.density),
        Step("weight = room × density", line("{0:work} × {1:work}", ask.volume, known.density), line("{0:work}", mass)),
    )
    if (stuff is Stuff.WAX and ask.load is not None) or (
        stuff is Stuff.FRAGRANCE and (ask.load is not None or ask.wax is not None)
    ):
        return _carried_on(ask, known, stuff, mass, steps, book)
    unit = ask.unit if kind_of(ask.unit) is Mass else ""
    results = [Result("mass", mass, unit)]
    if stuff in ALIAS:
        results.append(Result(ALIAS[stuff][0], mass, unit))
    what = named(stuff, ask.material)
    headline = line("{0:typed} of {1} weighs {2}.", ask.volume, what, mass)
    if not ask.material and stuff is Stuff.OTHER:
        headline = line("{0:typed} of it weighs {1}.", ask.volume, mass)
    if ask.mass is not None:
        headline = _verdict(ask.mass, mass, headline)
    density = known.density
    return Worked(
        intent=ask.intent,
        headline=headline,
        read_as=read_as(ask, known, stuff),
        given=givens(ask, known),
        steps=steps,
        results=tuple(results),
        body=(*in_unit("That", mass, unit), *_spread(known, mass), *_state(ask, stuff)),
        other=_other_countries(ask.volume, density),
        assumed=(*country_assumed(ask.volume), *known.notes),
        check=line("Check: {0:work} ÷ {1:work} = {2:work}.", mass, density, ask.volume),
        cautions=density_cautions(known, ask.at, stuff),
        see=("density",),
        question=ask,
    )


def volume_worked(ask: VolumeQuestion, known: Known, stuff: Stuff) -> Worked:
    """From a weight to the room it takes, in the unit asked for."""
    assert ask.mass is not None
    density = known.density
    volume = density.volume_of(ask.mass)
    unit = ask.unit if ask.unit in VOLUME_UNITS else ""
    shown = volume.in_unit(unit or "ml")
    names = ["volume", *([ALIAS[stuff][1]] if stuff in ALIAS else [])]
    beside = "us_fl_oz" if unit in ("", "ml") else "ml"
    return Worked(
        intent=ask.intent,
        headline=line(
            "{0:typed} of {1} takes {2:unit} of room ({3:" + beside + "}).",
            ask.mass,
            named(stuff, ask.material),
            shown,
            volume,
        ),
        read_as=read_as(ask, known, stuff),
        given=givens(ask, known),
        steps=(
            *to_grams("weight", ask.mass),
            *density_step(density),
            Step("room = weight ÷ density", line("{0:work} ÷ {1:work}", ask.mass, density), line("{0:work}", volume)),
            *from_millilitres(volume, unit),
        ),
        results=tuple(Result(name, volume, unit) for name in names),
        body=_state(ask, stuff),
        other=_other_country(volume, unit),
        assumed=(*country_assumed(shown), *known.notes),
        check=line("Check: {0:work} × {1:work} = {2:work}.", volume, density, ask.mass),
        cautions=density_cautions(known, ask.at, stuff),
        see=("density",),
        question=ask,
    )


def _other_country(volume: Volume, unit: str) -> tuple[Line, ...]:
    """The same room in the other country's measure, where it was not said whose is wanted."""
    if not Volume(volume.base, unit or "ml").assumed_country:
        return ()
    return (line(f"In Britain's measure: {{0:imp_{unit}}}.", volume),)


def _other_countries(volume: Volume, density: Density) -> tuple[Line, ...]:
    """The weight with other countries' measures; a density per fluid ounce goes with fluid ounces of any country."""
    per = DENSITY_UNITS[density.unit][1].removeprefix("us_")
    return () if per == volume.unit else country_lines(volume, density.mass_of)


def givens(ask: VolumeQuestion, known: Known | None) -> tuple[Given, ...]:
    """What went in; the density with where it comes from."""
    out = [Given(what, value) for what, value in (("volume", ask.volume), ("mass", ask.mass)) if value is not None]
    out += [Given(name or "wax", mass) for name, mass in (ask.wax.items if ask.wax else ())]
    if known is not None:
        out.append(Given("density", known.density, known.origin, known.source))
    if ask.load is not None:
        typed = line("{}", ask.load.typed) if ask.load.typed else None
        out.append(Given("load", ask.load.percent, source=typed))
    if ask.at is not None:
        out.append(Given("temperature", ask.at))
    return tuple(out)


def read_as(ask: VolumeQuestion, known: Known | None, stuff: Stuff) -> Line:
    """What was understood, so that a misreading shows."""
    parts: list[Line] = []
    what = named(stuff, ask.material)
    if ask.volume is not None:
        state = f" ({ask.state})" if ask.state is not None else ""
        of = "" if stuff is Stuff.OTHER and not ask.material else " of {1}"
        parts.append(line("{0:typed}" + of + state, ask.volume, what))
    if ask.mass is not None:
        weight = line("{0:typed}", ask.mass)
        parts.append(line("which you take to weigh {}", weight) if ask.volume else line("{0} of {1}", weight, what))
    if ask.wax is not None:
        parts.append(line("into {0:typed} of wax", ask.wax.total))
    if ask.load is not None:
        parts.append(line("a load of {0:typed}", ask.load.percent))
    if known is not None:
        parts.append(line("density {0:typed}", known.density))
    return line("Read as: {}.", listed(parts))


def _verdict(said: Mass, mass: Mass, headline: Line) -> Line:
    """Whether the weight that was named for the volume is right."""
    if abs(said.base - mass.base) <= SAME_WITHIN * mass.base:
        return line("Yes: {}", headline)
    return line("No, not {0:typed}: {1}", said, headline)


def _spread(known: Known, mass: Mass) -> tuple[Line, ...]:
    """How far the weight may be off because the density was measured."""
    if not known.spread:
        return ()
    twice = Mass(mass.base * known.spread / known.density.base * known.coverage)
    return (
        line(
            "The recorded density is exact to {0}, so the weight lies between {1:g} and {2:g} (19 times in 20).",
            Percent(known.spread / known.density.base * known.coverage * 100),
            mass - twice,
            mass + twice,
        ),
    )


def _state(ask: VolumeQuestion, stuff: Stuff) -> tuple[Line, ...]:
    """Solid and molten wax take different room; computed for paraffin: molten takes about 14 % more."""
    if stuff is not Stuff.WAX or ask.state in (State.SOLID, State.MOLTEN):
        return ()
    if ask.state is State.FLAKES:
        return (line("Read as the density of the heap of flakes, with the air between them."),)
    return (
        line("Molten wax takes up to 15 % more room than solid wax: the density must be measured in the same state."),
    )


def _carried_on(
    ask: VolumeQuestion, known: Known, stuff: Stuff, mass: Mass, steps: tuple[Step, ...], book: Book
) -> Answer:
    """The weight found goes on into the load question, and both sums are shown as one."""
    unit = ask.unit if kind_of(ask.unit) is Mass else ""
    if stuff is Stuff.WAX:
        load = LoadQuestion(wax=Masses.one(mass, ask.material or ""), load=ask.load, basis=ask.basis, unit=unit)
    else:
        load = LoadQuestion(wax=ask.wax, fragrance=mass, load=ask.load, basis=ask.basis, unit=unit)
    answer = load.answer(book)
    if not isinstance(answer, Worked):
        return answer
    assert ask.volume is not None
    names = {result.what for result in answer.results}
    first = Line("wax") if stuff is Stuff.WAX else Line("fragrance oil")
    return replace(
        answer,
        intent=ask.intent,
        read_as=read_as(ask, known, stuff),
        given=givens(ask, known),
        steps=(*steps, *answer.steps),
        results=(*answer.results, *(() if "mass" in names else (Result("mass", mass),))),
        body=(
            line("{0:typed} of {1} weighs {2}.", ask.volume, first, mass),
            *answer.body,
            *_spread(known, mass),
            *_state(ask, stuff),
        ),
        other=(*answer.other, *_other_countries(ask.volume, known.density)),
        assumed=(*answer.assumed, *country_assumed(ask.volume), *known.notes),
        cautions=(*answer.cautions, *density_cautions(known, ask.at, stuff)),
        see=("density", *answer.see),
        question=ask,
    )
