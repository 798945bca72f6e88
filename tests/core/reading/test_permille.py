"""Permille is told as its percent, a load of all is refused, and an address in a note is no option."""

from __future__ import annotations

import contextlib
import time

import pytest

from core.actions import BY_COMMAND
from core.answer import Declined, NotUnderstood, Worked
from core.book import EmptyBook
from core.errors import Unreadable
from core.question import slots_of
from core.questions import BY_COMMAND as QUESTIONS
from core.reading import read
from core.reading.permille import refuse_permille
from core.reading.slash_form import read_form, split_form

EMPTY = EmptyBook()


@pytest.mark.parametrize(
    "text", ["450 g wax at 8 ‰", "450 g wax at 8‰", "450 g wax at 8 permille", "450 g wax, 8 per mille", "8 promille"]
)
def test_permille_is_told_as_a_percent(text: str) -> None:
    """ISO 80000-1: 1 ‰ is 0.001, so 8 ‰ are 0.8 %."""
    found = read(text, EMPTY).answered(EMPTY)
    assert isinstance(found, NotUnderstood)
    assert "is 0.8 %: a permille is a tenth of a percent" in found.headline.show()


def test_permille_in_an_option_and_not_in_a_note() -> None:
    with pytest.raises(Unreadable, match=r"12\.5 ‰” is 1\.25 %"):
        read_form("/load wax:450 g load:12.5 ‰", QUESTIONS, EMPTY)
    read_form("/record_formula name:x load:8 % notes:8 ‰ of dye", BY_COMMAND, EMPTY)
    assert isinstance(read("450 g wax at 8 % for a milling shop", EMPTY).answered(EMPTY), Worked)


@pytest.mark.parametrize("text", ["1" * 6000 + " mil", "1 " * 3000 + "‰ mil", "per " * 1500 + "mille"])
def test_hostile_text_is_read_quickly(text: str) -> None:
    begin = time.perf_counter()
    with contextlib.suppress(Unreadable):
        refuse_permille(text)
    assert time.perf_counter() - begin < 0.02


@pytest.mark.parametrize(
    "text", ["450 g wax at 100%", "450 g wax at 100 %", "450 g wax with 100 %?", "450 g wax at 30%"]
)
def test_a_load_of_all_is_refused_like_any_that_is_too_high(text: str) -> None:
    assert isinstance(read(text, EMPTY).answered(EMPTY), Declined)


@pytest.mark.parametrize("text", ["450 g of 100 % soy wax at 8 %", "100% soy candle, 450 g wax at 8%"])
def test_pure_wax_is_no_load(text: str) -> None:
    found = read(text, EMPTY).answered(EMPTY)
    assert isinstance(found, Worked)
    assert {result.what: result.value.base for result in found.results}["fragrance"] == 36


@pytest.mark.parametrize("address", ["https://example.org/page?a=b:c", "http://example.org", "notes://here"])
def test_an_address_in_a_note_is_no_option(address: str) -> None:
    slots = slots_of(BY_COMMAND["record_formula"])
    assert split_form(f"name:x load:8% notes:see {address} for more", slots)["notes"] == f"see {address} for more"
    assert split_form(f"name:x notes:{address}", slots)["notes"] == address
