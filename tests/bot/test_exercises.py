"""Worked examples and practice: new each time, posted, answered, told how."""

from __future__ import annotations

from pathlib import Path

from bot.client import SteelyardClient
from core.book import EmptyBook
from core.questions.practice import PracticeQuestion
from core.reading.slash_form import read_form
from tests.bot.bots import steelyard
from tests.standin.reply import Reply
from tests.standin.server import StandIn
from tests.standin.world import Person


def task_of(reply: Reply) -> PracticeQuestion:
    """The task behind a message's buttons, with its seed."""
    key = next(b["custom_id"] for b in reply.message.buttons if b["label"] == "Give my answer")
    form = key.partition("~")[2]
    asked = read_form(form[form.index("/") :], {"practice": PracticeQuestion}, EmptyBook())
    assert asked.seed is not None
    return asked


async def test_a_new_example_each_time_and_the_same_by_its_seed(standin: StandIn, client: SteelyardClient) -> None:
    texts: set[str] = set()
    for _ in range(6):
        texts.add((await standin.slash("example")).text)
    assert len(texts) >= 5
    first = await standin.slash("example", {"seed": 7})
    assert (await standin.slash("example", {"seed": 7})).text == first.text
    before = first.text
    other = await standin.press("Another one", first)
    assert other.text != before


async def test_practice_with_the_right_answer(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("practice")
    asked = task_of(first)
    right = asked.answer(EmptyBook())
    solved = asked.solution.answer(EmptyBook())
    assert right.kind == "missing"
    given = solved.headline.show().rpartition("Answer: ")[2].rstrip(".")
    form = await standin.press("Give my answer", first)
    assert form.modal["title"] == "My answer"
    told = await standin.submit(form, {"your_answer": given.partition(" (")[0]})
    assert told.text.startswith("**Right:")


async def test_practice_with_a_wrong_answer_goes_on_after_a_restart(standin: StandIn, database: Path) -> None:
    async with steelyard(standin, database):
        first = await standin.slash("practice", {"seed": 7})
        form = await standin.press("Give my answer", first)
    async with steelyard(standin, database):
        wrong = await standin.submit(form, {"your_answer": "123456 kg"})
        assert not wrong.text.startswith("**Right:")
        task_of(wrong)
        shown = await standin.press("Show how it is worked", wrong, user=Person("curious"))
        assert shown.ephemeral
        assert "Answer:" in shown.text


async def test_members_answer_the_teachers_task_for_themselves(standin: StandIn, client: SteelyardClient) -> None:
    posted = await standin.slash("practice", {"seed": 3}, user=Person("teacher"))
    before = posted.text
    member = Person("member")
    form = await standin.press("Give my answer", posted, user=member)
    told = await standin.submit(form, {"your_answer": "1 g"}, user=member)
    assert told.ephemeral
    assert posted.text == before


async def test_an_answer_in_plain_words(standin: StandIn, client: SteelyardClient) -> None:
    first = await standin.slash("practice")
    solved = task_of(first).solution.answer(EmptyBook())
    given = solved.headline.show().rpartition("Answer: ")[2].rstrip(".").partition(" (")[0]
    told = await standin.slash("ask", {"question": given})
    assert told.text.startswith("**Right:")
