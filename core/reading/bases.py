"""What a percent of a text is said to be of: the wax, or the whole mix."""

from __future__ import annotations

from core.compounds import Basis
from core.reading.marks import Measured, Scan

BASIS_REACH = 7  # how many words after a percent may say what it is of


def basis_of(scan: Scan, m: Measured) -> Basis | None:
    """What the percent `m` is said to be of: right after it, right before it, or anywhere if nothing contradicts."""
    for way in (1, -1):
        i = m.at + way
        for _ in range(BASIS_REACH):
            if not 0 <= i < len(scan.marks) or scan.marks[i].kind in ("amount", "stop"):
                break
            tags = scan.marks[i].tags
            if way < 0 and scan.marks[i].text in ("=", "→", ">"):
                break
            if "of_total" in tags and not _follows_weight(scan, i):
                return Basis.TOTAL
            if "of_wax" in tags and not _follows_weight(scan, i):
                return Basis.WAX
            i += way
    if _of_it(scan, m):
        return Basis.TOTAL
    said = basis_words(scan)
    if len(said) != 1:
        return None
    return Basis.TOTAL if "of_total" in said else Basis.WAX


def basis_words(scan: Scan) -> set[str]:
    """Which of "of the wax" and "of the total" are said anywhere of a percent, not of what is weighed."""
    if not scan.has("of_total", "of_wax"):
        return set()
    return {
        tag
        for i, mark in enumerate(scan.marks)
        for tag in ("of_total", "of_wax")
        if tag in mark.tags and mark.text != "to" and not _follows_weight(scan, i)
    }


def _of_it(scan: Scan, m: Measured) -> bool:
    """ "Makes 900 g, 10 % of that is oil": a percent of the only weight there is, where that is a whole."""
    near = [mark.text for mark in scan.marks[m.at + 1 : m.at + 3]]
    before = [mark.text for mark in scan.marks[max(0, m.at - 2) : m.at]]
    near = near if near[:1] in (["of"], ["from"]) else before
    wholes = [x for x in scan.masses() if x.of in ("total", "candle") or x["makes"] or x["together"]]
    return (
        near[:1] in (["of"], ["from"])
        and near[1:] in (["it"], ["that"], ["this"], ["which"])
        and len(wholes) == len(scan.masses()) == 1
    )


def _follows_weight(scan: Scan, i: int) -> bool:
    """ "2 lb of the wax": here "of the wax" says what is weighed, not what a percent is of."""
    j = i - 1
    while j >= 0 and scan.marks[j].kind == "word" and scan.marks[j].tags & {"by_weight", "weight"}:
        j -= 1
    before = scan.marks[j] if j >= 0 else None
    if before is None:
        return False
    if (before.kind == "unit" and before.unit != "percent") or (
        before.noun and before.noun not in ("fragrance", "load")
    ):
        return True
    if before.measured is not None:
        return before.measured.kind not in ("percent", "asked")
    return bool(before.tags & {"much", "total", "asks"}) or before.text in ("rest", "kind", "type")
