"""Weights that are told what they are of a little further on: behind brackets, or by the share they are to be."""

from __future__ import annotations

from core.reading.marks import Measured, Scan


def behind_brackets(scan: Scan, m: Measured) -> str:
    """What stands behind "12 oz (weight) of oil"."""
    marks = scan.marks[m.at + 1 : m.at + 8]
    texts = [mark.text for mark in marks]
    if texts[:1] != ["("] or ")" not in texts or any(mark.kind in ("amount", "stop") for mark in marks[1:3]):
        return ""
    end = texts.index(")") + 1
    said = {tag for mark in marks[:end] for tag in mark.tags}
    if texts[end : end + 1] != ["of"] or not said & {"by_weight", "weight"}:
        return ""
    m.flags.add("by_weight")
    noun = next((mark.noun for mark in marks[end + 1 : end + 3] if mark.noun), "")
    return noun if noun in ("wax", "fragrance") else ""


def becomes_a_share(scan: Scan, m: Measured) -> bool:
    """ "22 g has to become 8 % of the candle", "36 g should be 8 % of the wax": a weight that is the share."""
    ahead, i = [], m.at + 1
    while i < len(scan.marks) and scan.marks[i].kind == "word" and i - m.at < 5:
        ahead.append(scan.marks[i].text)
        i += 1
    share = scan.marks[i].measured if i < len(scan.marks) else None
    return (
        share is not None
        and share.kind == "percent"
        and bool(ahead)
        and ahead[-1] in ("become", "be", "is", "makes", "make")
        and bool(share.flags & {"of_total", "of_wax"})
        and not _asks_oil(scan)
    )


def _asks_oil(scan: Scan) -> bool:
    """ "How much oil": then the weight is not the oil's."""
    return any(
        "asks" in mark.tags and any(x.noun == "fragrance" for x in scan.marks[i + 1 : i + 4])
        for i, mark in enumerate(scan.marks)
    )
