"""Wax that is told to stay without scent: taken off before the load is counted."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.answer import line
from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import after_sum, mass_of
from core.reading.wordset import wordset
from core.reading.workings import Working, difference, part
from core.units import Mass

_PLAIN = wordset("plain unscented fragrance-free scentless neat")
_STAYS = wordset(
    "stay stays stayed keep keeps kept leave left leaving remain remains poured took taken is are goes off"
)
_SCENT = wordset("scent oil fragrance perfume")


def take_unscented(scan: Scan) -> None:
    """ "500 g of wax, but 100 g of it stays unscented", "half stays plain": what is left is the wax of the load."""
    if len(scan.kind("percent")) != 1:
        return
    masses = scan.masses()
    if len(masses) == 2 and masses[0].of in ("wax", "") and masses[1].of in ("wax", ""):
        whole, plain = masses
        if mass_of(plain).base < mass_of(whole).base and _stays_plain(scan, plain.at) and not plain["each"]:
            rest, working = difference("wax to scent", mass_of(whole), mass_of(plain))
            _put(scan, whole, rest, working)
            scan.blank(plain.at, _end(scan, plain.at))
    elif len(masses) == 1 and masses[0].of in ("wax", ""):
        for i, mark in enumerate(scan.marks):
            if mark.text == "half" and i > masses[0].at and _stays_plain(scan, i):
                rest, working = part("wax to scent", mass_of(masses[0]), Decimal("0.5"), line("half"))
                _put(scan, masses[0], rest, working)
                for k in range(masses[0].at, len(scan.marks)):
                    if scan.marks[k].text == "half":
                        scan.blank(k, k + 1)
                scan.tell()
                return


def _stays_plain(scan: Scan, at: int) -> bool:
    """ "Stays plain", "is left without scent" right after mark `at`."""
    near: list[Mark] = []
    for mark in scan.marks[at + 1 : at + 8]:
        if mark.kind in ("amount", "stop") or mark.text == ",":
            break
        near.append(mark)
    texts = [mark.text for mark in near]
    if texts[:1] and texts[0] in _PLAIN and near[1:] and near[1].noun == "wax":
        return False  # "put 200 g plain wax to it"
    if not any(text in _STAYS for text in texts):
        return False
    if any(text in _PLAIN for text in texts):
        return True
    return any(one in ("without", "no") and two in _SCENT for one, two in itertools.pairwise(texts))


def _end(scan: Scan, at: int) -> int:
    i = at + 1
    while i < len(scan.marks) and scan.marks[i].kind == "word" and scan.marks[i].text not in (",", "and", "but"):
        i += 1
    return i


def _put(scan: Scan, m: Measured, mass: Mass, working: Working) -> None:
    scan.put(m, after_sum(m, mass, of="wax", name=m.name or "wax"))
    scan.workings.append(working)
