"""Ratios, fractions and parts of a text: a load, a fill level, or shares of a blend."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.compounds import Basis, Load, Parts
from core.reading.bases import basis_of
from core.reading.marks import Mark, Measured, Scan
from core.reading.rates import LARGEST_FRACTION
from core.reading.share import HUNDRED, Shares
from core.reading.wordset import wordset
from core.units import Mass, Percent

MOST_OILS = 10


EQUALLY = wordset("half equal equally evenly even same")


RATIO_REACH = 6  # how many words from a ratio may say what it is of


# A ratio of wax to oil from here on is a load; nearer ratios are blends unless the words say wax to oil.
LEAST_LOAD_RATIO = 4


def fill_level(scan: Scan, out: Shares) -> None:
    """ "Three quarters full", "filled to 2/3", "half fill"."""
    if out.level is not None or not scan.has("vessel", "holds"):
        return
    for m in scan.kind("number"):
        written = "." not in m.amount.text and "," not in m.amount.text
        if written and 0 < m.amount.value < 1 and m.flags & {"fill", "full"}:
            out.level = Percent(m.amount.value * HUNDRED)
            m.of = "level"
            return
    for half, fill in zip(scan.marks, scan.marks[1:], strict=False):
        if half.text == "half" and fill.tags & {"fill", "full"}:
            out.level = Percent(HUNDRED / 2)


def file_ratios(scan: Scan, out: Shares) -> None:
    """ "12:1 wax to oil", "60/40 split of two oils", "70/30 soy and paraffin"."""
    for m in scan.kind("ratio"):
        numbers = m.amount.ratio
        if any(number <= 0 for number in numbers):
            continue
        around = scan.marks[max(0, m.at - RATIO_REACH) : m.at + RATIO_REACH + 1]
        names = (
            _names_after(scan, m) if _is_of_whole(scan, numbers) else _names_before(scan, m) or _names_after(scan, m)
        )
        oils = any(mark.noun == "fragrance" for mark in around)
        rate = Load.rate(Mass(min(numbers)), Mass(max(numbers)), m.amount.text)
        parts = Parts(tuple(zip(_names_of_parts(scan, m), numbers, strict=True)))
        if len(numbers) == 2 and not out.loads and {"wax", "fragrance"} <= set(names[:2]):
            out.loads.append(rate)
        elif len(numbers) == 2 and not out.loads and _is_of_whole(scan, numbers):
            out.loads.append(Load(Percent(min(numbers)), Basis.TOTAL))
            out.of_whole = True
        elif names[:1] == ["wax"] or (m.of == "wax" and names[:1] != ["fragrance"]):
            out.waxes = parts
        elif (
            len(numbers) == 2 and not out.loads and max(numbers) >= LEAST_LOAD_RATIO * min(numbers) and m.of != "total"
        ):
            out.loads.append(rate)
        elif oils:
            out.blend = parts
        elif out.loads and not names and not m.of:
            out.unclear.append(m)  # "70/30 amber and fig": nobody said whether these are oils or waxes
        else:
            out.waxes = out.waxes or parts


def _names_before(scan: Scan, m: Measured) -> list[str]:
    """ "Oil to wax 1:15": the two names right before it, in its order."""
    before = scan.marks[max(0, m.at - 3) : m.at]
    joined = len(before) == 3 and before[1].text in ("to", ":", "/", "and")
    return (
        [before[0].noun, before[2].noun] if joined and {before[0].noun, before[2].noun} == {"wax", "fragrance"} else []
    )


def _names_after(scan: Scan, m: Measured) -> list[str]:
    """The things named right after a ratio, up to the next amount."""
    names: list[str] = []
    for mark in scan.marks[m.at + 1 : m.at + RATIO_REACH + 1]:
        if mark.kind == "amount":
            break
        if mark.noun:
            names.append(mark.noun)
    return names


_PLAIN_NAMES = wordset("wax waxes oil oils fragrance scent scents blend base flakes pellets perfume fo eo")
_BETWEEN_NAMES = wordset("and & + / , to with")


def _names_of_parts(scan: Scan, m: Measured) -> list[str]:
    """ "50/50 soy and coconut": what each number is of, where as many names stand right behind or before; else ""."""
    behind, before = scan.marks[m.at + 1 : m.at + 8], scan.marks[max(0, m.at - 7) : m.at]
    unnamed = [""] * len(m.amount.ratio)
    return _names_in(behind, len(unnamed)) or _names_in(before[::-1], len(unnamed), -1) or unnamed


def _names_in(marks: list[Mark], count: int, way: int = 1) -> list[str]:
    """So many names in a row, each a wax or a scent, joined by "and" or a sign; [] where there are more or fewer."""
    names: list[list[str]] = [[]]
    for mark in marks:
        if mark.text in _BETWEEN_NAMES:
            names.append([])
        elif mark.noun in ("wax", "fragrance"):
            names[-1].append(mark.text)
        else:
            break
    if len(names) > 1 and not names[-1]:
        names.pop()  # "soy and coconut, 900 g"
    if len(names) == 1 and len(names[0]) == count and not _PLAIN_NAMES & {*names[0]}:
        names = [[name] for name in names[0]]  # "60/40 soy coconut"
    whole = len(names) == count and all(names) and len({tuple(name) for name in names}) == count
    return [" ".join(name[::way]) for name in names[::way]] if whole else []


def _is_of_whole(scan: Scan, numbers: tuple[Decimal, ...]) -> bool:
    """ "Wax and oil for 350 g at a 93/7 mix": two shares of a hundred, the small one small enough to be the oil's."""
    named = {head for _, head in scan.heads}
    both = {"wax", "fragrance"} <= named or "total" in named
    return sum(numbers) == HUNDRED and min(numbers) < HUNDRED / 4 and both and not scan.masses("wax")


