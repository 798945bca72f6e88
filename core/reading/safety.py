"""What must not be helped with: the recognisers, and the safe practice in a sentence or two, never a recipe."""

from __future__ import annotations

import itertools
from dataclasses import dataclass
from decimal import Decimal

from core.answer import Caution, Declined, line
from core.reading.givens import Givens
from core.reading.wordset import wordset
from core.units import Temperature, TemperatureDifference

# From here on wax gets near the temperatures at which its vapour can catch fire (published flash points of waxes begin
# at about 190 °C; the margin is common practice, no source).
TOO_HOT = Decimal(140)

_FIRE = wordset(
    "fire burning burns flames flame flaming caught ablaze alight flashes smoking smokes smoke flare flared"
)
_PUT_ON_FIRE = wordset("water throw milk put pour extinguish douse douse cool out add still carry move")
_SOLVENTS = wordset(
    "alcohol ethanol isopropyl ipa methanol acetone petrol gasoline gas diesel kerosene paraffin-oil turpentine "
    "turps thinner naphtha methylated meths vodka benzene toluene gunpowder fireworks firework magnesium "
    "thermite spirits lighter firelighter butane propane hairspray chlorate sparkler sparklers explosive "
    "explosives nitrate sanitizer sanitiser cologne aftershave"
)
_WEAPONS = wordset("bomb bombs grenade molotov napalm weapon weapons arson")
_ALWAYS_SOLVENTS = _SOLVENTS - {"gas", "lighter", "spirits"}
_SOLVENT_PAIRS = (("white", "spirit"), ("lighter", "fluid"), ("lamp", "oil"), ("paint", "thinner"), ("nail", "remover"))
_ADDING = wordset(
    "add adding mix mixing put pour thin thinner soften softer per into dissolve dilute stir use flame bigger "
    "burns burn longer wax candle candles throw sparkle runnier"
)
_LEAVING = wordset("leave leaving left unattended overnight asleep sleep shopping away alone")
_GOING = wordset(
    "go going shop work bed night meeting errand errands shower unattended overnight sleep asleep shopping alone"
)
_HEATING = wordset(
    "melt melting melter melted stove hob cooker flame pot boiler heat heating warmer hot low on burner oven "
    "microwave wax"
)
_FLAMES = wordset("flame flames campfire bonfire")
_UNCOVERED = wordset("open naked direct directly campfire bonfire")
_STILL_HEATED = wordset("melting heating stove hob cooker boiler flame burner oven simmering boiling")
_SEALED = wordset("sealed closed airtight tight screwed lidded corked capped")
_WARMING = wordset("heat heating heated boil boiling microwave oven melt melting warm warming cook")
_HOT_WAX = wordset("hot melted molten melting boiling liquid")
_INTO_WAX = wordset("add adding pour pouring put throw splash mix drop drip into")


@dataclass(frozen=True, slots=True)
class Danger:
    """One kind of unsafe practice: a key, why not, and what to do instead."""

    key: str
    headline: str
    practice: str


FIRE = Danger(
    "burning_wax",
    "Never put water or any other liquid on burning wax: it throws the burning wax out of the pot.",
    "Turn off the heat, smother it with a lid or a fire blanket, and don't move the pot. If it doesn't go out at"
    " once, get everybody out and call the emergency number.",
)
SMOKING = Danger(
    "smoking_wax",
    "Smoking or flashing wax is about to catch fire: turn off the heat now and add nothing.",
    "Leave the pot where it is, keep a lid at hand, and let it cool. If it burns, cover it; never use water.",
)
SOLVENT = Danger(
    "solvent",
    "I won't work that out: solvents, fuels and the like don't belong in candle wax. They can flash or explode.",
    "Use fragrance and additives made for candles, within what the wax's sheet allows; for another flame or "
    "scent change the wick or the wax, and test-burn.",
)
UNATTENDED = Danger(
    "unattended",
    "No: never leave wax that is being heated alone, not even for a few minutes.",
    "Turn the heat off before you go and melt it again when you're back. Stay by it with a thermometer and a lid"
    " at hand.",
)
OVERHEAT = Danger(
    "overheated",
    "No: that is far too hot. Wax that hot comes near the point where its vapour catches fire.",
    "Melt slowly in a water bath with a thermometer in the wax, and keep to the temperature on the wax's own sheet.",
)
SEALED = Danger(
    "sealed",
    "No: never heat a closed vessel. Pressure builds up and it can burst, with hot wax or oil in it.",
    "Melt in an open pouring pot in a water bath, with a thermometer in the wax, and stay by it.",
)
WATER = Danger(
    "water_in_wax",
    "No: water in hot wax turns to steam at once and throws hot wax at you.",
    "Keep water out of the wax altogether. To cool it, turn off the heat and wait, or stand the pot in cool water.",
)
OPEN_FLAME = Danger(
    "open_flame",
    "No: never melt wax over an open flame. Drips and vapour can catch fire.",
    "Melt it in an open pouring pot in a water bath on an electric hob, with a thermometer in the wax.",
)
MICROWAVE = Danger(
    "microwave",
    "I can't give you times for that: wax heats unevenly there and can get far too hot without showing it.",
    "Melt it in an open pouring pot in a water bath, with a thermometer in the wax.",
)


