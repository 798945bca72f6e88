"""The sums that a story leaves to be done before its question: shown as the first steps of the answer."""

from __future__ import annotations

import dataclasses
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import TypeVar

from core.answer import Answer, Line, Result, Step, Worked, line, results_by_name
from core.units import Mass, Number, Quantity

Q = TypeVar("Q", bound=Quantity)


@dataclass(frozen=True, slots=True)
class Working:
    """One sum and what it gives: "what is left: 5 kg − 1.4 kg = 3.6 kg"."""

    step: Step
    result: Result


@dataclass(frozen=True, slots=True)
class Counted:
    """What the answer is to be counted in as well: "how many pumps?", one of which was weighed. `things` is the
    asker's word, `of` the result that is counted."""

    things: str
    one: Mass
    of: str


def told(answer: Answer, workings: Sequence[Working], counted: Counted | None = None) -> Answer:
    """The worked answer with these sums before its own steps; any other answer as it is."""
    if not isinstance(answer, Worked):
        return answer
    if workings:
        steps = tuple(working.step for working in workings)
        results = tuple(working.result for working in workings)
        answer = dataclasses.replace(answer, steps=(*steps, *answer.steps), results=(*answer.results, *results))
    weight = results_by_name(answer).get(counted.of) if counted is not None else None
    if counted is None or not isinstance(weight, Mass) or not counted.one:
        return answer
    number = Number.of(weight.base / counted.one.base)
    step = Step("how many", line("{0:typed} ÷ {1:typed}", weight, counted.one), line("{0}", number))
    return dataclasses.replace(
        answer,
        steps=(*answer.steps, step),
        results=(*answer.results, Result("counted", number)),
        body=(line("That is {0} {1}.", number, counted.things), *answer.body),
    )


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


def shared(what: str, whole: Mass, count: Decimal) -> tuple[Mass, Working]:
    """One of so many equal parts of `whole`."""
    one = Mass(whole.base / count, whole.unit)
    return one, _working(what, line("{0:typed} ÷ {1}", whole, count), one)


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