def file_fractions(scan: Scan, out: Shares) -> None:
    """ "three quarters of the oil vanilla and one quarter smoke": fractions that make one."""
    fractions = [m for m in scan.kind("number") if 0 < m.amount.value < 1]
    if len(fractions) > 1 and all(m.of == "wax" for m in fractions) and out.waxes is None and _make_one(fractions):
        out.waxes = Parts(tuple((m.name, m.amount.value) for m in fractions))
        for m in fractions:
            m.of = "blend"
        return
    whole = len(fractions) > 1 and _make_one(fractions)
    if out.blend is None and whole and (any(m.of == "fragrance" for m in fractions) or out.loads):
        out.blend = Parts(tuple((m.name if m.name not in ("oil", "scent") else "", m.amount.value) for m in fractions))
        for m in fractions:
            m.of = "blend"
    elif out.blend is None and len(fractions) == 1 and _is_part(fractions[0]) and out.loads:
        part = fractions[0].amount.value
        out.blend = Parts(((fractions[0].name, part), ("the rest", 1 - part)))


def _make_one(fractions: list[Measured]) -> bool:
    return abs(sum((m.amount.value for m in fractions), Decimal(0)) - 1) < Decimal("0.001")


def equal_oils(scan: Scan, out: Shares) -> None:
    """ "In 2 scents, half half", "3 scents in equal parts"."""
    counts = [m for m in scan.kind("number") if m.of == "fragrance" and 1 < m.amount.value <= MOST_OILS]
    if out.blend is None and len(counts) == 1 and (scan.says(EQUALLY) or scan.has("split")):
        out.blend = Parts(tuple(("", Decimal(1)) for _ in range(int(counts[0].amount.value))))
        for m in scan.kind("number"):
            if m is counts[0] or m.amount.value == Decimal("0.5"):
                m.of = "blend"


def spoken_ratio(scan: Scan, out: Shares) -> None:
    """ "1 oil to 14 wax", "one part to sixteen": a rate; "1 part in 12": a part of the whole."""
    if out.loads:
        return
    for one, other in itertools.pairwise(scan.found):
        link = _link(scan, one, other)
        small, large = sorted((one.amount.value, other.amount.value))
        if not link or not 0 < small * LEAST_LOAD_RATIO <= large:
            continue
        typed = f"{one.amount.text} {link} {other.amount.text}"
        if link == "in":
            of = Basis.TOTAL if other["of_total"] else Basis.WAX if other["of_wax"] else basis_of(scan, other)
            out.loads.append(Load(Percent(small / large * HUNDRED), of))
        else:
            out.loads.append(Load.rate(Mass(small), Mass(large), typed))
        one.of = other.of = "load"
        return


def _link(scan: Scan, one: Measured, other: Measured) -> str:
    """The word that makes a ratio of two bare numbers, of which one is in parts or both are named; "" where none."""
    if any(m.kind not in ("number", "part") or m.amount.high is not None for m in (one, other)):
        return ""
    between = [mark for mark in scan.marks[one.at + 1 : other.at] if not mark.noun and mark.kind != "unit"]
    words = [mark.text for mark in between if mark.text not in ("of", "the", "every", "each", "part", "parts")]
    named = {one.of, other.of} == {"wax", "fragrance"}
    if len(words) != 1 or not (named or "part" in (one.kind, other.kind)):
        return ""
    if words[0] == "in":
        return "in" if one.amount.value < other.amount.value and other.of != "wax" else "to" if named else ""
    return "to" if words[0] in ("to", "per", "for", "on") else ""


_OF_WAX = tuple((word, "wax") for word in ("x", "×", "*", "times", "of", "relative", "on"))


