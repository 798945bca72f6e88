"""The house rules, read off the code itself: what core may know, where SQLite lives, what questions bring along."""

from __future__ import annotations

import ast
import subprocess
import sys
import types
import typing
from collections import Counter
from collections.abc import Callable, Iterable, Iterator
from dataclasses import fields
from enum import StrEnum
from pathlib import Path
from typing import Any

import pytest

from core.action import Action, Actor
from core.actions import ACTIONS
from core.answer import Answer, Choice, Declined, Lesson, Missing, NotUnderstood, Worked
from core.ask import answer, from_error
from core.book import EmptyBook
from core.compounds import Material, Words
from core.errors import SteelyardError
from core.library import Library
from core.question import Question, Slot, description, slots_of
from core.questions import QUESTIONS
from core.reading.slash_form import build, read_form, write_form
from core.reading.values import read_value

ROOT = Path(__file__).resolve().parents[2]
TREES = {
    path.relative_to(ROOT).as_posix(): ast.parse(path.read_text("utf-8"), str(path))
    for room in ("core", "bot")
    for path in sorted((ROOT / room).rglob("*.py"))
}
KINDS: tuple[type[Question | Action], ...] = (*QUESTIONS, *ACTIONS)
# What people may be given in answer to nothing but a command's name.
ASKS_BACK = (Missing, Choice, Lesson)
OUTSIDE_WORLD = {"discord", "aiohttp", "socket", "http", "urllib", "requests", "ssl", "smtplib", "asyncio", "bot"}
# The one clock of core measures how long ago a file was found locked or was written to; no answer depends on it.
CLOCK_ALLOWED = "core/library/connection.py"
# Scores that weigh readings against each other; no figure of an answer is made of them.
SCORES_ALLOWED = "core/reading/nearest.py"
DATABASE = {"sqlite3", "sqlite_utils"}
LONGEST_NAME = 32  # of a command or an option, by Discord's documentation

Rule = Callable[[str, ast.Module], Iterable[str]]


def broken(room: str, rule: Rule) -> list[str]:
    """Where a rule does not hold in a room, as "file: what"."""
    return [f"{name}: {what}" for name, tree in TREES.items() if name.startswith(room) for what in rule(name, tree)]


