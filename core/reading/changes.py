"""The one amount of a short text put in the slot of the last question that it belongs to."""

from __future__ import annotations

import dataclasses
from decimal import Decimal
from typing import Any

from core.answer import Answer
from core.compounds import Additives, Fills, Load, Masses
from core.question import Question
from core.questions.convert import ConvertQuestion
from core.questions.load import LoadQuestion
from core.reading import asking
from core.reading.givens import BARE_LEAST, BARE_MOST, Givens
from core.reading.marks import Measured
from core.reading.wordset import wordset
from core.units import Density, Mass, Number, Percent, Quantity, Volume

MOST_VESSELS = 100_000
MOST_LOAD = 24  # a bare number above is no load; from 25 % on none is worked out
# All that may stand beside a bare number: "see you at 5" changes nothing.
_LEANING = wordset(
    "and what about at for make it or with no sorry i mean meant ok now but then if how is its it's that use say go",
    "rather instead please pls just only the again try want a of to as well too whats what's do have there are i've",
    "got we need density load actually not dense",
)
_FAR_LIKELIER = Decimal(3)


def change_of(g: Givens, last: Question, slots: set[str]) -> dict[str, Any] | Answer:
    """What the amount changes; {} where it changes nothing, an Answer where it must be asked about."""
    m = g.scan.found[0]
    if m.kind == "number":
        return _number(g, m, last, slots)
    if m.kind == "percent":
        return _percent(g, m, last, slots)
    if g.shares.loads and "load" in slots:
        return {"load": _load(g, last)}
    if isinstance(m.value, Mass):
        return _mass(g, m, m.value, last, slots)
    if isinstance(m.value, Density) and "density" in slots:
        return {"density": m.value}
    if isinstance(m.value, Quantity):
        return _like(m.value, last, slots)
    return {}


def times(last: LoadQuestion | ConvertQuestion, factor: Decimal) -> Question | None:
    """The same question with all its weights so many times."""
    if isinstance(last, ConvertQuestion):
        amount = last.amount
        if not isinstance(amount, Mass | Volume):
            return None
        return dataclasses.replace(last, amount=amount * factor)
    wax = Masses(tuple((name, mass * factor) for name, mass in last.wax.items)) if last.wax is not None else None
    fragrance = last.fragrance * factor if last.fragrance is not None else None
    total = last.total * factor if last.total is not None else None
    return dataclasses.replace(last, wax=wax, fragrance=fragrance, total=total)


def _percent(g: Givens, m: Measured, last: Question, slots: set[str]) -> dict[str, Any]:
    share = Percent(m.amount.value)
    if "level" in slots and g.has("fill", "full"):
        return {"level": share}
    if "spare" in slots and g.has("spare"):
        return {"spare": share}
    if "additives" in slots and m.of in ("dye", "additive"):
        return {"additives": Additives(((m.name or m.of, share),))}
    return {"load": _load(g, last)} if g.shares.loads and "load" in slots else {}


def _load(g: Givens, last: Question) -> Load:
    """The new load, of what the old one was of unless the text says otherwise."""
    old, new = getattr(last, "load", None), g.shares.loads[0]
    if isinstance(old, Load) and new.basis is None and old.basis is not None and not old.typed:
        return dataclasses.replace(new, basis=old.basis)
    return new


def _number(g: Givens, m: Measured, last: Question, slots: set[str]) -> dict[str, Any] | Answer:
    """A bare number: so many vessels, or in the unit of what it replaces; asked about where both may be."""
    number = m.amount.value
    words = {mark.text for mark in g.scan.marks if mark.kind == "word" and not mark.noun}
    if not words <= _LEANING:
        return {}
    if m.of in ("jar", "candle") and (counted := _count(number, last, slots)):
        return counted
    dense = "density" in slots and BARE_LEAST <= number <= BARE_MOST and number != 1
    if dense and (getattr(last, "density", None) is None or g.has("dense", "density")):
        return {"density": Density(number)}
    if isinstance(last, ConvertQuestion) and last.amount is not None and last.against is None:
        unit = last.amount.unit
        return {"amount": type(last.amount).of(number, "lb" if unit == "lb_oz" else unit)} if not m.of else {}
    if isinstance(last, LoadQuestion):
        if 1 <= number <= MOST_LOAD and not m.of:
            old = last.load.basis if last.load is not None and not last.load.typed else None
            return {"load": Load(Percent(number), old)}
        return asking.which_number([m])
    before = g.scan.marks[m.at - 1].text if m.at else ""
    if "load" in slots and before == "at" and 1 <= number <= MOST_LOAD:
        return {"load": Load(Percent(number))}
    if "fills" in slots and not m.of:
        return asking.which_number([m])
    return _count(number, last, slots)


