"""A recorded message or form drawn as a plain page, 390 px wide, to be looked at.

The look is our own and bare: a system font, a white page, thin boxes. It shows what is there and how long it gets on a
phone, not how any client paints it.
"""

from __future__ import annotations

import html
from collections.abc import Iterable
from typing import Any

from tests.standin.component_limits import (
    BUTTON,
    CHECKBOX,
    CHECKBOX_GROUP,
    CONTAINER,
    FILE,
    FILE_UPLOAD,
    GALLERY,
    LABELLED,
    RADIO,
    ROW,
    SECTION,
    SELECTS,
    SEPARATOR,
    TEXT,
    TEXT_INPUT,
    THUMBNAIL,
)
from tests.standin.limits import EPHEMERAL, SECOND_GENERATION
from tests.standin.marks import inline, to_html
from tests.standin.world import Json

WIDTH = 390
STYLE = """
* { box-sizing: border-box }
body { margin: 0; background: #fff; color: #111; font: 16px/1.4 system-ui, sans-serif }
main { width: WIDTHpx; padding: 12px; overflow-wrap: anywhere }
p, h2, h3, h4, blockquote { margin: 0 0 2px } h2 { font-size: 1.3em } h3 { font-size: 1.15em } h4 { font-size: 1em }
.gap { height: .6em } .item { display: flex; gap: .4em } .item > span:first-child { white-space: nowrap }
blockquote { border-left: 3px solid #999; padding-left: 8px }
small, .note { color: #444; font-size: .85em }
code, pre { font: 14px/1.35 ui-monospace, monospace; background: #f2f2f2; padding: 0 3px }
pre { overflow-x: auto; padding: 6px; margin: 4px 0 }
.box { border: 1px solid #777; padding: 8px; margin: 8px 0 } .box > .title { font-weight: 600 }
.fields { display: flex; flex-wrap: wrap; gap: 8px } .fields > div { flex: 1 1 100% } .fields > .half { flex: 1 1 45% }
.row { display: flex; flex-wrap: wrap; gap: 6px; margin: 6px 0 }
.beside { display: flex; gap: 8px; justify-content: space-between; align-items: flex-start }
button, .select, .input { font: inherit; padding: 6px 10px; border: 1px solid #333; background: #fff; color: #111 }
button.strong { border-width: 2px; font-weight: 600 } button[disabled] { color: #777; border-style: dashed }
.select, .input { width: 100%; min-height: 2.2em; white-space: pre-wrap } .tall { min-height: 5em }
.file { border: 1px dashed #555; padding: 6px; margin: 6px 0 } hr { border: 0; border-top: 1px solid #999 }
""".replace("WIDTH", str(WIDTH))
PRIMARY, SHORT = 1, 1


def draw(payload: Json, title: str = "") -> str:
    """One HTML page of a message (API payload or the body a bot sent) or of a form (a modal's data)."""
    return draw_all([(title, payload)])


def draw_all(parts: Iterable[tuple[str, Json]]) -> str:
    """Several messages and forms under one another, each with its heading."""
    drawn = []
    for title, payload in parts:
        heading = f'<p class="note">{html.escape(title)}</p>' if title else ""
        drawn.append(heading + (_modal(payload) if "title" in payload else _message(payload)))
    head = f'<meta charset="utf-8"><meta name="viewport" content="width={WIDTH}"><style>{STYLE}</style>'
    body = f"<main>{''.join(drawn)}</main>"
    return f"<!doctype html><html lang=en><head>{head}<title>drawn</title></head><body>{body}</body></html>"


def _message(payload: Json) -> str:
    found = []
    if (payload.get("flags") or 0) & EPHEMERAL:
        found.append('<p class="note">Only you can see this</p>')
    if payload.get("content"):
        found.append(to_html(payload["content"]))
    found += [_embed(embed) for embed in payload.get("embeds") or ()]
    found += [_component(component) for component in payload.get("components") or ()]
    if not (payload.get("flags") or 0) & SECOND_GENERATION:  # there, only components show files
        found += [_file(attachment) for attachment in payload.get("attachments") or ()]
    return f"<article>{''.join(found)}</article>"


