"""What a text gives, gathered for the builders of questions: the wax, the fragrance, the total, the unit asked for."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from core.compounds import Masses, Material, State, Stuff, UnitName
from core.reading.marks import Measured
from core.reading.measuring import in_figures, mass_of
from core.reading.tares import weighed_along
from core.reading.wanted import Wanted
from core.reading.words import JOINING
from core.reading.wordset import wordset
from core.units import Density, Mass

_WEIGHED = wordset("weighed weights scale scales weighted")
_DENYING = wordset("no not nothing never without neither nor dont don't didnt didn't doesnt doesn't wasnt wasn't")
_TARED = wordset("tared zeroed deducted subtracted")
_STUFF = ("wax", "fragrance", "dye", "water", "additive")
_SOLD = 8  # how many marks may part a pack from its price
BARE_LEAST, BARE_MOST = Decimal("0.7"), Decimal("1.1")
LEAST_DENSITY, MOST_DENSITY = Decimal("0.3"), Decimal("3")


@dataclass(slots=True)
class Givens(Wanted):
    """A text with its amounts sorted out: what it gives, and what it asks for."""

    @property
    def by_weight(self) -> bool:
        """Whether the words say that ounces are weighed."""
        if self._asks_whether_by_weight():
            return False
        return self.scan.has("by_weight") or (self._speaks_of_weighing() and not self.has("no_scale"))

    def _asks_whether_by_weight(self) -> bool:
        """ "Is it on the scale or in the measuring glass": just that is asked."""
        marks = self.scan.marks
        for i, mark in enumerate(marks):
            near = (*marks[max(0, i - 1) : i], *marks[i + 1 : i + 2])
            if "by_weight" in mark.tags and any(x.text == "or" for x in near):
                return True
        return False

    def _speaks_of_weighing(self) -> bool:
        """Whether a scale or weighing is spoken of and not denied: "nothing about a scale", "never weighed"."""
        marks = self.scan.marks
        return any(
            mark.text in _WEIGHED and not any(x.text in _DENYING for x in marks[max(0, i - 3) : i])
            for i, mark in enumerate(marks)
        )

    # what is weighed

    def wax(self) -> Masses | None:
        """All the wax in the pot; a pot that was weighed along is taken off."""
        tare = weighed_along(self.scan)
        if tare is not None and not self.tared:
            full, empty = tare
            if full.value is not None and empty.value is not None and self._holds_wax(full, empty):
                return Masses.one(mass_of(full) - mass_of(empty))
        found = self.unsold(self.scan.masses("wax"))
        if not found and self.tared:
            found = [m for m in self.scan.masses("pot") if not m["empty"]]  # "I tared the pot, it says 1480 g"
        return Masses(tuple((_kind_name(m), mass_of(m)) for m in found)) if found else None

    @property
    def tared(self) -> bool:
        """Whether the vessel has been taken off already."""
        return self.scan.says(_TARED) or (
            self.scan.says(("taken", "already", "took")) and self.scan.says(("off", "away"))
        )

    def _holds_wax(self, full: Measured, empty: Measured) -> bool:
        around = {mark.noun for mark in self.scan.marks}
        return "wax" in around or full.of in ("wax", "pot") or bool(self.shares.loads)

    def fragrance(self) -> Mass | None:
        """All the fragrance oil, added up."""
        found = self.unsold(self.scan.masses("fragrance")) or self.unsold(self.scan.masses("bottle"))
        return _sum(found)

    def total(self) -> Mass | None:
        """The weight of everything together."""
        found = self.unsold(self.scan.masses("total"))
        if not found:
            found = [m for m in self.scan.masses("candle") if not m["each"]]
        if not found:
            vessels = self.scan.masses("jar", "pot")
            found = [m for m in vessels if not m["each"] and m.flags & {"finished", "together", "without"}]
        return mass_of(found[0]) if len(found) == 1 else None

    def loose(self) -> list[Measured]:
        """Weights nobody said what of. A pack counts as one only where nothing else is weighed."""
        found = self.unsold([m for m in self.scan.masses("", "scale") if not m["meant"] or m["makes"] or m["finished"]])
        return found or self.unsold([m for m in self.scan.masses("pack") if not m["meant"]])

    def unsold(self, found: list[Measured]) -> list[Measured]:
        """Without the packs that only have a price: "$24 for 10 lb, and I used 2 lb"."""
        if not self.scan.kind("money"):
            return found
        kept = [m for m in found if not self.sold(m)]
        others = [m for m in self.scan.masses("") if not self.sold(m)]
        return kept if kept or others else found

    def sold(self, m: Measured) -> bool:
        """Whether a price stands right beside the amount."""
        marks = self.scan.marks
        for way in (1, -1):
            i = m.at + way
            for _ in range(_SOLD):
                if not 0 <= i < len(marks) or marks[i].kind == "stop" or marks[i].text == ",":
                    break
                measured = marks[i].measured
                if measured is not None:
                    if measured.kind == "money":
                        return True
                    break
                i += way
        return False

    # what else

    @property
    def asks_density(self) -> bool:
        """Whether a density is spoken of and none is given."""
        return self.has("dense", "density") and self.density() is None

    def density(self) -> Density | None:
        """The density given: a weight per volume, or a plain number beside the word."""
        for m in self.scan.kind("density"):
            return m.value if isinstance(m.value, Density) else None
        room = any(m.kind in ("volume", "length") for m in self.scan.found) or self.has("water")
        for m in self.scan.kind("number"):
            value = m.amount.value
            if value < 1 and not in_figures(m):
                continue  # "two thirds full"
            if m.of == "density" and LEAST_DENSITY <= value <= MOST_DENSITY:
                return Density(value)
            if _pointed(m) and LEAST_DENSITY <= value <= 2 and self.has("dense", "density"):
                return Density(value)
            # "a pint of wax at 0.9", "beeswax 0.96": only a density looks like that beside a volume
            if (
                _pointed(m)
                and BARE_LEAST <= value <= BARE_MOST
                and (room or self.wanted_volume())
                and m.of in ("wax", "fragrance", "total", "")
            ):
                return Density(value)
        return None

    def stuff(self, m: Measured | None = None) -> Stuff | None:
        """What the amount, or else the text, is about: wax, fragrance oil, or another thing named."""
        of = m.of if m is not None else ""
        if m is not None and of not in _STUFF:
            of = self._beside(m)
        if of not in _STUFF:
            heads = [head for _, head in self.scan.heads if head in ("wax", "fragrance", "dye", "water")]
            of = heads[0] if heads else ""
        return {"wax": Stuff.WAX, "fragrance": Stuff.FRAGRANCE, "dye": Stuff.DYE}.get(of, Stuff.OTHER if of else None)

    def _beside(self, m: Measured) -> str:
        """What stands right behind an amount, though a density follows: "500 ml melted wax density 0.85"."""
        for mark in self.scan.marks[m.at + 1 : m.at + 4]:
            if mark.kind in ("amount", "stop", "sign") or mark.noun in _STUFF:
                return mark.noun
            if mark.text not in JOINING:
                break
        return ""

    def state(self) -> State | None:
        """Flakes, molten or solid, where the words say so of the wax."""
        if self.has("flakes"):
            return State.FLAKES
        return State.MOLTEN if self.has("molten") else None

    def material(self, m: Measured | None = None) -> Material | None:
        """The name of a material that is on record in the book or published, nearest to the amount."""
        if self.has("water") and (m is None or m.of == "water"):
            return Material("water")
        name = m.name if m is not None else ""
        for candidate in (name, *self._names()):
            if candidate and self.book.material(candidate) is not None:
                return Material(candidate)
        return None

    def _names(self) -> list[str]:
        """Runs of up to three words of the text, longest first: what a recorded name may be."""
        words = [mark.text for mark in self.scan.marks if mark.kind == "word"][:60]
        return [" ".join(words[i : i + n]) for n in (3, 2, 1) for i in range(len(words) - n + 1)]


def unit_name(key: str) -> UnitName | None:
    """A unit key as the type a slot wants, None for ""."""
    return UnitName(key) if key else None


def _sum(found: list[Measured]) -> Mass | None:
    if not found:
        return None
    total = mass_of(found[0])
    for m in found[1:]:
        total = total + mass_of(m)
    return total


def _pointed(m: Measured) -> bool:
    return m.amount.value != m.amount.value.to_integral_value()


def _kind_name(m: Measured) -> str:
    return m.name if m.of == "wax" and m.name not in ("wax", "wx", "wachs") else ""
