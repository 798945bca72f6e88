"""A load to be judged, "is that too much", "is 10 % ok?": the rule, for no sum can tell."""

from __future__ import annotations

from core.answer import Answer, Worked, results_by_name
from core.ask import answer
from core.question import Question
from core.questions.cautions import usual_loads
from core.reading.givens import Givens
from core.reading.wordset import wordset
from core.units import Percent

_JUDGING = wordset("much lot high strong ok okay safe fine allowed many")
_SMALL = wordset(
    "is it's its are that this it too a of oil fragrance scent load the my for in wax soy candle candles would be",
    "or so really then and but hm hmm percent do you think isn't isnt not way",
)
_OPENING = wordset("is isn't isnt it's its that that's thats are would so but and hm hmm then")


def judged(g: Givens, last: Question | None) -> Answer | None:
    """The rule where a load is asked about and nothing is to be worked out; `last` may hold the load."""
    texts = [mark.text for mark in g.scan.marks if mark.kind in ("word", "amount")]
    words = g.scan.words
    if not texts or texts[0] not in _OPENING or not words & _JUDGING or words - _JUDGING - _SMALL:
        return None
    if words & {"much", "many"} and not words & {"too", "so"}:
        return None
    shares = g.scan.kind("percent")
    if len(g.scan.found) != len(shares) or len(shares) > 1:
        return None
    if shares:
        return usual_loads(Percent(shares[0].amount.value))
    load = _load_of(g, last) if last is not None else None
    return usual_loads(load) if load is not None else None


def _load_of(g: Givens, last: Question) -> Percent | None:
    """The load that the last question was about, of the wax."""
    given = answer(last, g.book)
    found = results_by_name(given).get("load") if isinstance(given, Worked) else None
    return found if isinstance(found, Percent) else None
