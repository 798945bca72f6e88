"""The lessons there are: a key for machines, a title for people."""

from __future__ import annotations

from collections.abc import Mapping
from enum import StrEnum
from types import MappingProxyType


class Topic(StrEnum):
    """What a lesson is about. The value is its title, as a person sees it; `key` is what answers refer to it by."""

    WHY_WEIGHT = "Why weigh, not measure"
    BASES = "Percent of the wax or of the total"
    OUNCES = "Ounces and fluid ounces"
    DENSITY = "Density, and measuring it at home"
    READING_MEASURES = "Reading a cylinder, a beaker, a spoon"
    FLAKES = "Flakes and pellets by the cup"
    SCALES = "Choosing and checking a scale"
    TARE = "Tare, and weighing one thing onto another"
    JAR_OUNCES = "What the ounces of a jar mean"
    NET_WEIGHT = "Net weight on a label"
    FIRE = "Hot wax and fire"

    @property
    def short(self) -> str:
        """What it is about in a few words, for a button on a phone."""
        return SHORT.get(self.key, self.value)

    @property
    def key(self) -> str:
        """`why_weight`, `bases`, ..."""
        return self.name.casefold()


# The platform asks for at most 38 signs on a button, “Lesson: ” among them.
SHORT = {
    "bases": "percent of what?",
    "density": "density",
    "reading_measures": "reading a measure",
    "tare": "tare",
}
TOPICS: Mapping[str, str] = MappingProxyType({topic.key: topic.value for topic in Topic})
