"""Scores the reading of amounts alone: which of those that stand in a text are found, and what is found wrongly."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass

from tests.corpus.rows import SIZES, Amount, Row, same_unit_amount

CLOSE = 0.005  # the same amount may be told in another unit, rounded
OURS = set(SIZES) | {"percent", "degC", "degF"}


@dataclass(frozen=True, slots=True)
class AmountsReport:
    """Amounts found, found though not there, and not found; `faults` names the row and both lists of amounts."""

    found: int
    extra: int
    overlooked: int
    faults: list[tuple[str, list[Amount], list[tuple[float, str]]]]

    @property
    def precision(self) -> float:
        return self.found / (self.found + self.extra) if self.found + self.extra else 1.0

    @property
    def recall(self) -> float:
        return self.found / (self.found + self.overlooked) if self.found + self.overlooked else 1.0

    @property
    def f1(self) -> float:
        both = self.precision + self.recall
        return 2 * self.precision * self.recall / both if both else 0.0

    def __str__(self) -> str:
        return f"amounts: precision {self.precision:.3f}, recall {self.recall:.3f}, F1 {self.f1:.3f}"


def score_amounts(rows: Sequence[Row], pairs: Callable[[str], Iterable[tuple[float, str]]]) -> AmountsReport:
    """Read every text with `pairs`, which gives (value, unit); units that are not of the corpus are passed over."""
    found = extra = overlooked = 0
    faults = []
    for row in rows:
        left = [(float(value), unit) for value, unit in pairs(row.text) if unit in OURS]
        missed = []
        for amount in row.given:
            if _take(left, amount):
                found += 1
            elif not amount.optional:
                missed.append(amount)
        extra += len(left)
        overlooked += len(missed)
        if left or missed:
            faults.append((row.id, missed, left))
    return AmountsReport(found, extra, overlooked, faults)


def _take(left: list[tuple[float, str]], amount: Amount) -> bool:
    """Remove from `left` what stands for this amount, whole or in parts; False, and nothing removed, when it is not."""
    rest = list(left)
    for pieces in ([(amount.value, amount.unit)], amount.parts):
        if pieces and all(_take_one(rest, *piece) for piece in pieces):
            left[:] = rest
            return True
        rest = list(left)
    return False


def _take_one(left: list[tuple[float, str]], value: float, unit: str) -> bool:
    for exactly in (True, False):
        for at, (got, got_unit) in enumerate(left):
            converted = same_unit_amount(got, got_unit, unit)
            if converted is None or (exactly and got_unit != unit):
                continue
            if abs(converted - value) <= CLOSE * abs(value):
                del left[at]
                return True
    return False
