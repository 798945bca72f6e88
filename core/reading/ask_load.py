"""Texts about wax, fragrance, load and total by weight: the questions load, rescue and stock."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Answer
from core.compounds import Additives, Basis, Load, Masses, Parts, Stuff
from core.question import Question
from core.questions.batch import FillIs
from core.questions.blend import BlendQuestion
from core.questions.load import LoadQuestion
from core.questions.rescue import RescueQuestion
from core.questions.stock import StockQuestion
from core.questions.tare import TareQuestion
from core.questions.volume import VolumeQuestion
from core.reading import asking
from core.reading.ask_bench import pairs_of
from core.reading.chain import chained
from core.reading.givens import Givens, mass_of
from core.reading.scan import Measured
from core.units import Mass, Percent

Outcome = Question | Answer | None
# How far a stated result may be from load x wax and still be the stated result of it.
SAME = Decimal("0.02")
_CHECKING = ("right", "enough", "correct", "true", "sound", "ok", "okay")


def load(g: Givens) -> Outcome:
    """Any two of wax, fragrance, load and total."""
    if g.shares.parts:
        return _parts_of_whole(g)
    if "half_half" in g.scan.tags:
        return LoadQuestion(load=Load(Percent(Decimal(100)), Basis.WAX), wax=g.wax())
    wax, fragrance, total = g.wax(), g.fragrance(), g.total()
    loads = g.shares.loads
    if (rate := _asked_rate(g)) is not None:
        return rate
    if g.shares.unclear:
        return asking.which_percent(g.shares.unclear)
    counted = pairs_of(g)
    if _uncounted_each(g) and not counted:
        return asking.which_weight(g.scan.masses())
    if (poured := poured_out(g)) is not None:
        fragrance = poured
    else:
        wax, fragrance, total, clear = _place_loose(g, wax, fragrance, total)
        if not clear:
            return asking.which_weight(g.loose())
    if counted and wax is not None:
        wax = _times(wax, counted)
    if wax is None and fragrance is None and total is None and not loads:
        return None
    if g.shares.strength is not None and not loads and fragrance is not None:
        fragrance = fragrance * g.shares.strength.fraction
    if (
        fragrance is not None
        and not loads
        and wax is None
        and total is None
        and not g.asks_percent
        and not g.has("wax")
    ):
        return None
    if fragrance is not None and not loads and wax is None and total is None and g.asks_percent:
        return asking.wax_missing(_made(g, None, fragrance, None, None))
    if (both := _same_weight_twice(g, wax)) is not None:
        return both
    made = [_made(g, wax, fragrance, total, each) for each in loads] or [_made(g, wax, fragrance, total, None)]
    if len(made) > 2:
        return asking.not_understood("I see more than two percents that may be the load. Which one is it?")
    if total is not None and wax is None and fragrance is None:
        return _of_a_total(g, made)
    if (doubtful := _doubtful_ounces(g)) is not None and fragrance is not None:
        return _which_ounces(g, doubtful, made[0])
    if _asks_both(g) and len(made) == 1 and made[0].load is not None and wax is not None:
        return chained(g.book, *_on_both(made[0], wax))
    if len(made) == 2 and fragrance is not None and wax is not None:
        return _made(g, wax, fragrance, total, None)  # "is it 8 % or 7.4?": both figures are in the answer
    if not loads and fragrance is None and total is None and g.has("already") and g.has("load", "percent_word"):
        return asking.fragrance_missing(made[0])
    return chained(g.book, *made)


def _times(wax: Masses, counted: list[tuple[int, Measured]]) -> Masses:
    """ "3 bags of 454 g": each weight as often as it is there."""
    items: list[tuple[str, Mass]] = []
    for name, mass in wax.items:
        count = next((n for n, m in counted if m.value is mass or m.value == mass), 1)
        items.append((f"{count} × {name or 'wax'}" if count > 1 else name, mass * count))
    return Masses(tuple(items))


def _uncounted_each(g: Givens) -> bool:
    """So much "each", and a count nobody could tie to it: better ask than leave the count out."""
    counts = [m for m in g.scan.kind("number") if m.of in ("jar", "candle", "pack") and m.amount.value > 1]
    return bool(counts) and any(m["each"] for m in g.scan.masses("wax", "total", ""))


def _asked_rate(g: Givens) -> LoadQuestion | None:
    """ "1 oz per pound is what percent?": a rate or ratio by itself is two weights."""
    given = g.shares.load
    if given is None or not given.typed or not g.asks_percent or g.scan.masses():
        return None
    for m in g.scan.kind("rate"):
        if m.amount.per is not None:
            value, unit = m.amount.per
            return LoadQuestion(fragrance=Mass.of(m.amount.value, m.amount.unit), wax=Masses.one(Mass.of(value, unit)))
    return LoadQuestion(fragrance=Mass(given.percent.base), wax=Masses.one(Mass(Decimal(100))))


def _same_weight_twice(g: Givens, wax: Masses | None) -> Outcome:
    """ "Is 6 % of 1000 g wax the same as 6 % of a 1000 g candle?": both are worked out."""
    wholes = g.scan.masses("total", "candle")
    given = g.shares.load
    if wax is None or given is None or len(wholes) != 1 or not g.has("compare", "same"):
        return None
    return chained(
        g.book,
        LoadQuestion(wax=wax, load=given),
        LoadQuestion(total=mass_of(wholes[0]), load=Load(given.percent, given.basis or Basis.WAX)),
    )


def _made(g: Givens, wax: Masses | None, fragrance: Mass | None, total: Mass | None, each: Load | None) -> LoadQuestion:
    strength = g.shares.strength if each is not None else None
    return LoadQuestion(
        wax=wax,
        fragrance=fragrance,
        total=total,
        load=each,
        blend=g.shares.blend,
        additives=g.shares.added,
        strength=strength,
        limit=g.shares.limit,
        unit=g.wanted_mass(),
    )


def _place_loose(
    g: Givens, wax: Masses | None, fragrance: Mass | None, total: Mass | None
) -> tuple[Masses | None, Mass | None, Mass | None, bool]:
    """Weights nobody said what of, by what is lacking; the last value is False where it can't be told."""
    loose = g.loose()
    if g.tare() is not None:
        pair = g.tare() or ()
        loose = [m for m in loose if all(m.amount is not other.amount for other in pair)]
    if not loose:
        return wax, fragrance, total, True
    load_given = g.shares.load
    if len(loose) == 1 and wax is None and total is None:
        mass = mass_of(loose[0])
        flags = {"finished", "together", "split", "makes"}
        finished = bool(loose[0].flags & flags) or ("wax" in g.asked() and fragrance is None)
        if finished or (g.has("split") and load_given is not None and not g.has("both")):
            return wax, fragrance, mass, True
        return Masses.one(mass), fragrance, total, True
    if len(loose) == 1 and wax is not None and fragrance is None:
        checked = (g.asks_percent and not g.shares.loads) or g.checks
        if checked or loose[0]["already"]:
            return wax, mass_of(loose[0]), total, True
        if load_given is not None and _is_product(load_given, wax.total, mass_of(loose[0])):
            return wax, mass_of(loose[0]), total, True
        return wax, fragrance, total, loose[0]["together"] or bool(wax.total.base == mass_of(loose[0]).base)
    if len(loose) == 1 and total is not None:
        return wax, fragrance, total, mass_of(loose[0]).base == total.base
    if len(loose) == 2 and wax is None and load_given is not None:
        first, second = mass_of(loose[0]), mass_of(loose[1])
        for big, small in ((first, second), (second, first)):
            if _is_product(load_given, big, small) or (g.checks and small.base * 3 < big.base):
                return Masses.one(big), small, total, True
    return wax, fragrance, total, False


