"""What a percent is of, and what counts as net weight."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Lesson, Line, Result, line
from core.book import Book
from core.compounds import Basis
from core.lessons.topics import Topic
from core.lessons.units import Units, published
from core.mixing import Recipe
from core.questions.label_statement import First, metric_figure, us_statement
from core.questions.rules import LOCAL_RULES
from core.reference import labelling
from core.units import Mass, Percent

LOAD = Percent(Decimal(8))


def bases(book: Book, units: Units) -> Lesson:
    """Of the wax or of the total."""
    wax = units.mass("500", "16")
    by_wax, by_total = (Recipe(LOAD, basis).of_wax(wax) for basis in (Basis.WAX, Basis.TOTAL))
    more = by_total.fragrance - by_wax.fragrance
    usual = book.preferences.basis
    rest = Percent(100 - LOAD.base)
    return Lesson(
        intent="concept",
        key=Topic.BASES.key,
        headline=line(
            "For {0} of wax, {1} of the wax is {2} of oil, {1} of the total is {3}.",
            *(units.said(wax), LOAD, units.one(by_wax.fragrance), units.one(by_total.fragrance)),
        ),
        paragraphs=(
            line(
                "A fragrance load says how much fragrance oil goes in, as a percent by weight. Percent of what? There "
                "are two ways, and both are in use."
            ),
            line(
                "Of the wax: wax × load ÷ 100. {0} × {1:bare} ÷ 100 = {2}.",
                *(units.said(wax), LOAD, units.both(by_wax.fragrance)),
            ),
            line(
                "Of the total (wax and oil together): the oil is {1:bare} parts of 100, the wax the other {2:bare}. "
                "{0} × {1:bare} ÷ {2:bare} = {3}.",
                *(units.said(wax), LOAD, rest, units.both(by_total.fragrance)),
            ),
            line(
                "The second is always more, here by {0}. The other way round: {1} of the wax is {2} of the total, and "
                "{1} of the total is {3} of the wax.",
                *(units.one(more), LOAD, by_wax.load_of_total, by_total.load_of_wax),
            ),
            line(
                "Which one does your wax's sheet mean? Look for “of the wax” or “of the total”; if it doesn't say, ask "
                f"its maker. If you don't say, I take it as a percent {usual.value}, and give the other figure too."
            ),
            line("Try it: ask “{0} of wax at {1} of the total, how much fragrance?”", units.said(wax), LOAD),
        ),
        results=(
            Result("of_wax", by_wax.fragrance),
            Result("of_total", by_total.fragrance),
            Result("difference", more),
            Result("load_of_total", by_wax.load_of_total),
            Result("load_of_wax", by_total.load_of_wax),
        ),
        see=(Topic.TARE.key, Topic.WHY_WEIGHT.key),
    )


def net_weight(book: Book, units: Units) -> Lesson:
    """What is inside, without what it is in."""
    wax = units.mass("200", "7")
    mix = Recipe(LOAD, Basis.WAX).of_wax(wax)
    net = mix.total
    jar = units.mass("320", "11")
    full = net + jar
    statement = us_statement(net)
    nominal = metric_figure(net)
    shortfall = labelling.tne(nominal.base)
    assert shortfall is not None
    first = First.OUNCES if units.ounces else First.GRAMS
    return Lesson(
        intent="concept",
        key=Topic.NET_WEIGHT.key,
        headline=line("Net weight is what is inside: wax, fragrance and dye, never the jar, the lid or the box."),
        paragraphs=(
            line(
                "Add up what went in: {0} of wax + {1} of fragrance oil = {2}.",
                *(units.said(wax), units.one(mix.fragrance), units.both(net)),
            ),
            line(
                "Or weigh the finished candle and take off an empty jar (and lid) of the same kind: {0} − {1} = {2}.",
                *map(units.one, (full, jar, net)),
            ),
            line(
                "On a US label that is “{0}”: both units, the last figure cut off and never rounded up, so that it "
                "doesn't promise too much (16 CFR 500).",
                Line(statement.text(first)),
            ),
            line(
                "On an EU or UK label it is “{0:g}”. A batch must hold that on average; of single candles only few may "
                "be more than {1:typed} short.",
                *(nominal, Mass(shortfall.grams)),
            ),
            line("So weigh every candle as you fill it, and print the weight that you really reach."),
            line(
                "Try it: ask “net weight of {0} of wax with {1} fragrance?”",
                *(units.said(wax), LOAD),
            ),
        ),
        given=(published("allowed shortfall", Mass(shortfall.grams), shortfall.source, shortfall.status),),
        results=(
            Result("fragrance", mix.fragrance),
            Result("net", net.in_unit("oz"), "oz"),
            Result("net_g", net.in_unit("g"), "g"),
            Result("gross", full),
            Result("nominal", nominal),
            Result("tne", Mass(shortfall.grams)),
        ),
        cautions=(LOCAL_RULES,),
        see=(Topic.JAR_OUNCES.key, Topic.SCALES.key),
    )
