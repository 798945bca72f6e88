"""What is thinned or mixed beforehand: a diluted oil's strength, and oils put together in one bottle."""

from __future__ import annotations

from decimal import Decimal

from core.compounds import Parts
from core.reading.marks import Mark, Measured, Scan
from core.reading.share import HUNDRED, Shares
from core.reading.wordset import wordset
from core.units import Mass, Percent

# A diluted oil holds at least this much carrier for the words to be about its strength rather than a load.
LEAST_STRENGTH = Decimal(20)


def strength(scan: Scan, rest: list[Measured], out: Shares) -> list[Measured]:
    """File how strong a thinned oil is, and what a bottle was mixed from; the percents that are left."""
    _mixed_beforehand(scan, out)
    if not scan.has("carrier", "strength"):
        return rest
    if _of_halves(scan, out) or _of_fractions(scan, out) or _of_weights(scan, out):
        return rest
    return _of_percents(scan, rest, out)


def _of_halves(scan: Scan, out: Shares) -> bool:
    """ "Half carrier", "cut half and half with carrier oil", "50/50 with jojoba oil"."""
    half = [m for m in scan.kind("ratio") if len(set(m.amount.ratio)) == 1 and len(m.amount.ratio) == 2]
    said = any(
        one.text == "half" and two.noun == "carrier" for one, two in zip(scan.marks, scan.marks[1:], strict=False)
    )
    told = "half" in scan.tags or bool(half)
    if not said and not (told and scan.has("carrier")):
        return False
    out.strength = Percent(HUNDRED / 2)
    for m in half:
        m.kind = "thinning"
    return True


def _of_fractions(scan: Scan, out: Shares) -> bool:
    """ "One third fragrance, two thirds carrier"."""
    parts = [m for m in scan.kind("number") if 0 < m.amount.value < 1]
    carriers = [m for m in parts if m.of == "carrier"]
    if len(carriers) != 1:
        return False
    strong = 1 - carriers[0].amount.value
    others = [m for m in parts if m is not carriers[0]]
    if any(abs(m.amount.value - strong) > Decimal("0.001") for m in others) or len(others) > 1:
        return False
    if others:
        strong = others[0].amount.value
    out.strength = Percent(strong * HUNDRED)
    for m in parts:
        m.of, m.kind = "thinned", "thinning"
    return True


def _of_weights(scan: Scan, out: Shares) -> bool:
    """ "20 g vanilla with 80 g carrier": a fifth of it is fragrance."""
    carriers = [m for m in scan.masses("carrier") if isinstance(m.value, Mass)]
    oils = [m for m in scan.masses("fragrance") if isinstance(m.value, Mass)]
    if len(carriers) != 1 or not oils:
        return False
    oil = min(oils, key=lambda m: abs(m.at - carriers[0].at))
    if any(mark.kind == "stop" for mark in scan.marks[min(oil.at, carriers[0].at) : max(oil.at, carriers[0].at)]):
        return False
    assert isinstance(oil.value, Mass)
    assert isinstance(carriers[0].value, Mass)
    whole = oil.value.base + carriers[0].value.base
    if not oil.value.base or not carriers[0].value.base:
        return False
    out.strength = Percent(oil.value.base / whole * HUNDRED)
    oil.of = carriers[0].of = "thinned"
    return True


_OF_IT = (["of", "it"], ["of", "that"], ["of", "this"], ["from", "it"], ["from", "that"], ["of", "them"])
_OF_THE = wordset("mix mixture blend bottle")


def _mixed_beforehand(scan: Scan, out: Shares) -> None:
    """ "60 g rose and 20 g oud in one bottle, 40 g of that in 500 g wax": the first are what the bottle holds."""
    masses = scan.masses()
    taken = [m for m in masses if _is_of_it(scan.marks, m)]
    if len(taken) != 1:
        return
    before = [m for m in masses if m.at < taken[0].at]
    oils = [m for m in before if m.of == "fragrance"]
    if len(oils) < 1 or len(before) < 2 or any(m.of not in ("fragrance", "") for m in before):
        return
    if sum((_base(m) for m in before), Decimal(0)) < _base(taken[0]) or not all(_base(m) for m in before):
        return
    out.blend = Parts(tuple((m.name if m.name not in ("oil", "scent") else "", _base(m)) for m in before))
    for m in before:
        m.of = "thinned"
    taken[0].of = "fragrance"


def _is_of_it(marks: list[Mark], m: Measured) -> bool:
    after = [mark.text for mark in marks[m.at + 1 : m.at + 4]]
    return after[:2] in _OF_IT or (after[:2] == ["of", "the"] and after[2:] != [] and after[2] in _OF_THE)


def _base(m: Measured) -> Decimal:
    assert m.value is not None
    return m.value.base


def _of_percents(scan: Scan, rest: list[Measured], out: Shares) -> list[Measured]:
    """A diluted oil: its share of carrier, or of fragrance, is no load."""
    if not scan.has("carrier", "strength"):
        return rest
    carriers = [m for m in rest if m.of == "carrier" or "carrier" in m.name or _next_noun(scan, m) == "carrier"]
    for carrier in carriers:
        for m in rest:
            if m is not carrier and m.amount.value + carrier.amount.value == HUNDRED:
                out.strength = Percent(m.amount.value)
                return [x for x in rest if x is not m and x is not carrier]
    strong = [m for m in rest if m.amount.value >= LEAST_STRENGTH]
    if len(strong) == 1 and (len(rest) > 1 or strong[0]["strength"] or scan.has("strength", "carrier")):
        carried = strong[0] in carriers
        out.strength = Percent(HUNDRED - strong[0].amount.value if carried else strong[0].amount.value)
        return [m for m in rest if m is not strong[0]]
    return rest


def _next_noun(scan: Scan, m: Measured) -> str:
    """The first thing named after the amount in the same sentence."""
    for mark in scan.marks[m.at + 1 : m.at + 6]:
        if mark.kind in ("amount", "stop") or mark.text in ("in", "with"):
            break
        if mark.noun:
            return mark.noun
    return ""
