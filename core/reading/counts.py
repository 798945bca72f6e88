"""How many of what: numbers of vessels and packs, and the weight or volume that goes into each."""

from __future__ import annotations

import dataclasses

from core.reading.each import gives_each, plural, says_each
from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.wordset import wordset

MOST_COUNT = 1_000_000


_LINK = 5  # how many words may part "15 tins" from "120 g wax in each"


_SETS = wordset("sets set batches times rounds gifts boxes packs")


def multiplier(g: Givens, pairs: list[tuple[int, Measured]]) -> int | None:
    """ "Sets of 3 candles, I make 12 sets": how often all of it; None where a number may or may not multiply."""
    counts = {count for count, _ in pairs}
    whole = [int(m.amount.value) for m in g.scan.kind("number") if m.amount.value == int(m.amount.value)]
    factors = [n for n in whole if n > 1]
    counts |= {n for n in factors if any(count % n == 0 and count // n in factors for count in counts)}
    others = [m for m in g.scan.kind("number") if m.amount.value > 1 and int(m.amount.value) not in counts]
    sets = [m for m in others if m.at + 1 < len(g.scan.marks) and g.scan.marks[m.at + 1].text in _SETS]
    if len(sets) == 1 and sets[0].amount.value == int(sets[0].amount.value):
        return int(sets[0].amount.value)
    return None if sets or any(_made_so_many(g, m) for m in others) else 1


def pairs_of(g: Givens) -> list[tuple[int, Measured]]:
    """Counts with what each of them takes, where every weight has one: "8 small @ 90 g and 4 big @ 310 g"."""
    if not g.scan.kind("number"):
        return []
    pairs, lonely, counts = counted(g)
    if pairs and not lonely:
        return pairs
    if counts and lonely and _taken_from(g, counts[0], lonely[0]):
        return []
    if len(counts) == 1 and len(lonely) == 1 and not pairs and (says_each(g) or _times(g, lonely[0], counts[0])):
        return [(int(counts[0].amount.value), lonely[0])]
    return []


def paired(g: Givens) -> list[tuple[int, Measured]]:
    """The same where some weights have no count."""
    return pairs_of(g) or (counted(g)[0] if g.scan.kind("number") else [])


def _taken_from(g: Givens, count: Measured, m: Measured) -> bool:
    """ "12 melts from 360 g": the weight is of all of them."""
    between = g.scan.marks[count.at + 1 : m.at]
    return 0 < len(between) <= _LINK and any(mark.text in ("from", "out", "using") for mark in between)


def counted(g: Givens) -> tuple[list[tuple[int, Measured]], list[Measured], list[Measured]]:
    """The counts with what each takes; the weights without a count; all the counts."""
    several = any(m.amount.value > 1 and counts_vessels(g, m) for m in g.scan.kind("number"))
    counts: list[Measured] = []
    pairs: list[tuple[int, Measured]] = []
    waiting: Measured | None = None
    lonely: list[Measured] = []
    for m in g.scan.found:
        if m.kind == "number" and m.amount.value == 1 and several:
            continue  # "in one jar"
        if m.kind == "number" and counts_vessels(g, m):
            if waiting is not None and _multiplied(g, waiting, m):
                m = dataclasses.replace(
                    m, amount=dataclasses.replace(m.amount, value=m.amount.value * waiting.amount.value)
                )
            waiting = m
            counts.append(m)
        elif m.kind in ("mass", "volume") and _fills(m, waiting) and not _set_apart(g, m):
            if waiting is not None and _linked(g, waiting, m):
                pairs.append((int(waiting.amount.value), m))
                waiting = None
            else:
                lonely.append(m)
    return pairs, lonely, counts


_KEPT = wordset("keeps keep stays stay stuck eats loses lose back behind")


def so_often(marks: list[Mark], m: Measured) -> bool:
    """ "I do it 4 times"; "4 times a week" is no number of batches."""
    after = [mark.text for mark in marks[m.at + 1 : m.at + 3]]
    return after[:1] == ["times"] and after[1:] not in (["a"], ["per"], ["more"], ["the"], ["as"]) and not m.amount.unit


def kept_back(g: Givens, m: Measured) -> bool:
    """ "The pot always keeps 15 g back": so much is melted more."""
    near = {mark.text for mark in (*g.scan.marks[max(0, m.at - 2) : m.at], *g.scan.marks[m.at + 1 : m.at + 3])}
    return m.kind == "mass" and m.of in ("", "pot", "wax", "total") and not near.isdisjoint(_KEPT)


def _multiplied(g: Givens, one: Measured, other: Measured) -> bool:
    """ "3 trays of 6 melts": three times six."""
    between = [mark.text for mark in g.scan.marks[one.at + 1 : other.at]]
    makers = one.amount.value > 1 and any(word in _EACH_MAKES for word in between)
    if makers and between[-1] in ("make", "makes", "gets", "get", "has", "pours", "pour", "have", "wants"):
        return True  # "9 people and everyone makes two candles"
    if between == ["of"]:
        return False  # "poured 3 of 8 jars" is a part of them
    return 0 < len(between) <= 3 and between[-1] in ("of", "x", "×", "*", "with")


_EACH_MAKES = wordset("each everyone everybody every all")


def _fills(m: Measured, counted: Measured | None) -> bool:
    """Whether the amount may be what one of the counted takes."""
    if m.of == "pack":
        return counted is not None
    if m.of == "bottle":
        return counted is not None and counted.of in (m.of, "")
    if m.of == "fragrance":
        return counted is not None and counted.of not in ("jar", "candle")
    return m.of not in ("dye", "water", "box", "lid", "scale")


def _whole(m: Measured) -> bool:
    """Whether the amount is said to be the total, not what goes into each."""
    said = m.of == "total" and any(word in m.name for word in ("total", "altogether", "batch", "everything", "whole"))
    return (said or m["together"]) and not m["each"]


def _set_apart(g: Givens, m: Measured) -> bool:
    """Whether the amount is of all of them, or stays in the pot."""
    return _whole(m) or all_take(g, m) or kept_back(g, m)


def all_take(g: Givens, m: Measured) -> bool:
    """ "12 moulds, together they take 1.8 kg"."""
    return any("together" in mark.tags for mark in g.scan.marks[max(0, m.at - 4) : m.at]) and not m["each"]


_SIZED = wordset("@ with x big small large of at medium tall short mini tiny little huge wide")


def counts_vessels(g: Givens, m: Measured) -> bool:
    value = m.amount.value
    if m.amount.unit or value != value.to_integral_value() or not 1 <= value <= MOST_COUNT:
        return False
    if by_vessel(g, m) or _one_in(g, m) or _wicks(g, m) or _shared_out(g, m):
        return False
    if m.of in ("jar", "candle", "pack", "bottle", "measure"):
        return True
    if _made_so_many(g, m) or _takers(g, m) or _noun_counted(g, m):
        return True
    after = g.scan.marks[m.at + 1] if m.at + 1 < len(g.scan.marks) else None
    before = g.scan.marks[m.at - 1] if m.at else None
    if (
        after is not None
        and after.measured is not None
        and after.measured.kind in ("mass", "volume")
        and after.gap == " "
    ):
        beyond = g.scan.marks[m.at + 2 : m.at + 10]
        if value > 1 and any(mark.noun in ("candle", "jar") for mark in beyond if mark.kind == "word"):
            return True
    shots = g.scan.marks[m.at + 1 : m.at + 4]
    if (
        value > 1
        and len(shots) == 3
        and shots[0].kind == "word"
        and shots[1].text == "of"
        and shots[2].kind == "amount"
    ):
        return True
    signs = ("x", "@", "*", "×")
    if m.of == "" and value > 1 and after is not None and after.noun in ("jar", "candle") and after.gap == " ":
        return True  # "two candles 3 oz each": the noun went to the weight
    second = g.scan.marks[m.at + 2] if m.at + 2 < len(g.scan.marks) else None
    if m.of == "pot" and value > 1 and second is not None and second.text in ("@", "at", "x", "of", "with"):
        return True
    if (after is not None and after.text in signs) or (before is not None and before.text in signs):
        return True
    nearby = g.scan.marks[m.at + 1 : m.at + 4]
    return value > 1 and any(mark.text in _SIZED for mark in nearby) and m.of in ("", "wax")


# Who or what gets a candle or a fill each, besides what is poured into.
TAKERS = wordset(
    "kids kid children child people person persons guests friends students pupils learners ladies women men girls boys",
    "participants attendees members adults teens customers visitors workers colleagues neighbours neighbors teachers",
    "families tables",
)
_PIECES = wordset("pieces pcs")
_NO_TAKERS = wordset(
    "days weeks months years hours minutes seconds times grams ounces pounds kilos percents drops degrees steps",
    "dollars euros quid bucks pence cents wicks lids boxes bags sacks slabs bottles pots pans oils scents waxes",
    "batches sets",
)


def _takers(g: Givens, m: Measured) -> bool:
    """ "24 children", "30 shells with 22 g in each": anything that gets so much each."""
    after = g.scan.marks[m.at + 1] if m.at + 1 < len(g.scan.marks) else None
    if after is None or after.kind != "word" or m.amount.value < 2 or m.of not in ("", "fragrance", "wax"):
        return False
    if after.text in _PIECES:
        return True
    if after.text in TAKERS:
        return gives_each(g) or says_each(g)
    unknown = not after.tags and len(after.text) > 3 and plural(after.text) and after.text not in _NO_TAKERS
    return unknown and gives_each(g)


def _noun_counted(g: Givens, m: Measured) -> bool:
    """ "50 wax melts", "1 dozen mint melts": the candle stands a word or two further on."""
    if m.amount.value < 2 or m.of not in ("", "fragrance", "wax", "candle", "jar"):
        return False
    for mark in g.scan.marks[m.at + 1 : m.at + 4]:
        if mark.kind != "word" or mark.text in JOINING_PARTS or mark.tags & {"of_wax", "of_total"}:
            return False
        if mark.noun in ("candle", "jar"):
            return plural(mark.text)
    return False


JOINING_PARTS = wordset("of in for with at and to into per x by from on is are g")
_OILS = wordset("scent scents fragrance oil oils fo eo perfume perfum essence")
_SPOONS = wordset(
    "glass glasses spoon spoons spoonful spoonfuls cap caps capful capfuls thimble thimbles mug mugs pipette"
)


def _one_in(g: Givens, m: Measured) -> bool:
    """ "1 in 10 of my candles": how many of them, not how many there are to pour."""
    before = g.scan.marks[max(0, m.at - 2) : m.at]
    return len(before) == 2 and before[1].text == "in" and before[0].kind == "amount" and before[0].text in ("1", "one")


def _shared_out(g: Givens, m: Measured) -> bool:
    """ "Then we share it out between 5 of us": so many get a part of it."""
    after = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 2) : m.at]]
    return after == ["of", "us"] and g.has("split") and any(text in ("between", "among", "by") for text in before)