def halves(scan: Scan, out: Shares) -> None:
    """ "Half rose, half mint", "half soy, half coconut": two oils or two waxes in equal parts."""
    pairs = [two for one, two in itertools.pairwise(scan.marks) if one.text == "half"]
    oils = [two.text for two in pairs if two.tags & {"fragrance", "scent_name"}]
    waxes = [two.text for two in pairs if two.noun == "wax"]
    if out.blend is None and len(oils) == 2:
        out.blend = Parts(tuple((name, Decimal(1)) for name in oils))
    if out.waxes is None and len(waxes) == len(set(waxes)) == len(pairs) == 2:
        out.waxes = Parts(tuple((name, Decimal(1)) for name in waxes))


def fraction_of_wax(scan: Scan, out: Shares) -> None:
    """ "Fragrance = 0.1 x wax", "0.075 relative to the wax": a load as a decimal."""
    if out.loads:
        return
    for m in scan.kind("number"):
        near = [mark for mark in scan.marks[m.at + 1 : m.at + 5] if mark.text not in ("to", "the", "my", "weight")]
        said = tuple(mark.noun or mark.text for mark in near[:2])
        if 0 < m.amount.value <= LARGEST_FRACTION and not m.amount.unit and said in _OF_WAX and m.of != "dye":
            out.loads.append(Load(Percent(m.amount.value * HUNDRED), Basis.WAX))
            m.of = "load"
            return


def fraction_load(scan: Scan, out: Shares) -> None:
    """ "One tenth oil to wax", "1/16 of the wax's weight is oil": a load as a fraction."""
    if out.loads:
        return
    found = [m for m in scan.kind("number") if 0 < m.amount.value <= LARGEST_FRACTION and "." not in m.amount.text]
    oil = any(head == "fragrance" for _, head in scan.heads)
    if len(found) == 1 and found[0].of in ("", "fragrance", "wax") and oil and "," not in found[0].amount.text:
        out.loads.append(Load.rate(Mass(found[0].amount.value), Mass(Decimal(1)), found[0].amount.text))
        found[0].of = "load"


def _is_part(m: Measured) -> bool:
    """ "Half is vanilla", "1/3 mint": a part of the oil; 0.94 is none."""
    return m.of == "fragrance" and "." not in m.amount.text and "," not in m.amount.text


def file_named_shares(scan: Scan, out: Shares) -> None:
    """ "The wax is 70 soy 30 beeswax": bare numbers of a hundred, each with the name of a wax or of an oil."""
    numbers = scan.kind("number")
    if len(numbers) < 2:
        return
    for of in ("wax", "fragrance"):
        bare = [m for m in numbers if m.of == of and not m.amount.unit and m.name]
        named = len({m.name for m in bare}) == len(bare) > 1
        whole = sum((m.amount.value for m in bare), Decimal(0)) == HUNDRED
        if not named or not whole or not _side_by_side(bare):
            continue
        parts = Parts(tuple((m.name, m.amount.value) for m in bare))
        if of == "wax":
            out.waxes = out.waxes or parts
        else:
            out.blend = out.blend or parts
        for m in bare:
            m.of = "blend"


def _side_by_side(found: list[Measured]) -> bool:
    return all(two.at - one.at <= 4 for one, two in itertools.pairwise(found))


def file_parts(scan: Scan, out: Shares) -> None:
    """ "10 parts wax 1 part oil", "parts by weight 10 wax 1 oil"."""
    found = scan.kind("part")
    if out.loads:
        _file_blend(found, out)
        return
    if not found and any(mark.unit == "part" for mark in scan.marks):
        found = [m for m in scan.kind("number") if m.of in ("wax", "fragrance")]
    wax = sum((m.amount.value for m in found if m.of == "wax"), Decimal(0))
    oil = sum((m.amount.value for m in found if m.of == "fragrance"), Decimal(0))
    if wax > 0 and oil > 0:
        typed = f"{oil.normalize():f} to {wax.normalize():f}"
        out.loads.append(Load.rate(Mass(oil), Mass(wax), typed))
        for m in found:
            if m.of in ("dye", "additive"):
                out.additives.append((m.name or m.of, Percent(m.amount.value / wax * HUNDRED)))
        for of in ("wax", "fragrance"):
            _file_blend([m for m in found if m.of == of], out)
        for m in found:
            m.of = "load"
    else:
        _file_blend(found, out)


def _file_blend(found: list[Measured], out: Shares) -> None:
    """Parts of oils alone or of waxes alone are a blend."""
    parts = Parts(tuple((m.name, m.amount.value) for m in found if m.amount.value > 0))
    if len(parts.items) < 2:
        return
    if any(m.of == "fragrance" for m in found) and all(m.of in ("fragrance", "", "total") for m in found):
        out.blend = out.blend or parts
    elif not any(m.of == "fragrance" for m in found):
        out.waxes = out.waxes or parts