def _is_product(given: Load, wax: Mass, fragrance: Mass) -> bool:
    wanted = wax.base * given.percent.fraction
    return wanted > 0 and abs(fragrance.base - wanted) <= wanted * SAME


def poured_out(g: Givens) -> Mass | None:
    """ "The bottle was 120 g before and 87 g after": what was poured is the difference."""
    told = g.scan.says(("before", "from", "was", "went")) and g.scan.says(("after", "afterwards", "now", "to"))
    if not told or not any(head == "bottle" for _, head in g.scan.heads):
        return None
    found = [m for m in g.scan.masses() if m.of not in ("wax", "total")]
    if len(found) != 2 or mass_of(found[0]).base <= mass_of(found[1]).base:
        return None
    return mass_of(found[0]) - mass_of(found[1])


def _of_a_total(g: Givens, made: list[LoadQuestion]) -> Outcome:
    """A finished weight: what its percent is of must be said, unless the asker does not mind."""
    first = made[0]
    if first.load is None or first.load.basis is not None or len(made) > 1:
        return chained(g.book, *made)
    if _asks_both(g):
        return chained(g.book, *_readings(first))
    return asking.basis(first)


def _asks_both(g: Givens) -> bool:
    """Whether both readings of the percent are asked for."""
    heard = g.scan.tags
    if "dont_mind" in heard:
        return True
    both_named = "of_total" in heard and any("of_wax" in m.tags for m in g.scan.marks if m.text not in ("to",))
    return both_named and bool(heard & {"compare", "same", "both"} or g.scan.says(("if", "or", "both")))


def _on_both(first: LoadQuestion, wax: Masses) -> list[LoadQuestion]:
    assert first.load is not None
    percent = first.load.percent
    return [
        LoadQuestion(wax=wax, load=Load(percent, Basis.WAX), unit=first.unit),
        LoadQuestion(wax=wax, load=Load(percent, Basis.TOTAL), unit=first.unit),
        LoadQuestion(total=wax.total, load=Load(percent, Basis.WAX), unit=first.unit),
        LoadQuestion(total=wax.total, load=Load(percent, Basis.TOTAL), unit=first.unit),
    ]


def _readings(first: LoadQuestion) -> list[LoadQuestion]:
    assert first.load is not None
    assert first.total is not None
    return _on_both(first, Masses.one(first.total))[2:]


