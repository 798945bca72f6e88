"""Options as somebody would fill them in, taken from the examples that every slot brings along."""

from __future__ import annotations

from enum import StrEnum
from typing import Any

from core.action import Action
from core.question import Question, Slot, slots_of
from core.reading.values import read_value

Asked = type[Question | Action]


def example_texts(kind: Asked) -> dict[str, str]:
    """Every slot that has an example or a fixed list, as text."""
    return {slot.name: text for slot in slots_of(kind) if (text := _text(slot))}


def as_options(kind: Asked, texts: dict[str, str]) -> dict[str, Any]:
    """The same texts as the values a Discord client sends: whole numbers and yes/no have types of their own there."""
    types = {slot.name: slot.type for slot in slots_of(kind)}
    return {name: _option(types[name], text) for name, text in texts.items()}


def _text(slot: Slot) -> str:
    if slot.example:
        return slot.example
    if isinstance(slot.type, type) and issubclass(slot.type, StrEnum):
        return str(next(iter(slot.type)).value)
    return "yes" if slot.type is bool else "{}" if slot.required else ""


def _option(kind: Any, text: str) -> Any:
    if isinstance(kind, type) and issubclass(kind, StrEnum):
        return read_value(kind, text).value
    return int(text) if kind is int else text == "yes" if kind is bool else text
