"""What a short text adds to the last question: its vessels, how many of them, what is melted beside."""

from __future__ import annotations

from dataclasses import replace

from core.answer import Answer, Choice, line
from core.compounds import Fill, Fills
from core.errors import clipped
from core.question import Question
from core.questions.batch import BatchQuestion, FillIs
from core.questions.load import LoadQuestion
from core.questions.vessel import VesselQuestion
from core.reading.changes import MOST_VESSELS
from core.reading.givens import Givens
from core.reading.intent import question_of
from core.reading.leaning import leans


def completed(g: Givens, last: Question) -> Question | Answer | None:
    """The last question with what the text adds to it; None where it adds nothing."""
    if isinstance(last, LoadQuestion) and g.has("spare"):
        return _with_spare(g, last)
    if isinstance(last, BatchQuestion) and last.fills is None:
        return _with_fills(g, last)
    return _so_many(g, last)


def completed_choice(g: Givens, last: Choice) -> Choice | None:
    """A choice that is still open, with so many vessels and a load in each of its readings."""
    options = []
    for option in last.options:
        fresh = _so_many(g, option.question) if option.question is not None else None
        if fresh is None:
            return None
        options.append(replace(option, question=fresh))
    if not options:
        return None
    noted = line("Noted: “{}”. Now say which is meant.", clipped(g.scan.text, 60))
    return replace(last, options=tuple(options), body=(noted,))


def _so_many(g: Givens, last: Question) -> Question | None:
    """ "12 of them at 8 percent": as many such vessels, with the load if there is one."""
    counts, shares = g.scan.kind("number"), g.scan.kind("percent")
    if len(counts) != 1 or len(g.scan.found) != 1 + len(shares) or len(g.shares.loads) != len(shares) or not leans(g):
        return None
    count = counts[0]
    number = count.amount.value
    after = [mark.text for mark in g.scan.marks[count.at + 1 : count.at + 3]]
    of_them = after[:1] == ["of"] and after[1:] and after[1] in ("them", "those", "these", "that")
    if not (of_them or count.of in ("jar", "candle")) or number != int(number) or not 0 < number <= MOST_VESSELS:
        return None
    if isinstance(last, VesselQuestion):
        return replace(last, count=int(number), load=g.shares.loads[0] if shares else last.load)
    if isinstance(last, BatchQuestion) and last.fills is not None and len(last.fills.items) == 1:
        fills = Fills((replace(last.fills.items[0], count=int(number)),))
        return replace(last, fills=fills, load=g.shares.loads[0] if shares else last.load)
    return None


def _with_fills(g: Givens, last: BatchQuestion) -> Question | None:
    """ "12 jars of 200 g" after a batch was wished for: its load stays."""
    made = question_of(g)
    if not isinstance(made, BatchQuestion) or made.fills is None:
        return None
    return replace(made, load=last.load, basis=last.basis) if made.load is None else made


def _with_spare(g: Givens, last: LoadQuestion) -> Question | None:
    """ "And 5 % spare": the same weights as one pot, with so much more."""
    spare = g.shares.spare
    if spare is None or len(g.scan.found) != 1 or not leans(g) or last.fragrance is not None:
        return None
    weight = last.wax.total if last.wax is not None else last.total
    if weight is None or last.load is None:
        return None
    return BatchQuestion(
        fills=Fills((Fill(1, weight=weight),)),
        fill_is=FillIs.WAX if last.wax is not None else FillIs.FINISHED,
        load=last.load,
        basis=last.basis,
        spare=spare,
        blend=last.blend,
        additives=last.additives,
        unit=last.unit,
    )
