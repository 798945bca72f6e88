"""What the buttons below an answer do, for the asker and for everybody else."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.client import SteelyardClient
from bot.clock import now
from tests.bot.bots import steelyard
from tests.standin.limits import MESSAGE, UPDATE
from tests.standin.server import StandIn
from tests.standin.world import MEMBER, SEND_MESSAGES, USE_EXTERNAL_APPS, Person, Server

POUND = {"wax": "450g", "load": "8%"}


def labels(reply: object) -> list[str]:
    return [button["label"] for button in reply.message.buttons]  # type: ignore[attr-defined]


async def test_the_other_basis_and_back(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", POUND)
    assert first.text.startswith("**36 g (1.27 oz) of fragrance oil.**")
    # 450 × 8 ÷ 92 = 39.13, by hand
    total = await standin.press("As % of the total", first)
    assert total.type == UPDATE
    assert total.text.startswith("**39.1 g")
    wax = await standin.press("As % of the wax", total)
    assert wax.text.startswith("**36 g")


async def test_ounces_first_and_grams_first(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", POUND)
    ounces = await standin.press("Ounces first", first)
    assert ounces.text.startswith("**1.27 oz (36 g)")
    assert (await standin.press("Grams first", ounces)).text.startswith("**36 g (1.27 oz)")


async def test_the_unit_chosen_lasts_through_the_other_buttons(standin: StandIn, client: SteelyardClient) -> None:
    ounces = await standin.press("Ounces first", await standin.slash("load", POUND))
    hidden = await standin.press("Hide the steps", ounces)
    assert hidden.text.startswith("**1.27 oz (36 g)")
    assert "wax × load" not in hidden.text
    shown = await standin.press("Show the steps", await standin.press("As % of the total", hidden))
    assert shown.text.startswith("**1.38 oz (39.1 g)")
    assert "(100 − load)" in shown.text


async def test_another_presser_gets_a_private_copy(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", POUND)
    before = first.text
    other = Person("other")
    copy = await standin.press("As % of the total", first, user=other)
    assert copy.type == MESSAGE
    assert copy.ephemeral
    assert copy.text.startswith("**39.1 g")
    assert first.text == before
    # the copy is the other one's own, to change
    changed = await standin.press("Ounces first", copy, user=other)
    assert changed.type == UPDATE
    assert changed.text.startswith("**1.38 oz")


@pytest.mark.parametrize("button", ["As % of the total", "Ounces first", "Hide the steps", "Make it a batch"])
async def test_buttons_work_after_a_restart(standin: StandIn, database: Path, button: str) -> None:
    async with steelyard(standin, database):
        first = await standin.slash("load", POUND)
    async with steelyard(standin, database):
        reply = await standin.press(button, first)
        assert reply.statuses == [204]


async def test_a_question_too_long_for_a_button_is_kept_through_a_restart(standin: StandIn, database: Path) -> None:
    fills = ", ".join(f"{count} x {200 + count} g" for count in range(1, 15))
    async with steelyard(standin, database) as client:
        first = await standin.slash("batch", {"fills": fills, "load": "8%"})
        assert all(len(button["custom_id"]) <= 100 for button in first.message.buttons)
        while client.kept.waiting:
            await client.kept.save(now())
    async with steelyard(standin, database):
        again = await standin.press("Ounces first", first)
        assert again.type == UPDATE
        assert again.text.startswith("**")


async def test_a_kept_question_that_is_gone_is_said(standin: StandIn, database: Path) -> None:
    fills = ", ".join(f"{count} x {200 + count} g" for count in range(1, 15))
    async with steelyard(standin, database):
        first = await standin.slash("batch", {"fills": fills, "load": "8%"})
    async with steelyard(standin, database.with_name("another.db")):
        reply = await standin.press("Ounces first", first)
        assert reply.ephemeral
        assert "ask it again" in reply.text


@pytest.mark.parametrize("custom_id", ["s0:b:1:x", "s1:b:1", "s1:zz:1:-s0~/load", "counter:4", "s1:bt:1:-s0~/nope a"])
async def test_a_button_of_another_version_is_answered(
    standin: StandIn, client: SteelyardClient, custom_id: str
) -> None:
    first = await standin.slash("load", POUND)
    first.message.buttons[0]["custom_id"] = custom_id
    reply = await standin.press(custom_id, first)
    assert reply.ephemeral
    assert "another version of me" in reply.text


async def test_a_deleted_message_is_answered_anew(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", POUND)
    await standin.delete(first.message)
    reply = await standin.press("Ounces first", first)
    assert reply.text.startswith("**1.27 oz")
    assert reply.message is not first.message
    assert reply.ephemeral


async def test_posted_to_the_channel_once(standin: StandIn, client: SteelyardClient) -> None:
    public = await standin.slash("load", POUND)
    assert "Post to the channel" not in labels(public)
    who = Person("other")
    copy = await standin.press("Ounces first", public, user=who)
    posted = await standin.press("Post to the channel", copy, user=who)
    await posted.until(lambda r: r.edits >= 1 or len(r.calls) >= 3)
    post = next(message for message in posted.messages if not message.ephemeral)
    assert post.text.startswith("**1.27 oz (36 g)")
    assert f"<@{who.id}>" in post.text
    assert "Post to the channel" not in labels(copy)


async def test_a_second_press_says_that_it_is_there(standin: StandIn, client: SteelyardClient) -> None:
    person = Person("other")
    copy = await standin.press("Ounces first", await standin.slash("load", POUND), user=person)
    key = next(b["custom_id"] for b in copy.message.buttons if b["label"] == "Post to the channel")
    kept = [dict(row) for row in copy.message.payload["components"]]
    first = await standin.press(key, copy, user=person)
    await first.until(lambda r: len(r.calls) >= 3)
    copy.message.payload["components"] = kept  # as on a phone that has not heard of the change
    second = await standin.press(key, copy, user=person)
    assert second.ephemeral
    assert "already" in second.text
    public = [m for m in standin.ledger.messages.values() if m.text.startswith("**1.27 oz") and not m.ephemeral]
    assert len(public) == 1


async def test_posted_before_a_restart_is_known_after_it(standin: StandIn, database: Path) -> None:
    person = Person("other")
    async with steelyard(standin, database):
        copy = await standin.press("Ounces first", await standin.slash("load", POUND), user=person)
        key = next(b["custom_id"] for b in copy.message.buttons if b["label"] == "Post to the channel")
        kept = [dict(row) for row in copy.message.payload["components"]]
        first = await standin.press(key, copy, user=person)
        await first.until(lambda r: len(r.calls) >= 3)
    async with steelyard(standin, database):
        copy.message.payload["components"] = kept
        assert "already" in (await standin.press(key, copy, user=person)).text


async def test_posting_without_the_right_to_write_is_refused(standin: StandIn, client: SteelyardClient) -> None:
    person = Person("silent")
    quiet = MEMBER & ~SEND_MESSAGES
    private = await standin.slash("load", POUND, user=person, permissions=quiet)
    assert private.ephemeral
    copy = await standin.press("Ounces first", await standin.slash("load", POUND), user=person)
    refused = await standin.press("Post to the channel", copy, user=person, permissions=quiet)
    assert refused.ephemeral
    assert "may not write" in refused.text
    assert "Post to the channel" in labels(copy)


async def test_posting_with_an_own_app_where_that_is_forbidden(standin: StandIn, client: SteelyardClient) -> None:
    away = Server("never joined")
    person = Person("guest")
    forbidden = MEMBER & ~USE_EXTERNAL_APPS
    first = await standin.slash("load", POUND, user=person, guild=away, install="user", permissions=forbidden)
    assert first.ephemeral
    third = Person("third")
    copy = await standin.press("Ounces first", first, user=third, permissions=forbidden)
    refused = await standin.press("Post to the channel", copy, user=third, permissions=forbidden)
    assert refused.ephemeral
    assert "app of their own" in refused.text


async def test_the_lesson_is_for_whoever_pressed(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", POUND)
    before = first.text
    lesson = await standin.press("Lesson: percent of what?", first, user=Person("other"))
    assert lesson.ephemeral
    assert lesson.type == MESSAGE
    assert "%" in lesson.text
    assert first.text == before


@pytest.mark.parametrize(("unit", "first", "other"), [("oz", "16 oz", "500 g"), ("g", "500 g", "16 oz")])
async def test_the_lesson_is_in_the_unit_the_answer_is_shown_in(
    standin: StandIn, client: SteelyardClient, unit: str, first: str, other: str
) -> None:
    answer = await standin.slash("load", {"wax": "1 lb" if unit == "g" else "450 g", "load": "8%"})
    answer = await standin.press("Ounces first" if unit == "oz" else "Grams first", answer)
    lesson = await standin.press("Lesson: percent of what?", answer)
    assert lesson.text.startswith(f"**For {first} of wax")
    # its own buttons keep to it, and turn it round
    further = next(button["label"] for button in lesson.message.buttons if button["label"].startswith("Lesson"))
    assert next(b["custom_id"] for b in lesson.message.buttons if b["label"] == further).endswith(f"~{unit}")
    turned = await standin.press("Grams first" if unit == "oz" else "Ounces first", lesson)
    assert turned.text.startswith(f"**For {other} of wax")


async def test_a_lesson_button_of_an_earlier_version_still_works(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", POUND)
    button = next(each for each in first.message.buttons if each["label"].startswith("Lesson"))
    button["custom_id"] = button["custom_id"].partition("~")[0]
    assert (await standin.press(button["custom_id"], first)).text.startswith("**For 500 g of wax")


async def test_a_lesson_posted_keeps_its_unit(standin: StandIn, client: SteelyardClient) -> None:
    lesson = await standin.press("Lesson: percent of what?", await standin.slash("load", {"wax": "1 lb", "load": "8%"}))
    posted = await standin.press("Post to the channel", lesson)
    await posted.until(lambda reply: len(reply.calls) >= 3)
    public = next(message for message in posted.messages if not message.ephemeral)
    assert public.text.startswith("**For 16 oz of wax")


async def test_options_of_a_choice_are_buttons(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("vessel", {"ounces": "8 oz", "density": "0.9 g/ml"})
    options = [b for b in first.message.buttons if b["custom_id"].startswith("s1:o")]
    assert len(options) >= 2
    chosen = await standin.press(options[0]["custom_id"], first)
    assert chosen.type == UPDATE
    assert chosen.text.startswith("**")
    assert chosen.text != first.text or not chosen.message.selects


async def test_more_options_than_buttons_are_a_list(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("lesson")
    (select,) = first.message.selects
    assert len(select["options"]) > 5
    chosen = await standin.select(select["custom_id"], ["Tare, and weighing one thing onto another"], first)
    assert chosen.type == UPDATE
    assert "scale" in chosen.text.casefold()


async def test_the_table_as_files(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("batch", {"fills": "12 x 200g, 6 x 90g", "load": "8%"})
    files = await standin.press("Table as a file", first)
    assert files.ephemeral
    assert set(files.files) == {"table.csv", "answer.txt"}
    rows = files.files["table.csv"].decode("utf-8-sig").splitlines()
    assert len(rows) >= 3
    assert len({row.count(",") for row in rows}) == 1
    assert b"fragrance" in files.files["answer.txt"]
    assert all(attachment.get("description") for attachment in files.message.payload["attachments"])
