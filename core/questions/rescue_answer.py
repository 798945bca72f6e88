"""How a rescue is explained: what is in the pot now, what to add, the load before and after."""

from __future__ import annotations

from dataclasses import dataclass, replace
from decimal import Decimal
from typing import TYPE_CHECKING

from core.answer import Answer, Caution, Given, Line, Missing, Need, Result, Step, Worked, line, listed
from core.book import Book
from core.compounds import Basis, Masses
from core.errors import Contradiction
from core.mixing import FULL, Mix, Recipe
from core.questions.cautions import USUAL_MOST, load_cautions, may_offer, names_in, sheet_limits, strictest
from core.questions.load import NEED_LOAD, LoadQuestion
from core.questions.steps import scale_step
from core.questions.two_pots import without_adding
from core.units import Mass, Percent
from core.writing import to_step

if TYPE_CHECKING:
    from core.questions.rescue import RescueQuestion

ZERO = Mass(Decimal(0))
# In grams: nothing that a scale could ever show (a repeating decimal leaves a hair in the last digits).
_NOTHING = Decimal("1e-15")

NEED_IN_POT = Need(
    "weight_of_fragrance",
    line("the fragrance oil that is already in the pot, by weight"),
    line("From your notes; 0 g if none went in. Or weigh the bottle: what it lost is in the pot."),
)


@dataclass(frozen=True, slots=True)
class Pot:
    """What is in the pot now and the steps to it: `first` is the first pot alone, `strength` that of the oil."""

    mix: Mix
    first: Mix
    strength: Percent
    steps: tuple[Step, ...]

    @property
    def load(self) -> Percent:
        """The real fragrance, of the wax."""
        return Percent(self.mix.load_of_wax.base * self.strength.fraction)

    @property
    def load_of_total(self) -> Percent:
        """The real fragrance, of everything."""
        return Percent(self.mix.load_of_total.base * self.strength.fraction)


def pot_now(ask: RescueQuestion) -> Pot:
    """The pot after what was lost of it and what was mixed in. Raises Contradiction where more was lost than was in."""
    assert ask.wax is not None
    wax, fragrance = ask.wax.total, ask.fragrance or ZERO
    steps: list[Step] = []
    if len(ask.wax.items) > 1:
        numbers = line(" + ".join(f"{{{i}:work}}" for i in range(len(ask.wax.items))), *[m for _, m in ask.wax.items])
        steps.append(Step("all the wax", numbers, line("{0:work}", wax)))
    if ask.lost:
        whole = wax + fragrance
        if ask.lost.base >= whole.base:
            raise Contradiction("lost", "More was lost than was in the pot. Check the weights.")
        left = whole - ask.lost
        share = left.base / whole.base
        for what, mass in (("wax", wax), ("fragrance", fragrance)):
            if mass:
                steps.append(
                    Step(
                        f"{what} left = {what} × (all − lost) ÷ all",
                        line("{0:work} × {1:work} ÷ {2:work}", mass, left, whole),
                        line("{0:work}", mass * share),
                    )
                )
        wax, fragrance = wax * share, fragrance * share
    first = Mix(wax, fragrance)
    if ask.second_wax is not None:
        for what, one, two in (
            ("wax in both", wax, ask.second_wax.total),
            ("fragrance in both", fragrance, ask.second_fragrance or ZERO),
        ):
            steps.append(Step(what, line("{0:work} + {1:work}", one, two), line("{0:work}", one + two)))
        wax, fragrance = wax + ask.second_wax.total, fragrance + (ask.second_fragrance or ZERO)
    pot = Pot(Mix(wax, fragrance), first, ask.strength or FULL, ())
    numbers = line("{0:work} ÷ {1:work} × 100", fragrance, wax)
    if ask.strength is not None:
        numbers = line("{0:work} × {2:bare} ÷ 100 ÷ {1:work} × 100", fragrance, wax, ask.strength)
    steps.append(Step("load now = fragrance ÷ wax × 100", numbers, line("{}", pot.load)))
    return replace(pot, steps=tuple(steps))


def no_load(ask: RescueQuestion, pot: Pot) -> Missing:
    """What the pot has is known, what it should have is not."""
    return Missing(
        intent=ask.intent,
        headline=line("It has {} of the wax now. Which load do you want?", pot.load),
        read_as=_read_as(ask),
        given=_givens(ask),
        steps=pot.steps,
        results=_now(pot),
        needs=(NEED_LOAD,),
        question=ask,
        see=("bases",),
    )


