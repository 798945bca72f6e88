"""Talk that is no measuring question: thanks, "what can you do", and a lesson, an example or an exercise wished for."""

from __future__ import annotations

from enum import StrEnum
from typing import TypeVar

from core.answer import Answer
from core.exercises.kinds import Family
from core.lessons.topics import Topic
from core.question import Question
from core.questions.example import ExampleQuestion
from core.questions.lesson import LessonQuestion
from core.questions.practice import PracticeQuestion
from core.reading import asking
from core.reading.givens import Givens
from core.reading.wordset import wordset

Kind = TypeVar("Kind", bound=StrEnum)

MOST_WORDS = 10
_THANKS = wordset("thanks thank thankyou thx ty cheers ta merci danke gracias")
_WITH_THANKS = wordset(
    "you so much very a lot for the help that was great mate all bot perfect super nice awesome ok okay"
)
_LESSONS = wordset("lesson lessons teach tutorial learn")
_EXAMPLES = wordset("example examples")
_EXERCISES = wordset("exercise exercises practice practise quiz drill task")
_WISHING = wordset(
    "give me show write make set want a an another some worked about on for in of the please with i us my"
)
_HELP = wordset("help commands menu options")
# Words by which a lesson or a kind of exercise is called beside those of its own name.
_CALLED: dict[StrEnum, str] = {
    Topic.WHY_WEIGHT: "weighing weigh measuring",
    Topic.BASES: "percent percents load loads bases total",
    Topic.OUNCES: "ounce ounces oz",
    Topic.DENSITY: "density",
    Topic.READING_MEASURES: "cylinder beaker spoon spoons",
    Topic.FLAKES: "flakes pellets cup cups",
    Topic.SCALES: "scale scales",
    Topic.TARE: "tare",
    Topic.JAR_OUNCES: "jar jars",
    Topic.NET_WEIGHT: "net label labels",
    Topic.FIRE: "fire safety hot",
    Family.LOAD: "load loads fragrance percent",
    Family.SPLIT: "split total",
    Family.LOAD_FROM_WEIGHTS: "weights",
    Family.VOLUME: "volume volumes ml",
    Family.DENSITY: "density",
    Family.OUNCES: "ounce ounces oz",
    Family.BATCH: "batch batches",
    Family.NET_WEIGHT: "net label",
    Family.SCALE_STEP: "scale scales",
    Family.BLEND: "blend blends",
    Family.RESCUE: "rescue",
    Family.BUYING: "buy buying packs cost",
}
_NAMES = {kind: wordset(words) for kind, words in _CALLED.items()}


def wish(g: Givens) -> Question | Answer | None:
    """What such talk gets; None where it is none."""
    if any(m.kind != "number" for m in g.scan.found):
        return None
    words = [mark.text for mark in g.scan.marks if mark.kind in ("word", "unit")]
    heard = frozenset(words)
    if not words or len(words) > MOST_WORDS:
        return None
    if heard & _THANKS and heard <= _THANKS | _WITH_THANKS:
        return asking.thanked()
    if _asks_for_help(words, heard):
        return asking.abilities()
    topic, family = _named(Topic, heard), _named(Family, heard)
    if heard & _LESSONS and not g.has("asks"):
        return LessonQuestion(topic=topic)
    known = _WISHING | _EXAMPLES | _EXERCISES | {"me"} | (_NAMES[family] if family is not None else frozenset())
    if not heard <= known:
        return None
    if heard & _EXERCISES:
        return PracticeQuestion(family=family)
    return ExampleQuestion(family=family) if heard & _EXAMPLES else None


def _asks_for_help(words: list[str], heard: frozenset[str]) -> bool:
    if heard & _HELP and len(words) <= 3 and heard <= _HELP | {"me", "please", "i", "need", "the", "show"}:
        return True
    does = {"what", "can", "do"} <= heard or {"what", "do", "you"} <= heard
    return (does and heard & {"you", "this", "bot"} != frozenset() and len(words) <= 6) or (
        {"how", "use"} <= heard and bool(heard & {"you", "this", "bot"}) and len(words) <= 7
    )


def _named(kinds: type[Kind], heard: frozenset[str]) -> Kind | None:
    """The one topic or family that the words call; of several the first."""
    return next((kind for kind in kinds if heard & _NAMES[kind]), None)
