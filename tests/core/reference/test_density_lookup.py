"""Finding a published density: by its spellings, by near ones, and the band over a kind of material."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.reference import densities, table
from core.reference.densities import Family, State
from core.reference.table import Status, TableError

HOSTILE = ("a" * 6000, "oil " * 1500, "\u202e" * 6000, "wax\x00" * 1500)


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Paraffin", "paraffin wax"),
        ("parafin", "paraffin wax"),
        ("  SOYA   Wax ", "soy wax"),
        ("soy", "soy wax"),
        ("stearin", "stearic acid"),
        ("bee’s wax", "beeswax"),
        ("Glycerine", "glycerol"),
        ("α-Pinene", "alpha-pinene"),
        ("lavender essential oil", "lavender oil"),
    ],
)
def test_spellings(text: str, key: str) -> None:
    material = densities.find(text)
    assert material is not None
    assert material.key == key


@pytest.mark.parametrize(
    "text", ["", " ", "wax", "fragrance", "lavender", "orange", "lavender fragrance oil", "oil", "w" * 6000]
)
def test_what_names_no_one_material_finds_none(text: str) -> None:
    # a bare plant name may be a fragrance oil, which weighs differently
    assert densities.find(text) is None


def test_soy_wax_is_known_and_has_no_figure() -> None:
    soy = densities.find("soy wax")
    assert soy is not None
    assert soy.family is Family.WAX
    assert soy.figures == ()
    assert "No verified density" in soy.note
    assert (soy.figure(), soy.band(), soy.band(State.SOLID), soy.state) == (None, None, None, None)


def test_no_name_stands_for_two_materials(monkeypatch: pytest.MonkeyPatch) -> None:
    names = [name.casefold() for each in densities.materials() for name in (each.key, *each.names)]
    assert len(names) == len(set(names))
    original = table.text_of("densities")
    monkeypatch.setattr(table, "text_of", lambda _name: original.replace('"parafin"', '"bees wax"'))
    for cached in (densities._table, densities.materials, densities._by_name):
        cached.cache_clear()
    with pytest.raises(TableError, match="bees wax"):
        densities.find("anything")
    for cached in (densities._table, densities.materials, densities._by_name):
        cached.cache_clear()


@pytest.mark.parametrize(
    ("text", "first"), [("soya waxx", "soy wax"), ("parrafine", "paraffin wax"), ("limonen", "d-limonene")]
)
def test_near_misses(text: str, first: str) -> None:
    assert densities.near(text, 3)[0] == first


@pytest.mark.parametrize("text", ["rose oil", "golden wax", "amber fragrance oil"])
def test_the_kind_alone_brings_no_name_near(text: str) -> None:
    assert densities.near(text, 3) == []


def test_a_wax_is_never_offered_for_an_oil() -> None:
    for text in ("coconut oil x", "rape oill", "palmm oil", "soybeans oil"):
        assert not any(key.endswith("wax") and "oil" not in key for key in densities.near(text, 5)), text


def test_near_is_bounded_and_quiet_about_nonsense() -> None:
    assert densities.near("qqqq", 5) == []
    assert densities.near("", 5) == []
    assert len(densities.near("oil", 2)) <= 2
    names = densities.near("essential oil", 25)
    assert len(names) == len(set(names))


@pytest.mark.parametrize("text", HOSTILE, ids=["letters", "words", "marks", "nulls"])
def test_hostile_names_are_no_material(text: str) -> None:
    assert densities.find(text) is None
    assert len(densities.near(text, 5)) <= 5


@pytest.mark.parametrize(
    ("family", "state", "low", "high", "lowest", "highest"),
    [
        # the ends are figures of the published tables, each checked above or against its library
        (Family.WAX, State.SOLID, "0.880", "0.999", "paraffin wax", "carnauba wax"),
        (Family.FRAGRANCE, State.LIQUID, "0.83901", "1.1808", "d-limonene", "methyl salicylate"),
        (Family.CARRIER, State.LIQUID, "0.846", "1.122", "isopropyl myristate", "diethyl phthalate"),
        (Family.SOLVENT, State.LIQUID, "0.7818", "1.2612", "isopropyl alcohol", "glycerol"),
    ],
)
def test_bands(family: Family, state: State, low: str, high: str, lowest: str, highest: str) -> None:
    band = densities.band(family, state)
    assert band is not None
    assert (band.low, band.high) == (Decimal(low), Decimal(high))
    assert (band.lowest, band.highest) == (lowest, highest)
    assert {lowest, highest} <= set(band.members)
    assert band.status is not Status.MEMORY
    assert all(band.sources)


def test_the_band_of_fragrances_spans_essential_oils() -> None:
    fragrance, oils = (densities.band(each, State.LIQUID) for each in (Family.FRAGRANCE, Family.ESSENTIAL_OIL))
    assert fragrance is not None
    assert oils is not None
    assert set(oils.members) < set(fragrance.members)
    assert fragrance.low <= oils.low <= oils.high <= fragrance.high


def test_molten_wax_is_lighter_than_solid_wax() -> None:
    # computed alkanes and fats, Codex coconut oil: every wax thins as it melts
    solid, molten = densities.band(Family.WAX, State.SOLID), densities.band(Family.WAX, State.MOLTEN)
    assert solid is not None
    assert molten is not None
    assert (molten.low, molten.lowest) == (Decimal("0.74"), "paraffin wax")
    assert molten.high < solid.high
    assert molten.low < solid.low


def test_a_heap_of_flakes_is_known_only_from_memory() -> None:
    # from memory: excipients handbook, 0.54 loose stearic acid and 0.57 tapped vegetable oil powder
    loose = densities.band(Family.WAX, State.LOOSE)
    assert loose is not None
    assert loose.status is Status.MEMORY
    solid = densities.band(Family.WAX, State.SOLID)
    assert solid is not None
    assert loose.high < solid.low


def test_figures_from_memory_do_not_widen_a_band() -> None:
    band = densities.find("eugenol").band()  # type: ignore[union-attr]
    assert band is not None
    assert band.high == Decimal("1.064") * Decimal("0.9970476")  # not the 1.070 from memory
    assert band.status is Status.READ


def test_nothing_is_published_of_additives() -> None:
    assert densities.band(Family.ADDITIVE, State.LIQUID) is None
    assert densities.band(Family.WAX, State.LIQUID) is None


@given(st.decimals(min_value=-50, max_value=300, places=1, allow_nan=False))
def test_the_figure_chosen_is_the_nearest_good_one(at: Decimal) -> None:
    for material in densities.materials():
        figure = material.figure(at=at)
        rivals = [
            each for each in material.figures if each.state is material.state and each.status is not Status.MEMORY
        ]
        if figure is not None and rivals:
            assert figure.status is not Status.MEMORY
            assert figure.away_from(at) == min(each.away_from(at) for each in rivals)


def test_figures_are_densities_of_real_liquids_and_waxes() -> None:
    for material in densities.materials():
        for figure in material.figures:
            assert Decimal("0.5") < figure.low <= figure.middle <= figure.high < Decimal("1.3")
            assert figure.high - figure.low < Decimal("0.06")
