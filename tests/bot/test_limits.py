"""Every limit of the platform, over the whole command tree and the largest answers there can be."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest

from bot.buttons import Below
from bot.client import SteelyardClient, make_client
from bot.config import Config
from bot.desk import COMMANDS, Desk
from bot.kept import Kept
from bot.message import Reader, Writer
from bot.people import asker_of
from bot.press import ON_PRESS
from bot.reply import PAGE
from bot.state import LONGEST, Shown, questions_of
from bot.submit import ON_SUBMIT
from bot.suggest import suggestions
from core.answer import Choice, Given, Line, Missing, Option, Origin, Step, Table, Worked, line
from core.ask import answer
from core.book import EmptyBook
from core.questions.batch import BatchQuestion
from core.questions.load import LoadQuestion
from core.reading.slash_form import build
from core.units import Mass
from tests.standin.limits import EMBED_DESCRIPTION, violations
from tests.standin.server import StandIn

LARGEST_ID = 2**64 - 1
LONG = "ü" * 79 + "😀"


@pytest.fixture
def writer() -> Writer:
    return Writer(Desk(None), Kept(None))


def payload(writer: Writer, answered: Any, shown: Shown = Shown(), **more: Any) -> dict[str, Any]:  # noqa: B008
    """The message as it would be sent."""
    made = writer.message(answered, Reader(LARGEST_ID, "de", EmptyBook()), shown, private=True, **more)
    body: dict[str, Any] = {"embeds": [made.embed.to_dict()], "allowed_mentions": {"parse": []}}
    if made.rows is not None:
        body["components"] = made.rows.to_components()
    return body


def test_the_whole_command_tree(tmp_path: Path) -> None:
    client = make_client(Config(tmp_path / "l.db"))
    tree = [command.to_dict(client.tree) for command in client.tree.get_commands()]
    assert len(tree) > 20
    assert violations("commands", tree) == []
    for command in tree:
        assert command["contexts"] == [0, 1, 2]
        assert command["integration_types"] == [0, 1]
        for option in command.get("options", ()):
            assert option["description"] not in ("", "…")


def test_every_question_given_everything_in_its_examples(writer: Writer) -> None:
    for kind in COMMANDS.values():
        if not hasattr(kind, "answer"):
            continue
        from core.question import slots_of

        for slot in slots_of(kind):
            if slot.example:
                asked = build(kind, {slot.name: slot.example}, EmptyBook())
                body = payload(writer, answer(asked, EmptyBook()))  # type: ignore[arg-type]
                assert violations("message", body) == [], f"{kind.command} {slot.name}"


def large_batch() -> BatchQuestion:
    waxes = ", ".join(f"{n} wax {LONG[:60]} {n}" for n in range(1, 15))
    asked = build(BatchQuestion, {"fills": "100 x 200 g", "load": "8%", "waxes": waxes}, EmptyBook())
    assert isinstance(asked, BatchQuestion)
    return asked


def test_a_long_question_with_every_button(writer: Writer) -> None:
    body = payload(writer, answer(large_batch(), EmptyBook()))
    assert violations("message", body) == []
    ids = [b["custom_id"] for row in body["components"] for b in row["components"]]
    assert any("#" in key for key in ids)
    assert max(len(key) for key in ids) <= LONGEST


def worked(**parts: Any) -> Worked:
    return Worked(intent="x", headline=line("{}", LONG), question=LoadQuestion(wax=None), **parts)


MANY = tuple(line("{}, {}", LONG, Mass.of(n, "g")) for n in range(300))


@pytest.mark.parametrize(
    "answered",
    [
        worked(body=MANY),
        worked(steps=tuple(Step(LONG, each, each) for each in MANY)),
        worked(table=Table(LONG, ("a", "b", "c"), tuple((LONG, Mass.of(n, "g"), LONG) for n in range(300)))),
        worked(then=tuple(worked(body=MANY[:20]) for _ in range(20))),
        worked(given=tuple(Given("density", Mass.of(n, "g"), Origin.PUBLISHED, line(LONG)) for n in range(200))),
        worked(body=(Line("x" * 20_000),)),
        worked(see=("bases", "density", "nothing")),
        Missing(intent="x", headline=line(LONG), needs=(), question=LoadQuestion()),
    ],
    ids=["body", "steps", "table", "then", "sources", "one line", "lessons", "missing"],
)
def test_the_largest_answers_on_every_page(writer: Writer, answered: Any) -> None:
    seen = ""
    for page in range(36):
        body = payload(writer, answered, Shown(page=page))
        assert violations("message", body) == []
        text = body["embeds"][0]["description"]
        assert len(text) <= PAGE + 40 <= EMBED_DESCRIPTION
        seen += text
    if answered.table is not None:
        # nothing is lost between two pages
        for number in (0, 150, 200, 299):
            assert f" {number} g" in seen


@pytest.mark.parametrize("count", [1, 2, 5, 6, 25, 40])
def test_choices_of_any_size(writer: Writer, count: int) -> None:
    options = tuple(
        Option(f"{n} {LONG}", line("{}", LONG), build(LoadQuestion, {"wax": f"{n + 1} g"}, EmptyBook()))
        for n in range(count)
    )
    body = payload(writer, Choice(intent="x", headline=line(LONG), options=options))
    assert violations("message", body) == []
    controls = [each for row in body["components"] for each in row["components"]]
    if count <= 5:
        assert len(controls) == count
    else:
        assert len(controls[0]["options"]) == min(count, 25)


def test_below_is_empty_where_there_is_nothing_to_do(writer: Writer) -> None:
    bare = Worked(intent="x", headline=line("done"))
    below = Below(1, writer.kept, Shown(), "g")
    assert below.rows(bare, questions_of(bare)) is None


def test_every_verb_has_one_meaning() -> None:
    assert not set(ON_PRESS) & set(ON_SUBMIT)
    assert not {"p", "P", "S", "V"} & {*ON_PRESS, *ON_SUBMIT}


async def test_completions_keep_their_limits(standin: StandIn, client: SteelyardClient) -> None:
    for typed in ("", "4", "450", "x" * 300, "@everyone", "0.5"):
        for option in ("wax", "load", "density"):
            reply = await standin.autocomplete("load", {option: typed}, option)
            assert len(reply.choices) <= 25
    assert asker_of is not None
    assert len(suggestions(Mass, "450", EmptyBook())) == 4


async def test_hostile_words_stay_harmless(standin: StandIn, client: SteelyardClient) -> None:
    nasty = "@everyone <@1> [x](https://example.org) **b** `c` ||s|| # h"
    reply = await standin.slash("volume", {"volume": "30 ml", "material": nasty})
    assert "@everyone" not in reply.text
    assert "<@1>" not in reply.text.replace("\\<", "")
    assert "](https://" not in reply.text
    assert all(call.body.get("data", {}).get("allowed_mentions") == {"parse": []} for call in standin.calls[-1:])