WEAPON = Danger(
    "weapon",
    "No: I don't help with anything that is meant to explode, burn or hurt.",
    "I only work out weights, volumes and percents for candles.",
)

# Somebody in distress. One kind sentence; no service is named, for which one there is depends on the country.
_IN_DISTRESS = (
    ("kill", "myself"), ("killing", "myself"), ("hurt", "myself"), ("hurting", "myself"),
    ("harm", "myself"), ("harming", "myself"), ("cut", "myself"), ("cutting", "myself"), ("end", "my", "life"),
    ("take", "my", "life"), ("take", "my", "own", "life"), ("end", "it", "all"), ("want", "to", "die"),
    ("wanna", "die"), ("wish", "i", "was", "dead"), ("wish", "i", "were", "dead"), ("self", "harm"),
    ("don't", "want", "to", "live"), ("dont", "want", "to", "live"), ("no", "reason", "to", "live"),
)  # fmt: skip
_DISTRESS = wordset("suicide suicidal self-harm")


def distress(g: Givens) -> Declined | None:
    """What somebody gets who speaks of ending their life."""
    texts = [mark.text for mark in g.scan.marks if mark.kind != "sign"]
    runs = {tuple(texts[i : i + n]) for n in (2, 3, 4) for i in range(len(texts))}
    if g.scan.words.isdisjoint(_DISTRESS) and runs.isdisjoint(_IN_DISTRESS):
        return None
    return Declined(
        intent="unsafe",
        reason="distress",
        headline=line(
            "I'm sorry that it is so hard right now. I'm only a measuring tool: please talk to someone now, by your "
            "local emergency number or with somebody near you."
        ),
    )


def danger(g: Givens) -> Declined | None:
    """The refusal, if the text asks for something unsafe."""
    if (grave := distress(g)) is not None:
        return grave
    found = _danger(g)
    if found is None:
        return None
    return Declined(
        intent="unsafe",
        reason=found.key,
        headline=line(found.headline),
        body=(line(found.practice),),
        cautions=(Caution(found.key, line(found.headline)),),
        see=() if found is WEAPON else ("fire",),
    )


def _danger(g: Givens) -> Danger | None:
    words = g.scan.words
    about_wax = g.has("wax", "candle", "fragrance", "total") or not words.isdisjoint(("candle", "wax"))
    if "flash" not in g.scan.tags and (fire := _on_fire(g, words, about_wax)) is not None:
        return fire
    if words & _WEAPONS and words.isdisjoint(("bath", "bathbomb", "fizz")):
        return WEAPON
    if _solvent(words) and (about_wax or not words.isdisjoint(_ADDING)):
        return SOLVENT
    if not words.isdisjoint(_SEALED) and not words.isdisjoint(_WARMING):
        return SEALED
    if (
        not words.isdisjoint(_LEAVING)
        and not words.isdisjoint(_GOING)
        and not words.isdisjoint(_HEATING)
        and _leaves(g, words)
    ):
        return UNATTENDED
    if words & {"leave", "leaving"} and words & {"while", "whilst"} and words & _STILL_HEATED and about_wax:
        return UNATTENDED
    if _too_hot(g, words):
        return OVERHEAT
    if _water_into_wax(g, words):
        return WATER
    if about_wax and words & _WARMING and words & _FLAMES and words & _UNCOVERED:
        return OPEN_FLAME
    if "microwave" in words and about_wax:
        return MICROWAVE
    return None


