"""The arithmetic of wax, fragrance and additives, once: every question about a mix uses it.

With w wax, F fragrance, a additives as a fraction of the wax, p the load as a fraction:
of the wax F = w·p; of the total F = p·w·(1 + a) / (1 - p).
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.compounds import Additives, Basis
from core.units import Mass, Percent

NO_ADDITIVES = Additives()


@dataclass(frozen=True, slots=True)
class Mix:
    """What goes into the pot, by weight."""

    wax: Mass
    fragrance: Mass
    additives: tuple[tuple[str, Mass], ...] = ()

    @property
    def total(self) -> Mass:
        """Everything in the pot."""
        total = self.wax + self.fragrance
        for _, mass in self.additives:
            total = total + mass
        return total

    @property
    def load_of_wax(self) -> Percent:
        """F / w; the wax must not be zero."""
        return Percent(self.fragrance.base / self.wax.base * 100)

    @property
    def load_of_total(self) -> Percent:
        """F / (everything in the pot)."""
        return Percent(self.fragrance.base / self.total.base * 100)


def fragrance_per_wax(load: Percent, basis: Basis, additives: Additives = NO_ADDITIVES) -> Decimal:
    """F / w for that load. A load of the total must be under 100 %."""
    p = load.fraction
    return p if basis is Basis.WAX else p * (1 + additives.fraction) / (1 - p)


def mix_of_wax(wax: Mass, load: Percent, basis: Basis, additives: Additives = NO_ADDITIVES) -> Mix:
    """The mix for so much wax."""
    return Mix(wax, wax * fragrance_per_wax(load, basis, additives), _weights(wax, additives))


def mix_of_fragrance(fragrance: Mass, load: Percent, basis: Basis, additives: Additives = NO_ADDITIVES) -> Mix:
    """The mix that uses up so much fragrance. The load must not be zero."""
    wax = Mass(fragrance.base / fragrance_per_wax(load, basis, additives), fragrance.unit)
    return Mix(wax, fragrance, _weights(wax, additives))


def mix_of_total(total: Mass, load: Percent, basis: Basis, additives: Additives = NO_ADDITIVES) -> Mix:
    """The mix that weighs `total` in all; its parts add up to it to the last digit."""
    wax = Mass(total.base / (1 + additives.fraction + fragrance_per_wax(load, basis, additives)), total.unit)
    weights = _weights(wax, additives)
    rest = total - wax
    for _, mass in weights:
        rest = rest - mass
    return Mix(wax, rest, weights)


def _weights(wax: Mass, additives: Additives) -> tuple[tuple[str, Mass], ...]:
    return tuple((name, wax * percent.fraction) for name, percent in additives.items)


def shares(total: Mass, parts: tuple[tuple[str, Decimal], ...]) -> tuple[tuple[str, Mass], ...]:
    """`total` divided in proportion; the shares add up to it to the last digit."""
    whole = sum((part for _, part in parts), Decimal(0))
    out: list[tuple[str, Mass]] = []
    rest = total
    for name, part in parts[:-1]:
        share = Mass(total.base * part / whole, total.unit)
        out.append((name, share))
        rest = rest - share
    out.append((parts[-1][0], rest))
    return tuple(out)
