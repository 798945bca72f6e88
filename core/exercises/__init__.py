"""Exercises with sensible numbers: made from a seed, solved by the real questions, with the mistakes people make."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from core.book import Book
from core.compounds import Material
from core.exercises import batches, blends, loads, ounces, trade, volumes
from core.exercises.kinds import Exercise, Family, Level, Solved, Weights, apart, solve
from core.exercises.scene import Draw, Scene

MAKERS: Mapping[Family, Callable[[Scene], Exercise]] = MappingProxyType(
    {
        Family.LOAD: loads.load,
        Family.SPLIT: loads.split,
        Family.LOAD_FROM_WEIGHTS: loads.load_from_weights,
        Family.VOLUME: volumes.volume,
        Family.DENSITY: volumes.density,
        Family.OUNCES: ounces.ounces,
        Family.BATCH: batches.batch,
        Family.NET_WEIGHT: batches.net_weight,
        Family.SCALE_STEP: trade.scale_step,
        Family.BLEND: blends.blend,
        Family.RESCUE: loads.rescue,
        Family.BUYING: trade.buying,
    }
)
# Drawn again where the usual mistake happens to give the right answer.
MOST_DRAWS = 12
FIRST_SEED = 1


def solved(
    book: Book,
    family: Family | None = None,
    level: Level | None = None,
    weights: Weights | None = None,
    seed: int | None = None,
    material: Material | None = None,
) -> Solved:
    """The exercise of that seed, answered: the same for the same book. Without a family one is drawn by the seed."""
    number = FIRST_SEED if seed is None else seed
    kind = family or Draw("family", number).pick(tuple(Family))
    ounces = weights is Weights.OUNCES if weights is not None else book.preferences.first == "oz"
    drawn: Solved | None = None
    for turn in range(MOST_DRAWS):
        again = f"{number}.{turn}" if turn else str(number)
        scene = Scene.of(kind, level or Level.EASY, ounces, again, book, material)
        exercise = MAKERS[kind](scene)
        found = solve(exercise, book)
        if found.mistakes and found.mistakes[0] is exercise.mistakes[0]:
            return found
        drawn = found if found.mistakes or drawn is None else drawn
    assert drawn is not None
    return drawn


__all__ = ["Exercise", "Family", "Level", "Solved", "Weights", "apart", "solved"]