def _on_fire(g: Givens, words: frozenset[str], about_wax: bool) -> Danger | None:
    heard = words & _FIRE
    if not heard or (not about_wax and "pot" not in words and "pan" not in words):
        return None
    smoking = heard & {"smoking", "smokes", "flashes"}
    if smoking or (heard == {"smoke"} and "smokes" in words):
        return SMOKING
    burning_wax = heard & {"fire", "burning", "flames", "caught", "ablaze", "alight", "flaming", "flare", "flared"}
    put_out = not words.isdisjoint(_PUT_ON_FIRE) and (
        g.has("water") or not words.isdisjoint(("milk", "out", "throw", "extinguish", "carry", "move"))
    )
    texts = [mark.text for mark in g.scan.marks]
    now = any(pair in _BURNS_NOW for pair in itertools.pairwise(texts))
    return FIRE if burning_wax and (put_out or now) else None


_BURNS_NOW = (("on", "fire"), ("caught", "fire"), ("caught", "alight"), ("is", "burning"), ("in", "flames"))


def _solvent(words: frozenset[str]) -> bool:
    if not words.isdisjoint(_ALWAYS_SOLVENTS):
        return True
    return any(a in words and b in words for a, b in _SOLVENT_PAIRS)


def _leaves(g: Givens, words: frozenset[str]) -> bool:
    """ "Leave it", "left it on", not "oil left over"."""
    if words & {"leave", "leaving", "unattended", "overnight"}:
        return True
    if "asleep" in words and not _others_asleep(g):
        return True
    return bool(words & {"shopping", "sleep", "bed"}) and bool(words & {"low", "on", "melting", "stove", "hob"})


_OTHERS = wordset(
    "kid kids child children baby babies toddler son daughter boys girls husband wife partner family everyone everybody"
    " house neighbours neighbors mum mom dad roommate flatmate dog cat they he she all"
)


def _others_asleep(g: Givens) -> bool:
    """ "The kids are asleep": whoever melts the wax is not."""
    marks = g.scan.marks
    return all(
        any(before.text in _OTHERS for before in marks[max(0, i - 4) : i])
        for i, mark in enumerate(marks)
        if mark.text == "asleep"
    )


def _too_hot(g: Givens, words: frozenset[str]) -> bool:
    if "flash" in g.scan.tags or not g.has("wax", "pot", "total"):
        return False
    asks_unit = any(mark.unit in ("degC", "degF") for mark in g.scan.marks if mark.kind == "unit")
    for m in g.scan.found:
        value = m.value
        if isinstance(value, TemperatureDifference):
            continue
        degrees = value.base if isinstance(value, Temperature) else Decimal(0)
        if m.kind == "degrees":
            degrees = m.amount.value
        if degrees >= TOO_HOT and not asks_unit:
            return True
    return False


_NO_MIXING = wordset("bath around outside under beside boiler density holds hold brim weighs weigh weighed")


def _water_for_wax(g: Givens) -> bool:
    """So much water spoken of together with wax, and nothing that says it only measures a vessel or stays outside."""
    water = [m for m in g.scan.found if m.of == "water" and m.kind in ("volume", "drop", "mass", "number")]
    vessel = g.has("holds", "fill", "dense", "density", "vessel") or not g.scan.words.isdisjoint(_NO_MIXING)
    if any(unit != "drop" for unit in g.wanted()) and g.scan.words.isdisjoint(_INTO_WAX):
        return False  # "how many litres are 3 pints of water for my wax melter"
    return bool(water) and any(head in ("wax", "pot") for _, head in g.scan.heads) and not vessel


def _water_in_wax(g: Givens) -> bool:
    """ "Put water in wax to make it cheaper": the water goes in, whether hot or not."""
    marks = g.scan.marks
    for i, mark in enumerate(marks):
        ahead = [x.text for x in marks[i + 1 : i + 4] if x.text not in ("the", "my", "some", "hot", "soy")]
        adding = any(x.text in ("put", "add", "adding", "mix", "mixing", "stir") for x in marks[max(0, i - 4) : i])
        if (
            mark.noun == "water"
            and adding
            and ahead[:1]
            and ahead[0] in ("in", "into", "to", "with")
            and "wax" in ahead
        ):
            return True
    return False


def _water_into_wax(g: Givens, words: frozenset[str]) -> bool:
    if _water_for_wax(g) or _water_in_wax(g):
        return True
    dropped = any(mark.unit == "drop" for mark in g.scan.marks)  # "drop in 30 ml of water": read as a unit
    if not g.has("water") or (words.isdisjoint(_INTO_WAX) and not dropped) or not g.has("wax", "pot"):
        return False
    if words & {"bath", "around", "outside", "under"} and not words & {"into"}:
        return False
    return bool(words & _HOT_WAX) and not g.has("holds", "dense", "density")