def imported(tree: ast.Module) -> set[str]:
    """The top-level packages imported anywhere in the file."""
    found: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found.update(alias.name.partition(".")[0] for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            found.add((node.module or "").partition(".")[0])
    return found


def called(tree: ast.Module) -> set[str]:
    """What is called anywhere in the file, as written."""
    return {ast.unparse(node.func) for node in ast.walk(tree) if isinstance(node, ast.Call)}


def test_all_files_are_looked_at() -> None:
    assert len([name for name in TREES if name.startswith("core/")]) > 100
    assert "bot/client.py" in TREES


def test_core_knows_no_discord_no_network_and_no_bot() -> None:
    assert broken("core/", lambda name, tree: imported(tree) & OUTSIDE_WORLD) == []


def test_core_has_no_clock() -> None:
    def reads_it(name: str, tree: ast.Module) -> Iterator[str]:
        if "time" in imported(tree) and name != CLOCK_ALLOWED:
            yield "time"
        yield from (call for call in called(tree) if call.endswith((".now", ".utcnow", ".today")))

    assert broken("core/", reads_it) == []


def test_core_throws_no_dice_but_from_a_seed_it_is_given() -> None:
    def by_chance(name: str, tree: ast.Module) -> Iterator[str]:
        if "secrets" in imported(tree):
            yield "secrets"
        yield from (call for call in called(tree) if call.startswith("random.") and call != "random.Random")

    assert broken("core/", by_chance) == []


def test_sqlite_lives_in_the_library_alone() -> None:
    inside = ("core/library/", "core/actions/")
    assert broken("", lambda name, tree: () if name.startswith(inside) else imported(tree) & DATABASE) == []


def test_the_bot_does_no_sums_with_quantities() -> None:
    """Nothing exact is made there, and no figure of a quantity is reckoned with."""
    makes = {"Decimal", "Fraction", "Mass", "Volume", "Percent", "Density"}

    def sums(name: str, tree: ast.Module) -> Iterator[str]:
        yield from called(tree) & makes
        for node in ast.walk(tree):
            if isinstance(node, ast.BinOp):
                sides = [side for side in (node.left, node.right) if isinstance(side, ast.Attribute)]
                if any(side.attr in ("base", "value", "oz", "ml", "fraction") for side in sides):
                    yield ast.unparse(node)

    assert broken("bot/", sums) == []


def test_answers_are_made_without_binary_fractions() -> None:
    def floats(name: str, tree: ast.Module) -> Iterator[str]:
        if name.startswith("core/library/") or name == SCORES_ALLOWED:  # waiting times, scores
            return
        constants = (node.value for node in ast.walk(tree) if isinstance(node, ast.Constant))
        yield from (str(value) for value in constants if isinstance(value, float))
        yield from called(tree) & {"float"}

    assert broken("core/", floats) == []


def test_what_is_typed_reaches_no_evaluator() -> None:
    forbidden = {"eval", "exec", "compile", "__import__", "os.system"}

    def evaluates(name: str, tree: ast.Module) -> Iterator[str]:
        yield from called(tree) & forbidden
        yield from (call for call in called(tree) if call.endswith((".parse_expression", ".parse_units")))
        yield from imported(tree) & {"pickle", "marshal", "shelve", "subprocess"}

    assert broken("", evaluates) == []


def test_every_module_says_what_it_is_for() -> None:
    assert broken("", lambda name, tree: ["no docstring"] if tree.body and not ast.get_docstring(tree) else []) == []


def test_core_is_imported_without_discord_and_without_a_database() -> None:
    code = (
        "import sys, core.ask, core.questions, core.reading\n"
        "print(sorted({'discord', 'aiohttp', 'sqlite3', 'sqlite_utils'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True)
    assert done.stdout.strip() == "[]"


# --- what every question and action brings along ---------------------------------------------------------------------

EVERY = pytest.mark.parametrize("kind", KINDS, ids=lambda kind: kind.command)


def test_every_command_is_named_once() -> None:
    assert [command for command, times in Counter(kind.command for kind in KINDS).items() if times > 1] == []
    assert len(KINDS) <= 100, "the platform takes no more"


@EVERY
def test_a_command_is_named_and_described_within_the_limits(kind: type[Question | Action]) -> None:
    assert 0 < len(kind.command) <= LONGEST_NAME
    assert kind.command == kind.command.lower()
    assert kind.command.isidentifier()
    assert 0 < len(description(kind)) <= 100
    assert description(kind).endswith((".", "?"))
    names = [slot.name for slot in slots_of(kind)]
    assert len(names) == len(set(names)) <= 25, "the platform takes no more options"


@EVERY
def test_slots_are_described_within_the_limits(kind: type[Question | Action]) -> None:
    for slot in slots_of(kind):
        assert slot.name.isidentifier(), slot
        assert len(slot.name) <= LONGEST_NAME, slot
        assert 0 < len(slot.says) <= 100, slot
        assert len(slot.example) <= 80, slot
        if _listed(slot):
            assert 1 < len(slot.type) <= 25, "the platform takes no more choices"
            assert all(0 < len(member.value) <= 100 for member in slot.type), slot


@EVERY
def test_an_example_is_read_as_what_it_is_an_example_of(kind: type[Question | Action]) -> None:
    for slot in slots_of(kind):
        if slot.example:
            assert isinstance(read_value(slot.type, slot.example, EmptyBook()), tuple(_types(slot.type))), slot
        else:
            assert _listed(slot) or slot.type in (bool, Words, Material), "what is typed needs an example"


def _listed(slot: Slot) -> bool:
    return isinstance(slot.type, type) and issubclass(slot.type, StrEnum)


def _types(kind: Any) -> Iterator[type[Any]]:
    if isinstance(kind, types.UnionType) or typing.get_origin(kind) is typing.Union:
        for part in typing.get_args(kind):
            yield from _types(part)
    else:
        yield kind


@EVERY
def test_every_field_that_people_fill_in_is_a_slot(kind: type[Question | Action]) -> None:
    """What a question holds besides must have a default, so that any adapter can leave it out."""
    named = {slot.name for slot in slots_of(kind)}
    assert all(field.name in named or field.default is not None for field in fields(kind))
    kind()


@EVERY
def test_examples_together_survive_being_written_and_read(kind: type[Question | Action]) -> None:
    texts = {slot.name: slot.example for slot in slots_of(kind) if slot.example}
    asked = build(kind, texts, EmptyBook())
    assert read_form(write_form(asked), {kind.command: kind}, EmptyBook()) == asked


@pytest.mark.parametrize("kind", QUESTIONS, ids=lambda kind: kind.command)
def test_a_question_given_nothing_asks_back(kind: type[Question]) -> None:
    answered = answer(kind(), EmptyBook())
    nothing_needed = {"shelf", *(each.command for each in QUESTIONS if getattr(each, "needs_seed", False))}
    if kind.command in nothing_needed:
        assert not isinstance(answered, NotUnderstood)
    else:
        assert isinstance(answered, ASKS_BACK), answered.headline.show()
    if isinstance(answered, Missing):
        assert answered.needs
        assert answered.results == ()
    if isinstance(answered, Choice):
        assert len(answered.options) > 1


@pytest.mark.parametrize("kind", QUESTIONS, ids=lambda kind: kind.command)
def test_a_question_given_one_thing_never_fails(kind: type[Question]) -> None:
    """Each slot alone, and each left out of all the others: an answer, whatever it is."""
    examples = {slot.name: slot.example for slot in slots_of(kind) if slot.example}
    for one in examples:
        alone = answer(build(kind, {one: examples[one]}, EmptyBook()), EmptyBook())
        others = {name: text for name, text in examples.items() if name != one}
        without = answer(build(kind, others, EmptyBook()), EmptyBook())
        for answered in (alone, without):
            assert isinstance(answered, Worked | Missing | Choice | Lesson | Declined | NotUnderstood)
            assert answered.headline.show()


@pytest.mark.parametrize("kind", ACTIONS, ids=lambda kind: kind.command)
def test_an_action_given_nothing_says_what_it_needs(kind: type[Action], tmp_path: Path) -> None:
    library = Library(tmp_path / "library.db")
    actor = Actor("7", "Ada", "user:7", "2026-01-01T00:00:00+00:00")
    try:
        answered: Answer = kind().act(library, actor)
    except SteelyardError as error:
        answered = from_error(error)
    assert answered.headline.show()
    library.close()


def test_the_map_of_commands_is_the_list() -> None:
    from core.actions import BY_COMMAND as ACTIONS_BY_COMMAND
    from core.questions import BY_COMMAND

    assert list(BY_COMMAND.values()) == list(QUESTIONS)
    assert list(ACTIONS_BY_COMMAND.values()) == list(ACTIONS)