def _embed(embed: Json) -> str:
    found = []
    if author := (embed.get("author") or {}).get("name"):
        found.append(f'<p class="note">{html.escape(author)}</p>')
    if embed.get("title"):
        found.append(f'<p class="title">{inline(embed["title"])}</p>')
    if embed.get("description"):
        found.append(to_html(embed["description"]))
    if embed.get("fields"):
        fields = "".join(
            f"<div{' class=half' if f.get('inline') else ''}><b>{inline(f['name'])}</b>{to_html(f['value'])}</div>"
            for f in embed["fields"]
        )
        found.append(f'<div class="fields">{fields}</div>')
    for key in ("image", "thumbnail"):
        if embed.get(key):
            found.append(_media(embed[key], None))
    if footer := (embed.get("footer") or {}).get("text"):
        found.append(f'<p class="note">{html.escape(footer)}</p>')
    return f'<div class="box">{"".join(found)}</div>'


def _file(attachment: Json) -> str:
    size = f" ({attachment['size']} bytes)" if "size" in attachment else ""
    alt = f"<br><small>{html.escape(attachment['description'])}</small>" if attachment.get("description") else ""
    name = str(attachment.get("filename") or attachment.get("id"))
    return f'<div class="file">File: {html.escape(name)}{size}{alt}</div>'


def _media(media: Json, alt: str | None) -> str:
    return _file({"filename": str(media.get("url") or "").rpartition("/")[2], "description": alt})


def _component(component: Json) -> str:
    kind = component["type"]
    inside = "".join(_component(child) for child in component.get("components") or ())
    if kind == ROW:
        return f'<div class="row">{inside}</div>'
    if kind == CONTAINER:
        return f'<div class="box">{inside}</div>'
    if kind == SECTION:
        return f'<div class="beside"><div>{inside}</div>{_component(component["accessory"])}</div>'
    if kind == TEXT:
        return to_html(component.get("content") or "")
    if kind == SEPARATOR:
        return "<hr>" if component.get("divider", True) else '<div class="gap"></div>'
    if kind in (FILE, THUMBNAIL):
        return _media(component.get("file") or component.get("media") or {}, component.get("description"))
    if kind == GALLERY:
        return "".join(_media(item["media"], item.get("description")) for item in component.get("items") or ())
    return _control(component)


def _control(control: Json) -> str:
    kind = control["type"]
    if kind == BUTTON:
        strong = " class=strong" if control.get("style") == PRIMARY else ""
        off = " disabled" if control.get("disabled") else ""
        label = f"{(control.get('emoji') or {}).get('name') or ''} {control.get('label') or ''}".strip()
        return f"<button{strong}{off}>{html.escape(label)}</button>"
    if kind in SELECTS:
        chosen = [o["label"] for o in control.get("options") or () if o.get("default")]
        shown = ", ".join(chosen) or control.get("placeholder") or "Choose"
        return f'<div class="select">{html.escape(shown)} ▾{_options(control)}</div>'
    if kind == TEXT_INPUT:
        tall = "" if control.get("style", SHORT) == SHORT else " tall"
        value = control.get("value")
        inside = html.escape(value) if value else f"<small>{html.escape(control.get('placeholder') or '')}</small>"
        label = f"<b>{html.escape(control['label'])}</b>" if control.get("label") else ""
        return f'{label}<div class="input{tall}">{inside}</div>'
    if kind in (RADIO, CHECKBOX_GROUP):
        return _options(control)
    if kind == CHECKBOX:
        return "<p>☑</p>" if control.get("default") else "<p>☐</p>"
    if kind == FILE_UPLOAD:
        return '<div class="file">Choose a file</div>'
    return f'<p class="note">unknown part of type {html.escape(str(kind))}</p>'


def _options(control: Json) -> str:
    marks = {RADIO: ("◉", "○"), CHECKBOX_GROUP: ("☑", "☐")}.get(control["type"], ("•", "◦"))
    lines = []
    for option in control.get("options") or ():
        mark = marks[0] if option.get("default") else marks[1]
        about = f" – {html.escape(option['description'])}" if option.get("description") else ""
        lines.append(f"<br><small>{mark} {html.escape(option['label'])}{about}</small>")
    return "".join(lines)


def _modal(payload: dict[str, Any]) -> str:
    found = [f'<p class="title">{html.escape(payload["title"])}</p>']
    for component in payload.get("components") or ():
        if component["type"] == LABELLED:
            about = component.get("description")
            found.append(f"<p><b>{html.escape(component['label'])}</b></p>")
            found.append(f"<p><small>{html.escape(about)}</small></p>" if about else "")
            found.append(_control(component["component"]))
        else:
            found.append(_component(component))
    found.append('<div class="row"><button class=strong>Submit</button><button>Cancel</button></div>')
    return f'<div class="box">{"".join(found)}</div>'
