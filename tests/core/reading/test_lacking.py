"""What is lacking is called by what it is of: the wax, the fragrance, the dye, the vessel."""

from __future__ import annotations

import pytest

from tests.core.reading.asked import outcome


@pytest.mark.parametrize(
    ("text", "missing"),
    [
        ("can 500 g of wax go in a half litre jug?", "density_of_wax"),
        ("1 lb of wax is 2 cups right?", "density_of_wax"),
        ("2 g dye in tsp", "density_of_dye"),
        ("a teaspoon of dye powder how many g is it", "density_of_dye"),
        ("3 cups beads, 8% load. oil?", "density_of_wax"),
        ("bottle with 100 ml oil in it weighs 165 g, density of the oil?", "weight_of_container"),
        ("10 g of oil whats the density", "volume_of_fragrance"),
        ("100 ml of oil, what is its density", "weight_of_fragrance"),
        ("30 ml fo in 500 g wax", "density_of_fragrance"),
    ],
)
def test_the_name_of_what_is_lacking(text: str, missing: str) -> None:
    got = outcome(text)
    assert not got.answerable
    assert missing in got.missing
