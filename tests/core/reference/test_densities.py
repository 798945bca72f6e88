"""Published densities against reference libraries and the texts they come from."""

from collections.abc import Callable
from decimal import Decimal

import chemicals
import CoolProp.CoolProp as CoolProp
import iapws
import pytest
from chemicals import volume as liquid_tables
from chemicals.dippr import EQ105, EQ116

from core.errors import OutOfRange
from core.reference import densities
from core.reference.densities import State
from core.reference.table import Status

ATMOSPHERE = 101_325.0


def coolprop(fluid: str, degrees: float) -> float:
    """kg/m³ at one atmosphere."""
    return float(CoolProp.PropsSI("D", "T", 273.15 + degrees, "P", ATMOSPHERE, fluid))


def dippr(cas: str, degrees: float) -> float:
    """kg/m³ by the raw table; the library's own top-level answer may be an estimate."""
    liquid_tables._load_rho_data()
    row = liquid_tables.rho_data_Perry_8E_105_l.loc[cas]
    return float(EQ105(273.15 + degrees, row.C1, row.C2, row.C3, row.C4) * chemicals.MW(cas) / 1000)


def vdi(cas: str, degrees: float) -> float:
    """kg/m³ by the raw table."""
    liquid_tables._load_rho_data()
    row = liquid_tables.rho_data_VDI_PPDS_2.loc[cas]
    return float(EQ116(273.15 + degrees, row.Tc, row.rhoc, row.A, row.B, row.C, row.D))


def rational_1975(degrees: float, denominator: float = 16.879850e-3) -> float:
    """Water in kg/m³ by the rational formula of J. Chem. Eng. Data 20:97 (1975), numerator from memory."""
    t = degrees
    top = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return top / (1 + denominator * t)


# ---- water


@pytest.mark.parametrize("degrees", range(41))
def test_water_is_the_iapws_95_water(degrees: int) -> None:
    found = float(densities.water_density(Decimal(degrees))) * 1000
    assert found == pytest.approx(iapws.IAPWS95(T=273.15 + degrees, P=0.101325).rho, abs=6e-5)  # iapws
    if degrees:  # CoolProp holds 0 °C at one atmosphere for ice
        assert found == pytest.approx(coolprop("Water", degrees), abs=6e-5)


@pytest.mark.parametrize("degrees", [0.5, 3.7, 12.25, 20.4, 33.3, 39.9])
def test_water_between_whole_degrees(degrees: float) -> None:
    # IAPWS-95 through iapws; straight lines over 1 °C stay within 2.5e-3 kg/m³ of it
    found = float(densities.water_density(Decimal(str(degrees)))) * 1000
    assert found == pytest.approx(iapws.IAPWS95(T=273.15 + degrees, P=0.101325).rho, abs=2.5e-3)


@pytest.mark.parametrize("degrees", range(0, 41, 5))
def test_water_agrees_with_the_1975_formula(degrees: int) -> None:
    # J. Chem. Eng. Data 20:97 (1975): an independent formula, within 0.004 kg/m³
    assert float(densities.water_density(Decimal(degrees))) * 1000 == pytest.approx(rational_1975(degrees), abs=0.004)


def test_a_transposed_digit_in_the_1975_formula_would_be_seen() -> None:
    # 16.897850e-3 for 16.879850e-3 gives 997.94 at 20 °C; a reprint carries this slip
    wrong = rational_1975(20, denominator=16.897850e-3)
    assert wrong == pytest.approx(997.936, abs=0.001)
    assert float(densities.water_density(Decimal(20))) * 1000 != pytest.approx(wrong, abs=0.1)


def test_a_hundred_millilitres_of_water() -> None:
    # IAPWS-95: 99.82 g at 20 °C, 99.70 g at 25 °C
    assert round(100 * densities.water_density(Decimal(20)), 2) == Decimal("99.82")
    assert round(100 * densities.water_density(Decimal(25)), 2) == Decimal("99.70")


