"""The net weight as it stands on a label: both units, cut off and never rounded up.

16 CFR 500.19 names the factors and asks for three digits; its examples in 500.16 and 500.27 cut the rest off, so that
neither figure promises more than is inside.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import ROUND_DOWN, Decimal
from enum import StrEnum

from core.reference import labelling
from core.units import Mass
from core.writing import figure, rounded

DIGITS = 3  # of a figure: 16 CFR 500.19(b)
OZ_PLACES = 2
OUNCES_IN_POUND = 16
IMPERIAL = ("oz", "lb", "lb_oz")
# A sum done to 40 digits may end a hair below a whole ounce; that hair is not a shortage.
NOISE_PLACES = 12


class First(StrEnum):
    """Which unit stands first. The value is what a person sees."""

    OUNCES = "oz"
    GRAMS = "g"


@dataclass(frozen=True, slots=True)
class Statement:
    """A US net weight statement; `ounces` and `grams` are the two figures as printed."""

    ounces: str
    grams: str

    def text(self, first: First) -> str:
        """`Net Wt 8 oz (226 g)`."""
        return (
            f"Net Wt {self.ounces} ({self.grams})" if first is First.OUNCES else f"Net Wt {self.grams} ({self.ounces})"
        )


def us_statement(net: Mass) -> Statement:
    """Both figures of a net weight, each cut off; the one of the unit it came in is not converted."""
    if net.unit in IMPERIAL:
        ounces = net.oz
        metric = ounces * _factor("oz", "g")
    else:
        metric = net.base
        ounces = net.base * _factor("g", "oz")
        if ounces >= OUNCES_IN_POUND:
            ounces = net.base / 1000 * _factor("kg", "lb") * OUNCES_IN_POUND
    return Statement(_ounces(rounded(ounces, NOISE_PLACES)), _grams(rounded(metric, NOISE_PLACES)))


def metric_figure(net: Mass) -> Mass:
    """The nominal weight of a metric label: whole grams, cut off; tenths below 10 g."""
    grams = rounded(net.base, NOISE_PLACES)
    return Mass(grams.quantize(Decimal(1) if grams >= 10 else Decimal("0.1"), ROUND_DOWN))


def _factor(unit: str, to: str) -> Decimal:
    found = labelling.legal_factor(unit, to)
    assert found is not None
    return found.factor


def _cut(number: Decimal, most_places: int) -> Decimal:
    """Three digits, the rest cut off."""
    places = min(most_places, max(0, DIGITS - 1 - number.adjusted()))
    return number.quantize(Decimal(1).scaleb(-places), ROUND_DOWN)


def _ounces(ounces: Decimal) -> str:
    """Below a pound in ounces; from there on pounds, and ounces with one decimal."""
    if ounces < OUNCES_IN_POUND:
        return f"{figure(_cut(ounces, OZ_PLACES), trim=True)} oz"
    pounds, rest = divmod(ounces, OUNCES_IN_POUND)
    rest = rest.quantize(Decimal("0.1"), ROUND_DOWN)
    tail = f" {figure(rest, trim=True)} oz" if rest else ""
    return f"{figure(pounds.quantize(Decimal(1)))} lb{tail}"


def _grams(grams: Decimal) -> str:
    """Grams below 1000, else kilograms."""
    if grams < 1000:
        return f"{figure(_cut(grams, DIGITS - 1), trim=True)} g"
    return f"{figure(_cut(grams / 1000, DIGITS - 1), trim=True)} kg"
