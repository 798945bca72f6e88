"""The weights of a mix as a text gives them: wax, fragrance and total; what was taken off, shared or counted."""

from __future__ import annotations

import dataclasses
import itertools
from dataclasses import dataclass
from decimal import Decimal

from core.compounds import Basis, Load, Masses
from core.reading.counts import asks_for_each, asks_for_one, gives_each, paired
from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.measuring import mass_of
from core.reading.tares import weighed_along
from core.reading.wordset import wordset
from core.units import Mass

# How far a stated result may be from load x wax and still be the stated result of it.
SAME = Decimal("0.02")
_REST = wordset("rest remaining remainder minus less")
_POURED_FROM, _POURED_TO = wordset("before from was went full had started"), wordset("after afterwards now to")
_TIMES = wordset("double doubled triple tripled twice thrice halve halved quadruple")
_PLAIN_NEXT = wordset("times pieces pcs of such more in now altogether total then so and")
_DOING = wordset("make making made pour pouring want need do doing have got times by over x * × / ÷")


# One of these says that a weight is all there is, whatever the number of jars.
_ALL_OF_IT = wordset("altogether all whole batch lot")
_TELLING = wordset("weighs weighed weigh melted got have used total")


@dataclass(slots=True)
class Weights:
    """What goes into the pot. `unclear` are amounts that may matter and could not be placed."""

    wax: Masses | None
    fragrance: Mass | None
    total: Mass | None
    unclear: list[Measured]


def weights(g: Givens) -> Weights:
    """The weights of the mix in `g`; whatever could matter and has no place is in `unclear`."""
    found = Weights(g.wax(), g.fragrance(), g.total(), [])
    poured = _poured_out(g)
    if poured is not None:
        found.fragrance = poured
        return found
    rest = _rest(g)
    if rest is not None:
        return Weights(Masses.one(rest), None, None, strays(g))
    if found.wax is not None and not g.scan.masses("wax") and {"wax", "fragrance"} <= g.asked() and g.shares.loads:
        return Weights(None, found.fragrance, found.wax.total, strays(g))  # what a vessel holds, and both are asked for
    _place_loose(g, found)
    pairs = [(n, m) for n, m in paired(g) if not _priced(g, n, m)]
    waxes = [mass for _, mass in found.wax.items] if found.wax is not None else []
    both_each = (
        any(m.value in waxes for _, m in pairs)
        and found.fragrance is not None
        and found.wax is not None
        and not g.shares.loads
    )
    if both_each:
        pairs = []  # so much wax and so much oil in each: the load is that of one
    if pairs and found.wax is not None:
        found.wax = _times(found.wax, pairs)
    if pairs and found.fragrance is not None:
        found.fragrance = next((found.fragrance * n for n, m in pairs if m.value == found.fragrance), found.fragrance)
    if not pairs and not both_each and _uncounted_each(g):
        found.unclear += g.scan.masses()
    found.unclear += [] if both_each else strays(g)
    found.unclear += [m for m in g.scan.masses() if _two_in_one(m) or m.amount.high is not None]
    return found


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
        before = marks[m.at - 1] if m.at else None
        after = marks[m.at + 1] if m.at + 1 < len(marks) else None
        beside_weight = before is not None and before.measured is not None and before.measured.kind == "mass"
        ends = after is None or after.kind in ("stop", "sign") or after.text in _PLAIN_NEXT
        done = before is not None and before.text in _DOING and ends
        fraction = 0 < m.amount.value < 1 and m.of == ""
        if fraction or beside_weight or done or (m.of == "pack" and m.amount.value > 1):
            out.append(m)
    if g.scan.says(_TIMES) and not g.scan.says(("boiler",)):
        out += g.scan.masses()[:1]
    return out


