"""Which buttons an answer gets: only what can be done with it. Labels say all; no colour or picture has a meaning."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from bot import components as made
from bot.carry import CARRIES, keeping
from bot.components import Payload, Rows
from bot.desk import COMMANDS
from bot.forms import wanted
from bot.kept import Kept
from bot.state import LONGEST, VERSION, Draft, Known, Shown, base36, pack, write_questions
from core.answer import Answer, Choice, Lesson, Missing, NotUnderstood, Result, Worked
from core.book import Preferences
from core.compounds import Basis, Load
from core.errors import LibraryUnavailable, NotAllowed
from core.lessons.topics import TOPICS, Topic
from core.mixing import NO_ADDITIVES, Recipe
from core.question import Question
from core.questions.cautions import may_offer
from core.units import Mass

# Commands whose answers stand in the units that were asked for, whichever weight the asker likes first.
SAME_IN_BOTH = ("convert", "measures", "buy")
AS_BUTTONS = 5  # options of a Choice; more become a list


@dataclass(slots=True)
class Below:
    """What stands below an answer: `owner` may change it, `shown` says how it is shown now, on `pages` pages;
    `private` when only the owner sees it, `post` when it may be shown to the channel."""

    owner: int
    kept: Kept
    shown: Shown
    first: str
    basis: Basis = Basis.WAX
    pages: int = 1
    post: bool = False
    known: Known | None = None

    def rows(self, answer: Answer, questions: Sequence[Question | None], draft: Draft | None = None) -> Rows | None:
        """The rows; None where there is nothing to do. `draft` is what was typed where it could not be used."""
        buttons: list[Payload] = []
        if draft is not None:
            state = self.kept.keep(draft.write())
            label = "Correct it" if to_mend(answer) else "Try again"
            label = label if draft.command else "Ask in other words"
            buttons.append(made.button(label, self._mark("c", pack(self.shown, state)), made.STRONG))
        asked = [question for question in questions if question is not None]
        if isinstance(answer, Choice):
            options = self._options(answer, questions)
            if len(options) > AS_BUTTONS:
                return Rows([made.row(made.select(self._mark("O", pack(self.shown)), options, "Which one is meant?"))])
            buttons += options
        elif asked and len(asked) == len(questions):
            buttons += self._change(answer, asked)
        buttons += [
            made.button(f"Lesson: {Topic[key.upper()].short}", self._mark("l", f"{key}~{self.first}"))
            for key in answer.see[:1]
            if key in TOPICS
        ]
        return Rows(made.rows_of(buttons)) if buttons else None

    def _mark(self, verb: str, args: str) -> str:
        return f"{VERSION}:{verb}:{base36(self.owner)}:{args}"

    def _state(self, questions: Sequence[Question]) -> str:
        room = LONGEST - len(self._mark("xxx", pack(self.shown)))
        known = self.known
        return self.kept.short(known.text if known and known.tells(questions) else write_questions(questions), room)

    def _options(self, answer: Choice, questions: Sequence[Question | None]) -> list[Payload]:
        rest = [question for question in questions[1:] if question is not None]
        found = []
        many = len([option for option in answer.options if option.question is not None]) > AS_BUTTONS
        for number, option in enumerate(answer.options):
            if option.question is None:
                continue
            args = pack(self.shown, self._state([option.question, *rest]))
            label = made.cut(option.label[:1].upper() + option.label[1:], made.BUTTON_LENGTH)
            if many:
                found.append(made.option(label, args))
            else:
                found.append(made.button(label, self._mark(f"o{number}", args), made.STRONG))
        return found

    def _change(self, answer: Answer, asked: list[Question]) -> list[Payload]:
        """Buttons that show the same questions in another way, or carry them on."""
        tail = f":{base36(self.owner)}:{pack(self.shown, self._state(asked))}"
        found: list[Payload] = []

        def add(label: str, verb: str, style: int = made.PLAIN) -> None:
            found.append(made.button(label, f"{VERSION}:{verb}{tail}", style))

        if isinstance(answer, Missing) and wanted(answer):
            task = hasattr(asked[0], "solution")
            add("Give my answer" if task else "Fill it in", "f", made.STRONG)
            if task:
                add("Show how it is worked", "e")
        if self.pages > 1:
            if self.shown.page + 1 < self.pages:
                add(f"Next page ({self.shown.page + 2} of {self.pages})", "n", made.STRONG)
            if self.shown.page:
                add(f"Previous page ({self.shown.page} of {self.pages})", "q")
        if isinstance(answer, Lesson):
            add(*self._other_unit())
        if isinstance(answer, Worked):
            basis = basis_of(asked[0], self.basis)
            if basis is not None:
                add(f"As % of the {basis.other.value.removeprefix('of the ')}", f"b{basis.other.name[0].lower()}")
            if asked[0].command not in SAME_IN_BOTH and any(weighed(part.results) for part in (answer, *answer.then)):
                add(*self._other_unit())
            if answer.steps:
                add(*(("Hide the steps", "sh") if self.shown.steps else ("Show the steps", "ss")))
        carries = CARRIES.get(asked[0].command, ()) if isinstance(answer, Worked) else keeping(answer)
        for carry in carries:
            if carry.command in COMMANDS and carry.when(asked[0]):
                add(carry.label, carry.verb)
        if getattr(type(asked[0]), "needs_seed", False):
            add("Another one", "a")
        if answer.table is not None:
            add("Table as a file", "t")
        if self.post:
            add("Post to the channel", "p")
        return found

    def _other_unit(self) -> tuple[str, str]:
        """Label and verb of the button that puts the other unit first."""
        return ("Grams first", "ug") if self.first == "oz" else ("Ounces first", "uo")


def to_mend(answer: Answer) -> bool:
    """Whether what was typed is at fault, and not that it may not or can't be recorded just now."""
    return not (isinstance(answer, NotUnderstood) and answer.reason in (NotAllowed.key, LibraryUnavailable.key))


def weighed(results: Sequence[Result]) -> bool:
    """Whether a weight is among them."""
    return any(isinstance(result.value, Mass) for result in results)


def basis_of(question: Question, preferred: Basis) -> Basis | None:
    """What the question's load is a percent of; None where it has no load of its own, or one that can't be
    either, or would be refused as the other."""
    load = getattr(question, "load", None)
    if not isinstance(load, Load) or load.typed or not load.percent.base or not hasattr(question, "basis"):
        return None
    basis: Basis | None = question.basis
    now = load.basis or basis or preferred
    other = Recipe(load.percent, now.other, getattr(question, "additives", None) or NO_ADDITIVES)
    return now if may_offer(other) else None


def on_basis(question: Question, basis: Basis) -> Question:
    """The same question with its load as a percent of the other."""
    load = getattr(question, "load", None)
    if not isinstance(load, Load) or load.typed or not hasattr(question, "basis"):
        return question
    changes: dict[str, Any] = {"basis": basis, "load": replace(load, basis=None)}
    return replace(question, **changes)


def preferred(preferences: Preferences, shown: Shown) -> Preferences:
    """The preferences, with the unit that the buttons chose."""
    return replace(preferences, first=shown.first) if shown.first else preferences
