"""Lots: averages and shortfalls by NIST HB 133 and by the EU and UK rules, and the raise that makes a lot pass."""

from __future__ import annotations

import statistics
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Missing, NotUnderstood, Worked
from core.compounds import Masses
from core.questions.lot import MOST_WEIGHTS, LotQuestion
from core.questions.lot_sums import lot_of, verdict
from core.questions.rules import Rules
from core.units import Mass
from tests.core.questions.records import EMPTY, cautions, needs, number, words
from tests.core.questions.workbench import shown

D = Decimal


def weights(*values: str | int, unit: str = "g") -> Masses:
    return Masses(tuple(("", Mass.of(each, unit)) for each in values))


def test_a_lot_that_passes() -> None:
    answer = LotQuestion(label=Mass.of(226), weights=weights(230, 224, 228, 226)).answer(EMPTY)
    assert isinstance(answer, Worked)
    assert (number(answer, "mean"), number(answer, "shortest"), number(answer, "count")) == (227, 224, 4)
    assert (number(answer, "passed"), number(answer, "raise_by"), number(answer, "under_label")) == (1, 0, 1)
    assert answer.headline.show().startswith("Passes the US rules and the EU and UK rules")
    # Spread by the standard library.
    assert float(number(answer, "spread")) == pytest.approx(statistics.stdev([230, 224, 228, 226]))
    assert cautions(answer) == {"local_rules"}
    shown(answer)


@pytest.mark.parametrize(
    ("ounces", "floor"),
    [("2", "51.3"), ("4", "106.1"), ("8", "214.1")],
)
def test_us_floors(ounces: str, floor: str) -> None:
    # NIST HB 133 Table 2-5: 8 oz less 0.028 lb (12.7 g) is 214.1 g; 2 oz less 3/16 oz; 4 oz less 1/4 oz (0.016 lb).
    label = Mass.of(ounces, "oz")
    lot = lot_of([label, label], None)
    found = verdict(lot, label, Rules.US)
    assert found is not None
    assert found.floor is not None
    assert found.floor.quantize(D("0.1")) == D(floor)


def test_a_short_average_fails_and_says_by_how_much() -> None:
    # 8 oz average against 8 oz less (8.1 + 7.5 + 7.9 + 8) ÷ 4 = 7.875 oz: 0.125 oz = 3.5437 g, shown up to 3.6 g.
    answer = LotQuestion(
        label=Mass.of(8, "oz"), weights=weights("8.1", "7.5", "7.9", "8", unit="oz"), rules=Rules.US
    ).answer(EMPTY)
    assert number(answer, "raise_by") == Mass.of("0.125", "oz").base
    assert answer.headline.show() == "Fails the US rules: pour 3.6 g more into each."
    assert number(answer, "under_allowed") == 1


def test_one_package_far_too_short_fails_a_good_average() -> None:
    # Label 1 lb: no package below 0.956 lb (NIST HB 133).
    good = LotQuestion(label=Mass.of(1, "lb"), weights=weights("1.1", "0.956", unit="lb"), rules=Rules.US).answer(EMPTY)
    bad = LotQuestion(label=Mass.of(1, "lb"), weights=weights("1.1", "0.955", unit="lb"), rules=Rules.US).answer(EMPTY)
    assert (number(good, "passed"), number(bad, "passed")) == (1, 0)
    assert number(bad, "raise_by") == Mass.of("0.001", "lb").base


def test_one_in_forty_may_lie_below_t1_and_none_below_t2() -> None:
    # 220 g: TNE 9 g, T1 211 g, T2 202 g.
    one = LotQuestion(label=Mass.of(220), weights=weights(*[221] * 39, "210"), rules=Rules.EU_UK).answer(EMPTY)
    two = LotQuestion(label=Mass.of(220), weights=weights(*[221] * 38, "210", "205"), rules=Rules.EU_UK).answer(EMPTY)
    deep = LotQuestion(label=Mass.of(220), weights=weights(*[222] * 39, "201"), rules=Rules.EU_UK).answer(EMPTY)
    assert [number(each, "passed") for each in (one, two, deep)] == [1, 0, 0]
    assert (number(two, "raise_by"), number(deep, "raise_by")) == (1, 1)


