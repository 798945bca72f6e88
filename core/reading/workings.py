"""The sums that a story leaves to be done before its question: shown as the first steps of the answer."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

from core.answer import Answer, Line, Result, Step, Worked, line
from core.units import Mass, Number, Quantity

Q = TypeVar("Q", bound=Quantity)


@dataclass(frozen=True, slots=True)
class Working:
    """One sum and what it gives: "what is left: 5 kg − 1.4 kg = 3.6 kg"."""

    step: Step
    result: Result


def told(answer: Answer, workings: Sequence[Working]) -> Answer:
    """The worked answer with these sums before its own steps; any other answer as it is."""
    if not workings or not isinstance(answer, Worked):
        return answer
    steps = tuple(working.step for working in workings)
    results = tuple(working.result for working in workings)
    return dataclasses.replace(answer, steps=(*steps, *answer.steps), results=(*answer.results, *results))


def difference(what: str, whole: Mass, *less: Mass) -> tuple[Mass, Working]:
    """`whole` without each of `less`; `what` names what that is ("what is left")."""
    rest = whole
    for mass in less:
        rest = rest - mass
    numbers = line(" − ".join(f"{{{i}:typed}}" for i in range(1 + len(less))), whole, *less)
    return rest, _working(what, numbers, rest)


def product(what: str, count: Decimal, one: Q) -> tuple[Q, Working]:
    """So many times `one`."""
    whole = one * count
    return whole, _working(what, line("{0} × {1:typed}", count, one), whole)


def part(what: str, whole: Mass, fraction: Decimal, text: Line) -> tuple[Mass, Working]:
    """That part of `whole`; `text` is the fraction as it is shown."""
    some = whole * fraction
    return some, _working(what, line("{0:typed} × {1}", whole, text), some)


def added(what: str, *masses: Mass) -> tuple[Mass, Working]:
    """All of them together."""
    total = masses[0]
    for mass in masses[1:]:
        total = total + mass
    numbers = line(" + ".join(f"{{{i}:typed}}" for i in range(len(masses))), *masses)
    return total, _working(what, numbers, total)


def tallied(what: str, numbers: Line, count: Decimal) -> Working:
    """A number of things, counted from other numbers."""
    return _working(what, numbers, Number.of(count))


def _working(what: str, numbers: Line, result: Quantity) -> Working:
    return Working(Step(what, numbers, line("{0:typed}", result)), Result("worked_out", result))
