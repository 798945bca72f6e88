"""Cautions about loads, in one place: when most waxes hold less, when the sheet allows less, when not to answer."""

from __future__ import annotations

from decimal import Decimal

from core.answer import Caution, Declined, line
from core.units import Percent

# Common practice, no source: sheets of most waxes name a maximum of 6 to 12 % of the wax.
USUAL_MOST = Decimal(12)
# Common practice, no source: far beyond what any wax binds; the rest sweats out and can flare up.
TOO_MUCH = Decimal(25)


def too_much(load: Percent) -> bool:
    """True for a load that is not worked out at all."""
    return load.base >= TOO_MUCH


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
