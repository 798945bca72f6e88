"""Texts about parcels: what they weigh, what their size counts as, what fits within a limit."""

from __future__ import annotations

from core.answer import Answer
from core.question import Question
from core.questions.parcel import ParcelQuestion
from core.reading import asking
from core.reading.ask_vessel import box_sides
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.parcel_parts import assorted, brackets, packing_asked
from core.reading.wordset import wordset
from core.units import Mass, Number

Outcome = Question | Answer | None

_BOUNDS = wordset("over under below above within beyond exceed exceeds max maximum limit")
_UP_TO = (["up", "to"], ["less", "than"], ["more", "than"])
_AT_MOST = (["at", "most"], ["or", "less"], ["or", "under"])
_GOES_IN = wordset("filling fillings stuffing")
_STARTED = wordset("started commenced begun beginning")
_NEXT = wordset("next full whole nearest")
_ROUNDED = wordset("round rounds rounded rounding up bills billed charged charges counted pay")


def parcel_by_size(g: Givens) -> Outcome:
    """ "30 x 20 x 15 cm, they divide by 5000": only a parcel's size is divided."""
    return parcel(g) if box_sides(g) is not None and _divisor(g) is not None else None


def parcel(g: Givens) -> Outcome:
    """What a parcel weighs, or what its size counts as."""
    scan = g.scan
    if g.asks_net and not g.has("parcel"):
        return None
    if g.shares.loads and "wax" in g.asked() and not g.has("box", "jar", "candle"):
        return None  # "6 g vial at 5 %, wax? Postage was 2.99"
    if (rest_of_whole := packing_asked(g)) is not None:
        return rest_of_whole
    steps = _rounding(g)
    masses = [m for m in scan.masses() if steps is None or m is not steps[1]]
    limits = [m for m in masses if _bounds(g, m)]
    for m in limits:
        m.flags.add("limit")
    prices = brackets(g, limits) if scan.kind("money") else None
    if prices is not None:
        g.used.update(m.at for m in limits)
        limits = []
    if len(limits) > 1:
        return asking.which_weight(limits)
    masses = [m for m in masses if not m["limit"]]
    plain = not limits and prices is None and steps is None and box_sides(g) is None and not _asks_backwards(g)
    if plain and (made := assorted(g, masses)) is not None:
        return made
    items = _items(g, masses)
    around = [m for m in masses if m.of == "total" and m.name in _GOES_IN and _stuffs_box(g, m)]
    packing = [*(m for m in masses if m.of == "box" and m not in items), *around]
    rest = [m for m in masses if m not in items and m not in packing]
    whole = [m for m in rest if _of_the_parcel(g, m)]
    if _asks_backwards(g) or (whole and not items and not any(m.of == "candle" for m in rest)):
        return _backwards(g, whole or rest, items, packing)
    sides = box_sides(g)
    lids = [m for m in rest if m.of == "lid"]
    vessels = [m for m in rest if m.of in ("jar", "pot")]
    fills = [m for m in rest if m.of in ("total", "wax")]
    loose = [m for m in g.loose() if m in rest]
    fills = fills or [m for m in loose if m["fill"] and vessels]
    candles = [m for m in rest if m.of == "candle"] or items
    if vessels and candles and not fills:
        fills, candles = candles, []
    if fills and not vessels:
        vessels = [m for m in loose if m.subject == "jar"]
        loose = [m for m in loose if m not in vessels]
    count = _how_many(g, limits)
    if count is None and len(told := _counts(g)) > 1 and not limits:
        return asking.which_number(told)
    if vessels and not fills and len(vessels) == 1 and (vessels[0]["full"] or not lids):
        candles, vessels = [*candles, *vessels], []
    if not candles and not (vessels and fills) and len(loose) == 1 and not fills:
        candles = loose
        if count is not None and count > 1 and mass_of(loose[0]).base > HEAVIEST and not loose[0]["each"]:
            return asking.which_weight(loose)  # one of them, or all?
    elif items and loose:
        packing = [*packing, *loose]  # "40 cartons of 12 kg, the pallet itself 22 kg"
    if fills and not vessels and not candles:
        return None
    if not packing and candles and sides is None and not limits:
        return asking.packing_missing(ParcelQuestion(candle=_one(candles), count=count))
    length, width, height = sides or (None, None, None)
    return ParcelQuestion(
        vessel=_one(vessels),
        fill=_one(fills),
        lid=_one(lids),
        candle=_one(candles),
        count=count,
        packing=_total(packing),
        divisor=_divisor(g),
        length=length,
        width=width,
        height=height,
        rounding=steps[0] if steps is not None else None,
        limit=_one(limits),
        prices=prices,
    )


HEAVIEST = 2000  # grams: hardly a candle weighs more (common practice, no source)


def by_bracket(g: Givens) -> Outcome:
    """A parcel's weight beside what the post charges up to each weight."""
    limits = [m for m in g.scan.masses() if _bounds(g, m)]
    return parcel(g) if len(limits) > 1 and brackets(g, limits) is not None else None


def _bounds(g: Givens, m: Measured) -> bool:
    """ "Over 2 kg or not": the weight is a limit of the post, and nothing in the parcel."""
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 2) : m.at]]
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    if after[:1] and after[0] in _PARCEL and g.scan.says(("how many",)):
        return True  # "how many go in a 5 kg parcel"
    bound = before[-1:] and before[-1] in _BOUNDS
    return m["limit"] or before in _UP_TO or after in _AT_MOST or bool(bound) or after[:1] in (["max"], ["limit"])


