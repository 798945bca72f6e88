"""The steps around a density: brought to g/ml, and millilitres brought to the unit asked for."""

from __future__ import annotations

from core.answer import Step, line
from core.units import Density, Volume


def density_step(density: Density) -> tuple[Step, ...]:
    """The step that brings a density typed in another unit to g/ml; none for those that are the same number."""
    if density.unit in ("", "g/ml", "g/cm3", "kg/l"):
        return ()
    return (Step("density in g/ml", line("{0:typed}", density), line("{0:work}", density)),)


def from_millilitres(volume: Volume, unit: str) -> tuple[Step, ...]:
    """The step from millilitres to the unit asked for; none for those."""
    if unit in ("", "ml"):
        return ()
    one = Volume.of(1, unit)
    return (
        Step(
            "in the unit you asked for",
            line("{0:work} ÷ {1:work}", volume, one),
            line("{0:unit}", volume.in_unit(unit)),
        ),
    )
