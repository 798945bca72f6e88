"""Formulas as files: what is written is read back the same; hostile files end in a sentence."""

from __future__ import annotations

import csv
import io
import json
from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.book import FormulaRecord
from core.compounds import Basis, Verdict
from core.errors import BadInput, OutOfRange, SteelyardError
from core.library import formulas, names, portable_text
from core.library.portable import MOST_FORMULAS, Portable, PortableTest, PortableVersion, formulas_of
from core.units import Percent


def _name(text: str) -> str:
    try:
        return names.cleaned(text)
    except SteelyardError:
        return "plain"


WORDS = st.text(max_size=60).map(_name)
NOTES = st.text(max_size=80).map(names.prose)
OBSERVED = NOTES.map(lambda text: text or "fine")
PARTS = st.lists(st.tuples(WORDS, st.decimals("0.001", "9999", places=3)), max_size=4).map(tuple)
PERCENTS = st.decimals("0.01", "24.9", places=2).map(Percent)
MOMENTS = st.one_of(
    st.just(""),
    st.integers(0, 4 * 10**9).map(lambda at: datetime.fromtimestamp(at, UTC).isoformat(timespec="seconds")),
)
NAMES_OF_PEOPLE = st.one_of(st.just(""), WORDS.filter(lambda name: ", in a file of " not in name))
FORMULAS = st.builds(
    FormulaRecord,
    name=st.just("plain"),
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
VERSIONS = st.lists(st.builds(PortableVersion, FORMULAS, MOMENTS, NAMES_OF_PEOPLE), min_size=1, max_size=3)
TESTS = st.lists(
    st.builds(
        PortableTest,
        version=st.integers(0, 2),
        cure_days=st.one_of(st.none(), st.integers(0, 3650)),
        observed=OBSERVED,
        verdict=st.sampled_from(["", *(each.value for each in Verdict)]),
        at=MOMENTS,
        by=NAMES_OF_PEOPLE,
    ),
    max_size=3,
)


@st.composite
def portables(draw: st.DrawFn) -> Portable:
    """A formula of that many versions, numbered upwards from any number, with tests of them."""
    name, first, versions = draw(WORDS), draw(st.integers(1, 40)), draw(VERSIONS)
    numbered = [
        replace(one, formula=replace(one.formula, name=name, version=first + place))
        for place, one in enumerate(versions)
    ]
    tests = [replace(one, version=first + one.version % len(numbered)) for one in draw(TESTS)]
    return Portable(tuple(numbered), tuple(tests), draw(st.booleans()))


FILES = st.lists(portables(), min_size=1, max_size=4, unique_by=lambda one: (names.folded(one.name), one.private))


@given(FILES)
def test_written_and_read_back_the_same(found: list[Portable]) -> None:
    assert list(portable_text.read(portable_text.to_json(found).encode())) == found
    assert list(portable_text.read(portable_text.to_csv(found).encode("utf-8-sig"))) == found


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
CARRIED = Portable(
    (PortableVersion(PINE, "2026-03-01T12:00:00+00:00", "Ada"),),
    (PortableTest(3, 14, "no soot", "works", "2026-03-20T12:00:00+00:00", "Bo"),),
    private=True,
)


def test_the_shape_of_the_csv() -> None:
    text = portable_text.to_csv([CARRIED])
    version, test = csv.DictReader(io.StringIO(text))
    assert tuple(version) == portable_text.COLUMNS
    assert {key: cell for key, cell in version.items() if cell} == {
        "name": "winter pine",
        "seen_by": "only me",
        "row": "version",
        "version": "3",
        "at": "2026-03-01T12:00:00+00:00",
        "by": "Ada",
        "load_percent": "7.5",
        "basis": "total",
        "waxes": "soy wax A = 70; coconut = 30",
        "fragrances": "pine = 60; orange = 40.5",
        "additives": "dye = 0.1",
        "vessel": "amber tin",
        # A spreadsheet would work this out if it began with its equals sign.
        "notes": "'=2+5, -stir, @ 2 min",
    }
    assert (test["row"], test["version"], test["cure_days"], test["observed"]) == ("test", "3", "14", "no soot")
    assert portable_text.read(text.encode()) == (CARRIED,)


def test_the_shape_of_the_json() -> None:
    (row,) = json.loads(portable_text.to_json([CARRIED]))["formulas"]
    assert (row["name"], row["seen_by"]) == ("winter pine", "only me")
    assert row["versions"][0]["load_percent"] == "7.5"
    assert row["versions"][0]["waxes"] == [{"name": "soy wax A", "parts": "70"}, {"name": "coconut", "parts": "30"}]
    assert row["tests"][0]["verdict"] == "works"


def test_plain_numbers_a_single_version_and_columns_in_another_order_are_read_too() -> None:
    text = '{"shape": "steelyard formulas 1", "formulas": [{"name": "a", "load_percent": 7.1, "waxes": []}]}'
    (one,) = portable_text.read(text.encode())
    assert (one.versions[0].formula.load, one.versions[0].formula.version) == (Percent(Decimal("7.1")), 1)
    for text in (
        "Load_Percent,NAME,waxes,colour\r\n6,a,soy = 2;coconut=1,red\r\n\r\n",
        'Load_Percent;NAME;waxes;colour\r\n6;a;"soy = 2;coconut=1";red\r\n',  # as many spreadsheets save it
        "Load_Percent\tNAME\twaxes\tcolour\n6\ta\tsoy = 2;coconut=1\tred\n",
    ):
        (one,) = portable_text.read(text.encode())
        assert one.versions[0].formula.waxes == (("soy", Decimal(2)), ("coconut", Decimal(1)))


def test_times_are_kept_in_utc_and_names_without_who_carried_them() -> None:
    row = {"name": "a", "load_percent": "8", "at": "2026-03-01T13:30:00+01:00", "by": "Ada, in a file of Bo"}
    (one,) = formulas_of([row])
    assert (one.versions[0].at, one.versions[0].by) == ("2026-03-01T12:30:00+00:00", "Ada")


def test_a_name_twice_is_refused_unless_one_is_private() -> None:
    rows = [{"name": "Pine", "load_percent": "8"}, {"name": "pine ", "load_percent": "9"}]
    with pytest.raises(BadInput, match="twice"):
        formulas_of(rows)
    assert len(formulas_of([rows[0], {**rows[1], "seen_by": "only me"}])) == 2


@pytest.mark.parametrize("data", [b"\xff\xfe\x00{", b"\x89PNG\r\n\x1a\n\x00\xff", "naïve".encode("latin-1")])
def test_what_is_no_text_is_refused(data: bytes) -> None:
    with pytest.raises(BadInput, match="UTF-8"):
        portable_text.read(data)


def _json(**changed: object) -> str:
    row = {"name": "a", "load_percent": "8", **changed}
    return json.dumps({"shape": portable_text.SHAPE, "formulas": [row]})


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", "empty"),
        ("\ufeff  ", "empty"),
        ("x" * (portable_text.LARGEST_FILE + 1), "too large"),
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
        (_json(seen_by="my friends"), "only me"),
        (_json(at="yesterday"), "no time"),
        (_json(at="0001-01-01T00:00:00+23:59"), "no time"),
        (_json(by="<@1>"), "mention"),
        (_json(versions=[]), "no version"),
        (_json(versions=[{"load_percent": "8"}] * 101), "too many versions"),
        (_json(versions=[{"load_percent": "8", "version": 2}, {"load_percent": "8", "version": 1}]), "order"),
        (_json(tests=[{"observed": "x", "version": 7}]), "version 7"),
        (_json(tests=[{"observed": ""}]), "what was observed"),
        (_json(tests=[{"observed": "x", "cure_days": "1.5"}]), "whole number"),
        (_json(tests=[{"observed": "x", "cure_days": "9999"}]), "3,650"),
        (_json(tests=[{"verdict": "splendid"}]), "works"),
        (_json(tests=[{"verdict": "works"}] * 101), "too many tests"),
        ("name,load_percent,row\na,8,picture\n", "version or test"),
        ("name,load_percent,row\na,,test\n", "no version"),
        (_json(basis="water"), "wax or total"),
        (_json(waxes="soy"), "should be a list"),
        (_json(waxes=["soy"]), "should be an object"),
        (_json(waxes=[{"name": "soy", "parts": "0"}]), "more than nothing"),
        (_json(waxes=[{"name": "soy", "parts": "-3"}]), "more than nothing"),
        (_json(waxes=[{"name": "soy", "parts": "1"}] * 51), "up to 50 waxes"),
        (_json(additives=[{"name": "dye", "percent": "101"}]), "between 0 and 100"),
        (
            json.dumps(
                {"shape": portable_text.SHAPE, "formulas": [{"name": "a", "load_percent": "8"}] * (MOST_FORMULAS + 1)}
            ),
            "too many",
        ),
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
    with pytest.raises((BadInput, OutOfRange)) as refused:
        portable_text.read(text.encode())
    assert says in refused.value.sentence
    assert len(refused.value.sentence) < 300


def test_an_error_names_the_formula() -> None:
    rows = [{"name": "a", "load_percent": "8"}, {"name": "b", "load_percent": "x"}]
    with pytest.raises(BadInput) as refused:
        portable_text.read(json.dumps({"shape": portable_text.SHAPE, "formulas": rows}).encode())
    assert refused.value.sentence.startswith("Formula 2 of the file:")
