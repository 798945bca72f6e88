"""What the percents, rates, ratios and parts of a text are: the load, or a fill level, a spare, a blend, a strength."""

from __future__ import annotations

from decimal import Decimal

from core.compounds import Basis, Load, Parts
from core.reading.bases import basis_of
from core.reading.marks import Measured, Scan
from core.reading.rates import LARGEST_FRACTION, rate_of
from core.reading.ratios import (
    equal_oils,
    file_fractions,
    file_named_shares,
    file_parts,
    file_ratios,
    fill_level,
    fraction_load,
    fraction_of_wax,
    halves,
    spoken_ratio,
)
from core.reading.share import HUNDRED, Shares
from core.reading.share_words import more_of_what, part_of_wax, swap, swapped
from core.reading.strengths import strength
from core.reading.wordset import wordset
from core.units import Percent

# "Leave 10 % empty": these say how much stays free.
EMPTY_ROOM = wordset("empty headspace headroom free air unfilled")
FULL_FROM = Decimal(40)  # nobody fills a vessel less, or scents a wax more


def shares(scan: Scan) -> Shares:
    """Everything in `scan` that is a share of something."""
    out = Shares()
    rest: list[Measured] = []
    for measured in scan.found:
        if measured.kind == "percent":
            rest += _special(scan, measured, out)
        elif measured.kind == "rate":
            rate = rate_of(measured.amount)
            if rate is not None and (measured["of_total"] or measured.of == "total"):
                rate = Load(rate.percent, Basis.TOTAL)  # "1 oz in every 16 oz of the finished mix"
            if rate is not None:
                out.loads.append(rate)
    rest = strength(scan, rest, out)
    if len(rest) > 1 and sum((m.amount.value for m in rest), Decimal(0)) == HUNDRED:
        _name_the_unknown(scan, rest)
        _whole(rest, out, blended=_blended(scan, rest))
        rest = []
    rest = _all_but_one(scan, rest, out)
    for of in ("wax", "fragrance"):
        same = [m for m in rest if m.of == of]
        if len(same) > 1 and sum((m.amount.value for m in same), Decimal(0)) == HUNDRED:
            _whole(same, out)
            rest = [m for m in rest if m not in same]
    _loads(scan, rest, out)
    file_ratios(scan, out)
    fill_level(scan, out)
    equal_oils(scan, out)
    file_fractions(scan, out)
    halves(scan, out)
    fraction_of_wax(scan, out)
    fraction_load(scan, out)
    spoken_ratio(scan, out)
    file_parts(scan, out)
    file_named_shares(scan, out)
    return out


def _file_bare_limit(scan: Scan, out: Shares) -> None:
    """ "12 % load, my max is 10": a limit without its sign."""
    for m in scan.kind("number"):
        small = 1 <= m.amount.value <= HUNDRED / 4 and not m.amount.unit
        if out.limit is None and m["limit"] and m.of in ("", "load") and small:
            out.limit, m.of = Percent(m.amount.value), "limit"


def _special(scan: Scan, m: Measured, out: Shares) -> list[Measured]:
    """File a percent that is no load; those that may be one are handed back."""
    percent = Percent(m.amount.value)
    if (
        (scan.has("vessel", "fill") or scan.volumes())
        and scan.says(EMPTY_ROOM)
        and m.of not in ("load", "fragrance", "wax")
        and _stays_free(scan, m)
    ):
        out.level = Percent(HUNDRED - percent.base)
    elif (told := part_of_wax(scan, m)) is not None:
        out.waxes = told
    elif swapped(scan, m):
        out.waxes = swap(scan, percent)
    elif _is_lost(scan, m) or more_of_what(scan, m) or _tolerated(scan, m):
        out.unclear.append(m)
    elif (m["limit"] or _is_ceiling(scan, m)) and m.of not in ("dye", "additive"):
        out.limit = percent
    elif (
        (m["spare"] and not _stays_at(scan, m))
        or (m["add"] and m.of == "wax" and m.side == "right")
        or _on_top(scan, m)
    ) and not m["meant"]:
        out.spare = percent
    elif m.of in ("dye", "additive"):
        out.additives.append((m.name.removeprefix("total ") or m.of, percent))
    elif m["error"] and scan.has("error") and m.of not in ("load", "fragrance"):
        out.error = percent
    elif m.of not in ("load", "fragrance") and m.amount.value >= FULL_FROM and _fills(scan, m):
        out.level = percent
    elif percent.base == HUNDRED and m.of in ("wax", "fragrance", "candle", "") and not _all_of_it(scan, m):
        pass  # "100 % soy": pure, not a share
    else:
        return [m]
    return []


