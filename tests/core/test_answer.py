"""Answers as data: a Line keeps values apart from words, and somebody's words never become a template."""

from __future__ import annotations

from decimal import Decimal

import pytest

from core.answer import Line, Missing, Need, Result, Worked, line, results_by_name
from core.units import Mass, Percent
from core.writing import Style

D = Decimal


def test_a_line_writes_its_values_in_the_askers_style() -> None:
    sentence = line("{0} of it, {0:g} or {0:oz}.", Mass.of("46.5"))
    assert sentence.show() == "46.5 g (1.64 oz) of it, 46.5 g or 1.64 oz."
    assert sentence.show(Style(first="oz")).startswith("1.64 oz (46.5 g)")


def test_a_line_may_hold_a_line() -> None:
    assert line("{} and {}", line("{}", Percent(D(8))), Line("words")).show() == "8 % and words"


@pytest.mark.parametrize("typed", ["{0.__class__}", "{}", "{{}}", "%s", "{0!r:>99999999}", "@everyone"])
def test_somebodys_words_are_shown_as_they_are(typed: str) -> None:
    assert line("Read: {}.", typed).show() == f"Read: {typed}."


def test_somebodys_words_are_escaped_where_the_renderer_asks() -> None:
    style = Style(escape=lambda text: text.replace("@", "(at)"))
    assert line("Hello @ {}", "@all").show(style) == "Hello @ (at)all"


def test_braces_in_our_own_words_need_no_values() -> None:
    assert line("a {{b}}").show() == "a {b}"


def test_results_by_name() -> None:
    answer = Worked(intent="x", headline=line("y"), results=(Result("wax", Mass.of(5)), Result("load", Percent(D(8)))))
    assert results_by_name(answer)["wax"] == Mass.of(5)
    assert answer.kind == "worked"


def test_answers_are_frozen_and_comparable() -> None:
    one, other = (Missing(intent="x", headline=line("y"), needs=(Need("z", line("w")),)) for _ in range(2))
    assert one == other
    with pytest.raises(AttributeError):
        one.intent = "other"  # type: ignore[misc]