def test_the_vessel_is_taken_off() -> None:
    answer = LotQuestion(label=Mass.of(220), weights=weights(541, 540), tare=Mass.of(320)).answer(EMPTY)
    assert number(answer, "mean") == D("220.5")


def test_weights_with_the_jar_are_not_judged() -> None:
    asked_back = LotQuestion(label=Mass.of(220), weights=weights(541, 540)).answer(EMPTY)
    assert isinstance(asked_back, Missing)
    assert needs(asked_back) == ["weight_of_container"]
    without_jar = LotQuestion(label=Mass.of(220), weights=weights(541, 540), tare=Mass.of(0)).answer(EMPTY)
    assert isinstance(without_jar, Worked)
    shown(asked_back)


def test_a_label_beyond_the_table_passes_nothing_untried() -> None:
    answer = LotQuestion(label=Mass.of(4, "lb"), weights=weights("4.1", "4", unit="lb"), rules=Rules.US).answer(EMPTY)
    assert "not every rule could be tried" in answer.headline.show()
    assert "passed" not in [result.what for result in answer.results]
    assert "above 3.2 lb" in words(answer)


def test_the_table_of_short_ones_is_bounded_and_says_so() -> None:
    answer = LotQuestion(label=Mass.of(220), weights=weights(*[219] * 30, *[230] * 30)).answer(EMPTY)
    assert answer.table is not None
    assert len(answer.table.rows) == 10
    assert answer.table.note is not None
    assert answer.table.note.show() == "The 10 shortest of 30 below the label."


@pytest.mark.parametrize(
    ("question", "names"),
    [
        (LotQuestion(), ["label_weight", "weights"]),
        (LotQuestion(label=Mass.of(220)), ["weights"]),
        (LotQuestion(label=Mass.of(220), weights=weights(219)), ["weights"]),
        (LotQuestion(weights=weights(219, 220)), ["label_weight"]),
    ],
)
def test_what_is_missing_is_named(question: LotQuestion, names: list[str]) -> None:
    answer = question.answer(EMPTY)
    assert isinstance(answer, Missing)
    assert needs(answer) == names
    assert not answer.results
    shown(answer)


@pytest.mark.parametrize(
    "question",
    [
        LotQuestion(label=Mass.of(0), weights=weights(219, 220)),
        LotQuestion(label=Mass.of(220), weights=weights(219, 0)),
        LotQuestion(label=Mass.of(220), weights=weights(219, 300), tare=Mass.of(220)),
        LotQuestion(label=Mass.of(220), weights=weights(*[220] * (MOST_WEIGHTS + 1))),
    ],
)
def test_what_cannot_be_says_the_way_out(question: LotQuestion) -> None:
    answer = ask.answer(question, EMPTY)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason in ("out_of_range", "contradiction")


@given(st.integers(20, 1400), st.lists(st.integers(-300, 300), min_size=2, max_size=90), st.sampled_from(Rules))
def test_the_raise_is_the_least_that_makes_the_lot_pass(nominal: int, tenths: list[int], rules: Rules) -> None:
    label = Mass.of(nominal)
    poured = [Mass(D(nominal) + D(each) * nominal / 1000) for each in tenths]
    found = verdict(lot_of(poured, None), label, rules)
    assert found is not None
    raised = verdict(lot_of([mass + Mass(found.raise_by) for mass in poured], None), label, rules)
    assert raised is not None
    assert raised.raise_by < D("1e-30")
    assert raised.under_floor == 0
    if found.raise_by > D("0.001"):
        less = Mass(found.raise_by - D("0.001"))
        almost = verdict(lot_of([mass + less for mass in poured], None), label, rules)
        assert almost is not None
        assert almost.passed is False


def test_the_average_alone() -> None:
    answer = LotQuestion(weights=weights(198, 201, 197, 200, 204), average=True).answer(EMPTY)
    assert isinstance(answer, Worked)
    assert (number(answer, "mean"), number(answer, "shortest"), number(answer, "heaviest")) == (200, 197, 204)
    shown(answer)
