"""The cheapest cover against a search that tries every mix, the laws it must keep, and the tables it fills in."""

from __future__ import annotations

from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.errors import OutOfRange
from core.questions import cover
from core.questions.cover import cheapest_cover
from core.units import factor

D = Decimal
OUNCE = factor("oz", "g")
# A gram, a tenth of an ounce, a millilitre of oil: three measures without a common one of any use.
UNITS = (D(1), OUNCE / 10, D("0.931"))

sizes = st.builds(lambda count, unit: count * unit, st.integers(2, 40), st.sampled_from(UNITS))
prices = st.one_of(st.just(D(0)), st.integers(0, 60).map(lambda quarters: D(quarters) / 4))
offers_lists = st.lists(st.tuples(sizes, prices), min_size=1, max_size=4)
needs = st.integers(1, 70).map(D)


def every_mix(need: Decimal, offers: list[tuple[Decimal, Decimal]]) -> Iterator[tuple[Decimal, Decimal, int]]:
    """(cost, covered, packs) of every mix that reaches the need and stops there."""

    def mixes(place: int, covered: Decimal, cost: Decimal, packs: int) -> Iterator[tuple[Decimal, Decimal, int]]:
        if covered >= need:
            yield cost, covered, packs
        elif place < len(offers):
            size, price = offers[place]
            count = 0
            while True:
                yield from mixes(place + 1, covered + count * size, cost + count * price, packs + count)
                if covered + count * size >= need:
                    return
                count += 1

    return mixes(0, D(0), D(0), 0)


@settings(max_examples=150)
@given(needs, offers_lists)
def test_no_mix_is_cheaper_leaves_less_or_takes_fewer_packs(
    need: Decimal, offers: list[tuple[Decimal, Decimal]]
) -> None:
    found = cheapest_cover(need, offers)
    assert (found.cost, found.covered, found.packs) == min(every_mix(need, offers))


@settings(max_examples=100)
@given(needs, offers_lists)
def test_small_tables_worked_in_groups_agree(need: Decimal, offers: list[tuple[Decimal, Decimal]]) -> None:
    """With little room for one table, the sizes are worked in groups or refused, never answered differently."""
    whole = cheapest_cover(need, offers)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cover, "MOST_UNITS", 60)
        try:
            grouped = cheapest_cover(need, offers)
        except OutOfRange:
            return
    assert (grouped.cost, grouped.covered, grouped.packs) == (whole.cost, whole.covered, whole.packs)


@settings(max_examples=60)
@given(st.integers(1, 5000), st.lists(st.tuples(st.integers(1, 12), st.integers(0, 40)), min_size=1, max_size=3))
def test_a_large_need_is_met_as_by_the_plain_recurrence(need: int, offers: list[tuple[int, int]]) -> None:
    """The packs that are taken for sure without a table must not change the answer."""
    best: list[tuple[int, int, int]] = [(0, 0, 0)]
    for amount in range(1, need + 1):
        parts = [(best[max(0, amount - size)], size, price) for size, price in offers]
        best.append(min((part[0] + price, part[1] + size, part[2] + 1) for part, size, price in parts))
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cover, "MOST_UNITS", 400)
        found = cheapest_cover(D(need), [(D(size), D(price)) for size, price in offers])
    assert (found.cost, found.covered, found.packs) == best[need]


def test_counts_stand_in_the_order_of_the_offers() -> None:
    found = cheapest_cover(D(9000), [(D(2000), D(18)), (D(5000), D(39))])
    assert (found.counts, found.cost, found.covered) == ((2, 1), D(75), D(9000))


def test_greedy_by_price_would_lose() -> None:
    # The cheapest by weight is 5 kg at 39; two of them cost 78 for 9 kg, the mix 75.
    assert cheapest_cover(D(9), [(D(5), D(39)), (D(2), D(18))]).cost == 75


