"""Formulas as files: what is written is read back the same; hostile files end in a sentence."""

from __future__ import annotations

import csv
import io
import json
import time
from dataclasses import replace
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.book import FormulaRecord
from core.compounds import Basis
from core.errors import BadInput, OutOfRange, SteelyardError
from core.library import exchange, formulas, names
from core.units import Percent


def _name(text: str) -> str:
    try:
        return names.cleaned(text)
    except SteelyardError:
        return "plain"


WORDS = st.text(max_size=60).map(_name)
NOTES = st.text(max_size=80).map(names.prose)
PARTS = st.lists(st.tuples(WORDS, st.decimals("0.001", "9999", places=3)), max_size=4).map(tuple)
PERCENTS = st.decimals("0.01", "24.9", places=2).map(Percent)
FORMULAS = st.builds(
    FormulaRecord,
    name=WORDS,
    version=st.just(0),
    load=PERCENTS,
    basis=st.sampled_from(Basis),
    waxes=PARTS,
    fragrances=PARTS,
    additives=st.lists(st.tuples(WORDS, PERCENTS), max_size=3).map(tuple),
    vessel=st.one_of(st.just(""), WORDS),
    notes=NOTES,
    reason=NOTES,
)


@given(st.lists(FORMULAS, min_size=1, max_size=4))
def test_written_and_read_back_the_same(records: list[FormulaRecord]) -> None:
    assert list(exchange.read(exchange.to_json(records))) == records
    assert list(exchange.read(exchange.to_csv(records))) == records


@given(FORMULAS)
def test_what_is_kept_is_the_same_formula(formula: FormulaRecord) -> None:
    assert formulas.checked(formula) == formula


PINE = FormulaRecord(
    name="winter pine",
    version=3,
    load=Percent(Decimal("7.5")),
    basis=Basis.TOTAL,
    waxes=(("soy wax A", Decimal(70)), ("coconut", Decimal(30))),
    fragrances=(("pine", Decimal(60)), ("orange", Decimal("40.5"))),
    additives=(("dye", Percent(Decimal("0.1"))),),
    vessel="amber tin",
    notes="=2+5, -stir, @ 2 min",
)


def test_the_shape_of_the_csv() -> None:
    rows = list(csv.reader(io.StringIO(exchange.to_csv([PINE]))))
    assert rows[0] == list(exchange.COLUMNS)
    assert rows[1][:6] == [
        *("winter pine", "7.5", "total", "soy wax A = 70; coconut = 30", "pine = 60; orange = 40.5", "dye = 0.1")
    ]
    # A spreadsheet would work this out if it began with its equals sign.
    assert rows[1][7] == "'=2+5, -stir, @ 2 min"
    assert exchange.read(exchange.to_csv([PINE])) == (replace(PINE, version=0),)


def test_plain_numbers_and_columns_in_another_order_are_read_too() -> None:
    text = '{"shape": "steelyard formulas 1", "formulas": [{"name": "a", "load_percent": 7.1, "waxes": []}]}'
    assert exchange.read(text)[0].load == Percent(Decimal("7.1"))
    text = "Load_Percent,NAME,waxes,colour\r\n6,a,soy = 2;coconut=1,red\r\n\r\n"
    assert exchange.read(text)[0].waxes == (("soy", Decimal(2)), ("coconut", Decimal(1)))


def _json(**changed: object) -> str:
    row = {"name": "a", "load_percent": "8", **changed}
    return json.dumps({"shape": exchange.SHAPE, "formulas": [row]})


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"),
        ("\ufeff  ", "empty"),
        ("x" * (exchange.LARGEST_FILE + 1), "too large"),
        ("{", "no JSON"),
        ("[" * 50_000, "no JSON"),
        ('{"a":' * 20_000, "no JSON"),
        ("[]", "another shape"),
        ('{"shape": "something 2", "formulas": []}', "another shape"),
        ('{"shape": "steelyard formulas 1", "formulas": {}}', "another shape"),
        ('{"shape": "steelyard formulas 1", "formulas": []}', "no formula"),
        ('{"shape": "steelyard formulas 1", "formulas": [7]}', "should be an object"),
        ('{"shape": "steelyard formulas 1", "formulas": [{"name": "a", "load_percent": NaN}]}', "outside"),
        ('{"shape": "steelyard formulas 1", "formulas": [{"name": "a", "load_percent": 1e400}]}', "outside"),
        ('{"shape": "steelyard formulas 1", "formulas": [{"name": "a", "load_percent": -1e9}]}', "outside"),
        (f'{{"shape": "steelyard formulas 1", "formulas": [{{"load_percent": {"9" * 6000}}}]}}', "no figure"),
        (_json(load_percent=None), "missing"),
        (_json(load_percent="9**9**9"), "no figure"),
        (_json(load_percent="-8"), "from 0 % to under 25 %"),
        (_json(load_percent="80"), "from 0 % to under 25 %"),
        (_json(name=["a"]), "should be words"),
        (_json(name=""), "no letter"),
        (_json(name="@everyone"), "mention"),
        (_json(name="n" * 300), "too long"),
        (_json(notes="n" * 600), "too long"),
        (_json(basis="water"), "wax or total"),
        (_json(waxes="soy"), "should be a list"),
        (_json(waxes=["soy"]), "should be an object"),
        (_json(waxes=[{"name": "soy", "parts": "0"}]), "more than nothing"),
        (_json(waxes=[{"name": "soy", "parts": "-3"}]), "more than nothing"),
        (_json(waxes=[{"name": "soy", "parts": "1"}] * 51), "up to 50 waxes"),
        (_json(additives=[{"name": "dye", "percent": "101"}]), "between 0 and 100"),
        (json.dumps({"shape": exchange.SHAPE, "formulas": [{"name": "a", "load_percent": "8"}] * 501}), "too many"),
        ("just words", "must name the columns"),
        ("name,load_percent\n", "no formula"),
        ('name,load_percent\n"a,8\n', "no CSV"),
        ("name,load_percent\na\x00b,8\nb", ""),
        ("name,load_percent,waxes\na,8,soy 70\n", "an equals sign"),
        ("name,load_percent\na,eight\n", "no figure"),
        ("name," * 50_000 + "load_percent\na,8", "missing"),
    ],
)
def test_files_that_are_refused(text: str, says: str) -> None:
    started = time.perf_counter()
    with pytest.raises((BadInput, OutOfRange)) as refused:
        exchange.read(text)
    assert says in refused.value.sentence
    assert len(refused.value.sentence) < 300
    assert time.perf_counter() - started < 2


def test_an_error_names_the_formula() -> None:
    rows = [{"name": "a", "load_percent": "8"}, {"name": "b", "load_percent": "x"}]
    with pytest.raises(BadInput) as refused:
        exchange.read(json.dumps({"shape": exchange.SHAPE, "formulas": rows}))
    assert refused.value.sentence.startswith("Formula 2 of the file:")
