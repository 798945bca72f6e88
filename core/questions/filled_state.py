"""Is the density of what fills a vessel that of set or of melted wax: one rule, said with every such weight."""

from __future__ import annotations

from core.answer import Line, line
from core.compounds import State
from core.questions.known_density import Known
from core.units import Temperature

# Common practice, no source: candle waxes are set well below this, and melted above it.
MELTED_FROM = Temperature.of(45, "degC")
# A vessel is filled with melted wax, and melted is how the advice here has it measured.
POURED = State.MOLTEN
AS_DENSE = line("I took wax with fragrance in it to be as dense as the wax.")


def state_words(known: Known, said: State | None) -> Line:
    """What the figure means for the line in the vessel: as said, else by how warm it was measured, else as poured.
    Melted to set, paraffin shrinks by up to about 15 % (computed); the weight does not change."""
    if said is None and known.at is not None:
        if known.at < MELTED_FROM:
            words = (
                "The density was measured at {1}, so I took {0} as that of set (solid) wax: the wax fills to there "
                "once it has set. Hot, the same weight takes more room and stands higher."
            )
        else:
            words = (
                "The density was measured at {1}, so I took {0} as that of melted wax: filled hot to there, it sinks "
                "as it sets, by up to about 15 %. The weight stays the same."
            )
        return line(words, known.density, known.at)
    return {
        None: line(
            "I took {} as the density of melted wax, as it is poured: filled hot to there, it sinks as it sets, by up "
            "to about 15 %. The weight stays the same. Is it that of set wax? Then it fills to there once it has set.",
            known.density,
        ),
        State.SOLID: line("With set (solid) wax's density: hot, the same weight takes more room and stands higher."),
        State.MOLTEN: line(
            "With melted wax's density: filled hot to there, it sinks as it sets, by up to about 15 %. "
            "The weight stays the same."
        ),
        State.FLAKES: line(
            "That is a vessel heaped with flakes, air included. Melted, they fill only part of it: for a full candle "
            "use the density of melted wax."
        ),
    }[said]