def _of_named_measure(marks: list[Mark], m: Measured) -> bool:
    """ "My scoop is 85 g; today 9 scoops": so many of what was weighed."""
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    if after is None or after.kind != "word" or after.noun or after.text[-1:] != "s" or len(after.text) < 4:
        return False
    return any(mark.text == after.text[:-1] for mark in marks[: m.at])


def _uncounted_vessels(g: Givens, counted: set[int]) -> list[Measured]:
    """A number of vessels, and a weight that may be what goes into each of them or into all."""
    if g.scan.says(_ALL_OF_IT) or any(_is_all(g, m) for m in g.scan.masses("wax", "total", "")):
        return []
    counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle") and m.amount.value > 1]
    return [m for m in counts if id(m) not in counted and m.amount.value == m.amount.value.to_integral_value()]


def _is_all(g: Givens, m: Measured) -> bool:
    """ "I melted 600 g", "my wax weighs 1350 g": what there is, not what goes into each."""
    before = {mark.text for mark in g.scan.marks[max(0, m.at - 3) : m.at]}
    return bool(m.flags & {"have", "molten", "already", "together"}) or bool(before & _TELLING)


def counted_numbers(g: Givens) -> list[Measured]:
    """The numbers that `paired` took for counts."""
    counts = [count for count, _ in paired(g)]
    return [m for m in g.scan.kind("number") if m.amount.value in counts]


def _place_loose(g: Givens, found: Weights) -> None:
    """Weights nobody said what of, by what is lacking."""
    loose = g.loose()
    pair = weighed_along(g.scan)
    if pair is not None:
        loose = [m for m in loose if all(m.amount is not other.amount for other in pair)]
    if not loose:
        return
    if len(loose) == 1 and found.wax is None and found.total is None:
        mass = mass_of(loose[0])
        finished = (
            bool(loose[0].flags & {"finished", "together", "split", "makes"}) or _asks_two(g) or g.shares.of_whole
        )
        finished = (
            finished
            or _of_the_mix(g, loose[0])
            or (_of_total(g) and not loose[0].flags & {"molten", "have", "already"})
        )
        if "wax" in g.asked() and found.fragrance is None and _is_stock_of_oil(g, loose[0]):
            found.fragrance = mass
        elif finished or ("wax" in g.asked() and found.fragrance is None) or _stands_bare(g, loose[0]):
            found.total = mass
        else:
            found.wax = Masses.one(mass)
        return
    given = g.shares.load
    if len(loose) == 1 and found.wax is not None and _goes_on(g, loose[0]):
        found.wax = Masses((*found.wax.items, ("", mass_of(loose[0]))))
        return
    if len(loose) == 1 and found.wax is not None and found.fragrance is None:
        mass = mass_of(loose[0])
        asked = (g.asks_percent and not g.shares.loads) or g.checks or loose[0]["already"]
        if asked or (given is not None and is_product(given, found.wax.total, mass)):
            found.fragrance = mass
            return
        if loose[0]["together"] or found.wax.total.base == mass.base:
            return
    if len(loose) == 1 and found.total is not None and mass_of(loose[0]).base == found.total.base:
        return
    if len(loose) == 2 and found.wax is None and given is not None:
        first, second = mass_of(loose[0]), mass_of(loose[1])
        for big, small in ((first, second), (second, first)):
            if is_product(given, big, small) or ((g.checks or g.has("add", "top_up")) and small.base * 3 < big.base):
                found.wax, found.fragrance = Masses.one(big), small
                return
    found.unclear += loose


_OPENERS = wordset("so ok okay and hi hey hello yo pls please quick got with a an & then")


def _stands_bare(g: Givens, m: Measured) -> bool:
    """ "2 kg 6 % oil?": no word for wax anywhere, and nothing ties the weight to the percent: it may be either."""
    given = g.shares.load
    if given is None or given.typed or given.basis is not None or g.has("wax") or m.flags & _TIES:
        return False
    marks = g.scan.marks
    before = marks[m.at - 1] if m.at else None
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    opens = before is None or before.kind in ("stop", "sign", "amount", "unit") or before.text in _OPENERS
    before_percent = before is not None and before.noun in ("fragrance", "load")
    closes = after is None or after.kind in ("stop", "sign", "amount") or after.text in (*_OPENERS, "how much", "oil")
    return (opens or before_percent) and closes and not (after is not None and after.text == "@")


