"""How a vessel question is answered: the weight that fills it, its room alone, what is missing, or which ounces."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import (
    Answer,
    Caution,
    Choice,
    Given,
    Line,
    Missing,
    Need,
    Option,
    Origin,
    Result,
    Step,
    Worked,
    line,
    results_by_name,
)
from core.book import Book, VesselRecord
from core.compounds import Fill, Fills, Stuff
from core.errors import OutOfRange
from core.questions.batch import BatchQuestion, FillIs
from core.questions.estimates import vessel_guide
from core.questions.filled_state import AS_DENSE, state_words
from core.questions.known_density import Known, density_cautions, need_density, offered_names
from core.questions.load import LoadQuestion
from core.questions.steps import in_unit
from core.questions.vessel_room import NEED_VESSEL
from core.questions.vessel_shape import Room
from core.units import VOLUME_UNITS, Mass, Volume
from core.writing import rounded

if TYPE_CHECKING:
    from core.questions.vessel import VesselQuestion

NEED_OUNCES = Need(
    "ounce_kind",
    line("which ounces: fluid ounces (room) or ounces by weight"),
    line("A jar is mostly sold by the room in it. To be sure, weigh the water it holds up to the line, in grams."),
)


@dataclass(frozen=True, slots=True)
class Filling:
    """What goes into one vessel by weight, and how that was found."""

    each: Mass
    read_as: Line
    given: tuple[Given, ...]
    steps: tuple[Step, ...]
    results: tuple[Result, ...] = ()
    body: tuple[Line, ...] = ()
    assumed: tuple[Line, ...] = ()
    cautions: tuple[Caution, ...] = ()


def which_ounces(ask: VesselQuestion, ounces: Mass) -> Choice:
    """A vessel sold by "ounces": fluid ounces of room, or ounces of wax by weight? Each with what it would give."""
    room = Volume.of(ounces.oz, "us_fl_oz")
    imperial = Volume.of(ounces.oz, "imp_fl_oz")
    fill = Fill(ask.count or 1, weight=ounces)
    batch = BatchQuestion(
        fills=Fills((fill,)),
        fill_is=FillIs.FINISHED,
        load=ask.load,
        basis=ask.basis,
        density=ask.density,
        material=ask.material,
        unit="" if ask.unit in VOLUME_UNITS else ask.unit,
    )
    by_room: Line
    if ask.density is not None:
        level = ask.level.fraction if ask.level is not None else Decimal(1)
        weight = ask.density.mass_of(room * level)
        by_room = line("room for {0:ml} (US), which takes {1} at {2}.", room, weight, ask.density)
    else:
        by_room = line(
            "room for {0:ml} (US; {1:ml} if it is a British jar). The weight then needs a density.", room, imperial
        )
    return Choice(
        intent="ambiguous_ounces",
        headline=line("Which ounces are the {0:typed}: fluid ounces (room) or ounces by weight?", ounces),
        body=(line("The same number, two different things: a fluid ounce is room in the jar, an ounce is a weight."),),
        given=(Given("ounces", ounces),),
        options=(
            Option("fluid ounces", by_room, replace(ask, ounces=None, room=room)),
            Option("ounces by weight", line("{} of wax, with its fragrance, goes in.", ounces), batch),
        ),
        needs=(NEED_OUNCES,),
        see=("jar_ounces",),
    )


def no_room(ask: VesselQuestion, needs: tuple[Need, ...]) -> Missing:
    """Nothing tells how much the vessel holds."""
    return Missing(
        intent=ask.intent,
        headline=line("I need to know how much the vessel holds.")
        if len(needs) > 1 or needs[0] is NEED_VESSEL
        else line("I need {}.", needs[0].what),
        needs=needs,
        question=ask,
        see=("jar_ounces",),
    )


def room_alone(ask: VesselQuestion, room: Room) -> Worked:
    """The room was asked for, not the weight."""
    same = room.fill == room.whole
    headline = line("Room for {0:ml} ({1:us_fl_oz}).", room.fill, room.fill)
    body = [] if same else [line("The whole vessel has room for {0:ml}.", room.whole)]
    if ask.unit not in ("ml", "us_fl_oz", "fl_oz"):
        body.append(line("In the unit you asked for: {0:unit}.", Volume(room.fill.base, ask.unit)))
    return Worked(
        intent=ask.intent,
        headline=headline,
        read_as=line("Read as: {}.", room.read_as),
        given=room.given,
        steps=room.steps,
        results=_room_results(room, ask.unit),
        body=tuple(body),
        assumed=room.assumed,
        see=("jar_ounces",),
        question=ask,
    )


def no_density(ask: VesselQuestion, room: Room, book: Book) -> Missing:
    """The room is known, the weight is not: wax by volume weighs what its density says."""
    told = any(x is not None for x in (ask.level, ask.headspace, ask.free)) or ask.room is None
    return Missing(
        intent=ask.intent,
        headline=line("It takes {0:ml}. For the weight of the wax I need the wax's density.", room.fill),
        read_as=line("Read as: {}.", room.read_as),
        given=room.given,
        steps=room.steps,
        results=_room_results(room, ask.unit),
        body=(*_load_kept(ask), *offered_names(ask.material, book)),
        assumed=room.assumed,
        needs=(need_density(Stuff.WAX, ask.material),),
        guide=vessel_guide(room.fill, ask.material, ask.state, to_the_brim=not told),
        question=ask,
        see=("density",),
    )


def _load_kept(ask: VesselQuestion) -> tuple[Line, ...]:
    """A load that was given is not lost over the density."""
    if ask.load is None:
        return ()
    return (line("Then I also work out the fragrance: {} is noted.", ask.load.percent),)


def _room_results(room: Room, unit: str) -> tuple[Result, ...]:
    wanted = unit if unit not in ("", "ml") else ""
    return (Result("room", room.whole, wanted), Result("fill_volume", room.fill, wanted))


def filling_by_room(ask: VesselQuestion, room: Room, known: Known) -> Filling:
    """What fills that room, through the density."""
    each = known.density.mass_of(room.fill)
    as_dense = (AS_DENSE,) if ask.load is not None else ()
    what = "wax" if ask.load is None else "wax and fragrance"
    filled = "room" if room.fill == room.whole else "filled"
    body = []
    if known.spread:
        body.append(
            line(
                "The density is known to ± {0} g/ml, which leaves ± {1} in each (one standard uncertainty).",
                known.spread.normalize(),
                Mass(known.spread * room.fill.base),
            )
        )
    step = Step(
        f"{what} = {filled} × density",
        line("{0:work} × {1}", room.fill, known.density),
        line("{0} g", rounded(each.base, 2)),
    )
    return Filling(
        each=each,
        read_as=line("{0}, wax of {1:typed}", room.read_as, known.density),
        given=(*room.given, Given("density", known.density, known.origin, known.source)),
        steps=(*room.steps, step),
        results=_room_results(room, ""),
        body=tuple(body),
        assumed=(*room.assumed, *known.notes, state_words(known, ask.state), *as_dense),
        cautions=density_cautions(known, None),
    )


def known_fill(ask: VesselQuestion, takes: Mass, book: Book) -> Answer:
    """A vessel whose full weight of wax is known, filled to a part of it."""
    if ask.level is not None and ask.level.base > 100:
        raise OutOfRange(str(ask.level.base), "A vessel can't be more than 100 % full.")
    each, steps = takes, list[Step]()
    read_as = line("it takes {0:typed} of wax when full", takes)
    given = [Given("takes", takes)]
    if ask.level is not None:
        full, each = each, each * ask.level.fraction
        numbers = line("{0:work} × {1:bare} ÷ 100", full, ask.level)
        steps.append(Step("filled = full × fill level ÷ 100", numbers, line("{0:work}", each)))
        read_as = line("{0}, {1:typed} full", read_as, ask.level)
        given.append(Given("level", ask.level))
    if ask.load is not None:
        fills = Fills((Fill(ask.count or 1, weight=each),))
        return BatchQuestion(fills=fills, fill_is=FillIs.WAX, load=ask.load, basis=ask.basis, unit=ask.unit).answer(
            book
        )
    assumed = (line("I took the vessel to be as wide at every height: a tapered one takes a little less low down."),)
    filling = Filling(each, read_as, tuple(given), tuple(steps), assumed=assumed if ask.level is not None else ())
    return worked(ask, filling, book)


def filling_by_record(record: VesselRecord, fill: Mass) -> Filling:
    """A recorded vessel whose fill is known by weight."""
    source = line("“{0}”, {1}", record.name, record.how) if record.how else line("“{0}”", record.name)
    return Filling(
        each=fill,
        read_as=line("the vessel “{0}”, {1:typed} in each", record.name, fill),
        given=(Given("fill", fill, Origin.RECORDED, source),),
        steps=(),
    )


def worked(ask: VesselQuestion, filling: Filling, book: Book) -> Answer:
    """The weight for all the vessels, divided into wax and fragrance where a load was given."""
    count = ask.count or 1
    total = filling.each * count
    steps = list(filling.steps)
    if count > 1:
        steps.append(Step(f"for all {count:,}", line(f"{count:,} × {{0:work}}", filling.each), line("{0:work}", total)))
    what = "wax" if ask.load is None else "total"
    results = [*filling.results, Result(what, total, ask.unit)]
    if count > 1:
        results.append(Result(f"{what}_each", filling.each, ask.unit))
    headline = line("{} of wax.", total)
    if count > 1:
        headline = line(f"{{0}} of wax for {count:,} vessels, {{1}} in each.", total, filling.each)
    read_as = filling.read_as if count == 1 else line(f"{count:,} × {{}}", filling.read_as)
    if ask.load is not None:
        basis = ask.load.basis or ask.basis
        read_as = line("{0}, {1:typed}" + (f" {basis.value}" if basis else " fragrance"), read_as, ask.load.percent)
    answer = Worked(
        intent=ask.intent,
        headline=headline,
        read_as=line("Read as: {}.", read_as),
        given=filling.given,
        steps=tuple(steps),
        results=tuple(results),
        body=(*filling.body, *(in_unit("That", total, ask.unit) if ask.load is None else ())),
        assumed=filling.assumed,
        cautions=filling.cautions,
        see=("density",),
        question=ask,
    )
    return answer if ask.load is None else _with_load(ask, answer, total, count, book)


def _with_load(ask: VesselQuestion, answer: Worked, total: Mass, count: int, book: Book) -> Answer:
    """The load question carried on from the total weight."""
    split = LoadQuestion(
        total=total.in_unit("g"), load=ask.load, basis=ask.basis, material=ask.material, unit=ask.unit
    ).answer(book)
    if not isinstance(split, Worked):
        return split
    found = {result.what for result in answer.results}
    mix = results_by_name(split)
    headline = split.headline
    if count > 1:
        headline = line(f"{{0}} of wax and {{1}} of fragrance oil, enough for {count:,}.", mix["wax"], mix["fragrance"])
    each = (line("In each of the {}: {}.", Decimal(count), Mass(total.base / count)),) if count > 1 else ()
    return replace(
        answer,
        headline=headline,
        given=(*answer.given, *(given for given in split.given if given.what != "total")),
        steps=(*answer.steps, *split.steps),
        results=(*answer.results, *(result for result in split.results if result.what not in found)),
        body=(*answer.body, *each, *split.body),
        other=split.other,
        assumed=(*split.assumed, *answer.assumed),
        check=split.check,
        cautions=(*answer.cautions, *split.cautions),
    )
