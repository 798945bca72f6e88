"""How somebody, or a whole server, wants answers; and what is kept about a person."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum
from typing import ClassVar

from core.action import Action, Actor
from core.actions.recording import NOT_ALLOWED, space_of
from core.answer import Answer, Line, Missing, Need, Worked, line
from core.compounds import Basis, ScaleStep
from core.errors import NotAllowed, Unreadable
from core.library.library import Library
from core.library.space import Space
from core.question import slot
from core.questions.steps import NO_STEP
from core.units import Number
from core.writing import figure


class Whose(StrEnum):
    """Whose settings."""

    MINE = "mine"
    SERVER = "the server's"


class FirstUnit(StrEnum):
    """Which weight stands first."""

    G = "grams"
    OZ = "ounces"
    QUESTION = "as in the question"


class Currency(StrEnum):
    """The currency of prices without one."""

    USD = "usd"
    EUR = "eur"
    GBP = "gbp"
    NONE = "none"


@dataclass(frozen=True, slots=True, kw_only=True)
class ChangeSettings(Action):
    """Say how you want answers: grams or ounces first, your scale's step, what a load is a percent of."""

    command: ClassVar[str] = "settings"

    first: FirstUnit | None = slot("Which weight stands first")
    step: ScaleStep | None = slot("Your scale's step: the smallest change it shows; none to unset it", example="0.1 g")
    basis: Basis | None = slot("What a load is a percent of, if a question doesn't say")
    comma: bool | None = slot("A decimal comma: 1,5 instead of 1.5")
    currency: Currency | None = slot("The currency of prices without one")
    private: bool | None = slot("Answers for your eyes alone")
    whose: Whose | None = slot("Yours, or the server's for everybody who set none")

    def act(self, library: Library, actor: Actor) -> Answer:
        """Set what was given; with nothing given, say what is set."""
        space = space_of(actor)
        shared = self.whose is Whose.SERVER
        if shared and not space.shared:
            raise Unreadable("whose", "There is no server here. Leave “whose” away to change your own settings.")
        scope = space if shared else Space.own(actor.user)
        texts = self._texts()
        if shared and texts and not actor.may_edit:
            raise NotAllowed(NOT_ALLOWED)
        library.set_settings(scope, texts)
        kept = library.own_settings(scope)
        head = line("Kept." if texts else "This is what is set.") if kept else line("Nothing is set: all as usual.")
        body = [_said(key, kept[key]) for key in sorted(kept)]
        if self.step is not None and self.step.mass is None:
            body.append(line(f"The scale's step is {NO_STEP}."))
        return Worked(intent=self.command, headline=head, body=tuple(body))

    def _texts(self) -> dict[str, str]:
        texts: dict[str, str] = {}
        if self.first is not None:
            texts["first"] = {FirstUnit.G: "g", FirstUnit.OZ: "oz", FirstUnit.QUESTION: ""}[self.first]
        if self.step is not None:
            texts["step"] = format(self.step.mass.base, "f") if self.step.mass is not None else ""
        if self.basis is not None:
            texts["basis"] = self.basis.name.casefold()
        if self.comma is not None:
            texts["comma"] = "yes" if self.comma else "no"
        if self.currency is not None:
            texts["currency"] = "" if self.currency is Currency.NONE else self.currency.value
        if self.private is not None:
            texts["private"] = "yes" if self.private else "no"
        return texts


WORDS = {
    "first": "Which weight stands first: {}.",
    "step": "The scale's step: {} g.",
    "basis": "A load is a percent of the {}.",
    "comma": "Decimal comma: {}.",
    "currency": "Currency: {}.",
    "private": "Answers for your eyes alone: {}.",
    "recorders": "Roles that may record: {}.",
    "private_channels": "Channels with private answers: {}.",
    "packs": "Usual packs: {}.",
    "vessels": "Usual vessels: {}.",
}


def _said(key: str, value: str) -> Line:
    return line(WORDS[key], value)


class Doing(StrEnum):
    """What to do with what is kept about somebody."""

    SHOW = "show"
    DELETE = "delete for good"


@dataclass(frozen=True, slots=True, kw_only=True)
class MyData(Action):
    """Show what is kept about you, or delete it for good."""

    command: ClassVar[str] = "my_data"

    what: Doing | None = slot("Show it, or delete it for good")
    sure: bool | None = slot("To delete: are you sure? It can't be undone")

    def act(self, library: Library, actor: Actor) -> Answer:
        """Counts of what bears the actor's id; or all of it taken away at once."""
        found = library.export_person(actor.user)
        count = {key: len(found.get(key, ())) for key in ("settings", "versions", "measurements", "tests")}
        if self.what is not Doing.DELETE:
            head = line(
                "Kept about you: {} things." if any(count.values()) else "Nothing is kept about you.", _sum(count)
            )
            body = [line(f"{key.capitalize()}: {{}}.", _number(number)) for key, number in count.items() if number]
            if body:
                body.append(line("/my_data with “delete for good” takes it away."))
            return Worked(intent=self.command, headline=head, body=tuple(body))
        if not self.sure:
            need = Need("sure", line("that you are sure"), line("Say sure: yes. Then it is gone at once, for good."))
            return Missing(intent=self.command, headline=line("Delete it for good?"), needs=(need,))
        library.forget_person(actor.user)
        return Worked(
            intent=self.command,
            headline=line("Done: your settings and what was yours alone are gone."),
            body=(line("What you recorded for a group stays with the group, without your name."),),
        )


def _number(number: int) -> Number:
    return Number(Decimal(number))


def _sum(count: dict[str, int]) -> Line:
    return Line(figure(Decimal(sum(count.values()))))
