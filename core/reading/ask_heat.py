"""Texts about temperatures: a reading on the other scale, two beside each other, one some degrees from another."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer
from core.compounds import UnitName
from core.question import Question
from core.questions.convert import ConvertQuestion
from core.reading import asking
from core.reading.chain import chained
from core.reading.givens import Givens, unit_name
from core.reading.marks import Mark, Measured
from core.reading.wordset import wordset
from core.units import Temperature, TemperatureDifference, kind_of

Outcome = Question | Answer | None

MOST_READINGS = 4
_BESIDE = ("mass", "volume", "percent", "rate", "density", "drop", "ratio", "part", "money")
_SCALE_OF_THE_OTHER = wordset("american european metric other us usa uk british americans europe")
_FALLS = wordset(
    "drop drops dropped fall falls fell fallen rise rises rose risen cooled warmed climbed lost gained swing change"
    " changed difference apart went go goes lose loses"
)
_THE_CHANGE = wordset("drop fall rise swing change difference")
_UP = wordset("above over hotter warmer higher more plus +")
_DOWN = wordset("below under cooler colder lower less minus -")
_OWN = wordset("my mine now shows reads thermometer pot got")
# The numbers of the two formulas themselves: "is it minus 32 and then times 5/9?"
_FORMULA = frozenset(
    {Decimal(32), Decimal(-32), Decimal("1.8"), Decimal(5), Decimal(9), Decimal(5) / 9, Decimal(9) / 5}
)


def heat(g: Givens) -> Outcome:
    """A question of temperatures alone; None where degrees only stand beside something else asked."""
    readings, changes = _sorted_out(g)
    degrees = g.scan.kind("degrees")
    wanted = [unit for unit in g.wanted() if kind_of(unit) is Temperature]
    given = {m.amount.unit.removeprefix("delta_") for m in (*readings, *changes)}
    to = next((unit for unit in wanted if unit not in given), next(iter(wanted), ""))
    if any(g.scan.kind(kind) for kind in _BESIDE) and not to:
        return None
    if len(degrees) == len(readings) == 1 and not changes and _is_change(g, degrees[0]):
        changes, degrees = [_on_the_scale_of(readings[0], degrees[0])], []
    if len(readings) + len(changes) + len(degrees) > MOST_READINGS:
        return None
    if degrees:
        return asking.which_degrees(degrees[0]) if not readings and not changes and len(degrees) == 1 else None
    to = to or _other_scale(g, [*readings, *changes])
    for m in g.scan.kind("number"):
        if m.amount.value in _FORMULA:
            g.used.add(m.at)
    if changes:
        return _changed(g, readings, changes, to)
    if len(readings) == 2 and (compared := _two(g, readings[0], readings[1], to)) is not None:
        return compared
    return _converted(g, readings, to)


def _sorted_out(g: Givens) -> tuple[list[Measured], list[Measured]]:
    """The readings, and the changes: "25 F above that", "20 F under 185 F" is a change whatever it was taken for."""
    readings: list[Measured] = []
    changes: list[Measured] = []
    marks = g.scan.marks
    for m in g.scan.found:
        if m.kind not in ("temperature", "difference"):
            continue
        before = marks[m.at - 1].text if m.at else ""
        ahead = marks[m.at + 1 : m.at + 4]
        than = _leads_to_reading(ahead)
        asked_whether = before in ("is", "are", "was") and (m.at < 2 or "what" not in marks[m.at - 2].tags)
        move = (than or m.kind == "difference") and not (than and asked_whether)
        (changes if move else readings).append(m)
    if len(changes) == 1 and not readings and changes[0].kind == "temperature":
        readings, changes = changes, readings
    return readings, changes


def _hears(g: Givens, words: frozenset[str]) -> bool:
    """Whether one of the words stands there; "drop" is a word here, whatever else it is."""
    return any(mark.text in words for mark in g.scan.marks)


def _leads_to_reading(ahead: list[Mark]) -> bool:
    """ "... under 185 F", "... less than 70 C": a direction, and right behind it a reading."""
    if not ahead or ahead[0].text not in _UP | _DOWN:
        return False
    rest = [mark for mark in ahead[1:] if mark.text not in ("than", "the")]
    return bool(rest) and rest[0].measured is not None and rest[0].measured.kind == "temperature"


def _is_change(g: Givens, degrees: Measured) -> bool:
    """ "15 degrees above", "10 degrees under 80 C"."""
    if _steps_before(g, degrees):
        return True
    return degrees.amount.unit == "delta_deg" or _leads_to_reading(g.scan.marks[degrees.at + 1 : degrees.at + 4])


_COOLING = wordset("cool cools cooled cooling drop drops dropped lower lowered fell falls lose loses down")
_WARMING = wordset("heat heated warm warmed warms raise raised rose rises climbed climbs gained up")


def _steps_before(g: Givens, m: Measured) -> int:
    """ "Cool down 15 degrees", "dropped by 10": up or down, by the words right before; 0 where none tells."""
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 3) : m.at]]
    if not before or before[-1] in ("to", "at", "from", "is", "was", "below", "above", "under", "over"):
        return 0
    while before and before[-1] in ("by", "another", "it", "about"):
        before.pop()
    if not before:
        return 0
    return -1 if before[-1] in _COOLING else 1 if before[-1] in _WARMING else 0


def _on_the_scale_of(reading: Measured, degrees: Measured) -> Measured:
    unit = "delta_degF" if reading.amount.unit == "degF" else "delta_degC"
    degrees.value, degrees.kind = TemperatureDifference.of(degrees.amount.value, unit), "difference"
    return degrees


def _other_scale(g: Givens, found: list[Measured]) -> str:
    """The other scale, where it is only spoken of: "my thermometer is american", "in the other one"."""
    scales = {m.amount.unit.removeprefix("delta_") for m in found}
    if len(scales) != 1 or not g.scan.says(_SCALE_OF_THE_OTHER):
        return ""
    return "degC" if scales == {"degF"} else "degF"


def _size(m: Measured) -> TemperatureDifference:
    if isinstance(m.value, TemperatureDifference):
        return m.value
    return TemperatureDifference.of(m.amount.value, "delta_degF" if m.amount.unit == "degF" else "delta_degC")


def _changed(g: Givens, readings: list[Measured], changes: list[Measured], to: str) -> Outcome:
    """A change by itself in other degrees, or a reading that lies so far from another one."""
    if len(changes) != 1 or len(readings) > 1:
        return None
    change = _size(changes[0])
    moved = _direction(g, changes[0])
    if readings and moved and not _asks_of_the_change(g):
        return ConvertQuestion(amount=_reading(readings[0]), change=change * moved, to=unit_name(to))
    if not to and not g.has("asks", "convert"):
        return None
    return ConvertQuestion(amount=change, to=UnitName(f"delta_{to}") if to in ("degC", "degF") else None)


def _direction(g: Givens, m: Measured) -> int:
    """Up or down, by the word behind the change; 0 where none tells."""
    near = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    first = near[0] if near else ""
    return 1 if first in _UP else -1 if first in _DOWN else _steps_before(g, m)


def _asks_of_the_change(g: Givens) -> bool:
    """ "How much is the fall in F", "how big a drop is that"."""
    return _hears(g, _THE_CHANGE) and g.has("asks", "what")


def _two(g: Givens, one: Measured, other: Measured, to: str) -> Outcome:
    """How far it went from one reading to another, or which of two on different scales is hotter."""
    if one.amount.high is not None or other.amount.high is not None:
        return None
    first, second = _reading(one), _reading(other)
    if _went(g, one, other):
        return ConvertQuestion(amount=first, against=second, to=unit_name(to))
    if one.amount.unit == other.amount.unit:
        compares = g.scan.says(("than", "vs", "versus")) or g.has("bigger", "compare")
        return ConvertQuestion(amount=first, against=second) if compares and not to else None
    if to and to not in (one.amount.unit, other.amount.unit):
        return None
    mine = [m for m in (one, other) if _is_own(g, m)]
    if mine == [other]:
        first, second = second, first
    return ConvertQuestion(amount=first, against=second, to=unit_name(to))


def _went(g: Givens, one: Measured, other: Measured) -> bool:
    """ "From 185 F to 140 F", "was at 80, now 62": and how far is asked."""
    marks = g.scan.marks
    if not _hears(g, _FALLS) and "deg" not in g.wanted():
        return False
    before = {mark.text for mark in marks[max(0, one.at - 3) : one.at]}
    between = {mark.text for mark in marks[one.at + 1 : other.at]}
    runs = bool(before & {"from", "between"}) and bool(between & {"to", "and"})
    return runs or bool(between & {"now", "later", "after"}) or bool(between & {"to"} and other.at - one.at <= 3)


def _is_own(g: Givens, m: Measured) -> bool:
    """Whether the asker's own thermometer showed it."""
    marks = g.scan.marks
    i, own = m.at - 1, False
    while i >= 0 and marks[i].kind not in ("amount", "stop") and marks[i].text != ",":
        own = own or marks[i].text in _OWN
        i -= 1
    return own


