"""Questions that ask for understanding, and those that are none of ours, by what is heard in them."""

from __future__ import annotations

from dataclasses import dataclass, replace

import core.lessons as lessons
from core.answer import Answer, line
from core.reading.doubts import cause_asked, doubt
from core.reading.givens import Givens
from core.reading.wordset import wordset


@dataclass(frozen=True, slots=True)
class Topic:
    """A lesson's key and what it answers to: all words (or tags, or unit keys) of one group must be heard."""

    lesson: str
    groups: tuple[frozenset[str], ...]


def _topic(lesson: str, *groups: str) -> Topic:
    return Topic(lesson, tuple(wordset(group) for group in groups))


ONLY_WATER = line("No: 1 ml weighs 1 g of water only. What 1 ml of anything else weighs depends on its density.")

# In this order: the first topic with a group that is heard.
TOPICS = (
    _topic("fire", "flash", "flashpoint", "flashpoints", "extinguisher", "fire", "smoke point"),
    _topic(
        "tare",
        "tare",
        "taring",
        "zero scale",
        "button scale",
        "button by_weight",
        "zero pot",
        "count pot",
        "jar scale empty",
        "pot weight subtract",
    ),
    _topic(
        "flakes",
        "cup flakes",
        "cups flakes",
        "flakes measure",
        "flakes volume",
        "flakes space",
        "flakes fill",
        "cup pellets",
    ),
    _topic(
        "bases",
        "of_wax of_total",
        "percent_word wax total",
        "percent_word base total",
        "load total wax",
    ),
    _topic(
        "jar_ounces",
        "jar oz net",
        "candle oz wax only",
        "jar oz wax",
        "jar oz holds",
        "jar oz only",
        "jar oz full",
        "jar oz fit",
        "vessel oz less",
        "jar fl_oz wax",
    ),
    _topic(
        "ounces",
        "oz jug scale",
        "oz jug molten",
        "fl_oz oz",
        "fl_oz",
        "ounces weight",
        "oz volume",
        "oz weight compare",
        "oz liquid",
    ),
    _topic("net_weight", "net"),
    _topic("scales", "scale error", "scale step", "scale buy", "scale kind", "scale need", "scale calibrate", "scales"),
    _topic("density", "density", "dense", "gravity", "densities", "heavier", "lighter water", "float", "sink"),
    _topic("reading_measures", "meniscus", "cylinder", "beaker", "eye level", "spoon", "measuring"),
    _topic("why_weight", "weigh", "weight", "weighing", "grams", "g ml", "scale", "volume", "measure", "cups", "ml"),
    _topic("why_weight", "why cup", "why tsp", "why tbsp", "use cup", "use tsp", "use tbsp"),
    _topic("bases", "load", "percent_word", "ratio", "fragrance much percent", "why of_wax", "why of_total"),
)
_ASKING = wordset(
    "why what whats what's how explain mean means does do difference should shouldnt shouldn't is are understand tell",
    "wot which can could when understanding meaning same vs versus",
)
# A text that begins so asks about it, though no question word is there: "density of soy wax".
_NAMED_ALONE = wordset("density densities")
# What other people's questions are about: nothing to weigh in them.
OUTSIDE = wordset(
    "frosting frost sinkhole sinkholes tunnel tunneling tunnelling mushrooming soot wick wicks wicking cure curing",
    "cured joke poem story weather carpet stain python code supplier shop store brand recommend name names ideas idea",
    "logo title",
    "description soap lye lotion tunnels cracks crack crackling bubbles sweating hello thanks",
    "song film movie football recipe-book pets cat dog allergic allergy insurance tax taxes license licence website",
)
HELLO = wordset("hello hi hey morning afternoon evening")
GREETINGS = HELLO | wordset("there all everyone everybody bot good")
# How a candle came out, which no weighing explains.
_LOOKS = wordset(
    "hole holes sinkhole sinkholes sink frosting frost tunnel tunneling cracks crack bubbles sweating smell smells soot"
)
_WAYS = wordset("calculate calculating formula compute maths math equation method")
_WEIGHED = wordset("mass volume percent rate density drop ratio part")


