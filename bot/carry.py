"""Which forms carry an answer's figures on: a load into a batch, a measured density into the records, ..."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field

from core.actions import BY_COMMAND as ACTIONS
from core.answer import Answer, Missing, Worked, results_by_name
from core.question import Question, slots_of
from core.questions.shelf import Kind, ShelfQuestion
from core.questions.vessel import VesselQuestion
from core.reading.slash_form import texts_of
from core.writing import write


def _always(_: Question) -> bool:
    return True


def _of_a_material(question: Question) -> bool:
    return isinstance(question, ShelfQuestion) and bool(question.material)


def _not_recorded_yet(question: Question) -> bool:
    return isinstance(question, VesselQuestion) and not question.vessel


def _listing(kind: Kind) -> Callable[[Question], bool]:
    """Whether it is the list of names, of that kind or of all."""

    def lists(question: Question) -> bool:
        one = isinstance(question, ShelfQuestion) and (question.material or question.vessel or question.formula)
        return isinstance(question, ShelfQuestion) and not one and question.kind in (None, kind)

    return lists


@dataclass(frozen=True, slots=True)
class Carry:
    """A button `verb` that opens the form of `command`: its slots filled from slots of the question (`slots`, as
    ours: theirs), from figures that came out (`results`, the first one there is), as many as `count` says. It stands
    below the questions that `when` picks."""

    verb: str
    command: str
    label: str
    slots: Mapping[str, str] = field(default_factory=dict)
    results: Mapping[str, tuple[str, ...]] = field(default_factory=dict)
    count: str = ""
    when: Callable[[Question], bool] = _always

    def texts(self, question: Question, answer: Answer) -> dict[str, str]:
        """What the form is filled with."""
        asked, found = texts_of(question), results_by_name(answer)
        filled = {ours: asked[theirs] for ours, theirs in self.slots.items() if theirs in asked}
        for ours, names in self.results.items():
            value = next((found[name] for name in names if name in found), None)
            if value is not None and ours not in filled:
                filled[ours] = write(value, spec=_SPECS.get(value.BASE, "typed"))
        if "mass" in filled and "volume" in filled:  # the two figures measured say more than the one made of them
            filled.pop("density", None)
        if found.get("room") != found.get("fill_volume"):  # filled to a part: that weight is not what the vessel takes
            filled.pop("fill", None)
        if self.count and "fills" in filled:
            filled["fills"] = f"{asked.get(self.count, '1')} x {filled['fills']}"
        return filled


# Figures that came out are shown as exact as they were measured: what was typed stands in the question.
_SPECS = {"g": "g", "ml": "unit"}
KEPT_BY = ("record_density", "record_vessel")
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
            {"vessel": "vessel", "weight": "empty", "fill": "takes"},
            {"room": ("room",), "fill": ("total_each", "wax_each", "total", "wax")},
            when=_not_recorded_yet,
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
        Carry("r", "record_density", "Record a measurement", {"material": "material"}, when=_of_a_material),
        Carry("rd", "record_density", "Add a density", when=_listing(Kind.MATERIAL)),
        Carry("rv", "record_vessel", "Add a vessel", when=_listing(Kind.VESSEL)),
        Carry("rf", "record_formula", "Add a formula", when=_listing(Kind.FORMULA)),
    ),
}


def keeping(answer: Answer) -> list[Carry]:
    """The ways to keep what came out in the records, where anything did."""
    question = answer.question if isinstance(answer, Worked | Missing) else None
    if question is None or not answer.results:
        return []
    return [carry for carry in CARRIES.get(question.command, ()) if carry.command in KEPT_BY and carry.when(question)]


def typed_out(carry: Carry, answer: Worked | Missing) -> str:
    """What to type to carry it on, where there are no buttons; dots for what has to be added, such as a name."""
    assert answer.question is not None
    texts = carry.texts(answer.question, answer)
    needed = {slot.name: "…" for slot in slots_of(ACTIONS[carry.command]) if slot.required}
    return " ".join([f"/{carry.command}", *(f"{name}:{text}" for name, text in {**needed, **texts}.items())])
