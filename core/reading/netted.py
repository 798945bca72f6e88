"""A vessel weighed along in a story: the weight of it full becomes the weight of what is in it."""

from __future__ import annotations

import dataclasses

from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import after_sum, mass_of
from core.reading.tares import gross, is_wanted, words_around
from core.reading.wordset import wordset
from core.reading.workings import Working, difference
from core.units import Mass

_KEEPS = wordset("keeps keep holds hold takes take eats loses back")
_VESSELS = wordset("pot jar bottle measure")
_NOW = wordset("now until till untill says said shows showed show reads read display displays became becomes up")
_WITH = wordset("with plus and n & + in incl including inside full filled of")
# Texts in which the weight with the vessel is itself what is meant, or which have rows of their own.
_OTHERS = ("net", "label", "parcel", "volumetric", "water", "dense", "density")
MOST_PAIRS = 3
_NET_OF = {"wax": "wax alone", "fragrance": "fragrance alone", "total": "wax and fragrance alone"}


@dataclasses.dataclass(frozen=True, slots=True)
class Along:
    """A vessel weighed full and empty, and what is in it: wax, fragrance or total."""

    full: Measured
    empty: Measured
    inside: str

    @property
    def mass(self) -> Mass:
        """What is in it, by weight."""
        return mass_of(self.full) - mass_of(self.empty)

    @property
    def working(self) -> Working:
        """The sum that takes the vessel off."""
        return difference(_NET_OF.get(self.inside, "net"), mass_of(self.full), mass_of(self.empty))[1]


def vessels_along(scan: Scan) -> list[Along]:
    """Each vessel of the text that was weighed full and empty, told in any order."""
    masses = _weighings(scan)
    if len(masses) < 2:
        return []
    fulls = [m for m in masses if (gross(scan, m) or _full_of(scan, m)) and not _is_empty(scan, m)]
    if any(_full_of(scan, m) for m in fulls):  # "the kettle is 1.3 kg, full of wax it shows 3.8"
        most = max(fulls, key=lambda m: mass_of(m).base)
        fulls = [m for m in fulls if m is most or _full_of(scan, m) or m.of not in _VESSELS or m.side != "left"]
    empties = [m for m in masses if m not in fulls and _is_vessel(scan, m)]
    out: list[Along] = []
    for empty in empties[:MOST_PAIRS]:
        open_ = [m for m in masses if m not in empties and all(m is not pair.full for pair in out)]
        heavier = [m for m in open_ if mass_of(m).base > mass_of(empty).base]
        told = [m for m in heavier if m in fulls and _same_vessel(scan, empty, m)]
        told = told or [m for m in heavier if m in fulls]
        told = told or [m for m in heavier if m.of in ("", "scale", "wax", "pot", "jar") and _now(scan, m, empty)]
        if not told and _of_it(scan, empty) and len(heavier) == 1 and heavier[0].of in ("", "scale", "wax"):
            told = heavier  # "1.1 kg on the scale, but the pot is 350 g of it"
        if not told:
            continue
        full = min(told, key=lambda m: abs(m.at - empty.at))
        out.append(Along(full, empty, _inside(scan, full, empty)))
    return out


def netted(scan: Scan) -> Scan:
    """The scan with each vessel taken off; the same scan where none was weighed along, or nothing is asked of the
    rest."""
    if scan.has(*_OTHERS) or scan.volumes() or len(scan.found) < 2 or scan.says(_TAKEN):
        return scan
    if scan.says(("off",)) and scan.says(("already", "taken", "took")):
        return scan
    pairs = vessels_along(scan)
    if not pairs or _only_tare(scan, pairs):
        return scan
    marks, found, workings = list(scan.marks), list(scan.found), list(scan.workings)
    several = any(m.kind == "number" and m.amount.value > 1 and _counts(scan, m) for m in found)
    for pair in pairs:
        each = pair.full["each"] or pair.empty["each"]
        together = {"together"} if several and not each else set()  # "12 jars weigh 4.8 kg filled, 2.4 kg empty"
        differences = [(pair.full, pair.mass, pair.inside)]
        workings.append(pair.working)
        later = _oil_on_top(scan, pair, pairs)
        if later is not None:
            oil, working = difference("fragrance added", mass_of(later), mass_of(pair.full))
            differences.append((later, oil, "fragrance"))
            workings.append(working)
        for m, mass, of in differences:
            flags = (m.flags - {"full", "empty", "step", "together"}) | together
            fresh = after_sum(m, mass, of=of, name=of, sure=True, flags=flags)
            marks[fresh.at] = dataclasses.replace(marks[fresh.at], measured=fresh)
            found = [fresh if m.at == fresh.at else m for m in found]
        marks[pair.empty.at] = Mark("word", "tare", gap=marks[pair.empty.at].gap)
        found = [m for m in found if m.at != pair.empty.at]
    heads = [(at, head) for at, head in scan.heads if head not in _SET_ASIDE]
    tags = scan.tags - _SET_ASIDE
    return dataclasses.replace(scan, marks=marks, found=found, heads=heads, tags=tags, workings=workings)


