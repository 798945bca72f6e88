"""Which question a text is: one row for each, in the order they are tried.

A row fits when every group of its cues has been heard, none of `lacks` was, and the amounts it needs are there; then
its builder makes the question, or hands on (None) if it finds that the amounts do not go together that way.
"""

from __future__ import annotations

import functools
from collections.abc import Callable
from dataclasses import dataclass
from typing import NamedTuple

from core.answer import Answer
from core.question import Question
from core.reading import (
    ask_bench,
    ask_buy,
    ask_compare,
    ask_convert,
    ask_cost,
    ask_density,
    ask_drops,
    ask_formula,
    ask_groups,
    ask_heat,
    ask_label,
    ask_left,
    ask_load,
    ask_paid,
    ask_parcel,
    ask_parts,
    ask_printed,
    ask_recorded,
    ask_rescue,
    ask_scale,
    ask_set_label,
    ask_stock,
    ask_vessel,
    ask_volume,
    doses,
    one_and_all,
    recipes,
)
from core.reading.givens import Givens

Build = Callable[[Givens], Question | Answer | None]


@dataclass(frozen=True, slots=True)
class Row:
    """One way to ask. `hears`: one tag of each group must be heard; `holds`: each kind of amount must be there."""

    intent: str
    build: Build
    hears: tuple[str, ...] = ()
    holds: tuple[str, ...] = ()
    lacks: str = ""
    without: str = ""

    def takes(self, kinds: frozenset[str]) -> bool:
        """Whether the row is about amounts of these kinds."""
        held = all(not kinds.isdisjoint(group.split()) for group in self.holds)
        return held and kinds.isdisjoint(self.without.split())


class Cues(NamedTuple):
    """What must be heard for a row, one tag of each set, and what must not."""

    build: Build
    hears: tuple[frozenset[str], ...]
    lacks: frozenset[str]

    def fit(self, heard: frozenset[str]) -> bool:
        """Whether these tags are what the row waits for."""
        for group in self.hears:
            if heard.isdisjoint(group):
                return False
        return heard.isdisjoint(self.lacks)


