"""Reading against the corpus: the floor of what is understood, and that nothing unsafe or unknown is answered."""

from __future__ import annotations

import pytest

from tests.core.reading.asked import outcome
from tests.corpus.rows import DEV, FILES, load
from tests.corpus.score import Verdict, score

# The share of right outcomes below which no set may fall again; it may rise when reading gets better.
FLOORS = {
    "dev": 0.99,
    "heldout": 0.97,
    "second": 0.97,
    "third": 0.98,
    "fourth": 0.98,
    "fifth": 0.97,
    "sixth": 0.96,
    "seventh": 0.98,
    "eighth": 0.95,
    "ninth": 0.95,
    "tenth": 0.93,
}


@pytest.mark.parametrize(("split", "floor"), FLOORS.items())
def test_what_has_been_reached_is_kept(split: str, floor: float) -> None:
    report = score(load(FILES[split]), outcome)
    assert report.count(Verdict.CRASHED) == 0
    assert [each.row.id for each in report.scored if each.verdict is Verdict.DANGEROUS] == []
    assert report.right >= floor


@pytest.mark.parametrize("row", [row for row in load(DEV) if row.intent == "unsafe"], ids=lambda row: row.id)
def test_unsafe_practice_is_declined_with_the_safe_one(row) -> None:  # type: ignore[no-untyped-def]
    from tests.core.reading.asked import answered

    answer = answered(row.text)
    assert answer.kind in ("declined", "missing", "choice", "not_understood")
    assert not answer.results
