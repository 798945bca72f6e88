"""The text of one option to its typed value: what the slash form, a Discord option and a form field are read with.

`read_value(Mass, "1 lb 4 oz")` gives a Mass. Every error says the way out. `core.reading.exact` is the inverse.
"""

from __future__ import annotations

import types
import typing
from collections.abc import Callable
from decimal import Decimal
from enum import StrEnum
from typing import Any

from rapidfuzz import fuzz, process

from core.book import Book
from core.compounds import (
    Additives,
    Basis,
    Fills,
    FormulaName,
    Load,
    Masses,
    Material,
    Packs,
    Parts,
    ScaleStep,
    UnitName,
    VesselName,
    Words,
)
from core.errors import Contradiction, OutOfRange, Unreadable, WrongKind, clipped
from core.reading import lists, rates
from core.reading.amounts import Amount, amounts
from core.reading.exact import exact as exact
from core.reading.permille import refuse_permille
from core.reading.quantities import bounded, quantity
from core.reading.unit_names import near_units, unit_named, unknown_unit
from core.reading.visible import visible
from core.reading.wordset import wordset
from core.units import (
    Density,
    Length,
    Mass,
    Money,
    Number,
    Percent,
    Quantity,
    Temperature,
    TemperatureDifference,
    Volume,
)

LONGEST = 1000  # characters of one option
LONGEST_LIST = 5000  # of one that may be a list
LISTS = (Masses, Parts, Additives, Fills, Packs)
LONGEST_NAME = 80
LARGEST_COUNT = 1_000_000

# What each kind is called, and a value as it may be typed.
KINDS: dict[type[Quantity], tuple[str, str]] = {
    Mass: ("a weight", "450 g or 1 lb 4 oz"),
    Volume: ("a volume", "30 ml or 1 US fl oz"),
    Percent: ("a percent", "8 %"),
    Density: ("a density", "0.93 g/ml"),
    Temperature: ("a temperature", "75 °C or 167 °F"),
    TemperatureDifference: ("a difference in temperature", "10 °C"),
    Length: ("a length", "75 mm or 3 in"),
    Money: ("a price", "12.50 or €12.50"),
    Number: ("a plain number", "24"),
}
_NO_STEP = frozenset({"none", "no", "not set", "unset", "off", "usual", "unknown", "-"})
_SIGNED = (Temperature, TemperatureDifference)
_TRUE, _FALSE = wordset("yes y true on 1 ja oui si"), wordset("no n false off 0 nein non")


def read_value(kind: Any, text: str, book: Book | None = None) -> Any:
    """`text` as a value of `kind`: any type a slot of a Question may have, or a union of quantity types.

    Raises Unreadable, UnknownUnit (with near ones), WrongKind, OutOfRange or Contradiction, each with the way out.
    """
    text = " ".join(visible(text).split())
    if kind in (Percent, Load, Additives):
        refuse_permille(text)
    if not text:
        raise Unreadable(text, f"Nothing was given there. Write {_example(kind)}.")
    most = LONGEST_LIST if kind in LISTS else LONGEST
    if len(text) > most:
        raise OutOfRange(clipped(text), f"That is too long for one value. Keep it under {most:,} characters.")
    if isinstance(kind, types.UnionType) or typing.get_origin(kind) is typing.Union:
        return _quantity(tuple(part for part in typing.get_args(kind) if part is not type(None)), text)
    if kind in KINDS:
        return _quantity((kind,), text)
    if kind in _READERS:
        return _READERS[kind](text)
    if issubclass(kind, StrEnum):
        return _one_of(kind, text)
    if issubclass(kind, str):
        return kind(_name(text))
    raise TypeError(kind)


def _example(kind: Any) -> str:
    """A value of that kind as typed."""
    if isinstance(kind, types.UnionType) or typing.get_origin(kind) is typing.Union:
        return " or ".join(_example(part) for part in typing.get_args(kind) if part in KINDS)
    if kind in KINDS:
        return KINDS[kind][1]
    examples = {Load: "8 %", Masses: "450 g", Parts: "60/40", Additives: "dye 0.1 %", Fills: "12 x 200 g"}
    return examples.get(kind, {Packs: "2 kg 18 eur", int: "24", bool: "yes or no"}.get(kind, "a name"))


def _quantity(kinds: tuple[type[Quantity], ...], text: str) -> Quantity:
    found = amounts(_with_long_inch(text) if Length in kinds else text)
    if not found:
        raise Unreadable(text, _no_amount(kinds, text))
    readings = [_as_one_of(kinds, amount, text) for amount in found]
    first, *others = readings
    for other in others:
        if type(other) is not type(first):
            raise Unreadable(
                text, f"There is more than one amount in “{clipped(text)}”. Give one, such as {_ex(kinds)}."
            )
        # Half an ounce in a pound is what rounding leaves on a label: "16 oz (450 g)".
        if abs((first - other).base) > max(abs(first.base), abs(other.base)) * Decimal("0.03"):
            raise Contradiction(
                text, f"Those amounts are not the same: “{clipped(text)}”. Give one, such as {_ex(kinds)}."
            )
    if first.base < 0 and not isinstance(first, _SIGNED):
        raise OutOfRange(
            text, f"{KINDS[type(first)][0].capitalize()} can't be less than nothing. Check the minus sign."
        )
    return first


def _with_long_inch(text: str) -> str:
    """ "3 in" as "3 inch": in running text a lone "in" is no unit, here it can be nothing else."""
    return f"{text}ch" if text.casefold().endswith(" in") else text


def _ex(kinds: tuple[type[Quantity], ...]) -> str:
    return KINDS[kinds[0]][1]


