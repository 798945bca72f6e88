"""What a Question is: a frozen dataclass of typed slots, declared once and read by every adapter.

The class docstring's first line is the command's description; each slot's text is the option's description.
"""

from __future__ import annotations

import dataclasses
import functools
import types
import typing
from dataclasses import dataclass
from typing import Any, ClassVar

from core.answer import Answer
from core.book import Book


@dataclass(frozen=True, slots=True)
class Slot:
    """One thing a question may be given: `type` is the value's type, None always allowed."""

    name: str
    type: type[Any]
    says: str
    example: str
    required: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """A question with everything it was given. `unit` is the unit key the asker wants the answer in, if any."""

    command: ClassVar[str] = ""

    unit: str = ""

    def answer(self, book: Book) -> Answer:
        """The answer, from the givens and what `book` has recorded. Raises SteelyardError on impossible givens."""
        raise NotImplementedError


def slot(says: str, *, example: str = "", required: bool = False, default: Any = None) -> Any:
    """A dataclass field that every adapter offers. `says` is at most 100 characters, `example` a value as typed.

    `required` is for what the question makes no sense without; adapters ask for it first. Whatever is left out is
    None, and the question answers what is missing.
    """
    return dataclasses.field(default=default, metadata={"says": says, "example": example, "required": required})


_SLOTS: dict[type[Any], tuple[Slot, ...]] = {}


def slots_of(kind: type[Any]) -> tuple[Slot, ...]:
    """The slots of a question or action class, in the order declared; worked out once for each class."""
    found = _SLOTS.get(kind)
    if found is None:
        found = _SLOTS[kind] = _slots(kind)
    return found


def _slots(kind: type[Any]) -> tuple[Slot, ...]:
    hints = typing.get_type_hints(kind)
    return tuple(
        Slot(
            name=field.name,
            type=_bare(hints[field.name]),
            says=field.metadata["says"],
            example=field.metadata["example"],
            required=field.metadata["required"],
        )
        for field in dataclasses.fields(kind)
        if "says" in field.metadata
    )


def _bare(hint: Any) -> Any:
    """`Mass | None` as `Mass`; a union of several types stays a union."""
    if isinstance(hint, types.UnionType) or typing.get_origin(hint) is typing.Union:
        kept = [part for part in typing.get_args(hint) if part is not type(None)]
        return kept[0] if len(kept) == 1 else functools.reduce(lambda a, b: a | b, kept)
    return hint


def description(kind: type[Any]) -> str:
    """The first line of the class docstring: what the command does."""
    return (kind.__doc__ or "").strip().splitlines()[0]
