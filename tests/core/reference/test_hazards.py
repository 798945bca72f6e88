"""Flash points and cautions."""

from decimal import Decimal

import pytest

from core.reference import densities, hazards
from core.reference.table import Status


@pytest.mark.parametrize("name", ["paraffin", "bees wax", "stearin"])
def test_waxes_are_only_said_to_flash_at_190_or_above(name: str) -> None:
    # museum and occupational databases, excipients handbook: 196 to 258 °C, so no single figure is given
    found = hazards.flash_point(name)
    assert found is not None
    assert (found.low, found.high, found.status) == (190, None, Status.READ)


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [
        ("α-pinene", 33, 33),  # substance data sheets
        ("eucalyptus oil", 44, 44),
        ("limonene", 48, 50),
        ("tea tree oil", 54, 55),  # EU registration dossier
        ("linalool", 55, 75),  # two sheets disagree
        ("benzyl acetate", 90, 90),  # ICSC 1331
        ("benzyl alcohol", 93, 93),
        ("methyl salicylate", 96, 99),
        ("dpg", 121, 121),
    ],
)
def test_oils(name: str, low: int, high: int) -> None:
    found = hazards.flash_point(name)
    assert found is not None
    assert (found.low, found.high) == (low, high)


def test_where_sources_conflict_or_nothing_is_held_there_is_none() -> None:
    # cinnamaldehyde: 71 in one sheet, above 100 in another
    assert hazards.flash_point("cinnamaldehyde") is None
    assert hazards.flash_point("soy wax") is None
    assert hazards.flash_point("no such thing") is None


def test_every_flash_point_belongs_to_a_published_material() -> None:
    for key, found in hazards._flash_points().items():
        material = densities.find(key)
        assert material is not None
        assert material.key == key
        assert found.high is None or Decimal(0) < found.low <= found.high


@pytest.mark.parametrize(
    ("key", "words"),
    [
        ("wax fire", "Never put water on burning wax"),  # candle trade association, state fire marshal
        ("flash point", "flame or spark"),  # ASTM D92/D93 summaries
        ("burns", "cool it with water"),  # safety data sheets
        ("hot oil", "Keep flames and sparks away"),
    ],
)
def test_cautions(key: str, words: str) -> None:
    found = hazards.caution(key)
    assert words in found.says
    assert found.source


def test_cautions_give_no_temperature_to_add_or_pour() -> None:
    # no published standard gives one; the water bath's boiling point is the only temperature
    for key, found in hazards._cautions().items():
        assert ("°C" in found.says) == (key == "water bath")


def test_an_unknown_caution_is_an_error() -> None:
    with pytest.raises(KeyError):
        hazards.caution("no such caution")
