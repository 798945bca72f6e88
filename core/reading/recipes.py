"""A recipe at another size: what it makes and what is wanted, so many times of it, or so much in all."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.answer import Answer
from core.compounds import Basis, Load, Masses, Parts
from core.mixing import Recipe
from core.question import Question
from core.questions.blend import BlendQuestion
from core.questions.load import LoadQuestion
from core.reading.ask_mix import doubtful_ounces
from core.reading.givens import Givens
from core.reading.marks import Mark, Measured
from core.reading.measuring import mass_of
from core.reading.wordset import wordset
from core.units import Mass

Outcome = Question | Answer | None

_TIMES = {
    **dict.fromkeys(("double", "doubled", "twice"), Decimal(2)),
    **dict.fromkeys(("triple", "tripled", "thrice", "treble"), Decimal(3)),
    **dict.fromkeys(("quadruple", "quadrupled"), Decimal(4)),
    **dict.fromkeys(("halve", "halved"), Decimal("0.5")),
}
_OF_ONE = wordset("one a each per single every")
_MAKES = wordset("makes make made does fills yields gives pours for")
_KINDS = ("wax", "fragrance", "dye", "additive")


def resized(g: Givens) -> Outcome:
    """ "Makes 6 candles: 900 g wax + 72 g oil, I want 4": every part times what is wanted, divided by what it makes."""
    parts = [m for m in g.scan.masses(*_KINDS) if m.amount.high is None]
    portion = _portion_of_it(g, parts)
    parts = [m for m in parts if m is not portion and not (portion is not None and _aim(m, parts))]
    known = len(parts) + (portion is not None)
    if g.shares.loads or len(parts) < 2 or g.asks_percent:
        return None
    if portion is None and known != len(g.scan.masses()):
        return None
    if len({m.of for m in parts}) < 2 or doubtful_ounces(g) is not None:
        return None
    factor = _factor(g) if portion is None else mass_of(portion).base / sum(mass_of(m).base for m in parts)
    if factor is None and (again := _other_wax(parts)) is not None:
        parts, factor = parts[:-1], again
    at_hand = _at_hand(g, parts) if factor is None else None
    if at_hand is not None:
        whole = next(m for m in parts if m.of == at_hand.of)
        factor = mass_of(at_hand).base / mass_of(whole).base
        parts = [m for m in parts if m is not at_hand]
    if factor is None:
        return None
    masses = [mass_of(m) for m in parts]
    total = masses[0]
    for mass in masses[1:]:
        total = total + mass
    g.used.update(m.at for m in g.scan.found)
    kinds = [m.of for m in parts]
    if sorted(kinds) == ["fragrance", "wax"]:
        wax, oil = parts[kinds.index("wax")], parts[kinds.index("fragrance")]
        if mass_of(oil).base * 4 >= mass_of(wax).base:
            return None
        rate = Load.rate(mass_of(oil), mass_of(wax), f"{oil.amount.text} to {wax.amount.text}")
        return LoadQuestion(total=_exact(total * factor), load=rate, unit=g.wanted_mass())
    shares = Parts(tuple((m.name, mass_of(m).base) for m in parts))
    return BlendQuestion(parts=shares, total=_exact(total * factor))


_SIZING = wordset(
    "recipe shrink scale adjust resize reduce downsize smaller bigger enlarge upscale downscale same proportion fit"
)
_HAVING = wordset("have got only left just")


def _at_hand(g: Givens, parts: list[Measured]) -> Measured | None:
    """ "900 g wax, 72 g oil, 0.9 g dye; I only have 600 g wax, shrink it": so much of the first part is there."""
    last, before = parts[-1], parts[:-1]
    same = [m for m in before if m.of == last.of]
    if len(same) != 1 or len({m.of for m in before}) != len(before) or not g.scan.says(_SIZING):
        return None
    ahead = g.scan.marks[before[-1].at + 1 : last.at]
    return last if any(mark.text in _HAVING for mark in ahead) and mass_of(same[0]) and mass_of(last) else None


_TAKEN = wordset("take took taken use using used weigh weighed scoop pour poured put add added")


def _portion_of_it(g: Givens, parts: list[Measured]) -> Measured | None:
    """ "2 g dye in 98 g wax, I take 10 g of that": so much of what the parts make together."""
    found = g.scan.masses()
    if len(found) < 3 or found[-1].of not in ("", "total", *(m.of for m in parts[:1])):
        return None
    last = found[-1]
    texts = [mark.text for mark in g.scan.marks[last.at + 1 : last.at + 4]]
    of_it = texts[:2] in (["of", "that"], ["of", "it"], ["of", "this"]) or texts[:3] in (
        ["of", "the", "mix"],
        ["of", "the", "mixture"],
        ["of", "this", "mix"],
        ["of", "that", "mix"],
    )
    ahead = {mark.text for mark in g.scan.marks[max(0, last.at - 4) : last.at]}
    others = [m for m in found[:-1] if m in parts and not _aim(m, parts)]
    whole = sum(mass_of(m).base for m in others)
    all_there = len(others) == len([m for m in found[:-1] if not _aim(m, parts)])
    return last if of_it and ahead & _TAKEN and all_there and 0 < mass_of(last).base < whole else None


def _aim(m: Measured, parts: list[Measured]) -> bool:
    """ "I need 0.2 g of dye": what is wanted of a part that is told with its own weight later."""
    return m["want"] and any(x is not m and x.of == m.of and x.at > m.at for x in parts)


def resized_load(g: Givens) -> Outcome:
    """ "A tray makes 6 hearts and took 96 g of wax, I want 20 at 8 %": the wax of so many, and the oil for it."""
    masses, load = g.scan.masses(), g.shares.load
    if load is None or len(masses) != 1 or masses[0].of not in ("wax", "") or masses[0]["each"]:
        return None
    counts = [m for m in g.scan.kind("number") if m.amount.value > 1]
    if len(counts) != 2 or not _is_made(g, counts[0]) or not counts[1]["want"]:
        return None
    if not counts[0]["makes"] and not _all_take(g, counts[0], masses[0]):
        return None
    if any(m.amount.unit or m.amount.value != m.amount.value.to_integral_value() for m in counts):
        return None
    factor = counts[1].amount.value / counts[0].amount.value
    g.used.update(m.at for m in g.scan.found)
    return LoadQuestion(wax=Masses.one(_exact(mass_of(masses[0]) * factor)), load=load, unit=g.wanted_mass())


def _other_wax(parts: list[Measured]) -> Decimal | None:
    """ "1 kg wax, 80 g oil, 2 g dye; I have 640 g of wax": so many times the recipe."""
    kinds = [m.of for m in parts]
    recipe = len(kinds) > 3 and kinds.count("wax") == 2 and kinds[-1] == "wax" and kinds.count("fragrance") == 1
    if not recipe or len(set(kinds[:-1])) != len(kinds) - 1:
        return None
    first = next(m for m in parts if m.of == "wax")
    return mass_of(parts[-1]).base / mass_of(first).base if mass_of(first) else None


_TOOK = wordset("take takes took need needed use used use get got swallowed ate")


def _all_take(g: Givens, count: Measured, m: Measured) -> bool:
    """ "10 jars took 2 kg of wax": of all of them, for nobody pours a kilogram into one."""
    between = [mark.text for mark in g.scan.marks[count.at + 1 : m.at]]
    told = count.at < m.at and any(word in _TOOK for word in between)
    return told and mass_of(m).base >= 1000 and mass_of(m).base >= 20 * count.amount.value


def _exact(mass: Mass) -> Mass:
    return Mass(mass.base.normalize(), mass.unit)


def _factor(g: Givens) -> Decimal | None:
    """How many times the recipe is wanted; None where the text does not say it for sure."""
    times = {_TIMES[mark.text] for mark in g.scan.marks if mark.kind == "word" and mark.text in _TIMES}
    times |= {Decimal("0.5") for one, two in itertools.pairwise(g.scan.marks) if one.text == "half" and _recipe(two)}
    counts = [m for m in g.scan.kind("number") if m.amount.value > 0 and not m.amount.unit and m.amount.high is None]
    whole = [m for m in counts if m.amount.value == m.amount.value.to_integral_value()]
    if len(times) == 1 and not [m for m in counts if m.amount.value != 1]:
        return times.pop()
    parts = [m for m in counts if m not in whole]
    if not times and len(parts) == 1 and not [m for m in whole if m.amount.value != 1] and _of_recipe(g, parts[0]):
        return parts[0].amount.value
    if times or parts:
        return None
    many = [m for m in whole if m.amount.value > 1]
    if len(many) == 2:
        made = [m for m in many if _is_made(g, m)]
        made = made[:1] if len(made) == 2 and many[0].at < min(x.at for x in g.scan.masses()) < many[1].at else made
        wanted = [m for m in many if m not in made]
        return wanted[0].amount.value / made[0].amount.value if len(made) == 1 else None
    if len(many) == 1 and (_of_one(g, many[0]) or _times_batch(g, many[0])):
        return many[0].amount.value
    if len(many) == 1 and _is_made(g, many[0]) and _wants_one(g, many[0]):
        return 1 / many[0].amount.value
    return None


def _recipe(mark: Mark) -> bool:
    return mark.text in ("batch", "recipe", "recipes", "quantity", "quantities", "amounts")


def _of_recipe(g: Givens, m: Measured) -> bool:
    """ "Three quarters of this recipe", "1/2 batch", "x 1.5 of"."""
    marks = g.scan.marks
    before = marks[m.at - 1].text if m.at else ""
    after = [mark for mark in marks[m.at + 1 : m.at + 5] if mark.text not in ("of", "the", "this", "my", "that", "a")]
    return before in ("x", "×", "*", "times", "by") or (bool(after) and _recipe(after[0]))


def _is_made(g: Givens, m: Measured) -> bool:
    """ "Makes 6", "for 6 candles": what the recipe as written gives; the first of the two, not what is wanted."""
    before = [mark.text for mark in g.scan.marks[max(0, m.at - 2) : m.at]]
    if m["want"] or any(word in _WANTED for word in before):
        return False
    later = [x for x in g.scan.kind("number") if x.at < m.at and x.amount.value > 1]
    return m["makes"] or any(word in _MAKES for word in before) or not later


_WANTED = wordset("want need only wanna order now instead")


def _of_one(g: Givens, m: Measured) -> bool:
    """ "One tester took 162 g wax and 13 g oil, the order is 45 of them"."""
    first = min(x.at for x in g.scan.masses())
    marks = g.scan.marks
    single = any(
        x.amount.value == 1 and x.of in ("candle", "jar", "total") and x.at < first for x in g.scan.kind("number")
    )
    one = single or any(
        marks[i].text in _OF_ONE and marks[i + 1].kind == "word" and marks[i + 1].text != "of" for i in range(first)
    )
    return one and m.at > first


def _times_batch(g: Givens, m: Measured) -> bool:
    """ "3 batches of it", "times 4", "x 5"."""
    marks = g.scan.marks
    before = marks[m.at - 1].text if m.at else ""
    after = [mark.text for mark in marks[m.at + 1 : m.at + 2]]
    said = before in ("times", "x", "×", "*", "by") or after in (["times"], ["x"], ["fold"])
    return said or (after in (["batches"], ["lots"], ["rounds"]) and not m["makes"])


def _wants_one(g: Givens, m: Measured) -> bool:
    """ "... and I want just one"."""
    return any(
        x.amount.value == 1 and x.at > m.at and g.scan.marks[x.at - 1].text in ("just", "only", "for", "want", "make")
        for x in g.scan.kind("number")
    )


_LOST = wordset("knocked spilled spilt lost dropped tipped poured sold gave used took spill")
_REST = wordset("rest left remaining remains remainder still")


def rest_of_mix(g: Givens) -> Outcome:
    """ "600 g wax with 8 % in it, the cat knocked over 150 g of the mix: what is in the rest?"; and what went into each
    of the jars when so much of the mix is left over."""
    if (rest := _rest_of_total(g)) is not None:
        return rest
    waxes, mixes, load = g.scan.masses("wax"), g.scan.masses("total"), g.shares.load
    if load is None or len(waxes) != 1 or len(mixes) != 1 or len(g.scan.masses()) != 2 or mixes[0]["together"]:
        return None
    less = mass_of(mixes[0])
    made = Recipe(load.percent, load.basis or Basis.WAX).of_wax(mass_of(waxes[0]))
    if less.base >= mass_of(waxes[0]).base:
        return None
    counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle") and m.amount.value > 1]
    over = mixes[0]["left"] or g.has("left_over")
    if over and len(counts) == 1 and g.has("each"):
        g.used.update(m.at for m in g.scan.found)
        each = (made.total - less) * (1 / counts[0].amount.value)
        return LoadQuestion(total=each, load=load, unit=g.wanted_mass())
    if counts or not (g.scan.says(_LOST) and g.scan.says(_REST)):
        return None
    g.used.update(m.at for m in g.scan.found)
    return LoadQuestion(total=made.total - less, load=load, unit=g.wanted_mass())


def _rest_of_total(g: Givens) -> Outcome:
    """ "1.2 kg of scented wax at 8 % of the total, sold 300 g: how much oil is in the rest?" """
    masses, load = g.scan.masses(), g.shares.load
    if load is None or load.basis is None or len(masses) != 2 or masses[0].of != "total":
        return None
    whole, less = mass_of(masses[0]), mass_of(masses[1])
    lost = any(mark.text in _LOST for mark in g.scan.marks[masses[0].at + 1 : masses[1].at])
    if masses[1].of not in ("", "total") or not lost or not g.scan.says(_REST) or less.base >= whole.base:
        return None
    g.used.update(m.at for m in g.scan.found)
    return LoadQuestion(total=whole - less, load=load, unit=g.wanted_mass())