def mixed(ask: RescueQuestion, pot: Pot, book: Book) -> Worked:
    """Two pots mixed, nothing added."""
    return Worked(
        intent=ask.intent,
        headline=line("Mixed, the two have a load of {0} of the wax ({1} of the total).", pot.load, pot.load_of_total),
        read_as=_read_as(ask),
        given=_givens(ask),
        steps=pot.steps,
        results=(*_now(pot), *_pot_results(pot.mix)),
        body=(line("Together in the pot: {}.", pot.mix.total),),
        cautions=load_cautions(pot.load, _limit(ask, book)),
        see=("bases",),
        question=ask,
    )


def worked(ask: RescueQuestion, pot: Pot, recipe: Recipe, book: Book) -> Answer:
    """What to add to reach the wanted load."""
    mix = pot.mix
    wanted = recipe.of_wax(mix.wax).fragrance
    gap = Mass(wanted.base - mix.fragrance.base)
    steps = list(pot.steps)
    after = mix
    by_wax = LoadQuestion(wax=Masses.one(mix.wax.in_unit("g")), load=ask.load, basis=ask.basis, strength=ask.strength)
    by_oil = LoadQuestion(fragrance=mix.fragrance.in_unit("g"), load=ask.load, basis=ask.basis, strength=ask.strength)
    sums = (by_wax if gap.base >= -_NOTHING else by_oil).answer(book)
    if not isinstance(sums, Worked):
        return sums
    steps += sums.steps
    if abs(gap.base) <= _NOTHING:
        results = (Result("add_fragrance", ZERO),)
        headline = line("Nothing to add: it has {0} {1} already.", recipe.load, Line(recipe.basis.value))
    elif gap.base > 0:
        after, results = Mix(mix.wax, wanted), (Result("add_fragrance", gap, ask.unit),)
        headline = line("Add {} of fragrance oil.", gap)
        numbers = line("{0:work} − {1:work}", wanted, mix.fragrance)
        steps.append(Step("add = fragrance wanted − already in", numbers, line("{0:work}", gap)))
    else:
        after = recipe.of_fragrance(mix.fragrance)
        add = after.wax - mix.wax
        results, headline = (Result("add_wax", add, ask.unit),), line("Add {} of wax.", add)
        numbers = line("{0:work} − {1:work}", after.wax, mix.wax)
        steps.append(Step("add = wax wanted − already in", numbers, line("{0:work}", add)))
    return Worked(
        intent=ask.intent,
        headline=headline,
        read_as=_read_as(ask),
        given=_givens(ask),
        steps=tuple(steps),
        results=(*results, *_now(pot), *_pot_results(after), *_too_much(wanted, gap)),
        body=(
            *_body(pot, after, gap, book),
            *_too_much_words(mix, wanted, gap),
            *without_adding(ask, pot.first, recipe),
        ),
        other=(*_other_basis(pot, recipe), *_evaporated(ask, recipe)),
        assumed=(*sums.assumed, *_lost_words(ask)),
        check=_check(after, recipe),
        cautions=_cautions(_limit(ask, book), pot, gap, recipe),
        see=("bases",),
        question=ask,
    )


def _now(pot: Pot) -> tuple[Result, ...]:
    return (Result("load", pot.load), Result("load_of_total", pot.load_of_total))


def _pot_results(mix: Mix) -> tuple[Result, ...]:
    return (Result("wax", mix.wax), Result("fragrance", mix.fragrance), Result("total", mix.total))


def _too_much(wanted: Mass, gap: Mass) -> tuple[Result, ...]:
    """What the wax should have had, and by how much more is in."""
    if gap.base >= -_NOTHING:
        return ()
    return (Result("fragrance_wanted", wanted), Result("too_much", Mass(-gap.base, wanted.unit)))


def _too_much_words(mix: Mix, wanted: Mass, gap: Mass) -> tuple[Line, ...]:
    if gap.base >= -_NOTHING:
        return ()
    excess = Mass(-gap.base, wanted.unit)
    return (line("For {0} of wax it should be {1} of fragrance oil: {2} too much is in.", mix.wax, wanted, excess),)


def _body(pot: Pot, after: Mix, gap: Mass, book: Book) -> tuple[Line, ...]:
    out = [line("It has {0} of the wax now ({1} of the total).", pot.load, pot.load_of_total)]
    if abs(gap.base) > _NOTHING:
        out.append(line("Then it holds {0} of wax and {1} of fragrance oil.", after.wax, after.fragrance))
    weighed = Mass(to_step(gap.base, scale_step(book)))
    if gap.base > _NOTHING and weighed.base != gap.base:
        reached = Percent((pot.mix.fragrance + weighed).base * pot.strength.fraction / after.wax.base * 100)
        step = Mass(scale_step(book))
        if weighed:
            out.append(line("On a scale with {0:g} steps add {1:g}: a load of {2} of the wax.", step, weighed, reached))
        else:
            out.append(line("A scale with {0:g} steps can't show so little; it is near enough.", step))
    return tuple(out)


