"""What a text gives, gathered for the builders of questions: the wax, the fragrance, the total, the unit asked for."""

from __future__ import annotations

from dataclasses import dataclass, field
from decimal import Decimal

from core.book import Book
from core.compounds import Masses, Material, State, Stuff, UnitName
from core.reading.marks import Mark, Measured, Scan
from core.reading.measuring import mass_of
from core.reading.share import Shares
from core.reading.tares import weighed_along
from core.reading.wordset import wordset
from core.units import Density, Mass, Temperature, Volume, kind_of

_WEIGHED = wordset("weighed weights scale scales weighted")
_DENYING = wordset("no not nothing never without neither nor dont don't didnt didn't doesnt doesn't wasnt wasn't")
_ASKED_REACH = 14
_TARED = wordset("tared zeroed deducted subtracted")
_CHECKING = ("right", "enough", "correct", "true", "sound", "ok", "okay", "false", "fine")
_SOLD = 8  # how many marks may part a pack from its price
BARE_LEAST, BARE_MOST = Decimal("0.7"), Decimal("1.1")
LEAST_DENSITY, MOST_DENSITY = Decimal("0.3"), Decimal("3")


@dataclass(slots=True)
class Givens:
    """A text with its amounts sorted out. `used` are where those stand that a builder took in or left out knowingly."""

    scan: Scan
    shares: Shares
    book: Book
    used: set[int] = field(default_factory=set)

    def has(self, *tags: str) -> bool:
        """Whether any of the tags was heard."""
        return self.scan.has(*tags)

    @property
    def by_weight(self) -> bool:
        """Whether the words say that ounces are weighed."""
        return self.scan.has("by_weight") or (self._speaks_of_weighing() and not self.has("no_scale"))

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
        return Masses(tuple((_kind_name(m), mass_of(m)) for m in found)) if found else None

    @property
    def tared(self) -> bool:
        """Whether the vessel has been taken off already."""
        return self.scan.says(_TARED) or (self.scan.says(("taken",)) and self.scan.says(("off", "away")))

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

    # what is asked for

    def asked(self) -> set[str]:
        """The things that are asked for: after "how much" or "what", or right before a question mark."""
        marks, out = self.scan.marks, set()
        for at, head in self.scan.heads:
            after = at
            while after < len(marks) and marks[after].noun:
                after += 1
            if after < len(marks) and _is_asked(marks, after) and not (at and marks[at - 1].text in ("of", "on")):
                out.add(head)
            i = at - 1
            while i >= 0 and at - i < _ASKED_REACH and marks[i].kind not in ("amount", "stop"):
                if marks[i].tags & {"asks", "what"}:
                    out.add(head)
                i -= 1
        return out

    def said_weight(self, m: Measured) -> bool:
        """Whether "weight" or "weighed" stands right by the amount."""
        near = (*self.scan.marks[max(0, m.at - 2) : m.at], *self.scan.marks[m.at + 1 : m.at + 4])
        return any(mark.text in ("weight", "weighed", "wt") for mark in near)

    @property
    def checks(self) -> bool:
        """Whether a figure of the asker's own is to be checked: "is 25 g right", "too much?"."""
        return self.scan.says(_CHECKING) or self.has("wrong", "enough")

    @property
    def asks_price(self) -> bool:
        """Whether a price is asked for; a price that is told stands beside its money."""
        marks = self.scan.marks
        for i, mark in enumerate(marks):
            if "price" in mark.tags or "per_unit" in mark.tags:
                near = marks[i + 1 : i + 5]
                told = [x for x in near if x.measured is not None and _tells_price(x.measured)]
                if not told or mark.text in ("cheaper", "cheapest"):
                    return True
        asked = self.has("price") and self.has("asks", "what")
        return asked and not self.shares.loads and bool(self.scan.kind("money"))

    @property
    def asks_packs(self) -> bool:
        """ "How many bags", "slabs needed"."""
        marks = self.scan.marks
        if self.has("buy") and self.scan.masses("pack") and not self.scan.kind("money") and not self.shares.loads:
            return True
        for at, head in self.scan.heads:
            if head in ("pack", "bottle") and _asks_how_many(marks):
                return True
            if head == "bottle" and any(mark.text == "how much" for mark in marks[max(0, at - 3) : at]):
                continue
            if head in ("pack", "bottle", "box"):
                before = marks[max(0, at - 3) : at]
                if any("asks" in mark.tags for mark in before) or (
                    at + 1 < len(marks) and marks[at + 1].text == "needed"
                ):
                    return True
        return False

    def wanted(self) -> list[str]:
        """The units named without a number, in order: what the answer is wanted in."""
        return [mark.unit for mark in self.scan.marks if mark.kind == "unit" and mark.unit and mark.unit != "percent"]

    def wanted_mass(self) -> str:
        """The first weight unit asked for, or ""."""
        return next((unit for unit in self.wanted() if kind_of(unit) is Mass), "")

    def wanted_volume(self) -> str:
        """The first volume unit asked for, or ""."""
        return next((unit for unit in self.wanted() if kind_of(unit) is Volume), "")

    @property
    def asks_percent(self) -> bool:
        """Whether a percent or a load is what is asked for."""
        if self.scan.kind("asked"):
            return True
        for mark in self.scan.marks:
            if mark.kind == "unit" and mark.unit == "percent":
                return True
            if mark.kind == "word" and not mark.tags.isdisjoint(("percent_word", "load")):
                return True
        return False

    @property
    def asks_load(self) -> bool:
        """Whether the load itself is asked for, not given beside its word: "what load", "load?"."""
        marks = self.scan.marks
        for i, mark in enumerate(marks):
            if "load" in mark.tags or "percent_word" in mark.tags:
                near = marks[max(0, i - 3) : i]
                after = marks[i + 1] if i + 1 < len(marks) else None
                closed = after is None or after.text == "?"
                if closed or any(x.tags & {"what", "asks"} for x in near):
                    return True
        return False

    @property
    def asks_density(self) -> bool:
        """Whether a density is spoken of and none is given."""
        return self.has("dense", "density") and self.density() is None

    # what else

    def density(self) -> Density | None:
        """The density given: a weight per volume, or a plain number beside the word."""
        for m in self.scan.kind("density"):
            return m.value if isinstance(m.value, Density) else None
        room = any(m.kind in ("volume", "length") for m in self.scan.found) or self.has("water")
        for m in self.scan.kind("number"):
            value = m.amount.value
            if m.of == "density" and LEAST_DENSITY <= value <= MOST_DENSITY:
                return Density(value)
            if _pointed(m) and LEAST_DENSITY <= value <= 2 and self.has("dense", "density"):
                return Density(value)
            # "a pint of wax at 0.9", "beeswax 0.96": only a density looks like that beside a volume
            if (
                _pointed(m)
                and BARE_LEAST <= value <= BARE_MOST
                and (room or self.wanted_volume())
                and m.of in ("wax", "fragrance", "")
            ):
                return Density(value)
        return None

    def temperature(self) -> Temperature | None:
        """The first temperature, if any."""
        return next((m.value for m in self.scan.found if isinstance(m.value, Temperature)), None)

    def stuff(self, m: Measured | None = None) -> Stuff | None:
        """What the amount, or else the text, is about: wax, fragrance oil, or another thing named."""
        of = m.of if m is not None else ""
        if of not in ("wax", "fragrance", "dye", "water", "additive"):
            heads = [head for _, head in self.scan.heads if head in ("wax", "fragrance", "dye", "water")]
            of = heads[0] if heads else ""
        return {"wax": Stuff.WAX, "fragrance": Stuff.FRAGRANCE}.get(of, Stuff.OTHER if of else None)

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


def _is_asked(marks: list[Mark], after: int) -> bool:
    """ "Wax?", "wax needed", "oil amount?" """
    text = marks[after].text
    closed = after + 1 >= len(marks) or marks[after + 1].text == "?"
    return text in ("?", "needed", "amount") or (text == "weight" and closed)


def _asks_how_many(marks: list[Mark]) -> bool:
    """ "How many" with nothing after it."""
    for i, mark in enumerate(marks):
        if mark.text in ("how many", "hw mny", "how mny", "hw many"):
            after = marks[i + 1] if i + 1 < len(marks) else None
            if after is None or after.kind == "stop" or after.text in ("and", ",", "do", "should", "to"):
                return True
    return False


def _tells_price(m: Measured) -> bool:
    return m.kind == "money" or (m.kind == "number" and m.amount.value != 1)


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
