"""Limits of message components (both generations) and of modals.

Source: Discord's official documentation, components/reference (read 2026-08), except where marked.
Values are characters and counts.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from tests.standin.breach import Breach, Json, count, distinct, text, under, whole, wrong

ROWS = 5
ROW_BUTTONS = 5
CUSTOM_ID = 100
BUTTON_LABEL = 80
URL = 512
PLACEHOLDER = 150
SELECT_OPTIONS = 25
OPTION_TEXT = 100
V2_COMPONENTS = 40
V2_TEXT = 4000  # stated by discord.py's documentation, not by the official page
SECTION_TEXTS = 3
GALLERY_ITEMS = 10
ALT_TEXT = 1024
MODAL_TITLE = 45
MODAL_COMPONENTS = 5
LABEL = 45
LABEL_DESCRIPTION = 100
INPUT_VALUE = 4000
INPUT_PLACEHOLDER = 100
UPLOADS = 10
CHECKBOXES = 10
RADIOS = 10

ROW, BUTTON, STRING_SELECT, TEXT_INPUT = 1, 2, 3, 4
SELECTS = (3, 5, 6, 7, 8)
SECTION, TEXT, THUMBNAIL, GALLERY, FILE, SEPARATOR = 9, 10, 11, 12, 13, 14
CONTAINER, LABELLED, FILE_UPLOAD, RADIO, CHECKBOX_GROUP, CHECKBOX = 17, 18, 19, 21, 22, 23
LINK, PREMIUM = 5, 6

IN_CONTAINER = (ROW, TEXT, SECTION, GALLERY, SEPARATOR, FILE)
TOP_LEVEL_V2 = (*IN_CONTAINER, CONTAINER)
IN_LABEL = (TEXT_INPUT, *SELECTS, FILE_UPLOAD, RADIO, CHECKBOX_GROUP, CHECKBOX)


def walk(components: Iterable[Json]) -> Iterator[Json]:
    """Every component, parents before children, accessories and labelled fields included."""
    for component in components:
        yield component
        yield from walk(component.get("components") or ())
        for key in ("accessory", "component"):
            if component.get(key):
                yield from walk([component[key]])


def message_components(components: list[Json], second_generation: bool, files: set[str]) -> Iterator[Breach]:
    """Breaches of a message's `components`; `files` are the names that `attachment://` may point to."""
    every = list(walk(components))
    # from memory: the API refuses a custom_id that is there twice
    yield from distinct((c["custom_id"] for c in every if c.get("custom_id")), ("components",), "custom_id")
    if second_generation:
        if len(every) > V2_COMPONENTS:
            yield wrong(("components",), f"{len(every)} components, at most {V2_COMPONENTS}")
        size = sum(len(c.get("content") or "") for c in every if c.get("type") == TEXT)
        if size > V2_TEXT:
            yield wrong(("components",), f"{size} characters of text, at most {V2_TEXT}")
    else:
        yield from count({"components": components}, "components", 0, ROWS)
    allowed = TOP_LEVEL_V2 if second_generation else (ROW,)
    for place, component in enumerate(components):
        yield from under(_one(component, allowed, files), "components", place)


def modal(payload: Json) -> Iterator[Breach]:
    """Breaches of a modal: title, custom_id and its fields."""
    yield from text(payload, "title", 1, MODAL_TITLE, required=True)
    yield from text(payload, "custom_id", 1, CUSTOM_ID, required=True)
    yield from count(payload, "components", 1, MODAL_COMPONENTS, required=True)
    components = payload.get("components") or []
    ids = (c["custom_id"] for c in walk(components) if c.get("custom_id"))
    yield from distinct(ids, ("components",), "custom_id")
    for place, component in enumerate(components):
        yield from under(_modal_part(component), "components", place)


def _modal_part(component: Json) -> Iterator[Breach]:
    kind = component.get("type")
    if kind == ROW:
        yield from count(component, "components", 1, 1, required=True)
        for field in component.get("components") or ():
            yield from under(text(field, "label", 1, LABEL, required=True), "components", 0)
            yield from under(_one(field, (TEXT_INPUT,), set()), "components", 0)
    elif kind == LABELLED:
        yield from text(component, "label", 1, LABEL, required=True)
        yield from text(component, "description", 1, LABEL_DESCRIPTION)
        yield from under(_one(component.get("component") or {}, IN_LABEL, set()), "component")
    elif kind == TEXT:
        yield from text(component, "content", 1, V2_TEXT, required=True)
    else:
        yield wrong(("type",), f"{kind!r} cannot stand in a modal", "ENUM_TYPE_COERCE")


