"""How a stock question is explained: what is used, what runs out first, what is left."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Result, Step, Worked, line, listed
from core.book import Book
from core.mixing import Mix
from core.questions.cautions import mix_cautions
from core.questions.fills import FillIs
from core.units import Mass, Number
from core.writing import rounded

if TYPE_CHECKING:
    from core.questions.stock import StockQuestion


# As a share: a repeating decimal stands a hair beside the number it means.
HAIR = Decimal("1e-30")


@dataclass(frozen=True, slots=True)
class Outcome:
    """`most` uses a stock up, `used` is what whole candles take (the same where no candle's weight was given), `each`
    one candle. `first_out` is wax, fragrance, both, or empty where only one stock is known."""

    most: Mix
    used: Mix
    each: Mix | None
    count: int | None
    first_out: str
    steps: tuple[Step, ...]
    assumed: tuple[Line, ...]


def plain_count(ask: StockQuestion, wax: Mass, each: Mass, count: int) -> Worked:
    """How many candles the wax gives; fragrance plays no part."""
    used = each * count
    left = wax - used
    return Worked(
        intent=ask.intent,
        headline=_count_line(count, ""),
        read_as=line("Read as: {0:typed} of wax, {1:typed} of wax in each.", wax, each),
        given=(Given("wax", wax), Given("each", each)),
        steps=(
            Step(
                "whole candles = wax ÷ wax in each",
                line("{0:work} ÷ {1:work}", wax, each),
                count_result(wax, each, count),
            ),
            Step("left = wax − what they take", line("{0:work} − {1:work}", wax, used), line("{0:work}", left)),
        ),
        results=(Result("count", Number(Decimal(count))), Result("wax", used), Result("left_over_wax", left)),
        body=(line("They take {0} of wax; {1} is left.", used, left),) if left else (line("Nothing is left over."),),
        question=ask,
    )


def count_of_oil(ask: StockQuestion, oil: Mass, each: Mass, count: int) -> Worked:
    """How many candles the fragrance oil gives, at so much in each."""
    left = oil - each * count
    return Worked(
        intent=ask.intent,
        headline=_count_line(count, ""),
        read_as=line("Read as: {0:typed} of fragrance oil, {1:typed} of it in each.", oil, each),
        given=(Given("fragrance", oil), Given("oil_each", each)),
        steps=(
            Step(
                "whole candles = fragrance ÷ fragrance in each",
                line("{0:work} ÷ {1:work}", oil, each),
                count_result(oil, each, count),
            ),
        ),
        results=(Result("count", Number(Decimal(count))), Result("left_over_fragrance", left)),
        body=(line("{} of it is left.", left),) if left else (line("Nothing is left over."),),
        question=ask,
    )


def after_pouring(ask: StockQuestion, wax: Mass, each: Mass, count: int) -> Worked:
    """What is left of the wax after so many; or how much they lack."""
    used = each * count
    left = wax - used
    short = left.base < 0
    apart = Mass(abs(left.base), wax.unit)
    what = "mix" if ask.fill_is is FillIs.FINISHED else "wax"
    return Worked(
        intent=ask.intent,
        headline=line("Not enough: {} is missing." if short else "{} is left.", apart),
        read_as=line(f"Read as: {{0:typed}} of {what}, {{1}} × {{2:typed}}.", wax, Decimal(count), each),
        given=(Given(what, wax), Given("each", each)),
        steps=(
            Step("used = how many × each", line("{0} × {1:work}", Decimal(count), each), line("{0:work}", used)),
            Step(
                f"missing = used − {what}" if short else f"left = {what} − used",
                line("{0:work} − {1:work}", *((used, wax) if short else (wax, used))),
                line("{0:work}", apart),
            ),
        ),
        results=(Result("missing" if short else f"left_over_{what}", apart, wax.unit), Result(what, used, wax.unit)),
        question=ask,
    )


def worked(ask: StockQuestion, found: Outcome, book: Book) -> Worked:
    """The whole answer."""
    wax = ask.wax.total if ask.wax is not None else None
    left_wax = _left(wax, found.used.wax)
    left_oil = _left(ask.fragrance, found.used.fragrance)
    results = [] if found.count is None else [Result("count", Number(Decimal(found.count)))]
    results += [
        Result("wax", found.used.wax, ask.unit),
        Result("fragrance", found.used.fragrance, ask.unit),
        Result("total", found.used.total),
    ]
    steps = [*found.steps, *_count_step(ask, found)]
    for what, at_hand, left in (("wax", wax, left_wax), ("fragrance", ask.fragrance, left_oil)):
        if at_hand is None or left is None:
            continue
        results.append(Result(f"left_over_{what}", left))
        if left:
            taken = at_hand - left
            steps.append(
                Step(
                    f"{what} left = at hand − used",
                    line("{0:work} − {1:work}", at_hand, taken),
                    line("{0:work}", left),
                )
            )
    assumed = list(found.assumed)
    if ask.each is not None and ask.fill_is is None:
        assumed.append(line("I took the weight of each as wax and fragrance together."))
    return Worked(
        intent=ask.intent,
        headline=_headline(found, left_wax, left_oil),
        read_as=_read_as(ask),
        given=_givens(ask),
        steps=tuple(steps),
        results=tuple(results),
        body=_body(found, left_wax, left_oil),
        assumed=tuple(assumed),
        check=line("Check: {0:work} ÷ {1:work} × 100 = {2} of the wax.", *_check(found)),
        cautions=mix_cautions(ask.wax, found.most.load_of_wax, book),
        see=("bases",),
        question=ask,
    )


def _left(at_hand: Mass | None, used: Mass) -> Mass | None:
    """What is left over; a remainder in the last digits is none."""
    if at_hand is None:
        return None
    return Mass(rounded((at_hand - used).base, 15) + 0, at_hand.unit)  # + 0: never a negative nothing


def _check(found: Outcome) -> tuple[object, ...]:
    mix = found.used if found.count != 0 else found.most
    return mix.fragrance, mix.wax, mix.load_of_wax


def _count_step(ask: StockQuestion, found: Outcome) -> tuple[Step, ...]:
    if ask.each is None or found.count is None:
        return ()
    alone = ask.fill_is is FillIs.WAX
    whole = found.most.wax if alone else found.most.total
    name = "whole candles = wax ÷ wax in each" if alone else "whole candles = wax and fragrance ÷ weight of each"
    return (Step(name, line("{0:work} ÷ {1:work}", whole, ask.each), count_result(whole, ask.each, found.count)),)


def count_result(stock: Mass, each: Mass, count: int) -> Line:
    """The whole number, with the fraction it was cut from."""
    ratio = rounded(stock.base / each.base, 2)
    return line(f"{count:,}") if ratio == count else line(f"{{}}, so {count:,}", ratio)


def _count_line(count: int, first_out: str) -> Line:
    words = "Not enough for one candle" if not count else f"{count:,} candle{'' if count == 1 else 's'}"
    return line(f"{words}{first_out}.")


def _headline(found: Outcome, left_wax: Mass | None, left_oil: Mass | None) -> Line:
    runs_out = {"wax": "the wax runs out first", "fragrance": "the fragrance oil runs out first"}.get(found.first_out)
    if found.count is not None:
        tail = f"; {runs_out}" if runs_out else "; wax and fragrance run out together" if found.first_out else ""
        return _count_line(found.count, tail)
    if runs_out:
        what, left = ("fragrance oil", left_oil) if found.first_out == "wax" else ("wax", left_wax)
        return line(f"{runs_out[0].upper()}{runs_out[1:]}; {{0}} of {what} is left.", left)
    if found.first_out:
        return line("Wax and fragrance oil run out together: nothing is left.")
    if left_wax is not None:
        return line("{0} of wax takes {1} of fragrance oil.", found.used.wax, found.used.fragrance)
    return line("{1} of fragrance oil is enough for {0} of wax.", found.used.wax, found.used.fragrance)


def _body(found: Outcome, left_wax: Mass | None, left_oil: Mass | None) -> tuple[Line, ...]:
    out: list[Line] = []
    if found.count:
        out.append(line("They take {0} of wax and {1} of fragrance oil.", found.used.wax, found.used.fragrance))
    elif found.count is None and found.first_out:
        out.append(line("Used: {0} of wax and {1} of fragrance oil.", found.used.wax, found.used.fragrance))
    if found.each is not None:
        out.append(line("In each: {0} of wax and {1} of fragrance oil.", found.each.wax, found.each.fragrance))
        left = [line("{0} of " + what, mass) for what, mass in (("wax", left_wax), ("fragrance oil", left_oil)) if mass]
        if left:
            out.append(line("Left over: {}.", listed(left, " and ")))
    if found.count is None:
        out.append(line("Together that makes {}.", found.used.total))
    return tuple(out)


def _read_as(ask: StockQuestion) -> Line:
    parts: list[Line] = []
    if ask.wax is not None:
        parts.append(line("{0:typed} of wax", ask.wax.total))
    if ask.fragrance is not None:
        parts.append(line("{0:typed} of fragrance oil", ask.fragrance))
    if ask.load is not None:
        basis = ask.load.basis or ask.basis
        parts.append(line("{0:typed}" + (f" {basis.value}" if basis else " fragrance"), ask.load.percent))
    if ask.each is not None:
        parts.append(line("{0:typed} in each" + (f" ({ask.fill_is.value})" if ask.fill_is else ""), ask.each))
    return line("Read as: {}.", listed(parts))


def _givens(ask: StockQuestion) -> tuple[Given, ...]:
    out = [Given("wax", mass) for _, mass in ask.wax.items] if ask.wax is not None else []
    out += [Given("fragrance", ask.fragrance)] if ask.fragrance is not None else []
    out += [Given("load", ask.load.percent)] if ask.load is not None else []
    return (*out, *((Given("each", ask.each),) if ask.each is not None else ()))
