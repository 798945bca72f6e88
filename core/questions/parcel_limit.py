"""A parcel and what the carrier takes at most: how many candles fit by weight; and one candle found from a whole."""

from __future__ import annotations

from decimal import ROUND_FLOOR, Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Result, Step, Worked, line
from core.errors import Contradiction, OutOfRange
from core.units import Mass, Number

if TYPE_CHECKING:
    from core.questions.parcel import ParcelQuestion

MOST = 100_000


def fitting(ask: ParcelQuestion, candle: Mass, steps: list[Step], packed: Mass | None) -> Worked:
    """How many candles stay within the limit, with the packing counted."""
    assert ask.limit is not None
    room = ask.limit - packed if packed is not None else ask.limit
    if room.base <= 0:
        raise Contradiction("limit", "The box alone reaches the limit: nothing can go in. Which weight is which?")
    count = (room.base / candle.base).to_integral_value(ROUND_FLOOR)
    if count > MOST:
        raise OutOfRange(str(count)[:40], "That would be more candles than anybody posts. Check the units.")
    parcel = candle * count + packed if packed is not None else candle * count
    if packed is not None:
        steps.append(
            Step("room = limit − packing", line("{0:typed} − {1:typed}", ask.limit, packed), line("{0}", room))
        )
    steps.append(
        Step(
            "candles = room ÷ one candle, rounded down",
            line("{0:g} ÷ {1:g}, rounded down", room, candle),
            line("{0}", count),
        )
    )
    head = "{0} fit within {1:typed}; the parcel then weighs {2:g}."
    if count < 2:
        head = "Only one fits within {1:typed}; the parcel then weighs {2:g}." if count else "Not even one fits: {3}."
    over = line("with its packing it weighs {0:g}", candle + packed if packed is not None else candle)
    return Worked(
        intent=ask.intent,
        headline=line(head, count, ask.limit, parcel, over),
        given=(Given("limit", ask.limit), Given("candle", candle)),
        steps=tuple(steps),
        results=(
            Result("count", Number(count)),
            Result("parcel", parcel, ask.unit or ask.limit.unit),
            Result("room_left", ask.limit - parcel, ask.limit.unit),
        ),
        body=(line("By weight alone: whether they all fit the box, only trying tells."),),
        assumed=(line("I counted no packing: take its weight off the limit, or tell me it."),)
        if packed is None
        else (),
        question=ask,
    )


def within(limit: Mass | None, parcel: Mass) -> tuple[Line, ...]:
    """Whether the parcel stays within the limit."""
    if limit is None:
        return ()
    left = limit.base - parcel.base
    apart = Mass(abs(left), limit.unit)
    if not left:
        return (line("That is exactly the limit of {0:typed}.", limit),)
    return (line("{0} under {1:typed}." if left > 0 else "{0} over {1:typed}.", apart, limit),)


def one_of_the_whole(ask: ParcelQuestion, whole: Mass, packed: Mass | None) -> Worked:
    """What one candle weighs, from the weight of the whole parcel."""
    assert ask.count is not None
    inside = whole - packed if packed is not None else whole
    if inside.base <= 0:
        raise Contradiction("whole", "The packing weighs as much as the whole parcel. Which weight is which?")
    one = Mass(inside.base / ask.count, inside.unit)
    steps: tuple[Step, ...] = ()
    if packed is not None:
        steps = (
            Step("candles = whole − packing", line("{0:typed} − {1:typed}", whole, packed), line("{0:g}", inside)),
        )
    return Worked(
        intent=ask.intent,
        headline=line("One of the {0} weighs {1:g}.", Decimal(ask.count), one),
        given=(Given("whole", whole), *((Given("packing", packed),) if packed is not None else ())),
        steps=(
            *steps,
            Step("one = candles ÷ how many", line("{0:g} ÷ {1}", inside, Decimal(ask.count)), line("{0:g}", one)),
        ),
        results=(Result("candle", one), Result("inside", inside, inside.unit)),
        body=(line("That is one with its vessel and lid, if they all weigh the same."),),
        assumed=() if packed is not None else (line("I took it that the box is not in that weight."),),
        question=ask,
    )


def packing_of_the_whole(ask: ParcelQuestion, whole: Mass, one: Mass, count: int) -> Worked:
    """What the packing weighs: the whole parcel less all that is in it."""
    inside = one * count
    rest = whole - inside
    if rest.base < 0:
        raise Contradiction("whole", "What is in it weighs more than the whole parcel. Which weight is which?")
    return Worked(
        intent=ask.intent,
        headline=line("The packing weighs {0:g}.", rest),
        given=(Given("whole", whole), Given("candle", one)),
        steps=(
            Step("candles = how many × one", line("{0} × {1:typed}", Decimal(count), one), line("{0:g}", inside)),
            Step("packing = whole − candles", line("{0:typed} − {1:g}", whole, inside), line("{0:g}", rest)),
        ),
        results=(Result("packing", rest), Result("inside", inside, inside.unit)),
        body=(line("I counted {0:typed} as one whole candle, with its vessel and lid.", one),),
        question=ask,
    )
