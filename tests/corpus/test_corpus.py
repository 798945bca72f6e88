"""The corpus itself: each expectation follows from its arithmetic; the questions are many, varied and invented."""

import re
from collections import Counter
from itertools import combinations

import pytest
from rapidfuzz import fuzz, process

from tests.corpus.arithmetic import CONSTANTS, evaluate
from tests.corpus.rows import FILES, NAMED_ONLY, SIZES, Row, load, same_unit_amount

SPLITS = {split: load(path) for split, path in FILES.items()}
ROWS = [row for rows in SPLITS.values() for row in rows]
INTENTS = {
    "fragrance_for_wax",
    "load_from_weights",
    "wax_for_fragrance",
    "split_total",
    "batch_for_vessels",
    "vessel_fill",
    "convert_mass",
    "convert_volume",
    "convert_temperature",
    "volume_needs_density",
    "weight_to_volume_needs_density",
    "density_from_measurement",
    "density_given_conversion",
    "ambiguous_ounces",
    "ambiguous_basis",
    "purchase",
    "label_weight",
    "parcel_weight",
    "scale_resolution",
    "concept",
    "out_of_scope",
    "unsafe",
}
NEVER_ANSWERED = {
    "volume_needs_density",
    "weight_to_volume_needs_density",
    "ambiguous_ounces",
    "out_of_scope",
    "unsafe",
}
MISSING = {
    "basis",
    "density_of_dye",
    "density_of_fragrance",
    "density_of_wax",
    "drop_size",
    "fill_weight",
    "load_percent",
    "number_of_vessels",
    "ounce_kind",
    "pack_size",
    "scale_step",
    "volume_of_fragrance",
    "weight_of_candle",
    "weight_of_container",
    "weight_of_fragrance",
    "weight_of_packing",
    "weight_of_total",
    "weight_of_wax",
}
# Words that may stand with a capital inside a sentence: units, months, abbreviations, emphasis, other languages.
CAPITALS = {
    *("A", "B", "C", "F", "FO", "Grams", "I", "I'd", "OF", "THE", "TOTAL", "UK", "US", "UV", "QX", "ZV"),
    *("Celsius", "Fahrenheit", "January", "March", "May", "June", "Nov", "Saturday"),
    *("Dichte", "Duft", "Wachs", "Python"),
}
# How an amount that is not in figures may be spelled.
SPELLED = re.compile(
    r"[½¼¾⅝⅓]|\b(?:an?|minus|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve|thirty|fifty|sixty|"
    r"seventy|eighteen|half|quart(?:er)?s?|third|eighths|hundred)\b"
)
# A figure as typed: grouped by thousands, a fraction, or a plain one with a decimal point or comma.
FIGURE = r"(?<![\w.,½¼¾])-?(?:\d{1,3}(?:[ .,]\d{3})+|(?:\d+ )?\d+/\d+|\d*[.,]?\d+)(?!\d)"
UNITS = {
    "percent": "%|percent|pct|prcent|persent",
    "g": "g|gr|gms?|grams?|grammes|gramms?",
    "kg": "kg|kilos?",
    "oz": "oz|ozs|ounces?",
    "lb": "lbs?|pounds?",
    "ml": "ml|mls|millilitres",
    "fl_oz": "fl oz|fluid ounces",
    "cup": "cups?",
    "tbsp": "tbsp|tablespoons?",
}
MONEY = re.compile(r"(?<=cost me )[0-9]+ pounds")
FIGURE_WITH_UNIT = {unit: re.compile(rf"({FIGURE})\s?(?:{names})(?![a-z½]|/|\sper\b)") for unit, names in UNITS.items()}


def every(select: str = "") -> pytest.MarkDecorator:
    rows = [row for row in ROWS if select in ("", row.intent)]
    return pytest.mark.parametrize("row", rows, ids=[row.id for row in rows])


def of(row: Row, *whats: str) -> list[float]:
    return [number.value for number in row.numbers if number.what in whats]


@every()
def test_each_number_is_what_its_arithmetic_says(row: Row) -> None:
    for number in (*row.numbers, *(each for _, numbers in row.alternatives for each in numbers)):
        assert evaluate(number.calc) == pytest.approx(number.value, abs=max(number.tol / 10, 5.1e-5)), number
        assert number.unit in SIZES or number.unit in NAMED_ONLY
        assert number.tol == 0 if number.unit == "count" else 0 < number.tol <= max(0.6, 0.006 * abs(number.value))


@every()
def test_each_expectation_is_of_one_piece(row: Row) -> None:
    assert row.intent in INTENTS
    assert set(row.missing) <= MISSING
    if row.answerable:
        assert not row.missing
        assert row.wanted or row.intent == "concept"
    elif row.intent not in ("out_of_scope", "unsafe"):
        assert row.missing, "what is to be asked for"
    if row.intent in NEVER_ANSWERED:
        assert not row.answerable


def readings(figure: str) -> set[float]:
    """The values a typed figure can stand for; "1.200" is either of two."""
    if "/" in figure:
        *whole, fraction = figure.split()
        over, under = fraction.split("/")
        return {sum(float(each) for each in whole) + float(over) / float(under)}
    values = {float(figure.replace(" ", "").replace(",", "."))} if figure.count(".") + figure.count(",") < 2 else set()
    if re.search(r"[ .,]\d{3}$", figure):
        values.add(float(re.sub(r"[ .,]", "", figure)))
    return values