def _converted(g: Givens, readings: list[Measured], to: str) -> Outcome:
    """Each reading, and both ends of a range, on the scale that is wanted."""
    ends = [end for m in readings for end in _ends(m)]
    if not ends or len(ends) > MOST_READINGS:
        return None
    if (
        len({m.amount.unit for m in readings}) != 1
        or any(m.kind == "difference" for m in readings)
        or any(m.amount.unit == to for m in readings)
    ):
        return None
    if len(ends) == 2 and len(readings) == 1 and _hears(g, _FALLS):
        return ConvertQuestion(amount=ends[0], against=ends[1], to=unit_name(to))
    if len(ends) == 1 and _moves_by(g, readings[0]):
        change = _size(readings[0])
        return ConvertQuestion(amount=change, to=UnitName(f"delta_{to}") if to in ("degC", "degF") else None)
    if not to and not g.has("asks", "convert"):
        return None
    return chained(g.book, *(ConvertQuestion(amount=end, to=unit_name(to)) for end in ends))


def _reading(m: Measured) -> Temperature:
    """As a reading, also where "60 C hotter than" was taken for a change."""
    return Temperature.of(m.amount.value, m.amount.unit.removeprefix("delta_"))


def _ends(m: Measured) -> list[Temperature]:
    if m.amount.high is None:
        return [_reading(m)]
    return [_reading(m), Temperature.of(m.amount.high, m.amount.unit)]


_MOVING = wordset("down warmer cooler hotter colder difference drop rise off")
_GOING = wordset("went goes go gone rose fell")


def _moves_by(g: Givens, m: Measured) -> bool:
    """ "Cool 20 degrees down", "off by 4 F", "went up 8 C": a difference; "cool to 60 C" is a reading."""
    before = g.scan.marks[m.at - 1].text if m.at else ""
    if before in ("up", "down") and _hears(g, _GOING):
        return True
    return _hears(g, _MOVING) and before not in ("to", "at", "from", "is", "was", "below", "above")
