"""The one pint registry (Decimal magnitudes, our own exact definitions) and the quantity types built on it.

Every quantity holds its exact value in the base unit of its kind and the unit the asker used. Text never comes here:
reading is `core.reading`, writing is `core.writing`.
"""

from __future__ import annotations

import decimal
import functools
from dataclasses import dataclass, field
from decimal import Decimal
from fractions import Fraction
from importlib import resources
from typing import Any, ClassVar, Self

import pint

from core.errors import OutOfRange

# 40 digits leave room for a chain of products before a displayed digit could suffer.
decimal.DefaultContext.prec = 40
decimal.setcontext(decimal.Context(prec=40, rounding=decimal.ROUND_HALF_EVEN))

LARGEST = Decimal("1e12")

# Where a country's measure is not said, the US one is meant, and the answer says so (`Quantity.assumed_country`).
UNSAID = {name: f"us_{name}" for name in ("fl_oz", "cup", "pint", "quart", "gallon", "tbsp", "tsp")}


@functools.cache
def registry() -> pint.UnitRegistry[Decimal]:
    """The registry, built on first use from `reference/units.txt`."""
    lines = resources.files("core.reference").joinpath("units.txt").read_text("utf-8").splitlines()
    ureg: pint.UnitRegistry[Any] = pint.UnitRegistry(None, non_int_type=Decimal)
    ureg.load_definitions([line for line in lines if line and not line.startswith("#")])
    return ureg


@functools.cache
def factor(unit: str, base: str) -> Decimal:
    """How many `base` one `unit` is, exactly. KeyError for anything but two unit keys of one kind: only keys from the
    lists below ever reach pint's parser."""
    if unit == base:
        return Decimal(1)
    if not any(unit in keys and base in keys for keys in (MASS_UNITS, VOLUME_UNITS, LENGTH_UNITS)):
        raise KeyError(unit)
    ours, theirs = UNSAID.get(unit, unit), UNSAID.get(base, base)
    magnitude = registry().Quantity(Decimal(1), ours).to(theirs).magnitude
    return Decimal(magnitude).normalize()


@dataclass(frozen=True, slots=True, order=True)
class Quantity:
    """An exact amount: `base` in the base unit of the class, `unit` the key it was given in (not compared)."""

    base: Decimal
    unit: str = field(default="", compare=False)

    BASE: ClassVar[str] = ""

    def __post_init__(self) -> None:
        if not self.base.is_finite() or abs(self.base) > LARGEST:
            raise OutOfRange(
                str(self.base)[:40], "That number is too large to weigh. Give one below 1,000,000,000,000."
            )
        if not self.unit:
            object.__setattr__(self, "unit", self.BASE)

    @classmethod
    def of(cls, value: Decimal | int | str, unit: str = "") -> Self:
        """`value` of `unit` (a unit key of this kind), exact."""
        number = value if isinstance(value, Decimal) else Decimal(value)
        return cls(number * factor(unit or cls.BASE, cls.BASE), unit or cls.BASE)

    def to(self, unit: str) -> Decimal:
        """The number of `unit` this is, at full precision."""
        return self.base / factor(unit, self.BASE)

    def in_unit(self, unit: str) -> Self:
        """The same amount, to be shown in `unit`."""
        return type(self)(self.base, unit)

    def __add__(self, other: Self) -> Self:
        return type(self)(self.base + other.base, self.unit)

    def __sub__(self, other: Self) -> Self:
        return type(self)(self.base - other.base, self.unit)

    def __mul__(self, number: Decimal | int) -> Self:
        return type(self)(self.base * number, self.unit)

    def __bool__(self) -> bool:
        return bool(self.base)


@dataclass(frozen=True, slots=True, order=True)
class Mass(Quantity):
    """A weight in grams. `unit` may be `lb_oz` for one typed as pounds and ounces."""

    BASE: ClassVar[str] = "g"

    def to(self, unit: str) -> Decimal:
        """The number of `unit` this is, at full precision; `lb_oz` counts as pounds."""
        return self.base / factor("lb" if unit == "lb_oz" else unit, "g")

    @property
    def oz(self) -> Decimal:
        """In avoirdupois ounces."""
        return self.base / factor("oz", "g")


@dataclass(frozen=True, slots=True, order=True)
class Volume(Quantity):
    """A volume in millilitres."""

    BASE: ClassVar[str] = "ml"

    @property
    def assumed_country(self) -> bool:
        """True where a cup, pint, fluid ounce... was given without saying whose; the US one is used."""
        return self.unit in UNSAID


@dataclass(frozen=True, slots=True, order=True)
class Length(Quantity):
    """A length in millimetres."""

    BASE: ClassVar[str] = "mm"


# Density units as mass unit per volume unit; relative density is handled where the temperature is known.
DENSITY_UNITS: dict[str, tuple[str, str, int]] = {
    "g/ml": ("g", "ml", 1),
    "g/cm3": ("g", "ml", 1),
    "kg/l": ("kg", "l", 1),
    "kg/m3": ("kg", "l", 1000),
    "g/l": ("g", "l", 1),
    "lb/us_gallon": ("lb", "us_gallon", 1),
    "lb/imp_gallon": ("lb", "imp_gallon", 1),
    "oz/us_fl_oz": ("oz", "us_fl_oz", 1),
    "oz/imp_fl_oz": ("oz", "imp_fl_oz", 1),
}


@functools.cache
def density_factor(unit: str) -> Decimal:
    """Grams per millilitre in one `unit` of density. KeyError for an unknown key."""
    mass, volume, times = DENSITY_UNITS[unit]
    return factor(mass, "g") / (factor(volume, "ml") * times)


