"""The fragrance of a load question by volume, for whoever draws it up instead of weighing it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from core.answer import Answer, Given, Line, Missing, Result, Step, Worked, line
from core.compounds import Stuff
from core.questions.estimates import guide_for, room_guide
from core.questions.household import country_assumed
from core.questions.known_density import density_cautions, known_density, need_density
from core.questions.volume_steps import density_step, from_millilitres
from core.units import VOLUME_UNITS, Mass

if TYPE_CHECKING:
    from core.book import Book
    from core.questions.load import LoadQuestion


def wants_volume(ask: LoadQuestion) -> bool:
    """True where a volume is asked for, or a density given that would make one."""
    return ask.unit in VOLUME_UNITS or ask.density is not None


def by_volume(ask: LoadQuestion, answer: Worked, oil: Mass, book: Book) -> Answer:
    """The worked answer, with the oil's volume where its density is given; Missing, with the weights, where not."""
    unit = ask.unit if ask.unit in VOLUME_UNITS else ""
    looked_for_wax = ask.wax is None and ask.load is not None and ask.fragrance is not None
    if unit and looked_for_wax:
        return _lacking(ask, answer, Stuff.WAX, answer_weight(answer, "wax"), unit)
    known = known_density(ask.density, None, book)
    if known is None:
        return _lacking(ask, answer, Stuff.FRAGRANCE, oil, unit)
    density = known.density
    volume = density.volume_of(oil)
    shown = volume.in_unit(unit or "ml")
    takes = line("{0} of fragrance oil takes {1:unit} of room.", oil, shown)
    if ask.wax is not None and ask.load is not None and ask.fragrance is None:
        beside = " ({2:ml})" if unit not in ("", "ml") else ""
        headline = line("{0} of fragrance oil; that is {1:unit}" + beside + ".", oil, shown, volume)
        body = answer.body
    else:
        headline, body = answer.headline, (takes, *answer.body)
    return replace(
        answer,
        intent="density_given_conversion",
        headline=headline,
        given=(*answer.given, Given("density", density, known.origin, known.source)),
        steps=(
            *answer.steps,
            *density_step(density),
            Step("room = weight ÷ density", line("{0:work} ÷ {1:work}", oil, density), line("{0:work}", volume)),
            *from_millilitres(volume, unit),
        ),
        results=(*answer.results, Result("fragrance_volume", volume, unit)),
        body=body,
        assumed=(*answer.assumed, *country_assumed(shown)),
        cautions=(*answer.cautions, *density_cautions(known, None, Stuff.FRAGRANCE)),
        see=("density", *answer.see),
        question=ask,
    )


def answer_weight(answer: Worked, what: str) -> Mass:
    """The weight called `what` among the results."""
    (found,) = (each.value for each in answer.results if each.what == what)
    assert isinstance(found, Mass)
    return found


def _lacking(ask: LoadQuestion, answer: Worked, stuff: Stuff, mass: Mass, unit: str) -> Missing:
    what = Line("wax" if stuff is Stuff.WAX else "fragrance oil")
    return Missing(
        intent="weight_to_volume_needs_density",
        headline=line("Weigh out {0} of {1}. How much room that takes depends on its density.", mass, what),
        read_as=answer.read_as,
        given=answer.given,
        steps=answer.steps,
        results=answer.results,
        needs=(need_density(stuff),),
        body=(line("Better leave the measure out: on the scale you need no density at all."),),
        guide=room_guide(mass, unit, guide_for(stuff, None, None)),
        other=answer.other,
        assumed=answer.assumed,
        cautions=answer.cautions,
        see=("density", *answer.see),
        question=ask,
    )
