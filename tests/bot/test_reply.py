"""The markup of an answer: order, pages, and somebody's words made harmless."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from bot.chat import answer_text
from bot.desk import Desk
from bot.reply import PAGE, harmless, pages
from bot.state import Draft, OldButton, Shown, base36, mark, pack, read_draft, read_mark, typed_form, unpack
from core.question import slots_of
from core.questions.load import LoadQuestion
from core.reading.slash_form import split_form

LINES = st.lists(
    st.lists(st.text(st.characters(codec="utf-8", exclude_characters="\n"), max_size=400), max_size=30),
    min_size=1,
    max_size=20,
)


@given(LINES)
def test_pages_hold_every_line_in_order(sections: list[list[str]]) -> None:
    found = pages(sections)
    assert all(len(page) <= PAGE for page in found)
    wanted = [line for lines in sections for line in lines if line.strip()]
    seen = [line for page in found for line in page.split("\n") if line.strip()]
    assert seen == wanted


def test_pages_break_between_sections_where_they_can() -> None:
    most = ["x" * 100] * (PAGE * 6 // 1010)  # six tenths of a page
    assert pages([most, most, ["end"]]) == ["\n".join(most), "\n".join([*most, "end"])]


def test_a_section_longer_than_a_page_breaks_between_two_lines() -> None:
    lines = [str(number) * 20 for number in range(100, 300)]
    found = pages([["head"], lines])
    assert len(found) > 1
    assert "\n".join(found) == "\n".join(["head", *lines])


@given(st.text(max_size=300))
def test_nothing_of_somebodys_words_marks_up_mentions_or_links(text: str) -> None:
    shown = harmless(text)
    assert "\n" not in shown
    bare = shown
    for sign in "\\*_`~|>#[]<":
        bare = bare.replace(f"\\{sign}", "")
    assert not set("*_`~|>#[]<") & set(bare)
    assert "://" not in shown
    assert all(shown[i + 1 : i + 2] == "\u200b" for i, sign in enumerate(shown) if sign == "@")
    assert not shown.startswith(("- ", "+ "))


@given(st.integers(0, 2**64 - 1))
def test_base36_reads_back(number: int) -> None:
    assert int(base36(number), 36) == number
    assert len(base36(number)) <= 13


@given(st.integers(0, 2**64 - 1), st.text(max_size=40))
def test_marks_read_back(owner: int, args: str) -> None:
    found = read_mark(mark("uo", owner, args))
    assert (found.verb, found.owner, found.args) == ("uo", owner, args)


@given(st.sampled_from(["", "g", "oz"]), st.booleans(), st.integers(0, 35), st.text(max_size=40))
def test_what_is_shown_reads_back(first: str, steps: bool, page: int, state: str) -> None:
    assert unpack(pack(Shown(first, steps, page), state)) == (Shown(first, steps, page), state)


@pytest.mark.parametrize("args", ["", "~", "gs", "gx0~", "lbs0~", "gs!~x", "gs~x"])
def test_args_that_are_none_of_ours(args: str) -> None:
    with pytest.raises(OldButton):
        unpack(args)


@given(st.dictionaries(st.sampled_from(["wax", "load", "blend"]), st.text(max_size=40)))
def test_a_draft_reads_back(texts: dict[str, str]) -> None:
    draft = Draft("load", texts, "oz", "wax")
    assert read_draft(draft.write()) == draft


@pytest.mark.parametrize("text", ["", "[]", "{}", '{"c": 1}', '{"c":"x","t":3,"u":"","w":""}', "null"])
def test_a_draft_that_is_none(text: str) -> None:
    with pytest.raises(OldButton):
        read_draft(text)


@example({"wax": "0' "})
@given(st.dictionaries(st.sampled_from(["wax", "load", "blend"]), st.text(min_size=1, max_size=40)))
def test_a_form_as_typed_reads_back_or_is_not_given(texts: dict[str, str]) -> None:
    form = typed_form("load", texts)
    if form:
        back = split_form(form.partition(" ")[2], slots_of(LoadQuestion))
        assert back == {name: " ".join(text.split()) for name, text in texts.items() if text.split()}


def test_what_the_first_line_says_is_not_said_again_as_a_caution() -> None:
    text = answer_text("can i thin the wax with gasoline", Desk(None))
    first = text.split("\n")[0]
    assert first.startswith("I won't work that out")
    assert text.count(first) == 1
