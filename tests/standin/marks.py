"""The little markdown that answers use, as HTML: bold, italics, code, headings, lists, quotes and small print.

Every character is escaped; only marks that close on the same line count. A simple line reader, not a whole
implementation of markdown.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

# every alternative is one run of characters that excludes its own closing mark, so nothing can backtrack far
_INLINE = re.compile(
    r"\\(?P<plain>[\\*_`~|>#-])"
    r"|`(?P<code>[^`]+)`"
    r"|\*\*(?P<strong>[^*]+)\*\*"
    r"|__(?P<u>[^_]+)__"
    r"|~~(?P<s>[^~]+)~~"
    r"|\*(?P<em>[^*]+)\*"
    r"|\b_(?P<em2>[^_]+)_\b"
    r"|\[(?P<label>[^\]\[]+)\]\((?P<url>https?://[^)\s]+)\)"
    r"|</(?P<command>[^:<>]+):\d+>"
)
_LIST = re.compile(r"(?P<indent> *)(?:[-*]|(?P<number>\d+)\.) +(?P<rest>.+)")
_HEADING = re.compile(r"(#{1,3}) +(.+)")


def to_html(text: str) -> str:
    """Blocks of HTML for a message's text."""
    return "\n".join(_blocks(text.split("\n")))


def inline(text: str) -> str:
    """HTML of one line's text."""
    found = []
    place = 0
    for match in _INLINE.finditer(text):
        found += [html.escape(text[place : match.start()]), _marked(match)]
        place = match.end()
    return "".join(found) + html.escape(text[place:])


def _marked(match: re.Match[str]) -> str:
    kind = match.lastgroup or "plain"
    if kind == "url":
        return f'<a href="{html.escape(match["url"])}">{html.escape(match["label"])}</a>'
    if kind == "command":
        return f"<code>/{html.escape(match['command'])}</code>"
    if kind == "plain":
        return html.escape(match["plain"])
    if kind == "code":
        return f"<code>{html.escape(match['code'])}</code>"
    tag = kind.rstrip("2")
    return f"<{tag}>{inline(match[kind])}</{tag}>"


def _blocks(lines: list[str]) -> Iterator[str]:
    fence: list[str] | None = None
    for line in lines:
        if fence is None and line.startswith("```"):
            rest = line[3:]
            if rest.endswith("```"):
                yield _preformatted([rest[:-3]])
            else:
                fence = [rest] if " " in rest else []  # one word alone names a language
        elif fence is None:
            yield _line(line)
        elif line.startswith("```"):
            yield _preformatted(fence)
            fence = None
        else:
            fence.append(line)
    if fence is not None:
        yield _preformatted(fence)


def _preformatted(lines: list[str]) -> str:
    return f"<pre>{html.escape(chr(10).join(lines))}</pre>"


def _line(line: str) -> str:
    if not line.strip():
        return '<div class="gap"></div>'
    if heading := _HEADING.fullmatch(line):
        level = len(heading[1]) + 1
        return f"<h{level}>{inline(heading[2])}</h{level}>"
    if line.startswith("-# "):
        return f"<p><small>{inline(line[3:])}</small></p>"
    if line.startswith("> "):
        return f"<blockquote>{inline(line[2:])}</blockquote>"
    if item := _LIST.fullmatch(line):
        mark = f"{item['number']}." if item["number"] else "•"
        deep = 1 + len(item["indent"]) // 2
        return (
            f'<p class="item" style="margin-left:{deep}em"><span>{mark}</span><span>{inline(item["rest"])}</span></p>'
        )
    return f"<p>{inline(line)}</p>"