def _oil_on_top(scan: Scan, pair: Along, pairs: list[Along]) -> Measured | None:
    """ "Pan 820 g, pan and wax 1720 g, after the oil 1792 g": the later weighing has the earlier one in it."""
    if pair.inside not in ("wax", "") or scan.kind("percent"):
        return None
    taken = {at for each in pairs for at in (each.full.at, each.empty.at)}
    later = [m for m in _weighings(scan) if m.at > pair.full.at and m.at not in taken]
    if len(later) != 1 or later[0].amount.unit != pair.full.amount.unit:
        return None
    more = mass_of(later[0]).base - mass_of(pair.full).base
    said = scan.marks[pair.full.at + 1 : later[0].at + 4]
    named = any(mark.noun == "fragrance" for mark in said) and any(mark.text in _LATER for mark in said)
    return later[0] if named and 0 < more < pair.mass.base else None


_LATER = wordset("after then now says said shows with until till reads afterwards added adding")
_SET_ASIDE = wordset("pot bottle measure scale step full empty")
_TAKEN = wordset("tared zeroed deducted subtracted")


def _only_tare(scan: Scan, pairs: list[Along]) -> bool:
    """Nothing but the two weights of one vessel: what is in it is the question itself."""
    others = [m for m in scan.found if all(m.at not in (pair.full.at, pair.empty.at) for pair in pairs)]
    if (not others or (len(others) == 1 and _again(others[0], pairs))) and asks_what_counts(scan):
        return True
    telling = [m for m in others if m.kind in ("mass", "percent", "rate", "ratio", "part", "volume", "money", "asked")]
    if telling and all(m.kind == "mass" and is_wanted(scan, m) for m in telling) and scan.has("top_up", "add", "asks"):
        return True  # "I wanted 80 g of oil, how much is missing?"
    return not telling and not scan.has("load", "percent_word")


def _again(m: Measured, pairs: list[Along]) -> bool:
    """ "Do I use 1062 for the percent": one of the two weights, told once more."""
    return m.kind in ("number", "mass") and any(
        m.amount.value in (pair.full.amount.value, pair.empty.amount.value) for pair in pairs
    )


_COUNTING = wordset("use count take calculate subtract deduct include reckon work go")


def asks_what_counts(scan: Scan) -> bool:
    """ "Do I use the 1062", "should I count the pot", "do I take the pan off"."""
    texts = [mark.text for mark in scan.marks]
    return any(
        one in ("do", "should", "must", "can", "may") and two == "i" and three in _COUNTING
        for one, two, three in zip(texts, texts[1:], texts[2:], strict=False)
    )


def _weighings(scan: Scan) -> list[Measured]:
    """The weights, and bare numbers that share the unit of one: "put the jug on, 315 g, then wax till 1065"."""
    units = {m.amount.unit for m in scan.masses()}
    if len(units) > 1 or not units or scan.kind("ratio"):
        return [m for m in scan.masses() if m.amount.high is None]
    unit = units.pop()
    out: list[Measured] = []
    for m in scan.found:
        if m.kind == "mass" and m.amount.high is None:
            out.append(m)
        elif m.kind == "number" and not m.amount.unit and m.amount.value > 1 and m.of in _WEIGHED_BARE:
            fits = m.of in ("", "scale") or m.amount.value > 20 or "." in m.amount.text
            if fits and (gross(scan, m) or m["empty"] or _after_now(scan, m)) and not _counts(scan, m):
                out.append(dataclasses.replace(m, kind="mass", value=Mass.of(m.amount.value, unit), flags=set(m.flags)))
    return out


_WEIGHED_BARE = ("", "wax", "pot", "jar", "scale")


def _counts(scan: Scan, m: Measured) -> bool:
    after = scan.marks[m.at + 1] if m.at + 1 < len(scan.marks) else None
    return after is not None and after.noun in ("jar", "candle", "pot")


def _is_empty(scan: Scan, m: Measured) -> bool:
    return m["empty"] and not m["full"] and m.of in (*_VESSELS, "")


