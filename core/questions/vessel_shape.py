"""The room of a vessel from its measures: straight round, tapered round or a box. Lengths in mm, room in ml."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import TYPE_CHECKING

from core.answer import Given, Line, Need, Step, line
from core.errors import Contradiction
from core.questions.checks import above_zero
from core.units import Length, Volume

if TYPE_CHECKING:
    from core.questions.vessel import VesselQuestion

PI = Decimal("3.141592653589793238462643383279502884197")
_CUBIC_MM = Decimal(1000)  # in a millilitre


class Shape(StrEnum):
    """The inside of a vessel, as far as its room goes."""

    CYLINDER = "cylinder"
    TAPERED = "tapered round"
    BOX = "box"


SIDES = {
    Shape.CYLINDER: ("diameter", "height"),
    Shape.TAPERED: ("top_diameter", "bottom_diameter", "height"),
    Shape.BOX: ("length", "width", "height"),
}
READ_AS = {
    Shape.CYLINDER: "straight and round, {0:typed} wide and {1:typed} high",
    Shape.TAPERED: "round, {0:typed} wide at the top, {1:typed} at the bottom, {2:typed} high",
    Shape.BOX: "a box, {0:typed} × {1:typed} and {2:typed} high",
}
WORDS = {
    "diameter": "the inner width (diameter)",
    "top_diameter": "the inner width at the top",
    "bottom_diameter": "the inner width at the bottom",
    "height": "the inner height",
    "length": "the inner length",
    "width": "the inner width",
}


@dataclass(frozen=True, slots=True)
class Inside:
    """The inner measures in mm; `top` and `bottom` are equal in a cylinder, sides of the floor in a box."""

    shape: Shape
    top: Decimal
    bottom: Decimal
    height: Decimal

    def room(self, height: Decimal) -> Volume:
        """The room from the bottom up to that height."""
        if self.shape is Shape.BOX:
            return Volume(self.top * self.bottom * height / _CUBIC_MM)
        top = self.width_at(height)
        squares = top * top + top * self.bottom + self.bottom * self.bottom
        return Volume(PI * height * squares / 12 / _CUBIC_MM)

    def width_at(self, height: Decimal) -> Decimal:
        """How wide a round one is at that height."""
        return self.bottom + (self.top - self.bottom) * height / self.height


@dataclass(frozen=True, slots=True)
class Room:
    """`whole` to the line or brim, `fill` up to where the wax shall stand, and how both were found."""

    whole: Volume
    fill: Volume
    read_as: Line
    given: tuple[Given, ...]
    steps: tuple[Step, ...]
    assumed: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True)
class Lost:
    """The room that a free height above the wax takes, and how it was found."""

    volume: Volume
    step: Step
    assumed: tuple[Line, ...]


def shape_of(ask: VesselQuestion) -> Shape | None:
    """The shape said, else the one whose measures were given; None where no measure was."""
    if ask.shape is not None:
        return ask.shape
    if ask.top_diameter is not None or ask.bottom_diameter is not None:
        return Shape.TAPERED
    if ask.length is not None or ask.width is not None:
        return Shape.BOX
    return Shape.CYLINDER if ask.diameter is not None or ask.height is not None else None


def measured(ask: VesselQuestion, shape: Shape) -> Room | tuple[Need, ...]:
    """The room from the measures, or the measures that are lacking. Raises for measures no vessel has."""
    sides: dict[str, Length | None] = {name: getattr(ask, name) for name in SIDES[shape]}
    above_zero(**sides, free_height=ask.headspace)
    lacking = tuple(_need(name) for name, value in sides.items() if value is None)
    if lacking:
        return lacking
    outer = {name: value for name, value in sides.items() if value is not None}
    inner, steps = _inner(ask, outer)
    inside = _inside(shape, inner)
    whole = inside.room(inside.height)
    given = tuple(Given(name, value) for name, value in outer.items())
    steps.append(_step("room", inside, inside.height, whole))
    fill = whole
    if ask.headspace is not None:
        if ask.headspace.base >= inside.height:
            raise Contradiction(
                "headspace", "The free height is as much as the whole vessel's height: no room is left for wax."
            )
        height = inside.height - ask.headspace.base
        fill = inside.room(height)
        steps.append(
            Step(
                "wax stands = height − free height",
                line("{0:cm} − {1:cm}", Length(inside.height), ask.headspace),
                line("{0:cm}", Length(height)),
            )
        )
        steps.append(_step("filled", inside, height, fill))
        given = (*given, Given("headspace", ask.headspace))
    read_as = line(READ_AS[shape] + (" outside" if ask.wall is not None else " inside"), *outer.values())
    if ask.wall is not None:
        read_as, given = line("{0}, walls {1:typed}", read_as, ask.wall), (*given, Given("wall", ask.wall))
    if ask.headspace is not None:
        read_as = line("{0}, {1:typed} left free", read_as, ask.headspace)
    assumed = () if ask.wall is not None else (line("I took the measures as those of the inside."),)
    return Room(whole, fill, read_as, given, tuple(steps), assumed)


def lost_above(ask: VesselQuestion, whole: Volume) -> Lost | None:
    """What the free height takes of a room known otherwise; None where neither width nor height tells."""
    if ask.headspace is None:
        return None
    free = ask.headspace.base
    wall = ask.wall.base * 2 if ask.wall is not None else Decimal(0)
    width = ask.top_diameter or ask.diameter
    if width is not None and width.base > wall:
        inside = Inside(Shape.CYLINDER, width.base - wall, width.base - wall, free)
        lost = inside.room(free)
        return Lost(lost, _step("stays free", inside, free, lost), ())
    if ask.height is None or not ask.height.base > free:
        return None
    lost = Volume(whole.base * free / ask.height.base)
    step = Step(
        "stays free = room × free height ÷ height",
        line("{0:work} × {1:cm} ÷ {2:cm}", whole, ask.headspace, ask.height),
        line("{0:work}", lost),
    )
    return Lost(lost, step, (line("I took the sides as straight: as wide at the top as at the bottom."),))


def _need(name: str) -> Need:
    return Need(
        f"{name}_of_vessel",
        line(WORDS[name]),
        line("Measure it inside with a ruler. A water weighing is quicker and more exact, if you have a scale."),
    )


def _inner(ask: VesselQuestion, outer: dict[str, Length]) -> tuple[dict[str, Length], list[Step]]:
    """The inner measures, and the steps to them: two walls off each width, one bottom off the height."""
    if ask.wall is None:
        return outer, []
    above_zero(wall=ask.wall)
    inner: dict[str, Length] = {}
    steps: list[Step] = []
    for name, value in outer.items():
        times = 1 if name == "height" else 2
        left = value - ask.wall * times
        if left.base <= 0:
            raise Contradiction("wall", "Walls that thick leave no room inside. Check the wall and the outer measures.")
        inner[name] = left
        what = name.replace("_", " ")
        minus = "− {1:cm}" if times == 1 else "− 2 × {1:cm}"
        steps.append(Step(f"inner {what}", line(f"{{0:cm}} {minus}", value, ask.wall), line("{0:cm}", left)))
    return inner, steps


def _inside(shape: Shape, inner: dict[str, Length]) -> Inside:
    height = inner["height"].base
    if shape is Shape.CYLINDER:
        return Inside(shape, inner["diameter"].base, inner["diameter"].base, height)
    if shape is Shape.BOX:
        return Inside(shape, inner["length"].base, inner["width"].base, height)
    return Inside(shape, inner["top_diameter"].base, inner["bottom_diameter"].base, height)


def _step(what: str, inside: Inside, height: Decimal, room: Volume) -> Step:
    top = Length(inside.top if inside.shape is Shape.BOX else inside.width_at(height))
    bottom, high = Length(inside.bottom), Length(height)
    result = line("{0:work}", room)
    if inside.shape is Shape.BOX:
        return Step(
            f"{what} = length × width × height (1 cm³ is 1 ml)",
            line("{0:cm} × {1:cm} × {2:cm}", top, bottom, high),
            result,
        )
    if inside.shape is Shape.CYLINDER:
        return Step(
            f"{what} = 3.1416 ÷ 4 × width × width × height (1 cm³ is 1 ml)",
            line("0.7854 × {0:cm} × {0:cm} × {1:cm}", top, high),
            result,
        )
    return Step(
        f"{what} = 3.1416 ÷ 12 × height × (top² + top × bottom + bottom²) (1 cm³ is 1 ml)",
        line("0.2618 × {2:cm} × (({0:cm})² + {0:cm} × {1:cm} + ({1:cm})²)", top, bottom, high),
        result,
    )
