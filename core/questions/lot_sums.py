"""Judging a lot: its average and its shortest packages against the label, and how much more to pour.

US: the average reaches the label, none is short by more than the allowed (NIST Handbook 133). EU and UK: the average
reaches the label, at most 2.5 % lie below T1, none below T2 (Directive 76/211/EEC Annex I).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal

from core.questions.label_statement import IMPERIAL, metric_figure
from core.questions.rules import Rules
from core.reference import labelling
from core.reference.table import Status
from core.units import Mass


@dataclass(frozen=True, slots=True)
class Lot:
    """The net weights in grams, lightest first, with the place each has in the list given (from 1)."""

    weights: tuple[Decimal, ...]
    places: tuple[int, ...]

    @property
    def mean(self) -> Decimal:
        """The average."""
        return sum(self.weights, Decimal(0)) / len(self.weights)

    @property
    def spread(self) -> Decimal:
        """The standard deviation of the sample; of one weight there is none."""
        mean = self.mean
        return (sum(((w - mean) ** 2 for w in self.weights), Decimal(0)) / (len(self.weights) - 1)).sqrt()


@dataclass(frozen=True, slots=True)
class Verdict:
    """One set of rules on one lot. All weights in grams.

    `floor` is what none may lie below (None where no allowed shortfall is held); `few_below` what only `few` may (None
    where there is no such rule); `short` the average's lack, `raise_by` how much more in each makes the lot pass (0
    where it does).
    """

    rules: Rules
    nominal: Decimal
    floor: Decimal | None
    few_below: Decimal | None
    few: int
    under_few: int
    under_floor: int
    short: Decimal
    raise_by: Decimal
    source: str
    status: Status

    @property
    def passed(self) -> bool | None:
        """True where nothing has to be raised; None where single packages can't be judged."""
        return False if self.raise_by else None if self.floor is None else True


def lot_of(weights: Sequence[Mass], tare: Mass | None) -> Lot:
    """The net weights in order."""
    empty = tare.base if tare is not None else Decimal(0)
    ordered = sorted((mass.base - empty, place) for place, mass in enumerate(weights, 1))
    return Lot(tuple(weight for weight, _ in ordered), tuple(place for _, place in ordered))


def verdict(lot: Lot, label: Mass, rules: Rules) -> Verdict | None:
    """The lot by those rules, None where they do not cover such a label."""
    return _us(lot, label) if rules is Rules.US else _metric(lot, label)


def _us(lot: Lot, label: Mass) -> Verdict:
    allowed = labelling.mav(label.to("lb"))
    if allowed is None:
        return _judged(lot, Rules.US, label.base, None, None, 0, "NIST Handbook 133", Status.MEMORY)
    floor = label.base - Mass.of(allowed.lb, "lb").base
    return _judged(lot, Rules.US, label.base, floor, None, 0, allowed.source, allowed.status)


def _metric(lot: Lot, label: Mass) -> Verdict | None:
    nominal = (metric_figure(label) if label.unit in IMPERIAL else label).base
    found = labelling.tne(nominal)
    if found is None:
        return None
    few = int(labelling.rule("short packages share").value * len(lot.weights))
    return _judged(lot, Rules.EU_UK, nominal, found.t2, found.t1, few, found.source, found.status)


def _judged(
    lot: Lot,
    rules: Rules,
    nominal: Decimal,
    floor: Decimal | None,
    few_below: Decimal | None,
    few: int,
    source: str,
    status: Status,
) -> Verdict:
    lacks = [Decimal(0), nominal - lot.mean]
    if floor is not None:
        lacks.append(floor - lot.weights[0])
    if few_below is not None:
        lacks.append(few_below - lot.weights[few])
    return Verdict(
        rules=rules,
        nominal=nominal,
        floor=floor,
        few_below=few_below,
        few=few,
        under_few=0 if few_below is None else sum(weight < few_below for weight in lot.weights),
        under_floor=0 if floor is None else sum(weight < floor for weight in lot.weights),
        short=max(Decimal(0), nominal - lot.mean),
        raise_by=max(lacks),
        source=source,
        status=status,
    )
