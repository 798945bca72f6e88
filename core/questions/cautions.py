"""Cautions about loads, in one place: when most waxes hold less, when the sheet allows less, when not to answer."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import Decimal

from core.answer import Answer, Caution, Declined, Line, Worked, line
from core.book import Book
from core.compounds import Masses
from core.mixing import Recipe
from core.units import Percent

# Common practice, no source: sheets of most waxes name a maximum of 6 to 12 % of the wax.
USUAL_MOST = Decimal(12)
# Common practice, no source: far beyond what any wax binds; the rest sweats out and can flare up.
TOO_MUCH = Decimal(25)


def too_much(load: Percent) -> bool:
    """True for a load that is not worked out at all."""
    return load.base >= TOO_MUCH


def may_offer(recipe: Recipe) -> bool:
    """Whether a recipe may be named as another reading: it can be mixed, and asked for by itself it is worked out."""
    return recipe.possible and not too_much(Percent(recipe.oil_per_wax * recipe.strength.fraction * 100))


def sheet_limits(names: Iterable[str], book: Book) -> tuple[tuple[str, Percent], ...]:
    """The most that the sheets of those waxes allow, by the name each is recorded under; only recorded ones."""
    found: dict[str, Percent] = {}
    for name in names:
        record = next((each for each in map(book.material, _spellings(name)) if each is not None), None)
        if record is not None and record.max_load is not None:
            found[record.name] = record.max_load
    return tuple(found.items())


def _spellings(name: str) -> tuple[str, ...]:
    """As written; "soy wax" is looked for as "soy" too, and the other way round."""
    plain = name.strip()
    shorter = plain.removesuffix(" wax")
    return () if not plain else (plain, shorter if shorter != plain else f"{plain} wax")


def names_in(wax: Masses | None) -> tuple[str, ...]:
    """The names of the weights added up, without the count of "3 × soy"."""
    return tuple(name.rpartition(" × ")[2] for name, _ in wax.items) if wax is not None else ()


def mix_cautions(wax: Masses | None, load: Percent, book: Book) -> tuple[Caution, ...]:
    """Cautions for a load of these waxes, by what is recorded of their sheets."""
    return load_cautions(load, strictest(None, sheet_limits(names_in(wax), book)))


def strictest(said: Percent | None, limits: Iterable[tuple[str, Percent]]) -> Percent | None:
    """The lowest of the most said and the most recorded; None where there is neither."""
    return min([most for _, most in limits] + ([said] if said is not None else []), default=None)


def sheet_words(limits: Iterable[tuple[str, Percent]]) -> tuple[Line, ...]:
    """What the sheets allow, said as the group's record."""
    return tuple(line("The sheet of {0} allows at most {1}, as recorded.", name, most) for name, most in limits)


def too_much_answer(load: Percent) -> Declined:
    """The refusal of a load of 25 % and more, with the reason and the safe way."""
    return Declined(
        intent="unsafe",
        reason="load_too_high",
        headline=line("I won't work out a load of {}: no wax holds that much, and the candle can flare up.", load),
        body=(
            line(
                "Oil that the wax can't bind sweats out, pools around the wick and burns: a fire, not a stronger scent."
            ),
            line(
                "Stay at or under the most that your wax's own sheet allows (most allow 6 to 12 % of the wax; "
                "common practice), and test-burn before you give a candle away."
            ),
        ),
        cautions=(Caution("load_too_high", line("25 % and more of oil is a fire hazard.")),),
        see=("fire",),
    )


def usual_loads(load: Percent | None) -> Answer:
    """Whether a load is too much: the rule, and where `load` stands by it."""
    if load is not None and too_much(load):
        return too_much_answer(load)
    body = [line("Most sheets allow 6 to 12 % of the wax (common practice, no source).")]
    if load is not None:
        words = (
            "within that" if load.base <= USUAL_MOST else "more than most allow: too much oil sweats and can flare up"
        )
        body.append(line(f"Your {{}} is {words}.", load))
    return Worked(
        intent="concept",
        headline=line("Your wax's own sheet decides: stay at or under the most that it allows."),
        body=tuple(body),
        see=("bases",),
    )


def load_cautions(load: Percent, limit: Percent | None) -> tuple[Caution, ...]:
    """Cautions for a load of the wax, `limit` being the sheet's maximum if known."""
    out: list[Caution] = []
    if limit is not None and load.base > limit.base:
        out.append(
            Caution(
                "over_limit",
                line("{} is over the {} that the wax's sheet allows. Stay at or under the sheet.", load, limit),
            )
        )
    elif limit is None and load.base > USUAL_MOST:
        out.append(
            Caution(
                "over_usual",
                line(
                    "{} is more than most waxes' sheets allow (up to about 12 % of the wax). "
                    "Check your wax's sheet; too much oil sweats and can flare up.",
                    load,
                ),
            )
        )
    return tuple(out)
