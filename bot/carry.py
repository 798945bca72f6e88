"""Which forms carry an answer's figures on: a load into a batch, a measured density into the records, ..."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field

from core.answer import Answer, results_by_name
from core.question import Question
from core.reading.slash_form import texts_of
from core.writing import write


@dataclass(frozen=True, slots=True)
class Carry:
    """A button `verb` that opens the form of `command`: its slots filled from slots of the question (`slots`, as
    ours: theirs), from figures that came out (`results`, the first one there is), as many as `count` says. It stands
    below questions that gave the slot `given`, and none of `without`."""

    verb: str
    command: str
    label: str
    slots: Mapping[str, str] = field(default_factory=dict)
    results: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    count: str = ""
    given: str = ""
    without: tuple[str, ...] = ()

    def fits(self, question: Question) -> bool:
        """Whether it belongs below the answer to that question."""
        if self.given:
            return bool(getattr(question, self.given))
        return not any(getattr(question, name) for name in self.without)

    def texts(self, question: Question, answer: Answer) -> dict[str, str]:
        """What the form is filled with."""
        asked, found = texts_of(question), results_by_name(answer)
        filled = {ours: asked[theirs] for ours, theirs in self.slots.items() if theirs in asked}
        for ours, names in self.results.items():
            value = next((found[name] for name in names if name in found), None)
            if value is not None and ours not in filled:
                filled[ours] = write(value, spec="g" if value.BASE == "g" else "typed")
        if "mass" in filled and "volume" in filled:  # the two figures measured say more than the one made of them
            filled.pop("density", None)
        if self.count and "fills" in filled:
            filled["fills"] = f"{asked.get(self.count, '1')} x {filled['fills']}"
        return filled


_NAMED = ("material", "vessel", "formula")
_MIX = {"load": "load", "basis": "basis", "additives": "additives"}

CARRIES: dict[str, tuple[Carry, ...]] = {
    "load": (Carry("m", "batch", "Make it a batch", {**_MIX, "blend": "blend"}),),
    "vessel": (
        Carry(
            "m",
            "batch",
            "Make it a batch",
            {"load": "load", "basis": "basis"},
            {"fills": ("total_each", "wax_each", "total", "wax")},
            count="count",
        ),
        Carry(
            "r",
            "record_vessel",
            "Record this vessel",
            {"vessel": "vessel", "room": "room", "weight": "empty"},
            {"fill": ("total_each", "wax_each", "total", "wax")},
        ),
    ),
    "density": (
        Carry(
            "r",
            "record_density",
            "Record this density",
            {name: name for name in ("material", "mass", "volume", "at", "stuff", "step", "measure", "capacity")},
            {"density": ("density",)},
        ),
    ),
    "shelf": (
        Carry("r", "record_density", "Record a measurement", {"material": "material"}, given="material"),
        Carry("rd", "record_density", "Add a density", without=_NAMED),
        Carry("rv", "record_vessel", "Add a vessel", without=_NAMED),
        Carry("rf", "record_formula", "Add a formula", without=_NAMED),
    ),
}
