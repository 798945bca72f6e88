"""Answers that reading gives by itself: which is meant, what is not done here, what was not understood."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from core.answer import Choice, Declined, Line, Missing, Need, NotUnderstood, Option, line
from core.compounds import Basis, Load, OunceKind, Stuff, UnitName
from core.errors import clipped
from core.question import Question
from core.questions.batch import BatchQuestion
from core.questions.convert import ConvertQuestion
from core.questions.known_density import need_density
from core.questions.load import NEED_WAX, LoadQuestion
from core.questions.scale import NEED_WEIGHING, ScaleQuestion
from core.reading.marks import Measured
from core.units import Mass, Volume

NEED_OUNCE = Need("ounce_kind", line("which ounce: of weight, or fluid"))
NEED_BASIS = Need("basis", line("what the percent is of: the wax, or the whole mix"))


def ounces(mass: Mass, weight: Question, fluid: Question, headline: Line | None = None) -> Choice:
    """Is the "oz" of a liquid or of a vessel a weight or a fluid ounce?"""
    volume = fluid_ounces(mass)
    return Choice(
        intent="ambiguous_ounces",
        headline=headline
        or line("Is that {0:typed} by weight, or fluid ounces? An ounce is a weight, a fluid ounce is a volume.", mass),
        needs=(NEED_OUNCE,),
        options=(
            Option(OunceKind.WEIGHT.value, line("{0:typed} on the scale is {0:g}.", mass), weight),
            Option(OunceKind.FLUID.value, line("{0:typed} is {0:ml} of room.", volume), fluid),
        ),
        see=("ounces",),
    )


def fluid_ounces(mass: Mass) -> Volume:
    """As many fluid ounces as the ounces typed."""
    return Volume.of(mass.oz, "fl_oz")


def basis(question: LoadQuestion, batch: BatchQuestion | None = None) -> Choice:
    """A percent of a finished weight: of the wax in it, or of the whole? `batch` is what asks it, where one does."""
    assert question.load is not None
    assert question.total is not None
    percent = question.load.percent
    asked: LoadQuestion | BatchQuestion = question if batch is None else batch
    of_wax, of_total = (replace(asked, load=Load(percent, kind)) for kind in (Basis.WAX, Basis.TOTAL))
    wax = Mass(question.total.base / (1 + percent.fraction), question.total.unit)
    return Choice(
        intent="ambiguous_basis",
        headline=line(
            "{0:typed} of what: of the wax in it, or of the whole {1:typed}? The two differ.", percent, question.total
        ),
        needs=(NEED_BASIS,),
        options=(
            Option("of the wax", line("{0} of fragrance oil.", question.total - wax), of_wax),
            Option("of the total", line("{0} of fragrance oil.", question.total * percent.fraction), of_total),
        ),
        see=("bases",),
    )


def not_understood(sentence: str = "", intent: str = "out_of_scope", reason: str = "not_understood") -> NotUnderstood:
    """Nothing to work with; asks for one thing."""
    return NotUnderstood(
        intent=intent,
        headline=line(
            sentence or "I didn't get that. Tell me one thing to work out, such as “8 % fragrance for 450 g of wax”."
        ),
        reason=reason,
    )


def out_of_scope(headline: str = "") -> Declined:
    """Not a question of measures."""
    return Declined(
        intent="out_of_scope",
        reason="out_of_scope",
        headline=line(headline or "That's outside what I can do: I only work out weights, volumes and percents."),
        body=(line("Ask me, for example, how much fragrance 450 g of wax takes at 8 %, or what 12 oz is in grams."),),
    )


def greeting() -> Declined:
    """Somebody says hello."""
    return out_of_scope("Hello! I work out what candle materials weigh, with the arithmetic shown.")


def thanked() -> Declined:
    """Somebody says thanks."""
    return Declined(
        intent="out_of_scope",
        reason="thanks",
        headline=line("You're welcome! Ask again any time, or change the last question: “and at 10 %?”"),
    )


def abilities() -> Declined:
    """What can be asked, by examples."""
    return Declined(
        intent="out_of_scope",
        reason="help",
        headline=line("I work out amounts for candles by weight, in grams and ounces, with the sums shown."),
        body=(
            line("Fragrance: “450 g wax at 8 %”. A batch: “12 jars of 200 g at 8 %”. A load: “36 g oil in 450 g wax”."),
            line("Units: “12 oz in grams”, “185 F in C”. A jar: “jar holds 250 ml, density 0.9, how much wax”."),
            line("Also costs, parcels, labels, scales and densities. Then “and at 10 %?” changes the last question."),
            line("To learn: type “lesson”, “example” or “practice”."),
        ),
    )


def _quoted(m: Measured) -> str:
    """The amount as typed."""
    return f"“{clipped(m.amount.text, 20)}”"


def which_weight(loose: Sequence[Measured]) -> NotUnderstood:
    """A weight that could be of several things: ask rather than leave it out."""
    shown = " and ".join(_quoted(m) for m in loose[:3])
    return not_understood(
        f"What is {shown} the weight of? Ask again with the wax, the fragrance and the total named, "
        "such as “450 g wax, 36 g fragrance”.",
        intent="fragrance_for_wax",
        reason="which_weight",
    )


def which_volume(volume: Measured) -> NotUnderstood:
    """Room of which not even the thing is told, where wax is asked for."""
    return not_understood(
        f"What is {_quoted(volume)} the volume of: the fragrance oil, or the finished mix? Ask again "
        "with its name, such as “30 ml of oil”.",
        intent="density_given_conversion",
        reason="which_volume",
    )


def which_number(unknown: Sequence[Measured]) -> NotUnderstood:
    """A bare number that may matter: ask rather than leave it out."""
    return not_understood(
        f"What does {_quoted(unknown[0])} stand for? Ask again with its unit or its name, such as "
        "“8 %”, “450 g” or “12 jars”.",
        intent="fragrance_for_wax",
        reason="which_number",
    )


def which_price(unplaced: Sequence[Measured]) -> NotUnderstood:
    """Money that may be a price, a discount or what there is to spend."""
    return not_understood(
        f"What is {_quoted(unplaced[0])} for? Ask again with each price beside its pack, such as "
        "“2 kg 18 eur, 5 kg 39 eur”, and say what you can spend as “budget 60 eur”.",
        intent="purchase",
        reason="which_price",
    )


def which_percent(unclear: Sequence[Measured]) -> NotUnderstood:
    """A percent that is neither the load nor anything else that was understood."""
    return not_understood(
        f"What is {_quoted(unclear[0])} a percent of? Name each percent, such as “8 % fragrance, 1 % dye”.",
        intent="fragrance_for_wax",
        reason="which_percent",
    )


def wax_missing(question: Question) -> Missing:
    """A load needs the weight of the wax too."""
    return Missing(
        intent="load_from_weights",
        headline=line("I need the wax's weight too: a load is fragrance ÷ wax."),
        needs=(NEED_WAX,),
        question=question,
        see=("bases",),
    )


def weighing_missing(question: ScaleQuestion) -> Missing:
    """An error in percent is one of a weight."""
    return Missing(
        intent="scale_resolution",
        headline=line("An error in percent needs a weight: how much do you weigh?"),
        needs=(NEED_WEIGHING,),
        question=question,
    )


def vessels_missing(question: Question) -> Missing:
    """A batch needs the number of vessels."""
    return Missing(
        intent="batch_for_vessels",
        headline=line("How many are there to pour?"),
        needs=(
            Need("number_of_vessels", line("how many vessels or candles there are"), line("Such as “12 x 200 g”.")),
        ),
        question=question,
    )


def packing_missing(question: Question) -> Missing:
    """The box was spoken of, but not weighed."""
    return Missing(
        intent="parcel_weight",
        headline=line("What do the box and its packing weigh? They travel too."),
        needs=(Need("weight_of_packing", line("the weight of the box with its packing"), line("Weigh it empty.")),),
        question=question,
    )


def fragrance_missing(question: Question) -> Missing:
    """A load needs the weight of the fragrance too."""
    return Missing(
        intent="load_from_weights",
        headline=line("I need the fragrance's weight too: a load is fragrance ÷ wax."),
        needs=(
            Need(
                "weight_of_fragrance",
                line("the weight of the fragrance oil"),
                line("Weigh the bottle before and after; the difference is what went in."),
            ),
        ),
        question=question,
        see=("bases",),
    )


def room_only(question: Question, stuff: Stuff = Stuff.FRAGRANCE) -> Missing:
    """ "Three shot glasses of scent", "two scoops": room, of which neither the size nor the weight is known."""
    weight = "weight_of_wax" if stuff is Stuff.WAX else "weight_of_fragrance"
    return Missing(
        intent="volume_needs_density",
        headline=line("A glass, scoop or spoon is room, not weight: I need what is in it by weight."),
        needs=(
            need_density(stuff),
            Need(weight, line("or the weight of what is in it"), line("Put it on a scale: that settles it.")),
        ),
        question=question,
        see=("density",),
    )


def unsure_ounces(mass: Mass, to: str, stuff: Stuff | None) -> ConvertQuestion:
    """A conversion of an "oz" that may be fluid; the question itself asks back."""
    return ConvertQuestion(amount=mass, to=UnitName(to) if to else None, stuff=stuff, unsure=True)


def which_degrees(m: Measured) -> NotUnderstood:
    """Degrees of which scale?"""
    return not_understood(
        f"{_quoted(m)}: Celsius or Fahrenheit? Write it as 75 °C or 167 °F.",
        intent="convert_temperature",
        reason="temperature_scale",
    )
