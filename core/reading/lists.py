"""Lists typed into one option: several weights, parts of a blend, additives, vessels, packs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal

from core.compounds import Additives, Fill, Fills, Masses, Pack, Packs, Parts
from core.errors import Contradiction, OutOfRange, Unreadable, WrongKind, clipped
from core.reading.amounts import Amount
from core.reading.list_items import Item, items, masked, words_in
from core.reading.quantities import bounded, quantity
from core.reading.unit_names import near_units, unknown_unit
from core.reading.wordset import wordset
from core.units import MASS_UNITS, Mass, Money, Number, Percent, Volume

MOST_ITEMS = 1000
MOST_VESSELS = 1_000_000
ROUNDED = Decimal("0.03")  # half an ounce in a pound is what rounding leaves on a label: "16 oz (450 g)"

_BETWEEN = ("", ",", ";", "+", "and", ", and")
_PIECES = wordset("pieces piece pcs pc")


def _single(item: Item) -> Amount:
    if item.amount.high is not None:
        raise Unreadable(item.amount.text, f"“{clipped(item.amount.text)}” is a range. Give one figure.")
    return item.amount


def masses(text: str) -> Masses:
    """ "450 g", "450 g soy + 100 g coconut", "3 x 250 g": weights to add up."""
    out: list[tuple[str, Mass]] = []
    times = 1
    listed = items(text)
    for item in _with_their_unit(listed):
        amount = _single(item)
        got = quantity(amount)
        if isinstance(got, Number) and amount.unit == "" and times == 1:
            times = _count(got.base, text)
            continue
        if not isinstance(got, Mass):
            if isinstance(got, Volume):
                way = "Put it on a scale, or ask for the volume with its density first."
                raise WrongKind(text, f"{clipped(amount.text, 40)} is a volume; I need a weight, such as 450 g. {way}")
            if isinstance(got, Number) and times != 1:
                raise WrongKind(text, "Which unit? Put it after the last weight, such as 201, 199, 200.5 g.")
            raise WrongKind(text, f"{clipped(amount.text, 40)} is not a weight. Write it as 450 g or 1 lb 4 oz.")
        if got.base < 0:
            raise OutOfRange(text, "A weight can't be less than nothing. Check the minus sign.")
        if out and times == 1 and item.before.strip() in ("(", "="):
            _same_again(text, out[-1][1], got)
            continue
        if times + len(out) > MOST_ITEMS:
            raise OutOfRange(text, f"That list is too long. Give at most {MOST_ITEMS:,} weights at once.")
        out += [(item.name, got)] * times
        times = 1
    if not out or times != 1:
        if listed and (word := unknown_unit(text, listed[-1].amount.end)):
            raise near_units(word, (Mass,))
        raise _no(text, "a weight", "450 g, or 450 g soy + 100 g coconut")
    return Masses(tuple(out))


def _with_their_unit(found: list[Item]) -> list[Item]:
    """ "201, 199.5, 203 g": the unit at the end is that of all, where two bare numbers in a row can be no count."""
    unit = found[-1].amount.unit if found else ""
    plain = all(item.before.strip() in _BETWEEN and item.amount.unit in ("", unit) for item in found)
    if len(found) < 3 or unit not in MASS_UNITS or not plain or found[0].amount.unit or found[1].amount.unit:
        return found
    return [replace(item, amount=replace(item.amount, unit=unit)) for item in found]


def _same_again(text: str, first: Mass, second: Mass) -> None:
    """ "16 oz (454 g)": one weight said twice. Contradiction where the two differ by more than rounding."""
    if abs(first.base - second.base) > max(first.base, second.base) * ROUNDED:
        raise Contradiction(
            text, f"Those are not the same weight: “{clipped(text)}”. Give one of them, or put a + between."
        )


def parts(text: str) -> Parts:
    """ "60/40", "60 vanilla + 40 rose", "2 parts soy 1 part coconut", "300 g + 100 g": shares of a blend."""
    out: list[tuple[str, Decimal]] = []
    kinds: set[str] = set()
    found = items(text)
    if len(found) == 1 and found[0].amount.ratio:
        return _ratio(text, found[0])
    for item in found:
        amount = _single(item)
        got = quantity(amount) if amount.unit != "part" else Number(bounded(amount.value, text))
        if got is None or (not isinstance(got, Mass | Volume | Percent | Number) and amount.per is None):
            raise WrongKind(text, f"{clipped(amount.text, 40)} is no share of a blend. Write the parts, such as 60/40.")
        kinds.add(type(got).__name__)
        out.append((item.name, got.base))
    if len(kinds) > 1:
        raise Unreadable(text, "Give all parts in the same way: all as percents, all as weights, or as 60/40.")
    if not out:
        raise _no(text, "parts", "60/40, or 2 parts soy + 1 part coconut")
    return _above_zero(text, out)


def _ratio(text: str, item: Item) -> Parts:
    names = [name.strip() for name in item.name.replace(" and ", "/").replace(",", "/").split("/")] if item.name else []
    if len(names) != len(item.amount.ratio):
        names = [""] * len(item.amount.ratio)
    numbers = [bounded(number, text) for number in item.amount.ratio]
    return _above_zero(text, list(zip(names, numbers, strict=True)))


def _above_zero(text: str, out: list[tuple[str, Decimal]]) -> Parts:
    if any(number <= 0 for _, number in out):
        raise OutOfRange(text, "Every part must be more than nothing. Leave out what is not in the blend.")
    return Parts(tuple(out))


def additives(text: str) -> Additives:
    """ "dye 0.1 %, UV 0.3 %": each a percent of the wax."""
    out: list[tuple[str, Percent]] = []
    for item in items(text):
        amount = _single(item)
        if amount.unit not in ("percent", "") or amount.ratio or amount.per:
            raise WrongKind(text, f"{clipped(amount.text, 40)} is no percent of the wax. Write it as dye 0.1 %.")
        value = bounded(amount.value, text)
        if not 0 <= value <= 100:
            raise OutOfRange(text, "An additive lies between 0 and 100 % of the wax.")
        out.append((item.name or "additive", Percent(value)))
    if not out:
        raise _no(text, "an additive", "dye 0.1 %")
    return Additives(tuple(out))


def fills(text: str) -> Fills:
    """ "12 x 200 g", "8 @ 90 g, 4 @ 310 g", "6 x 8 US fl oz", "12 x amber tin": vessels and what each takes."""
    out: list[Fill] = []
    count: int | None = None
    vessel = ""
    for item in items(text):
        amount = _single(item)
        got = Number(amount.value) if amount.unit == "" and not amount.ratio else quantity(amount)
        if isinstance(got, Number) and amount.unit == "":
            if count is not None:
                out.append(_named(count, vessel, text))
            count, vessel = _count(got.base, text), item.name
            continue
        if isinstance(got, Mass | Volume):
            if got.base < 0:
                raise OutOfRange(text, "A vessel can't take less than nothing. Check the minus sign.")
            weight, volume = (got, None) if isinstance(got, Mass) else (None, got)
            out.append(Fill(1 if count is None else count, weight, volume))
            count, vessel = None, ""
            continue
        raise WrongKind(text, f"{clipped(amount.text, 40)} is not what a vessel takes. Write it as 12 x 200 g.")
    if count is not None:
        out.append(_named(count, vessel, text) if out or vessel else Fill(count))  # "12": of what is asked later
    if not out and words_in(*masked(text), 0, len(text)):
        out.append(Fill(1, vessel=words_in(*masked(text), 0, len(text))))
    if not out:
        raise _no(text, "vessels", "12 x 200 g")
    if sum(fill.count for fill in out) > MOST_VESSELS:
        raise OutOfRange(text, f"That is more than {MOST_VESSELS:,} vessels. Ask for fewer at a time.")
    return Fills(tuple(out))


def _named(count: int, vessel: str, text: str) -> Fill:
    if not vessel:
        raise Unreadable(text, f"{count} of what? Write how much each takes, such as {count} x 200 g.")
    return Fill(count, vessel=vessel)


def packs(text: str) -> Packs:
    """ "2 kg 18 eur, 5 kg 39 eur", "1 kg = €12", "50 wicks 6 eur": pack sizes, each with its price if known."""
    out: list[Pack] = []
    for item, price in _with_prices(items(text), text):
        got = Number(_single(item).value) if item.amount.unit == "" else quantity(_single(item))
        if not isinstance(got, Mass | Volume | Number):
            raise WrongKind(text, f"{clipped(item.amount.text, 40)} is no size of a pack. Write it as 2 kg 18 eur.")
        if got.base <= 0:
            raise OutOfRange(text, "A pack must hold something. Check its size.")
        out.append(Pack(got, price, _without_pieces(item.name)))
    if not out:
        raise _no(text, "a pack", "2 kg 18 eur, 5 kg 39 eur")
    return Packs(tuple(out))


def _with_prices(found: Sequence[Item], text: str) -> Iterator[tuple[Item, Money | None]]:
    """Sizes with the price that stands after them; a name may stand after the price too."""
    i = 0
    while i < len(found):
        item, price = found[i], None
        i += 1
        if i < len(found) and (price := _price_of(item, found[i], text)) is not None:
            item = Item(item.amount, item.name or found[i].name)
            i += 1
        yield item, price


def _price_of(size: Item, item: Item, text: str) -> Money | None:
    """The price of the size before it. "50, 100" are two sizes; "50 = 6" and "50 6 eur" are a size and its price."""
    bare = size.amount.unit == "" and item.amount.unit == ""
    return None if bare and "=" not in text[size.amount.end : item.amount.start] else _price(item, text)


def _without_pieces(name: str) -> str:
    """The name without the word that says a pack is counted in pieces."""
    first, _, rest = name.partition(" ")
    return rest if first.casefold() in _PIECES else name


def _price(item: Item, text: str) -> Money | None:
    got = quantity(item.amount)
    if item.name.partition(" ")[0].casefold() in _PIECES:
        return None
    if isinstance(got, Number) and item.amount.unit == "":
        got = Money(got.base)
    if not isinstance(got, Money):
        return None
    if got.base < 0:
        raise OutOfRange(text, "A price can't be less than nothing. Check the minus sign.")
    return got


def _count(number: Decimal, text: str) -> int:
    if number != number.to_integral_value() or not 0 < number <= MOST_VESSELS:
        raise OutOfRange(text, f"I need a whole number from 1 to {MOST_VESSELS:,}, such as 12 x 200 g.")
    return int(number)


def _no(text: str, what: str, example: str) -> Unreadable:
    return Unreadable(text, f"I see no amount in “{clipped(text)}”. I need {what}, such as {example}.")
