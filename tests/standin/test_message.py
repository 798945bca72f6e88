"""How a kept message takes creations and edits."""

from __future__ import annotations

import pytest

from tests.standin.limits import EPHEMERAL, SECOND_GENERATION
from tests.standin.message import LOADING, mentioned_ids, new_message
from tests.standin.world import Person

BASE = "http://127.0.0.1:1"


def test_an_edit_leaves_what_it_does_not_name() -> None:
    message = new_message(Person("bot"), 1)
    message.apply({"content": "a", "embeds": [{"title": "t"}]}, {}, BASE)
    message.apply({"content": "b"}, {}, BASE)
    assert (message.content, message.embeds) == ("b", [{"title": "t", "type": "rich"}])
    message.apply({"content": None, "embeds": []}, {}, BASE)
    assert (message.content, message.embeds) == ("", [])
    assert len(message.sent) == 3


@pytest.mark.parametrize("lasting", [EPHEMERAL, SECOND_GENERATION])
def test_visibility_and_generation_cannot_be_edited_away(lasting: int) -> None:
    message = new_message(Person("bot"), 1, lasting | LOADING)
    message.apply({"content": "", "flags": 1 << 2}, {}, BASE)
    assert message.payload["flags"] == lasting | 1 << 2


def test_files_are_kept_added_and_removed() -> None:
    message = new_message(Person("bot"), 1)
    described = {"id": 0, "filename": "a.csv", "description": "the table"}
    message.apply({"attachments": [described]}, {"a.csv": b"1"}, BASE)
    (first,) = message.payload["attachments"]
    assert (first["description"], first["size"]) == ("the table", 1)
    message.apply({"attachments": [first, {"id": 0, "filename": "b.csv"}]}, {"b.csv": b"22"}, BASE)
    assert message.files == {"a.csv": b"1", "b.csv": b"22"}
    message.apply({"content": "c"}, {}, BASE)
    assert set(message.files) == {"a.csv", "b.csv"}
    message.apply({"attachments": []}, {}, BASE)
    assert message.files == {}


def test_text_is_all_a_reader_sees_in_order() -> None:
    message = new_message(Person("bot"), 1)
    embed = {"title": "T", "description": "D", "fields": [{"name": "N", "value": "V"}], "footer": {"text": "F"}}
    button = {"type": 2, "style": 1, "label": "B", "custom_id": "b"}
    body = {"content": "C", "embeds": [embed], "components": [{"type": 1, "components": [button]}]}
    message.apply(body, {}, BASE)
    assert message.text.split("\n") == ["C", "T", "D", "N", "V", "F", "B"]


def test_mentions() -> None:
    assert mentioned_ids("<@1> and <@!22> but not <#3> or <@&4>") == {1, 22}