@every()
def test_given_amounts_stand_in_the_text(row: Row) -> None:
    seen = {value for figure in re.findall(FIGURE, row.text) for value in readings(figure)}
    for amount in row.given:
        assert amount.unit in SIZES or amount.unit in ("percent", "degC", "degF")
        if amount.parts:
            parts = [same_unit_amount(value, unit, amount.unit) for value, unit in amount.parts]
            assert sum(part for part in parts if part is not None) == pytest.approx(amount.value)
            assert seen >= {value for value, _ in amount.parts}
        else:
            assert amount.optional or amount.value in seen or SPELLED.search(row.text), amount


@every()
def test_no_amount_in_figures_is_left_out(row: Row) -> None:
    pieces = [part for amount in row.given for part in ((amount.value, amount.unit), *amount.parts)]
    given = {(abs(value), unit) for value, unit in pieces}  # "minus 200 g" has its sign in words
    for unit, pattern in FIGURE_WITH_UNIT.items():
        for figure in pattern.findall(MONEY.sub("", row.text)):
            assert given & {(abs(value), unit) for value in readings(figure)}, (figure, unit)


@every("split_total")
def test_a_split_adds_up_to_a_weight_that_is_asked_for(row: Row) -> None:
    if not row.answerable:
        return
    unit = row.numbers[0].unit
    together = sum(of(row, "wax", "wax_1", "wax_2", "fragrance", "dye", "hardener"))
    wanted = [same_unit_amount(amount.value, amount.unit, unit) for amount in row.given]
    totals = [*of(row, "total"), *(weight for weight in wanted if weight is not None)]
    assert any(together == pytest.approx(total, abs=0.001) for total in totals)


@every("load_from_weights")
def test_the_two_loads_of_one_mix_belong_together(row: Row) -> None:
    for of_wax, of_total in zip(of(row, "load"), of(row, "load_of_total"), strict=False):
        assert of_total == pytest.approx(100 * of_wax / (100 + of_wax), abs=0.001)


@every()
def test_no_load_that_has_to_be_declined_is_answered(row: Row) -> None:
    if not row.answerable:
        return
    fragrance, wax = of(row, "fragrance", "fragrance_total"), of(row, "wax")
    if fragrance and wax:
        assert max(fragrance) / max(wax) < 0.25
    assert all(load < 25 for load in of(row, "load"))


def test_the_drop_of_a_temperature_is_not_a_reading() -> None:
    drops = [n for row in ROWS for n in row.numbers if n.what == "temperature_difference"]
    assert len(drops) >= 2
    assert not any("32" in number.calc for number in drops)


def test_ids_and_texts_are_unique() -> None:
    assert all(n == 1 for n in Counter(row.id for row in ROWS).values())
    assert all(n == 1 for n in Counter(row.text.casefold() for row in ROWS).values())
    letters = {split: {row.id[0] for row in rows} for split, rows in SPLITS.items()}
    assert all(len(found) == 1 for found in letters.values())
    assert len(set.union(*letters.values())) == len(letters)


def test_no_two_questions_differ_by_their_figures_alone() -> None:
    blank = {row.id: " ".join(re.findall(r"[a-z]+", row.text.casefold())) for row in ROWS}
    long_enough = {id_: text for id_, text in blank.items() if len(text.split()) >= 5}
    ids, texts = list(long_enough), list(long_enough.values())
    alike = [
        (ids[at], ids[other])
        for at, text in enumerate(texts)
        for _, _, other in process.extract(text, texts, scorer=fuzz.ratio, score_cutoff=90, limit=5)
        if at < other
    ]
    assert not alike


@pytest.mark.parametrize("split", SPLITS)
def test_each_split_is_large_and_covers_every_intent(split: str) -> None:
    rows = SPLITS[split]
    counts = Counter(row.intent for row in rows)
    assert len(rows) >= 200
    assert set(counts) == INTENTS
    assert min(counts.values()) >= 6
    assert sum(not row.answerable for row in rows) >= 60
    assert {name for row in rows for name in row.missing} == MISSING


def test_many_questions_are_to_be_asked_back_or_declined() -> None:
    assert sum(not row.answerable for row in ROWS) >= 200


def test_nobody_and_no_product_is_named() -> None:
    inside_a_sentence = re.compile(r"(?<=[a-z,;] )[A-Z][\w']*")
    named = {word for row in ROWS for word in inside_a_sentence.findall(row.text)} - CAPITALS
    assert not named
    assert not [row.id for row in ROWS if re.search(r"[®™@]\w|https?:|www\.", row.text)]


@pytest.mark.parametrize("calc", ["__import__('os')", "2**9**9", "OZ.real", "x", "True", "'1'", "[1][0]", "ceil(1, 2)"])
def test_only_plain_arithmetic_is_evaluated(calc: str) -> None:
    with pytest.raises(ValueError, match="not plain arithmetic"):
        evaluate(calc)


def test_the_units_are_the_legal_ones() -> None:
    """Sizes as printed in NIST HB 44 App. C (US) and the UK Weights and Measures Act 1985 Sch. 1."""
    printed = {
        "OZ": 28.349523125,
        "LB": 453.59237,
        "FLOZ": 29.5735295625,
        "CUP": 236.5882365,
        "TBSP": 14.78676478125,
        "TSP": 4.92892159375,
        "PINT": 473.176473,
        "QUART": 946.352946,
        "GALLON": 3785.411784,
        "IMPFLOZ": 28.4130625,
        "IMPPINT": 568.26125,
        "IMPGALLON": 4546.09,
    }
    for name, size in printed.items():
        assert CONSTANTS[name] == pytest.approx(size, rel=1e-14)
    assert all(one != other for one, other in combinations(printed.values(), 2))
