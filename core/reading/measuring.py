"""One amount of a text as a mark: its kind and its typed value."""

from __future__ import annotations

import dataclasses
from typing import Any

from core.reading.amounts import Amount
from core.reading.marks import Measured
from core.reading.quantities import density, quantity
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

_KINDS: dict[type[Quantity], str] = {
    Mass: "mass",
    Volume: "volume",
    Percent: "percent",
    Number: "number",
    Money: "money",
    Temperature: "temperature",
    TemperatureDifference: "difference",
    Length: "length",
    Density: "density",
}


def measured_from(amount: Amount, at: int) -> Measured:
    if amount.ratio:
        return Measured(amount, "ratio", None, at)
    if amount.unit in ("part", "deg", "delta_deg"):
        return Measured(amount, "part" if amount.unit == "part" else "degrees", quantity(_bare(amount)), at)
    if amount.per is not None and amount.unit not in ("usd", "eur", "gbp", "money", "percent"):
        dense = density(amount)
        return Measured(amount, "density" if dense is not None else "rate", dense, at)
    got = quantity(amount if amount.per is None else dataclasses.replace(amount, per=None))
    if isinstance(got, Number) and got.unit == "drop":
        return Measured(amount, "drop", got, at)
    return Measured(amount, _KINDS[type(got)] if got is not None else "other", got, at)


def _bare(amount: Amount) -> Amount:
    return dataclasses.replace(amount, unit="", per=None)


def give_unit(measured: Measured, unit: str) -> None:
    amount = dataclasses.replace(measured.amount, unit=unit)
    fresh = measured_from(amount, measured.at)
    measured.amount, measured.kind, measured.value = amount, fresh.kind, fresh.value


def give_density(measured: Measured, like: Measured) -> None:
    """The bare number is a density in the unit of another one."""
    amount = dataclasses.replace(measured.amount, unit=like.amount.unit, per=like.amount.per)
    fresh = measured_from(amount, measured.at)
    measured.amount, measured.kind, measured.value = amount, fresh.kind, fresh.value


def after_sum(m: Measured, result: Quantity, **changes: Any) -> Measured:
    """The amount with what a sum made of it: another weight, volume or count in the same place of the text."""
    unit = "" if isinstance(result, Number) else result.unit
    amount = dataclasses.replace(m.amount, value=result.to(result.unit), unit=unit, parts=())
    return dataclasses.replace(m, amount=amount, kind=_KINDS[type(result)], value=result, **changes)


def mass_of(m: Measured) -> Mass:
    """The weight an amount of kind mass holds."""
    assert isinstance(m.value, Mass)
    return m.value


def in_figures(m: Measured) -> bool:
    """ "0.75", ".9", "nought point nine": a fraction as such ("three quarters", "3/4") is a part of something."""
    return " point " in m.amount.text or m.amount.text.replace(",", ".").replace(".", "", 1).rstrip(".").isdecimal()
