"""Limits of application commands, as a bulk overwrite sends them.

Source: Discord's official documentation, interactions/application-commands (read 2026-08).
Values are characters and counts.
"""

from __future__ import annotations

import unicodedata
from collections import Counter
from collections.abc import Iterator

from tests.standin.breach import Breach, Json, count, distinct, text, under, whole, wrong

NAME = 32
DESCRIPTION = 100
OPTIONS = 25
CHOICES = 25
CHOICE_NAME = 100
CHOICE_VALUE = 100
COMMAND_TEXT = 8000
STRING_LENGTH = 6000
SAFE_INTEGER = 2**53 - 1
PER_SCOPE = {1: 100, 2: 15, 3: 15}

CHAT_INPUT = 1
SUBCOMMAND, GROUP, STRING, INTEGER, NUMBER = 1, 2, 3, 4, 10
OPTION_TYPES = range(1, 12)

LOCALE_NAMES = (
    "id da de en-GB en-US es-ES es-419 fr hr it lt hu nl no pl pt-BR ro fi sv-SE vi tr cs el bg ru uk hi th "
    "zh-CN ja zh-TW ko"
)
LOCALES = frozenset(LOCALE_NAMES.split())


def bulk(commands: list[Json]) -> Iterator[Breach]:
    """Breaches of a whole bulk overwrite, each path starting with the command's place in the list."""
    for kind, held in Counter(command.get("type", CHAT_INPUT) for command in commands).items():
        most = PER_SCOPE.get(kind, 0)
        if held > most:
            yield wrong((), f"{held} commands of type {kind}, at most {most}", "MAX_APPLICATION_COMMANDS")
    yield from distinct(((c.get("type", CHAT_INPUT), c.get("name")) for c in commands), (), "command")
    for place, command in enumerate(commands):
        yield from under(one(command), place)


def one(command: Json) -> Iterator[Breach]:
    """Breaches of a single command."""
    kind = command.get("type", CHAT_INPUT)
    yield from _subset(command, "contexts", {0, 1, 2})
    yield from _subset(command, "integration_types", {0, 1})
    if kind != CHAT_INPUT:
        yield from text(command, "name", 1, NAME, required=True)
        yield from _localized(command, "name", 1, NAME)
        if command.get("description"):
            yield wrong(("description",), "a menu entry has none")
        if command.get("options"):
            yield wrong(("options",), "a menu entry has none")
        return
    yield from _named(command)
    yield from _options(command, depth=0)
    size = command_text(command)
    if size > COMMAND_TEXT:
        yield wrong((), f"{size} characters in all, at most {COMMAND_TEXT}", "APPLICATION_COMMAND_TOO_LARGE")


def command_text(command: Json) -> int:
    """Characters that count towards the 8000: the longest variant of every name and description, and values."""
    size = _longest(command, "name") + _longest(command, "description")
    for choice in command.get("choices", ()):
        size += _longest(choice, "name") + len(str(choice.get("value", "")))
    return size + sum(command_text(option) for option in command.get("options", ()))


def good_name(name: str) -> bool:
    """Letters, digits, - _ ' and the Devanagari and Thai scripts, 1 to 32, in lower case where there is one."""
    return 1 <= len(name) <= NAME and name == name.lower() and all(map(_name_character, name))


def _name_character(character: str) -> bool:
    thai_or_devanagari = "\u0900" <= character <= "\u097f" or "\u0e00" <= character <= "\u0e7f"
    return character in "-_'" or unicodedata.category(character)[0] in "LN" or thai_or_devanagari


def _longest(part: Json, key: str) -> int:
    variants = (part.get(f"{key}_localizations") or {}).values()
    return max(len(part.get(key) or ""), *(len(v) for v in variants), 0)


def _named(part: Json) -> Iterator[Breach]:
    names = {"name": part.get("name"), **_variants(part, "name")}
    for where, name in names.items():
        if not isinstance(name, str) or not good_name(name):
            path = ("name",) if where == "name" else ("name_localizations", where)
            yield wrong(path, f"{name!r} is not a command or option name", "STRING_TYPE_REGEX")
    yield from text(part, "description", 1, DESCRIPTION, required=True)
    yield from _locales(part, "name")
    yield from _localized(part, "description", 1, DESCRIPTION)