def _wicks(g: Givens, m: Measured) -> bool:
    """ "A 3 wick bowl": so many wicks in one, not bowls."""
    after = g.scan.marks[m.at + 1 : m.at + 3]
    return any(mark.noun == "wick" for mark in after[:2]) and (after[0].noun == "wick" or after[0].text == "-")


def by_vessel(g: Givens, m: Measured) -> bool:
    """ "Three shot glasses of scent": so much room of oil, no weight and no vessels to pour."""
    words = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 6]]
    if "of" not in words or m.kind != "number":
        return False
    of = words.index("of")
    return any(word in _SPOONS for word in words[:of]) and any(word in _OILS for word in words[of + 1 : of + 3])


_NOT_EACH = wordset("from altogether total using")


_MAKING = wordset("make making makes pour pouring need want do")
_THERE_ARE = wordset("theres there's are is order have got for of x by total them")


def _made_so_many(g: Givens, m: Measured) -> bool:
    """ "I make 4", "I want 15 of them"."""
    marks = g.scan.marks
    before = marks[m.at - 1] if m.at else None
    after = marks[m.at + 1] if m.at + 1 < len(marks) else None
    ends = after is None or after.kind in ("stop", "sign") or after.text in ("of", "pieces", "pcs")
    if before is None or not ends or m.of != "" or m.amount.value <= 1:
        return False
    dozens = "dozen" in m.amount.text or _of_those(marks, m)
    return before.text in _MAKING or (dozens and (before.text in _THERE_ARE or before.kind in ("sign", "stop")))


def _of_those(marks: list[Mark], m: Measured) -> bool:
    """ "45 of them"."""
    after = [mark.text for mark in marks[m.at + 1 : m.at + 3]]
    return after in (["of", "them"], ["of", "those"], ["of", "these"])


def _linked(g: Givens, count: Measured, m: Measured) -> bool:
    """Whether the amount is what each of the counted takes."""
    between = g.scan.marks[count.at + 1 : m.at]
    if len(between) > _LINK + 4 or any(mark.kind == "amount" or mark.text in _NOT_EACH for mark in between):
        return False
    stops = [mark for mark in between if mark.kind == "stop" or mark.text == "."]
    if stops:
        return says_each(g) and (m["each"] or m.of in ("wax", "total", ""))
    if any(mark.text in ("and", "but") for mark in between):
        return says_each(g)
    return len(between) <= _LINK or says_each(g)


def _times(g: Givens, m: Measured, count: Measured) -> bool:
    between = g.scan.marks[min(m.at, count.at) + 1 : max(m.at, count.at)]
    return any(mark.text in ("x", "@", "×", "*") for mark in between)