def _no_amount(kinds: tuple[type[Quantity], ...], text: str) -> str:
    wanted = " or ".join(KINDS[kind][0] for kind in kinds)
    return f"I see no amount in “{clipped(text)}”. I need {wanted}, such as {_ex(kinds)}."


def _as_one_of(kinds: tuple[type[Quantity], ...], amount: Amount, text: str) -> Quantity:
    """The amount as the first of `kinds` it can be."""
    if amount.high is not None:
        raise Unreadable(text, f"“{clipped(amount.text)}” is a range. Give one figure, then ask again with the other.")
    got = _bare(kinds, amount, text) if _is_bare(amount) else quantity(amount)
    if isinstance(got, Temperature) and Temperature not in kinds and TemperatureDifference in kinds:
        unit = "delta_degF" if amount.unit == "degF" else "delta_degC"
        got = TemperatureDifference.of(bounded(amount.value, text), unit)
    if isinstance(got, TemperatureDifference) and TemperatureDifference not in kinds and Temperature in kinds:
        got = Temperature.of(bounded(amount.value, text), amount.unit.removeprefix("delta_"))
    if got is not None and isinstance(got, kinds):
        return got
    raise _wrong_kind(kinds, amount, got, text)


def _is_bare(amount: Amount) -> bool:
    return amount.unit == "" and not amount.ratio and amount.per is None


def _bare(kinds: tuple[type[Quantity], ...], amount: Amount, text: str) -> Quantity | None:
    """A number without a unit: taken where only one unit can be meant."""
    value = bounded(amount.value, text)
    word = unknown_unit(text, amount.end)
    for kind in kinds:
        if kind is Number:
            return Number(value)
        if kind is Money and not word:
            return Money(value)
        if kind is Percent and not word:
            if 0 < value < 1:
                raise rates.either_percent(text, value)
            return Percent(value)
        if kind is Density and Decimal("0.1") <= value <= 25:
            return Density(value)
    if word == "K" and Temperature in kinds:
        return Temperature.of(value, "kelvin")
    if word:
        raise near_units(word, kinds)
    raise Unreadable(text, f"{clipped(text)} of what? Write the unit too, such as {_ex(kinds)}.")


def _wrong_kind(kinds: tuple[type[Quantity], ...], amount: Amount, got: Quantity | None, text: str) -> WrongKind:
    wanted = " or ".join(KINDS[kind][0] for kind in kinds)
    shown = clipped(amount.text or text, 40)
    if amount.unit in ("deg", "delta_deg") and (Temperature in kinds or TemperatureDifference in kinds):
        return WrongKind(text, f"{shown}: Celsius or Fahrenheit? Write it as 75 °C or 167 °F.")
    is_a = KINDS[type(got)][0] if got is not None and type(got) in KINDS else "something else"
    if isinstance(got, Volume) and Mass in kinds:
        way = "Put it on a scale, or ask for the volume with its density first."
    elif isinstance(got, Mass) and Volume in kinds:
        way = "Give the room it takes, such as 30 ml, or convert the weight with its density first."
    else:
        way = f"Write it as {_ex(kinds)}."
    return WrongKind(text, f"{shown} is {is_a}; I need {wanted}. {way}")


def _whole(text: str) -> int:
    number = _quantity((Number,), text).base
    if number != number.to_integral_value() or not 0 <= number <= LARGEST_COUNT:
        raise OutOfRange(text, f"I need a whole number from 0 to {LARGEST_COUNT:,}, such as 24.")
    return int(number)


def _yes(text: str) -> bool:
    word = text.casefold()
    if word in _TRUE or word in _FALSE:
        return word in _TRUE
    raise Unreadable(text, f"“{clipped(text)}” is neither yes nor no. Write yes or no.")


def _one_of(kind: type[StrEnum], text: str) -> StrEnum:
    """The member by its value or its name, or by the only one that starts so or comes near."""
    plain = text.casefold().replace("_", " ")
    labels = {
        label: member for member in kind for label in (member.name.casefold().replace("_", " "), member.casefold())
    }
    if plain in labels:
        return labels[plain]
    starting = {member for label, member in labels.items() if plain in label.split() or label.startswith(plain)}
    if len(starting) == 1:
        return starting.pop()
    if len(plain) <= LONGEST_NAME and (near := process.extractOne(plain, labels, scorer=fuzz.ratio, score_cutoff=80)):
        return labels[str(near[2])] if near[2] in labels else near[0]
    raise Unreadable(text, f"“{clipped(text)}” is none of these: {', '.join(kind)}. Pick one of them.")


def _basis(text: str) -> Basis:
    basis = rates.basis_said(text)
    return basis if basis is not None else typing.cast(Basis, _one_of(Basis, text))


def _name(text: str) -> str:
    if len(text) > LONGEST_NAME:
        raise OutOfRange(clipped(text), f"That name is too long. Keep it to {LONGEST_NAME} characters.")
    return text


def _unit(text: str) -> UnitName:
    key = unit_named(text)
    if key is None:
        raise near_units(text, ())
    return UnitName(key)


def _step(text: str) -> ScaleStep:
    if " ".join(text.casefold().split()) in _NO_STEP:
        return ScaleStep(None)
    step = _quantity((Mass,), text)
    assert isinstance(step, Mass)
    return ScaleStep(step)


_READERS: dict[Any, Callable[[str], Any]] = {
    Load: rates.load,
    Masses: lists.masses,
    Parts: lists.parts,
    Additives: lists.additives,
    Fills: lists.fills,
    Packs: lists.packs,
    Basis: _basis,
    UnitName: _unit,
    ScaleStep: _step,
    Material: lambda text: Material(_name(text)),
    VesselName: lambda text: VesselName(_name(text)),
    FormulaName: lambda text: FormulaName(_name(text)),
    Words: Words,
    int: _whole,
    bool: _yes,
    str: _name,
}
