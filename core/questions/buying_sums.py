"""The sums of buying: pack sizes in one kind of amount, packs of one size, and the best mix."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import ROUND_CEILING, Decimal

from core.compounds import Pack
from core.errors import OutOfRange
from core.questions.cover import cheapest_cover
from core.units import Density, Mass, Money, Quantity, Volume
from core.writing import figure

MOST_PACKS = 1_000_000


@dataclass(frozen=True, slots=True)
class Offer:
    """A pack with its size in the base unit of the need (g, ml or pieces) and its price in the common currency."""

    pack: Pack
    size: Decimal
    price: Money | None

    @property
    def key(self) -> str:
        """For machine names: `2kg`."""
        unit = self.pack.size.unit
        number = figure(self.pack.size.to(unit).normalize())
        return number.replace(",", "") + ("" if unit == "count" else unit)


@dataclass(frozen=True, slots=True)
class Buy:
    """Packs to buy as (offer, count), none with count 0; the amount they hold and their cost, None without prices."""

    packs: tuple[tuple[Offer, int], ...]
    held: Decimal
    cost: Money | None

    @property
    def count(self) -> int:
        """How many packs in all."""
        return sum(count for _, count in self.packs)


def in_base(size: Quantity, kind: type[Quantity], density: Density | None) -> Decimal | None:
    """The size in the base unit of `kind`; None where no density turns one into the other."""
    if type(size) is kind:
        return size.base
    if density is not None and isinstance(size, Volume) and kind is Mass:
        return density.mass_of(size).base
    if density is not None and isinstance(size, Mass) and kind is Volume:
        return density.volume_of(size).base
    return None


def price_by_weight(size: Mass, of: Mass, price: Money) -> Money:
    """What `size` costs where `of` costs `price`."""
    return Money(size.base / of.base * price.base, price.unit)


def only(offer: Offer, need: Decimal) -> Buy:
    """Enough packs of this one size. Raises OutOfRange for more packs than anybody buys."""
    count = (need / offer.size).to_integral_value(ROUND_CEILING)
    if count > MOST_PACKS:
        raise OutOfRange(
            str(count)[:40], f"That would be more than {MOST_PACKS:,} packs. Check the units of the need and the packs."
        )
    return _buy([(offer, int(count))])


def best_mix(offers: Sequence[Offer], need: Decimal) -> Buy:
    """The cheapest mix, ties by least left over, then by fewest packs; without prices the one that leaves least."""
    cover = cheapest_cover(need, [(each.size, each.price.base if each.price else Decimal(0)) for each in offers])
    return _buy(list(zip(offers, cover.counts, strict=True)))


def _buy(chosen: list[tuple[Offer, int]]) -> Buy:
    packs = tuple((offer, count) for offer, count in chosen if count)
    prices = [offer.price * count for offer, count in packs if offer.price is not None]
    cost = sum((price.base for price in prices), Decimal(0))
    return Buy(
        packs,
        sum((offer.size * count for offer, count in packs), Decimal(0)),
        Money(cost, prices[0].unit) if len(prices) == len(packs) else None,
    )
