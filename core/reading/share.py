"""What the percents of a text were found to be."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from core.compounds import Additives, Load, Parts
from core.reading.marks import Measured
from core.units import Percent

HUNDRED = Decimal(100)


@dataclass(slots=True)
class Shares:
    """The percents of a text by their meaning. `parts` are the shares of a whole that add up to 100 %."""

    loads: list[Load] = field(default_factory=list)
    level: Percent | None = None
    spare: Percent | None = None
    strength: Percent | None = None
    limit: Percent | None = None
    error: Percent | None = None
    additives: list[tuple[str, Percent]] = field(default_factory=list)
    blend: Parts | None = None
    waxes: Parts | None = None
    parts: list[tuple[str, str, Decimal]] = field(default_factory=list)
    of_whole: bool = False  # the load came as a ratio of the whole mix, which the weight is then of
    unclear: list[Measured] = field(default_factory=list)

    @property
    def load(self) -> Load | None:
        """The load, where there is one and only one."""
        return self.loads[0] if len(self.loads) == 1 else None

    @property
    def added(self) -> Additives | None:
        """The additives, if any."""
        return Additives(tuple(self.additives)) if self.additives else None
