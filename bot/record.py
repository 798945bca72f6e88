"""An answer as one JSON object: exact values under machine names, and the text as shown."""

from __future__ import annotations

import json
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

from bot.outline import style_for
from bot.text import page
from core.answer import Answer, Choice, Given, Missing, Result
from core.book import Preferences
from core.units import Mass, Quantity, Volume


def record(question: str, answer: Answer, preferences: Preferences, trouble: str = "") -> dict[str, Any]:
    """The object described in the README. Masses stand in g and oz, volumes in ml, each also in the unit asked for.
    `trouble` is what is wrong with the library, shown below the answer."""
    style = style_for(answer, preferences)
    parts = (answer, *answer.then)
    return {
        "question": question,
        "kind": answer.kind,
        "intent": answer.intent,
        "given": [_given(given) for part in parts for given in part.given],
        "steps": [
            {"formula": step.formula, "numbers": step.numbers.show(style), "result": step.result.show(style)}
            for part in parts
            for step in part.steps
            if not step.idle(style)
        ],
        "results": [item for part in parts for result in part.results for item in _result(result)],
        "missing": [need.name for part in parts if isinstance(part, Missing | Choice) for need in part.needs],
        "choices": [option.label for part in parts if isinstance(part, Choice) for option in part.options],
        "cautions": [caution.key for part in parts for caution in part.cautions],
        "text": "\n".join(filter(None, (page(answer, preferences), trouble))),
    }


def dumps(question: str, answer: Answer, preferences: Preferences, trouble: str = "") -> str:
    """The object on one line."""
    return json.dumps(record(question, answer, preferences, trouble), ensure_ascii=False)


def _number(value: Decimal) -> int | float:
    """JSON's own number, the nearest double to the exact value; whole numbers stay whole."""
    return int(value) if value == value.to_integral_value() else float(value)


def _given(given: Given) -> dict[str, Any]:
    return {
        "what": given.what,
        "value": _number(given.value.base),
        "unit": _unit(given.value),
        "origin": given.origin.value,
    }


def _unit(value: Quantity) -> str:
    return value.unit if value.BASE == "money" else _plain(value.BASE)


def _plain(unit: str) -> str:
    """A degree Celsius is the unit of a reading and of a change alike (SI Brochure, 9th edition, 2.3.1)."""
    return unit.removeprefix("delta_")


def _result(result: Result) -> Iterator[dict[str, Any]]:
    value = result.value
    yield {"what": result.what, "value": _number(value.base), "unit": _unit(value)}
    units = ["oz"] if isinstance(value, Mass) else []
    asked = result.unit
    if asked and asked not in (*units, _unit(value)):
        units.append(asked)
    if isinstance(value, Volume) and not asked:
        units.append("us_fl_oz")
    for unit in units:
        try:
            number = value.to(unit)
        except KeyError:
            continue
        yield {"what": result.what, "value": _number(number), "unit": _plain(unit)}
