"""The settings panel: how one person wants answers. One message for the asker alone, changed by each choice."""

from __future__ import annotations

import asyncio
from collections.abc import Awaitable, Callable, Mapping

import discord

from bot import components as made
from bot import delivery
from bot.components import Payload, Rows
from bot.desk import NO_LIBRARY
from bot.message import Message
from bot.press import Press
from bot.reply import harmless
from bot.state import OLD, Draft, OldButton, mark, read_draft
from core.errors import BadInput, LibraryUnavailable
from core.library import Library, Space
from core.questions.steps import NO_STEP

LONGEST_SHOWN = 400
USUAL = "-"  # stands for "not set": an option needs a value
# Key: what is asked, and the answers (as kept, as a person reads it, what it means).
CHOICES: dict[str, tuple[str, tuple[tuple[str, str, str], ...]]] = {
    "first": (
        "Stands first",
        (
            (USUAL, "as in the question", "Grams first for a question in grams"),
            ("g", "grams", "36 g (1.27 oz)"),
            ("oz", "ounces", "1.27 oz (36 g)"),
        ),
    ),
    "basis": (
        "A load is a percent of",
        (
            (USUAL, "as the server has it", "Where you don't say it in the question"),
            ("wax", "the wax", "8 % of 450 g of wax are 36 g"),
            ("total", "the total", "8 % of wax and fragrance together"),
        ),
    ),
    "comma": (
        "Decimal sign",
        ((USUAL, "as in my language", ""), ("no", "a point", "1.5 g"), ("yes", "a comma", "1,5 g")),
    ),
    "private": (
        "My answers are seen by",
        (
            (USUAL, "as the server has it", ""),
            ("no", "everybody in the channel", ""),
            ("yes", "only I", "You can still post one to the channel"),
        ),
    ),
}
CURRENCIES = (("usd", "US dollars"), ("eur", "Euros"), ("gbp", "Pounds sterling"))


def library_of(press: Press) -> Library:
    """The library to write to; LibraryUnavailable where there is none."""
    if press.desk.library is None:
        raise LibraryUnavailable(NO_LIBRARY, "none")
    return press.desk.library


def choice_row(press_mark: str, key: str, kept: Mapping[str, str], usual: str = "") -> Payload:
    """One setting as a list, the one that holds chosen; `usual` says what "not set" means where it is not ours."""
    what, answers = CHOICES[key]
    now = kept.get(key, USUAL)
    options = [
        made.option(f"{what}: {usual if value == USUAL and usual else words}", value, means, chosen=value == now)
        for value, words, means in answers
    ]
    return made.row(made.select(press_mark, options, what))


def mine(user: int, kept: Mapping[str, str], *, server: bool, note: str = "") -> Message:
    """The panel of one person; `server` where they may open the server's as well."""
    lines = [
        "**Your settings**",
        "They hold wherever you ask me, before those of a server.",
        f"- Scale's step: {step_words(kept)}",
        f"- Currency of prices without one: {dict(CURRENCIES).get(kept.get('currency', ''), 'none')}",
    ]
    rows = [choice_row(mark(f"S{key}", user), key, kept) for key in CHOICES]
    buttons = [made.button("Scale and currency", mark("S+", user))]
    if server:
        buttons.append(made.button("The server's settings", mark("Vopen", user)))
    return panel(lines, [*rows, *made.rows_of(buttons)], note)


def panel(lines: list[str], rows: list[Payload], note: str) -> Message:
    """The message of a panel."""
    text = "\n".join([*lines, *([f"**{note}**"] if note else [])])
    return Message(discord.Embed(description=text), Rows(rows))


def step_words(kept: Mapping[str, str]) -> str:
    """The scale's step as it is kept."""
    return f"{kept['step']} g" if "step" in kept else NO_STEP


def may_manage(press: Press) -> bool:
    """Whether the presser may change the server's settings: the bot is a member there, and they manage it."""
    return press.interaction.is_guild_integration() and press.interaction.permissions.manage_guild


async def show_mine(press: Press, note: str = "") -> None:
    """The panel as it is now, in the place of the one that was pressed."""
    own = Space.own(press.asker.user)
    kept = await asyncio.to_thread(library_of(press).own_settings, own)
    await put(press, mine(press.interaction.user.id, kept, server=may_manage(press), note=note))


async def put(press: Press, message: Message) -> None:
    """Change the panel, or send one where there is none yet."""
    if press.mine and press.interaction.message is not None:
        await delivery.change(press.interaction, message)
    else:
        await delivery.answer(press.interaction, message, private=True)


async def keep(press: Press, scope: Space, values: Mapping[str, str]) -> None:
    """Write settings down, away from the event loop."""
    await asyncio.to_thread(library_of(press).set_settings, scope, dict(values))


async def _open(press: Press) -> str:
    await show_mine(press)
    return "panel"


async def _choose(press: Press) -> str:
    key = press.mark.verb[1:]
    if key not in CHOICES or not press.values:
        raise OldButton(OLD)
    value = press.values[0]
    await keep(press, Space.own(press.asker.user), {key: "" if value == USUAL else value})
    await show_mine(press, "Kept.")
    return "kept"


async def _ask_numbers(press: Press) -> str:
    kept: Mapping[str, str]
    if press.mark.args:
        kept = read_draft(press.kept.find(press.mark.args)).texts
    else:
        kept = await asyncio.to_thread(library_of(press).own_settings, Space.own(press.asker.user))
    currency = made.select(
        "currency", [made.option(words, key, chosen=key == kept.get("currency")) for key, words in CURRENCIES], "None"
    )
    currency.update(required=False, min_values=0)
    fields = [
        made.labelled(
            "Scale's step in grams",
            made.text_input("step", kept.get("step", ""), example="0.1", most=40),
            "The smallest change it shows. Empty: not set",
        ),
        made.labelled("Currency", currency, "Of prices without one"),
    ]
    form = made.Form("Scale and currency", mark("S=", press.interaction.user.id), fields)
    await press.interaction.response.send_modal(form)
    return "form"


async def _numbers(press: Press) -> str:
    typed = made.submitted(press.data)
    try:
        await keep(press, Space.own(press.asker.user), {key: typed.get(key, "") for key in ("step", "currency")})
    except BadInput as error:
        return await correct(press, error, Draft("settings", typed), "S+")
    await show_mine(press, "Kept.")
    return "kept"


async def correct(press: Press, error: BadInput, draft: Draft, verb: str) -> str:
    """What is wrong, what was typed, and a button to open the form again filled with it."""
    typed = "\n".join(
        f"- {name.capitalize()}: {harmless(made.cut(text, LONGEST_SHOWN))}"
        for name, text in draft.texts.items()
        if text
    )
    again = made.button(
        "Correct it", mark(verb, press.interaction.user.id, press.kept.keep(draft.write())), made.STRONG
    )
    embed = discord.Embed(description=f"**{harmless(error.sentence)}**\nYou typed:\n{typed}")
    await delivery.answer(press.interaction, Message(embed, Rows(made.rows_of([again]))), private=True)
    return "not_understood"


_BY_VERB: dict[str, Callable[[Press], Awaitable[str]]] = {"Sopen": _open, "S+": _ask_numbers, "S=": _numbers}


async def settings(press: Press) -> str:
    """Everything of the person's own panel."""
    return await _BY_VERB.get(press.mark.verb, _choose)(press)
