"""The arithmetic of wax, fragrance and additives, once: every question about a mix uses it.

With w wax, F fragrance, a additives as a fraction of the wax, p the load as a fraction:
of the wax F = w·p; of the total F = p·w·(1 + a) / (1 - p). A diluted oil of strength s takes s for the 1 in the latter,
and p / s for p in the former.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.compounds import Additives, Basis
from core.units import Mass, Percent

NO_ADDITIVES = Additives()
FULL = Percent(Decimal(100))
# Parts of a whole end at the digit this far behind its first, so that their sum stays exact in a Decimal's 40 digits.
FINEST = 36


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


@dataclass(frozen=True, slots=True)
class Recipe:
    """What decides a mix besides its size. `strength` is how much of a diluted oil is fragrance: the load counts only
    that part, the mix weighs the whole oil."""

    load: Percent
    basis: Basis
    additives: Additives = NO_ADDITIVES
    strength: Percent = FULL

    @property
    def oil_per_wax(self) -> Decimal:
        """F / w. A load of the total must be under the strength."""
        p, s = self.load.fraction, self.strength.fraction
        return p / s if self.basis is Basis.WAX else p * (1 + self.additives.fraction) / (s - p)

    @property
    def possible(self) -> bool:
        """False where no amount of this oil reaches the load."""
        return self.basis is Basis.WAX or self.load.base < self.strength.base

    def of_wax(self, wax: Mass) -> Mix:
        """The mix for so much wax."""
        return Mix(wax, wax * self.oil_per_wax, self._weights(wax))

    def of_fragrance(self, oil: Mass) -> Mix:
        """The mix that uses up so much oil. The load must not be zero."""
        wax = Mass(oil.base / self.oil_per_wax, oil.unit)
        return Mix(wax, oil, self._weights(wax))

    def of_total(self, total: Mass) -> Mix:
        """The mix that weighs `total` in all; its parts add up to it to the last digit."""
        share = 1 / (1 + self.additives.fraction + self.oil_per_wax)
        wax = _part(total, share)
        weights = tuple((name, _part(total, share * percent.fraction)) for name, percent in self.additives.named)
        rest = total - wax
        for _, mass in weights:
            rest = rest - mass
        return Mix(wax, rest, weights)

    def _weights(self, wax: Mass) -> tuple[tuple[str, Mass], ...]:
        return tuple((name, wax * percent.fraction) for name, percent in self.additives.named)


def _part(total: Mass, fraction: Decimal) -> Mass:
    return Mass((total.base * fraction).quantize(Decimal(1).scaleb(total.base.adjusted() - FINEST)), total.unit)


def shares(total: Mass, parts: tuple[tuple[str, Decimal], ...]) -> tuple[tuple[str, Mass], ...]:
    """`total` divided in proportion; the shares add up to it to the last digit."""
    whole = sum((part for _, part in parts), Decimal(0))
    out: list[tuple[str, Mass]] = []
    rest = total
    for name, part in parts[:-1]:
        share = _part(total, part / whole)
        out.append((name, share))
        rest = rest - share
    out.append((parts[-1][0], rest))
    return tuple(out)
