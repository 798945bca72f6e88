"""Short lessons with worked numbers, behind the questions that ask why or what."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from types import MappingProxyType

from core.answer import Lesson
from core.book import Book
from core.lessons import loads, measuring, room, safety, weighing
from core.lessons.topics import TOPICS as TOPICS
from core.lessons.topics import Topic as Topic
from core.lessons.units import Units

_LESSONS: Mapping[str, Callable[[Book, Units], Lesson]] = MappingProxyType(
    {
        "why_weight": weighing.why_weight,
        "bases": loads.bases,
        "ounces": room.ounces,
        "density": measuring.density,
        "reading_measures": measuring.reading_measures,
        "flakes": room.flakes,
        "scales": weighing.scales,
        "tare": weighing.tare,
        "jar_ounces": room.jar_ounces,
        "net_weight": loads.net_weight,
        "fire": safety.fire,
    }
)


def lesson(key: str, book: Book, unit: str = "") -> Lesson:
    """The lesson of that key (see `TOPICS`), its examples in the units of `unit` or else of the asker's settings.

    KeyError for an unknown key.
    """
    units = Units.wanted(unit, book)
    return replace(_LESSONS[key](book, units), unit="oz" if units.ounces else "g")