@pytest.mark.parametrize("degrees", ["-0.1", "40.1", "100", "NaN", "-inf"])
def test_water_outside_the_table_is_refused_with_the_range(degrees: str) -> None:
    with pytest.raises(OutOfRange, match="0 to 40 °C"):
        densities.water_density(Decimal(degrees))


def test_water_is_a_material_with_the_same_table() -> None:
    water = densities.find("water")
    assert water is not None
    for degrees in (0, 4, 20, 40):
        figure = water.figure(at=Decimal(degrees))
        assert figure is not None
        assert figure.point == densities.water_density(Decimal(degrees))
    room = water.figure()
    assert room is not None
    assert (room.at, room.state) == (20, State.LIQUID)


# ---- liquids a library knows


@pytest.mark.parametrize(
    ("name", "degrees", "reference", "digits"),
    [
        ("d-limonene", 20, lambda t: coolprop("INCOMP::TCO", t), 2),
        ("d-limonene", 25, lambda t: coolprop("INCOMP::TCO", t), 2),
        ("d-limonene", 60, lambda t: coolprop("INCOMP::TCO", t), 2),
        ("ethanol", 20, lambda t: coolprop("Ethanol", t), 2),
        ("ethanol", 25, lambda t: coolprop("Ethanol", t), 2),
        ("propylene glycol", 20, lambda t: coolprop("PropyleneGlycol", t), 2),
        ("propylene glycol", 25, lambda t: coolprop("PropyleneGlycol", t), 2),
        ("vegetable fat", 60, lambda t: coolprop("INCOMP::FoodFat", t), 1),
        ("vegetable fat", 80, lambda t: coolprop("INCOMP::FoodFat", t), 1),
        ("benzyl alcohol", 20, lambda t: dippr("100-51-6", t), 1),
        ("benzyl alcohol", 25, lambda t: dippr("100-51-6", t), 1),
        ("methyl salicylate", 20, lambda t: vdi("119-36-8", t), 1),
        ("methyl salicylate", 25, lambda t: vdi("119-36-8", t), 1),
        ("isopropyl alcohol", 20, lambda t: vdi("67-63-0", t), 1),
        ("isopropyl alcohol", 25, lambda t: vdi("67-63-0", t), 1),
        ("glycerol", 20, lambda t: vdi("56-81-5", t), 1),
        ("glycerol", 25, lambda t: vdi("56-81-5", t), 1),
    ],
)
def test_computed_figures_are_the_library_s(
    name: str, degrees: int, reference: Callable[[float], float], digits: int
) -> None:
    material = densities.find(name)
    assert material is not None
    (figure,) = [each for each in material.figures if each.status is Status.COMPUTED and each.at == degrees]
    assert figure.point is not None
    expected = reference(float(degrees))  # CoolProp; or chemicals: DIPPR equation 105, VDI equation 116
    assert float(figure.point) * 1000 == pytest.approx(expected, abs=0.51 * 10**-digits)


def test_every_computed_figure_is_checked_above() -> None:
    checked = {
        "d-limonene",
        "ethanol",
        "propylene glycol",
        "vegetable fat",
        "benzyl alcohol",
        "methyl salicylate",
        "isopropyl alcohol",
        "glycerol",
        "water",
        "paraffin wax",  # molten: by the alkanes, below
    }
    computed = {m.key for m in densities.materials() if any(f.status is Status.COMPUTED for f in m.figures)}
    assert computed == checked


def test_molten_paraffin_holds_the_alkanes_a_library_knows() -> None:
    # chemicals, VDI equation 116: eicosane (C20) at 80 °C; paraffin wax is mostly C20 to C40
    band = densities.find("paraffin").band(State.MOLTEN)  # type: ignore[union-attr]
    assert band is not None
    assert float(band.low) <= vdi("112-95-8", 80) / 1000 <= float(band.high)


