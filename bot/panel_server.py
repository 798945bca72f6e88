"""The server's settings: defaults for its members, who may record, where answers are private, what is usual there."""

from __future__ import annotations

import asyncio
from collections.abc import Mapping

from bot import components as made
from bot.components import Payload
from bot.message import Message
from bot.panel import USUAL, choice_row, correct, keep, library_of, may_manage, panel, put, show_mine
from bot.press import Press
from bot.reply import harmless
from bot.state import OLD, Draft, OldButton, mark, read_draft
from core.book import EmptyBook
from core.compounds import Fills, Packs
from core.errors import BadInput, NotAllowed
from core.library import Space
from core.reading.values import read_value

NOT_MANAGER = "Only those who manage this server may change its settings. Your own are yours: use /settings."
NONE_YET = "none"
LISTS = {"packs": ("Usual packs", Packs, "1 kg 14 eur, 5 kg 58 eur"), "vessels": ("Usual vessels", Fills, "12 x 200 g")}
MOST_ROLES, MOST_CHANNELS = 25, 25


async def server(press: Press) -> str:
    """Everything of the server's panel. Permission is checked at each press, not only when it was opened."""
    if press.mark.verb == "Vmine":
        await show_mine(press)
        return "panel"
    if not may_manage(press):
        raise NotAllowed(NOT_MANAGER)
    space = Space.guild(press.interaction.guild_id or 0)
    verb = press.mark.verb[1:]
    if verb == "open":
        await _show(press, space)
        return "panel"
    if verb == "+":
        return await _ask_lists(press, space)
    if verb == "=":
        return await _lists(press, space)
    if verb in ("basis", "first"):
        value = press.values[0] if press.values else USUAL
        await keep(press, space, {verb: "" if value == USUAL else value})
    elif verb in ("recorders", "private_channels"):
        await keep(press, space, {verb: ",".join(press.values)})
    else:
        raise OldButton(OLD)
    await _show(press, space, "Kept.")
    return "kept"


async def _show(press: Press, space: Space, note: str = "") -> None:
    kept = await asyncio.to_thread(library_of(press).own_settings, space)
    await put(press, _panel(press.interaction.user.id, kept, note))


def _panel(user: int, kept: Mapping[str, str], note: str) -> Message:
    lines = [
        "**The server's settings**",
        "They hold for members who set nothing else.",
        f"- Who may record: those who manage the server, and roles: {_mentions(kept, 'recorders', '@&')}",
        f"- Channels where answers are for the asker alone: {_mentions(kept, 'private_channels', '#')}",
        *(f"- {title}: {harmless(kept[key]) if key in kept else NONE_YET}" for key, (title, _, _) in LISTS.items()),
    ]
    rows = [
        choice_row(mark("Vbasis", user), "basis", kept, "the wax (as usual)"),
        choice_row(mark("Vfirst", user), "first", kept),
        _picker(mark("Vrecorders", user), made.ROLES, "role", kept.get("recorders", ""), "Roles that may record"),
        _picker(
            mark("Vprivate_channels", user),
            made.CHANNELS,
            "channel",
            kept.get("private_channels", ""),
            "Channels where answers are private",
        ),
        *made.rows_of(
            [made.button("Packs and vessels", mark("V+", user)), made.button("My own settings", mark("Vmine", user))]
        ),
    ]
    return panel(lines, rows, note)


def _mentions(kept: Mapping[str, str], key: str, sign: str) -> str:
    ids = [each for each in kept.get(key, "").split(",") if each]
    return ", ".join(f"<{sign}{each}>" for each in ids) or NONE_YET


def _picker(custom_id: str, kind: int, what: str, ids: str, placeholder: str) -> Payload:
    """A list of the server's own roles or channels, those that are set chosen."""
    chosen = [{"id": each, "type": what} for each in ids.split(",") if each][:MOST_ROLES]
    made_: Payload = {"type": kind, "custom_id": custom_id, "placeholder": placeholder, "min_values": 0}
    made_["max_values"] = MOST_CHANNELS
    if chosen:
        made_["default_values"] = chosen
    return made.row(made_)


async def _ask_lists(press: Press, space: Space) -> str:
    kept: Mapping[str, str]
    if press.mark.args:
        kept = read_draft(press.kept.find(press.mark.args)).texts
    else:
        kept = await asyncio.to_thread(library_of(press).own_settings, space)
    fields = [
        made.labelled(title, made.text_input(key, kept.get(key, ""), example=example, long=True), "Empty: none")
        for key, (title, _, example) in LISTS.items()
    ]
    form = made.Form("Usual packs and vessels", mark("V=", press.interaction.user.id), fields)
    await press.interaction.response.send_modal(form)
    return "form"


async def _lists(press: Press, space: Space) -> str:
    typed = {key: text for key, text in made.submitted(press.data).items() if key in LISTS}
    try:
        for key, text in typed.items():
            if text.strip():  # what is kept must be readable when it is used
                read_value(LISTS[key][1], text, EmptyBook())
        await keep(press, space, typed)
    except BadInput as error:
        return await correct(press, error, Draft("settings", typed), "V+")
    await _show(press, space, "Kept.")
    return "kept"
