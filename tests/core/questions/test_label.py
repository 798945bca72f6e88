"""Labels: the net weight without the vessel, the FTC's own examples, type heights, the EU and UK tables."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import ask
from core.answer import Declined, Missing, NotUnderstood, Worked
from core.compounds import Additives, Basis, Masses
from core.questions.label import LabelQuestion
from core.questions.label_statement import First, metric_figure, us_statement
from core.questions.rules import Rules
from core.units import Length, Mass
from tests.core.questions.records import EMPTY, cautions, needs, number, words
from tests.core.questions.workbench import load, percent, shown

D = Decimal


def wax(value: str | int, unit: str = "g") -> Masses:
    return Masses.one(Mass.of(value, unit))


def test_net_weight_of_wax_and_load() -> None:
    answer = LabelQuestion(wax=wax(200), load=load(10)).answer(EMPTY)
    assert isinstance(answer, Worked)
    assert (number(answer, "net"), number(answer, "net_g")) == (220, 220)
    assert answer.headline.show() == "Net weight 220 g (7.76 oz). US label: “Net Wt 7.76 oz (220 g)”."
    assert cautions(answer) == {"local_rules"}
    assert "222 g" in words(answer)  # of the total: 200 ÷ 0.9 = 222.2 g
    shown(answer)


def test_the_vessel_never_counts() -> None:
    # 8 oz of wax in a jar of 11 oz: gross 19 oz, net 8 oz.
    answer = LabelQuestion(gross=Mass.of(19, "oz"), vessel=Mass.of(11, "oz")).answer(EMPTY)
    assert "“Net Wt 8 oz (226 g)”" in answer.headline.show()


def test_additives_count() -> None:
    extra = Additives((("dye", percent("0.5")),))
    answer = LabelQuestion(wax=wax(200), fragrance=Mass.of(20), additives=extra).answer(EMPTY)
    assert number(answer, "net") == 221


@pytest.mark.parametrize(
    ("ounces", "grams", "text"),
    [
        # FTC examples in 16 CFR 500.27 and 500.16, and the truncated rows by the factors of 500.19(a).
        ("3.4", "96.3 g", "3.4 oz"),
        ("2", "56.6 g", "2 oz"),
        ("2.5", "70.8 g", "2.5 oz"),
        ("4", "113 g", "4 oz"),
        ("6", "170 g", "6 oz"),
        ("7.5", "212 g", "7.5 oz"),
        ("8", "226 g", "8 oz"),
        ("9", "255 g", "9 oz"),
        ("10", "283 g", "10 oz"),
        ("12", "340 g", "12 oz"),
        ("14", "396 g", "14 oz"),
        ("16", "453 g", "1 lb"),
        ("20", "566 g", "1 lb 4 oz"),
        ("20.4", "578 g", "1 lb 4.4 oz"),
    ],
)
def test_ounces_to_grams_as_the_rule_prints_them(ounces: str, grams: str, text: str) -> None:
    found = us_statement(Mass.of(ounces, "oz"))
    assert (found.ounces, found.grams) == (text, grams)


@pytest.mark.parametrize(
    ("grams", "ounces", "text"),
    [
        ("50", "1.76 oz", "50 g"),
        ("100", "3.52 oz", "100 g"),
        ("150", "5.29 oz", "150 g"),
        ("180", "6.34 oz", "180 g"),
        ("200", "7.05 oz", "200 g"),
        ("220", "7.76 oz", "220 g"),
        ("250", "8.81 oz", "250 g"),
        ("300", "10.5 oz", "300 g"),
        ("400", "14.1 oz", "400 g"),
        ("500", "1 lb 1.6 oz", "500 g"),
        ("1000", "2 lb 3.2 oz", "1 kg"),
        ("1200", "2 lb 10.3 oz", "1.2 kg"),
    ],
)
def test_grams_to_ounces_by_the_factors_of_16_cfr_500_19(grams: str, ounces: str, text: str) -> None:
    found = us_statement(Mass.of(grams))
    assert (found.ounces, found.grams) == (ounces, text)


def test_a_sum_that_is_a_whole_pound_is_one() -> None:
    """14.4 oz of wax at 10 % of the total is 16 oz exactly, though its parts are no finite decimals."""
    answer = LabelQuestion(wax=wax("14.4", "oz"), load=load(10, Basis.TOTAL), rules=Rules.US).answer(EMPTY)
    assert "“Net Wt 1 lb (453 g)”" in answer.headline.show()


def test_either_unit_may_stand_first() -> None:
    answer = LabelQuestion(net=Mass.of(8, "oz"), first=First.GRAMS).answer(EMPTY)
    assert "“Net Wt 226 g (8 oz)”" in answer.headline.show()


@given(st.integers(100, 5_000_000))
def test_no_figure_promises_more_than_is_inside(milligrams: int) -> None:
    net = Mass.of(milligrams, "mg")
    found = us_statement(net)
    grams, unit = found.grams.split()
    assert Mass.of(grams, unit) <= net
    words_of = found.ounces.split()
    total = sum((Mass.of(value, unit).base for value, unit in zip(words_of[::2], words_of[1::2], strict=True)), D(0))
    # The rule's own factor is 0.6 ppm above the exact one.
    assert total <= net.base * D("1.000001")
    assert metric_figure(net) <= net


@pytest.mark.parametrize(
    ("diameter", "height", "area", "millimetres"),
    [
        # 16 CFR 500.21: 40 % of height × circumference; heights 1/16, 1/8, 3/16 in.
        ("3", "3.5", "13.195", "3.2"),
        ("2", "1", "2.513", "1.6"),
        ("4", "5", "25.133", "4.8"),
        ("6", "6", "45.239", "4.8"),
        ("8", "8", "80.425", "4.8"),
    ],
)
def test_type_height_of_a_round_jar(diameter: str, height: str, area: str, millimetres: str) -> None:
    answer = LabelQuestion(
        net=Mass.of(8, "oz"), diameter=Length.of(diameter, "in"), panel_height=Length.of(height, "in"), rules=Rules.US
    ).answer(EMPTY)
    assert number(answer, "panel_area_in2").quantize(D("0.001")) == D(area)
    assert number(answer, "type_height") == D(millimetres)


def test_type_height_steps_up_just_past_its_limit() -> None:
    def height_of(width: str) -> Decimal:
        panel = {"panel_height": Length.of(5, "in"), "panel_width": Length.of(width, "in")}
        return number(LabelQuestion(net=Mass.of(8, "oz"), **panel).answer(EMPTY), "type_height")

    assert (height_of("5"), height_of("5.002")) == (D("3.2"), D("4.8"))


@pytest.mark.parametrize(
    ("nominal", "tne", "t1", "t2"),
    [
        # UK SI 2006/659 Sch. 3 and Directive 76/211/EEC Annex I 2.4; percent results up to the next 0.1 g.
        ("35", "3.2", "31.8", "28.6"),
        ("120", "5.4", "114.6", "109.2"),
        ("165", "7.5", "157.5", "150.0"),
        ("220", "9", "211", "202"),
        ("310", "9.3", "300.7", "291.4"),
        ("750", "15", "735", "720"),
    ],
)
def test_tolerable_errors(nominal: str, tne: str, t1: str, t2: str) -> None:
    answer = LabelQuestion(net=Mass.of(nominal), rules=Rules.EU_UK).answer(EMPTY)
    assert [number(answer, what) for what in ("tne", "t1", "t2")] == [D(tne), D(t1), D(t2)]
    assert "US label" not in shown(answer)


def test_below_the_average_system_it_says_so() -> None:
    answer = LabelQuestion(net=Mass.of(3)).answer(EMPTY)
    assert "cover 5 g to 10 kg" in words(answer)
    assert "tne" not in [result.what for result in answer.results]


@pytest.mark.parametrize(
    ("question", "names"),
    [
        (LabelQuestion(), ["weight_of_wax", "load_percent"]),
        (LabelQuestion(wax=wax(200)), ["load_percent"]),
        (LabelQuestion(load=load(8)), ["weight_of_wax"]),
        (LabelQuestion(gross=Mass.of(500)), ["weight_of_container"]),
    ],
)
def test_what_is_missing_is_named(question: LabelQuestion, names: list[str]) -> None:
    answer = question.answer(EMPTY)
    assert isinstance(answer, Missing)
    assert needs(answer) == names
    assert not answer.results
    shown(answer)


@pytest.mark.parametrize(
    "question",
    [
        LabelQuestion(net=Mass.of(0)),
        LabelQuestion(net=Mass.of(-5)),
        LabelQuestion(gross=Mass.of(300), vessel=Mass.of(320)),
        LabelQuestion(net=Mass.of(300), wax=wax(200), load=load(10)),
        LabelQuestion(wax=wax(200), load=load(-1)),
        LabelQuestion(wax=wax(200), fragrance=Mass.of(-1)),
        LabelQuestion(net=Mass.of(300), diameter=Length.of(3), panel_width=Length.of(3)),
    ],
)
def test_what_cannot_be_says_the_way_out(question: LabelQuestion) -> None:
    answer = ask.answer(question, EMPTY)
    assert isinstance(answer, NotUnderstood)
    assert answer.reason in ("out_of_range", "contradiction")


@pytest.mark.parametrize(
    "question", [LabelQuestion(wax=wax(200), load=load(30)), LabelQuestion(wax=wax(200), fragrance=Mass.of(60))]
)
def test_an_unsafe_load_gets_no_label(question: LabelQuestion) -> None:
    assert isinstance(question.answer(EMPTY), Declined)


def test_several_weighed_at_once() -> None:
    answer = LabelQuestion(gross=Mass.of("6.6", "kg"), vessel=Mass.of("4.2", "kg"), count=12).answer(EMPTY)
    assert number(answer, "net_g") == 200


@pytest.mark.parametrize(
    ("net", "printed", "head"),
    [
        (Mass.of(198), Mass.of(7, "oz"), "They agree"),  # 6.984 oz
        (Mass.of("14.2"), Mass.of("0.5", "oz"), "They agree"),  # 0.5009 oz
        (Mass.of(220), Mass.of(8, "oz"), "short of"),  # 7.76 oz
        (Mass.of(232), Mass.of(8, "oz"), "more than"),  # 8.18 oz
    ],
)
def test_what_is_printed_is_checked(net: Mass, printed: Mass, head: str) -> None:
    assert head in LabelQuestion(net=net, printed=printed).answer(EMPTY).headline.show()
