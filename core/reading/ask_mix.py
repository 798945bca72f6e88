"""A mix as one load question, and the ounces in it that may be fluid."""

from __future__ import annotations

from core.answer import Answer
from core.compounds import Load, Stuff
from core.questions.load import LoadQuestion
from core.questions.volume import VolumeQuestion
from core.reading import asking
from core.reading.givens import Givens
from core.reading.marks import Measured
from core.reading.measuring import mass_of
from core.reading.weights import Weights


def load_question(g: Givens, found: Weights, each: Load | None) -> LoadQuestion:
    """What the text gives, with one of its loads."""
    return LoadQuestion(
        wax=found.wax,
        fragrance=found.fragrance,
        total=found.total,
        load=each,
        blend=g.shares.blend,
        additives=g.shares.added,
        strength=g.shares.strength if each is not None else None,
        limit=g.shares.limit,
        unit=g.wanted_mass(),
    )


def doubtful_ounces(g: Givens) -> Measured | None:
    """An "oz" of fragrance that nobody said was weighed."""
    if g.by_weight or g.scan.kind("rate"):
        return None
    found = [
        m
        for m in g.scan.masses("fragrance", "bottle")
        if m.amount.unit == "oz" and not m.amount.parts and not g.said_weight(m)
    ]
    return found[0] if found else None


def which_ounces(g: Givens, m: Measured, question: LoadQuestion) -> Answer:
    """Weighed or fluid? Both readings, each with its question."""
    mass = mass_of(m)
    fluid = VolumeQuestion(
        volume=asking.fluid_ounces(mass),
        stuff=Stuff.FRAGRANCE,
        wax=question.wax,
        load=question.load,
        density=g.density(),
    )
    return asking.ounces(mass, question, fluid)


def ounces_of_a_vessel(g: Givens, m: Measured) -> bool:
    """ "8 oz jars": the ounces may be fluid ones."""
    said = [mark.text for mark in g.scan.marks[m.at + 1 : m.at + 3]]
    doubtful = m.amount.unit == "oz" and m.of in ("jar", "candle") and not m["finished"]
    return doubtful and not g.by_weight and "weight" not in said
