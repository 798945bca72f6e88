"""Figures stand in a text, yet understanding is asked: what a percent is of, what went wrong, whether wax is lost."""

from __future__ import annotations

import itertools
from decimal import Decimal

from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.sampled import sample_told
from core.reading.wordset import wordset
from core.units import Mass

_WHOLE = wordset("total whole everything all mix mixture finished candle product both together")
_MELTS = wordset("melt melts melted melting molten liquid cool cools cooled cooling cold set sets solid hard shrink")
_STAYS = wordset(
    "still lighter heavier more less lose loses lost same change changes shrinks shrink gain gains weigh weighs weight"
)
_ASKS_WHETHER = wordset("do does did is will would have has")
_LOOKED_FOR = wordset("what which")
_MEASURING = wordset("measure measures measured measuring cup cups spoon spoons jug")
_FINE = wordset("ok okay fine right wrong good bad allowed enough alright")
_SCENTS = wordset("smell smells smelling throw strong weak")
_WEIGHING_UP = wordset("who whose or which difference mean means friend more less")
_COUNTED = wordset("count counts counted include included")
# A number such as 1.08 in "why divide by 1.08": a whole with its oil, for one of wax.
MOST_WHOLE = Decimal("1.3")


def doubt(g: Givens, weighed: list[Measured]) -> str:
    """The key of the lesson that a text with or without figures asks for, or ""."""
    words = g.scan.words
    kinds = {m.kind for m in weighed}
    if kinds <= {"percent"} and _asks_of_what(g, kinds):
        return "bases"
    if kinds <= {"number", "ratio", "percent"} and _asks_why_so_worked(g):
        return "bases"
    if kinds <= {"mass", "volume"} and not _asks_amount(g) and _asks_whether_it_stays(g):
        return "why_weight"
    if kinds and kinds <= {"mass", "volume", "rate"} and _takes_ml_for_grams(g):
        return "density"
    if kinds <= {"percent"} and words & _DISAGREE and len({m.value for m in weighed}) < 2 and _how_so(g):
        return "bases"
    if kinds == {"mass"} and _too_much_for_its_ounces(g):
        return "jar_ounces"
    if _asks_what_kind_of_unit(g, weighed):
        return "ounces"
    if not kinds and words & _COUNTED and words & wordset("oil fragrance scent fo") and words & _WHOLE:
        return "bases"
    if _one_measure(weighed) and words & _MEASURING and words & _FINE and words & wordset("measure measures measuring"):
        return "why_weight"
    if len(weighed) > 1 and all(m.amount.unit == "oz" and m.amount.text[:1] in "ao" for m in weighed):
        return "ounces"  # "is an ounce always an ounce"
    small = kinds == {"mass"} and all(isinstance(m.value, Mass) and m.value.base <= 1 for m in weighed)
    if small and "scale" in words and words & wordset("buy choose") and "or" in words and words & _LOOKED_FOR:
        return "scales"
    return ""


_DISAGREE = wordset("different differ differs disagree disagrees")
_ALIKE = wordset("same equal equals")
_DOUBTED = wordset("simply always just not isn't isnt lie lied lying cheat cheated")
_OVER = wordset(
    "over overflow overflowed overflows overflowing spilled spilt ran rim doesnt doesn't didnt didn't wont won't"
)


def _takes_ml_for_grams(g: Givens) -> bool:
    """ "Is 100 ml of oil not simply 100 g", "is a gram the same as a ml": the figures are alike, the units not."""
    figures = any(m.amount.text[:1].isdigit() for m in (*g.scan.volumes(), *g.scan.masses()))
    if (
        not g.scan.words & (_DOUBTED if figures else _DOUBTED | _ALIKE)
        or g.shares.loads
        or g.density() is not None
        or g.has("asks", "density", "load", "percent_word")
    ):
        return False
    rooms = {m.amount.value for m in g.scan.volumes() if m.amount.unit == "ml"}
    weights = {m.amount.value for m in g.scan.masses() if m.amount.unit == "g"}
    units = set(g.wanted())
    rooms |= {Decimal(1)} if "ml" in units else set()
    weights |= {Decimal(1)} if "g" in units else set()
    return len(rooms) == 1 and rooms == weights and not g.scan.kind("number")


def _how_so(g: Givens) -> bool:
    """ "How can that be", "who is right", "why": not "how many"."""
    return bool(g.scan.words & wordset("why who both")) or {"how", "can"} <= g.scan.words


def _too_much_for_its_ounces(g: Givens) -> bool:
    """ "A 9 oz tumbler, nine oz of wax came over the rim": as many ounces by weight as the jar holds by room."""
    ounces = [m for m in g.scan.masses() if m.amount.unit == "oz"]
    jars = [m for m in ounces if m.of in ("jar", "candle")]
    alike = len(ounces) == 2 and len(jars) == 1 and ounces[0].amount.value == ounces[1].amount.value
    return alike and bool(g.scan.words & _OVER) and not g.shares.loads and not g.has("asks")