def _count(number: Decimal, last: Question, slots: set[str]) -> dict[str, Any]:
    """ "And 15 jars?": another number of the same vessels."""
    if number != number.to_integral_value() or not 0 < number <= MOST_VESSELS:
        return {}
    fills = getattr(last, "fills", None)
    if isinstance(fills, Fills) and len(fills.items) == 1:
        return {"fills": Fills((dataclasses.replace(fills.items[0], count=int(number)),))}
    if "count" in slots and getattr(last, "count", None) is not None:
        return {"count": int(number)}
    return {"drops": Number(number)} if "drops" in slots else {}


def _like(value: Quantity, last: Question, slots: set[str]) -> dict[str, Any]:
    """In place of an amount of its kind; of two that are compared, of the one in its unit."""
    kept = [
        (name, getattr(last, name)) for name in ("volume", "amount", "against", "change", "at", "room") if name in slots
    ]
    there = [(name, old) for name, old in kept if isinstance(old, type(value))]
    same_unit = [name for name, old in there if old.unit == value.unit]
    if there:
        return {(same_unit or [there[0][0]])[0]: value}
    return {"volume": value} if isinstance(value, Volume) and "volume" in slots else {}


def _mass(g: Givens, m: Measured, mass: Mass, last: Question, slots: set[str]) -> dict[str, Any] | Answer:
    fills = getattr(last, "fills", None)
    if isinstance(fills, Fills) and len(fills.items) == 1 and fills.items[0].weight is not None and m["each"]:
        return {"fills": Fills((dataclasses.replace(fills.items[0], weight=mass),))}
    if isinstance(last, ConvertQuestion):
        return _like(mass, last, slots)
    named = {"wax": "wax", "fragrance": "fragrance", "total": "total"}.get(m.of, "")
    names = [named] if named in slots and _is_said(g, named) else []
    if not names:
        names = [n for n in ("wax", "total", "fragrance", "mass", "amount", "need", "water") if n in slots]
        names = [n for n in names if getattr(last, n) is not None]
    if not names and "wax" in slots:
        names = ["wax"]
    if not names:
        return {}
    name = names[0]
    if len(names) > 1 and getattr(last, "load", None) is None:
        nearest = _nearest(mass, last, names)
        if not nearest:
            return asking.which_weight([m])
        name = nearest
    filled = [n for n in ("wax", "total", "fragrance") if n in slots and getattr(last, n) is not None]
    changes: dict[str, Any] = {name: Masses.one(mass) if name == "wax" else mass}
    # two of wax, fragrance, load and total decide a mix: a new total replaces the old wax
    if name in ("wax", "total") and getattr(last, "load", None) is not None:
        changes.update({other: None for other in filled if other not in (name,)})
    return changes


def _is_said(g: Givens, of: str) -> bool:
    """Whether the text names it, rather than it having been supposed of a lone weight."""
    return any(head == of for _, head in g.scan.heads)


def _nearest(mass: Mass, last: Question, names: list[str]) -> str:
    """Which of the old weights the new one stands for: the one it is by far nearest to, or ""."""
    ranked = []
    for name in names:
        old = getattr(last, name)
        base = old.total.base if isinstance(old, Masses) else old.base
        if base and mass.base:
            ranked.append((max(base / mass.base, mass.base / base), name))
    ranked.sort()
    if not ranked:
        return ""
    if len(ranked) == 1 or ranked[1][0] >= ranked[0][0] * _FAR_LIKELIER:
        return ranked[0][1]
    return ""
