"""Whether a text is (nearly) only a change to what was asked before, or stands by itself."""

from __future__ import annotations

from core.reading.givens import Givens
from core.reading.marks import Mark
from core.reading.wordset import wordset

MOST_WORDS = 9
# Small talk around a change. Any word that is neither here nor told about below makes a text stand by itself.
_SMALL = wordset(
    "and what what's whats about or at for with in into to of on from the a an my our your this that these those it",
    "it's its is are be was were i i'm im i've you we me us he she they them no not nope yes yeah ok okay oh ah hm hmm",
    "um well so then now but if how do does did have has got there here say said go give make made use used take",
    "takes try want wanted need needs would could should can will please pls plz thanks sorry oops actually rather",
    "instead just only exactly about around again too also as well same one ones other only really maybe perhaps let",
    "let's lets put pour meant mean i'd i'll which each per more less much many anyway wait weigh weighs hang change",
    "changed it'd count counted counting come comes show tell see out up that's thats both all still always when",
)
# Things and ways an amount can be said to change, by the tags of their words.
_THINGS = wordset("wax fragrance total candle jar dye additive load density")
_WAYS = wordset(
    "each full fill spare of_total of_wax asks by_weight percent_word dense together finished molten flakes us uk"
)
_FACTORS = wordset("twice double doubled triple tripled thrice half halve halved")
_QUESTION_WORDS = wordset("what what's whats which how wot")
_BEING = wordset("is are was does do weigh weighs")
_POINTING = wordset("it that this oil fragrance wax those them")


def leans(g: Givens) -> bool:
    """Whether nothing in the text but the change and small words: no other content word, no object of its own."""
    marks = g.scan.marks
    if sum(mark.kind == "word" for mark in marks) > MOST_WORDS:
        return False
    return not asks_what_it_is(g) and all(_belongs(marks, i) for i in range(len(marks)))


def names_the_last(g: Givens) -> bool:
    """ "How much is that in fl oz", "what about cups": the last answer is spoken of, by "it", "that", "in", "about"."""
    return g.scan.says(_POINTING) or g.scan.says(("in", "about"))


def asks_of_its_own(g: Givens) -> bool:
    """ "What is a fluid ounce", "how many grams": a question word, and nothing that points back."""
    asks = g.has("asks") or any(mark.text in _QUESTION_WORDS for mark in g.scan.marks)
    about = any(mark.text in ("about", "in") for mark in g.scan.marks)
    return asks and not g.scan.says(_POINTING) and (g.has("asks") or not about)


def asks_what_it_is(g: Givens) -> bool:
    """ "How much is a pound", "what does 3 lb weigh": the amount is what is asked about."""
    marks = [mark for mark in g.scan.marks if mark.kind != "sign"]
    for one, two, three in zip(marks, marks[1:], marks[2:], strict=False):
        asks = "asks" in one.tags or one.text in _QUESTION_WORDS
        if asks and two.text in _BEING and three.kind == "amount" and three.measured is not None:
            return three.measured.kind in ("mass", "volume", "length", "temperature")
    return False


def _belongs(marks: list[Mark], i: int) -> bool:
    mark = marks[i]
    if mark.kind != "word" or not mark.text:
        return True
    if mark.text in _SMALL or mark.text in _FACTORS or mark.noun in _THINGS or not mark.tags.isdisjoint(_WAYS):
        return True
    # "3 lb of golden wax": one word of a name between an amount and its thing
    named = i + 1 < len(marks) and marks[i + 1].noun in _THINGS and not mark.noun
    return named and any(before.kind == "amount" for before in marks[max(0, i - 2) : i])
