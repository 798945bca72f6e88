"""Which slots a form asks for, and the form made of them; the slots' own words are its labels."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from enum import StrEnum
from typing import Any

from bot.components import Form, Payload, labelled, option, select, text_input
from bot.state import Draft
from core.action import Action
from core.answer import Missing
from core.compounds import Additives, Fills, Packs, Parts
from core.question import Question, Slot, slots_of

MOST = 5  # fields the platform takes in one form

# Command: the slots its form asks for, in this order. Commands that take many figures at once.
FORMS: dict[str, tuple[str, ...]] = {
    "record_density": ("material", "density", "mass", "volume", "at"),
    "record_vessel": ("vessel", "room", "fill", "weight", "how"),
    "record_formula": ("name", "waxes", "fragrances", "load", "reason"),
    "batch": ("fills", "load", "spare", "blend", "step"),
    "vessel": ("empty", "full", "density", "load", "count"),
    "lot": ("label", "weights", "tare", "rules"),
    "density": ("mass", "volume", "step", "at", "material"),
}

TITLES = {
    "record_density": "Record a measured density",
    "record_vessel": "Record a vessel",
    "record_formula": "Record a formula",
    "batch": "A batch",
    "vessel": "How much wax fills a vessel",
    "lot": "Check a lot against its label",
    "density": "A density from weight and room",
}

# What an answer calls the figure that is missing: the slots that may take it, the first one free is asked for.
NEEDS: dict[str, tuple[str, ...]] = {
    "amount_needed": ("need", "candle", "pieces"),
    "density_of_material": ("density", "first", "second"),
    "drop_size": ("counted", "weighed"),
    "fill_weight": ("fills",),
    "label_weight": ("label",),
    "load_percent": ("load",),
    "number_of_vessels": ("fills", "count"),
    "ounce_kind": ("ounce", "room"),
    "pack_sizes": ("packs",),
    "scale_step": ("step",),
    "volume_of_sample": ("volume",),
    "volume_of_vessel": ("room", "water"),
    "weight_of_candle": ("candle",),
    "weight_of_container": ("empty", "full"),
    "weight_of_fill": ("fill",),
    "weight_of_dye": ("mass",),
    "weight_of_fragrance": ("fragrance", "mass"),
    "weight_of_sample": ("mass",),
    "weight_of_vessel": ("vessel", "tare"),
    "weight_of_wax": ("wax", "mass"),
    "weight_to_weigh": ("weighing", "wax"),
}
LONG = (Fills, Packs, Parts, Additives)
LONGEST_LINE, LONGEST_LIST = 1000, 4000  # characters of a field; the platform takes no more
# Slots whose name alone says too little above a field; the others are shown by their names.
LABELS = {
    "at": "Temperature",
    "blend": "Fragrance blend",
    "count": "How many",
    "empty": "Empty weight",
    "fill": "What it takes",
    "fills": "Vessels and fills",
    "full": "Weight full of water",
    "how": "How measured",
    "label": "Weight on the label",
    "mass": "Weight",
    "room": "Room it holds",
    "rules": "Whose rules",
    "spare": "Spare in percent",
    "step": "Scale's step",
    "tare": "Empty vessel",
}


def wanted(answer: Missing) -> tuple[str, ...]:
    """The slots of its question that the missing figures go into; none where there is no question to complete."""
    question = answer.question
    if question is None:
        return ()
    free = {slot.name for slot in slots_of(type(question)) if _open(getattr(question, slot.name))}
    found: list[str] = []
    for need in answer.needs:
        for name in (*NEEDS.get(need.name, ()), need.name, need.name.partition("_of_")[0]):
            if name in free and name not in found:
                found.append(name)
                break
    # A need that is no slot of its own ("prices"): whatever the form of the command asks for that is still free.
    return tuple((found or [name for name in asked_in_form(type(question)) if name in free])[:MOST])


def _open(value: object) -> bool:
    """Whether a slot still takes something: an empty one, or vessels of which only the number is known."""
    if isinstance(value, Fills):
        return any(fill.weight is None and fill.volume is None and not fill.vessel for fill in value.items)
    return value is None


def asked_in_form(kind: type[Question | Action]) -> tuple[str, ...]:
    """The slots the form of that command asks for: those of the table that it has, else its first ones."""
    slots = slots_of(kind)
    if kind.command in FORMS:
        known = {slot.name for slot in slots}
        listed = [name for name in FORMS[kind.command] if name in known]
        needed = [slot.name for slot in slots if slot.required and slot.name not in listed]
        return tuple([*needed, *listed][:MOST])
    return tuple(slot.name for slot in sorted(slots, key=lambda slot: not slot.required)[:MOST])


def again(draft: Draft, kind: type[Question | Action]) -> tuple[str, ...]:
    """The slots to ask for once more: the wrong one, what was typed, then the rest of the form."""
    known = {slot.name for slot in slots_of(kind)}
    order = [draft.wrong, *draft.texts, *asked_in_form(kind)]
    return tuple(dict.fromkeys(name for name in order if name in known))[:MOST]


def form(
    kind: type[Question | Action], custom_id: str, names: Sequence[str], texts: Mapping[str, str], title: str = ""
) -> Form:
    """The form with these slots, filled with `texts`."""
    by_name = {slot.name: slot for slot in slots_of(kind)}
    fields = [_field(by_name[name], texts.get(name, "")) for name in names]
    return Form(title or TITLES.get(kind.command, title_of(kind.command)), custom_id, fields)


def words_form(custom_id: str, text: str) -> Form:
    """The form for a question in plain words."""
    typed = text_input("question", text, example="450 g wax at 8 %, how much fragrance?", required=True, long=True)
    typed["max_length"] = LONGEST_LIST
    typed["value"] = text[:LONGEST_LIST]
    return Form("Ask again", custom_id, [labelled("Your question", typed, "As you would say it")])


def title_of(name: str) -> str:
    """A slot's or command's name as a label."""
    if name in LABELS:
        return LABELS[name]
    text = name.replace("_", " ")
    return text[:1].upper() + text[1:]


def _field(slot: Slot, text: str) -> Payload:
    options = _options(slot.type, text)
    if options:
        component = select(slot.name, options, "Choose one", required=slot.required)
        component["required"] = slot.required
    else:
        long = slot.type in LONG or slot.name in ("notes", "observed", "weights")
        most = LONGEST_LIST if long else LONGEST_LINE
        component = text_input(slot.name, text, example=slot.example, required=slot.required, long=long, most=most)
    return labelled(title_of(slot.name), component, slot.says)


def _options(kind: Any, text: str) -> list[Payload]:
    """The lines of a list to choose from, for slots that take one of a few words."""
    if kind is bool:
        return [option(word, word, chosen=word == text) for word in ("yes", "no")]
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return [option(member.value, member.value, chosen=member.value == text) for member in kind]
    return []


def filled(before: Mapping[str, str], typed: Mapping[str, str]) -> dict[str, str]:
    """What stood before with what was typed over it; a field left empty is taken away."""
    return {name: text for name, text in {**before, **typed}.items() if text.strip()}


def typed_lines(texts: Mapping[str, str]) -> Iterable[tuple[str, str]]:
    """What was typed, a name and a text each, to be shown beside an error."""
    return ((title_of(name), text) for name, text in texts.items() if text.strip())