def _asks_what_kind_of_unit(g: Givens, weighed: list[Measured]) -> bool:
    """ "Is a fluid ounce a weight": what such a unit measures."""
    units = {m.amount.unit for m in weighed} | set(g.wanted())
    named = len(weighed) + len(g.wanted()) == 1 and units <= {"fl_oz", "us_fl_oz", "imp_fl_oz", "oz"}
    small = all(m.amount.text[:1] in "ao" for m in weighed)
    words = g.scan.words
    plainly = len(g.scan.marks) == 3 + (g.scan.marks[-1].text == "?") and g.scan.marks[1].text == "is"
    whats = len(g.scan.marks) == 2 + (g.scan.marks[-1].text == "?") and words <= {"what's", "whats"}
    if named and small and ((plainly and "what" in words) or whats):
        return True  # "what is a fluid ounce", and no more
    return named and small and bool(words & {"weight", "volume"}) and "a" in words and not g.has("asks")


def cause_asked(g: Givens) -> bool:
    """ "Why", "how come", "what went wrong", "which one is lying": the reason is asked, not a figure."""
    words = g.scan.words
    if "why" in words or {"how", "come"} <= words or {"how", "only"} <= words:
        return True
    return ({"went", "wrong"} <= words or "lying" in words or "lies" in words) and bool(words & _LOOKED_FOR)


def _asks_amount(g: Givens) -> bool:
    """Whether a figure is asked for: "how much", a unit wanted, a load."""
    return g.has("asks") or bool(g.wanted()) or bool(g.shares.loads)


def _asks_of_what(g: Givens, kinds: set[str]) -> bool:
    """ "8 % but of what?", "is it of the wax or of everything", "you 10 % of wax, I 10 % of the total"."""
    texts = [mark.text for mark in g.scan.marks]
    of_what = any(one == "of" and two in ("what", "which") for one, two in itertools.pairwise(texts))
    spoken = bool(kinds) or g.has("percent_word", "load")
    if of_what and spoken and texts[-1] not in ("wax", "oil"):
        return True
    figures = {m.amount.value for m in g.scan.kind("percent")}
    weighs_up = not kinds or (len(figures) == 1 and bool(g.scan.words & _WEIGHING_UP))
    figure_asked = g.has("asks", "convert") or (bool(kinds) and g.asks_percent) or not weighs_up
    if g.has("of_total") and g.has("of_wax") and not figure_asked and (spoken or "mean" in g.scan.words):
        return True
    words = g.scan.words
    if g.has("of_total") and not kinds and words & wordset("mean means meaning"):
        return True
    either = g.has("of_wax") or "wax" in words
    return spoken and either and "or" in words and bool(words & _WHOLE) and not g.has("asks")


def _asks_why_so_worked(g: Givens) -> bool:
    """ "Why divide by 1.08 and not take off 8 %"."""
    words = g.scan.words
    if not words & wordset("why explain") or g.scan.masses() or g.scan.volumes():
        return False
    if g.scan.kind("percent") and g.scan.kind("number"):
        return not words & _SCENTS  # "why does 10 % make 9.09"
    sums = words & wordset("divide divided dividing multiply times subtract formula")
    numbers = [m.amount.value for m in g.scan.kind("number")]
    return bool(sums) or any(1 < number < MOST_WHOLE for number in numbers)


def _asks_whether_it_stays(g: Givens) -> bool:
    """ "If I melt 500 g do I still have 500 g", "does wax get lighter when it melts"."""
    words = g.scan.words
    heard = words & _MELTS or g.has("molten", "warm")
    equal = len({m.value for m in g.scan.masses()}) == 1 and len(g.scan.masses()) > 1
    if not (heard and words & _STAYS and _asks_whether(g) and (g.has("wax", "fragrance") or equal)):
        return False
    return not g.scan.volumes() or (bool(g.scan.masses()) and sample_told(g) is None)


_LEADS = wordset("if and so but or what why how then now because when melted melts cold cools cooled hard set wax")
_ASKED_ABOUT = wordset("i it the wax we you my that this they a an one soy paraffin still there")


def _asks_whether(g: Givens) -> bool:
    """ "Do I still have", "does 500 g", "is the wax": not "I have"."""
    before = None
    for one, two in itertools.pairwise(g.scan.marks):
        opens = before is None or before.kind != "word" or before.text in _LEADS
        if opens and one.text in _ASKS_WHETHER and (two.text in _ASKED_ABOUT or two.kind == "amount"):
            return True
        before = one
    return False


def _one_measure(weighed: list[Measured]) -> bool:
    """No amount, or only "a cup": a measure is spoken of."""
    return all(m.kind == "volume" and m.amount.text.startswith("a ") for m in weighed)
