"""How a lot check is explained: pass or fail by each set of rules, by how much to raise, which ones are short."""

from __future__ import annotations

from collections.abc import Sequence
from decimal import ROUND_CEILING, Decimal
from typing import TYPE_CHECKING

from core.answer import Given, Line, Result, Step, Table, Worked, line, listed
from core.questions.columns import column_as_asked
from core.questions.lot_sums import Lot, Verdict
from core.questions.rules import LOCAL_RULES, Rules
from core.reference.table import Status
from core.units import Mass, Number

if TYPE_CHECKING:
    from core.questions.lot import LotQuestion

MOST_ROWS = 10
TENTH = Decimal("0.1")


def judged(ask: LotQuestion, label: Mass, lot: Lot, found: Sequence[tuple[Rules, Verdict | None]]) -> Worked:
    """The whole answer for a lot."""
    verdicts = [verdict for _, verdict in found if verdict is not None]
    mean, shortest = Mass(lot.mean), Mass(lot.weights[0])
    number = Decimal(len(lot.weights))
    under = sum(weight < label.base for weight in lot.weights)
    raise_by = Mass(max((verdict.raise_by for verdict in verdicts), default=Decimal(0)))
    body = [_line(verdict, len(lot.weights)) for verdict in verdicts]
    if len(verdicts) < len(found):
        body.append(line("EU and UK: the average-weight rules cover 5 g to 10 kg (UK: 25 kg), so not this label."))
    if raise_by:
        more = _up_to_tenth(raise_by)
        body.append(line("Next time pour {0:work} on average, {1:work} more into each.", mean + more, more))
    body.append(
        line("They differ by {0:work} (standard deviation). An even pour needs less to spare.", Mass(lot.spread))
    )
    results = [
        Result("mean", mean),
        Result("shortest", shortest),
        Result("count", Number(number)),
        Result("under_label", Number(Decimal(under))),
        Result("under_allowed", Number(Decimal(max((v.under_floor for v in verdicts), default=0)))),
        Result("raise_by", raise_by),
        Result("spread", Mass(lot.spread)),
    ]
    passed = [verdict.passed for verdict in verdicts]
    if False in passed or (passed and None not in passed):
        results.append(Result("passed", Number(Decimal(int(all(passed))))))
    return Worked(
        intent=ask.intent,
        headline=_headline(verdicts, mean, label, raise_by),
        read_as=line(
            "Read as: {0} candles, label {1:typed}" + (", empty vessel {2:typed} taken off." if ask.tare else "."),
            *(number, label, ask.tare),
        ),
        given=(Given("label", label), *((Given("tare", ask.tare),) if ask.tare else ())),
        steps=(
            _mean_step(lot),
            *(
                (
                    Step(
                        "the shortest is short by",
                        line("{0:work} − {1:work}", label, shortest),
                        line("{0:work}", label - shortest),
                    ),
                )
                if shortest < label
                else ()
            ),
        ),
        results=tuple(results),
        body=tuple(body),
        assumed=(line("An inspector's own test also allows for chance in small samples; this is the plain average."),),
        table=_table(lot, label, under),
        cautions=(LOCAL_RULES,),
        see=("net_weight",),
        question=ask,
    )


def averaged(ask: LotQuestion, lot: Lot) -> Worked:
    """The plain average of some weights, with the least and the most."""
    mean, least, most = Mass(lot.mean), Mass(lot.weights[0]), Mass(lot.weights[-1])
    number = Decimal(len(lot.weights))
    return Worked(
        intent=ask.intent,
        headline=line("{0:work} on average, from {1:work} to {2:work}.", mean, least, most),
        read_as=line(
            "Read as: {0} weights" + (", {1:typed} empty taken off each." if ask.tare else "."), number, ask.tare
        ),
        given=(Given("tare", ask.tare),) if ask.tare else (),
        steps=(_mean_step(lot),),
        results=(
            Result("mean", mean),
            Result("shortest", least),
            Result("heaviest", most),
            Result("count", Number(number)),
            Result("spread", Mass(lot.spread)),
        ),
        body=(line("Tell me the net weight on the label too, and I judge the lot by it."),),
        see=("net_weight",),
        question=ask,
    )


def _mean_step(lot: Lot) -> Step:
    return Step(
        "average = all net weights ÷ how many",
        line("{0:work} ÷ {1}", Mass(sum(lot.weights, Decimal(0))), Decimal(len(lot.weights))),
        line("{0:work}", Mass(lot.mean)),
    )


def _headline(verdicts: Sequence[Verdict], mean: Mass, label: Mass, raise_by: Mass) -> Line:
    if not verdicts:
        return line("The average is {0:work}; the label says {1:typed}.", mean, label)
    failed = [verdict.rules.value for verdict in verdicts if verdict.passed is False]
    if not failed and any(verdict.passed is None for verdict in verdicts):
        return line(
            "The average, {0:work}, reaches the {1:typed} on the label; not every rule could be tried.", mean, label
        )
    if not failed:
        names = " and the ".join(f"{verdict.rules.value} rules" for verdict in verdicts)
        return line(f"Passes the {names}: {{0:work}} on average, the label says {{1:typed}}.", mean, label)
    names = " and the ".join(f"{name} rules" for name in failed)
    return line(f"Fails the {names}: pour {{0:work}} more into each.", _up_to_tenth(raise_by))


def _line(verdict: Verdict, number: int) -> Line:
    """What the rules say of the lot: the average, then the short ones."""
    nominal = Mass(verdict.nominal)
    parts = [
        line("the average is {0:work} below {1:work}", Mass(verdict.short), nominal)
        if verdict.short
        else line("the average reaches {0:work}", nominal)
    ]
    if verdict.few_below is not None:
        few = Line(f"{verdict.few} may be") if verdict.few else Line("none may be")
        text = "{0} of {1} below {2:work} ({3})"
        parts.append(line(text, Decimal(verdict.under_few), Decimal(number), Mass(verdict.few_below), few))
    if verdict.floor is None:
        parts.append(line("I hold no allowed shortfall for labels above 3.2 lb"))
    else:
        text = "{0} of {1} below {2:work} (none may be)"
        parts.append(line(text, Decimal(verdict.under_floor), Decimal(number), Mass(verdict.floor)))
    known = verdict.status is not Status.MEMORY or "memory" in verdict.source
    source = line("{0}" if known else "{0}, from memory", verdict.source)
    return line("{}: {}. Rule: {}.", Line(verdict.rules.value), listed(parts, "; "), source)


def _up_to_tenth(mass: Mass) -> Mass:
    """To the next tenth of a gram up: rounded to the nearest the lot might still fail."""
    return Mass((mass.base / TENTH).to_integral_value(ROUND_CEILING) * TENTH)


def _table(lot: Lot, label: Mass, under: int) -> Table | None:
    """The candles below the label, the shortest first."""
    if not under:
        return None
    shown = min(under, MOST_ROWS)
    net = column_as_asked([Mass(weight) for weight in lot.weights[:shown]])
    short = column_as_asked([Mass(label.base - weight) for weight in lot.weights[:shown]])
    rows = tuple(zip(map(Decimal, lot.places[:shown]), net, short, strict=True))
    note = (
        line("The {0} shortest of {1} below the label.", Decimal(MOST_ROWS), Decimal(under))
        if under > MOST_ROWS
        else None
    )
    return Table("Below the label", ("Candle no.", "Net", "Short by"), rows, note)