def _all_of_it(scan: Scan, m: Measured) -> bool:
    """ "450 g wax at 100 %": as a load, which is refused; nothing behind it is that pure."""
    before, behind = scan.around(m, 1, 1)
    return bool(before) and before[0].text in ("at", "@", "with") and not behind


def _stays_at(scan: Scan, m: Measured) -> bool:
    """ "So it stays 6 %", "stays at 6 %": the load it keeps, nothing to spare."""
    before = [mark.text for mark in scan.marks[max(0, m.at - 2) : m.at]]
    if any("spare" in mark.tags for mark in scan.marks[m.at + 1 : m.at + 3]):
        return False
    return bool(before) and (before[-1] in _STAYS or (before[-1] == "at" and before[0] in _STAYS))


_STAYS = wordset("stay stays staying keep keeps kept")


def _on_top(scan: Scan, m: Measured) -> bool:
    """ "15 pct on top", "8 percent more wax", "10 % for waste": so much is melted beyond what is poured."""
    after = [mark.text for mark in scan.marks[m.at + 1 : m.at + 4]]
    if after[:2] in (["on", "top"], ["more", "wax"], ["extra", "wax"]):
        return m.of not in ("fragrance", "load") or after[:1] == ["on"]
    if after[:1] == ["more"]:
        return after[1:2] in ([], ["because"], ["for"], ["in"], ["than"]) and not scan.has("top_up", "already")
    return after[:1] == ["for"] and bool({*after[1:]} & LOST)


def _is_ceiling(scan: Scan, m: Measured) -> bool:
    """ "The box says you can do ten percent, but I only want seven", "holds up to 12 %, I use 8 %"."""
    before = [mark.text for mark in scan.marks[max(0, m.at - 4) : m.at]]
    up_to = before[-2:] == ["up", "to"]
    if not up_to and not ("can" in before and bool({*before} & _ABLE)):
        return False
    others = [x for x in scan.found if x is not m and (x.kind == "percent" or (x.kind == "number" and x["want"]))]
    lower = any(0 < x.amount.value <= m.amount.value for x in others)
    return (lower or up_to) and m.of not in ("dye", "additive")


_ABLE = wordset("do hold take handle carry")


def _tolerated(scan: Scan, m: Measured) -> bool:
    """ "A tolerance of 4.5 %": how far off something may be, and no load."""
    near = (*scan.marks[max(0, m.at - 3) : m.at], *scan.marks[m.at + 1 : m.at + 2])
    return any(mark.text in _TOLERANCES for mark in near)


_TOLERANCES = wordset("tolerance tolerances deviation deviates")


def _is_lost(scan: Scan, m: Measured) -> bool:
    """ "8 % of which is lost": neither a load nor, for sure, what is melted on top."""
    after = [mark.text for mark in scan.marks[m.at + 1 : m.at + 5]]
    return after[:2] in (["of", "which"], ["of", "it"]) and bool({*after} & {"lost", "sticks", "stays", "wasted"})


LOST = wordset("waste wastage spill spills spillage loss losses testers tester safety luck sure case drips pot")


def _fills(scan: Scan, m: Measured) -> bool:
    """Whether the percent says how full a vessel is."""
    told = bool(m.flags & {"fill", "full", "holds"})
    return told or (scan.has("vessel") and (scan.has("fill") or bool(scan.volumes())))


def _stays_free(scan: Scan, m: Measured) -> bool:
    """ "10 % empty", "leave 15 % free"."""
    after = scan.marks[m.at + 1 : m.at + 3]
    left = any(mark.text in ("leave", "leaving", "keep") for mark in scan.marks[max(0, m.at - 3) : m.at])
    return any(mark.text in EMPTY_ROOM for mark in after) or (left and m.of not in ("fragrance", "wax", "load"))


_MAY_NAME = frozenset({"scent_name"})