def _variants(part: Json, key: str) -> Json:
    return dict(part.get(f"{key}_localizations") or {})


def _locales(part: Json, key: str) -> Iterator[Breach]:
    for locale in _variants(part, key):
        if locale not in LOCALES:
            yield wrong((f"{key}_localizations", locale), "is no locale of the platform", "ENUM_TYPE_COERCE")


def _localized(part: Json, key: str, low: int, high: int) -> Iterator[Breach]:
    yield from _locales(part, key)
    variants = _variants(part, key)
    for locale in variants:
        yield from under(text(variants, locale, low, high), f"{key}_localizations")


def _subset(command: Json, key: str, allowed: set[int]) -> Iterator[Breach]:
    strange = set(command.get(key) or ()) - allowed
    if strange:
        yield wrong((key,), f"{sorted(strange)} not among {sorted(allowed)}", "ENUM_TYPE_COERCE")


def _options(part: Json, depth: int) -> Iterator[Breach]:
    yield from count(part, "options", 0, OPTIONS)
    options = part.get("options") or []
    yield from distinct((o.get("name") for o in options), ("options",), "option name")
    nested = [o.get("type") in (SUBCOMMAND, GROUP) for o in options]
    if any(nested) and not all(nested):
        yield wrong(("options",), "subcommands and plain options do not mix")
    optional_seen = False
    for place, option in enumerate(options):
        yield from under(_option(option, depth), "options", place)
        if option.get("type") in (SUBCOMMAND, GROUP):
            continue
        if not option.get("required"):
            optional_seen = True
        elif optional_seen:
            yield wrong(
                ("options", place), "required options come first", "APPLICATION_COMMAND_OPTIONS_REQUIRED_INVALID"
            )


def _option(option: Json, depth: int) -> Iterator[Breach]:
    kind = option.get("type")
    yield from _named(option)
    if kind not in OPTION_TYPES:
        yield wrong(("type",), f"{kind!r} is no option type", "ENUM_TYPE_COERCE")
    if kind in (SUBCOMMAND, GROUP):
        # command > group > subcommand is as deep as it goes
        if depth == 2 or (kind == GROUP and depth == 1):
            yield wrong(("type",), "nested too deep")
        yield from _options(option, depth + 1)
        return
    yield from _choices(option)
    yield from whole(option, "min_length", 0, STRING_LENGTH)
    yield from whole(option, "max_length", 1, STRING_LENGTH)
    for key in ("min_value", "max_value"):
        if option.get(key) is not None and abs(option[key]) > SAFE_INTEGER:
            yield wrong((key,), "beyond ±(2^53 − 1)", "NUMBER_TYPE_RANGE")


def _choices(option: Json) -> Iterator[Breach]:
    choices = option.get("choices") or []
    if choices and option.get("autocomplete"):
        yield wrong(("autocomplete",), "choices and autocomplete exclude each other")
    if option.get("autocomplete") and option.get("type") not in (STRING, INTEGER, NUMBER):
        yield wrong(("autocomplete",), "only text and number options complete")
    yield from count(option, "choices", 0, CHOICES)
    yield from distinct((c.get("name") for c in choices), ("choices",), "choice name")
    yield from choice_limits(choices, option.get("type"), "choices")


def choice_limits(choices: list[Json], kind: int | None, key: str) -> Iterator[Breach]:
    """Name and value of each choice; `kind` is the option's type, None when it is not known."""
    for place, choice in enumerate(choices):
        yield from under(text(choice, "name", 1, CHOICE_NAME, required=True), key, place)
        yield from under(_localized(choice, "name", 1, CHOICE_NAME), key, place)
        value = choice.get("value")
        if isinstance(value, str) and kind in (None, STRING):
            yield from under(text(choice, "value", 1, CHOICE_VALUE, required=True), key, place)
        elif isinstance(value, bool) or not isinstance(value, int | float) or kind == STRING:
            yield wrong((key, place, "value"), f"{value!r} does not fit the option's type")
        elif abs(value) > SAFE_INTEGER:
            yield wrong((key, place, "value"), "beyond ±(2^53 − 1)", "NUMBER_TYPE_RANGE")
