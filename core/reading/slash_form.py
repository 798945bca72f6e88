"""The slash form of a question as typed text: `/load wax:450g load:8%`, read and written.

A value runs until the next `name:` of the same command, so `wax:1 lb 4 oz load:8%` needs no quotes.
"""

from __future__ import annotations

import functools
from collections.abc import Callable, Mapping
from typing import Any, TypeVar

from rapidfuzz import process

from core.action import Action
from core.book import Book
from core.errors import BadInput, clipped
from core.question import Question, Slot, slots_of
from core.reading.values import exact, read_value
from core.reading.visible import visible

Asked = TypeVar("Asked", bound=Question | Action)


def read_form(text: str, kinds: Mapping[str, type[Asked]], book: Book) -> Asked:
    """The question or action in the slash form; BadInput for an unknown command or a slot it hasn't got."""
    head, rest = command_of(text)
    kind = kinds.get(head.casefold())
    if kind is None:
        near = [match[0] for match in process.extract(head, list(kinds), limit=2, score_cutoff=60)]
        hint = f" Did you mean /{' or /'.join(near)}?" if near else " Type “help” for all of them."
        raise BadInput(head, f"There is no command “/{clipped(head, 30)}”.{hint}")
    return build(kind, split_form(rest, slots_of(kind)), book)


def command_of(text: str) -> tuple[str, str]:
    """The command's name as typed, and what follows it."""
    head, _, rest = visible(text).strip().removeprefix("/").partition(" ")
    return head, rest


def build(kind: type[Asked], texts: Mapping[str, str], book: Book) -> Asked:
    """The question from its slots as text; BadInput names the slot that could not be read."""
    values: dict[str, Any] = {}
    for slot in slots_of(kind):
        text = texts.get(slot.name, "").strip()
        if text:
            try:
                values[slot.name] = _read(slot.type, text) if len(text) <= SHORT else read_value(slot.type, text, book)
            except BadInput as error:
                error.sentence = f"{slot.name}: {error.sentence}"
                raise
    return kind(**values)


# The same few amounts are typed again and again, and every press of a button reads its question anew.
SHORT = 40


def _read_short(kind: Any, text: str) -> Any:
    return read_value(kind, text)


_read: Callable[[Any, str], Any] = functools.lru_cache(maxsize=4096)(_read_short)


def split_form(rest: str, slots: tuple[Slot, ...]) -> dict[str, str]:
    """Slot names and their texts. Text before the first name belongs to the first slot."""
    names = {slot.name for slot in slots}
    texts: dict[str, str] = {}
    current = slots[0].name if slots else ""
    words: list[str] = []
    for word in rest.split():
        name, colon, value = word.partition(":")
        if value.startswith("//"):  # the beginning of an address
            words.append(word)
        elif colon and name.casefold().strip("*`_") in names:
            _keep(texts, current, words)
            current, words = name.casefold().strip("*`_"), [value] if value else []
        elif colon and name.isidentifier() and len(name) > 2:
            raise _no_such_slot(name, names)
        else:
            words.append(word)
    _keep(texts, current, words)
    return texts


def _keep(texts: dict[str, str], name: str, words: list[str]) -> None:
    if words and name:
        text = " ".join(words)
        bare = text.strip("\"'“”")
        # Quotes around the whole value are dropped; those around a name in a list are the list's own.
        texts[name] = text if any(quote in bare for quote in '"“”') else bare


def _no_such_slot(name: str, names: set[str]) -> BadInput:
    near = [match[0] for match in process.extract(name, sorted(names), limit=2, score_cutoff=60)]
    hint = f"Did you mean {' or '.join(near)}?" if near else f"It takes: {', '.join(sorted(names))}."
    return BadInput(name, f"This command has no “{clipped(name, 30)}:”. {hint}")


def write_form(asked: Question | Action) -> str:
    """The slash form that reads back to the same question."""
    texts = texts_of(asked, quote=True)
    return " ".join([f"/{asked.command}", *(f"{name}:{text}" for name, text in texts.items())])


def texts_of(asked: Question | Action, *, quote: bool = False) -> dict[str, str]:
    """The slots that are filled, as exact text; `quote` as for `exact`."""
    return {
        slot.name: exact(value, quote=quote)
        for slot in slots_of(type(asked))
        if (value := getattr(asked, slot.name)) is not None
    }