_TIES = frozenset({"molten", "already", "have", "left", "makes"})


def _is_stock_of_oil(g: Givens, m: Measured) -> bool:
    """ "17 g left, 10 %, how much wax to finish it": what is left of the bottle."""
    if "fragrance" in g.asked():
        return False
    told = m["left"] or g.has("bottle") or g.scan.says(_FINISHING)
    return told and g.shares.load is not None and not m["finished"] and not m["together"] and not m["makes"]


_FINISHING = wordset("finish empty oil fragrance scent use")


def _goes_on(g: Givens, m: Measured) -> bool:
    """ "2 lbs + 6 oz of wax": ounces after pounds, grams after kilograms."""
    marks = g.scan.marks
    before = marks[m.at - 2].measured if m.at >= 2 and marks[m.at - 1].text in ("+", "plus", "&") else None
    return before is not None and (before.amount.unit, m.amount.unit) in (("lb", "oz"), ("kg", "g"))


def _of_the_mix(g: Givens, m: Measured) -> bool:
    """ "16:1 wax to oil and I need 850 g of it": so much of what the ratio makes."""
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    return _ratio_given(g) and len(after) == 2 and after[0] == "of" and after[1] in ("it", "that", "this")


def _ratio_given(g: Givens) -> bool:
    return g.shares.load is not None and bool(g.shares.load.typed) and bool(g.scan.kind("ratio") or g.scan.kind("part"))


def _of_total(g: Givens) -> bool:
    return g.shares.load is not None and g.shares.load.basis is Basis.TOTAL and not g.shares.load.typed


def _asks_two(g: Givens) -> bool:
    """ "How much of each?", "both amounts": then the weight given is of the whole."""
    both = {"wax", "fragrance"} <= g.asked()
    return (both or g.has("split") or asks_for_each(g)) and len(g.shares.loads) == 1 and not g.shares.additives


def is_product(given: Load, wax: Mass, fragrance: Mass) -> bool:
    """Whether the fragrance is what the load asks of that wax, as people round it."""
    wanted = wax.base * given.percent.fraction
    return wanted > 0 and abs(fragrance.base - wanted) <= wanted * SAME


def _poured_out(g: Givens) -> Mass | None:
    """ "The bottle was 120 g before and 87 g after": what was poured is the difference."""
    if not (g.scan.says(_POURED_FROM) and g.scan.says(_POURED_TO)):
        return None
    if not any(head == "bottle" for _, head in g.scan.heads):
        return None
    found = [m for m in g.scan.masses() if m.of not in ("wax", "total")]
    if len(found) != 2 or mass_of(found[0]).base <= mass_of(found[1]).base:
        return None
    return mass_of(found[0]) - mass_of(found[1])


def _rest(g: Givens) -> Mass | None:
    """ "2 kg of wax, used 650 g, the rest gets 8 %": what is left of the first weight."""
    if not g.scan.says(_REST) or g.has("together"):
        return None
    found = [m for m in g.scan.masses() if m.of in ("wax", "", "pack", "fragrance")]
    if len(found) != 2 or found[0].of == "fragrance" or mass_of(found[0]).base <= mass_of(found[1]).base:
        return None
    if found[1].of == "fragrance" and found[1].name:
        return None
    return mass_of(found[0]) - mass_of(found[1])


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
        assert isinstance(whole.value, Mass)
        whole.value = whole.value * part.amount.value
        whole.amount = dataclasses.replace(whole.amount, value=whole.amount.value * part.amount.value)
        part.of = "part"
