"""Messages and forms as pages: everything is there, nothing gets through unescaped."""

from __future__ import annotations

import html.parser
import re

import pytest

from tests.standin.draw import draw, draw_all
from tests.standin.marks import inline, to_html
from tests.standin.sample import SampleBot
from tests.standin.server import StandIn
from tests.work import lines_run

MARKS = [
    ("**46.5 g** of oil", "<p><strong>46.5 g</strong> of oil</p>"),
    ("*guide* and _guide_", "<p><em>guide</em> and <em>guide</em></p>"),
    ("`a*b*` c", "<p><code>a*b*</code> c</p>"),
    ("~~old~~ __new__", "<p><s>old</s> <u>new</u></p>"),
    ("# Load", "<h2>Load</h2>"),
    ("### Load", "<h4>Load</h4>"),
    ("-# small", "<p><small>small</small></p>"),
    ("> said", "<blockquote>said</blockquote>"),
    (r"\*as it is\*", "<p>*as it is*</p>"),
    ("3 * 4 * 5", "<p>3 <em> 4 </em> 5</p>"),
    ("2 x_1 y_2", "<p>2 x_1 y_2</p>"),
    ("</load:12>", "<p><code>/load</code></p>"),
    (r"\> no quote", "<p>&gt; no quote</p>"),
    ("<i> before **bold** <i>", "<p>&lt;i&gt; before <strong>bold</strong> &lt;i&gt;</p>"),
    ("a < b & c", "<p>a &lt; b &amp; c</p>"),
    ("```\n<b>\n```", "<pre>&lt;b&gt;</pre>"),
    ("```csv\na,b\n```", "<pre>a,b</pre>"),
    ("```one line```", "<pre>one line</pre>"),
    ("```never closed\nx", "<pre>never closed\nx</pre>"),
    ("[page](https://example.org)", '<p><a href="https://example.org">page</a></p>'),
]


@pytest.mark.parametrize(("text", "expected"), MARKS)
def test_marks(text: str, expected: str) -> None:
    assert to_html(text) == expected


def test_lists_keep_their_depth_and_numbers() -> None:
    assert to_html("- a\n  - b").count("•") == 2
    assert "margin-left:2em" in to_html("  - b")
    assert "<span>2.</span><span>wax</span>" in to_html("2. wax")


HOSTILE = "<script>alert(1)</script>\"onload='x'<img src=x>"


@pytest.mark.parametrize(
    "payload",
    [
        {"content": HOSTILE},
        {"content": f"**{HOSTILE}** `{HOSTILE}`\n# {HOSTILE}\n- {HOSTILE}\n> {HOSTILE}\n```\n{HOSTILE}\n```"},
        {"content": f"[{HOSTILE}](https://a/{HOSTILE.replace(' ', '')})"},
        {"embeds": [dict.fromkeys(("title", "description"), HOSTILE) | {"footer": {"text": HOSTILE}}]},
        {"embeds": [{"fields": [{"name": HOSTILE, "value": HOSTILE}], "image": {"url": HOSTILE}}]},
        {"attachments": [{"filename": HOSTILE, "description": HOSTILE}]},
        {"components": [{"type": 1, "components": [{"type": 2, "label": HOSTILE, "emoji": {"name": HOSTILE}}]}]},
        {"components": [{"type": 3, "placeholder": HOSTILE, "options": [{"label": HOSTILE, "description": HOSTILE}]}]},
        {"components": [{"type": 17, "components": [{"type": 10, "content": HOSTILE}]}, {"type": HOSTILE}]},
        {"title": HOSTILE, "components": [{"type": 18, "label": HOSTILE, "component": {"type": 4, "value": HOSTILE}}]},
        {"title": "t", "components": [{"type": 4, "label": HOSTILE, "placeholder": HOSTILE}]},
    ],
)
def test_nothing_gets_through_unescaped(payload: dict[str, object]) -> None:
    tags: set[str] = set()
    attributes: set[str] = set()

    class Reader(html.parser.HTMLParser):
        def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
            tags.add(tag)
            attributes.update(name for name, _ in attrs)

    page = draw(payload, title=HOSTILE)
    Reader().feed(page)
    assert "alert(1)" in page
    assert not tags & {"script", "img"}
    assert "onload" not in attributes


@pytest.mark.parametrize("piece", ["*", "**", "_a", "`", "[", "[a](", "</a", "~~", "```\n", "> ", "\\", "- ", "1"])
def test_four_times_the_text_is_about_four_times_the_work(piece: str) -> None:
    """Squared would be sixteen times."""

    def work(length: int) -> int:
        text = (piece * length)[:length]
        return lines_run(lambda: (to_html(text), inline(text)))

    assert work(6000) <= 8 * work(1500) + 500


async def test_real_payloads_are_drawn_whole(standin: StandIn, bot: SampleBot) -> None:
    panel = await standin.slash("panel")
    form = await standin.slash("form")
    layout = await standin.slash("layout")
    page = draw_all([("panel", panel.message.payload), ("form", form.modal), ("layout", layout.message.payload)])
    words = re.sub(r"<[^>]+>", " ", page)
    expected = (
        "the panel",
        "Form",
        "Unit ▾",
        "grams",
        "Density",
        "Material",
        "by scale",
        "46.5 g",
        "of the wax",
        "Other",
    )
    for seen in expected:
        assert seen in words, seen
    assert "width: 390px" in page
    assert page.count("disabled>Off") == 1
