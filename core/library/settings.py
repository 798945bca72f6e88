"""How answers are wanted: a person's own settings over those of the server, over ours."""

from __future__ import annotations

import re
import sqlite3
from collections.abc import Callable
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

from core.book import Preferences
from core.compounds import Basis
from core.errors import BadInput, clipped
from core.library.space import Space

LONGEST_LIST = 1000  # characters of a list of packs or vessels
MOST_IDS = 50


@dataclass(frozen=True, slots=True)
class Settings:
    """All settings that hold for one asker. `private` None means not said. Of the server: `recorders` the role ids
    that may record besides those who manage the server, `private_channels` where answers are for the asker alone,
    `packs` and `vessels` as they may be typed into a question. `said` are the keys that somebody set."""

    preferences: Preferences = Preferences()
    private: bool | None = None
    recorders: tuple[str, ...] = ()
    private_channels: tuple[str, ...] = ()
    packs: str = ""
    vessels: str = ""
    said: frozenset[str] = frozenset()


def _first(text: str) -> str:
    words = {"g": "g", "grams": "g", "gram": "g", "oz": "oz", "ounces": "oz", "ounce": "oz"}
    if text.casefold() not in words:
        raise BadInput(text, "Write g or oz: which weight stands first. Leave it empty to follow each question.")
    return words[text.casefold()]


def _step(text: str) -> str:
    try:
        step = Decimal(text.casefold().removesuffix("g").strip().replace(",", "."))
    except InvalidOperation:
        step = Decimal(0)
    if not step.is_finite() or not Decimal("0.0001") <= step <= 1000:
        raise BadInput(text, "Write the scale's step in grams, from 0.0001 to 1000, such as 0.1.")
    return format(step.normalize(), "f")


def _yes(text: str) -> str:
    words = {"yes": "yes", "y": "yes", "on": "yes", "true": "yes", "no": "no", "n": "no", "off": "no", "false": "no"}
    if text.casefold() not in words:
        raise BadInput(text, f"“{clipped(text, 30)}” is neither yes nor no. Write yes or no.")
    return words[text.casefold()]


def _basis(text: str) -> str:
    word = text.casefold().removeprefix("of the ").strip()
    if word not in ("wax", "total"):
        raise BadInput(text, "A load is a percent of the wax or of the total. Write wax or total.")
    return word


def _currency(text: str) -> str:
    if text.casefold() not in ("usd", "eur", "gbp", "money"):
        raise BadInput(text, "Write usd, eur or gbp, or money for none of them.")
    return text.casefold()


def _ids(text: str) -> str:
    found = re.split(r"[\s,;]+", text.strip())
    if len(found) > MOST_IDS or not all(one.isascii() and one.isdigit() and len(one) <= 20 for one in found):
        raise BadInput(text, f"Give at most {MOST_IDS} ids: digits, with commas between them.")
    return ",".join(found)


def _list(text: str) -> str:
    flat = " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())
    if len(flat) > LONGEST_LIST:
        raise BadInput(text, f"That list is too long. Keep it to {LONGEST_LIST} characters.")
    return flat


# Key, what it is, and how its text is checked. The first ones may be a person's own or a server's default.
PERSONAL: dict[str, Callable[[str], str]] = {
    "first": _first,
    "step": _step,
    "comma": _yes,
    "basis": _basis,
    "private": _yes,
    "currency": _currency,
}
OF_A_SERVER: dict[str, Callable[[str], str]] = {
    **PERSONAL,
    "recorders": _ids,
    "private_channels": _ids,
    "packs": _list,
    "vessels": _list,
}


def checked(scope: Space, key: str, text: str) -> str:
    """The setting as it is kept; BadInput for a key that is not there or a value it can't have."""
    known = OF_A_SERVER if scope.shared else PERSONAL
    if key not in known:
        raise BadInput(key, f"There is no setting “{clipped(key, 30)}”. There are: {', '.join(known)}.")
    return known[key](text.strip())


def write(db: sqlite3.Connection, scope: Space, key: str, text: str) -> None:
    """Keep the setting, or drop it where `text` is empty."""
    if not text.strip():
        checked_key = key if key in OF_A_SERVER else ""
        db.execute("DELETE FROM setting WHERE scope = ? AND key = ?", (scope, checked_key))
        return
    db.execute(
        "INSERT INTO setting VALUES (?, ?, ?) ON CONFLICT (scope, key) DO UPDATE SET value = excluded.value",
        (scope, key, checked(scope, key, text)),
    )


def raw(db: sqlite3.Connection, scope: Space) -> dict[str, str]:
    """What is kept for that scope alone, as text."""
    return dict(db.execute("SELECT key, value FROM setting WHERE scope = ?", (scope,)).fetchall())


_UNSET = Settings()


def resolved(db: sqlite3.Connection, spaces: tuple[Space, ...], user: str) -> Settings:
    """The person's own over the defaults of the first shared space."""
    own = Space.own(user)
    server = next((space for space in spaces if space.shared), own)
    found = db.execute("SELECT scope, key, value FROM setting WHERE scope IN (?, ?)", (own, server)).fetchall()
    if not found:
        return _UNSET
    kept = {key: value for scope, key, value in found if scope == server}
    kept.update({key: value for scope, key, value in found if scope == own})
    return _settings(kept)


def _settings(kept: dict[str, str]) -> Settings:
    return Settings(
        preferences=Preferences(
            first=kept.get("first", ""),
            step=Decimal(kept["step"]) if "step" in kept else None,
            comma=kept.get("comma") == "yes",
            basis=Basis.TOTAL if kept.get("basis") == "total" else Basis.WAX,
            currency=kept.get("currency", "money"),
        ),
        private={"yes": True, "no": False}.get(kept.get("private", "")),
        recorders=_split(kept.get("recorders", "")),
        private_channels=_split(kept.get("private_channels", "")),
        packs=kept.get("packs", ""),
        vessels=kept.get("vessels", ""),
        said=frozenset(kept),
    )


def _split(text: str) -> tuple[str, ...]:
    return tuple(one for one in text.split(",") if one)