def _one(component: Json, allowed: tuple[int, ...], files: set[str]) -> Iterator[Breach]:
    kind = component.get("type")
    if kind not in allowed:
        yield wrong(("type",), f"{kind!r} cannot stand here, only {sorted(allowed)}", "ENUM_TYPE_COERCE")
        return
    if kind == ROW:
        yield from _row(component)
    elif kind == BUTTON:
        yield from _button(component)
    elif kind in SELECTS:
        yield from _select(component)
    elif kind == TEXT_INPUT:
        yield from _text_input(component)
    elif kind == TEXT:
        yield from text(component, "content", 1, V2_TEXT, required=True)
    elif kind in (SECTION, CONTAINER):
        yield from _holder(component, files)
    elif kind in (THUMBNAIL, FILE):
        yield from text(component, "description", 0, ALT_TEXT)
        yield from _media(component.get("media") or component.get("file") or {}, files)
    elif kind == GALLERY:
        yield from count(component, "items", 1, GALLERY_ITEMS, required=True)
        for place, item in enumerate(component.get("items") or ()):
            yield from under(text(item, "description", 0, ALT_TEXT), "items", place)
            yield from under(_media(item.get("media") or {}, files), "items", place)
    elif kind in (RADIO, CHECKBOX_GROUP):
        low, high = (2, RADIOS) if kind == RADIO else (1, CHECKBOXES)
        yield from text(component, "custom_id", 1, CUSTOM_ID, required=True)
        yield from _options(component, low, high)
    elif kind in (FILE_UPLOAD, CHECKBOX):
        yield from text(component, "custom_id", 1, CUSTOM_ID, required=True)
        yield from whole(component, "min_values", 0, UPLOADS)
        yield from whole(component, "max_values", 1, UPLOADS)


def _row(row: Json) -> Iterator[Breach]:
    children = row.get("components") or []
    if any(child.get("type") in SELECTS for child in children) and len(children) > 1:
        yield wrong(("components",), "a select has its row for itself")
    yield from count(row, "components", 1, ROW_BUTTONS, required=True)
    for place, child in enumerate(children):
        yield from under(_one(child, (BUTTON, *SELECTS), set()), "components", place)


def _holder(component: Json, files: set[str]) -> Iterator[Breach]:
    section = component["type"] == SECTION
    yield from count(component, "components", 1, SECTION_TEXTS if section else V2_COMPONENTS, required=True)
    for place, child in enumerate(component.get("components") or ()):
        yield from under(_one(child, (TEXT,) if section else IN_CONTAINER, files), "components", place)
    if section:
        yield from under(_one(component.get("accessory") or {}, (BUTTON, THUMBNAIL), files), "accessory")


def _button(button: Json) -> Iterator[Breach]:
    style = button.get("style")
    yield from text(button, "label", 1, BUTTON_LABEL)
    if style not in range(1, 7):
        yield wrong(("style",), f"{style!r} is no button style", "ENUM_TYPE_COERCE")
    if style == LINK:
        yield from text(button, "url", 1, URL, required=True)
    elif style != PREMIUM:
        yield from text(button, "custom_id", 1, CUSTOM_ID, required=True)
        if not button.get("label") and not button.get("emoji"):
            yield wrong((), "a button needs a label or an emoji", "BUTTON_COMPONENT_LABEL_OR_EMOJI_REQUIRED")


def _select(select: Json) -> Iterator[Breach]:
    yield from text(select, "custom_id", 1, CUSTOM_ID, required=True)
    yield from text(select, "placeholder", 0, PLACEHOLDER)
    yield from whole(select, "min_values", 0, SELECT_OPTIONS)
    yield from whole(select, "max_values", 1, SELECT_OPTIONS)
    if select["type"] == STRING_SELECT:
        yield from _options(select, 1, SELECT_OPTIONS)


def _options(component: Json, low: int, high: int) -> Iterator[Breach]:
    yield from count(component, "options", low, high, required=True)
    options = component.get("options") or []
    # from memory: the API refuses an option value that is there twice
    yield from distinct((o.get("value") for o in options), ("options",), "option value")
    for place, option in enumerate(options):
        for key, least in (("label", 1), ("value", 1), ("description", 0)):
            breaches = text(option, key, least, OPTION_TEXT, required=key != "description")
            yield from under(breaches, "options", place)


def _text_input(field: Json) -> Iterator[Breach]:
    yield from text(field, "custom_id", 1, CUSTOM_ID, required=True)
    yield from text(field, "placeholder", 0, INPUT_PLACEHOLDER)
    yield from whole(field, "min_length", 0, INPUT_VALUE)
    yield from whole(field, "max_length", 1, INPUT_VALUE)
    # from memory: a value filled in beforehand must keep the field's own limit
    yield from text(field, "value", 0, field.get("max_length") or INPUT_VALUE)


def _media(media: Json, files: set[str]) -> Iterator[Breach]:
    url = media.get("url") or ""
    if url.startswith("attachment://"):
        if url.removeprefix("attachment://") not in files:
            yield wrong((), f"{url} is not among the files sent")
    elif not url.startswith(("http://", "https://")):
        yield wrong((), f"{url!r} is no address", "URL_TYPE_INVALID_URL")