ROWS = (
    Row("formula", ask_recorded.formula),
    Row("vessel_fill", ask_recorded.vessels),
    Row("blend", ask_parts.blend_density, holds=("density",)),
    Row("wax_for_fragrance", ask_stock.how_many_candles, hears=("asks number",), holds=("mass",)),
    Row("formula", ask_formula.to_weight, holds=("mass",), without="volume money"),
    Row("concept", ask_stock.weighed_wrong, holds=("mass",), without="percent rate volume money"),
    Row("cost", ask_paid.shared_pack, holds=("money", "mass")),
    Row("cost", ask_paid.both_at_rates, holds=("money", "mass"), without="volume percent"),
    Row("cost", ask_paid.price_rose, holds=("money", "mass"), without="volume percent"),
    Row("cost", ask_paid.part_of_a_volume, holds=("money", "mass", "volume", "density number")),
    Row("wax_for_fragrance", ask_paid.batches_of_a_bottle, holds=("mass", "volume", "density number"), without="money"),
    Row("parcel_weight", ask_parcel.by_bracket, hears=("parcel box",), holds=("mass", "money")),
    Row("cost", ask_cost.sheet, hears=("price",), holds=("money",)),
    Row("purchase", ask_buy.buy_packs, hears=("pack bottle box", "asks"), holds=("mass",), without="density volume"),
    Row("purchase", ask_buy.spend, holds=("money",)),
    Row("batch_for_vessels", ask_left.left_of_mix, holds=("mass", "number"), without="volume money"),
    Row("wax_for_fragrance", ask_stock.remaining, hears=("left left_over",), holds=("mass",), without="percent money"),
    Row(
        "wax_for_fragrance", ask_stock.candles_from_oil, hears=("fragrance", "asks"), holds=("mass",), without="percent"
    ),
    Row("parcel_weight", ask_parcel.parcel, hears=("parcel volumetric",), lacks="buy"),
    Row("parcel_weight", ask_parcel.parcel_by_size, holds=("length",), without="money percent"),
    Row(
        "parcel_weight", ask_parcel.parcel, hears=("box", "candle jar total"), holds=("mass",), without="money percent"
    ),
    Row("label_weight", ask_set_label.set_label, hears=("net",), holds=("mass",), without="percent rate volume"),
    Row("label_weight", ask_printed.lot, holds=("mass",), without="percent rate volume"),
    Row("label_weight", ask_printed.agreement, hears=("net label",), holds=("mass",), without="volume"),
    Row("label_weight", ask_label.label, hears=("net label",), holds=("mass percent rate",), without="volume"),
    Row("label_weight", ask_label.label, hears=("net", "label"), without="mass percent rate volume number"),
    Row("scale_resolution", ask_scale.whole_grams, hears=("error",), holds=("mass",), without="volume"),
    Row("scale_resolution", ask_scale.whole_grams, hears=("scale",), holds=("percent",), without="mass volume"),
    Row("scale_resolution", ask_scale.scale, hears=("scale step", "error smallest"), without="volume"),
    Row("scale_resolution", ask_scale.scale, hears=("scale step",), holds=("mass",), without="volume rate"),
    Row("volume_needs_density", doses.doses, without="volume drop density"),
    Row("load_from_weights", ask_drops.drops, holds=("drop",), without="temperature difference"),
    Row("volume_needs_density", ask_volume.parts_by_volume, holds=("part ratio",)),
    Row("ambiguous_ounces", ask_compare.same_ounces, hears=("compare",), holds=("mass",)),
    Row("convert_temperature", ask_heat.heat, holds=("temperature difference degrees",)),
    Row("convert_mass", ask_compare.equation, holds=("rate",)),
    Row("convert_volume", ask_compare.compare, holds=("mass volume length",)),
    Row("concept", ask_stock.tare, hears=("pot jar bottle measure",), holds=("mass",), without="percent rate volume"),
    Row(
        "purchase",
        ask_buy.buy,
        hears=("pack bottle",),
        holds=("mass",),
        without="density volume temperature",
        lacks="flakes net",
    ),
    Row(
        "purchase",
        ask_buy.packs_for_need,
        hears=("pack bottle box", "want"),
        holds=("mass",),
        without="money percent rate",
    ),
    Row("purchase", ask_cost.cost, hears=("price",), holds=("money", "mass")),
    Row("purchase", ask_buy.buy, holds=("money", "mass volume")),
    Row("purchase", ask_paid.both_materials, holds=("money", "mass"), without="percent"),
    Row(
        "split_total",
        recipes.rest_of_mix,
        hears=("total",),
        holds=("mass", "percent rate ratio"),
    ),
    Row(
        "batch_for_vessels", recipes.resized, hears=("wax", "fragrance"), holds=("mass",), without="percent rate ratio"
    ),
    Row(
        "batch_for_vessels",
        recipes.resized,
        hears=("dye additive", "wax fragrance"),
        holds=("mass",),
        without="percent rate ratio",
    ),
    Row("batch_for_vessels", ask_groups.groups, hears=("jar candle pot",), holds=("mass", "percent", "number")),
    Row("fragrance_for_wax", ask_parts.part_and_rest, holds=("mass", "percent rate")),
    Row("fragrance_for_wax", one_and_all.one_of_all, hears=("jar candle",), holds=("mass", "percent rate ratio")),
    Row("batch_for_vessels", recipes.resized_load, hears=("wax",), holds=("mass", "percent", "number")),
    Row("batch_for_vessels", ask_bench.sum_of_moulds, hears=("jar candle",), holds=("mass", "number")),
    Row("batch_for_vessels", ask_bench.batch, holds=("mass volume percent",), without="drop length"),
    Row(
        "vessel_fill",
        ask_vessel.vessel,
        hears=("jar candle pot holds fill", "water"),
        holds=("mass",),
        lacks="dissolve",
    ),
    Row("vessel_fill", ask_vessel.took_full, hears=("jar candle pot holds fill",), holds=("mass",), without="volume"),
    Row("vessel_fill", ask_vessel.vessel, hears=("jar holds fill wide high square",), holds=("length",)),
    Row("vessel_fill", ask_vessel.vessel, hears=("jar holds candle fill",), holds=("volume",)),
    Row("vessel_fill", ask_vessel.vessel, hears=("pot", "full"), holds=("volume",)),
    Row("vessel_fill", ask_vessel.vessel, hears=("jar candle",), holds=("mass",)),
    Row("batch_for_vessels", ask_parts.dye_only, hears=("dye additive",), holds=("mass", "percent"), without="volume"),
    Row("density_from_measurement", ask_density.measured_density, holds=("mass volume",)),
    Row("density_given_conversion", ask_volume.with_density, holds=("density number", "mass volume")),
    Row("volume_needs_density", ask_volume.volume_to_weight, holds=("volume", "mass percent")),
    Row("convert_volume", ask_compare.compare_measures, hears=("compare bigger us uk",)),
    Row("convert_volume", ask_convert.one_in_another),
    Row("convert_mass", ask_convert.convert, holds=("mass volume length",)),
    Row("volume_needs_density", ask_volume.volume_to_weight, holds=("volume",)),
    Row("weight_to_volume_needs_density", ask_volume.weight_to_volume, holds=("mass",)),
    Row("rescue", ask_rescue.rescue, hears=("top_up wrong already add limit",), holds=("mass", "percent rate ratio")),
    Row(
        "wax_for_fragrance",
        ask_stock.stock,
        hears=("runs_out left_over left",),
        holds=("mass", "percent rate ratio number"),
    ),
    Row("wax_for_fragrance", ask_stock.wax_for_unknown_oil, hears=("asks",), holds=("percent",), without="mass volume"),
    Row("fragrance_for_wax", ask_load.nothing_given, hears=("asks", "fragrance", "wax candle"), without="mass volume"),
    Row("fragrance_for_wax", ask_load.load, holds=("mass percent rate ratio part number",)),
)


# Texts hold the same few kinds of amounts together again and again; each kind of them needs a part of the table only.
@functools.lru_cache(maxsize=256)
def _rows_for(kinds: frozenset[str]) -> tuple[Cues, ...]:
    """The rows about these kinds of amounts, their cells taken apart."""
    return tuple(
        Cues(row.build, tuple(frozenset(group.split()) for group in row.hears), frozenset(row.lacks.split()))
        for row in ROWS
        if row.takes(kinds)
    )


def question_of(g: Givens) -> Question | Answer | None:
    """The first row that fits and whose builder makes something of the text."""
    heard = g.scan.tags
    for row in _rows_for(frozenset([m.kind for m in g.scan.found])):
        if row.fit(heard) and (built := row.build(g)) is not None:
            return built
    return None
