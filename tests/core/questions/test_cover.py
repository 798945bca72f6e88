"""The cheapest cover against a search that tries every mix, the laws it must keep, and the time it may take."""

from __future__ import annotations

import time
from collections.abc import Iterator
from decimal import Decimal

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


def quickest(need: Decimal, offers: list[tuple[Decimal, Decimal]]) -> float:
    """Seconds of processor time, the best of three runs."""
    times = []
    for _ in range(3):
        start = time.process_time()
        found = cheapest_cover(need, offers)
        times.append(time.process_time() - start)
    assert found.covered >= need
    return min(times)


GRAM_SIZES = (7, 53, 101, 149, 377, 399)
OUNCE_SIZES = ("0.5", "1.75", "3.3", "7.15", "12.9", "33.25")
MIXED = [*map(D, GRAM_SIZES), *(D(size) * OUNCE for size in OUNCE_SIZES)]


def test_ten_thousand_units_of_twelve_sizes_in_time() -> None:
    """The bound is 20 ms; the test leaves room for a busy machine."""
    odd = (7, 53, 101, 149, 250, 333, 377, 390, 397, 398, 399, 400)
    assert quickest(D(10_000), [(D(size), D(size * (80 + size % 41)) / 100) for size in odd]) < 0.06


@pytest.mark.parametrize("price", [D(0), D("0.01"), D("0.013")])
def test_grams_beside_ounces_in_time(price: Decimal) -> None:
    """The worst there is: no common measure, and every mix costs about the same."""
    offers = [(size, (size * price).quantize(D("0.01"))) for size in MIXED]
    assert quickest(D(10_000), offers) < 0.06
    assert quickest(OUNCE * 352, offers) < 0.06


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
