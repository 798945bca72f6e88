"""Waxes of the text that the group recorded with the most that their sheets allow: the question is told their name."""

from __future__ import annotations

from dataclasses import replace

from core.answer import Answer, Choice
from core.compounds import Material
from core.question import Question
from core.questions.cautions import names_in, sheet_limits
from core.questions.load import LoadQuestion
from core.reading.ask_recorded import named
from core.reading.givens import Givens

_ANY = frozenset({"", "wax", "wx", "wachs"})


def waxes_on_record(g: Givens) -> tuple[str, ...]:
    """The recorded names in a text about a mix, as they stand there; the longest where one is part of another."""
    if not (g.scan.masses() or g.scan.volumes()):
        return ()
    return tuple(dict.fromkeys(named(g, "material", lambda name: _has_a_most(g, name))))


def _has_a_most(g: Givens, name: str) -> bool:
    record = g.book.material(name)
    return record is not None and record.max_load is not None and "fragrance" not in record.kind.casefold()


def name_weights(g: Givens, recorded: tuple[str, ...]) -> None:
    """ "450 g of wax, golden soy", "450 g of soy wax A": the weight of wax gets the recorded name, where only one is
    meant and the weight's own words don't name another."""
    if len(recorded) != 1:
        return
    words = set(recorded[0].casefold().split())
    for m in g.scan.masses("wax"):
        if m.name in _ANY or set(m.name.casefold().split()) - {"wax"} <= words:
            m.name = recorded[0]


def with_its_sheet(built: Question | Answer | None, g: Givens, recorded: tuple[str, ...]) -> Question | Answer | None:
    """The question with the recorded wax it speaks of (of several the strictest), where its weights don't name it."""
    limits = sheet_limits(recorded, g.book)
    if not limits:
        return built
    strictest, _ = min(limits, key=lambda limit: limit[1])
    if isinstance(built, Choice):
        options = (
            replace(o, question=_told(o.question, strictest, g) if o.question is not None else None)
            for o in built.options
        )
        return replace(built, options=tuple(options))
    return _told(built, strictest, g) if isinstance(built, Question) else built


def _told(question: Question, wax: str, g: Givens) -> Question:
    if not isinstance(question, LoadQuestion) or sheet_limits(names_in(question.wax), g.book):
        return question
    return replace(question, material=Material(wax))
