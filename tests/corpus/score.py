"""Scores something that answers questions against the corpus: what came out, how it was understood, how long it took.

`python -m tests.corpus.score package.module:function [file]` prints the report; the function takes a text and returns
an Outcome. Without a file the development split is scored.
"""

import importlib
import math
import sys
import time
from collections import Counter
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from enum import StrEnum
from pathlib import Path

from tests.corpus.rows import DEV, Row, Wanted, load, same_unit_amount

OTHER_UNIT_TOLERANCE = 0.005  # told in another unit, a value may differ by what rounding to two decimals costs


@dataclass(frozen=True, slots=True)
class Outcome:
    """What an answerer made of a text. Not answerable: it asked back or declined, and `missing` names what for."""

    answerable: bool
    missing: list[str]
    numbers: list[tuple[float, str]]
    intent: str


class Verdict(StrEnum):
    ANSWERED_RIGHT = "answered right"
    ASKED_RIGHT = "asked right"
    DANGEROUS = "dangerous"  # answered what it had to ask back or decline
    WRONG_NUMBER = "wrong number"  # answered, and a number that was asked for is not there
    ASKED_NEEDLESSLY = "asked needlessly"
    CRASHED = "crashed"


RIGHT = (Verdict.ANSWERED_RIGHT, Verdict.ASKED_RIGHT)


@dataclass(frozen=True, slots=True)
class Scored:
    """One row, what came out for it, and in how many milliseconds. No outcome: the answerer raised."""

    row: Row
    outcome: Outcome | None
    verdict: Verdict
    milliseconds: float


@dataclass(frozen=True, slots=True)
class Report:
    """Every scored row; all figures follow from them."""

    scored: list[Scored] = field(default_factory=list)

    @property
    def right(self) -> float:
        """The share of rows with the right outcome, 0 to 1."""
        return _share([each.verdict in RIGHT for each in self.scored])

    @property
    def dangerous(self) -> int:
        return self.count(Verdict.DANGEROUS)

    @property
    def missing_right(self) -> float:
        """Of the rows rightly asked back, the share where something that is really missing was named."""
        asked = [each for each in self.scored if each.verdict is Verdict.ASKED_RIGHT and each.row.missing]
        return _share([bool(set(each.row.missing) & set(each.outcome.missing)) for each in asked if each.outcome])

    @property
    def intent_right(self) -> float:
        return _share([each.outcome is not None and each.outcome.intent == each.row.intent for each in self.scored])

    def count(self, verdict: Verdict) -> int:
        return sum(each.verdict is verdict for each in self.scored)

    def faults(self, intent: str | None = None) -> list[Scored]:
        """The rows with a wrong outcome, of one intent or of all."""
        return [e for e in self.scored if e.verdict not in RIGHT and intent in (None, e.row.intent)]

    def confusion(self) -> dict[str, Counter[str]]:
        """For each intent of the corpus, how often each intent was understood."""
        table: dict[str, Counter[str]] = {}
        for each in self.scored:
            got = each.outcome.intent if each.outcome else "(crashed)"
            table.setdefault(each.row.intent, Counter())[got or "(none)"] += 1
        return table

    def milliseconds(self, share: float) -> float:
        """The time within which this share (0 to 1) of the rows was done, by nearest rank."""
        times = sorted(each.milliseconds for each in self.scored)
        return times[max(0, math.ceil(share * len(times)) - 1)] if times else 0.0

    def __str__(self) -> str:
        verdicts = list(Verdict)
        lines = [
            f"right {self.right:.3f} of {len(self.scored)}, dangerous {self.dangerous}, "
            f"missing named right {self.missing_right:.3f}, intent right {self.intent_right:.3f}",
            f"milliseconds: median {self.milliseconds(0.5):.2f}, p95 {self.milliseconds(0.95):.2f}, "
            f"max {self.milliseconds(1):.2f}",
            "",
            f"{'intent':<32}" + "".join(f"{verdict:>18}" for verdict in verdicts) + "  understood otherwise",
        ]
        for intent, understood in sorted(self.confusion().items()):
            tally = Counter(each.verdict for each in self.scored if each.row.intent == intent)
            otherwise = ", ".join(f"{name} {n}" for name, n in understood.most_common() if name != intent)
            lines.append(f"{intent:<32}" + "".join(f"{tally[verdict]:>18}" for verdict in verdicts) + f"  {otherwise}")
        return "\n".join(line.rstrip() for line in lines)


def score(rows: Sequence[Row], answer: Callable[[str], Outcome]) -> Report:
    """Ask every row's text and judge what comes back. An exception is a fault of that row, not of the scoring."""
    scored = []
    for row in rows:
        started = time.perf_counter()
        try:
            outcome: Outcome | None = answer(row.text)
        except Exception:
            outcome = None
        milliseconds = (time.perf_counter() - started) * 1000
        scored.append(Scored(row, outcome, judge(row, outcome), milliseconds))
    return Report(scored)


def judge(row: Row, outcome: Outcome | None) -> Verdict:
    """The verdict on one outcome; None stands for an answerer that raised."""
    if outcome is None:
        return Verdict.CRASHED
    if not row.answerable:
        return Verdict.DANGEROUS if outcome.answerable else Verdict.ASKED_RIGHT
    if not outcome.answerable:
        return Verdict.ASKED_NEEDLESSLY
    if all(_holds(outcome.numbers, wanted) for wanted in row.wanted):
        return Verdict.ANSWERED_RIGHT
    return Verdict.WRONG_NUMBER


def _holds(numbers: list[tuple[float, str]], wanted: Wanted) -> bool:
    for value, unit in numbers:
        converted = same_unit_amount(float(value), unit, wanted.unit)
        if converted is None:
            continue
        rounding = 0.0 if unit == wanted.unit else OTHER_UNIT_TOLERANCE * abs(wanted.value)
        if abs(converted - wanted.value) <= max(wanted.tol, rounding):
            return True
    return False


def _share(hits: list[bool]) -> float:
    return sum(hits) / len(hits) if hits else 1.0


def main(arguments: list[str]) -> None:
    """Score `package.module:function` on a corpus file and write the report with its faults."""
    module, _, function = arguments[0].partition(":")
    answer: Callable[[str], Outcome] = getattr(importlib.import_module(module), function)
    path = Path(arguments[1]) if len(arguments) > 1 else DEV
    report = score(load(path), answer)
    sys.stdout.write(f"{report}\n")
    if path == DEV:  # the single questions of the other split are not for reading
        sys.stdout.writelines(f"{each.verdict}: {each.row.id} {each.row.text!r}\n" for each in report.faults())


if __name__ == "__main__":
    main(sys.argv[1:])
