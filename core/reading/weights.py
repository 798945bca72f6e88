"""The weights of a mix as a text gives them: wax, fragrance and total; what was taken off, shared or counted."""

from __future__ import annotations

import dataclasses
import itertools
from decimal import Decimal

from core.compounds import Masses
from core.reading.counts import all_take, paired
from core.reading.each import asks_for_one, gives_each
from core.reading.givens import Givens
from core.reading.loose import Weights as Weights
from core.reading.loose import place_loose
from core.reading.marks import Mark, Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass

_TIMES = wordset("double doubled triple tripled twice thrice halve halved quadruple")
_PLAIN_NEXT = wordset("times pieces pcs of such more in now altogether total then so and")
_DOING = wordset("make making made pour pouring want need do doing have got times by over x * × / ÷")


_WHOLES = wordset("batch recipe quantity")
_HALF_OF = _WHOLES | wordset("that it this at get gets got")
# One of these says that a weight is all there is, whatever the number of jars.
_ALL_OF_IT = wordset("altogether all whole batch lot")
_TELLING = wordset("weighs weighed weigh melted got have used total")


def weights(g: Givens) -> Weights:
    """The weights of the mix in `g`; whatever could matter and has no place is in `unclear`."""
    found = Weights(g.wax(), g.fragrance(), g.total(), [])
    if found.wax is not None and not g.scan.masses("wax") and {"wax", "fragrance"} <= g.asked() and g.shares.loads:
        return Weights(None, found.fragrance, found.wax.total, strays(g))  # what a vessel holds, and both are asked for
    named = found.wax is not None or found.total is not None
    place_loose(g, found)
    beside = [m for m in g.scan.masses("pot", "measure") if not _room_of_a_pot(g, m)]
    if not named and beside and not g.tared and (found.wax is not None or found.total):
        found.unclear += g.loose()  # a vessel's weight is told too: is it in there?
    pairs = [(n, m) for n, m in paired(g) if not _priced(g, n, m)]
    waxes = [mass for _, mass in found.wax.items] if found.wax is not None else []
    both_each = (
        any(m.value in waxes or (m.value == found.fragrance and _each_before(g, m)) for _, m in pairs)
        and found.fragrance is not None
        and found.wax is not None
        and not g.shares.loads
        and not (g.has("split") and not any(m["each"] for m in g.scan.masses("fragrance")))
    )
    if both_each:
        pairs = []  # so much wax and so much oil in each: the load is that of one
    if pairs and found.wax is not None:
        found.wax = _times(found.wax, pairs)
    if pairs and found.fragrance is not None:
        less = _half_of_one(g)
        g.used.update(m.at for m in counted_numbers(g) if less)
        oils = (found.fragrance * (n - less) for n, m in pairs if m.value == found.fragrance)
        found.fragrance = next(oils, found.fragrance)
    if not pairs and not both_each and _uncounted_each(g):
        found.unclear += g.scan.masses()
    found.unclear += [] if both_each else strays(g)
    if found.wax is not None and len(g.scan.masses("wax")) > 1 and g.shares.loads:
        found.unclear += _told_apart(g)
    found.unclear += [m for m in g.scan.masses() if _two_in_one(m) or m.amount.high is not None]
    return found


_ADDED = wordset("and plus another also more total altogether together both all each + & then")


def _told_apart(g: Givens) -> list[Measured]:
    """ "Recipe for 500 g of wax: 8 %. I have 3 kg of wax": two sentences; nothing says that both go into the pot."""
    for one, other in itertools.pairwise(g.scan.masses("wax")):
        between = g.scan.marks[one.at + 1 : other.at]
        stopped = any(mark.kind == "stop" or mark.text == ":" for mark in between)
        same = one.name == other.name
        if stopped and same and not any(mark.text in _ADDED for mark in g.scan.marks):
            return [one, other]
    return []


def _each_before(g: Givens, m: Measured) -> bool:
    """ "15 candles, each had 12 g oil in 150 g wax": of each one."""
    return any("each" in mark.tags for mark in g.scan.marks[max(0, m.at - 4) : m.at])


def _half_of_one(g: Givens) -> Decimal:
    """ "3 bottles of 30 g, but one is half empty": so much of one is missing."""
    marks = g.scan.marks
    for i, mark in enumerate(marks[:-1]):
        if mark.text == "half" and marks[i + 1].text in ("empty", "full", "gone", "used"):
            return Decimal("0.5")
    return Decimal(0)