def _items(g: Givens, masses: list[Measured]) -> list[Measured]:
    """The one weight said of each of what goes in: "310 g each", "40 cartons at 12.5 kg"."""
    each = [m for m in masses if m["each"] and m.of != "lid"]
    if each and each[0].of in ("jar", "pot") and any(m.of == "candle" or m["net"] for m in masses):
        return []  # the glass of each, beside what is in it
    if len(each) == 1 and not {"wax", "total"} & {m.of for m in masses if m.name not in _GOES_IN}:
        return each
    marks = g.scan.marks
    for count in g.scan.kind("number"):
        boxes = count.at + 1 < len(marks) and marks[count.at + 1].noun == "box"
        if boxes and count.amount.value > 1:
            near = [m for m in masses if 0 < m.at - count.at <= 3]
            if near:
                return near[:1]
    return []


def _stuffs_box(g: Givens, m: Measured) -> bool:
    """ "Box with filling 320 g", and the filling of a box of finished candles; the filling of a glass is wax."""
    before = g.scan.marks[max(0, m.at - 4) : m.at]
    if any(mark.noun == "box" for mark in before):
        return True
    finished = any(v["full"] for v in g.scan.masses("jar")) or bool(g.scan.masses("candle"))
    return finished and any(mark.noun == "box" for mark in g.scan.marks)


def _asks_backwards(g: Givens) -> bool:
    """ "What does one weigh?" asked of a whole parcel."""
    words = [mark.text for mark in g.scan.marks]
    if words[-1:] == ["each"] or words[-2:-1] == ["each"]:
        return bool(g.scan.says(_PARCEL | {"gross"})) and not any(m["each"] for m in g.scan.masses())
    return any(
        run[0] in ("does", "is") and run[1] in ("one", "each", "a") and run[2] in ("weigh", "candle", "weight")
        for run in zip(words, words[1:], words[2:], strict=False)
    )


def _of_the_parcel(g: Givens, m: Measured) -> bool:
    """ "Parcel 2.2 kg", "the package weighs 3 lb": the whole of it."""
    i = m.at - 1
    while i >= 0 and g.scan.marks[i].text in _BE:
        i -= 1
    return m.of in ("", "total") and i >= 0 and g.scan.marks[i].text in (*_PARCEL, "gross")


_BE = wordset("is weighs weighed was of : = the whole came to at about")
_PARCEL = wordset("parcel package shipment")


def _backwards(g: Givens, rest: list[Measured], items: list[Measured], packing: list[Measured]) -> Outcome:
    """One candle, from the weight of the whole parcel."""
    count = _how_many(g, [])
    if len(rest) != 1 or items or count is None or count < 2:
        return asking.which_weight(rest or items or packing)
    return ParcelQuestion(whole=mass_of(rest[0]), count=count, packing=_total(packing))


def _divisor(g: Givens) -> Number | None:
    """The number a carrier divides the size by."""
    for m in g.scan.kind("number"):
        told = m.of == "divisor" or m.subject == "divisor" or _divides(g, m)
        if told or m.amount.value >= 1000:
            return Number(m.amount.value)
    return None


def _divides(g: Givens, m: Measured) -> bool:
    """ "They divide by 139"."""
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 2) : m.at]]
    return before[-1:] == ["by"] and before[0].startswith("divid")


def _rounding(g: Givens) -> tuple[Mass, Measured | None] | None:
    """ "Bills per started kg", "rounds up to the next 500 g": the carrier's step, and its amount if it is one."""
    marks = g.scan.marks
    rounded = any(mark.text in _ROUNDED for mark in marks)
    for i, mark in enumerate(marks[:-1]):
        if mark.text not in _STARTED and not (rounded and mark.text in _NEXT):
            continue
        after = mark if mark.kind == "unit" else marks[i + 1]  # "full pound" is one unit
        if after.kind == "unit" and after.unit in ("kg", "lb", "oz", "g"):
            return Mass.of(1, after.unit), None
        if after.measured is not None and after.measured.kind == "mass":
            return mass_of(after.measured), after.measured
    return None


def _how_many(g: Givens, limits: list[Measured]) -> int | None:
    """How many go in; none where that is asked."""
    if limits and g.scan.says(("how many",)):
        return None
    counts = _counts(g)
    return int(counts[0].amount.value) if len(counts) == 1 else None


def _counts(g: Givens) -> list[Measured]:
    """The numbers that may be how many go in; "one candle" only where there is no other."""
    counts = [
        m
        for m in g.scan.kind("number")
        if m.of in ("jar", "candle", "", "box") and 1 <= m.amount.value < 1000 and m.amount.value == int(m.amount.value)
    ]
    if box_sides(g):
        after = {m.at: g.scan.marks[m.at + 1].noun for m in counts if m.at + 1 < len(g.scan.marks)}
        counts = [m for m in counts if m.of in ("jar", "candle") or after.get(m.at)]
    return [m for m in counts if m.amount.value > 1] or counts


def _one(found: list[Measured]) -> Mass | None:
    return mass_of(found[0]) if len(found) == 1 else None


def _total(found: list[Measured]) -> Mass | None:
    total: Mass | None = None
    for m in found:
        total = mass_of(m) if total is None else total + mass_of(m)
    return total
