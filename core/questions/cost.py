"""What a batch costs to make, and one candle of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import ClassVar

from core.answer import Answer, Line, Missing, Need, line, listed
from core.book import Book
from core.compounds import Basis, Load, Material, Stuff
from core.errors import OutOfRange
from core.mixing import Mix, Recipe
from core.question import Question, slot
from core.questions.basis import basis_of
from core.questions.cautions import load_cautions, too_much, too_much_answer
from core.questions.checks import above_zero, few_pieces
from core.questions.cost_answer import EACH, Part, costed, material_part, piece_part
from core.questions.household import country_assumed
from core.questions.known_density import known_density, need_density
from core.questions.money import one_currency
from core.units import Density, Mass, Money, Volume

NEED_WAX = Need(
    "weight_of_wax", line("the weight of the wax in the batch"), line("Or how much wax goes into one candle.")
)
NEED_COUNT = Need("count", line("how many candles the batch gives"))
NEED_WAX_PACK = Need("wax_pack", line("how much wax you get for that price"), line("Such as “5 kg”."))
NEED_WAX_PRICE = Need("wax_price", line("what the pack of wax costs"), line("Such as “39 eur”."))
NEED_OIL = Need("weight_of_fragrance", line("the weight of the fragrance oil, or the load"), line("Such as “8 %”."))
NEED_OIL_PACK = Need("fragrance_pack", line("how much fragrance oil you get for that price"), line("Such as “500 g”."))
NEED_OIL_PRICE = Need("fragrance_price", line("what the bottle of fragrance oil costs"), line("Such as “24 eur”."))
NEED_ANY = Need("prices", line("the prices: of wax and fragrance by the pack, of vessel, wick and lid each"))


@dataclass(frozen=True, slots=True, kw_only=True)
class CostQuestion(Question):
    """What a batch costs: wax, fragrance, vessels, wicks, lids, labels, packing; in all and per candle."""

    command: ClassVar[str] = "cost"

    count: int | None = slot("How many candles the batch gives", example="24")
    wax: Mass | None = slot("The wax for the whole batch, by weight", example="4.5 kg")
    candle: Mass | None = slot("Instead: the wax in one candle, by weight", example="180 g")
    wax_price: Money | None = slot("What a pack of wax costs", example="39 eur")
    wax_pack: Mass | None = slot("How much wax is in that pack", example="5 kg")
    fragrance: Mass | None = slot("The fragrance oil for the whole batch, by weight", example="360 g")
    load: Load | None = slot("Instead: the fragrance load", example="8%")
    basis: Basis | None = slot("What the load is a percent of")
    fragrance_price: Money | None = slot("What a bottle of fragrance oil costs", example="24 eur")
    fragrance_pack: Mass | Volume | None = slot("How much is in that bottle", example="500 g")
    density: Density | None = slot("The oil's density, where the bottle is sold by volume", example="0.95 g/ml")
    material: Material | None = slot("The oil's name: recorded or published")
    vessel: Money | None = slot("One vessel", example="1.20 eur")
    wick: Money | None = slot("One wick", example="0.10 eur")
    lid: Money | None = slot("One lid", example="0.40 eur")
    label: Money | None = slot("One label", example="0.15 eur")
    packing: Money | None = slot("The packing of one candle", example="0.60 eur")
    other: Money | None = slot("Anything else for the whole batch", example="3 eur")

    @property
    def intent(self) -> str:
        """Always the same."""
        return "cost"

    def answer(self, book: Book) -> Answer:
        """Worked where every price has its amount; Missing names those that lack one."""
        self._refuse_the_impossible()
        if self.load is not None and too_much(self.load.percent):
            return too_much_answer(self.load.percent)
        needs = self._needs()
        oil = self._oil(book)
        wax = self._wax()
        reached = Mix(wax, oil).load_of_wax if oil is not None and wax is not None else None
        if reached is not None and too_much(reached):
            return too_much_answer(reached)
        pack = self.fragrance_pack
        known = known_density(self.density, self.material, book)
        if isinstance(pack, Volume) and known is None:
            needs.append(need_density(Stuff.FRAGRANCE, self.material))
        if needs:
            return self._missing(needs)
        currency = one_currency(self._prices(), book.preferences.currency)
        parts: list[Part] = []
        if wax is not None and self.wax_price is not None and self.wax_pack is not None:
            parts.append(material_part("wax", wax, self.wax_pack, self.wax_price, currency))
        if oil is not None and self.fragrance_price is not None and pack is not None:
            weight = known.density.mass_of(pack) if isinstance(pack, Volume) and known is not None else pack
            assert isinstance(weight, Mass)
            parts.append(material_part("fragrance", oil, weight, self.fragrance_price, currency))
        parts += [piece_part(what, price, self.count or 1, currency) for what, price in self._each()]
        if self.other is not None:
            parts.append(Part("other", Money(self.other.base, currency), None))
        notes = [*self._basis_assumed(book), *country_assumed(pack if isinstance(pack, Volume) else None)]
        answer = costed(self, parts, oil, known if isinstance(pack, Volume) else None, notes)
        return replace(answer, cautions=load_cautions(reached, None)) if reached is not None else answer

    def _wax(self) -> Mass | None:
        if self.wax is not None:
            return self.wax
        return self.candle * self.count if self.candle is not None and self.count is not None else None

    def _oil(self, book: Book) -> Mass | None:
        wax = self._wax()
        if self.fragrance is not None or self.load is None or wax is None:
            return self.fragrance
        return Recipe(self.load.percent, self._basis(book)).of_wax(wax).fragrance

    def _basis(self, book: Book) -> Basis:
        return basis_of(self.load, self.basis, book)[0]

    def _basis_assumed(self, book: Book) -> tuple[Line, ...]:
        if self.fragrance is not None or self.load is None or self.load.basis is not None or self.basis is not None:
            return ()
        return (line(f"You didn't say what the percent is of; I took it as a percent {self._basis(book).value}."),)

    def _each(self) -> list[tuple[str, Money]]:
        return [(what, price) for what in EACH if (price := getattr(self, what)) is not None]

    def _prices(self) -> list[Money]:
        found = [self.wax_price, self.fragrance_price, self.other, *(price for _, price in self._each())]
        return [price for price in found if price is not None]

    def _needs(self) -> list[Need]:
        """Every amount or price that lacks the other."""
        if not self._prices():
            return [NEED_ANY]
        out: list[Need] = []
        if self.count is None and (self._each() or (self.candle is not None and self.wax is None)):
            out.append(NEED_COUNT)
        if self.wax_price is not None or self.wax_pack is not None:
            out += [NEED_WAX] if self.wax is None and self.candle is None else []
            out += [NEED_WAX_PACK] if self.wax_pack is None else []
            out += [NEED_WAX_PRICE] if self.wax_price is None else []
        if self.fragrance_price is not None or self.fragrance_pack is not None:
            if self.fragrance is None and self.load is None:
                out.append(NEED_OIL)
            elif self.fragrance is None and self.wax is None and self.candle is None and NEED_WAX not in out:
                out.append(NEED_WAX)
            out += [NEED_OIL_PACK] if self.fragrance_pack is None else []
            out += [NEED_OIL_PRICE] if self.fragrance_price is None else []
        return out

    def _missing(self, needs: list[Need]) -> Missing:
        if needs == [NEED_ANY]:
            head = line("I need prices to add up: of the wax, the fragrance, the vessel, the wick...")
        elif len(needs) > 2:
            head = line("I still need {0} more figures to add it up.", len(needs))
        else:
            head = line("I still need {}.", listed([need.what for need in needs], " and "))
        return Missing(intent=self.intent, headline=head, needs=tuple(needs), question=self)

    def _refuse_the_impossible(self) -> None:
        above_zero(weight_of_the_wax=self.wax, wax_in_a_candle=self.candle, size_of_the_wax_pack=self.wax_pack)
        above_zero(size_of_the_fragrance_bottle=self.fragrance_pack)
        if self.fragrance is not None and self.fragrance.base < 0:
            raise OutOfRange(str(self.fragrance.base), "A weight can't be less than nothing. Check the minus sign.")
        if self.load is not None and self.load.percent.base < 0:
            raise OutOfRange(str(self.load.percent.base), "A load can't be less than 0 %. Check the minus sign.")
        if self.count is not None:
            few_pieces(self.count)