def _priced(g: Givens, count: int, m: Measured) -> bool:
    """ "2 bags at 7.95 each, so 1.8 kg", "3 bottles, 950 g of wax": the count is of something else."""
    numbers = [x for x in g.scan.kind("number") if x.amount.value == count and x.at < m.at]
    if not numbers:
        return False
    between = [x for x in g.scan.found if numbers[-1].at < x.at < m.at]
    money = any(x.kind == "money" or (x.kind == "number" and x.amount.value % 1 and not x.of) for x in between)
    return money or (numbers[-1].of == "bottle" and m.of == "wax")


def _two_in_one(m: Measured) -> bool:
    """ "Wax and oil: 3 kg and 200 g" is no 3.2 kg."""
    listed = " and " in m.name or " and " in m.subject
    return bool(m.amount.parts) and " and " in m.amount.text and (listed or m.subject == "total")


def strays(g: Givens) -> list[Measured]:
    """Bare numbers that may multiply or add to something: "I make 4", "1 kilo 250", "a third of"."""
    marks, out = g.scan.marks, []
    counts = {id(m) for m in counted_numbers(g)}
    out += _uncounted_vessels(g, counts)
    for m in g.scan.kind("number"):
        if m.amount.value > 1 and _of_named_measure(marks, m):
            out.append(m)
            continue
        if m.of not in ("", "pack", "wax", "fragrance", "total") or id(m) in counts or m["meant"] or m.amount.unit:
            continue
        if any(m.amount.value == load.percent.base for load in g.shares.loads) and not g.scan.kind("percent")[1:]:
            continue  # "the box says up to 10 %, I only want seven"
        before = marks[m.at - 1] if m.at else None
        after = marks[m.at + 1] if m.at + 1 < len(marks) else None
        beside_weight = before is not None and before.measured is not None and before.measured.kind == "mass"
        ends = after is None or after.kind in ("stop", "sign") or after.text in _PLAIN_NEXT
        done = before is not None and before.text in _DOING and ends
        fraction = 0 < m.amount.value < 1 and (m.of == "" or not m.sure)
        if fraction or beside_weight or done or (m.of == "pack" and m.amount.value > 1):
            out.append(m)
    out += [m for m in g.scan.masses() if m.at + 1 < len(marks) and marks[m.at + 1].text == "short"]
    oils = g.scan.masses("fragrance")
    if (
        len(oils) > 1
        and not g.shares.loads
        and any(a.text == "rest" and b.noun != "wax" for a, b in itertools.pairwise(marks))
    ):
        out += oils  # "80 g of oil: 30 g lemon and the rest mint"
    if len(g.shares.loads) > 1 and len(g.scan.masses()) == 1 and _told_in_parts(marks):
        out += g.scan.masses()
    half = any(one.text == "half" and two.text in _HALF_OF for one, two in itertools.pairwise(marks))
    half = half or (_half_of_the(marks) and g.scan.says(_AWAY))
    if half or (g.scan.says(_TIMES) and not g.scan.says(("boiler",))):
        out += g.scan.masses()[:1]
    return out


def _room_of_a_pot(g: Givens, m: Measured) -> bool:
    """ "My kettle takes 5 kg but I only do 3.2 kg": how much would go into it."""
    more = all(m is x or mass_of(x).base < mass_of(m).base for x in g.scan.masses())
    return m["holds"] and more and any(mark.text in ("but", "only") for mark in g.scan.marks[m.at :])


_AWAY = wordset("gave sold lost spilled spilt used away gone poured took")


def _half_of_the(marks: list[Mark]) -> bool:
    """ "Half of the mix", "half of it" (where it was given away)."""
    for i, (one, two) in enumerate(itertools.pairwise(marks)):
        if one.text == "half" and two.text == "of":
            whole = one.measured is not None and any(x.kind == "amount" for x in marks[i + 2 : i + 5])
            if not whole:  # "half of a 250 g bottle" is 125 g already
                return True
    return False


def _told_in_parts(marks: list[Mark]) -> bool:
    """ "First kilo 5 %, second kilo 9 %": a part of the weight each."""
    parts = {one.text for one, two in itertools.pairwise(marks) if two.kind in ("unit", "amount")}
    return "first" in parts and not parts.isdisjoint(("second", "other", "next", "last"))