def _name_the_unknown(scan: Scan, rest: list[Measured]) -> None:
    """ "60 % pine and 40 % orange": a word we don't know is the name of its share all the same."""
    for m in rest:
        words = [mark for mark in scan.around(m, 0, 3)[1] if mark.text not in ("of", "the")][:1]
        if not m.name and words and words[0].kind == "word" and words[0].tags <= _MAY_NAME and len(words[0].text) > 2:
            m.name = words[0].text


MOST_OF_AN_UNKNOWN = 75  # percent: the larger part of a mix under a name nobody knows may well be its wax


def _blended(scan: Scan, rest: list[Measured]) -> bool:
    """Whether the shares may be those of oils alone though not each is known for one."""
    if scan.has("wax_itself"):
        return False
    named = all(m.of or (m.name and m.amount.value < MOST_OF_AN_UNKNOWN) for m in rest)
    return named or scan.says(("blend", "mix", "mixture"))


def _whole(rest: list[Measured], out: Shares, *, blended: bool = False) -> None:
    """Percents that add up to 100: shares of the wax, of the oil, or of the whole mix."""
    kinds = {m.of for m in rest}
    items = tuple((m.name, m.amount.value) for m in rest)
    if kinds <= {"wax"}:
        out.waxes = Parts(items)
    elif kinds <= {"fragrance", ""} and "fragrance" in kinds and (kinds == {"fragrance"} or blended):
        out.blend = Parts(items)
    else:
        out.parts = [(m.name, m.of, m.amount.value) for m in rest]


def _all_but_one(scan: Scan, rest: list[Measured], out: Shares) -> list[Measured]:
    """ "10 % load: 70 % rose, 30 % oud": all percents but one add up to 100; they share out the oil or the wax."""
    if len(rest) < 3:
        return rest
    total = sum((m.amount.value for m in rest), Decimal(0))
    odd = [m for m in rest if total - m.amount.value == HUNDRED and m.of != "wax"]
    if len(odd) != 1:
        return rest
    shared = [m for m in rest if m is not odd[0]]
    _name_the_unknown(scan, shared)
    parts = Parts(tuple((m.name, m.amount.value) for m in shared))
    pure = [m for m in shared if m.of == "fragrance"]
    bases = [m for m in shared if m.name.split()[-1:] in (["base"], ["carrier"], ["dpg"], ["alcohol"])]
    if len(shared) == 2 and len(pure) == len(bases) == 1:
        out.strength = Percent(pure[0].amount.value)  # "40 % fragrance, 60 % oil base"
        return odd
    if any(m.of == "wax" for m in shared):
        out.waxes = parts
    else:
        out.blend = parts
    return odd


def _loads(scan: Scan, rest: list[Measured], out: Shares) -> None:
    named = [m for m in rest if m.of in ("fragrance", "load")]
    if len(rest) > 1 and len(named) == 1 and all(m.of for m in rest):
        out.unclear = [m for m in rest if m not in named]
        rest = named
    if any(m.of == "wax" and m.amount.value >= FULL_FROM for m in rest):
        out.unclear += [m for m in rest if m.of == "wax"]
        rest = [m for m in rest if m.of != "wax"]
    seen: set[Decimal] = set()
    for m in rest:
        ends = [m.amount.value] if m.amount.high is None else [m.amount.value, m.amount.high]
        for value in ends:
            if value not in seen:
                seen.add(value)
                out.loads.append(Load(Percent(value), basis_of(scan, m)))
    if out.loads:
        _file_bare_limit(scan, out)
        return
    for m in scan.kind("number"):
        after_load = m.at > 0 and scan.marks[m.at - 1].noun == "load" and m.amount.value <= LARGEST_FRACTION
        if (m.of == "load" or after_load) and not m.amount.unit:
            value = m.amount.value
            if 0 < value <= LARGEST_FRACTION:
                value *= HUNDRED
            elif value < 1:
                continue
            out.loads.append(Load(Percent(value), basis_of(scan, m)))
    bare = [m for m in scan.kind("number") if m.of in ("", "load") and 1 <= m.amount.value <= HUNDRED / 4]
    if not out.loads and out.limit is not None and len(bare) == 1:
        out.loads.append(Load(Percent(bare[0].amount.value), basis_of(scan, bare[0])))  # "max 10 %, I use 8"
