"""Texts that set weights beside a printed one: a lot that was poured, and whether a label says what is in it."""

from __future__ import annotations

import dataclasses

from core.answer import Answer
from core.compounds import Masses
from core.question import Question
from core.questions.label import LabelQuestion
from core.questions.lot import LotQuestion
from core.reading.ask_label import SAYS, label
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.tares import gross
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None

_AGREE = wordset("agree agrees match matches same right correct fit consistent equal equals together mismatch wrong ok")
_METRIC = ("g", "kg", "mg")
_OF_ALL = wordset("average averge averege mean avg lowest lightest smallest least heaviest")
LEAST_LOT = 3  # weights that are a lot, and no recipe
_LIKE = 2  # how far apart, as a factor, weights of one lot lie at most


def lot(g: Givens) -> Outcome:
    """ "Label 226 g, poured 230, 224, 228 g: ok?", "average of 198 g, 201 g, 197 g"."""
    if g.shares.loads or g.scan.masses("wax", "fragrance", "box"):
        return None
    empty = [m for m in g.scan.masses() if m["empty"] or (m.of in ("jar", "lid") and m["without"])]
    if any(m.of == "" for m in empty) and (glass := [m for m in g.scan.masses("jar") if _led_by_empty(g, m)]):
        empty = glass  # "403 g. Empty glass is 190 g"
    rest = [m for m in g.scan.masses() if m not in empty]
    average = g.scan.says(_OF_ALL)
    printed = [m for m in rest if _is_printed(g, m)]
    weights = [*_bare_weights(g, rest, printed), *(m for m in rest if m not in printed)]
    sizes = [mass_of(m).base for m in weights]
    if len(weights) < LEAST_LOT or len(empty) > 1 or len(printed) > 1 or max(sizes) > _LIKE * min(sizes):
        return None
    if len({m.amount.unit for m in weights}) > 1 or not (printed or average):
        return None
    g.used.update(m.at for m in weights)
    g.used.update(m.at for m in g.scan.kind("number") if m.amount.value == len(weights))
    return LotQuestion(
        label=mass_of(printed[0]) if printed else None,
        weights=Masses(tuple(("", mass_of(m)) for m in weights)),
        tare=mass_of(empty[0]) if empty else None,
        average=(average and not printed) or None,
    )


def _bare_weights(g: Givens, rest: list[Measured], printed: list[Measured]) -> list[Measured]:
    """ "231 229 226 233 g": numbers in a row share the unit that stands behind the last."""
    last = next((m for m in rest if m not in printed), None)
    found: list[Measured] = []
    if last is None:
        return found
    for m in reversed([m for m in g.scan.kind("number") if m.at < last.at]):
        nearest = found[-1] if found else last
        between = g.scan.marks[m.at + 1 : nearest.at]
        alike = last.amount.value / _LIKE <= m.amount.value <= last.amount.value * _LIKE
        if any(mark.text not in (",", "and") for mark in between) or not alike or m.of:
            break
        unit = last.amount.unit
        amount = dataclasses.replace(m.amount, unit=unit)
        found.append(dataclasses.replace(m, kind="mass", amount=amount, value=Mass.of(amount.value, unit)))
    return found[::-1]


def _led_by_empty(g: Givens, m: Measured) -> bool:
    return any("empty" in mark.tags for mark in g.scan.marks[max(0, m.at - 4) : m.at])


def agreement(g: Givens) -> Outcome:
    """ "Net 198 g and 7 oz on one label, do they agree?", "the label says 8 oz, I pour 215 g wax and 17 g oil"."""
    masses = g.scan.masses()
    if len(masses) == 2 and g.scan.says(_AGREE) and not g.shares.loads and g.has("net", "label"):
        metric = [m for m in masses if m.amount.unit in _METRIC]
        others = [m for m in masses if m.amount.unit in ("oz", "lb")]
        nouns = {m.of for m in masses} - {"", "candle", "jar"}
        with_jar = g.has("full") and any(m.of == "jar" for m in masses)
        if len(metric) == len(others) == 1 and not nouns and not with_jar:
            return LabelQuestion(net=mass_of(metric[0]), printed=mass_of(others[0]))
    printed = [m for m in masses if _is_printed(g, m)]
    if len(printed) != 1 or len(masses) < 2:
        return None
    inside = [m for m in masses if m is not printed[0]]
    if (
        len(inside) == 1
        and inside[0].of in ("", "scale", "total")
        and not g.shares.loads
        and _is_in_it(g, inside[0], printed[0])
    ):
        return LabelQuestion(net=mass_of(inside[0]), printed=mass_of(printed[0]))
    left = [m for m in g.scan.found if m is not printed[0]]
    made = label(dataclasses.replace(g, scan=dataclasses.replace(g.scan, found=left)))
    if isinstance(made, LabelQuestion) and (made.net or made.wax or made.gross):
        return dataclasses.replace(made, printed=mass_of(printed[0]))
    return None


_TURNS = wordset(", + when if but while though poured inside")


def _is_in_it(g: Givens, m: Measured, printed: Measured) -> bool:
    """ "There is 225 g in it", "194 g in", "I put in 225 g", "225 g of candle inside"."""
    ahead, behind = g.scan.around(m, 4, 3)
    if gross(g.scan, m) or m["full"]:
        return False
    near = abs(mass_of(m).base - mass_of(printed).base) <= mass_of(printed).base / 10  # no vessel is so light
    return near or any(mark.text in _INSIDE for mark in (*ahead[-2:], *behind))


_INSIDE = wordset("in inside net filled poured contents content")


def _is_printed(g: Givens, m: Measured) -> bool:
    """Whether a weight is what stands on the label: "label says 8 oz", "8 oz is printed on it"."""
    if m.of not in ("", "label", "candle", "jar"):
        return False
    marks, i = g.scan.marks, m.at - 1
    while i >= 0 and m.at - i <= 5 and marks[i].kind in ("word", "sign") and marks[i].text not in _TURNS:
        if marks[i].text in SAYS or "label" in marks[i].tags:
            return True
        i -= 1
    after = marks[m.at + 1 : m.at + 4]
    if after and "label" in after[0].tags:
        return True  # "8 oz label"
    return any(mark.text == "printed" for mark in after) or [mark.text for mark in after[:3]] == ["on", "the", "label"]
