"""Forms: for what is missing, for what has many fields, and again for what was mistyped."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.client import SteelyardClient
from bot.desk import COMMANDS
from bot.forms import FORMS, NEEDS, asked_in_form, form, wanted
from core.answer import Choice, Missing
from core.book import EmptyBook
from core.question import Question, slots_of
from tests.bot.bots import steelyard
from tests.standin.limits import MESSAGE, UPDATE, violations
from tests.standin.server import StandIn
from tests.standin.world import MANAGER, Person

ALL = sorted(COMMANDS)


async def test_the_missing_figure_completes_the_question(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", {"wax": "450g"})
    asked = await standin.press("Fill it in", first)
    assert [part["component"]["custom_id"] for part in asked.modal["components"]] == ["load"]
    answered = await standin.submit(asked, {"Load": "8%"})
    assert answered.type == UPDATE
    assert answered.text.startswith("**36 g (1.27 oz) of fragrance oil.**")


async def test_two_missing_figures_are_asked_for_together(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", {"limit": "10%"})
    answered = await standin.submit(await standin.press("Fill it in", first), {"wax": "1 lb", "load": "6%"})
    assert answered.text.startswith("**0.96 oz (27.2 g)")  # 16 × 6 ÷ 100


async def test_a_form_outlives_a_restart(standin: StandIn, database: Path) -> None:
    async with steelyard(standin, database):
        asked = await standin.press("Fill it in", await standin.slash("load", {"wax": "450g"}))
    async with steelyard(standin, database):
        answered = await standin.submit(asked, {"load": "8%"})
        assert answered.text.startswith("**36 g")


async def test_somebody_elses_form_answers_them_alone(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("load", {"wax": "450g"})
    other = Person("other")
    asked = await standin.press("Fill it in", first, user=other)
    answered = await standin.submit(asked, {"load": "8%"}, user=other)
    assert answered.type == MESSAGE
    assert answered.ephemeral
    assert "I need the load" in first.text


async def test_a_mistake_in_an_option_loses_nothing(standin: StandIn, client: SteelyardClient) -> None:
    wrong = await standin.slash("load", {"wax": "450 pigs", "load": "8%"})
    assert wrong.ephemeral
    assert "450 pigs" in wrong.text
    assert "Load: 8%" in wrong.text
    again = await standin.press("Correct it", wrong)
    filled = {part["component"]["custom_id"]: part["component"].get("value") for part in again.modal["components"]}
    assert filled["wax"] == "450 pigs"
    assert filled["load"] == "8%"
    right = await standin.submit(again, {"wax": "450 g"})
    assert right.text.startswith("**36 g")
    assert not right.ephemeral


async def test_a_mistake_in_a_form_loses_nothing_even_after_a_restart(standin: StandIn, database: Path) -> None:
    async with steelyard(standin, database):
        opened = await standin.slash("batch")
        wrong = await standin.submit(opened, {"fills": "twelve x 8 %", "load": "8%", "spare": "5%"})
        assert "twelve" in wrong.text
        assert "Spare in percent: 5%" in wrong.text
    async with steelyard(standin, database):
        again = await standin.press("Correct it", wrong)
        right = await standin.submit(again, {"fills": "12 x 200 g"})
        # 12 × 200 × 1.05 = 2520 g in the pot; ÷ 1.08 = 2333 g of wax
        assert "2333 g" in right.text


async def test_more_than_a_form_shows_is_kept_beside_it(standin: StandIn, client: SteelyardClient) -> None:
    options = {"fills": "2 x 200 g", "load": "cats", "spare": "5%", "step": "1 g", "pot": "3 l", "blend": "60/40",
               "waxes": "soy 70, coconut 30"}  # fmt: skip
    again = await standin.press("Correct it", await standin.slash("batch", options))
    shown = [part["component"]["custom_id"] for part in again.modal["components"]]
    assert len(shown) == 5
    right = await standin.submit(again, {"load": "8 %"} if "load" in shown else {})
    assert "coconut" in right.text


async def test_plain_words_that_were_not_understood_come_back(standin: StandIn, client: SteelyardClient) -> None:
    wrong = await standin.slash("ask", {"question": "qwer asdf"})
    assert wrong.ephemeral
    again = await standin.press("Ask in other words", wrong)
    assert again.modal["components"][0]["component"]["value"] == "qwer asdf"
    right = await standin.submit(again, {"question": "450 g wax at 8 %, how much fragrance?"})
    assert right.text.startswith("**36 g")


async def test_a_batch_form_filled_from_a_load(standin: StandIn, client: SteelyardClient) -> None:
    opened = await standin.press("Make it a batch", await standin.slash("load", {"wax": "450g", "load": "8%"}))
    answered = await standin.submit(opened, {"fills": "3 x 150 g"})
    assert answered.type == MESSAGE
    assert "417 g" in answered.text  # 450 ÷ 1.08


async def test_a_batch_form_filled_from_a_vessel(standin: StandIn, client: SteelyardClient) -> None:
    vessel = await standin.slash(
        "vessel", {"empty": "150 g", "full": "402 g", "density": "0.9 g/ml", "count": 12, "at": "20 °C"}
    )
    opened = await standin.press("Make it a batch", vessel)
    filled = {part["component"]["custom_id"]: part["component"].get("value") for part in opened.modal["components"]}
    assert filled["fills"] is not None
    assert filled["fills"].startswith("12 x 227")  # 252 g of water at 20 °C are 252.4 ml; × 0.9


async def test_a_measured_density_recorded_and_used(standin: StandIn, client: SteelyardClient) -> None:
    measured = await standin.slash(
        "density", {"mass": "93.0 g", "volume": "100 ml", "step": "0.1 g", "measure": "beaker"}
    )
    opened = await standin.press("Record this density", measured, permissions=MANAGER)
    recorded = await standin.submit(opened, {"material": "rose oil"}, permissions=MANAGER)
    assert "rose oil" in recorded.text
    used = await standin.slash("volume", {"volume": "30 ml", "material": "rose oil"})
    assert "27.9 g" in used.text.splitlines()[0]  # 30 × 0.93


async def test_who_may_not_record_is_told_and_loses_nothing(standin: StandIn, client: SteelyardClient) -> None:
    refused = await standin.slash("record_density", {"material": "rose oil", "density": "0.93 g/ml"})
    assert refused.ephemeral
    assert "manage this server" in refused.text
    assert "rose oil" in refused.text
    assert client.desk.library is not None
    assert list(client.desk.library.book((f"guild:{standin.home.id}",), "1").names("material", "rose")) == []


async def test_what_an_act_lacks_is_asked_for_with_what_is_there(standin: StandIn, client: SteelyardClient) -> None:
    lacking = await standin.slash("record_vessel", {"vessel": "amber tin"}, permissions=MANAGER)
    opened = await standin.press("Correct it", lacking, permissions=MANAGER)
    recorded = await standin.submit(opened, {"room": "250 ml"}, permissions=MANAGER)
    assert "amber tin" in recorded.text
    assert client.desk.library is not None
    assert client.desk.library.book((f"guild:{standin.home.id}",), "1").vessel("amber tin") is not None


@pytest.mark.parametrize("command", [name for name in FORMS if name in COMMANDS])
async def test_every_form_opens_by_its_name(standin: StandIn, client: SteelyardClient, command: str) -> None:
    opened = await standin.slash("form", {"which": command})
    assert 1 <= len(opened.modal["components"]) <= 5


@pytest.mark.parametrize("command", ALL)
def test_every_form_keeps_the_limits(command: str) -> None:
    kind = COMMANDS[command]
    names = [slot.name for slot in slots_of(kind)]
    longest = dict.fromkeys(names, "x" * 1000)
    for start in range(0, len(names), 5):
        made = form(kind, "s1:G:1:-s0~", names[start : start + 5], longest)
        assert violations("modal", made.to_dict()) == []
    assert len(asked_in_form(kind)) <= 5
    known = set(names)
    assert set(FORMS.get(command, ())) <= known
    for slot in slots_of(kind):
        if slot.required and command in FORMS:
            assert slot.name in asked_in_form(kind)


@pytest.mark.parametrize("command", [name for name in ALL if issubclass(COMMANDS[name], Question)])
def test_what_a_bare_command_lacks_can_be_filled_in(command: str) -> None:
    kind = COMMANDS[command]
    assert issubclass(kind, Question)
    answered = kind().answer(EmptyBook())
    if isinstance(answered, Missing):
        assert answered.question is not None
        assert wanted(answered), f"no slot for {[need.name for need in answered.needs]}"
    else:
        assert isinstance(answered, Choice) or answered.headline.show()


def test_no_need_goes_to_a_slot_that_is_nowhere() -> None:
    slots = {slot.name for kind in COMMANDS.values() for slot in slots_of(kind)} | {"answer"}
    for need, names in NEEDS.items():
        assert set(names) & slots, need


async def test_how_many_is_kept_where_how_much_is_lacking(standin: StandIn, client: SteelyardClient) -> None:
    lacking = await standin.slash("batch", {"fills": "12", "load": "8%"})
    assert "what goes into each one" in lacking.text
    opened = await standin.press("Fill it in", lacking)
    assert "'value': '12 x'" in str(opened.modal)
    answered = await standin.submit(opened, {"fills": "12 x 200 g"})
    assert "enough for 12" in answered.text