@pytest.mark.parametrize(
    ("name", "grams"), [("d-limonene", "24.93"), ("water", "29.52"), ("methyl salicylate", "34.92")]
)
def test_one_us_fluid_ounce_of_three_liquids(name: str, grams: str) -> None:
    # CoolProp, IAPWS-95 and chemicals at 20 °C; the fluid ounce is 29.5735295625 ml (231 in³ / 128)
    figure = densities.find(name).figure(at=Decimal(20))  # type: ignore[union-attr]
    assert figure is not None
    assert figure.point is not None
    assert round(figure.point * Decimal("29.5735295625"), 2) == Decimal(grams)


# ---- figures that were read


@pytest.mark.parametrize(
    ("name", "state", "low", "high"),
    [
        ("paraffin", State.SOLID, "0.880", "0.925"),  # museum materials database
        ("beeswax", State.SOLID, "0.95", "0.970"),  # encyclopedia 0.958-0.970, excipients handbook 0.95-0.96
        ("carnauba", State.SOLID, "0.97", "0.999"),  # pharmacopoeias and a chemical index, which disagree
        ("stearin", State.SOLID, "0.9408", "0.9408"),  # chemistry handbook, 20 °C
        ("stearin", State.MOLTEN, "0.847", "0.847"),  # excipients handbook, 70 °C
        ("coconut oil", State.SOLID, "0.92", "0.94"),  # cargo handbook
        ("benzyl benzoate", State.LIQUID, "1.116", "1.120"),  # International Pharmacopoeia
        ("ipm", State.LIQUID, "0.846", "0.854"),  # USP 29
        ("dpg", State.LIQUID, "1.0206", "1.0206"),  # encyclopedia, 20 °C
    ],
)
def test_bands_that_were_read(name: str, state: State, low: str, high: str) -> None:
    band = densities.find(name).band(state)  # type: ignore[union-attr]
    assert band is not None
    assert (band.low, band.high, band.status) == (Decimal(low), Decimal(high), Status.READ)


@pytest.mark.parametrize(
    ("name", "low", "high", "water"),
    [
        ("orange oil", "0.842", "0.846", "0.9970476"),  # USP, 25/25
        ("clove oil", "1.038", "1.060", "0.9970476"),  # USP, 25/25
        ("patchouli oil", "0.952", "0.975", "0.9982072"),  # fragrance materials handbook, 20/20
        ("citronella oil", "0.875", "0.904", "0.9970476"),  # 27 CFR 21.105, 25/25
        ("cinnamaldehyde", "1.048", "1.052", "0.9970476"),  # US national toxicology programme, 25/25
    ],
)
def test_relative_densities_are_turned_into_grams_per_millilitre(name: str, low: str, high: str, water: str) -> None:
    band = densities.find(name).band()  # type: ignore[union-attr]
    assert band is not None
    assert (band.low, band.high) == (Decimal(low) * Decimal(water), Decimal(high) * Decimal(water))


def test_two_ways_of_stating_one_band_agree() -> None:
    # citral, FAO/WHO: 0.885-0.891 at 25/25 and 0.888-0.894 at 20/20; diethyl phthalate, USP 28 and 27 CFR 21.106.
    # Oils thin by about 0.0008 g/ml per °C, so 5 °C account for 0.004.
    for name in ("citral", "diethyl phthalate"):
        material = densities.find(name)
        assert material is not None
        cool, warm = material.figure(at=Decimal(20)), material.figure(at=Decimal(25))
        assert cool is not None
        assert warm is not None
        assert Decimal("0.002") < cool.middle - warm.middle < Decimal("0.007")


def test_limonene_as_published_and_as_computed_differ_by_less_than_a_percent() -> None:
    limonene = densities.find("limonene")
    assert limonene is not None
    for figure in limonene.figures:
        if figure.away_from(Decimal(20)) <= 5:
            assert abs(figure.middle / Decimal("0.8429") - 1) < Decimal("0.01")
