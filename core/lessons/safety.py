"""Hot wax, fire and burns."""

from __future__ import annotations

from core.answer import Caution, Lesson, Result, line
from core.book import Book
from core.lessons.topics import Topic
from core.lessons.units import Units, published
from core.questions.cautions import TOO_MUCH
from core.reference import hazards
from core.reference.hazards import FlashPoint
from core.units import Percent, Temperature


def fire(book: Book, units: Units) -> Lesson:
    """What to do before, during and after."""
    names = ("paraffin wax", "alpha-pinene", "d-limonene")
    paraffin, pinene, limonene = flashes = [_flash(name) for name in names]
    wax_fire, burns, flash = (hazards.caution(key) for key in ("wax fire", "burns", "flash point"))
    bath = Temperature.of(100)
    return Lesson(
        intent="concept",
        key=Topic.FIRE.key,
        headline=line("Wax on fire: never water. Heat off, lid on, and leave it covered until it is cold."),
        paragraphs=(
            line(
                "Water turns to steam at once and throws the burning wax. Turn off the heat, slide a lid over the pot, "
                "use a dry-chemical extinguisher; don't carry a burning pot. If it isn't out at once: everybody out, "
                "door shut, call your country's emergency number. (After {}.)",
                wax_fire.source,
            ),
            line(
                "Before it comes to that: never leave hot wax, not for a minute. Melt it in a water bath, which stays "
                "near {} at most, with a thermometer in the wax. Smoke means far too hot: heat off.",
                units.degrees(bath),
            ),
            line(
                "A flash point is the temperature from which vapour catches from a flame or a spark ({}). It is not "
                "where scent “burns off”, and no standard I know makes it the temperature for adding oil.",
                flash.source,
            ),
            line(
                "Paraffin's lies at {0} or above, but parts of fragrance oils flash far lower: alpha-pinene at {1}, "
                "d-limonene from {2}. Keep flames, sparks and cigarettes away from hot wax and from any oil.",
                *(units.degrees(Temperature(each.low)) for each in flashes),
            ),
            line(
                "Hot wax on skin: cool it with water and don't peel it off ({}). See a doctor for a burn that is "
                "large, deep or in the face.",
                burns.source,
            ),
            line(
                "In the candle: oil that the wax can't hold pools and can flare up, so stay within the wax's own "
                "sheet; I won't work out {} and more. Suppliers' sheets and local codes count before anything I say.",
                Percent(TOO_MUCH),
            ),
            line("Try it: ask “500 g of wax at 30 %” and see why I won't work it out."),
        ),
        given=tuple(
            published(f"flash point of {name}", Temperature(each.low), each.source, each.status)
            for name, each in zip(names, flashes, strict=True)
        ),
        results=(
            Result("paraffin_flash_at_least", Temperature(paraffin.low)),
            Result("alpha_pinene_flash", Temperature(pinene.low)),
            Result("d_limonene_flash", Temperature(limonene.low)),
            Result("water_bath", bath),
        ),
        cautions=(Caution("wax_fire", line("{}", wax_fire.says)),),
        see=(Topic.BASES.key,),
    )


def _flash(name: str) -> FlashPoint:
    found = hazards.flash_point(name)
    assert found is not None
    return found
