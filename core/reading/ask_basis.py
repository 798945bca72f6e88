"""Texts about what a percent is of: asked back, both readings wanted, or one told as the other."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer
from core.compounds import Basis, Load, Masses
from core.mixing import NO_ADDITIVES, Recipe
from core.question import Question
from core.questions.cautions import may_offer
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.bases import basis_words
from core.reading.chain import chained
from core.reading.givens import Givens
from core.reading.measuring import mass_of
from core.reading.share import HUNDRED
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None


def restated(g: Givens) -> Outcome:
    """ "8 % of the total, said as a percent of the wax", "is 9.09 % of total the same as 10 % of wax?": each as two
    weights that are that load."""
    loads = g.shares.loads
    percents = g.scan.kind("percent")
    if not 0 < len(loads) == len(percents) <= 2 or any(each.basis is None or each.typed for each in loads):
        return None
    if any(m.kind not in ("percent", "asked") for m in g.scan.found) or g.scan.masses():
        return None
    both = {"of_total", "of_wax"} <= g.scan.tags
    told = len(loads) == 2 and g.has("compare", "same")
    if not (told or (len(loads) == 1 and both and (g.asks_percent or g.has("convert")))):
        return None
    made: list[Question | Answer] = []
    for each in loads:
        percent = each.percent.base
        if not 0 < percent < HUNDRED:
            return None
        wax = HUNDRED - percent if each.basis is Basis.TOTAL else HUNDRED
        made.append(LoadQuestion(fragrance=Mass(percent), wax=Masses.one(Mass(wax))))
    g.used.update(m.at for m in percents)
    return chained(g.book, *made)


def of_a_total(g: Givens, made: list[LoadQuestion]) -> Outcome:
    """A finished weight: what its percent is of must be said, unless the asker does not mind."""
    first = made[0]
    offered = _offers_both(g)
    if first.load is None or (first.load.basis is not None and not offered) or first.load.typed or len(made) > 1:
        return chained(g.book, *made)
    if offered or asks_both(g):
        return chained(g.book, *_readings(first))
    if not may_offer(Recipe(first.load.percent, Basis.TOTAL, first.additives or NO_ADDITIVES)):
        return first  # one of the two would be refused: no choice
    return asking.basis(first)


def who_is_right(g: Givens) -> Outcome:
    """ "Both did 500 g at 8 %, she has 40 g of oil and I have 37: who is right?": each by its own reading."""
    masses, load = g.scan.masses(), g.shares.load
    asks = g.scan.says(("who", "whose", "which", "whos")) and g.scan.says(("right", "correct", "wrong"))
    if load is None or load.basis is not None or not asks or not masses:
        return None
    main = max(masses, key=lambda m: mass_of(m).base)
    bare = [m for m in g.scan.kind("number") if m.amount.value > 1 and not m.amount.unit]
    told = [mass_of(m).base for m in masses if m is not main]
    told += [Mass.of(m.amount.value, main.amount.unit).base for m in bare]
    ways = on_both(LoadQuestion(load=load), Masses.one(mass_of(main)))
    fitting = [way for way in ways if any(_near(_oil_of(way), oil) for oil in told)]
    if len(told) < 2 or not all(any(_near(_oil_of(way), oil) for way in ways) for oil in told):
        return None
    g.used.update(m.at for m in g.scan.found)
    return chained(g.book, *fitting)


def _oil_of(way: LoadQuestion) -> Decimal:
    assert way.load is not None
    recipe = Recipe(way.load.percent, way.load.basis or Basis.WAX)
    if way.wax is not None:
        return recipe.of_wax(way.wax.total).fragrance.base
    assert way.total is not None
    return recipe.of_total(way.total).fragrance.base


def _near(one: Decimal, other: Decimal) -> bool:
    return abs(one - other) <= one * Decimal("0.013")


def asks_both(g: Givens) -> bool:
    """Whether both readings of the percent are asked for."""
    if g.has("dont_mind") or _offers_both(g):
        return True
    said = basis_words(g.scan)
    if said and any(mark.text == "or" and _names_whole(g, i) for i, mark in enumerate(g.scan.marks)):
        return True
    return len(said) == 2 and not g.scan.masses("fragrance")


def _names_whole(g: Givens, i: int) -> bool:
    """ "... of the wax or everything"."""
    return any(mark.noun in ("total", "candle", "wax") for mark in g.scan.marks[i + 1 : i + 5])


_WHOLES = wordset("all lot everything total whole together")


def _offers_both(g: Givens) -> bool:
    """ "Of wax or of all, no idea", "of the total or the wax?": the one basis or the other, and nobody said which."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        if mark.text != "or":
            continue
        before = frozenset().union(*(x.tags for x in marks[max(0, i - 4) : i]))
        after = marks[i + 1 : i + 4]
        whole = any(x.text in _WHOLES or x.noun in ("total", "candle") for x in after)
        if ("of_wax" in before and whole) or ("of_total" in before and any("wax_itself" in x.tags for x in after)):
            return True
    return False


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
