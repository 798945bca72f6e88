"""Units told elsewhere than behind their number: a heading over numbers, a tool's marks, a recipe's country."""

from __future__ import annotations

from core.reading.marks import Mark, Measured
from core.reading.measuring import give_unit
from core.reading.nearby import SCALE_LETTERS
from core.reading.words import NOTHING
from core.reading.wordset import wordset
from core.units import UNSAID, Mass, Temperature, Volume, kind_of

_ARROWS = wordset("- > → to into = in as")
_AFTER_HEADING = wordset(": , = - ? ! . ;")
_TOOLS = wordset("jug jugs scale scales cylinder syringe beaker pipette")
_CONVERTED = (Mass, Volume, Temperature)


def heading(marks: list[Mark]) -> None:
    """ "lb -> g: 3.5", "grams to ounces 340", "F -> C: 176": the first unit is that of the numbers behind."""
    for i, mark in enumerate(marks):
        source = _unit(mark)
        if kind_of(source) not in _CONVERTED:
            continue
        j = i + 1
        while j < len(marks) and j - i <= 6 and marks[j].text in _ARROWS:
            j += 1
        if j == i + 1 or j >= len(marks) or _asked_before(marks, i):
            continue
        target = _unit(marks[j])
        if kind_of(target) not in _CONVERTED or target == source:
            continue
        if (kind_of(target) is Temperature) != (kind_of(source) is Temperature):
            continue
        numbers = _numbers_behind(marks, j + 1)
        for measured in numbers:
            give_unit(measured, source)
        if numbers:
            mark.kind, mark.unit, mark.tags = "word", "", NOTHING
            marks[j].kind, marks[j].unit = "unit", target
            return


def _unit(mark: Mark) -> str:
    if mark.kind == "word" and mark.text in SCALE_LETTERS:
        return SCALE_LETTERS[mark.text]
    return mark.unit if mark.kind == "unit" else ""


def _asked_before(marks: list[Mark], i: int) -> bool:
    """ "How many g in oz 5": which way round is not said."""
    near = marks[max(0, i - 2) : i]
    return any("asks" in mark.tags or mark.kind == "amount" for mark in near)


def _numbers_behind(marks: list[Mark], i: int) -> list[Measured]:
    """The bare numbers behind a heading, in a row; none where one of them has a unit."""
    numbers: list[Measured] = []
    while i < len(marks) and (marks[i].text in _AFTER_HEADING or (numbers and marks[i].text in ("and", "or"))):
        i += 1
        if i < len(marks) and (measured := marks[i].measured) is not None:
            if measured.kind != "number" or measured.amount.unit:
                return []
            numbers.append(measured)
            i += 1
    if not numbers and i < len(marks) and (measured := marks[i].measured) is not None:
        numbers = [measured] if measured.kind == "number" and not measured.amount.unit else []
        i += 1
    return numbers if i >= len(marks) or marks[i].kind != "unit" else []


def tools(marks: list[Mark], found: list[Measured]) -> None:
    """ "I only have a ml jug", "a gram scale": what the tool is marked in, and no amount of one."""
    for i, mark in enumerate(marks[:-1]):
        measured = mark.measured
        if measured is None or marks[i + 1].text not in _TOOLS or measured.amount.value != 1:
            continue
        if measured.kind in ("mass", "volume") and not measured.amount.text[:1].isdigit():
            marks[i] = Mark("unit", mark.text, unit=measured.amount.unit, gap=mark.gap)
            found.remove(measured)


_COUNTRIES = {
    **dict.fromkeys(("american", "usa"), "us"),
    **dict.fromkeys(("british", "english", "imperial", "uk"), "imp"),
}
_TELLS = wordset(
    "recipe recipes book books video videos blog site website instructions card sheet magazine jug cup cups measure "
    "measures pint glass spoon spoons teaspoon tablespoon units one says gives wants calls"
)


def country_of_the_recipe(marks: list[Mark], found: list[Measured]) -> None:
    """ "UK recipe says 10 fl oz", "british recipe: 2 pints": whose measure it is, where only the recipe's is said."""
    if not any(m.amount.unit in UNSAID for m in found):
        return
    country, said_last = "", _said_alone(marks)
    for i, mark in enumerate(marks):
        if mark.kind == "stop" and mark.text == "\n":
            country = ""
        if mark.text in _COUNTRIES or (mark.text == "us" and _tells(marks, i)):
            country = _COUNTRIES.get(mark.text, "us") if _tells(marks, i) else country
        measured = mark.measured
        if measured is not None and (country or said_last) and measured.amount.unit in UNSAID:
            give_unit(measured, f"{country or said_last}_{measured.amount.unit}")


def _said_alone(marks: list[Mark]) -> str:
    """ "Half a pint in ml, UK": the only country, at the text's end or beginning."""
    named = [mark for mark in marks if mark.text in _COUNTRIES]
    words = [mark for mark in marks if mark.kind in ("word", "unit", "amount")]
    if len(named) != 1 or not words or named[0] not in (words[0], words[-1]):
        return ""
    return _COUNTRIES[named[0].text]


def _tells(marks: list[Mark], i: int) -> bool:
    return any(mark.text in _TELLS for mark in marks[i + 1 : i + 3])


def marks_of_a_measure(marks: list[Mark], found: list[Measured]) -> None:
    """ "A 200 ml beaker to the 150 mark": the mark is in the unit that the measure has."""
    units = {m.amount.unit for m in found if m.kind == "volume"}
    if len(units) != 1:
        return
    for i, mark in enumerate(marks[:-1]):
        measured = mark.measured
        if measured is None or measured.kind != "number" or measured.amount.unit or i == 0:
            continue
        filled = marks[i - 1].text == "to" and marks[i + 1].text in ("with", "and", ",", "of")
        if filled or (marks[i + 1].text in ("mark", "line") and marks[i - 1].text in ("the", "to")):
            give_unit(measured, next(iter(units)))
