"""What can go wrong with a question, each with its data and a sentence that says the way out.

SteelyardError (ValueError)
├── BadInput            what was typed can't be used
│   ├── Unreadable      no amount of the wanted kind in the text
│   ├── UnknownUnit     a unit nobody knows; offers near ones
│   ├── WrongKind       a volume where a weight is wanted, ...
│   ├── OutOfRange      a number no scale will show
│   └── Contradiction   two givens that can't both be true
├── NotFound            no such record; offers near ones
├── NotAllowed          the asker may not do that
└── LibraryUnavailable  the database can't be read or written
"""

from __future__ import annotations

from collections.abc import Sequence


def clipped(text: str, most: int = 60) -> str:
    """The text on one line, cut to `most` characters, to be quoted back."""
    flat = " ".join(text.split())
    return flat if len(flat) <= most else flat[: most - 1] + "…"


class SteelyardError(ValueError):
    """`sentence` is safe to show; `key` names the kind of trouble for machines."""

    key = "error"

    def __init__(self, sentence: str) -> None:
        super().__init__(sentence)
        self.sentence = sentence


class BadInput(SteelyardError):
    """`text` is what was typed, as far as it matters."""

    key = "bad_input"

    def __init__(self, text: str, sentence: str) -> None:
        super().__init__(sentence)
        self.text = text


class Unreadable(BadInput):
    """The text holds no amount of the wanted kind."""

    key = "unreadable"


class UnknownUnit(BadInput):
    """`near` are unit words that may have been meant."""

    key = "unknown_unit"

    def __init__(self, text: str, near: Sequence[str] = ()) -> None:
        hint = f" Did you mean {' or '.join(near)}?" if near else " Use g, kg, oz, lb, ml or fl oz."
        super().__init__(text, f"I don't know the unit “{clipped(text, 30)}”.{hint}")
        self.near = tuple(near)


class WrongKind(BadInput):
    """An amount of another kind than the one wanted."""

    key = "wrong_kind"


class OutOfRange(BadInput):
    """A number outside what can be weighed, poured or paid."""

    key = "out_of_range"


class Contradiction(BadInput):
    """Two givens that can't both be true."""

    key = "contradiction"


# The way out where something recorded is not there.
RECORDED = {
    "material": "/shelf lists those that are recorded, /record_density or /record_material adds it.",
    "vessel": "/shelf lists those that are recorded, /record_vessel adds it.",
    "formula": "/shelf lists those that are recorded, /record_formula adds it.",
}


class NotFound(SteelyardError):
    """No record of `kind` under `name`; `near` are names that may have been meant."""

    key = "not_found"

    def __init__(self, kind: str, name: str, near: Sequence[str] = (), way_out: str = "") -> None:
        hint = f" Did you mean {' or '.join(near)}?" if near else ""
        way_out = way_out or RECORDED.get(kind, "")
        super().__init__(f"I have no {kind} called “{clipped(name)}”.{hint}{' ' + way_out if way_out else ''}")
        self.kind, self.name, self.near = kind, name, tuple(near)


class NotAllowed(SteelyardError):
    """The asker may not do that here."""

    key = "not_allowed"


class LibraryUnavailable(SteelyardError):
    """The database is locked, read-only, missing or damaged; `reason` says which, for the log."""

    key = "library_unavailable"

    def __init__(self, sentence: str, reason: str) -> None:
        super().__init__(sentence)
        self.reason = reason
