"""The settings panels: a person's own and the server's, and that they hold."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.client import SteelyardClient
from bot.panel import step_words
from core.questions.steps import NO_STEP
from tests.bot.bots import steelyard
from tests.standin.limits import UPDATE
from tests.standin.reply import Reply
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, MEMBER, Channel, Person, Role, Server

POUND = {"wax": "450g", "load": "8%"}


def control(reply: Reply, ending: str) -> str:
    """The id of the list or button whose verb ends so."""
    for part in reply.message.components:
        key = part.get("custom_id", "")
        if key.startswith(f"s1:{ending}:"):
            return str(key)
    raise AssertionError(f"nothing {ending} here")


async def test_my_settings_hold_for_me_alone_and_everywhere(standin: StandIn, client: SteelyardClient) -> None:
    panel = await standin.slash("settings")
    assert panel.ephemeral
    kept = await standin.select(control(panel, "Sfirst"), ["oz"], panel)
    assert kept.type == UPDATE
    assert "Kept." in kept.text
    assert (await standin.slash("load", POUND)).text.startswith("**1.27 oz (36 g)")
    assert (await standin.slash("load", POUND, guild=None)).text.startswith("**1.27 oz (36 g)")
    assert (await standin.slash("load", POUND, user=Person("other"))).text.startswith("**36 g")
    await standin.select(control(kept, "Sfirst"), ["-"], kept)
    assert (await standin.slash("load", POUND)).text.startswith("**36 g")


async def test_my_answers_for_me_alone(standin: StandIn, client: SteelyardClient) -> None:
    panel = await standin.slash("settings")
    await standin.select(control(panel, "Sprivate"), ["yes"], panel)
    answer = await standin.slash("load", POUND)
    assert answer.ephemeral
    posted = await standin.press("Post to the channel", answer)
    await posted.until(lambda reply: len(reply.calls) >= 3)
    assert any(not message.ephemeral and "36 g" in message.text for message in posted.messages)


async def test_basis_and_scale_and_decimal_comma(standin: StandIn, client: SteelyardClient) -> None:
    panel = await standin.slash("settings")
    await standin.select(control(panel, "Sbasis"), ["total"], panel)
    panel = await standin.select(control(panel, "Scomma"), ["yes"], panel)
    form = await standin.press("Scale and currency", panel)
    kept = await standin.submit(form, {"step": "0.01"})
    assert "0.01 g" in kept.text
    # 450 × 8 ÷ 92 = 39.130…, on a scale of 0.01 g, with a comma
    assert (await standin.slash("load", POUND)).text.startswith("**39,13 g")


async def test_a_wrong_step_comes_back_to_be_corrected(standin: StandIn, client: SteelyardClient) -> None:
    form = await standin.press("Scale and currency", await standin.slash("settings"))
    wrong = await standin.submit(form, {"step": "a bit", "currency": "eur"})
    assert wrong.ephemeral
    assert "a bit" in wrong.text
    again = await standin.press("Correct it", wrong)
    fields = {part["component"]["custom_id"]: part["component"] for part in again.modal["components"]}
    assert fields["step"]["value"] == "a bit"
    assert [o["value"] for o in fields["currency"]["options"] if o.get("default")] == ["eur"]
    assert "0.1 g" in (await standin.submit(again, {"step": "0.1"})).text


async def test_the_decimal_sign_follows_the_language_until_somebody_says(
    standin: StandIn, client: SteelyardClient
) -> None:
    comma = {"wax": "620 g", "load": "7.5 %"}
    assert (await standin.slash("load", comma, locale="de")).text.startswith("**46,5 g")
    assert (await standin.slash("load", comma, locale="en-GB")).text.startswith("**46.5 g")
    panel = await standin.slash("settings", locale="de")
    await standin.select(control(panel, "Scomma"), ["no"], panel)
    assert (await standin.slash("load", comma, locale="de")).text.startswith("**46.5 g")


async def test_the_server_has_defaults_of_its_own(standin: StandIn, client: SteelyardClient) -> None:
    panel = await standin.press(
        "The server's settings", await standin.slash("settings", permissions=MANAGER), permissions=MANAGER
    )
    await standin.select(control(panel, "Vbasis"), ["total"], panel, permissions=MANAGER)
    assert (await standin.slash("load", POUND, user=Person("member"))).text.startswith("**39.1 g")
    # who set their own keeps it
    mine = await standin.slash("settings")
    await standin.select(control(mine, "Sbasis"), ["wax"], mine)
    assert (await standin.slash("load", POUND)).text.startswith("**36 g")
    # and it holds nowhere else
    assert (await standin.slash("load", POUND, guild=None, user=Person("away"))).text.startswith("**36 g")


async def test_only_who_manages_the_server_changes_it(standin: StandIn, client: SteelyardClient) -> None:
    plain = await standin.slash("settings")
    assert "The server's settings" not in [button["label"] for button in plain.message.buttons]
    panel = await standin.press(
        "The server's settings", await standin.slash("settings", permissions=MANAGER), permissions=MANAGER
    )
    # the right was taken away while the panel stood open
    refused = await standin.select(control(panel, "Vbasis"), ["total"], panel, permissions=MEMBER)
    assert "manage this server" in refused.text
    assert client.desk.library is not None
    assert client.desk.library.own_settings(f"guild:{standin.home.id}") == {}


async def test_a_role_that_may_record(database: Path) -> None:
    role = Role("makers")
    home = Server("home", roles=(role,))
    async with StandIn(servers=(home,)) as standin, steelyard(standin, database):
        given = {"material": "rose oil", "density": "0.93 g/ml"}
        maker = Person("maker")
        assert "manage this server" in (await standin.slash("record_density", given, user=maker)).text
        panel = await standin.press(
            "The server's settings", await standin.slash("settings", permissions=MANAGER), permissions=MANAGER
        )
        kept = await standin.select(control(panel, "Vrecorders"), [role], panel, permissions=MANAGER)
        assert f"<@&{role.id}>" in kept.text
        assert "Recorded" in (await standin.slash("record_density", given, user=maker, roles=(role,))).text
        assert "manage this server" in (await standin.slash("record_density", given, user=Person("else"))).text


async def test_channels_where_answers_are_private(database: Path) -> None:
    loud, quiet = Channel("general"), Channel("quiet")
    async with StandIn(servers=(Server("home", channels=(loud, quiet)),)) as standin, steelyard(standin, database):
        panel = await standin.press(
            "The server's settings", await standin.slash("settings", permissions=MANAGER), permissions=MANAGER
        )
        await standin.select(control(panel, "Vprivate_channels"), [quiet], panel, permissions=MANAGER)
        assert (await standin.slash("load", POUND, channel=quiet)).ephemeral
        assert not (await standin.slash("load", POUND, channel=loud)).ephemeral


@pytest.mark.parametrize("whose", ["mine", "channel"])
async def test_a_mention_where_answers_are_private_is_not_answered_for_all(
    standin: StandIn, client: SteelyardClient, whose: str
) -> None:
    panel = await standin.slash("settings", permissions=MANAGER)
    if whose == "mine":
        await standin.select(control(panel, "Sprivate"), ["yes"], panel)
    else:
        panel = await standin.press("The server's settings", panel, permissions=MANAGER)
        channel = standin.home.channels[0]
        await standin.select(control(panel, "Vprivate_channels"), [channel], panel, permissions=MANAGER)
    reply = await standin.message("450 g wax at 8 %, how much fragrance?", mention=True)
    assert "36 g" not in reply.text
    assert "/ask" in reply.text
    assert (await standin.slash("ask", {"question": "450 g wax at 8 %, how much fragrance?"})).ephemeral
    # a direct message is private anyway
    assert "36 g" in (await standin.message("450 g wax at 8 %, how much fragrance?", dm=True)).text


async def test_usual_vessels_and_packs_are_taken_and_said(standin: StandIn, client: SteelyardClient) -> None:
    panel = await standin.press(
        "The server's settings", await standin.slash("settings", permissions=MANAGER), permissions=MANAGER
    )
    form = await standin.press("Packs and vessels", panel, permissions=MANAGER)
    wrong = await standin.submit(form, {"packs": "big ones", "vessels": "12 x 200 g"}, permissions=MANAGER)
    assert "big ones" in wrong.text
    again = await standin.press("Correct it", wrong, permissions=MANAGER)
    await standin.submit(again, {"packs": "1 kg 14 eur, 5 kg 58 eur"}, permissions=MANAGER)
    batch = await standin.slash("batch", {"load": "8%"})
    assert "12 × 200 g" in batch.text
    assert "usual vessels" in batch.text
    # 9 kg from 1 kg at 14 and 5 kg at 58: 5 + 4 × 1 cost 58 + 56 = 114; two of 5 kg cost 116
    bought = await standin.slash("buy", {"need": "9 kg"})
    assert "114" in bought.text.splitlines()[0]
    assert "usual packs" in bought.text


@pytest.mark.parametrize("place", ["direct", "own app"])
async def test_no_server_panel_where_the_bot_is_no_member(
    standin: StandIn, client: SteelyardClient, place: str
) -> None:
    if place == "direct":
        panel = await standin.slash("settings", guild=None)
    else:
        panel = await standin.slash("settings", guild=Server("away"), install="user", permissions=MANAGER)
    assert "The server's settings" not in [button["label"] for button in panel.message.buttons]


async def test_settings_that_cannot_be_kept_are_said(standin: StandIn, client: SteelyardClient, database: Path) -> None:
    database.mkdir()  # a folder where the file should be
    refused = await standin.slash("settings")
    assert refused.ephemeral
    assert "library" in refused.text.casefold()


def test_the_panel_says_the_step_that_answers_take() -> None:
    assert step_words({}) == NO_STEP
    assert step_words({"step": "0.1"}) == "0.1 g"
