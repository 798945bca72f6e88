"""Questions that ask for understanding, and those that are none of ours, by what is heard in them."""

from __future__ import annotations

from dataclasses import dataclass

from core.answer import Answer, Lesson, line
from core.book import Book
from core.reading.givens import Givens
from core.reading.wordset import wordset


@dataclass(frozen=True, slots=True)
class Topic:
    """A lesson's key and the words it answers to: all of one of the groups must be heard (words or tags)."""

    lesson: str
    groups: tuple[frozenset[str], ...]


def _topic(lesson: str, *groups: str) -> Topic:
    return Topic(lesson, tuple(wordset(group) for group in groups))


# In this order: the first topic with a group all of whose words (or tags) are heard.
TOPICS = (
    _topic("fire", "flash", "flashpoint", "fire extinguisher", "fire safety"),
    _topic("tare", "tare", "zero scale", "count pot", "pot count", "empty scale why"),
    _topic("flakes", "why cup pellets", "why flakes measure", "flakes cups", "pellets look", "flakes line"),
    _topic("bases", "of_wax of_total", "percent wax total", "bases", "basis", "load wax total difference"),
    _topic("jar_ounces", "jar hold only", "jars hold only", "jar ounces why", "oz jar why", "why 8 jar"),
    _topic("ounces", "fl_oz oz", "fluid ounce same", "ounce volume", "ounces weight fluid", "oz fl difference"),
    _topic("net_weight", "net why", "net mean", "net label what"),
    _topic("scales", "scale resolution", "scale which buy", "scale accurate", "scale need what", "calibrate scale"),
    _topic("density", "density", "dense", "gravity"),
    _topic("reading_measures", "meniscus", "read cylinder", "read measuring", "eye level"),
    _topic(
        "why_weight",
        "why weigh",
        "why weight",
        "weigh measure",
        "weigh volume",
        "weight change",
        "weight changes",
        "weigh melt",
        "weighing melt",
    ),
    _topic("bases", "load what", "load", "load mean"),
)

_ASKING = wordset(
    "why what whats what's how explain mean means does do difference should shouldnt shouldn't is understand tell wot"
)
# What other people's questions are about: nothing to weigh in them.
OUTSIDE = wordset(
    "frosting frost sinkhole sinkholes tunnel tunneling tunnelling mushrooming soot wick wicks wicking cure "
    "curing cured joke",
    "poem story weather carpet stain python code supplier shop store brand recommend name names ideas idea logo",
    "instagram facebook description soap lye lotion tunnels cracks crack crackling bubbles sweating fading hello"
    " thanks",
)


def lesson_for(g: Givens) -> Answer | None:
    """The lesson, where the text asks to understand something rather than for a figure."""
    words = g.scan.words
    heard = words | g.scan.tags | {mark.unit for mark in g.scan.marks if mark.unit}
    heard |= {m.amount.unit for m in g.scan.found}
    weighed = [
        m for m in g.scan.found if m.kind in ("mass", "volume", "percent", "rate", "density", "drop", "ratio", "part")
    ]
    if weighed:
        if "why" not in words or g.shares.loads:
            return None
    elif words.isdisjoint(_ASKING):
        return None
    for topic in TOPICS:
        if any(group <= heard for group in topic.groups):
            return lesson(topic.lesson, g.book)
    return lesson("why_weight", g.book) if weighed and "why" in words else None


def outside(g: Givens) -> bool:
    """Whether the text is about something that is not weighed or measured here."""
    return not g.scan.words.isdisjoint(OUTSIDE)


def lesson(key: str, book: Book) -> Answer:
    """The lesson of that key."""
    return Lesson(intent="concept", headline=line(HEADLINES[key]), key=key, paragraphs=())


HEADLINES = {
    "why_weight": "Weigh it: the same volume weighs more or less with the material and the heat.",
    "bases": "A load is a percent of a weight: of the wax, or of wax and fragrance together. Say which.",
    "ounces": "An ounce is a weight; a fluid ounce is a volume.",
    "density": "Density is what one millilitre weighs.",
    "reading_measures": "Read a measure at eye level, at the bottom of the curve.",
    "flakes": "A cup of flakes or pellets holds a lot of air, so it is not a cup of wax.",
    "scales": "A scale can be off by half of its step each time you read it.",
    "tare": "Tare sets the scale to zero with the empty pot on it, so that the pot is not counted.",
    "jar_ounces": "A jar's ounces are fluid ounces: room, not weight.",
    "net_weight": "Net weight is what is in the jar: wax and fragrance, never the jar.",
    "fire": "A flash point is where the vapour of a liquid can catch fire from a flame.",
}
