"""Postage that is paid once beside the packs: added to what they cost."""

from __future__ import annotations

import dataclasses

from core.answer import Answer, Result, Step, Worked, line, results_by_name
from core.units import Money


def with_postage(answer: Answer, postage: Money | None) -> Answer:
    """The answer with the postage added to its cost; said where there is no cost to add it to."""
    if postage is None or not isinstance(answer, Worked):
        return answer
    cost = results_by_name(answer).get("cost")
    if not isinstance(cost, Money):
        return dataclasses.replace(answer, assumed=(*answer.assumed, line("I left out the postage of {0}.", postage)))
    paid = Money(postage.base, cost.unit)
    total = Money(cost.base + paid.base, cost.unit)
    return dataclasses.replace(
        answer,
        steps=(*answer.steps, Step("in all = packs + postage", line("{0} + {1}", cost, paid), line("{0}", total))),
        results=(*answer.results, Result("in_all", total)),
        body=(line("With the postage of {0} you pay {1}.", paid, total), *answer.body),
    )
