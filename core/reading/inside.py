"""A part told of a whole: "520 g, 20 g of it is oil" is 500 g of wax and 20 g of oil."""

from __future__ import annotations

from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import after_sum, mass_of
from core.reading.wordset import wordset
from core.reading.workings import difference

_IT = wordset("it that this which these those them inside the whole total")
_WHOLES = ("", "total", "candle", "jar")
_BE = wordset("is are was were being =")


def take_inside(scan: Scan) -> None:
    """The oil that is told to be in a whole taken off it: what is left is the wax."""
    for oil in scan.masses("fragrance"):
        before = [m for m in scan.masses() if m.at < oil.at]
        if not _of_it(scan, oil) or not before:
            continue
        whole = before[-1]
        if whole.of not in _WHOLES or whole.amount.high is not None or mass_of(oil).base * 3 >= mass_of(whole).base:
            continue
        if any(mark.kind == "amount" for mark in scan.marks[whole.at + 1 : oil.at]):
            continue
        wax, working = difference("wax alone", mass_of(whole), mass_of(oil))
        flags = whole.flags - {"finished", "together", "full", "left", "without"}
        scan.put(whole, after_sum(whole, wax, of="wax", name="wax", sure=True, flags=flags))
        scan.workings.append(working)
        return


def _of_it(scan: Scan, oil: Measured) -> bool:
    """ "20 g of it is oil", "16 g of the inside is perfume", "with 40 g of it being scent"."""
    after: list[Mark] = scan.marks[oil.at + 1 : oil.at + 7]
    texts = [mark.text for mark in after]
    if texts[:1] not in (["of"], ["from"]) or len(texts) < 4 or texts[1] not in _IT:
        return False
    told = next((i for i, text in enumerate(texts) if text in _BE), None)
    return told is not None and any(mark.noun == "fragrance" for mark in after[told : told + 3])
