"""A short text that changes the last question: "and at 10 %?", "in ounces", "of the total I meant"."""

from __future__ import annotations

import dataclasses
from decimal import Decimal
from typing import Any

from core.answer import Answer
from core.compounds import Basis, Fills, Load, Masses, UnitName
from core.question import Question, slots_of
from core.reading.givens import Givens
from core.units import Density, Mass, Number, Percent, Quantity, Volume

MOST_WORDS = 9
MOST_VESSELS = 100_000


def follow(g: Givens, last: Question) -> Question | Answer | None:
    """The last question with what the text changes in it; None where the text stands by itself."""
    words = [mark for mark in g.scan.marks if mark.kind == "word"]
    if len(words) > MOST_WORDS or len(g.scan.found) > 1:
        return None
    slots = {slot.name for slot in slots_of(type(last))}
    changes: dict[str, Any] = {}
    if len(g.scan.found) == 1:
        if not _leans_on_last(g):
            return None
        changes = _amount(g, last, slots)
        if not changes:
            return None
    basis = _basis(g)
    if basis is not None and "basis" in slots and (changes or not g.scan.found):
        changes["basis"] = basis
        load = changes.get("load", getattr(last, "load", None))
        if isinstance(load, Load):
            changes["load"] = dataclasses.replace(load, basis=basis)
    if not changes and (units := g.wanted()) and not g.has("asks"):
        changes = {"to": UnitName(units[0])} if "to" in slots else {"unit": units[0]}
    return dataclasses.replace(last, **changes) if changes else None


def _leans_on_last(g: Givens) -> bool:
    """Whether the amount is meant to change the last question: nothing names another thing asked."""
    first = next((mark.text for mark in g.scan.marks if mark.kind in ("word", "amount")), "")
    if g.scan.marks and "fill" in g.scan.marks[0].tags:
        return True
    opening = first in (
        "and",
        "what",
        "or",
        "at",
        "with",
        "for",
        "make",
        "no",
        "sorry",
        "i",
        "ok",
        "now",
        "but",
        "then",
        "if",
        "how",
    )
    plain = all(mark.kind != "word" or not mark.noun for mark in g.scan.marks)
    return (opening or plain or g.scan.marks[0].kind == "amount") and not g.wanted()


def _amount(g: Givens, last: Question, slots: set[str]) -> dict[str, Any]:
    """The one amount put in the slot it belongs to."""
    m = g.scan.found[0]
    if m.kind == "number":
        return _count(m.amount.value, last, slots)
    if m.kind == "percent" and "level" in slots and g.has("fill", "full"):
        return {"level": Percent(m.amount.value)}
    if g.shares.loads and "load" in slots:
        old = getattr(last, "load", None)
        new = g.shares.loads[0]
        if isinstance(old, Load) and new.basis is None and old.basis is not None and not old.typed:
            new = dataclasses.replace(new, basis=old.basis)
        return {"load": new}
    named = {"wax": "wax", "fragrance": "fragrance", "total": "total"}.get(m.of, "")
    if isinstance(m.value, Mass):
        return _put_mass(m.value, named, last, slots)
    if isinstance(m.value, Density) and "density" in slots:
        return {"density": m.value}
    if isinstance(m.value, Percent):
        return {}
    if isinstance(m.value, Quantity):
        for name in ("volume", "amount", "at", "room"):
            if name in slots and isinstance(getattr(last, name), type(m.value)):
                return {name: m.value}
        if isinstance(m.value, Volume) and "volume" in slots:
            return {"volume": m.value}
    return {}


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


def _put_mass(mass: Mass, named: str, last: Question, slots: set[str]) -> dict[str, Any]:
    names = [named] if named in slots else []
    if not names:
        names = [n for n in ("wax", "total", "fragrance", "mass", "amount", "need", "water") if n in slots]
        names = [n for n in names if getattr(last, n) is not None]
    if not names and "wax" in slots:
        names = ["wax"]
    if not names:
        return {}
    name = names[0]
    filled = [n for n in ("wax", "total", "fragrance") if n in slots and getattr(last, n) is not None]
    changes: dict[str, Any] = {name: Masses.one(mass) if name == "wax" else mass}
    # two of wax, fragrance, load and total decide a mix: a new total replaces the old wax
    if name in ("wax", "total") and getattr(last, "load", None) is not None:
        changes.update({other: None for other in filled if other not in (name,)})
    return changes


def _basis(g: Givens) -> Basis | None:
    total, wax = g.has("of_total"), g.has("of_wax")
    return None if total == wax else Basis.TOTAL if total else Basis.WAX