def lesson_for(g: Givens) -> Answer | None:
    """The lesson, where the text asks to understand something rather than for a figure."""
    words = g.scan.words
    weighed = [m for m in g.scan.found if m.kind in _WEIGHED]
    alike = len({m.amount.value for m in weighed}) == 1
    if alike and g.has("compare") and {"oz", "fl_oz"} <= _heard(g) and {m.kind for m in weighed} <= {"mass", "volume"}:
        return lessons.lesson("ounces", g.book)
    if weighed and {m.kind for m in weighed} <= {"percent"} and not words.isdisjoint(("mean", "means", "meaning")):
        return lessons.lesson("bases", g.book)
    about_weights = any(m.kind == "mass" for m in weighed)
    if (about_weights or not outside(g)) and (key := doubt(g, weighed)):
        lesson = lessons.lesson(key, g.book)
        return replace(lesson, headline=ONLY_WATER) if key == "density" else lesson
    if weighed:
        if "why" in words and g.has("of_total") and {m.kind for m in weighed} <= {"percent"}:
            return lessons.lesson("bases", g.book)
        how_wrong = g.has("error", "step") and ("only" in words or g.asks_percent)
        if not cause_asked(g) or g.shares.loads or how_wrong or words & _LOOKS:
            return None
    elif (
        _same_by_weight(g)
        or any(m.kind in ("length", "money", "temperature") for m in g.scan.found)
        or (words.isdisjoint(_ASKING) and g.scan.marks[0].text not in _NAMED_ALONE)
        or outside(g)
        or (_mix_told(g) and not cause_asked(g))
        or ((_asks_figure(g) or _asks_own(g)) and not _asks_way(words))
    ):
        return None
    heard = _heard(g)
    for topic in TOPICS:
        if any(group <= heard for group in topic.groups):
            return lessons.lesson(topic.lesson, g.book)
    return None


def _heard(g: Givens) -> frozenset[str]:
    """The words, their tags and the units of the text."""
    units = {mark.unit for mark in g.scan.marks if mark.unit}
    return g.scan.words | g.scan.tags | units | {m.amount.unit for m in g.scan.found}


def _same_by_weight(g: Givens) -> bool:
    """ "A cup of flakes or a cup pressed full, the same weight?": only their densities could tell."""
    said = g.scan.words & {"same", "more", "equal"} and g.scan.words & {"weight", "weigh", "weighs", "grams", "heavy"}
    return bool(said) and "or" in g.scan.words and len(g.wanted()) > 1


def _mix_told(g: Givens) -> bool:
    """ "15 wax for 1 oil": figures that a percent can be worked out from."""
    return len([m for m in g.scan.kind("number") if m.of in ("wax", "fragrance", "load")]) > 1


def _asks_way(words: frozenset[str]) -> bool:
    """ "How do I work out how much oil to use": the way is asked for, not a figure."""
    how = not words.isdisjoint(("how", "what's", "whats", "what", "explain"))
    return how and (not words.isdisjoint(_WAYS) or {"work", "out"} <= words or {"figure", "out"} <= words)


def _asks_own(g: Givens) -> bool:
    """ "What percent am I at", "what net weight do I put on it": the asker's own figure is asked for."""
    marks = g.scan.marks
    for i, mark in enumerate(marks[:-2]):
        if mark.tags & {"what"} or mark.text in ("what", "which"):
            run = [each.text for each in marks[i + 1 : i + 7]]
            for one, two, three in zip(run, run[1:], (*run[2:], ""), strict=False):
                if two == "i" and (one == "am" or (one in ("do", "should", "must") and three in _WRITTEN)):
                    return bool({"percent_word", "net"} & g.scan.tags) or "percent" in g.wanted() or "%" in g.scan.words
    return False


_WRITTEN = wordset("put print write type state declare")


def _asks_figure(g: Givens) -> bool:
    """ "How much oil", "how many grams": a figure is asked for, though what it takes was not given."""
    return g.has("asks") and bool(
        g.asked() & {"fragrance", "wax", "jar", "pack", "candle", "total", "dye"} or g.wanted()
    )


def greets(g: Givens) -> bool:
    """Whether somebody only says hello."""
    return g.scan.words <= GREETINGS and not g.scan.words.isdisjoint(HELLO)


_WICKS = wordset("wick wicks")


def outside(g: Givens) -> bool:
    """Whether the text is about something that is not weighed or measured here."""
    heard = g.scan.words & OUTSIDE
    return bool(heard - _WICKS if g.has("net", "label", "scale") else heard)