def _to_add(mix: Mix, recipe: Recipe) -> Line:
    gap = recipe.of_wax(mix.wax).fragrance.base - mix.fragrance.base
    if gap >= 0:
        return line("add {} of fragrance oil", Mass(gap))
    return line("add {} of wax", recipe.of_fragrance(mix.fragrance).wax - mix.wax)


def _other_basis(pot: Pot, recipe: Recipe) -> tuple[Line, ...]:
    other = replace(recipe, basis=recipe.basis.other)
    if not may_offer(other):
        return ()
    words = Line(other.basis.words)
    return (line("If your recipe means {0:typed} {1}: {2}.", recipe.load, words, _to_add(pot.mix, other)),)


def _evaporated(ask: RescueQuestion, recipe: Recipe) -> tuple[Line, ...]:
    """The figure if what was lost was fragrance alone, as on melting again."""
    if not ask.lost or ask.wax is None or ask.fragrance is None or ask.lost.base >= ask.fragrance.base:
        return ()
    second = ask.second_wax.total if ask.second_wax is not None else ZERO
    mix = Mix(ask.wax.total + second, ask.fragrance - ask.lost + (ask.second_fragrance or ZERO))
    return (line("If it was fragrance alone that went (evaporated in melting again): {}.", _to_add(mix, recipe)),)


def _lost_words(ask: RescueQuestion) -> tuple[Line, ...]:
    if not ask.lost:
        return ()
    return (line("I took the lost {0:typed} as wax and fragrance together, spilled or poured off.", ask.lost),)


def _check(after: Mix, recipe: Recipe) -> Line:
    whole = after.wax if recipe.basis is Basis.WAX else after.total
    real = line("{0:work}", after.fragrance)
    if recipe.strength != FULL:
        real = line("{0:work} × {1:bare} ÷ 100", after.fragrance, recipe.strength)
    reached = Percent(after.fragrance.base * recipe.strength.fraction / whole.base * 100)
    return line("Check: {0} ÷ {1:work} × 100 = {2} {3}.", real, whole, reached, Line(recipe.basis.value))


def _limit(ask: RescueQuestion, book: Book) -> Percent | None:
    """The most said, or the most that a recorded sheet of its waxes allows: the lower of them."""
    return strictest(ask.limit, sheet_limits((*names_in(ask.wax), *names_in(ask.second_wax)), book))


def _cautions(limit: Percent | None, pot: Pot, gap: Mass, recipe: Recipe) -> tuple[Caution, ...]:
    most = limit.base if limit is not None else USUAL_MOST
    out: list[Caution] = []
    if gap.base < 0 and pot.load.base > most:
        out.append(
            Caution(
                "too_much_now",
                line(
                    "Don't burn what was poured at {}: oil that the wax can't hold can flare up. Melt it down.",
                    pot.load,
                ),
            )
        )
    if abs(gap.base) > _NOTHING:
        hot = line("Melt it gently in a water bath, stir well, and never leave hot wax alone.")
        out.append(Caution("hot_wax", hot))
    after = Percent(recipe.of_wax(pot.mix.wax).load_of_wax.base * recipe.strength.fraction)
    return (*out, *load_cautions(after, limit))


def _read_as(ask: RescueQuestion) -> Line:
    parts: list[Line] = []
    if ask.wax is not None:
        parts.append(line("{0:typed} of wax", ask.wax.total))
    if ask.fragrance is not None:
        parts.append(line("{0:typed} of fragrance oil in it", ask.fragrance))
    if ask.strength is not None:
        parts.append(line("an oil that is {0:typed} fragrance", ask.strength))
    if ask.lost:
        parts.append(line("{0:typed} lost", ask.lost))
    if ask.second_wax is not None:
        second = (ask.second_wax.total, ask.second_fragrance or ZERO)
        parts.append(line("mixed with {0:typed} of wax and {1:typed} of fragrance oil", *second))
    if ask.load is not None:
        basis = ask.load.basis or ask.basis
        parts.append(line("wanted {0:typed}" + (f" {basis.value}" if basis else ""), ask.load.percent))
    return line("Read as: {}.", listed(parts))


def _givens(ask: RescueQuestion) -> tuple[Given, ...]:
    out = [Given("wax", mass) for _, mass in ask.wax.items] if ask.wax is not None else []
    for what in ("fragrance", "lost", "second_fragrance", "strength", "limit"):
        value = getattr(ask, what)
        if value is not None:
            out.append(Given(what, value))
    out += [Given("second_wax", mass) for _, mass in ask.second_wax.items] if ask.second_wax is not None else []
    return (*out, *((Given("load", ask.load.percent),) if ask.load is not None else ()))
