"""What the adapters read off a question class: its slots with their types, and its description."""

from __future__ import annotations

import pytest

from core.compounds import Basis, Masses
from core.question import Question, description, slots_of
from core.questions import BY_COMMAND, QUESTIONS
from core.questions.convert import ConvertQuestion
from core.questions.load import LoadQuestion
from core.units import Length, Mass, Temperature, TemperatureDifference, Volume


def test_slots_carry_the_bare_type() -> None:
    slots = {each.name: each for each in slots_of(LoadQuestion)}
    assert (slots["wax"].type, slots["basis"].type) == (Masses, Basis)
    assert "unit" not in slots
    (amount,) = [each for each in slots_of(ConvertQuestion) if each.name == "amount"]
    assert amount.type == Mass | Volume | Temperature | TemperatureDifference | Length
    assert amount.required


@pytest.mark.parametrize("kind", QUESTIONS)
def test_every_question_is_declared_in_full(kind: type[Question]) -> None:
    # 100 characters: Discord's limit for the description of a command and of an option
    assert 1 <= len(description(kind)) <= 100
    assert BY_COMMAND[kind.command] is kind
    assert all(1 <= len(each.says) <= 100 for each in slots_of(kind))
    assert len(slots_of(kind)) <= 25  # options of one command
    assert kind() == kind()


def test_commands_are_unique() -> None:
    assert len(BY_COMMAND) == len(QUESTIONS)
