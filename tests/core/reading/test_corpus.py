"""Reading against the corpus: the floor of what is understood, and that nothing unsafe or unknown is answered."""

from __future__ import annotations

import pytest

from tests.core.reading.asked import outcome
from tests.corpus.rows import DEV, FILES, load
from tests.corpus.score import Verdict, score


def share(verdicts: list[Verdict], *of: Verdict) -> float:
    return sum(verdict in of for verdict in verdicts) / len(verdicts)


def test_the_development_split_is_answered_or_asked_as_it_must_be() -> None:
    scored = score(load(DEV), outcome).scored
    verdicts = [each.verdict for each in scored]
    assert Verdict.CRASHED not in verdicts
    assert [each.row.id for each in scored if each.verdict is Verdict.DANGEROUS] == []
    assert share(verdicts, Verdict.ANSWERED_RIGHT, Verdict.ASKED_RIGHT) >= 0.97


def test_the_heldout_split_keeps_its_floor() -> None:
    verdicts = [each.verdict for each in score(load(FILES["heldout"]), outcome).scored]
    assert Verdict.CRASHED not in verdicts
    assert share(verdicts, Verdict.DANGEROUS) <= 0.01
    assert share(verdicts, Verdict.ANSWERED_RIGHT, Verdict.ASKED_RIGHT) >= 0.82


@pytest.mark.parametrize("row", [row for row in load(DEV) if row.intent == "unsafe"], ids=lambda row: row.id)
def test_unsafe_practice_is_declined_with_the_safe_one(row) -> None:  # type: ignore[no-untyped-def]
    from tests.core.reading.asked import answered

    answer = answered(row.text)
    assert answer.kind in ("declined", "missing", "choice", "not_understood")
    assert not answer.results
