"""The one way from plain words to a question: marks, roles, dangers, lessons, then the table of intents."""

from __future__ import annotations

from core.answer import Answer, Worked
from core.ask import from_error
from core.book import Book
from core.errors import SteelyardError
from core.question import Question
from core.reading import asking
from core.reading.accounted import left_over, strange_numbers, uncounted
from core.reading.concept import greets, lesson_for, outside
from core.reading.followup import follow
from core.reading.givens import Givens
from core.reading.intent import question_of
from core.reading.netted import netted
from core.reading.odd import refuse_powers, unknown_unit
from core.reading.other_trades import of_another_trade
from core.reading.relative import take_relations
from core.reading.roles import assign
from core.reading.safety import danger
from core.reading.scan import scan
from core.reading.shares import shares
from core.reading.visible import visible
from core.reading.weights import take_fractions

# A longer text is a story with many numbers; a wrong pick among them would look like an answer.
LONGEST = 2000
MOST_AMOUNTS = 60
OTHER_TRADE = (
    "I only work out amounts for candles. For soap, skin, food or medicine a wrong figure can hurt: "
    "ask a source made for it."
)


def read(text: str, book: Book, last: Question | None = None) -> Question | Answer:
    """The question that `text` asks, or an answer where reading itself decides (which is meant, a lesson, declined).

    `last` is the question this person asked before, which a short text may change. Takes any text, never raises.
    """
    try:
        return _read(visible(text), book, last)
    except SteelyardError as error:
        return from_error(error)


def _read(text: str, book: Book, last: Question | None) -> Question | Answer:
    if len(text) > LONGEST:
        return asking.not_understood("That's a lot at once. Ask me one thing in a sentence or two, with its numbers.")
    refuse_powers(text)
    scanned = scan(text)
    if not scanned.marks:
        return asking.not_understood()
    if len(scanned.found) > MOST_AMOUNTS:
        return asking.not_understood("That's a lot of numbers at once. Ask me one thing in a sentence or two.")
    assign(scanned)
    scanned = netted(scanned)
    take_fractions(scanned.found, scanned.marks)
    take_relations(scanned)
    g = Givens(scanned, shares(scanned), book)
    if (declined := danger(g)) is not None:
        return declined
    if of_another_trade(g):
        return asking.out_of_scope(OTHER_TRADE)
    if last is not None and (changed := follow(g, last)) is not None:
        return changed
    if (lesson := lesson_for(g)) is not None:
        return lesson
    amounts_given = any(
        m.kind in ("mass", "volume", "percent", "rate", "density", "drop", "temperature") for m in scanned.found
    )
    if greets(g) and not amounts_given:
        return asking.greeting()
    if outside(g) and not amounts_given:
        return asking.out_of_scope()
    built = question_of(g)
    if (unit := unknown_unit(built, scanned)) is not None:
        raise unit
    if built is not None:
        strange = left_over(g, built) or uncounted(g, built) if isinstance(built, Question | Worked) else []
        if strange:
            return asking.which_weight(strange)
        unknown = strange_numbers(g, built) if isinstance(built, Question | Worked) else []
        return asking.which_number(unknown) if unknown else built
    if outside(g):
        return asking.out_of_scope()
    return asking.not_understood()
