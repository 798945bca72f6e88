"""The room in a vessel, from whatever is known of it: a water weighing, a printed volume, a record or its measures."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Need, Origin, Step, line
from core.book import Book, VesselRecord
from core.errors import Contradiction, NotFound, OutOfRange
from core.questions import vessel_shape
from core.questions.checks import above_zero
from core.questions.steps import to_grams
from core.questions.vessel_shape import Room
from core.reference.measures import z_factor
from core.units import Number, Temperature, Volume
from core.writing import rounded

if TYPE_CHECKING:
    from core.questions.vessel import VesselQuestion

# Printed sizes and weighings are rounded; a difference under 5 % is no contradiction (common practice, no source).
_ROUNDING = Decimal("1.05")
_ROOM_TEMPERATURE = Temperature(Decimal(20))

NEED_EMPTY = Need(
    "weight_of_container",
    line("the weight of the empty vessel"),
    line("Weigh it empty and dry; or put it on the scale empty, press tare, and fill it with water to the line."),
)
NEED_VESSEL = Need(
    "volume_of_vessel",
    line("how much the vessel holds"),
    line(
        "Put it empty on the scale, press tare, fill it with water up to where the wax shall stand, and tell me the "
        "grams of water. Or give its inner measures, or the volume printed on it."
    ),
)
NEED_HEIGHT = Need(
    "height_of_vessel",
    line("the height of the vessel inside"),
    line("A free height only says how much room is lost when the height (or the width) is known. Or say “85 % full”."),
)


def recorded_vessel(name: str, book: Book) -> VesselRecord:
    """The recorded vessel. Raises NotFound, with near names and the way out."""
    record = book.vessel(name)
    if record is None:
        raise NotFound(
            "vessel",
            name,
            tuple(book.names("vessel", name, 3)),
            "Tell me what it holds instead: the weight of water up to the line, a volume, or its measures.",
        )
    return record


def room_of(ask: VesselQuestion, book: Book) -> Room | tuple[Need, ...]:
    """The room of the vessel asked about, or what is needed to know it."""
    above_zero(
        water=ask.water,
        weight_of_the_empty_vessel=ask.empty,
        weight_of_the_full_vessel=ask.full,
        room=ask.room,
        weight=ask.ounces,
        fill_level=ask.level,
    )
    if ask.level is not None and ask.level.base > 100:
        raise OutOfRange(str(ask.level.base), "A vessel can't be more than 100 % full.")
    if sum(each is not None for each in (ask.level, ask.headspace, ask.free)) > 1:
        raise Contradiction("headspace", "Give the fill level or what stays free above the wax, not both.")
    found = _whole(ask, book)
    if not isinstance(found, Room):
        return found
    return _filled(ask, found)


def _whole(ask: VesselQuestion, book: Book) -> Room | tuple[Need, ...]:
    """The first of the ways that is open, the most exact one first."""
    if ask.water is not None or ask.full is not None:
        return _from_water(ask)
    if ask.room is not None:
        return _from_volume(ask.room, told_how_full=any(x is not None for x in (ask.level, ask.headspace, ask.free)))
    shape = vessel_shape.shape_of(ask)
    if shape is not None:
        return vessel_shape.measured(ask, shape)
    if ask.vessel is not None:
        record = recorded_vessel(ask.vessel, book)
        if record.room is None:
            return (NEED_VESSEL,)
        given = (Given("room", record.room, Origin.RECORDED, line("{}", record.how or record.name)),)
        return Room(record.room, record.room, line("the vessel “{}”", record.name), given, ())
    return (NEED_VESSEL,)


def _from_volume(room: Volume, *, told_how_full: bool) -> Room:
    steps: tuple[Step, ...] = ()
    assumed: list[Line] = []
    if not told_how_full:
        assumed.append(
            line("A printed size often goes to the brim. If yours does, say how full it shall be, such as “85 % full”.")
        )
    if room.unit not in ("ml", ""):
        steps = (Step("room in millilitres", line("{0:typed}", room), line("{0:work}", room)),)
    if room.assumed_country:
        assumed.append(line("You didn't say whose measure {0:typed} is; I took the US one.", room))
    return Room(room, room, line("room for {0:typed}", room), (Given("room", room),), steps, tuple(assumed))


def _from_water(ask: VesselQuestion) -> Room | tuple[Need, ...]:
    """Room from the weight of water, by the Z factor for its temperature."""
    given: list[Given] = []
    steps: list[Step] = []
    if ask.water is not None:
        water, read_as = ask.water, line("{0:typed} of water up to the line", ask.water)
        given.append(Given("water", water))
        steps += to_grams("water", water)
    elif ask.full is None or ask.empty is None:
        return (NEED_EMPTY,)
    else:
        if ask.full.base <= ask.empty.base:
            raise Contradiction(
                "full", "The vessel full of water must weigh more than the empty one. Are the two weights swapped?"
            )
        water = ask.full - ask.empty
        read_as = line("{0:typed} full of water, {1:typed} empty", ask.full, ask.empty)
        given += [Given("full", ask.full), Given("empty", ask.empty)]
        steps.append(
            Step("water = full − empty", line("{0:work} − {1:work}", ask.full, ask.empty), line("{0:work}", water))
        )
    at = ask.at if ask.at is not None else _ROOM_TEMPERATURE
    z = z_factor(at.base)
    whole = Volume(water.base * z.factor)
    steps.append(
        Step(
            "room = grams of water × ml per gram at that temperature",
            line("{0} g × {1}", rounded(water.base, 2), z.factor.normalize()),
            line("{0:work}", whole),
        )
    )
    given.append(
        Given("water_temperature", at)
        if ask.at is not None
        else Given("water_temperature", at, Origin.ASSUMED, line("from 15 to 30 °C the room is the same within 0.3 %"))
    )
    given.append(Given("ml_per_gram_of_water", Number(z.factor), Origin.PUBLISHED, line("{}", z.source)))
    if ask.room is not None and whole.base > ask.room.base * _ROUNDING:
        raise Contradiction(
            "room", "That water takes more room than the vessel is said to have. Which figure is right? Weigh it again."
        )
    return Room(whole, whole, read_as, tuple(given), tuple(steps))


def _filled(ask: VesselQuestion, room: Room) -> Room | tuple[Need, ...]:
    """The room up to where the wax shall stand."""
    if ask.level is not None:
        fill = Volume(room.whole.base * ask.level.fraction, room.whole.unit)
        step = Step(
            "filled = room × fill level ÷ 100",
            line("{0:work} × {1:bare} ÷ 100", room.whole, ask.level),
            line("{0:work}", fill),
        )
        return _with(room, fill, (step,), Given("level", ask.level), line("{0:typed} full", ask.level))
    if ask.free is not None:
        fill = room.whole - ask.free
        if fill.base <= 0:
            raise Contradiction("free", "That leaves no room for wax. Check the two volumes.")
        step = Step(
            "filled = room − what stays free", line("{0:work} − {1:work}", room.whole, ask.free), line("{0:work}", fill)
        )
        return _with(room, fill, (step,), Given("free", ask.free), line("{0:typed} left free", ask.free))
    if ask.headspace is None or room.fill != room.whole:
        return room
    above_zero(free_height=ask.headspace)
    lost = vessel_shape.lost_above(ask, room.whole)
    if lost is None:
        return (NEED_HEIGHT,)
    fill = room.whole - lost.volume
    if fill.base <= 0:
        raise Contradiction("headspace", "That free height leaves no room for wax. Check the two heights.")
    step = Step(
        "filled = room − what stays free", line("{0:work} − {1:work}", room.whole, lost.volume), line("{0:work}", fill)
    )
    given = Given("headspace", ask.headspace)
    filled = _with(room, fill, (lost.step, step), given, line("{0:typed} left free", ask.headspace))
    return Room(filled.whole, filled.fill, filled.read_as, filled.given, filled.steps, (*filled.assumed, *lost.assumed))


def _with(room: Room, fill: Volume, steps: tuple[Step, ...], given: Given, words: Line) -> Room:
    return Room(
        room.whole,
        fill,
        line("{}, {}", room.read_as, words),
        (*room.given, given),
        (*room.steps, *steps),
        room.assumed,
    )
