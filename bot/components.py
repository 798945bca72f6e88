"""Buttons, selects and forms as the ready payload: nothing for the library to build, to store or to wait for.

Every press arrives in one place (bot/router.py), so a view object of its own would only be thrown away. These stand
in for `discord.ui.View` and `discord.ui.Modal` where a message or form is sent.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

import discord

Payload = dict[str, Any]

ROW, BUTTON, SELECT, TEXT_INPUT, ROLES, CHANNELS, LABEL = 1, 2, 3, 4, 6, 8, 18
STRONG, PLAIN, DANGER = 1, 2, 4
SHORT, LONG = 1, 2
IN_A_ROW, ROWS, MOST_OPTIONS = 5, 5, 25
LABEL_LENGTH, DESCRIPTION_LENGTH, OPTION_LENGTH, BUTTON_LENGTH, TITLE_LENGTH = 45, 100, 100, 80, 45


class Rows(discord.ui.View):
    """Finished rows of buttons and selects."""

    def __init__(self, rows: list[Payload]) -> None:  # the parent would build items, a future and a timeout
        self.rows = rows

    def to_components(self) -> list[Payload]:
        """The payload."""
        return self.rows

    def has_components_v2(self) -> bool:
        """Never: these go below embeds."""
        return False

    def is_finished(self) -> bool:
        """Always: nothing is stored for it."""
        return True

    def is_dispatchable(self) -> bool:
        """Never by the library; presses come to the router."""
        return False


class Form(discord.ui.Modal):
    """A finished form."""

    def __init__(self, title: str, custom_id: str, fields: Sequence[Payload]) -> None:  # as above
        self.payload = {"title": cut(title, TITLE_LENGTH), "custom_id": custom_id, "components": list(fields)}

    def to_dict(self) -> Payload:
        """The payload."""
        return self.payload

    def is_finished(self) -> bool:
        """Always: nothing is stored for it."""
        return True


def cut(text: str, most: int) -> str:
    """The text, with an ellipsis where it is too long."""
    return text if len(text) <= most else text[: most - 1].rstrip() + "…"


def button(label: str, custom_id: str, style: int = PLAIN, *, off: bool = False) -> Payload:
    """One button."""
    made: Payload = {"type": BUTTON, "style": style, "label": cut(label, BUTTON_LENGTH), "custom_id": custom_id}
    if off:
        made["disabled"] = True
    return made


def rows_of(buttons: Sequence[Payload]) -> list[Payload]:
    """Buttons in rows of five, at most five rows."""
    return [
        {"type": ROW, "components": list(buttons[start : start + IN_A_ROW])}
        for start in range(0, min(len(buttons), IN_A_ROW * ROWS), IN_A_ROW)
    ]


def row(component: Payload) -> Payload:
    """A select alone in its row."""
    return {"type": ROW, "components": [component]}


def option(label: str, value: str, description: str = "", *, chosen: bool = False) -> Payload:
    """One line of a select."""
    made: Payload = {"label": cut(label, OPTION_LENGTH), "value": value}
    if description:
        made["description"] = cut(description, OPTION_LENGTH)
    if chosen:
        made["default"] = True
    return made


def select(custom_id: str, options: Iterable[Payload], placeholder: str = "", *, required: bool = True) -> Payload:
    """A list to choose one line from."""
    made: Payload = {"type": SELECT, "custom_id": custom_id, "options": list(options)[:MOST_OPTIONS]}
    made["min_values"] = 1 if required else 0
    made["max_values"] = 1
    if placeholder:
        made["placeholder"] = placeholder
    return made


def labelled(label: str, component: Payload, description: str = "") -> Payload:
    """A field of a form with its label above and what it means below."""
    made: Payload = {"type": LABEL, "label": cut(label, LABEL_LENGTH), "component": component}
    if description:
        made["description"] = cut(description, DESCRIPTION_LENGTH)
    return made


def text_input(
    custom_id: str, value: str = "", *, example: str = "", required: bool = False, long: bool = False, most: int = 1000
) -> Payload:
    """A line (or with `long` some lines) to type into, filled with `value`."""
    made: Payload = {"type": TEXT_INPUT, "custom_id": custom_id, "style": LONG if long else SHORT}
    made["required"] = required
    made["max_length"] = most
    if value:
        made["value"] = value[:most]
    if example:
        made["placeholder"] = cut(f"e.g. {example}", DESCRIPTION_LENGTH)
    return made


def submitted(data: Any) -> dict[str, str]:
    """What was typed into a form, by the fields' ids; a list nothing was chosen from is ""."""
    found: dict[str, str] = {}
    for part in data.get("components") or ():
        for each in [part["component"]] if "component" in part else part.get("components") or ():
            values = each.get("values")
            found[str(each["custom_id"])] = (
                ",".join(str(value) for value in values) if values is not None else str(each.get("value") or "")
            )
    return found