def _parts_of_whole(g: Givens) -> Outcome:
    """ "94 % wax, 6 % fragrance of 350 g": percents of the whole that add up to 100."""
    parts = g.shares.parts
    oil = sum((value for _, of, value in parts if of == "fragrance"), Decimal(0))
    wax = sum((value for _, of, value in parts if of in ("wax", "total", "")), Decimal(0))
    extra = [(name, of, value) for name, of, value in parts if of in ("dye", "additive")]
    masses = [m for m in g.scan.masses() if m.of not in ("wax", "fragrance") or m.side == "left"]
    if not oil or not wax:
        return None
    whole = mass_of(masses[0]) if len(masses) == 1 else None
    waxes = [(name, value) for name, of, value in parts if of == "wax"]
    if len(waxes) > 1 and whole is not None:
        return BlendQuestion(parts=Parts(tuple((name, value) for name, _, value in parts)), total=whole)
    additives = Additives(tuple((name, Percent(value / wax * 100)) for name, _, value in extra)) if extra else None
    given = g.wax() if whole is None else None
    basis_load = Load(Percent(oil), Basis.TOTAL)
    return LoadQuestion(total=whole, wax=given, load=basis_load, additives=additives, unit=g.wanted_mass())


def _doubtful_ounces(g: Givens) -> Measured | None:
    """An "oz" of fragrance that nobody said was weighed."""
    if g.by_weight or g.scan.kind("rate"):
        return None
    found = [m for m in g.scan.masses("fragrance", "bottle") if m.amount.unit == "oz" and not m.amount.parts]
    return found[0] if found else None


def _which_ounces(g: Givens, m: Measured, question: LoadQuestion) -> Answer:
    mass = mass_of(m)
    fluid = VolumeQuestion(
        volume=asking.fluid_ounces(mass),
        stuff=Stuff.FRAGRANCE,
        wax=question.wax,
        load=question.load,
        density=g.density(),
    )
    return asking.ounces(mass, question, fluid)


def rescue(g: Givens) -> Outcome:
    """Too much or too little is in the pot already."""
    wax, fragrance, total = g.wax(), g.fragrance(), g.total()
    wax, fragrance, total, clear = _place_loose(g, wax, fragrance, total)
    given = g.shares.load
    if not clear or wax is None or fragrance is None or given is None:
        return None
    if _doubtful_ounces(g) is not None:
        return _which_ounces(g, g.scan.masses("fragrance")[0], LoadQuestion(wax=wax, fragrance=fragrance, load=given))
    return RescueQuestion(wax=wax, fragrance=fragrance, load=given, strength=g.shares.strength, limit=g.shares.limit)


def stock(g: Givens) -> Outcome:
    """What is at hand: what runs out first, what is left, how many candles it makes."""
    wax, fragrance = g.wax(), g.fragrance()
    given = g.shares.load
    if wax is None or fragrance is None or given is None:
        return None
    if _doubtful_ounces(g) is not None:
        return _which_ounces(g, g.scan.masses("fragrance")[0], LoadQuestion(wax=wax, fragrance=fragrance, load=given))
    return StockQuestion(wax=wax, fragrance=fragrance, load=given)


def how_many_candles(g: Givens) -> Outcome:
    """ "How many jars of 220 g can I pour from 5 kg of wax?" """
    masses = g.unsold(g.scan.masses("wax", "total", "candle", "jar", ""))
    if len(masses) != 2 or any(m.kind == "number" and m.amount.value > 1 for m in g.scan.found):
        return None
    each, stocked = sorted(masses, key=lambda m: mass_of(m).base)
    if mass_of(each).base * 2 > mass_of(stocked).base:
        return None
    finished = each.of == "total" or each["finished"]
    return StockQuestion(
        wax=Masses.one(mass_of(stocked)),
        each=mass_of(each),
        fill_is=FillIs.FINISHED if finished else FillIs.WAX if each.of == "wax" or g.shares.load is None else None,
        load=g.shares.load,
    )


def nothing_given(g: Givens) -> Outcome:
    """ "How much oil goes into my wax?": neither weight nor percent."""
    if g.shares.loads or g.scan.kind("temperature"):
        return None
    return LoadQuestion()


def tare(g: Givens) -> Outcome:
    """ "The pot weighs 640 g, with wax 2140: do I count the pot?" """
    pair = g.tare()
    if pair is None or g.asks_percent or g.has("water", "net", "label", "dense", "density"):
        return None
    if any(m.amount is not pair[0].amount and m.amount is not pair[1].amount for m in g.scan.masses()):
        return None
    return TareQuestion(full=mass_of(pair[0]), empty=mass_of(pair[1]), stuff=g.stuff())


def wax_for_unknown_oil(g: Givens) -> Outcome:
    """ "How much wax for an 8 % load?" with neither weight: the fragrance's is what is missing."""
    if g.scan.masses() or g.scan.volumes() or g.shares.load is None:
        return None
    return StockQuestion(load=g.shares.load)