def _is_vessel(scan: Scan, m: Measured) -> bool:
    """Whether the amount is of a vessel alone; "a 30 g bottle" says what it holds, "the pot keeps 15 g" what stays."""
    if m.flags & {"spare", "left"} or (m.of == "bottle" and m.side == "right" and not m["empty"]):
        return False
    if any(mark.text in _KEEPS for mark in scan.marks[max(0, m.at - 2) : m.at]):
        return False
    if not m["empty"] and m.at and scan.marks[m.at - 1].text in _HOLDING:
        return False  # "3 jars of 200 g": so much goes into each
    if m.of in _VESSELS or (m["empty"] and m.of in ("", "scale", "wax", "total") and _heard(scan)):
        return True
    claimed = {word for x in scan.found if x.side == "right" for word in x.name.split()}
    if m.of == "lid" and any(mark.noun in _VESSELS for mark in scan.marks[max(0, m.at - 5) : m.at]):
        return True  # "pot and lid 1.2 kg"
    near: list[Mark] = []
    for mark in reversed(scan.marks[max(0, m.at - 5) : m.at]):
        if mark.kind in ("amount", "stop") or (mark.text == "," and not all(x.text in _ITS for x in near)):
            break
        near += [mark] if mark.text not in claimed else []
    return m.of == "" and any(mark.noun in _VESSELS for mark in near) and not any(mark.noun == "wax" for mark in near)


_ITS = wordset("it its it's is was")


_HOLDING = wordset("of with @ at x holding for taking")


def _heard(scan: Scan) -> bool:
    return scan.has("pot", "jar", "bottle", "measure", "full") or scan.says(("tare", "gross"))


def _full_of(scan: Scan, m: Measured) -> bool:
    """ "Full of flakes 1000 g", "reads 3.1 kg with the pan on"."""
    after: list[Mark] = []
    for mark in scan.marks[m.at + 1 : m.at + 5]:
        if mark.kind in ("amount", "stop") or mark.text == ",":
            break
        after.append(mark)
    if [x.text for x in after[:2]] == ["with", "it"] and scan.has("pot", "jar", "bottle", "measure"):
        return True
    if after[:1] and after[0].text in ("with", "incl", "including"):
        inside = any(x.noun == "wax" for x in after[1:]) and m.side == "right"
        if inside or any(x.noun in _VESSELS for x in after):
            return True
    return m.of in ("wax", "fragrance") and any("full" in mark.tags for mark in words_around(scan, m))


def _same_vessel(scan: Scan, empty: Measured, full: Measured) -> bool:
    """Whether the same vessel is spoken of beside both."""
    names = {mark.text for mark in words_around(scan, full) if mark.noun in _VESSELS}
    names |= set(full.name.split())
    return bool(names & {*empty.name.split(), *(x.text for x in words_around(scan, empty) if x.noun in _VESSELS)})


def _of_it(scan: Scan, m: Measured) -> bool:
    return [mark.text for mark in scan.marks[m.at + 1 : m.at + 3]] in (["of", "it"], ["of", "that"], ["of", "this"])


def _now(scan: Scan, m: Measured, empty: Measured) -> bool:
    """ "It now shows 4.7 kg", "until it said 1900 g": a later look at the same scale."""
    return m.at > empty.at and _after_now(scan, m)


def _after_now(scan: Scan, m: Measured) -> bool:
    i, steps = m.at - 1, 0
    while i >= 0 and steps < 5 and scan.marks[i].kind not in ("amount", "stop"):
        if scan.marks[i].text in _NOW:
            return True
        i -= 1
        steps += 1
    return False


def _inside(scan: Scan, full: Measured, empty: Measured) -> str:
    """What the vessel holds: what is named beside its full weight, else what such a vessel is for."""
    words = [mark for mark in _beside(scan, full) if mark.text not in ("the", "my")]
    ahead = ["", *(mark.text for mark in words)]
    nouns = [mark.noun for mark, before in zip(words, ahead, strict=False) if mark.noun and before not in _NOT_YET]
    not_yet = any(mark.noun == full.of and before in _NOT_YET for mark, before in zip(words, ahead, strict=False))
    if full.of in ("wax", "fragrance", "total") and not not_yet:
        nouns.append(full.of)
    wax, oil = "wax" in nouns, "fragrance" in nouns
    if (wax and oil) or "total" in nouns or "candle" in nouns:
        return "total"
    if wax or oil:
        return "wax" if wax else "fragrance"
    if empty.of == "jar":
        return ""
    bottle = empty.of == "bottle" or full.of == "bottle"
    return "fragrance" if bottle or (empty.of == "measure" and scan.masses("wax")) else "wax"


_NOT_YET = wordset("before without")


def _beside(scan: Scan, full: Measured) -> list[Mark]:
    """The words by the full weight that say what is in the vessel."""
    words = words_around(scan, full)
    i = full.at + 1
    linked = False
    while i < len(scan.marks) and i <= full.at + 6 and scan.marks[i].kind not in ("amount", "stop"):
        if scan.marks[i].text in (",", "so") or scan.marks[i].tags & {"asks", "what"}:
            break
        linked = linked or scan.marks[i].text in _WITH
        if linked:
            words.append(scan.marks[i])
        i += 1
    return words