@dataclass(frozen=True, slots=True, order=True)
class Density(Quantity):
    """A density in g/ml."""

    BASE: ClassVar[str] = "g/ml"

    @classmethod
    def of(cls, value: Decimal | int | str, unit: str = "") -> Self:
        """`value` of a unit in `DENSITY_UNITS`, exact."""
        number = value if isinstance(value, Decimal) else Decimal(value)
        return cls(number * density_factor(unit or "g/ml"), unit or "g/ml")

    @classmethod
    def from_ratio(cls, mass: Mass, volume: Volume) -> Self:
        """Mass over volume; the volume must not be zero."""
        return cls(mass.base / volume.base, "g/ml")

    def to(self, unit: str) -> Decimal:
        """The number of `unit` this is, at full precision."""
        return self.base / density_factor(unit)

    def mass_of(self, volume: Volume) -> Mass:
        """The weight of that volume."""
        return Mass(volume.base * self.base)

    def volume_of(self, mass: Mass) -> Volume:
        """The room that weight takes."""
        return Volume(mass.base / self.base)


@dataclass(frozen=True, slots=True, order=True)
class Percent(Quantity):
    """A percentage; 8 is 8 %."""

    BASE: ClassVar[str] = "percent"

    @property
    def fraction(self) -> Decimal:
        """8 % as 0.08."""
        return self.base / 100

    def to(self, unit: str) -> Decimal:
        """Always percent."""
        return self.base


@dataclass(frozen=True, slots=True, order=True)
class Number(Quantity):
    """A bare number: a count, a ratio, a factor."""

    BASE: ClassVar[str] = "count"

    def to(self, unit: str) -> Decimal:
        """Always itself."""
        return self.base


@dataclass(frozen=True, slots=True, order=True)
class Temperature(Quantity):
    """A temperature reading in degrees Celsius. °F by its definition: C = (F - 32) x 5 / 9."""

    BASE: ClassVar[str] = "degC"

    @classmethod
    def of(cls, value: Decimal | int | str, unit: str = "") -> Self:
        """A reading of `degC`, `degF` or `kelvin`."""
        number = value if isinstance(value, Decimal) else Decimal(value)
        if unit == "degF":
            return cls(_ratio(number - 32, 5, 9), unit)
        if unit == "kelvin":
            return cls(number - Decimal("273.15"), unit)
        return cls(number, "degC")

    def to(self, unit: str) -> Decimal:
        """The reading on the scale `degC`, `degF` or `kelvin`."""
        if unit == "degF":
            return _ratio(self.base, 9, 5) + 32
        return self.base + Decimal("273.15") if unit == "kelvin" else self.base


@dataclass(frozen=True, slots=True, order=True)
class TemperatureDifference(Quantity):
    """A rise or drop in Celsius degrees; one Fahrenheit degree is 5/9 of one."""

    BASE: ClassVar[str] = "delta_degC"

    @classmethod
    def of(cls, value: Decimal | int | str, unit: str = "") -> Self:
        """A difference of `delta_degC` or `delta_degF`."""
        number = value if isinstance(value, Decimal) else Decimal(value)
        return cls(_ratio(number, 5, 9) if unit == "delta_degF" else number, unit or "delta_degC")

    def to(self, unit: str) -> Decimal:
        """The difference in `delta_degC` or `delta_degF`."""
        return _ratio(self.base, 9, 5) if unit == "delta_degF" else self.base


@dataclass(frozen=True, slots=True, order=True)
class Money(Quantity):
    """An amount of money; `unit` is its currency key (`usd`, `eur`, `gbp`, or `money` when none was said)."""

    BASE: ClassVar[str] = "money"

    @classmethod
    def of(cls, value: Decimal | int | str, unit: str = "") -> Self:
        """`value` in the currency `unit`."""
        return cls(value if isinstance(value, Decimal) else Decimal(value), unit or "money")

    def to(self, unit: str) -> Decimal:
        """The amount; currencies are never converted."""
        return self.base


def _ratio(number: Decimal, times: int, by: int) -> Decimal:
    """`number * times / by`, exact where the result is a finite decimal, else to 40 digits."""
    exact = Fraction(number) * times / by
    return Decimal(exact.numerator) / Decimal(exact.denominator)


MASS_UNITS = ("mg", "g", "kg", "oz", "lb", "grain", "oz_t", "t", "stone")
VOLUME_UNITS = (
    *("ml", "cl", "dl", "l", "us_fl_oz", "us_tsp", "us_tbsp", "us_cup", "us_pint", "us_quart", "us_gallon"),
    *("imp_fl_oz", "imp_tsp", "imp_tbsp", "imp_cup", "imp_pint", "imp_quart", "imp_gallon"),
    *("label_cup", "label_fl_oz", "metric_cup", "metric_tbsp", "metric_tsp"),
    *UNSAID,
)
LENGTH_UNITS = ("mm", "cm", "m", "in", "ft")


@functools.cache
def kind_of(unit: str) -> type[Quantity] | None:
    """The quantity type a unit key belongs to, or None."""
    if unit in MASS_UNITS or unit == "lb_oz":
        return Mass
    if unit in VOLUME_UNITS:
        return Volume
    if unit in LENGTH_UNITS:
        return Length
    if unit in DENSITY_UNITS:
        return Density
    if unit in ("degC", "degF", "kelvin"):
        return Temperature
    if unit in ("delta_degC", "delta_degF"):
        return TemperatureDifference
    if unit in ("usd", "eur", "gbp", "money"):
        return Money
    return {"percent": Percent, "": Number, "count": Number}.get(unit)
