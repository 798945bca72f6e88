"""A weight set equal to room, "is 1 ml 1 g", "1 oz = 30 ml right?": that depends on the density, and it is said."""

from __future__ import annotations

from dataclasses import replace

from core.answer import Answer, Missing, line
from core.ask import answer
from core.question import Question
from core.questions.volume import VolumeQuestion
from core.reading.givens import Givens
from core.reading.wordset import wordset
from core.units import Density, Mass, Volume

_EQUATING = wordset("same equal equals right true correct = always really as is are does weigh weighs")
_SMALL = wordset("the it that so of a an in my and or no yes not isn't isnt i thought then ok just about i'd")


def equated(g: Givens, built: Question | Answer) -> Missing | None:
    """What is asked for with the reason why nobody can say so; None where no room is set equal to a weight."""
    rooms = [m.value for m in g.scan.found if isinstance(m.value, Volume)]
    weights = [m.value for m in g.scan.found if isinstance(m.value, Mass)]
    if not isinstance(built, VolumeQuestion) or len(g.scan.found) != 2 or not rooms or not weights:
        return None
    if g.has("asks", "density", "load") or g.wanted() or not rooms[0].base or not weights[0].base:
        return None
    words = {mark.text for mark in g.scan.marks if mark.kind == "word" and not mark.noun}
    texts = words | {mark.text for mark in g.scan.marks if mark.kind == "sign"}
    if not texts & _EQUATING or words - _EQUATING - _SMALL:
        return None
    asked = answer(built, g.book)
    if not isinstance(asked, Missing):
        return None
    dense = Density(weights[0].base / rooms[0].base)
    holds = line("They are alike at a density of {} only. Water has about 1 g/ml, oils less or more.", dense)
    ounces = weights[0].unit == "oz"
    return replace(
        asked,
        headline=line("It depends on the density: {0:typed} is room, {1:typed} is a weight.", rooms[0], weights[0]),
        body=(holds, *asked.body),
        see=(*asked.see, *(("ounces",) if ounces and "ounces" not in asked.see else ())),
    )
