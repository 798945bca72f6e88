"""How many there really are: "2 cases of 12 jars, 3 are cracked", "40 tins, 16 are done", "85 guests plus 5 spare"."""

from __future__ import annotations

from decimal import Decimal

from core.answer import line
from core.reading.marks import Measured, Scan
from core.reading.measuring import after_sum
from core.reading.wordset import wordset
from core.reading.workings import tallied
from core.units import Number

_BROKEN = wordset(
    "cancelled canceled cracked broken broke dented scratched chipped damaged faulty missing bad smashed ruined",
    "useless wonky",
)
_DONE = wordset("done finished made poured ready sold packed filled")
_SPARE = wordset("spare extra spares extras testers samples more")
_STILL = wordset("left rest remaining others still remainder")
_CASES = wordset("cases case boxes box trays tray packs pack sets set crates crate moulds molds sheets cartons")
_BE = wordset("are is were was got came came to be already of them those ones")
_TOOK = wordset("took ordered wants want added add need needs")
_PLUS = wordset("plus and + with &")


def take_tally(scan: Scan) -> None:
    """One number in the place of two or three that make it. Every number stays where it is not sure."""
    numbers = [m for m in scan.kind("number") if m.amount.value >= 1 and not m.amount.unit and _whole(m)]
    if len(numbers) < 2 or _boxes_of(scan, numbers):
        return
    main = _main(scan, numbers)
    if main is None:
        return
    count, values, template = main.amount.value, [main.amount.value], "{0}"
    gone: list[Measured] = []
    at = numbers.index(main)
    cases = numbers[at - 1] if at else None
    less = [m for m in numbers if m is not main and m is not cases and _less(scan, m, main)]
    more = [m for m in numbers if m is not main and m is not cases and m not in less and _spare(scan, m)]
    if cases is not None and _are_cases(scan, cases, main) and (less or more):
        count, values, template = cases.amount.value * count, [cases.amount.value, count], "{0} × {1}"
        gone.append(cases)
    elif cases is not None and (_less(scan, cases, main) or _spare(scan, cases)):
        (less if _less(scan, cases, main) else more).append(cases)
    for m, sign in [*((m, "−") for m in less), *((m, "+") for m in more)]:
        template += f" {sign} {{{len(values)}}}"
        values.append(m.amount.value)
        count = count - m.amount.value if sign == "−" else count + m.amount.value
        gone.append(m)
    if not gone or count < 1 or not (less or more):
        return
    scan.put(main, after_sum(main, Number.of(count)))
    scan.workings.append(tallied("how many", line(template, *values), count))
    for m in gone:
        scan.blank(m.at, m.at + 1)
        for i in range(m.at + 1, min(m.at + 5, len(scan.marks))):
            if scan.marks[i].kind != "word" or scan.marks[i].noun:
                break
            if scan.marks[i].text in _BROKEN | _DONE | _SPARE | _CASES:
                scan.blank(i, i + 1)
                break


def _boxes_of(scan: Scan, numbers: list[Measured]) -> bool:
    """ "I sell them in boxes of 4, need 7 boxes": 28 of them."""
    for four in numbers:
        said = scan.marks[max(0, four.at - 2) : four.at]
        if len(said) < 2 or said[1].text != "of" or said[0].text not in _CASES:
            continue
        counted = four.at >= 3 and scan.marks[four.at - 3].kind == "amount"
        after = scan.marks[four.at + 1 : four.at + 2]
        if counted or (after and after[0].kind == "word"):
            continue  # "3 boxes of 8 jars"
        for seven in numbers:
            after = scan.marks[seven.at + 1 : seven.at + 2]
            if (
                seven is four
                or not after
                or after[0].text.rstrip("s").rstrip("e") != said[0].text.rstrip("s").rstrip("e")
            ):
                continue
            count = four.amount.value * seven.amount.value
            scan.put(seven, after_sum(seven, Number.of(count), of="candle"))
            scan.workings.append(tallied("how many", line("{0} × {1}", seven.amount.value, four.amount.value), count))
            scan.blank(seven.at + 1, seven.at + 2)
            scan.blank(four.at - 2, four.at + 1)
            return True
    return False


def _single(word: str) -> str:
    return word.rstrip("s").rstrip("e")


def _whole(m: Measured) -> bool:
    return m.amount.value == m.amount.value.to_integral_value()


def _main(scan: Scan, numbers: list[Measured]) -> Measured | None:
    """The number of what is poured into, or of who gets one: the largest that is followed by such a noun."""
    named = [m for m in numbers if m.of in ("jar", "candle") or _people(scan, m)]
    return max(named, key=lambda m: m.amount.value, default=None)


_PEOPLE = wordset("guests kids children people persons students pupils friends ladies tables orders participants")


def _people(scan: Scan, m: Measured) -> bool:
    after = scan.marks[m.at + 1] if m.at + 1 < len(scan.marks) else None
    return after is not None and after.text in _PEOPLE


def _are_cases(scan: Scan, cases: Measured, main: Measured) -> bool:
    between = [mark.text for mark in scan.marks[cases.at + 1 : main.at]]
    return 1 < len(between) <= 3 and between[0] in _CASES and between[-1] in ("of", "x", "with")


def _less(scan: Scan, m: Measured, main: Measured) -> bool:
    """ "3 are cracked", "16 are done" where the others are asked for, "poured 9 of my 12"."""
    if m.amount.value >= main.amount.value:
        return False
    _, behind = scan.around(m, 0, 4)
    ahead, _ = scan.around(m, 2, 0)
    said = [mark.text for mark in behind]
    direct = next((word for word in said if word not in _BE and word not in ("jars", "tins", "candles")), "")
    if direct in _BROKEN:
        return True
    still = scan.says(_STILL) or scan.has("left_over")
    if not still:
        return False
    of_main = scan.marks[main.at - 1 - (1 if scan.marks[main.at - 1].text in ("my", "the", "those") else 0)].text
    poured = bool(ahead) and ahead[-1].text in _DONE and of_main == "of" and main.at - m.at <= 3
    return direct in _DONE or poured


def _spare(scan: Scan, m: Measured) -> bool:
    """ "Plus 5 spare"."""
    ahead, behind = scan.around(m, 2, 2)
    more = bool(behind) and behind[0].text == "more"
    plus = bool(ahead) and (ahead[-1].text in _PLUS or (more and ahead[-1].text in _TOOK))
    return plus and bool(behind) and behind[0].text in _SPARE and m.amount.value < Decimal(1000)
