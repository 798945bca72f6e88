"""The one way from plain words to a question: marks, roles, dangers, lessons, then the table of intents."""

from __future__ import annotations

from typing import NamedTuple

from core.answer import Answer, Choice, Worked
from core.ask import answer, from_error
from core.book import Book
from core.errors import SteelyardError
from core.question import Question
from core.reading import asking
from core.reading.accounted import left_over, uncounted
from core.reading.completed import completed, completed_choice
from core.reading.concept import greets, lesson_for, outside
from core.reading.equated import equated
from core.reading.followup import follow
from core.reading.givens import Givens
from core.reading.intent import question_of
from core.reading.judged import judged
from core.reading.leaning import names_the_last
from core.reading.marks import Scan
from core.reading.odd import refuse_powers, unknown_unit
from core.reading.on_record import name_weights, waxes_on_record, with_its_sheet
from core.reading.other_trades import of_another_trade
from core.reading.permille import refuse_permille
from core.reading.safety import danger
from core.reading.scan import scan
from core.reading.shares import shares
from core.reading.strange import strange_numbers
from core.reading.visible import visible
from core.reading.wishes import wish
from core.reading.worked_out import worked_out
from core.reading.workings import Counted, Working, told

# A longer text is a story with many numbers; a wrong pick among them would look like an answer.
LONGEST = 2000
MOST_AMOUNTS = 60
MOST_WORDS = 450  # so many fill a text of that length; more are no sentence
OTHER_TRADE = (
    "I only work out amounts for candles. For soap, skin, food or medicine a wrong figure can hurt: "
    "ask a source made for it."
)


class Understood(NamedTuple):
    """What a text asks, or the answer where reading itself decides; and the sums its story had to be rid of first."""

    asked: Question | Answer
    workings: tuple[Working, ...] = ()
    counted: Counted | None = None

    def answered(self, book: Book) -> Answer:
        """The answer, those sums as its first steps."""
        asked = self.asked
        return told(answer(asked, book) if isinstance(asked, Question) else asked, self.workings, self.counted)


def read(text: str, book: Book, last: Question | Choice | None = None) -> Understood:
    """The question that `text` asks, or an answer where reading itself decides (which is meant, a lesson, declined).

    `last` is the question this person asked before, which a short text may change, or the choice still open. Takes
    any text, never raises.
    """
    try:
        return _read(visible(text), book, last)
    except SteelyardError as error:
        return Understood(from_error(error))


def _read(text: str, book: Book, last: Question | Choice | None) -> Understood:
    if len(text) > LONGEST or len(text.split(None, MOST_WORDS)) > MOST_WORDS:
        long = "That's a lot at once. Ask me one thing in a sentence or two, with its numbers."
        return Understood(asking.not_understood(long))
    refuse_powers(text)
    refuse_permille(text)
    scanned = scan(text)
    if not scanned.marks:
        return Understood(asking.not_understood())
    if len(scanned.found) > MOST_AMOUNTS:
        many = "That's a lot of numbers at once. Ask me one thing in a sentence or two."
        return Understood(asking.not_understood(many))
    scanned = worked_out(scanned)
    return Understood(_asked(scanned, book, last), tuple(scanned.workings), scanned.counted)


def _asked(scanned: Scan, book: Book, last: Question | Choice | None) -> Question | Answer:
    g = Givens(scanned, shares(scanned), book)
    if (declined := danger(g)) is not None:
        return declined
    if of_another_trade(g):
        return asking.out_of_scope(OTHER_TRADE)
    if (wished := wish(g)) is not None:
        return wished
    if isinstance(last, Choice):
        if (still_open := completed_choice(g, last)) is not None:
            return still_open
        last = None
    if (rule := judged(g, last)) is not None:
        return rule
    lesson = lesson_for(g)
    asks_to_learn = lesson is not None and not names_the_last(g)
    if last is not None and not asks_to_learn and (changed := completed(g, last) or follow(g, last)) is not None:
        return changed
    if lesson is not None:
        return lesson
    amounts_given = any(
        m.kind in ("mass", "volume", "percent", "rate", "density", "drop", "temperature") for m in scanned.found
    )
    if greets(g) and not amounts_given:
        return asking.greeting()
    if outside(g) and not amounts_given:
        return asking.out_of_scope()
    recorded = waxes_on_record(g)
    name_weights(g, recorded)
    built = with_its_sheet(question_of(g), g, recorded)
    if (unit := unknown_unit(built, scanned)) is not None:
        raise unit
    if built is not None:
        strange = left_over(g, built) or uncounted(g, built) if isinstance(built, Question | Worked) else []
        if strange:
            return asking.which_weight(strange)
        unknown = strange_numbers(g, built) if isinstance(built, Question | Worked) else []
        return asking.which_number(unknown) if unknown else equated(g, built) or built
    if outside(g):
        return asking.out_of_scope()
    return asking.not_understood()
