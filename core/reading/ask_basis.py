"""Texts about what a percent is of: asked back, both readings wanted, or one told as the other."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer
from core.compounds import Basis, Load, Masses
from core.question import Question
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.bases import basis_words
from core.reading.chain import chained
from core.reading.givens import Givens
from core.units import Mass

Outcome = Question | Answer | None


def restated(g: Givens) -> LoadQuestion | None:
    """ "8 % of the total, said as a percent of the wax": two weights that are that load."""
    given = g.shares.load
    if given is None or given.basis is None or g.scan.masses() or len(g.scan.kind("percent")) != 1:
        return None
    if (
        not g.asks_percent
        or len(basis_words(g.scan)) != 2
        or any(m.kind not in ("percent", "asked") for m in g.scan.found)
    ):
        return None
    percent = given.percent.base
    wax = Decimal(100) - percent if given.basis is Basis.TOTAL else Decimal(100)
    g.used.update(m.at for m in g.scan.kind("percent"))
    return LoadQuestion(fragrance=Mass(percent), wax=Masses.one(Mass(wax))) if 0 < percent < 100 else None


def of_a_total(g: Givens, made: list[LoadQuestion]) -> Outcome:
    """A finished weight: what its percent is of must be said, unless the asker does not mind."""
    first = made[0]
    if first.load is None or first.load.basis is not None or len(made) > 1:
        return chained(g.book, *made)
    if asks_both(g):
        return chained(g.book, *_readings(first))
    return asking.basis(first)


def asks_both(g: Givens) -> bool:
    """Whether both readings of the percent are asked for."""
    if g.has("dont_mind"):
        return True
    said = basis_words(g.scan)
    if said and any(mark.text == "or" and _names_whole(g, i) for i, mark in enumerate(g.scan.marks)):
        return True
    return len(said) == 2 and not g.scan.masses("fragrance")


def _names_whole(g: Givens, i: int) -> bool:
    """ "... of the wax or everything"."""
    return any(mark.noun in ("total", "candle", "wax") for mark in g.scan.marks[i + 1 : i + 5])


def compares_bases(g: Givens) -> bool:
    """ "7 % on 800 g of wax, how much less is it than 7 % of the total?" """
    percents = [m.amount.value for m in g.scan.kind("percent")]
    given = g.shares.load
    twice = len(percents) == 2 and percents[0] == percents[1]
    return twice and g.has("compare", "bigger") and given is not None and given.basis is Basis.TOTAL


def on_both(first: LoadQuestion, wax: Masses) -> list[LoadQuestion]:
    assert first.load is not None
    percent = first.load.percent
    return [
        LoadQuestion(wax=wax, load=Load(percent, Basis.WAX), unit=first.unit),
        LoadQuestion(wax=wax, load=Load(percent, Basis.TOTAL), unit=first.unit),
        LoadQuestion(total=wax.total, load=Load(percent, Basis.WAX), unit=first.unit),
        LoadQuestion(total=wax.total, load=Load(percent, Basis.TOTAL), unit=first.unit),
    ]


def _readings(first: LoadQuestion) -> list[LoadQuestion]:
    assert first.load is not None
    assert first.total is not None
    return on_both(first, Masses.one(first.total))[2:]
