"""Amounts that were taken for one and are two: a weight and a rate, a pot before and after."""

from __future__ import annotations

from core.reading.amounts import Amount

# A range in a recipe is narrower; "40 g to 640 g" is oil poured into wax.
WIDEST_RANGE = 4


def _two_weights(amount: Amount, whole: str) -> bool:
    """ "40 g to 640 g", "it went from 120 g to 87 g"."""
    wide = amount.high is not None and amount.high >= amount.value * WIDEST_RANGE
    moved = amount.high is not None and whole[: amount.start].rstrip().casefold().endswith("from")
    return (wide or moved) and " to " in amount.text and amount.unit in ("g", "kg", "oz", "lb")


def _price_asked(amount: Amount) -> int:
    """ "36 euro price per kg" asks for the price and is no price of 36 a kilo: where the asking begins, else -1."""
    if amount.per is None or amount.unit not in ("usd", "eur", "gbp", "money"):
        return -1
    return max(amount.text.casefold().find(word) for word in (" price", " cost", " how ", " what "))


def _sentence_end(text: str) -> int:
    """Where a sentence ends inside the text of one amount ("4 kg. Price per 100 g"), else -1."""
    for mark in (". ", "? ", "! ", "; "):
        if (place := text.find(mark)) > 0:
            return place + 1
    return -1


def parted(found: list[Amount], whole: str) -> list[Amount]:
    """ "2 lb, 1 oz per lb" is a weight and a rate, not a rate of 2 lb 1 oz."""
    out: list[Amount] = []
    for amount in found:
        if _two_weights(amount, whole):
            cut = amount.start + amount.text.index(" to ")
            assert amount.high is not None
            out.append(Amount(amount.start, cut, amount.value, amount.unit, text=amount.text[: cut - amount.start]))
            out.append(
                Amount(cut + 4, amount.end, amount.high, amount.unit, text=amount.text[cut - amount.start + 4 :])
            )
            continue
        asked = _price_asked(amount)
        if asked > 0:
            text = amount.text[:asked].rstrip()
            out.append(Amount(amount.start, amount.start + len(text), amount.value, amount.unit, text=text))
            continue
        if amount.per is not None and (stop := _sentence_end(amount.text)) > 0:
            value, unit = amount.per
            cut = amount.start + stop
            out.append(Amount(amount.start, cut, amount.value, amount.unit, text=amount.text[:stop]))
            digit = next((k for k, sign in enumerate(amount.text) if k > stop and sign.isdigit()), -1)
            last = digit if digit > 0 else amount.text.rindex(" ") + 1
            out.append(Amount(amount.start + last, amount.end, value, unit, text=amount.text[last:]))
            continue
        if amount.per is None or len(amount.parts) != 2 or "," not in amount.text:
            out.append(amount)
            continue
        comma = amount.start + amount.text.index(",")
        (first, unit), (second, other) = amount.parts
        out.append(Amount(amount.start, comma, first, unit, text=amount.text[: comma - amount.start]))
        rest = amount.text[comma - amount.start + 1 :].lstrip()
        out.append(Amount(amount.end - len(rest), amount.end, second, other, per=amount.per, text=rest))
    return out
