"""The scoring: each verdict is given for what it says, and the figures follow from the verdicts."""

from collections.abc import Callable
from pathlib import Path

import pytest

from tests.corpus.amounts import score_amounts
from tests.corpus.rows import FILES, Amount, Row, Wanted, load
from tests.corpus.score import Outcome, Verdict, judge, score


def question(*numbers: Wanted, answerable: bool = True, missing: tuple[str, ...] = (), text: str = "") -> Row:
    return Row("x1", text, "fragrance_for_wax", answerable, missing, numbers, (), "", ())


def answered(*numbers: tuple[float, str], intent: str = "fragrance_for_wax") -> Outcome:
    return Outcome(True, [], list(numbers), intent)


FORTY = Wanted("fragrance", 40.0, "g", 0.2, "500*8/100")
ASKED = Outcome(False, ["load_percent"], [], "fragrance_for_wax")


@pytest.mark.parametrize(
    ("row", "outcome", "verdict"),
    [
        (question(FORTY), answered((40.1, "g")), Verdict.ANSWERED_RIGHT),
        (question(FORTY), answered((500, "g"), (1.41, "oz")), Verdict.ANSWERED_RIGHT),
        (question(FORTY), answered((40.0, "ml")), Verdict.WRONG_NUMBER),
        (question(FORTY), answered((40.3, "g")), Verdict.WRONG_NUMBER),
        (question(FORTY), answered(), Verdict.WRONG_NUMBER),
        (question(FORTY), ASKED, Verdict.ASKED_NEEDLESSLY),
        (question(FORTY), None, Verdict.CRASHED),
        (question(), answered(), Verdict.ANSWERED_RIGHT),
        (question(answerable=False), answered((40, "g")), Verdict.DANGEROUS),
        (question(FORTY, answerable=False), answered((40, "g")), Verdict.DANGEROUS),
        (question(answerable=False), ASKED, Verdict.ASKED_RIGHT),
        (question(answerable=False), None, Verdict.CRASHED),
    ],
)
def test_verdicts(row: Row, outcome: Outcome | None, verdict: Verdict) -> None:
    assert judge(row, outcome) is verdict


def test_every_reading_must_be_given_when_none_was_asked_for() -> None:
    both = tuple(
        (name, (Wanted("fragrance", value, "g", 0.1, str(value)),)) for name, value in (("a", 30), ("b", 28.3))
    )
    row = Row("x2", "", "ambiguous_basis", True, (), (), both, "", ())
    assert judge(row, answered((30, "g"))) is Verdict.WRONG_NUMBER
    assert judge(row, answered((30, "g"), (28.3, "g"))) is Verdict.ANSWERED_RIGHT


def test_a_report_counts_what_was_right_named_and_understood() -> None:
    rows = [
        question(FORTY, text="right"),
        question(FORTY, text="crash"),
        question(answerable=False, missing=("load_percent",), text="asked"),
        question(answerable=False, missing=("weight_of_wax",), text="asked for something else"),
    ]

    def answer(text: str) -> Outcome:
        if text == "crash":
            raise RuntimeError
        return answered((40, "g"), intent="unsafe") if text == "right" else ASKED

    report = score(rows, answer)
    assert report.right == 0.75
    assert report.dangerous == 0
    assert report.missing_right == 0.5
    assert report.intent_right == 0.5
    assert report.confusion()["fragrance_for_wax"] == {"fragrance_for_wax": 2, "unsafe": 1, "(crashed)": 1}
    assert [each.row.text for each in report.faults()] == ["crash"]
    assert 0 <= report.milliseconds(0.5) <= report.milliseconds(0.95) <= report.milliseconds(1)
    assert "unsafe 1" in str(report)


def perfect(rows: list[Row]) -> Callable[[str], Outcome]:
    """Answers every row by heart."""
    by_text = {row.text: row for row in rows}

    def answer(text: str) -> Outcome:
        row = by_text[text]
        return Outcome(row.answerable, list(row.missing), [(n.value, n.unit) for n in row.wanted], row.intent)

    return answer


@pytest.mark.parametrize("path", FILES.values(), ids=FILES.keys())
def test_the_corpus_can_be_got_right_and_cannot_be_got_right_blindly(path: Path) -> None:
    rows = load(path)
    best = score(rows, perfect(rows))
    assert (best.right, best.dangerous, best.missing_right, best.intent_right) == (1, 0, 1, 1)
    silent = score(rows, lambda _: Outcome(False, [], [], ""))
    assert silent.right < 0.5
    assert silent.dangerous == 0
    reckless = score(rows, lambda _: Outcome(True, [], [(40, "g")], "fragrance_for_wax"))
    assert reckless.dangerous == sum(not row.answerable for row in rows) >= 60
    assert reckless.right < 0.15


def test_amounts_are_scored_by_what_stands_in_the_text() -> None:
    row = Row(
        "x3",
        "1 lb 4 oz of wax at 8 %",
        "fragrance_for_wax",
        True,
        (),
        (),
        (),
        "",
        (Amount(20, "oz", parts=((1, "lb"), (4, "oz"))), Amount(8, "percent"), Amount(1, "cup", optional=True)),
    )
    whole = score_amounts([row], lambda _: [(1.25, "lb"), (8, "percent"), (0.9, "g/ml")])
    parts = score_amounts([row], lambda _: [(4, "oz"), (1, "lb"), (8, "percent")])
    assert whole.f1 == parts.f1 == 1
    half = score_amounts([row], lambda _: [(4, "oz"), (8, "percent")])
    assert (half.found, half.extra, half.overlooked) == (1, 1, 1)
    assert half.f1 == 0.5
    assert half.faults[0][0] == "x3"
