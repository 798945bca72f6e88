"""Neighbouring amounts put together: ranges, composites, rates and ratios, by what stands between them."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Context, Decimal

from core.reading import unit_words as words
from core.reading.found import Found
from core.reading.numerals import RATIO_WORDS
from core.reading.tokens import Kind, Token, word_set
from core.reading.unit_match import BY_FIRST_WORD

# How many of the smaller unit make one of the larger, where a composite ("1 lb 4 oz") is usual. All exact:
# 16 oz = 1 lb, 8 pints = 4 quarts = 1 gallon: NIST Handbook 44, Appendix C; 14 lb = 1 stone: UK Weights and Measures
# Act 1985 (from memory); the rest are SI prefixes; 12 in = 1 ft.
SMALLER: dict[tuple[str, str], int] = {
    ("lb", "oz"): 16,
    ("stone", "lb"): 14,
    ("kg", "g"): 1000,
    ("g", "mg"): 1000,
    ("l", "ml"): 1000,
    ("l", "cl"): 100,
    ("l", "dl"): 10,
    ("m", "cm"): 100,
    ("cm", "mm"): 10,
    ("ft", "in"): 12,
    **{
        (f"{country}{large}", f"{country}{small}"): number
        for country in ("", "us_", "imp_")
        for large, small, number in (("gallon", "quart", 4), ("gallon", "pint", 8), ("quart", "pint", 2))
    },
}
MASS = frozenset({"mg", "g", "kg", "t", "oz", "lb", "grain", "oz_t", "stone"})
DASHES = frozenset({"-", "–", "~"})
# A range wider than this is rather two amounts: "3 - 250 g", "1 oz to 16 oz".
WIDEST_RANGE = 20

MOST_IN_RATIO = 8

_EXACT = Context(prec=200)
_CONNECTIVES = (
    ("per",),
    ("for", "every"),
    ("for", "each"),
    ("to", "every"),
    ("to", "each"),
    ("to", "the"),
    ("in", "every"),
)
_LONGEST_GAP = 7
_NOT_IN_BETWEEN = word_set("and or but is are was how what whats what's thats that which need want then so plus with")


def combine(tokens: list[Token], left: Found, right: Found) -> list[Found] | None:
    """`left` and `right` as one amount or two changed ones; None where they stay as they are."""
    if right.first - left.next > _LONGEST_GAP:
        return None
    if left.next == right.first and not (left.unit and right.unit) and not _grams_after_kilos(tokens, left, right):
        return None
    between = tokens[left.next : right.first]
    if any(token.gap == "\n" for token in between) or tokens[right.first].gap == "\n":
        return None
    gap = tuple(token.text for token in between)
    for rule in _RULES:
        if result := rule(tokens, left, right, gap):
            return result
    return None


def _ratio(tokens: list[Token], left: Found, right: Found, gap: tuple[str, ...]) -> list[Found] | None:
    """ "12:1", "2:1:1", "60/40", "50-50 mix", "10 to 1"."""
    if len(gap) != 1 or right.unit or not right.single:
        return None
    mark, after = gap[0], tokens[right.next].text
    if left.ratio:
        if len(left.ratio) >= MOST_IN_RATIO:
            return None
        together = mark == ":" or (mark in ("/", "-") and tokens[left.next - 2].text == mark)
        return [_joined(left, right, left.ratio)] if together else None
    if left.unit or not left.single or left.value < 0:
        return None
    near = (
        after in RATIO_WORDS or tokens[left.first - 1].text in RATIO_WORDS or tokens[right.next + 1].text in RATIO_WORDS
    )
    total = left.value + right.value
    third = tokens[right.next + 1] if mark == "/" and tokens[right.next].text == "/" else None
    if third is not None and third.value is not None and total + third.value == 100:
        total = Decimal(100)  # "50/30/20"
    shares = total == 100 or (total == 10 and mark == "/")
    is_ratio = (
        mark == ":"
        or (mark == "/" and (shares or near))
        or (mark in DASHES and total == 100 and (near or left.value >= right.value))
        or (mark == "to" and (near or (left.value >= right.value > 0 and tokens[left.first - 1].text != "from")))
    )
    return [_joined(left, right, (left.value,))] if is_ratio else None


def _joined(left: Found, right: Found, ratio: tuple[Decimal, ...]) -> Found:
    return Found(left.first, right.next, left.value, "ratio", ratio=(*ratio, right.value))


def _range(tokens: list[Token], left: Found, right: Found, gap: tuple[str, ...]) -> list[Found] | None:
    """ "2-3 cups", "50g-60g", "50 to 60 g", "3- to 4-pound", "between 5 and 6 %", "two or three pounds"."""
    if gap[:1] == ("-",) and gap[1:] in (("to",), ("or",), ("to", "-")):
        gap = ("to",)
    if gap in (("-", "to", "-"), ("up", "to")):
        gap = ("to",)
    if len(gap) != 1 or not (left.single and right.single):
        return None
    mark = gap[0]
    before = tokens[left.first - 1].text
    if mark not in DASHES and mark not in ("to", "or") and not (mark == "and" and before in ("between", "from")):
        return None
    if left.unit and left.unit != right.unit and not (right.unit == "" and mark in DASHES):
        return None
    unit = right.unit or left.unit
    if not unit and mark == "or":
        return None
    low, high = left.value, right.value
    cold = unit.startswith(("deg", "delta")) and low < high
    if not (0 <= low < high or cold) or (high > low * WIDEST_RANGE and (left.unit or mark == "-") and low > 0):
        falling = not left.unit and unit and low >= high >= 0 and mark in ("to", "or", "–")
        return [_with_unit(left, unit), right] if falling else None
    spaced = tokens[left.next].gap == " "
    if mark == "-" and spaced and not left.unit and high > low * 5:
        return None
    return [Found(left.first, right.next, low, unit, left.form, high=high)]


def _with_unit(found: Found, unit: str) -> Found:
    found.unit = unit
    return found


_ALIKE = (("and",), ("or",), ("vs",), ("versus",), ("/",), ("±",), ("+", "-"), ("+", "/", "-"))


_DENSE = word_set("density sg gravity dense")


def _shared_unit(tokens: list[Token], left: Found, right: Found, gap: tuple[str, ...]) -> list[Found] | None:
    """ "8 and 10 oz jars", "20/30 ml", "6 vs 8 percent": the first number takes the unit of the second."""
    if gap not in _ALIKE or left.unit or not right.unit or (gap == ("/",) and left.value > right.value):
        return None
    if not (left.single and right.single) or left.form not in ("figure", "word") or right.form != left.form:
        return None
    if right.unit in ("part", "ratio", "drop") or right.unit in words.MONEY or left.value == 0:
        return None
    if tokens[left.first - 1].text in _DENSE:
        return None  # "density 0.86 and 8 %"
    return [_with_unit(left, right.unit), right]


def _composite(tokens: list[Token], left: Found, right: Found, gap: tuple[str, ...]) -> list[Found] | None:
    """ "1 lb 4 oz", "1lb4oz", "2 lb and 3 oz", "1 kg, 200 g": the total in the first unit, exact."""
    if gap not in ((), (",",), ("and",), ("-",), (".",), (",", "and"), ("&",)) or right.form == "implied":
        return None
    if left.high is not None or left.per or left.ratio or not right.single:
        return None
    smallest = left.parts[-1][1] if left.parts else left.unit
    if gap == () and _grams_after_kilos(tokens, left, right):
        right.unit = "g"  # "2 kg 320"
    number = SMALLER.get((smallest, right.unit))
    whole = SMALLER.get((left.unit, right.unit))
    if number is None or whole is None or not 0 < right.value < number or left.value <= 0:
        return None
    if left.value != int(left.value) and not left.parts:
        return None
    if gap and _is_list(tokens, right):
        return None
    parts = (*(left.parts or ((left.value, left.unit),)), (right.value, right.unit))
    if left.unit == "stone":  # fourteenths of a stone have no end
        return [Found(left.first, right.next, left.value * whole + right.value, "lb", left.form)]
    total = _EXACT.add(left.value, _EXACT.divide(right.value, Decimal(whole)))
    return [Found(left.first, right.next, total, left.unit, left.form, parts=parts)]


# After these a bare number is no number of anything but grams.
_AFTER_GRAMS = word_set("of and in with at now then so is or wax soy as but when total together , . ? ! ; )")


def _grams_after_kilos(tokens: list[Token], left: Found, right: Found) -> bool:
    """ "2 kg 320": three figures right after whole kilos, and nothing that they could count."""
    three = right.unit == "" and 100 <= right.value < 1000 and right.value == int(right.value) and right.single
    after = tokens[right.next]
    return three and left.unit == "kg" and not left.parts and (after.kind is Kind.END or after.text in _AFTER_GRAMS)


def _is_list(tokens: list[Token], right: Found) -> bool:
    """Whether "5 lb and 8 oz fragrance" or "1 kg, 500 g and 250 g" names several things, not one weight."""
    after = tokens[right.next + (tokens[right.next].text == "of")]
    if after.text in words.FRAGRANCES and tokens[right.first - 1].text in ("and", ",", "&"):
        return True
    return after.text in (",", "and", "or") and tokens[right.next + 1].kind is Kind.FIGURE


def _rate(tokens: list[Token], left: Found, right: Found, gap: tuple[str, ...]) -> list[Found] | None:
    """ "1 oz per lb", "0.93 g/ml", "3 g for every 100 g", "1 oz to the pound", "12 euro a kilo"."""
    if left.per or left.ratio or right.high is not None or right.parts or right.per or not right.unit:
        return None
    if left.form == "implied" or right.unit in words.MONEY or left.code:
        return None
    if not _rates(left, right, gap):
        return None
    left.per = (right.value, right.unit)
    left.next = right.next
    return [left]


def _rates(left: Found, right: Found, gap: tuple[str, ...]) -> bool:
    implied = right.form == "implied"
    if gap == ("per",):
        return True
    if gap == ("/",):
        hundred = right.value in (100, 1000) and (left.unit == right.unit or left.unit in MASS)
        alike = left.unit in MASS and right.unit in MASS and left.unit != right.unit
        return implied or left.unit in words.MONEY or (hundred and not alike and bool(left.unit))
    if not left.unit:
        return False
    if gap in (("every",), ("each",)):
        return implied
    if gap == ():
        return right.form == "article" and left.unit != right.unit
    for words_ in _CONNECTIVES:
        nouns = gap[: -len(words_)]
        if gap[-len(words_) :] == words_ and (implied or words_ != ("to", "the")):
            if words_ == ("to", "the") and left.unit == right.unit:
                return False  # "weigh 500 g to the gram"
            return len(nouns) <= 4 and all(_is_thing(noun) for noun in nouns)
    return False


def _is_thing(word: str) -> bool:
    """Whether a word may name the thing in "1 oz of fragrance oil per pound"."""
    return word.isalpha() and word not in _NOT_IN_BETWEEN and (word not in BY_FIRST_WORD or word in words.MATERIALS)


_Rule = Callable[[list[Token], Found, Found, tuple[str, ...]], list[Found] | None]
_RULES: tuple[_Rule, ...] = (_ratio, _composite, _range, _shared_unit, _rate)


def stands_alone(tokens: list[Token], found: Found) -> bool:
    """Whether an implied one ("how much per pound") is an amount: after "per" or "every", with no number before it."""
    if found.form != "implied":
        return True
    named = tokens[found.first - 2].text  # "g per ml": a rate is asked for, none is given
    if tokens[found.first - 1].text not in ("per", "every") or named in BY_FIRST_WORD:
        return False
    return all(
        tokens[k].kind not in (Kind.FIGURE, Kind.VULGAR) and tokens[k].text not in words.PRICING
        for k in range(max(found.first - 5, 0), found.first)
    )
