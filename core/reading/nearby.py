"""Units that stand beside their numbers, before them, or at the end of a list."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.reading.amounts import Amount
from core.reading.marks import Mark, Measured
from core.reading.measuring import give_density, give_unit, measured_from
from core.reading.quantities import quantity
from core.reading.words import NOTHING
from core.reading.wordset import wordset
from core.units import Volume, kind_of

SCALE_LETTERS = {"c": "degC", "f": "degF"}


def unit_of_the_last(marks: list[Mark]) -> None:
    """ "150, 200 and 250 ml", "8 and 10 %": the last one's unit is the others' too."""
    shared = -1
    for i in range(len(marks) - 3, -1, -1):
        here, comma, last = marks[i].measured, marks[i + 1].text, marks[i + 2].measured
        if here is None or last is None or here.kind != "number" or here.amount.unit:
            continue
        listed = comma == "," and (shared == i + 2 or last.amount.text.replace(".", "").isdecimal())
        listed = listed or (comma == "," and i > 1 and _alike(marks[i - 2], marks[i - 1], here, last))
        if comma not in ("and", "or") and not listed:
            continue
        labelled = i > 0 and (marks[i - 1].noun or marks[i - 1].text in (":", "=", "size", "wick", "no", "batch"))
        if shared == i + 2 and marks[i - 1].text == ":":
            labelled = False  # "3 jars: 402, 398, 403 g": a list behind its name
        sized = last.amount.unit in _SHARED and not last.amount.per and not last.amount.parts
        if sized and not labelled and last.amount.value / 20 < here.amount.value < last.amount.value * 20:
            give_unit(here, last.amount.unit)
            shared = i


def densities_together(marks: list[Mark]) -> None:
    """ "0.8 and 1.2 g/ml": both are densities, though the weight was already shared between them."""
    for one, word, two in zip(marks, marks[1:], marks[2:], strict=False):
        here, last = one.measured, two.measured
        if here is None or last is None or word.text != "and" or last.kind != "density" or here.kind == "density":
            continue
        bare = here.amount.text.replace(".", "").replace(",", "").isdecimal()
        if bare and last.amount.value / 3 < here.amount.value < last.amount.value * 3:
            give_density(here, last)


def taken_off(marks: list[Mark]) -> None:
    """ "2267 g minus 400", "27 g in 450": the second number is of the same unit."""
    last = marks[0].measured if marks else None
    for before, mark, after in zip(marks, marks[1:], (*marks[2:], Mark("stop", "")), strict=False):
        measured = mark.measured
        if measured is None:
            continue
        bare = measured.kind == "number" and not measured.amount.unit
        bare = bare and after.noun not in ("jar", "candle", "pot", "pack", "bottle", "box")  # "1 kg in 5 jars"
        poured = before.text in ("in", "into") and last is not None and measured.amount.value >= 3 * last.amount.value
        bare = bare and (before.text in ("minus", "less") or poured)
        if bare and last is not None and last.kind in ("mass", "volume") and last.amount.unit in _SHARED:
            give_unit(measured, last.amount.unit)
        last = measured if measured.kind != "number" else last


def _alike(first: Mark, comma: Mark, here: Measured, last: Measured) -> bool:
    """ "402, 398, 403 g": three in a row of about one size."""
    one = first.measured
    if one is None or comma.text != "," or one.kind != "number" or one.amount.unit or last.kind != "mass":
        return False
    sizes = [m.amount.value for m in (one, here, last)]
    return max(sizes) < 2 * min(sizes)


_OFF = wordset(
    "take takes taking took taken put turn turned switch switched pour poured cut cuts peel wipe wiped scrape scraped",
    "come comes came lift lifted pull pulled set day price percent % sell sold broke fall falls fell",
)
_OFF_REACH = 6


def off_of_something(marks: list[Mark]) -> None:
    """ "Do I take the pan off", "switch it off": no error is spoken of, as "by how much is it off" does."""
    for i, mark in enumerate(marks):
        if mark.text == "off" and any(before.text in _OFF for before in marks[max(0, i - _OFF_REACH) : i]):
            mark.tags -= {"error"}


_VESSEL_NEXT = frozenset({"on", "+", "is", "was", "weighs", "alone", "empty", "itself", "and", "with", "=", "&"})
_ZEROED = wordset("tared zeroed empty")
_FORGOT = frozenset({"zero", "tare", "tared", "empty", "alone", "forgot", "itself"})


def cup_on_the_scale(marks: list[Mark]) -> None:
    """ "Forgot to zero with the cup on, cup + oil 86 g, cup is 31 g": here the cup is a vessel, no measure."""
    for before, mark in itertools.pairwise(marks):
        if mark.kind == "unit" and mark.text == "cup" and before.text in _ZEROED:
            mark.kind, mark.unit, mark.tags = "word", "", frozenset({"measure"})
    weighed = sum(mark.measured is not None and mark.measured.kind == "mass" for mark in marks)
    if weighed < 2 or not any(mark.text in _FORGOT for mark in marks):
        return
    for mark, after in itertools.pairwise(marks):
        if mark.kind == "unit" and mark.text == "cup" and after.text in _VESSEL_NEXT:
            mark.kind, mark.unit, mark.tags = "word", "", frozenset({"measure"})


def units_after_times(marks: list[Mark]) -> None:
    """ "8 x 150 + 4 x 90 g": what each takes is told in one unit."""
    sized = [
        mark.measured
        for before, mark in itertools.pairwise(marks)
        if mark.measured is not None and before.text in ("x", "×", "*", "@")
    ]
    units = {m.amount.unit for m in sized if m.amount.unit}
    if len(units) == 1 and units <= _SHARED:
        for m in sized:
            if not m.amount.unit and m.kind == "number":
                give_unit(m, next(iter(units)))


_SHARED = frozenset(["g", "kg", "oz", "lb", "ml", "l", "cl", "fl_oz", "percent", "cm", "mm", "in", "degC", "degF"])


_DEGREE_WORDS = frozenset(["grad", "grade", "gradi", "degres", "degrés", "graus", "grados", "stopni", "deg", "degrees"])


_COLDEST, _HOTTEST = 0, 500


def degrees_named_apart(marks: list[Mark]) -> None:
    """ "71 grad celsius", "167, that's fahrenheit", "by 9 F": the scale stands a word away from its number."""
    scales = [mark for mark in marks if mark.unit in ("degC", "degF") or mark.text in SCALE_LETTERS]
    numbers = [mark.measured for mark in marks if mark.measured is not None]
    for mark, after, beyond in zip(marks, marks[1:], (*marks[2:], Mark("stop", "")), strict=False):
        measured = mark.measured
        if measured is None or measured.kind != "number" or measured.amount.unit:
            continue
        if after.text in SCALE_LETTERS and len(scales) > 1:
            give_unit(measured, SCALE_LETTERS[after.text])
        elif unit := _runs_to(mark, marks):
            give_unit(measured, unit)
        elif after.text in _DEGREE_WORDS and beyond.unit in ("degC", "degF"):
            give_unit(measured, beyond.unit)
            beyond.unit, beyond.kind = "", "word"
        elif (
            len(numbers) == 1 and len(scales) == 2 and _COLDEST <= measured.amount.value <= _HOTTEST and scales[0].unit
        ):
            give_unit(measured, scales[0].unit)
            scales[0].unit, scales[0].kind = "", "word"


def _runs_to(mark: Mark, marks: list[Mark]) -> str:
    """The scale of "one seventy" in "from one seventy down to 135 fahrenheit", and of "190 and it's fahrenheit"."""
    measured = mark.measured
    assert measured is not None
    ahead = marks[measured.at + 1 : measured.at + 4]
    last = next((other for other in ahead if other.kind in ("amount", "unit")), None)
    if last is None:
        return ""
    words = {other.text for other in ahead[: ahead.index(last)]}
    if last.unit in ("degC", "degF"):
        said = words and words <= _SAYING and words & {"it's", "its", "that's", "thats"}
        if said:
            last.kind, unit = "word", last.unit
            last.unit = ""
            return unit
        return ""
    same = last.measured is not None and last.measured.kind == "temperature" and words <= {"to", "down", "up", "and"}
    opened = marks[measured.at - 1].text in ("from", "between") if measured.at else False
    return last.measured.amount.unit if same and opened and words and last.measured is not None else ""


_SAYING = frozenset({"and", ",", "it's", "its", "that's", "thats", "in"})


def lone_scale_letters(marks: list[Mark], found: list[Measured]) -> None:
    """ "75 c, what is that f?": a lone letter is a scale where a temperature is spoken of."""
    if not any(m.kind in ("temperature", "difference") for m in found):
        return
    for mark in marks:
        if mark.kind == "word" and mark.text in SCALE_LETTERS:
            mark.kind, mark.unit = "unit", SCALE_LETTERS[mark.text]


_SHOWS = wordset("show shows showing showed reads reading read says said at on is")
_SCALES = {**SCALE_LETTERS, "american": "degF", "us": "degF", "european": "degC", "metric": "degC"}


def scale_of_the_thermometer(marks: list[Mark], found: list[Measured]) -> None:
    """ "The thermometer is the F kind and shows 150, the bottle says not over 70 C": 150 is on that other scale."""
    told = {m.amount.unit for m in found if m.kind == "temperature"}
    bare = [m for m in found if m.kind == "number" and not m.amount.unit]
    if len(told) != 1 or len(bare) != 1 or not any(mark.text in _THERMOMETERS for mark in marks):
        return
    number = bare[0]
    i = next((i for i, mark in enumerate(marks) if mark.measured is number), 0)
    after = marks[i + 1] if i + 1 < len(marks) else None
    shown = any(mark.text in _SHOWS for mark in marks[max(0, i - 2) : i])
    named = {mark.unit or _SCALES.get(mark.text, "") for mark in marks if mark.kind in ("unit", "word")}
    scales = named & {"degC", "degF"} - told
    ends = after is None or after.kind in ("sign", "stop") or after.text in _AFTER_READING
    if shown and ends and len(scales) == 1 and _COLDEST <= number.amount.value <= _HOTTEST:
        give_unit(number, scales.pop())


_THERMOMETERS = wordset("thermometer thermometers thermo probe termometer celsius fahrenheit")
_AFTER_READING = wordset("and but on so the now degrees")


def dozen_and_a_half(marks: list[Mark]) -> None:
    """ "A dozen and a half" is 18."""
    for i, mark in enumerate(marks[:-2]):
        measured = mark.measured
        if measured is None or not measured.amount.text.endswith("dozen"):
            continue
        words = [after.text for after in marks[i + 1 : i + 4]]
        if words == ["and", "a", "half"] or words[:2] == ["and", "half"]:
            amount = dataclasses.replace(measured.amount, value=measured.amount.value + 6)
            measured.amount, measured.value = amount, quantity(amount)
            for after in marks[i + 1 : i + 1 + len(words) - (words[:2] == ["and", "half"])]:
                after.text, after.tags = "a", NOTHING


def inches(marks: list[Mark]) -> None:
    """ "Diameter 3 in, height 4 in": where a width or a height is spoken of, "in" after a number is an inch."""
    if not any(mark.tags & {"wide", "high"} for mark in marks):
        return
    for mark, after in itertools.pairwise(marks):
        measured = mark.measured
        if measured is not None and measured.kind == "number" and not measured.amount.unit and after.text == "in":
            give_unit(measured, "in")


_OPENING = frozenset({"if", "is", "does", "one", "the", "my", "each", "every", "a", "so"})


_EVERY = frozenset({"one", "each", "every", "a"})


_IS = frozenset({"is", "weighs", "weigh", "=", "was", "weighed", "has", "are"})


def one_of_it(marks: list[Mark], found: list[Measured]) -> None:
    """ "Cup of oil weighs ...", "quart of wax to pounds": a measure without a number counts as one."""
    for i, mark in enumerate(marks[:-2]):
        before = marks[i - 1] if i else None
        opens = before is None or before.kind == "stop" or before.text in _OPENING
        again = any(m.amount.unit == mark.unit for m in found)  # "3 tbsp left, the tbsp is 14 g"
        one = before is not None and (before.text in _EVERY or (again and before.text in ("the", "my")))
        linked = marks[i + 1].text == "of" or (one and marks[i + 1].text in _IS)
        whole = kind_of(mark.unit) is Volume or mark.text in ("pound", "kilo", "kilogram", "pint")
        if mark.kind == "unit" and opens and linked and whole:
            measured = measured_from(Amount(0, 0, Decimal(1), mark.unit, text=f"1 {mark.text}"), i)
            marks[i] = Mark("amount", mark.text, measured=measured, gap=mark.gap)
            found.append(measured)
            found.sort(key=lambda m: m.at)
            return


def units_before_numbers(marks: list[Mark]) -> None:
    """ "wax kg 0,8", "load % 10": the unit before a bare number, where none follows, is its unit."""
    for i, mark in enumerate(marks):
        measured = mark.measured
        if measured is None or measured.kind != "number" or measured.amount.unit:
            continue
        before = marks[i - 1] if i else None
        after = marks[i + 1] if i + 1 < len(marks) else None
        if after is not None and after.text == "pc" and _shares_something(marks, i + 2):
            give_unit(measured, "percent")
            after.tags = NOTHING
        elif (
            before is not None
            and before.kind == "unit"
            and before.unit in ("g", "kg", "oz", "lb", "ml", "l", "percent")
        ):
            ordinary = i > 1 and (
                marks[i - 2].text in ("many", "in", "much", "per", "to") or marks[i - 2].kind == "amount"
            )
            if not ordinary and (after is None or after.kind != "unit"):
                give_unit(measured, before.unit)
                before.kind, before.unit = "word", ""


def _shares_something(marks: list[Mark], i: int) -> bool:
    return i < len(marks) and marks[i].noun in ("fragrance", "load", "wax", "dye")