def _of_named_measure(marks: list[Mark], m: Measured) -> bool:
    """ "My scoop is 85 g; today 9 scoops": so many of what was weighed."""
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    if after is None or after.kind != "word" or after.noun or after.text[-1:] != "s" or len(after.text) < 4:
        return False
    return any(mark.text == after.text[:-1] for mark in marks[: m.at])


def _uncounted_vessels(g: Givens, counted: set[int]) -> list[Measured]:
    """A number of vessels, and a weight that may be what goes into each of them or into all."""
    if not g.shares.loads and g.scan.masses("wax") and g.scan.masses("fragrance") and not gives_each(g):
        return []  # a load is the same for one and for all
    if g.scan.says(_ALL_OF_IT) or any(_is_all(g, m) for m in g.scan.masses("wax", "total", "")):
        return []
    masses = g.scan.masses()
    if len(masses) == 1 and all_take(g, masses[0]):
        return []
    counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle") and m.amount.value > 1]
    counts = [m for m in counts if not _bought(g, m) and not _spread_over(g, m)]
    return [m for m in counts if id(m) not in counted and m.amount.value == m.amount.value.to_integral_value()]


# What no candle's vessel takes by itself (common practice, no source).
_MORE_THAN_ONE_TAKES = Decimal(1000)


def _spread_over(g: Givens, m: Measured) -> bool:
    """ "2 kg of wax in 12 jars": no jar takes so much, so it is what all of them take."""
    before = g.scan.marks[m.at - 1].text if m.at else ""
    masses = g.scan.masses("wax", "total", "")
    return (
        before in ("in", "into")
        and len(masses) == 1
        and mass_of(masses[0]).base >= _MORE_THAN_ONE_TAKES
        and not masses[0]["each"]
    )


def _bought(g: Givens, m: Measured) -> bool:
    """ "3 jars at $2.50": bought, not what the wax is poured into now."""
    return any(x.kind == "money" and 0 < x.at - m.at <= 4 for x in g.scan.kind("money"))


def _is_all(g: Givens, m: Measured) -> bool:
    """ "I melted 600 g", "my wax weighs 1350 g": what there is, not what goes into each."""
    before = {mark.text for mark in g.scan.marks[max(0, m.at - 3) : m.at]}
    return bool(m.flags & {"have", "molten", "already", "together"}) or bool(before & _TELLING)


def counted_numbers(g: Givens) -> list[Measured]:
    """The numbers that `paired` took for counts."""
    counts = [count for count, _ in paired(g)]
    return [m for m in g.scan.kind("number") if m.amount.value in counts]


def _times(wax: Masses, pairs: list[tuple[int, Measured]]) -> Masses:
    """ "3 bags of 454 g": each weight as often as it is there."""
    items: list[tuple[str, Mass]] = []
    for name, mass in wax.items:
        count = next((n for n, m in pairs if m.value == mass), 1)
        items.append((f"{count} × {name or 'wax'}" if count > 1 else name, mass * count))
    return Masses(tuple(items))


def _uncounted_each(g: Givens) -> bool:
    """So much "each", and a count nobody could tie to it: better ask than leave the count out."""
    return (
        gives_each(g)
        and not asks_for_one(g)
        and len(g.shares.loads) < 2
        and any(m["each"] for m in g.scan.masses("wax", "total", "", "candle", "jar"))
    )


def take_fractions(found: list[Measured], marks: list[Mark]) -> None:
    """ "Half of my 3 lb bag", "a third of 900 g": the weight is made that part of itself, the fraction used up."""
    for part, whole in itertools.pairwise(found):
        after = marks[part.at + 1] if part.at + 1 < len(marks) else None
        fraction = part.kind == "number" and 0 < part.amount.value < 1
        if not (
            fraction and after is not None and after.text == "of" and whole.kind == "mass" and whole.at - part.at <= 5
        ):
            continue
        if any(mark.text == "," or mark.text in _WHOLES for mark in marks[part.at + 1 : whole.at]):
            continue  # "three quarters of this recipe, 1 kg of wax"
        assert isinstance(whole.value, Mass)
        whole.value = whole.value * part.amount.value
        whole.amount = dataclasses.replace(whole.amount, value=whole.amount.value * part.amount.value)
        part.of = "part"