def test_ties_leave_least_over_then_take_fewest_packs() -> None:
    assert cheapest_cover(D(9), [(D(5), D(10)), (D(10), D(20))]).counts == (0, 1)
    assert cheapest_cover(D(9), [(D(12), D(20)), (D(10), D(20))]).counts == (0, 1)


@pytest.fixture
def tables(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """The steps of each table that is filled in meanwhile: that is where the work goes."""
    lengths: list[int] = []
    fill = cover._Table.__init__

    def counted(table: cover._Table, *given: Any, **named: Any) -> None:
        fill(table, *given, **named)
        lengths.append(len(table.table))

    monkeypatch.setattr(cover._Table, "__init__", counted)
    return lengths


GRAM_SIZES = (7, 53, 101, 149, 377, 399)
OUNCE_SIZES = ("0.5", "1.75", "3.3", "7.15", "12.9", "33.25")
MIXED = [*map(D, GRAM_SIZES), *(D(size) * OUNCE for size in OUNCE_SIZES)]


def test_ten_thousand_units_of_twelve_sizes_take_one_table(tables: list[int]) -> None:
    odd = (7, 53, 101, 149, 250, 333, 377, 390, 397, 398, 399, 400)
    offers = [(D(size), D(size * (80 + size % 41)) / 100) for size in odd]
    assert cheapest_cover(D(10_000), offers).covered >= 10_000
    assert len(tables) == 1
    assert tables[0] <= 10_000 + 2 * max(odd)


@pytest.mark.parametrize("need", [D(10_000), OUNCE * 352])
@pytest.mark.parametrize("price", [D(0), D("0.01"), D("0.013")])
def test_grams_beside_ounces_take_a_table_each(tables: list[int], price: Decimal, need: Decimal) -> None:
    """The worst there is: no common measure, and every mix costs about the same."""
    found = cheapest_cover(need, [(size, (size * price).quantize(D("0.01"))) for size in MIXED])
    assert found.covered >= need
    assert len(tables) <= 2
    assert max(tables, default=0) <= cover.MOST_UNITS + 2 * max(GRAM_SIZES)


@settings(max_examples=25)
@given(st.integers(200, 1500).map(D), st.lists(st.sampled_from(MIXED), min_size=2, max_size=5, unique=True), st.data())
def test_grams_beside_ounces_against_a_search_from_the_need_down(
    need: Decimal, sizes: list[Decimal], data: st.DataObject
) -> None:
    """Another way to the same: the best of what is left after each pack, remembered by what is left."""
    offers = [(size, D(data.draw(st.integers(0, 40)))) for size in sizes]
    best: dict[Decimal, tuple[Decimal, Decimal, int]] = {}

    def cover_of(left: Decimal) -> tuple[Decimal, Decimal, int]:
        if left <= 0:
            return D(0), D(0), 0
        if left not in best:
            ways = ((cover_of(left - size), size, price) for size, price in offers)
            best[left] = min((rest[0] + price, rest[1] + size, rest[2] + 1) for rest, size, price in ways)
        return best[left]

    found = cheapest_cover(need, offers)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(cover, "MOST_UNITS", 2_000)
        grouped = cheapest_cover(need, offers)
    assert (found.cost, found.covered, found.packs) == (grouped.cost, grouped.covered, grouped.packs) == cover_of(need)


def test_a_pack_far_larger_than_the_need_takes_no_memory() -> None:
    offers = [(D("1e-12"), D(1)), (D("0.1"), D(3))]
    assert cheapest_cover(D("2e-12"), offers).counts == (2, 0)
    assert cheapest_cover(D("4e-12"), offers).counts == (0, 1)


def test_too_many_mixes_are_refused_with_a_way_out() -> None:
    offers = [(D(f"{size}.{size:03}{i}"), D(size)) for i, size in enumerate((7, 11, 13, 17, 19, 23), 1)]
    with pytest.raises(OutOfRange, match="Leave some sizes out"):
        cheapest_cover(D(10_000_000), offers)
