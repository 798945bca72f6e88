"""Every kind of message as the bot really sends it: what makes it pleasant to read and can be checked without eyes."""

from __future__ import annotations

import re
from collections.abc import Iterator
from pathlib import Path

import pytest

from bot.desk import COMMANDS
from bot.help import grouped
from tests.bot.gallery import GROUPS, drawn
from tests.standin.component_limits import walk
from tests.standin.draw import draw_all
from tests.standin.world import Json

LONGEST_HEADLINE = 220
MOST_BUTTONS = 7
LONGEST_LABEL = 38  # the platform's own advice for a button without a picture
# A sign that is no letter, number or common mark: a picture that a screen reader names or leaves out.
PICTURES = re.compile("[\u2600-\u27bf\u2b00-\u2bff\U0001f000-\U0001faff]")
SAME_ON_BOTH_SIDES = re.compile(r": (.+) = \1$")


def texts(payload: Json) -> Iterator[str]:
    """Everything in it that is read."""
    yield payload.get("content") or ""
    for embed in payload.get("embeds") or ():
        yield embed.get("description") or ""
    for part in walk(payload.get("components") or ()):
        for key in ("label", "placeholder", "description", "content"):
            yield part.get(key) or ""
        yield from (f"{each.get('label')} {each.get('description')}" for each in part.get("options") or ())


@pytest.mark.parametrize("group", GROUPS)
async def test_pleasant_to_read(group: str, tmp_path: Path) -> None:
    seen = await drawn(group, tmp_path / "library.db")
    assert seen
    for title, payload in seen:
        whole = "\n".join(texts(payload))
        assert whole.strip(), title
        assert "```" not in whole, f"{title}: a code block is cut off on a phone"
        assert not PICTURES.search(whole), f"{title}: {PICTURES.search(whole)}"
        assert "went wrong on my side" not in whole, title
        for embed in payload.get("embeds") or ():
            assert "color" not in embed, f"{title}: a colour says nothing to who can't see it"
            lines = embed["description"].splitlines()
            assert len(lines[0]) <= LONGEST_HEADLINE, f"{title}: {lines[0]}"
            long = [line for line in lines if len(line) > 12]
            assert len(long) == len(set(long)), f"{title}: a line stands there twice"
            assert not [line for line in lines if SAME_ON_BOTH_SIDES.search(line)], title
        labels = [part["label"] for part in walk(payload.get("components") or ()) if part["type"] == 2]
        assert len(labels) == len(set(labels)), title
        assert len(labels) <= MOST_BUTTONS, f"{title}: {labels}"
        assert all(label.strip() for label in labels), title
        assert max(map(len, labels), default=0) <= LONGEST_LABEL, f"{title}: {max(labels, key=len)}"
        for attachment in payload.get("attachments") or ():
            assert attachment.get("description"), f"{title}: a file without words for what it is"
    page = draw_all(seen)
    assert page.count("<article>") + page.count("<button class=strong>Submit") == len(seen)


def test_every_command_has_its_place_in_the_help() -> None:
    listed = [name for _, names in grouped(COMMANDS) for name in names]
    assert sorted(listed) == sorted(COMMANDS)
