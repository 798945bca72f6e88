"""What other trades weigh: lye, food, medicine, creams. No figure is given for them, whatever stands in the text."""

from __future__ import annotations

from core.reading.givens import Givens
from core.reading.wordset import wordset
from core.units import kind_of

# Never ours, and a wrong figure can hurt.
_NEVER = wordset(
    "lye naoh koh superfat superfatting saponification saponify caustic hydroxide paracetamol ibuprofen aspirin",
    "insulin antibiotic antibiotics amoxicillin morphine cbd thc cannabis nicotine vape calories kcal medicine",
    "medication overdose pesticide herbicide pipe-bomb",
)
# For the skin or the mouth, or other goods altogether: ours only where a candle or wax is spoken of too.
_ON_THE_SKIN = wordset(
    "soap soaps lotion lotions cream creams shampoo conditioner balm serum toothpaste deodorant moisturiser",
    "moisturizer ointment salve cologne aftershave bathbomb diffuser",
)
_FOOD_AND_OTHERS = wordset(
    "flour sugar butter milk bread dough cake cakes oats yeast salt rice pasta egg eggs coffee soup cookie",
    "cookies pizza meat chicken beef potatoes cheese cream jam beer wine dose doses tablet tablets pills syrup",
    "concrete cement mortar epoxy resin fertiliser fertilizer bleach chlorine paint detergent hydration brine",
    "honey chocolate sourdough",
)
_CANDLES = wordset(
    "wax waxes candle candles soy soya paraffin beeswax melt melts tealight tealights votive votives pillar",
    "pillars wick wicks wachs cire cera kerze",
)
_SCENTS = wordset(
    "fragrance fragrances fo scent scents perfume parfum essential",
)


def of_another_trade(g: Givens) -> bool:
    """Whether the text asks about another trade's goods. A plain conversion ("100 g butter in oz") hurts nobody."""
    words = g.scan.words
    if words & _NEVER:
        return True
    if words & _CANDLES or g.has("candle"):
        return False
    if words & _ON_THE_SKIN:
        return not _converts(g)
    return bool(words & _FOOD_AND_OTHERS) and not words & _SCENTS and not _converts(g)


def _converts(g: Givens) -> bool:
    """Whether one amount is only wanted in another unit of its kind."""
    found = [m for m in g.scan.found if m.kind != "money"]
    wanted = g.wanted()
    if len(found) != 1 or not wanted:
        return False
    return kind_of(found[0].amount.unit) is kind_of(wanted[0]) is not None
